/**
 * The beginning of an alarm's memory, the check of one that was restored, and the name of the state it is in.
 */
import { motescaleError } from '../errors.ts';
import type { AlarmState, AlarmStateName } from './alarmTypes.ts';

/** The memory of an alarm that has heard nothing yet. */
export function freshAlarmState(): AlarmState {
  return {
    version: 1,
    time: null,
    read: null,
    active: false,
    latched: false,
    acknowledged: true,
    changed: null,
    pending: null,
    shelf: null,
    outOfService: false,
    announced: { active: false, stale: false, chattering: false },
    silentRaises: 0,
    value: null,
    heard: null,
    stale: false,
    raises: [],
    chattering: false,
    extremes: [],
  };
}

/** Returns the state as it came, or throws `bad_state`. */
export function checkAlarmState(state: AlarmState, parameter = 'state'): AlarmState {
  const expected = 'a state of version 1, as startAlarm or advanceAlarm returned it';
  if (typeof state !== 'object' || state === null || state.version !== 1)
    throw motescaleError('bad_state', parameter, state, expected);
  const sound =
    isNumberOrNull(state.time) &&
    isNumberOrNull(state.read) &&
    isNumberOrNull(state.pending) &&
    isNumberOrNull(state.heard) &&
    isNumberOrNull(state.changed) &&
    typeof state.active === 'boolean' &&
    typeof state.latched === 'boolean' &&
    typeof state.acknowledged === 'boolean' &&
    typeof state.outOfService === 'boolean' &&
    typeof state.stale === 'boolean' &&
    typeof state.chattering === 'boolean' &&
    typeof state.silentRaises === 'number' &&
    typeof state.announced === 'object' &&
    state.announced !== null &&
    (state.shelf === null || (typeof state.shelf === 'object' && typeof state.shelf.until === 'number')) &&
    isNumberOrNull(state.value) &&
    Array.isArray(state.raises) &&
    Array.isArray(state.extremes);
  if (!sound) throw motescaleError('bad_state', parameter, state, expected);
  return state;
}

function isNumberOrNull(value: unknown): boolean {
  return value === null || (typeof value === 'number' && isFinite(value));
}

/**
 * The name of the state an alarm is in. Out of service goes before shelved, and both before what the figure does.
 *
 * @example
 * ```ts
 * import { alarmStateName, startAlarm } from 'motescale/monitor';
 * alarmStateName(startAlarm({ id: 'tank oil hot', type: 'high', setpoint: 65 })); // => 'normal'
 * ```
 */
export function alarmStateName(state: AlarmState): AlarmStateName {
  checkAlarmState(state);
  if (state.outOfService) return 'out of service';
  if (state.shelf !== null) return 'shelved';
  if (state.active) return state.acknowledged ? 'acknowledged alarm' : 'unacknowledged alarm';
  if (state.latched) return state.acknowledged ? 'latched acknowledged' : 'latched unacknowledged';
  return state.acknowledged ? 'normal' : 'returned to normal unacknowledged';
}
