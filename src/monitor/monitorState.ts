/**
 * The beginning of a monitor's memory, and the check of one that was restored.
 */
import { motescaleError } from '../errors.ts';
import { checkAlarmState, freshAlarmState, isAlarmState } from './alarmState.ts';
import { freshFollowed } from './followed.ts';
import type { MonitorConfig, MonitorState } from './monitorTypes.ts';

/** The memory of a monitor that has heard nothing yet. */
export function freshMonitorState(config: MonitorConfig): MonitorState {
  return {
    version: 1,
    time: null,
    recent: [],
    same: { print: 0, count: 0 },
    counted: { inOrder: 0, bad: 0, late: 0, tooLate: 0, repeated: 0 },
    heard: null,
    stale: false,
    alarms: (config.alarms ?? []).map(({ id }) => ({ id, state: freshAlarmState() })),
    followed: (config.follow ?? []).map(({ id }) => freshFollowed(id)),
  };
}

/** Throws `bad_state` unless the state is one of this configuration. */
export function checkMonitorState(config: MonitorConfig, state: MonitorState): void {
  const expected = 'a state of version 1, as startMonitor or advanceMonitor returned it for this configuration';
  const bad = () => motescaleError('bad_state', 'state', state, expected);
  if (typeof state !== 'object' || state === null || state.version !== 1) throw bad();
  const { alarms, followed, recent, counted, same } = state;
  const sound =
    Array.isArray(alarms) &&
    Array.isArray(followed) &&
    Array.isArray(recent) &&
    typeof counted === 'object' &&
    counted !== null &&
    typeof same === 'object' &&
    same !== null &&
    (state.time === null || typeof state.time === 'number');
  if (!sound) throw bad();
  const wanted = config.alarms ?? [];
  const wantedFollowed = config.follow ?? [];
  if (alarms.length !== wanted.length || followed.length !== wantedFollowed.length) throw bad();
  for (let i = 0; i < alarms.length; i += 1) {
    if (alarms[i]?.id !== wanted[i]?.id) throw bad();
    const { state: alarm } = alarms[i] as MonitorState['alarms'][number];
    if (!isAlarmState(alarm)) checkAlarmState(alarm, `state.alarms[${i}].state`);
  }
  for (let i = 0; i < followed.length; i += 1) {
    const { id, means, level } = followed[i] ?? {};
    if (id !== wantedFollowed[i]?.id || !Array.isArray(means) || typeof level !== 'object') throw bad();
  }
}
