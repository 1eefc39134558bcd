/**
 * A machine watched reading by reading: can it be trusted, which codes, is it in target, what is in alarm, where does it go.
 */

import type { AlarmCommand } from '../alarm/types.ts';
import { requireMembers, requireObject } from '../checks.ts';
import { motescaleError } from '../errors.ts';
import { gateReading } from '../reading/gate.ts';
import type { TimedReading } from '../reading/reading.ts';
import { laterOf, requireTime } from '../state/time.ts';
import { checkMonitorConfig, requireChecked } from './config.ts';
import { checkMonitorState, freshMonitorState, takenOver } from './monitorState.ts';
import { passTime } from './passTime.ts';
import { takeReading } from './reading.ts';
import type { MonitorConfig, MonitorEvent, MonitorInput, MonitorState, Verdict } from './types.ts';

/**
 * The state of a monitor that has heard nothing yet; or, for a configuration that has changed, the state that goes on from an earlier one.
 *
 * From an earlier state is taken over what is known of the readings, and every alarm and followed figure that has the same id and means the
 * same: type, figure and `withinMs` of an alarm, figure, `blockMs` and `blocks` of a followed figure. Their order does not matter. The others
 * begin anew, and what the configuration no longer has is forgotten. Under the same configuration nothing changes.
 *
 * Setpoints, deadbands, delays, targets, limits and tables may change under a running monitor: they apply from the next input on, so an alarm
 * that stands returns, or one is raised, at the next reading that says so.
 *
 * @param earlier a state of `startMonitor` or `advanceMonitor`, under any configuration
 * @throws `bad_configuration`; its `problems` name every mistake, alarms that would not fit the space of the state among them; `bad_state`.
 *
 * @example
 * ```ts
 * import { iso4406 } from 'motescale/codes';
 * import { startMonitor } from 'motescale/monitor';
 * import type { MonitorConfig } from 'motescale/monitor';
 * const config = {
 *   codes: [{ table: iso4406, target: '18/16/13' }],
 *   alarms: [{ id: 'hot', type: 'high', figure: { quantity: 'celsius' }, setpoint: 65 }],
 * } as const satisfies MonitorConfig; // without it, TypeScript takes 'high' for any text
 * startMonitor(config).version; // => 1
 * const wider = { ...config, alarms: [...config.alarms, { id: 'wet', type: 'high', figure: { quantity: 'waterSaturation' }, setpoint: 0.8 }] } as const;
 * startMonitor(wider, startMonitor(config)).alarms.map(({ id }) => id); // => ['hot', 'wet']
 * ```
 */
export function startMonitor(config: MonitorConfig, earlier?: MonitorState): MonitorState {
  checkMonitorConfig(config);
  return earlier === undefined ? freshMonitorState(config) : takenOver(config, earlier);
}

/**
 * Takes one input, a reading, a command to one alarm or only the time, and returns the new state, the verdict on the reading (null where
 * there was none), and what happened, in order of time.
 *
 * A reading is assessed (`assessReading`), classified in every table, held against the targets, handed to the alarms, and added to the blocks
 * of the followed figures. A bad one gets its verdict and moves no alarm and no trend; an uncertain one counts like a good one.
 *
 * Arrival: a reading whose time is among the last 16 is `repeated`: the first stands, an event tells, `contradicted` if figures differ. One
 * older than the last reading is `late`: it gets its verdict, an event names the alarms whose setpoint it lies beyond, and it enters blocks
 * still open; alarms are not taken back in time. One older than all 16 is `too_late`: the same, but it enters no block, since nobody can tell
 * whether it is a repetition. `state.counted` counts them all. Where a command or a mere time has gone ahead of a reading, the reading, and
 * any other input, counts as of that time.
 *
 * The state is plain JSON, at most 9984 bytes however long it runs, and may be saved and restored between any two inputs. The configuration
 * is checked by `startMonitor`. Setpoints, deadbands, delays, targets and limits may change between two inputs; for another alarm, another
 * followed figure, or another meaning of one, `startMonitor(config, state)` makes the state that goes on.
 *
 * A verdict supports the decision whether a machine may run; it never takes it. It is no protection: what guards people against pressure or
 * heat belongs in a safety system.
 *
 * @throws `bad_configuration` for one without its lists; `bad_state` for a state that is damaged, or of another version or
 * configuration (the error names the alarm or figure that does not fit); for an input the errors of `advanceAlarm` and `assessReading`.
 *
 * @example
 * ```ts
 * import { iso4406 } from 'motescale/codes';
 * import { cumulativeCounts } from 'motescale/counts';
 * import { advanceMonitor, startMonitor } from 'motescale/monitor';
 * const config = { codes: [{ table: iso4406, target: '18/16/13' }] };
 * const counts = cumulativeCounts({ 4: 18900, 6: 7020, 14: 330 }, { volumeMl: 10 });
 * const { verdict } = advanceMonitor(config, startMonitor(config), { time: 0, counts, kPa: 32 });
 * verdict?.codes[0]?.text; // => '18/17/12'
 * verdict?.inTarget; // => false
 * ```
 */
export function advanceMonitor(
  config: MonitorConfig,
  state: MonitorState,
  input: MonitorInput,
): { state: MonitorState; verdict: Verdict | null; events: MonitorEvent[] } {
  requireObject(config, 'config', 'a configuration that startMonitor has checked');
  requireChecked(config);
  checkMonitorState(config, state);
  requireObject(input, 'input', 'a reading { time, counts }, a command { time, alarm, command } or { time }');
  if (isReading(input)) {
    const taken = takeReading(config, state, gateReading(input, 'input'));
    return { ...taken, events: inOrderOfTime(taken.events) };
  }
  requireTime(input.time, 'input.time');
  requireMembers(input, 'input', 'command' in input ? ['time', 'alarm', 'command', 'forMs', 'oneShot'] : ['time']);
  if ('command' in input) return takeCommandToOne(config, state, input as AlarmCommand & { alarm: string });
  const events: MonitorEvent[] = [];
  const time = laterOf(state.time, input.time);
  const next = passTime(config, state, time, events, () => ({ time }));
  return { state: next, verdict: null, events: inOrderOfTime(events) };
}

function takeCommandToOne(
  config: MonitorConfig,
  state: MonitorState,
  input: AlarmCommand & { readonly alarm: string },
): { state: MonitorState; verdict: null; events: MonitorEvent[] } {
  const ids = state.alarms.map(({ id }) => id);
  const place = ids.indexOf(input.alarm);
  if (place < 0) throw motescaleError('unknown_option', 'input.alarm', input.alarm, `one of '${ids.join("', '")}'`);
  const events: MonitorEvent[] = [];
  const time = laterOf(state.time, input.time);
  const next = passTime(config, state, time, events, (i) => (i === place ? input : { time }));
  return { state: next, verdict: null, events: inOrderOfTime(events) };
}

/** A time alone, or with a command, is none; any other member makes a reading of it. */
function isReading(input: MonitorInput): input is TimedReading {
  return !('command' in input) && Object.keys(input).some((name) => name !== 'time');
}

/** Sorted by time; what happened at one time stays in the order it came. */
function inOrderOfTime(events: readonly MonitorEvent[]): MonitorEvent[] {
  const sorted: MonitorEvent[] = [];
  for (const event of events) {
    let place = sorted.length;
    while (place > 0 && (sorted[place - 1] as MonitorEvent).time > event.time) place -= 1;
    sorted.splice(place, 0, event);
  }
  return sorted;
}
