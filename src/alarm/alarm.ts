/**
 * One alarm on one figure: raised beyond a setpoint, returned when the figure has come back, with all an operator can
 * do in between.
 */
import { requireObject } from '../checks.ts';
import { motescaleError, type Problem, throwProblems } from '../errors.ts';
import { earliestWritten, largestFigure, latestWritten } from '../rules/bounds.ts';
import { checkRule } from '../rules/check.ts';
import { requireRule } from '../rules/require.ts';
import { isTime } from '../state/members.ts';
import { markOf, requirePrepared } from '../state/prepared.ts';
import type { Writable } from '../state/writable.ts';
import { setBack, timeOf } from './behind.ts';
import { nameOfState } from './memory.ts';
import { noteAlarmMistakes, planOf } from './plan.ts';
import { alarmCommandRule, alarmReadingRule, alarmRule, tickRule } from './rules.ts';
import { alarmStateVersion, requireAlarmState } from './state.ts';
import { type Step, stepAlarm } from './step.ts';
import type {
  AlarmCommand,
  AlarmConfig,
  AlarmEvent,
  AlarmInput,
  AlarmMemory,
  AlarmReading,
  AlarmState,
  AlarmStateName,
  PreparedAlarm,
} from './types.ts';

/**
 * Checks a configuration, fills in what it leaves out, and returns it for `startAlarm`, `advanceAlarm` and
 * `resumeAlarm`. Plain data with nothing of the configuration in it, so that this may change afterwards. It is made,
 * and never loaded: what is kept is the configuration, and of a prepared one that was stored no more than its version
 * is checked.
 *
 * @throws `bad_configuration`; `problemsOf` gives every mistake.
 *
 * @example
 * ```ts
 * import { prepareAlarm } from 'motescale/alarm';
 * const prepared = prepareAlarm({ id: 'tank oil hot', type: 'high', setpoint: 65, deadband: 3 });
 * prepared.back; // => 62
 * prepared.longestShelfMs; // => 28800000
 * ```
 */
export function prepareAlarm(config: AlarmConfig): PreparedAlarm {
  const problems: Problem[] = [];
  if (checkRule(alarmRule(), config, [], problems)) noteAlarmMistakes(config, [], problems);
  throwProblems('bad_configuration', 'config', config, problems);
  return { ...markOf('alarm'), ...planOf(config, config) };
}

/**
 * The state of an alarm that has heard nothing yet: normal, and in service.
 *
 * @throws `not_prepared`
 *
 * @example
 * ```ts
 * import { alarmStateName, prepareAlarm, startAlarm } from 'motescale/alarm';
 * alarmStateName(startAlarm(prepareAlarm({ id: 'tank oil hot', type: 'high', setpoint: 65 }))); // => 'normal'
 * ```
 */
export function startAlarm(prepared: PreparedAlarm): AlarmState {
  requirePrepared(prepared, 'alarm', 'prepareAlarm');
  return { version: alarmStateVersion, of: prepared.of };
}

/**
 * Takes one input, a reading, a command or only the time, and returns the alarm's new state with what happened.
 *
 * - Raised when a reading lies beyond the setpoint (`high`, `low`: strictly; `rise`, `fall`: the amount is reached) and
 *   every good reading since `onDelayMs` or longer ago has. Returned when it lies beyond the deadband on the other side
 *   (strictly), and that for `offDelayMs`. The alarm changes at readings only, at the first one where the delay has
 *   passed, to the millisecond; between two readings the figure is taken to have stayed where both show it.
 * - A reading of quality `bad`, or without a value, neither raises nor clears nor touches a running delay; an event
 *   tells when readings turn bad and when they are good again. `uncertain` is used like `good`. A signal is stale when
 *   its last good reading is older than `staleAfterMs`; then running delays begin anew and the alarm stays as it is.
 * - Shelved, out of service, or suppressed by design (the machine is in one of `suppressedInModes`) it is silent:
 *   tracked, not announced; suppressed by design nothing raises it, and nothing of that time counts for a delay after
 *   it. Readings that go on without a `mode` for longer than `staleAfterMs` end a suppression. When the silence ends,
 *   an event tells how often it was raised meanwhile, and `standing` events tell how things stand. A mode that
 *   suppresses does so before the reading it comes with is judged, and one that does not, after.
 * - What falls due between two inputs, the end of a shelf, a stale signal, the end of chattering, a re-alarm, carries
 *   the time it fell due, so a tick changes nothing but when one hears of it. At one moment a shelf ends first, then an
 *   alarm is raised anew, then come the inputs of that moment; a signal is stale and chattering over only after it. One
 *   event tells all the re-alarms that one input hears of. An input older than the last one counts as of the last one's
 *   time, but of a reading delays and rates go by its own; one older than the last reading changes nothing, and is
 *   answered by `refused`.
 * - A tick or a command that is far ahead takes the alarm's time along. The third input in a row that lies more than a
 *   day behind it, and not before the last reading, is taken to show that it was wrong: `clock_set_back` tells it, the
 *   alarm goes on from there, and a shelf keeps the time it has left. Right readings that come so late do it too.
 *
 * An alarm supports the decision whether a machine may run; it never takes it. It is no protection: a trip that guards
 * people against pressure or heat belongs in a safety system.
 *
 * Time: whole milliseconds since 1970-01-01 UTC. Figure, setpoint and deadband: one unit, the caller's. Sources: OPC
 * 10000-9 (terms of IEC 62682, ANSI/ISA-18.2) 3.1, 4.8, 5.8, B.1.5: deadband on return only, delays, latching,
 * shelving, suppression, re-alarm, out of service. OPC 30030 (ASHRAE 135) 8.9, 8.13: strictly above the limit raises,
 * strictly below the limit less the deadband returns; off-delay is the on-delay where left out. Limit, deadband and
 * change are reckoned as decimals: 0.8 is exactly 0.85 less 0.05. Exact up to 15 digits, counted from the first digit
 * of the greater figure to the last decimal place of the finer; beyond that as doubles.
 *
 * @param state of `startAlarm`, `advanceAlarm` or `resumeAlarm`; one that was saved comes in through `resumeAlarm`
 * @throws `not_prepared`; `bad_state` for one of another version or meaning; for an input `wrong_type`, `not_a_number`,
 * `infinite`, `not_an_integer` (time), `out_of_range`, `unknown_option`.
 *
 * @example
 * ```ts
 * import { advanceAlarm, prepareAlarm, startAlarm } from 'motescale/alarm';
 * const prepared = prepareAlarm({ id: 'tank oil hot', type: 'high', setpoint: 65, deadband: 3, onDelayMs: 60000 });
 * let step = advanceAlarm(prepared, startAlarm(prepared), { time: 0, value: 66 });
 * step.events; // => []
 * step = advanceAlarm(prepared, step.state, { time: 60000, value: 67 });
 * step.events;
 * // => [{ time: 60000, alarm: 'tank oil hot', event: 'raised', value: 67, setpoint: 65, priority: 'medium' }]
 * step = advanceAlarm(prepared, step.state, { time: 120000, value: 64 });
 * step.state.active; // => true
 * ```
 */
export function advanceAlarm(
  prepared: PreparedAlarm,
  state: AlarmState,
  input: AlarmInput,
): { state: AlarmState; events: AlarmEvent[] } {
  requirePrepared(prepared, 'alarm', 'prepareAlarm');
  requireAlarmState(prepared, state);
  requireInput(input);
  const events: AlarmEvent[] = [];
  const { version, of, read } = state;
  const { kind } = input;
  const isReading = kind === undefined || kind === 'reading';
  const { time, behind } = timeOf(state, input.time);
  if (isReading && read !== undefined && input.time < read) {
    events.push({ time, alarm: prepared.id, event: 'refused', reason: 'older_than_last_reading', limit: read });
    return { state, events };
  }
  const into: Writable<Pick<AlarmState, 'version' | 'of' | 'time' | 'read' | 'behind'>> = { version, of, time };
  if (isReading) into.read = input.time;
  else if (read !== undefined) into.read = read;
  if (behind > 0) into.behind = behind;
  let last = state.time ?? time;
  let memory: AlarmMemory = state;
  if (last > time) {
    events.push({ time, alarm: prepared.id, event: 'clock_set_back', from: last, to: time });
    const by = time - last;
    memory = setBack(prepared, state, time, (until) => until + by, {});
    last = time;
  }
  return { state: stepAlarm(prepared, memory, last, time, stepOf(input), events, into), events };
}

function stepOf(input: AlarmInput): Step {
  if (input.kind === 'command') return { command: input };
  if (input.kind === 'tick') return { mode: input.mode };
  const { time, value, quality, mode } = input;
  return { value: quality === 'bad' ? null : value, mode, tellBad: true, taken: time };
}

/**
 * The name of the state an alarm is in. Out of service goes before suppressed by design, that before shelved, and all
 * before what the figure does.
 *
 * @throws `bad_state`
 *
 * @example
 * ```ts
 * import { advanceAlarm, alarmStateName, prepareAlarm, startAlarm } from 'motescale/alarm';
 * const prepared = prepareAlarm({ id: 'tank oil hot', type: 'high', setpoint: 65 });
 * alarmStateName(advanceAlarm(prepared, startAlarm(prepared), { time: 0, value: 66 }).state);
 * // => 'unacknowledged_alarm'
 * ```
 */
export function alarmStateName(state: AlarmState): AlarmStateName {
  requireAlarmState(null, state);
  return nameOfState(state);
}

/** Looks at what passes without a word; what does not is held against its rule, which says what is wrong. */
function requireInput(input: AlarmInput): void {
  if (isPlainReading(input)) return;
  requireObject(input, 'input', "a reading { time, value }, or { kind: 'command', ... }, { kind: 'tick', time }");
  const kind = (input as { readonly kind?: unknown }).kind;
  if (kind === 'command') requireRule(alarmCommandRule((input as AlarmCommand).command), input, 'input');
  else if (kind === 'tick') requireRule(tickRule, input, 'input');
  else if (kind === undefined || kind === 'reading') requireRule(alarmReadingRule(), input, 'input');
  else throw motescaleError('unknown_option', 'input.kind', kind, "one of 'reading', 'tick', 'command'");
}

function isPlainReading(input: AlarmInput): input is AlarmReading {
  if (typeof input !== 'object' || input === null) return false;
  const { time, value } = input as AlarmReading;
  if (!(isTime(time) && time >= earliestWritten && time <= latestWritten)) return false;
  if (!(typeof value === 'number' && value >= -largestFigure && value <= largestFigure)) return false;
  return Object.keys(input).length === 2;
}
