/**
 * Checks what stands in the lists of a monitor's configuration: an alarm, a followed figure, a code of a table.
 */

import { checkAlarmConfig } from '../alarm/config.ts';
import type { AlarmConfig } from '../alarm/types.ts';
import { requireObject, requirePositive, requireWholeWithin } from '../checks.ts';
import { motescaleError } from '../errors.ts';
import { requireFigure } from '../judging/figures.ts';
import { requireCode } from '../judging/target.ts';
import type { WatchedTable } from '../judging/types.ts';
import { mostSaturation } from '../reading/rules.ts';
import { type ConfigurationProblem, note, noteUnknownMembers, throwProblems } from '../state/configuration.ts';
import { requireName } from '../state/names.ts';
import { requireSpan } from '../state/time.ts';
import { mostBlocks } from './followedState.ts';
import type { CodeAlarm, FigureAlarm, FollowedFigure, MonitorAlarm } from './types.ts';

/**
 * The alarm as `stepAlarm` takes it. Classes and scale numbers are whole, so their setpoint is taken half a class beyond itself, where no
 * figure lies: a figure on the setpoint is back. A code as setpoint becomes no class beyond it.
 */
export function asFigureAlarm(alarm: MonitorAlarm): AlarmConfig {
  if ('code' in alarm.figure) return { ...(alarm as CodeAlarm), setpoint: 1 / 2 };
  const { type, setpoint } = alarm as FigureAlarm;
  if (!('scaleNumberAt' in alarm.figure) || type === 'rise' || type === 'fall') return alarm as FigureAlarm;
  return {
    ...(alarm as FigureAlarm),
    setpoint: type === 'high' ? Math.floor(setpoint) + 1 / 2 : Math.ceil(setpoint) - 1 / 2,
  };
}

/** Throws `bad_configuration` with all that is wrong in an alarm. */
export function checkMonitorAlarm(alarm: MonitorAlarm, parameter: string, tables: readonly WatchedTable[]): void {
  const problems: ConfigurationProblem[] = [];
  note(problems, () => requireObject(alarm, parameter, 'an alarm { id, figure, type, setpoint }'));
  throwProblems(problems, parameter, alarm);
  const { figure } = alarm;
  if (typeof figure !== 'object' || figure === null || !('code' in figure)) {
    note(problems, () => requireFigure(figure, `${parameter}.figure`));
    note(problems, () => checkAlarmConfig(alarm as FigureAlarm, parameter, ['figure']));
    note(problems, () => checkSaturation(alarm as FigureAlarm, parameter));
  } else {
    const watched = tables.filter(({ table }) => table.id === figure.code)[0];
    note(problems, () => {
      if (watched === undefined)
        throw motescaleError(
          'unknown_option',
          `${parameter}.figure.code`,
          figure.code,
          'the id of a table in config.codes',
        );
      requireCode(watched.table, (alarm as CodeAlarm).setpoint, `${parameter}.setpoint`, watched.columns);
    });
    note(problems, () => {
      if (alarm.type !== 'high')
        throw motescaleError('unknown_option', `${parameter}.type`, alarm.type, "'high' for a code");
    });
    note(problems, () =>
      checkAlarmConfig({ ...alarm, type: 'high', setpoint: 0 } as FigureAlarm, parameter, ['figure']),
    );
  }
  throwProblems(problems, parameter, alarm);
}

/** A setpoint on the saturation is a share, as the figure is: one in percent would never be reached. */
function checkSaturation({ figure, setpoint }: FigureAlarm, parameter: string): void {
  const quantity = typeof figure === 'object' && figure !== null && 'quantity' in figure ? figure.quantity : null;
  if (
    quantity === 'waterSaturation' &&
    typeof setpoint === 'number' &&
    setpoint > mostSaturation &&
    setpoint < Infinity
  ) {
    throw motescaleError('out_of_range', `${parameter}.setpoint`, setpoint, 'a share, 0.45 for 45 %');
  }
}

/** Throws `bad_configuration` with all that is wrong in a followed figure. */
export function checkFollowed(followed: FollowedFigure, parameter: string): void {
  const problems: ConfigurationProblem[] = [];
  note(problems, () => requireObject(followed, parameter, 'a figure to follow { id, figure }'));
  throwProblems(problems, parameter, followed);
  const { blockMs, blocks, learn, slack, decision } = followed;
  note(problems, () => requireName(followed.id, `${parameter}.id`));
  note(problems, () => requireFigure(followed.figure, `${parameter}.figure`));
  if (blockMs !== undefined) note(problems, () => requireSpan(blockMs, `${parameter}.blockMs`, 60000));
  if (blocks !== undefined) note(problems, () => requireWholeWithin(blocks, `${parameter}.blocks`, 8, mostBlocks));
  if (learn !== undefined) note(problems, () => requireWholeWithin(learn, `${parameter}.learn`, 5, 1000));
  if (slack !== undefined) note(problems, () => requirePositive(slack, `${parameter}.slack`));
  if (decision !== undefined) note(problems, () => requirePositive(decision, `${parameter}.decision`));
  noteUnknownMembers(problems, followed, parameter, [
    'id',
    'figure',
    'blockMs',
    'blocks',
    'learn',
    'slack',
    'decision',
  ]);
  throwProblems(problems, parameter, followed);
}
