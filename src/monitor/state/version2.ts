/**
 * The state of version 2, which kept raises, changes and trends as objects and lists, as it is kept now.
 */
import { type Memory2, memory2Members, memoryOf2, requireStateRule } from '../../alarm/state.ts';
import { motescaleError } from '../../errors.ts';
import type { ListRule, ObjectRule, Rule } from '../../rules/rule.ts';
import { countRule, nameRule } from '../../state/rules.ts';
import { rules } from '../../trend/change/rules.ts';
import type { ChangeState } from '../../trend/change/types.ts';
import { keptFigures } from '../aside.ts';
import { keptTrend } from '../keptTrend.ts';
import { areMeans, keptChange, meanChars, meansIn } from '../means.ts';
import type { ClockDoubt, FollowedState, MonitorState, RollingTrend, WatchedAlarm } from '../types.ts';
import { monitorStateVersion } from './state.ts';
import { block, clockMembers, figure, monitorStateRule, openRule, trendRule, words } from './stateRules.ts';

interface Change2 extends Omit<ChangeState, 'ring'> {
  readonly unit: number;
  readonly means: string;
}

interface Clock2 extends Omit<ClockDoubt, 'ahead'> {
  readonly ahead?: Omit<NonNullable<ClockDoubt['ahead']>, 'last'> & {
    readonly last?: {
      readonly print: number;
      readonly alarms: readonly (number | null)[];
      readonly followed: readonly (number | null)[];
    };
  };
}

interface State2 extends Omit<MonitorState, 'version' | 'alarms' | 'followed' | 'clock'> {
  readonly clock?: Clock2;
  readonly alarms: readonly (Memory2 & Pick<WatchedAlarm, 'id' | 'of'>)[];
  readonly followed: readonly (Omit<FollowedState, 'change' | 'trend'> & {
    readonly change?: Change2;
    readonly trend?: RollingTrend;
  })[];
}

/** Throws `bad_state` for one that is damaged. */
export function stateOf2(state: unknown): MonitorState {
  requireStateRule(rule2(), state, 'state');
  const { alarms, followed, clock, ...rest } = state as State2;
  return {
    ...rest,
    ...(clock === undefined ? {} : { clock: clockOf2(clock) }),
    version: monitorStateVersion,
    alarms: alarms.map(({ id, of, ...memory }) => ({ id, of, ...memoryOf2(memory) })),
    followed: followed.map(({ change, trend, ...one }, i) => ({
      ...one,
      ...(change === undefined ? {} : { change: changeOf2(change, `state.followed[${i}].change`) }),
      ...(trend === undefined ? {} : { trend: keptTrend(trend) }),
    })),
  };
}

function clockOf2({ ahead, ...rest }: Clock2): ClockDoubt {
  if (ahead === undefined) return rest;
  const { last, ...one } = ahead;
  if (last === undefined) return { ...rest, ahead: one };
  const { print, alarms, followed: means } = last;
  return { ...rest, ahead: { ...one, last: { print, alarms: keptFigures(alarms), followed: keptFigures(means) } } };
}

function changeOf2({ unit, means, ...learned }: Change2, parameter: string): string {
  const sound = areMeans(means) && (means === '' || (learned.last !== null && learned.since !== null));
  if (!sound) throw motescaleError('bad_state', parameter, means, 'means that begin and end with a value');
  return keptChange({ ...learned, ring: meansIn(means, 0, unit) });
}

/** What the change detector remembered. */
function changeRule(): ObjectRule {
  return {
    kind: 'object',
    members: {
      last: { ...block, nullable: true },
      unit: { kind: 'number', whole: true, least: -18, most: 54 },
      means: { kind: 'text', shortest: 0, longest: meanChars * rules.ringDays },
      since: { ...block, nullable: true },
      settled: { kind: 'flag' },
      level: { ...figure, nullable: true },
      steps: {
        kind: 'object',
        members: { count: { ...countRule, most: 8280 }, square: { kind: 'number', least: 0, most: 1e130 } },
      },
    },
  };
}

function rule2(): ObjectRule {
  const rule = monitorStateRule();
  const { alarms, followed } = rule.members as { readonly alarms: ListRule; readonly followed: ListRule };
  const version: Rule = { kind: 'number', least: 2, most: 2 };
  const alarm: Rule = { kind: 'object', members: { id: nameRule, of: words, ...memory2Members() } };
  const trend = trendRule(['rising', 'falling', 'not_distinguishable']);
  const one: Rule = {
    kind: 'object',
    members: {
      id: nameRule,
      of: words,
      open: { ...openRule, optional: true },
      change: { ...changeRule(), optional: true },
      trend: { ...trend, optional: true },
    },
  };
  const clock: Rule = {
    kind: 'object',
    members: clockMembers((longest) => ({ kind: 'list', shortest: 0, longest, of: { ...figure, nullable: true } })),
    optional: true,
  };
  const lists = { alarms: { ...alarms, of: alarm }, followed: { ...followed, of: one } };
  return { ...rule, members: { ...rule.members, version, clock, ...lists } };
}
