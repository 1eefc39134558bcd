/**
 * The passing of time for all that a monitor holds: stale readings, blocks that close, what falls due in the alarms.
 */
import { stepAlarm } from '../alarm/alarm.ts';
import type { AlarmInput } from '../alarm/types.ts';
import { asFigureAlarm } from './entries.ts';
import { closeBlock } from './followed.ts';
import type { ChangeEvent, FollowedFigure, MonitorAlarm, MonitorConfig, MonitorEvent, MonitorState } from './types.ts';

/** What time alone does, and to each alarm what `inputOf` says. */
export function passTime(
  config: MonitorConfig,
  state: MonitorState,
  time: number,
  events: MonitorEvent[],
  inputOf: (i: number) => AlarmInput,
): MonitorState {
  const heard = state.heard ?? time;
  const staleFrom = config.staleAfterMs === undefined ? Infinity : heard + config.staleAfterMs;
  const goneStale = !state.stale && time > staleFrom;
  if (goneStale) events.push({ time: staleFrom, event: 'readings_stale' });
  const changes: ChangeEvent[] = [];
  const followed = state.followed.map((one, i) =>
    closeBlock((config.follow as readonly FollowedFigure[])[i] as FollowedFigure, one, time, changes),
  );
  for (const change of changes) events.push(change);
  const alarms = state.alarms.map(({ id, print, state: before }, i) => {
    const alarm = asFigureAlarm((config.alarms as readonly MonitorAlarm[])[i] as MonitorAlarm);
    const step = stepAlarm(alarm, before, inputOf(i));
    for (const event of step.events) events.push(event);
    return { id, print, state: step.state };
  });
  const { recent, repeats, counted } = state;
  return { version: 1, time, recent, repeats, counted, heard, stale: state.stale || goneStale, alarms, followed };
}
