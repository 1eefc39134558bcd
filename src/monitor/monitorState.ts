/**
 * The beginning of a monitor's memory, new or from an earlier one, and the check of one that was restored.
 */

import { freshAlarmState } from '../alarm/alarmState.ts';
import { motescaleError } from '../errors.ts';
import { noRepeats } from '../reading/repeats.ts';
import { checkMonitorShape } from './checkState.ts';
import { blockOf } from './followed.ts';
import { freshFollowed } from './followedState.ts';
import { alarmPrint, followedPrint } from './meaning.ts';
import type { FollowedFigure, FollowedState, MonitorAlarm, MonitorConfig, MonitorState } from './types.ts';

/** The memory of a monitor that has heard nothing yet. */
export function freshMonitorState(config: MonitorConfig): MonitorState {
  return {
    version: 1,
    time: null,
    recent: [],
    repeats: noRepeats,
    counted: { inOrder: 0, bad: 0, late: 0, tooLate: 0, repeated: 0 },
    heard: null,
    stale: false,
    alarms: (config.alarms ?? []).map((alarm) => ({
      id: alarm.id,
      print: alarmPrint(alarm),
      state: freshAlarmState(),
    })),
    followed: (config.follow ?? []).map((follow) => freshFollowed(follow.id, followedPrint(follow))),
  };
}

/** An earlier memory under another configuration: what has the same id and meaning goes on, the rest begins. */
export function takenOver(config: MonitorConfig, earlier: MonitorState): MonitorState {
  checkMonitorShape(earlier, 'earlier');
  const fresh = freshMonitorState(config);
  const { version, time, recent, repeats, counted, heard, stale } = earlier;
  const alarms = fresh.alarms.map((alarm) => sameAs(alarm, earlier.alarms) ?? alarm);
  const followed = fresh.followed.map((one) => sameAs(one, earlier.followed) ?? one);
  const state = { version, time, recent, repeats, counted, heard, stale, alarms, followed };
  requireFit(config, state, 'earlier');
  return state;
}

function sameAs<Entry extends { readonly id: string; readonly print: number }>(
  wanted: Entry,
  entries: readonly Entry[],
): Entry | undefined {
  return entries.filter(({ id, print }) => id === wanted.id && print === wanted.print)[0];
}

/** Throws `bad_state` unless the state is one that the library made, for this configuration. */
export function checkMonitorState(config: MonitorConfig, state: MonitorState): void {
  checkMonitorShape(state, 'state');
  requireFit(config, state, 'state');
}

/** Alarm by alarm and figure by figure, in the order of the configuration. */
function requireFit(config: MonitorConfig, state: MonitorState, parameter: string): void {
  const { alarms: wanted = [], follow = [] } = config;
  const { alarms, followed, time } = state;
  let fits = alarms.length === wanted.length && followed.length === follow.length;
  for (let i = 0; fits && i < alarms.length; i += 1) {
    const { id, print } = alarms[i] as MonitorState['alarms'][number];
    const alarm = wanted[i] as MonitorAlarm;
    fits = id === alarm.id && print === alarmPrint(alarm);
  }
  for (let i = 0; fits && i < followed.length; i += 1) {
    const { id, print } = followed[i] as FollowedState;
    const figure = follow[i] as FollowedFigure;
    fits = id === figure.id && print === followedPrint(figure);
  }
  if (!fits) {
    const decides = 'the type, figure and withinMs';
    requireSame(`${parameter}.alarms`, alarms, wanted as readonly MonitorAlarm[], alarmPrint, decides);
    requireSame(`${parameter}.followed`, followed, follow, followedPrint, 'the figure, blockMs and blocks');
  }
  for (let i = 0; i < followed.length; i += 1) {
    const { open } = followed[i] as FollowedState;
    if (open !== null && (time === null || open.block > blockOf(follow[i] as FollowedFigure, time))) {
      const expected = `a block no later than ${parameter}.time`;
      throw motescaleError('bad_state', `${parameter}.followed[${i}].open.block`, open.block, expected);
    }
  }
}

/** Throws `bad_state` that names the entry that does not fit, and how. */
function requireSame<Wanted extends { readonly id: string }>(
  parameter: string,
  entries: readonly { readonly id: string; readonly print: number }[],
  wanted: readonly Wanted[],
  printOf: (one: Wanted) => number,
  decides: string,
): void {
  const remedy = 'startMonitor(config, state) takes over what fits';
  const bad = (place: string, id: unknown, expected: string) =>
    motescaleError('bad_state', place, id, `${expected}, as in the configuration; ${remedy}`);
  const ids = entries.map(({ id }) => id);
  for (const { id } of wanted) if (ids.indexOf(id) < 0) throw bad(parameter, ids.join(', '), `'${id}' among the ids`);
  for (let i = 0; i < ids.length; i += 1) {
    const { id, print } = entries[i] as { readonly id: string; readonly print: number };
    const one = wanted.filter((other) => other.id === id)[0];
    if (one === undefined) throw bad(`${parameter}[${i}].id`, id, 'an id of the configuration');
    if (print !== printOf(one)) throw bad(`${parameter}[${i}].print`, id, `${decides} of '${id}'`);
    if (wanted[i]?.id !== id) throw bad(`${parameter}[${i}].id`, id, `'${wanted[i]?.id}' in this place`);
  }
}
