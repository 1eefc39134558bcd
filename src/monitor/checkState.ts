/**
 * What the state of a monitor is made of, member by member, whatever the configuration: asked at every input, so without detours.
 */

import { checkAlarmState, isAlarmState } from '../alarm/alarmState.ts';
import { motescaleError } from '../errors.ts';
import { isRepeats } from '../reading/repeatsState.ts';
import { isCount, isListOf, isObject, isTime, isTimeOrNull } from '../state/members.ts';
import { remembered } from './arrivals.ts';
import { isFollowedState } from './followedState.ts';
import type { MonitorState } from './types.ts';

/** Far more than fit the space of a state. */
const mostEntries = 100;

/** Throws `bad_state` unless the state is one that the library made. */
export function checkMonitorShape(state: MonitorState, parameter: string): void {
  const bad = (place: string, value: unknown) =>
    motescaleError('bad_state', place, value, 'a state of version 1, as startMonitor or advanceMonitor returned it');
  if (!isObject(state) || state.version !== 1) throw bad(parameter, state);
  const { time, recent, repeats, counted, heard, stale, alarms, followed } = state;
  if (!isTimeOrNull(time)) throw bad(`${parameter}.time`, time);
  if (!isRecent(recent)) throw bad(`${parameter}.recent`, recent);
  if (!isRepeats(repeats)) throw bad(`${parameter}.repeats`, repeats);
  if (!isCounted(counted)) throw bad(`${parameter}.counted`, counted);
  if (!isTimeOrNull(heard)) throw bad(`${parameter}.heard`, heard);
  if (typeof stale !== 'boolean') throw bad(`${parameter}.stale`, stale);
  if (!Array.isArray(alarms) || alarms.length > mostEntries) throw bad(`${parameter}.alarms`, alarms);
  for (let i = 0; i < alarms.length; i += 1) {
    const alarm = alarms[i] as MonitorState['alarms'][number];
    const named = isObject(alarm) && typeof alarm.id === 'string' && isCount(alarm.print);
    if (!named) throw bad(`${parameter}.alarms[${i}]`, alarm);
    if (!isAlarmState(alarm.state)) checkAlarmState(alarm.state, `${parameter}.alarms[${i}].state`);
  }
  if (!Array.isArray(followed) || followed.length > mostEntries) throw bad(`${parameter}.followed`, followed);
  for (let i = 0; i < followed.length; i += 1) {
    const one = followed[i] as MonitorState['followed'][number];
    if (!isFollowedState(one)) throw bad(`${parameter}.followed[${i}]`, one);
  }
}

/** Oldest first. */
function isRecent(recent: MonitorState['recent']): boolean {
  let before = -Infinity;
  return isListOf(recent, remembered, (entry) => {
    if (!Array.isArray(entry) || entry.length !== 2 || !isTime(entry[0]) || !isCount(entry[1])) return false;
    const later = entry[0] > before;
    before = entry[0];
    return later;
  });
}

function isCounted(counted: MonitorState['counted']): boolean {
  return (
    isObject(counted) &&
    isCount(counted.inOrder) &&
    isCount(counted.bad) &&
    isCount(counted.late) &&
    isCount(counted.tooLate) &&
    isCount(counted.repeated)
  );
}
