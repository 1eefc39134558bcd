/**
 * A machine watched reading by reading: can it be trusted, which codes, is it in target, what is in alarm, where does
 * it go.
 */
import { requirePrepared } from '../state/prepared.ts';
import { inOrderOfTime, type Moment, takeMoment } from './clock/moment.ts';
import { requireInput } from './gate.ts';
import { freshMonitorState, requireMonitorState } from './state/state.ts';
import { takeReading, verdictAfter } from './take.ts';
import type { MonitorEvent, MonitorInput, MonitorState, PreparedMonitor, ReadingInput, Verdict } from './types.ts';

/**
 * The state of a monitor that has heard nothing yet. One that was saved comes in through `resumeMonitor`.
 *
 * @throws `not_prepared`
 *
 * @example
 * ```ts
 * import { iso4406 } from 'motescale/codes';
 * import { prepareMonitor, startMonitor } from 'motescale/monitor';
 * const prepared = prepareMonitor({
 *   codes: [{ table: iso4406, target: '18/16/13' }],
 *   alarms: [{ id: 'hot', type: 'high', figure: { quantity: 'celsius' }, setpoint: 65 }],
 * });
 * startMonitor(prepared).alarms; // => [{ id: 'hot', of: 'high celsius' }]
 * ```
 */
export function startMonitor(prepared: PreparedMonitor): MonitorState {
  requirePrepared(prepared, 'monitor', 'prepareMonitor');
  return freshMonitorState(prepared);
}

/**
 * Takes one input and returns the new state, the verdict on the reading (null where there was none), and what happened,
 * in order of time.
 *
 * A reading (`kind` may be left out) is assessed (`assessReading`), classified in every table, held against the
 * targets, handed to the alarms, and added to the blocks of the followed figures. Trust belongs to a figure: each
 * alarm, followed figure and target looks at the quality of its own figure only. A bad figure moves nothing; an
 * uncertain one counts like a good one. The other kinds are a `command` to one alarm, a `tick`, which is only the
 * passing of time, and `relearn`, after which what is usual for a followed figure is learned anew.
 *
 * Arrival: a reading whose time is among the last 16 is `repeated`: the first stands, an event tells, `contradicted` if
 * figures differ. But one that brings only figures which that time lacks is of another instrument, and taken as any
 * other: in order beside the newest, late beside an older one. One older than the last reading is `late`: it gets its
 * verdict, and enters blocks still open. Alarms are not taken back in time: one judges it that has not heard its figure
 * since it was taken, as of a bottle or another instrument, and an event names the others whose setpoint it lies
 * beyond. One older than all 16 is `too_late`: the same, but it enters no block that has a value, since nobody can tell
 * whether it is a repetition. `state.arrivals` counts them all. Where a command or a tick has gone ahead of an input,
 * what the input changes is told as of that time; of a reading, delays, rates and blocks go by when it was taken, and
 * `taken` of the events says when that was.
 *
 * Clock: an input further ahead than `clockJumpMs` is set aside; the next one decides whether the clock has been set or
 * that one was wrong. Three inputs behind the monitor's time, in ascending order with none newer between, show that the
 * clock has been set back. Then the monitor goes on with the clock that the readings show: delays begin anew,
 * acknowledgements, latches and levels stand, a shelf keeps the time it has left, and `clock_set` says from when to
 * when. The alarms then judge the last reading set aside, as of its time, or as of when it came where the clock is kept
 * (`clock_kept`): `judged` names it, and `lost` any others. `receivedAt`, the host's clock, decides at once: a reading
 * ahead of the last but not of the host's clock comes after a gap; one that agrees with the host's clock where the
 * monitor's time is ahead of that shows a clock set back, and so does one that comes after the usual wait at a time
 * where no reading is missing. Readings delivered late in one go are then late. A `time` that `receivedAt` shows to be
 * in seconds is refused. Without `receivedAt` it is taken for one of January 1970: nothing tells it from a clock that
 * began there or a simulation that starts at 0. Let `parseMonitorReading` of `motescale/schema` read what comes from
 * outside: it refuses such times.
 *
 * From a file, sort the readings by time first, and leave out those later than the file: newest line first, no alarm is
 * raised. docs/files.md, "Times of a file".
 *
 * A verdict supports the decision whether a machine may run; it never takes it. It is no protection: what guards people
 * against pressure or heat belongs in a safety system.
 *
 * @param prepared of `prepareMonitor`
 * @param state of `startMonitor`, `advanceMonitor` or `resumeMonitor` under the same configuration: plain JSON, at most
 *   `prepared.stateBytes`
 * @throws `not_prepared`; `bad_state` that names what does not fit; `unknown_option` for a code under an id that
 *   neither a standard nor a table of the configuration has; for an input that is not whole the code of its
 * first mistake, and in `problemsOf` every one.
 *
 * @example
 * ```ts
 * import { iso4406 } from 'motescale/codes';
 * import { cumulativeCounts } from 'motescale/counts';
 * import { advanceMonitor, prepareMonitor, startMonitor } from 'motescale/monitor';
 * const prepared = prepareMonitor({ codes: [{ table: iso4406, target: '18/16/13' }] });
 * const counts = cumulativeCounts({ 4: 18900, 6: 7020, 14: 330 }, { volumeMl: 10 });
 * const { verdict } = advanceMonitor(prepared, startMonitor(prepared), { time: 0, counts, kPa: 32 });
 * verdict?.codes[0]?.text; // => '18/17/12'
 * verdict?.inTarget; // => false
 * ```
 */
export function advanceMonitor(
  prepared: PreparedMonitor,
  state: MonitorState,
  input: MonitorInput,
): { state: MonitorState; verdict: Verdict | null; events: MonitorEvent[] } {
  requirePrepared(prepared, 'monitor', 'prepareMonitor');
  requireMonitorState(prepared, state);
  requireInput(prepared, input);
  const events: MonitorEvent[] = [];
  if (input.kind !== undefined && input.kind !== 'reading') {
    const next = takeMoment(prepared, state, input as Moment, events);
    return { state: next, verdict: null, events: inOrderOfTime(events) };
  }
  const reading = input as ReadingInput;
  const { receivedAt } = reading;
  let { state: next, verdict } = takeReading(prepared, state, reading, events);
  // a sensor's clock that stands still must not keep the time from passing
  if (receivedAt !== undefined && events.some(({ event }) => event === 'contradicted')) {
    next = takeMoment(prepared, next, { kind: 'tick', time: receivedAt }, events);
    verdict = verdictAfter(verdict, next);
  }
  const told = inOrderOfTime(events);
  return { state: next, verdict, events: next.time === reading.time ? told : told.map(takenAt(reading.time, next)) };
}

/** What a reading shows, as alarms and the monitor itself tell it. */
const shown: readonly MonitorEvent['event'][] = [
  ...(['raised', 'returned', 'chattering', 'signal_restored', 'suppressed', 'unsuppressed'] as const),
  ...(['readings_restored', 'target_restored', 'quality_bad', 'quality_restored'] as const),
  ...(['finding_came', 'finding_gone'] as const),
];

/** What a reading shows that a moment had gone ahead of also tells when it was taken. */
function takenAt(taken: number, { time }: MonitorState): (event: MonitorEvent) => MonitorEvent {
  return (event) =>
    event.time === time && taken < event.time && shown.indexOf(event.event) >= 0 && !('since' in event)
      ? ({ ...event, taken } as MonitorEvent)
      : event;
}
