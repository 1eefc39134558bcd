/**
 * The beginning of an alarm's memory, the check of one that was restored, and the name of the state it is in.
 */
import { motescaleError } from '../errors.ts';
import {
  isCount,
  isFigure,
  isFigureOrNull,
  isListOf,
  isObject,
  isTime,
  isTimeOrNull,
  isWholeUpTo,
} from '../state/members.ts';
import { mostRaises } from './config.ts';
import type { Draft } from './silence.ts';
import type { AlarmState, AlarmStateName } from './types.ts';

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

/** A copy to work on, at a later time. Member by member: it is made at every reading, and engines are quicker at that than at a spread. */
export function draftOf(state: AlarmState, time: number): Draft {
  return {
    version: 1,
    time,
    read: state.read,
    active: state.active,
    latched: state.latched,
    acknowledged: state.acknowledged,
    changed: state.changed,
    pending: state.pending,
    shelf: state.shelf,
    outOfService: state.outOfService,
    announced: state.announced,
    silentRaises: state.silentRaises,
    value: state.value,
    heard: state.heard,
    stale: state.stale,
    raises: state.raises,
    chattering: state.chattering,
    extremes: state.extremes,
  };
}

/** Returns the state as it came, or throws `bad_state`. */
export function checkAlarmState(state: AlarmState, parameter = 'state'): AlarmState {
  if (isAlarmState(state)) return state;
  throw motescaleError(
    'bad_state',
    parameter,
    state,
    'a state of version 1, as startAlarm or advanceAlarm returned it',
  );
}

/** Whether it is one that the library made. */
export function isAlarmState(state: AlarmState): boolean {
  return (
    isObject(state) &&
    state.version === 1 &&
    isTimeOrNull(state.time) &&
    isTimeOrNull(state.read) &&
    isTimeOrNull(state.pending) &&
    isTimeOrNull(state.heard) &&
    isTimeOrNull(state.changed) &&
    typeof state.active === 'boolean' &&
    typeof state.latched === 'boolean' &&
    typeof state.acknowledged === 'boolean' &&
    typeof state.outOfService === 'boolean' &&
    typeof state.stale === 'boolean' &&
    typeof state.chattering === 'boolean' &&
    isCount(state.silentRaises) &&
    isAnnounced(state.announced) &&
    (state.shelf === null || isShelf(state.shelf)) &&
    isFigureOrNull(state.value) &&
    isListOf(state.raises, mostRaises, isTime) &&
    (!state.chattering || state.raises.length > 0) &&
    isListOf(state.extremes, mostExtremes, isExtreme)
  );
}

const mostExtremes = 25;

function isAnnounced(announced: AlarmState['announced']): boolean {
  return (
    isObject(announced) &&
    typeof announced.active === 'boolean' &&
    typeof announced.stale === 'boolean' &&
    typeof announced.chattering === 'boolean'
  );
}

/** The end may lie a longest shelf beyond the last of times. */
function isShelf(shelf: AlarmState['shelf'] & object): boolean {
  return isObject(shelf) && isWholeUpTo(shelf.until, 2e16) && typeof shelf.oneShot === 'boolean';
}

/** The number of a part of time, and a figure. */
function isExtreme(entry: AlarmState['extremes'][number]): boolean {
  return Array.isArray(entry) && entry.length === 2 && isWholeUpTo(entry[0], 3e17) && isFigure(entry[1]);
}

/**
 * The name of the state an alarm is in. Out of service goes before shelved, and both before what the figure does.
 *
 * @example
 * ```ts
 * import { alarmStateName, startAlarm } from 'motescale/alarm';
 * alarmStateName(startAlarm({ id: 'tank oil hot', type: 'high', setpoint: 65 })); // => 'normal'
 * ```
 */
export function alarmStateName(state: AlarmState): AlarmStateName {
  return nameOfState(checkAlarmState(state));
}

/** The same of a state already checked. */
export function nameOfState(state: AlarmState): AlarmStateName {
  if (state.outOfService) return 'out of service';
  if (state.shelf !== null) return 'shelved';
  if (state.active) return state.acknowledged ? 'acknowledged alarm' : 'unacknowledged alarm';
  if (state.latched) return state.acknowledged ? 'latched acknowledged' : 'latched unacknowledged';
  return state.acknowledged ? 'normal' : 'returned to normal unacknowledged';
}
