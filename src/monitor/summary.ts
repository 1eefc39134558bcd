/** What stands, by a state alone: for a panel after a restart, and for a unit of which no reading comes. */
import { nameOfState } from '../alarm/memory.ts';
import { isRateOfChange } from '../alarm/plan.ts';
import { requirePrepared } from '../state/prepared.ts';
import { sightsOf } from './followed/figures.ts';
import { requireMonitorState } from './state/state.ts';
import type { AlarmSummary, AlarmWatch, MonitorState, PreparedMonitor } from './types.ts';

/**
 * The state of each alarm, with its figure, setpoint, priority and note, as of the last input, in the order of the
 * configuration; and of each followed figure how small a step would be told. A verdict has the alarms as well, but a
 * command, a tick and a restart bring none. Hand in a tick first where time may have passed: that readings fail to come
 * shows then.
 *
 * Normal is not the same as safe: `stale` and `bad` say what is not known. What guards people against pressure or heat
 * belongs in a safety system.
 *
 * @param prepared of `prepareMonitor`
 * @param state of `startMonitor`, `advanceMonitor` or `resumeMonitor` under the same configuration
 * @throws `not_prepared`, `bad_state`
 *
 * @example
 * ```ts
 * import { advanceMonitor, alarmSummary, prepareMonitor, startMonitor } from 'motescale/monitor';
 * const prepared = prepareMonitor({
 *   codes: [],
 *   alarms: [{ id: 'hot', type: 'high', figure: { quantity: 'celsius' }, setpoint: 65 }],
 * });
 * const { state } = advanceMonitor(prepared, startMonitor(prepared), { time: 1772323200000, celsius: 71 });
 * const after = advanceMonitor(prepared, state, { kind: 'tick', time: 1772323260000 });
 * after.verdict; // => null
 * const [hot] = alarmSummary(prepared, after.state).alarms;
 * [hot?.state, hot?.since, hot?.value, hot?.setpoint]; // => ['unacknowledged_alarm', 1772323200000, 71, 65]
 * ```
 */
export function alarmSummary(prepared: PreparedMonitor, state: MonitorState): AlarmSummary {
  requirePrepared(prepared, 'monitor', 'prepareMonitor');
  requireMonitorState(prepared, state);
  return {
    time: state.time ?? null,
    stale: state.stale === true,
    bad: state.bad ?? [],
    alarms: state.alarms.map((alarm, i) => {
      const { type, withinMs, details } = (prepared.alarms[i] as AlarmWatch).plan;
      const { id, since = null, value = null } = alarm;
      const change = isRateOfChange(type) ? { type, withinMs } : {};
      return { id, state: nameOfState(alarm), since, value, ...details, ...change };
    }),
    followed: sightsOf(prepared.follow, state.followed),
  };
}
