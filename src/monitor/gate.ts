/** The one gate of a monitor's inputs: each is checked here, once, by its kind. */
import { alarmCommandRule, tickRule } from '../alarm/rules.ts';
import { requireObject } from '../checks.ts';
import { motescaleError } from '../errors.ts';
import { gateReading } from '../reading/gate.ts';
import { timedReadingRule } from '../reading/rules.ts';
import { requireTableIds } from '../reading/tableIds.ts';
import { requireRule } from '../rules/require.ts';
import type { ObjectRule } from '../rules/rule.ts';
import { oneOf } from '../rules/words.ts';
import { inputTimeRule, nameRule } from '../state/rules.ts';
import type { MonitorCommand, MonitorInput, PreparedMonitor } from './types.ts';

/** A reading, which may say that it is one. */
export const monitorReadingRule: ObjectRule = {
  ...timedReadingRule,
  members: { kind: { kind: 'word', words: ['reading'], optional: true }, ...timedReadingRule.members },
};

const relearnRule: ObjectRule = {
  kind: 'object',
  expected: "{ kind: 'relearn', time, followed }",
  members: {
    kind: { kind: 'word', words: ['relearn'] },
    time: inputTimeRule,
    followed: { ...nameRule, expected: 'the id of a followed figure', optional: true },
  },
};

/** Throws unless the input is one of the four kinds, with all it needs and nothing else. */
export function requireInput(prepared: PreparedMonitor, input: MonitorInput): void {
  requireObject(input, 'input', "a reading { time, ... }, or an input of kind 'tick', 'command' or 'relearn'");
  switch (input.kind) {
    case undefined:
    case 'reading':
      requireTableIds(gateReading(input, 'input', monitorReadingRule), prepared.tableIds, 'input');
      return;
    case 'tick':
      requireRule(tickRule, input, 'input');
      return;
    case 'command': {
      requireRule(alarmCommandRule((input as MonitorCommand).command, { alarm: nameRule }), input, 'input');
      const ids = prepared.alarms.map(({ plan }) => plan.id);
      requireId(ids, input.alarm, 'input.alarm', 'alarms');
      return;
    }
    case 'relearn': {
      requireRule(relearnRule, input, 'input');
      const ids = prepared.follow.map(({ id }) => id);
      if (input.followed !== undefined) requireId(ids, input.followed, 'input.followed', 'followed figures');
      return;
    }
    default: {
      const { kind } = input as { readonly kind: unknown };
      throw motescaleError('unknown_option', 'input.kind', kind, "one of 'reading', 'tick', 'command', 'relearn'");
    }
  }
}

function requireId(ids: readonly string[], id: string, parameter: string, what: string): void {
  if (ids.indexOf(id) >= 0) return;
  const expected = ids.length === 0 ? `none: the configuration has no ${what}` : oneOf(ids);
  throw motescaleError('unknown_option', parameter, id, expected);
}
