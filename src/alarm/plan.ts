/**
 * From the configuration of an alarm to its plan: checked, filled in, and all worked out that a step would else work
 * out each time.
 */
import { noteProblem, type Path, type Problem } from '../errors.ts';
import { subtractDecimals } from '../numeric/decimal.ts';
import { alarmDefaults } from './rules.ts';
import type { AlarmConfig, AlarmPlan, AlarmSettings, AlarmType } from './types.ts';

/** Whether an alarm looks at a change and not at the figure itself. */
export function isRateOfChange(type: AlarmType): type is 'rise' | 'fall' {
  return type === 'rise' || type === 'fall';
}

/**
 * What rules of single members cannot say: what a type needs, and what it must not have. Asked of members that keep
 * their rules.
 */
export function noteAlarmMistakes(config: AlarmConfig, path: Path, problems: Problem[]): void {
  const { type, setpoint, withinMs, deadband = 0 } = config;
  if (!isRateOfChange(type)) {
    if (withinMs !== undefined)
      noteProblem(problems, [...path, 'withinMs'], 'unknown_option', withinMs, "nothing, except for 'rise' or 'fall'");
    return;
  }
  if (withinMs === undefined)
    noteProblem(problems, [...path, 'withinMs'], 'wrong_type', withinMs, 'the time looked back over, in milliseconds');
  if (setpoint <= 0) noteProblem(problems, [...path, 'setpoint'], 'out_of_range', setpoint, 'an amount above 0');
  else if (deadband >= setpoint)
    noteProblem(problems, [...path, 'deadband'], 'out_of_range', deadband, `less than the setpoint ${setpoint}`);
}

/** What an alarm looks at. */
interface Looked {
  readonly type: AlarmType;
  /** The limit that raises it. */
  readonly setpoint: number;
  readonly withinMs?: number | undefined;
  /** Of a monitor: the figure, and the setpoint as it is told. */
  readonly figure?: string;
  readonly told?: number | string;
}

/** Works the plan out of a configuration that has been checked. */
export function planOf(settings: AlarmSettings, looked: Looked): AlarmPlan {
  const { id, deadband = 0, onDelayMs = 0, note, chattering = alarmDefaults.chattering } = settings;
  const { type, setpoint, withinMs = 0, figure } = looked;
  const limit = type === 'low' ? 0 - setpoint : setpoint;
  const of = figure === undefined ? type : `${type} ${figure}`;
  return {
    id,
    of: isRateOfChange(type) ? `${of} in ${withinMs} ms` : of,
    type,
    limit,
    back: subtractDecimals(limit, deadband),
    withinMs,
    onDelayMs,
    offDelayMs: settings.offDelayMs ?? onDelayMs,
    latching: settings.latching === true,
    longestShelfMs: settings.longestShelfMs ?? alarmDefaults.longestShelfMs,
    staleAfterMs: settings.staleAfterMs === undefined ? 'usual' : settings.staleAfterMs,
    reAlarmAfterMs: settings.reAlarmAfterMs ?? null,
    chattering: { raises: chattering.raises, withinMs: chattering.withinMs },
    suppressedInModes: (settings.suppressedInModes ?? []).slice(),
    details: {
      setpoint: looked.told ?? setpoint,
      priority: settings.priority ?? alarmDefaults.priority,
      ...(figure === undefined ? {} : { figure }),
      ...(note === undefined ? {} : { note }),
    },
  };
}
