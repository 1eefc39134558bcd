/** The door for the state of an alarm from outside: after a restart, an update, or a change of the configuration. */

import { isVersion1, requireStateRule } from '../rules/require.ts';
import { requireNoneLater } from '../state/noLater.ts';
import { requirePrepared } from '../state/prepared.ts';
import { stateOf1 } from './earlier.ts';
import { nameOfState } from './memory.ts';
import { alarmStateRule, alarmStateVersion, requireSoundMemory } from './state.ts';
import type { AlarmEvent, AlarmMemory, AlarmPlan, AlarmState, PreparedAlarm } from './types.ts';

/**
 * The state to go on from after it was saved: of this version of the library or of any before, under this configuration
 * or another.
 *
 * Setpoint, deadband, delays and all else that is applied to what comes next may have changed. Where the figures it
 * keeps mean something else now (another `type` or `withinMs`), the alarm begins anew, and an event tells how it stood.
 * A shelf that lasts longer than `longestShelfMs` after the last input ends then, and `shelved` tells until when.
 *
 * @param state what `startAlarm`, `advanceAlarm` or `resumeAlarm` returned once, through JSON or not; checked as a
 *   whole
 * @returns the state; `events`: a `dropped` where an alarm that stood begins anew, a `shelved` where a shelf ends
 *   sooner; `kept`, `dropped`, `added`: the id of the alarm
 * @throws `not_prepared`; `bad_state` that names the member that is damaged
 *
 * @example
 * ```ts
 * import { advanceAlarm, prepareAlarm, resumeAlarm, startAlarm } from 'motescale/alarm';
 * const prepared = prepareAlarm({ id: 'hot', type: 'high', setpoint: 65 });
 * const saved = JSON.stringify(advanceAlarm(prepared, startAlarm(prepared), { time: 0, value: 70 }).state);
 * resumeAlarm(prepared, JSON.parse(saved)).kept; // => ['hot']
 * const other = prepareAlarm({ id: 'hot', type: 'rise', setpoint: 5, withinMs: 3600000 });
 * resumeAlarm(other, JSON.parse(saved)).events[0];
 * // => { time: 0, alarm: 'hot', event: 'dropped', state: 'unacknowledged_alarm' }
 * ```
 */
export function resumeAlarm(
  prepared: PreparedAlarm,
  state: unknown,
): { state: AlarmState; events: AlarmEvent[]; kept: string[]; dropped: string[]; added: string[] } {
  requirePrepared(prepared, 'alarm', 'prepareAlarm');
  const { id, of } = prepared;
  let now = state as AlarmState;
  if (isVersion1(state)) now = stateOf1(prepared, state);
  else requireStateRule(alarmStateRule(), state);
  const { time } = now;
  requireSoundMemory(now, 'state', time, now.of === of ? prepared : undefined);
  requireNoneLater(now, 'state', time);
  if (now.of === of) {
    const events: AlarmEvent[] = [];
    const state = withShelfEnd(prepared, now, time ?? 0, events);
    return { state, events, kept: [id], dropped: [], added: [] };
  }
  const gone = droppedOf(now, id, time ?? 0);
  const fresh: AlarmState = { version: alarmStateVersion, of, ...(time === undefined ? {} : { time }) };
  return { state: fresh, events: gone === null ? [] : [gone], kept: [], dropped: [id], added: [id] };
}

/**
 * The memory of one that goes on: a shelf ends after the longest of now, reckoned from the last input, and that is
 * told. One of before may have been longer, and one that is damaged has no end.
 */
export function withShelfEnd<Memory extends AlarmMemory>(
  { id, longestShelfMs }: AlarmPlan,
  memory: Memory,
  time: number,
  events: AlarmEvent[],
): Memory {
  const until = time + longestShelfMs;
  if (memory.shelf === undefined || memory.shelf.until <= until) return memory;
  events.push({ time, alarm: id, event: 'shelved', until });
  return { ...memory, shelf: { ...memory.shelf, until } };
}

/** The event of an alarm that does not go on; null where it has nothing to tell that stood. */
export function droppedOf(memory: AlarmMemory, alarm: string, time: number): AlarmEvent | null {
  const state = nameOfState(memory);
  const { stale, bad, chattering, heard } = memory;
  if (state === 'normal' && stale !== true && bad !== true && chattering !== true) return null;
  const since = stale === true && heard !== undefined ? { since: heard } : {};
  return { time, alarm, event: 'dropped', state, ...since };
}
