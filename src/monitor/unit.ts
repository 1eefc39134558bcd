/**
 * A unit's record: a monitor's state with the number of the last input, so that inputs may be delivered again and
 * again.
 */
import { isObject, requireMembers, requireObject } from '../checks.ts';
import {
  caught,
  type MotescaleError,
  motescaleError,
  parameterAt,
  problemLine,
  problemsOf,
  readable,
  show,
} from '../errors.ts';
import { requireRule } from '../rules/require.ts';
import { isTime } from '../state/members.ts';
import { requirePrepared } from '../state/prepared.ts';
import { countRule, inputTimeRule, nameRule } from '../state/rules.ts';
import { version } from '../version.ts';
import { inOrderOfTime, takeMoment } from './clock/moment.ts';
import { advanceMonitor, startMonitor } from './monitor.ts';
import { resumeMonitor } from './state/resume.ts';
import type { MonitorEvent, MonitorInput, MonitorState, PreparedMonitor, Verdict } from './types.ts';

/** The version of a record, here and nowhere else. */
const recordVersion = 1;
/** Of several mistakes in an input, an event tells so many beside the first (our choice). */
const mostTold = 19;

/** Another configuration from here on: its name, and when (time passes to it, as by a tick). */
export interface ConfigurationPayload {
  readonly kind: 'configuration';
  readonly configuration: string;
  readonly time: number;
}

/** What the host knows of a unit after its first `seq` inputs. Plain JSON. */
export interface UnitRecord {
  readonly version: 1;
  readonly unit: string;
  /** The number of the last input taken; 0 before the first. */
  readonly seq: number;
  /** The name of the configuration that holds, and its fingerprint. */
  readonly configuration: string;
  readonly print: number;
  /** The version of the library that wrote the state; `earlier` for one given to `startUnit`, until the first input. */
  readonly library: string;
  /** Where another version wrote it, as that left it: it is taken over at the next input. */
  readonly state: MonitorState;
}

const recordMembers: readonly (keyof UnitRecord)[] = [
  ...(['version', 'unit', 'seq', 'configuration', 'print', 'library', 'state'] as const),
];

/** An input of a unit: a reading, a command, a tick, an order to learn anew, or another configuration. */
export type UnitPayload = MonitorInput | ConfigurationPayload;

/** What is delivered: the host numbers each unit's inputs 1, 2, 3, without a gap. */
export interface UnitInput {
  readonly seq: number;
  readonly payload: UnitPayload;
}

/** An input that could not be taken: what was wrong with it. */
export interface RejectedEvent {
  /**
   * The time of the input, or when it was received, whichever can be read and is not what is wrong with it; else that
   * of the last input, and 0 of the first.
   */
  readonly time: number;
  readonly event: 'rejected';
  readonly code: string;
  readonly parameter: string;
  readonly received: string;
  readonly expected: string;
}

/**
 * The configuration has changed, or the library, and not all that was known goes on: what does, what is gone, what
 * begins.
 */
export interface ConfigurationEvent {
  /**
   * When, on the clock of the readings, as a command is timed: the time of the input, or that of the last input where
   * it is later or the time lies so far ahead that the clock is doubted.
   */
  readonly time: number;
  readonly event: 'configured';
  readonly configuration: string;
  readonly kept: readonly string[];
  readonly dropped: readonly string[];
  readonly added: readonly string[];
}

/** An event with its id, the same at every replay: `unit.seq.n`. */
export type UnitEvent = (MonitorEvent | RejectedEvent | ConfigurationEvent) & { readonly id: string };

/** What one delivery brought about. */
export interface UnitStep {
  readonly record: UnitRecord;
  /** `duplicate` and `gap` change nothing; `missing`: the number that has to come first. */
  readonly outcome: 'accepted' | 'duplicate' | 'gap' | 'rejected';
  readonly missing?: number;
  readonly verdict: Verdict | null;
  readonly events: UnitEvent[];
}

/**
 * The record of a unit that has heard nothing yet, or that goes on from a monitor's state.
 *
 * @param unit `unit`: its name, 1 to 64 characters. `configuration`: the name of the configuration that `prepared` was
 * made of; that which `prepareMonitor` was given, or a fingerprint, where left out. `state`: what a monitor's function
 * returned once, of this version or any before (0.1.0 had no records), through JSON or not. It is checked whole, and
 * taken over at the first input as `resumeMonitor` says: the events of that input tell first what does not go on. Until
 * then `alarmSummary` refuses a state of 0.1.0 as `bad_state`
 * @throws `not_prepared`, `wrong_type`, `out_of_range`; `bad_configuration` for a name that `prepared` does not have;
 *   `bad_state` that names the member of `state` that is damaged
 *
 * @example
 * ```ts
 * import { prepareMonitor, startUnit } from 'motescale/monitor';
 * const prepared = prepareMonitor({ codes: [] });
 * startUnit(prepared, { unit: 'upper gate', configuration: 'spring' }).seq; // => 0
 * ```
 */
export function startUnit(
  prepared: PreparedMonitor,
  unit: { readonly unit: string; readonly configuration?: string; readonly state?: unknown },
): UnitRecord {
  requirePrepared(prepared, 'monitor', 'prepareMonitor');
  const members = ['unit', 'configuration', 'state'];
  requireMembers(requireObject(unit, 'unit', '{ unit, configuration }'), 'unit', members);
  requireRule(nameRule, unit.unit, 'unit.unit');
  if (readable(unit.unit) !== unit.unit)
    throw motescaleError('out_of_range', 'unit.unit', unit.unit, 'a name without control characters');
  const configuration = unit.configuration ?? prepared.configuration;
  requireRule(nameRule, configuration, 'unit.configuration');
  requireNamed(prepared, configuration, 'unit.configuration');
  const { state } = unit;
  if (state !== undefined) resumeMonitor(prepared, state);
  return {
    version: recordVersion,
    unit: unit.unit,
    seq: 0,
    configuration,
    print: prepared.print,
    library: state === undefined ? version : 'earlier',
    state: state === undefined ? startMonitor(prepared) : (state as MonitorState),
  };
}

/**
 * Takes one numbered input of a unit, as often as it is delivered.
 *
 * - `accepted`: the next number; the record has moved on.
 * - `duplicate`: a number not after the record's; nothing changes.
 * - `gap`: a number beyond the next; nothing changes, and `missing` names the number that has to come first.
 * - `rejected`: the next number, but an input that cannot be taken (`advanceMonitor` throws). The record moves past it,
 *   and an event says why.
 *
 * A payload `{ kind: 'configuration', configuration, time }` changes the configuration: `prepared` is then what was
 * prepared of the new one, and has to bear that name if it bears one. The state goes on as `resumeMonitor` says, and
 * the event `configured` tells what was kept, dropped and added. From there on the new one has to be handed in. Its
 * time counts like that of a command: none before the last input, and none so far ahead that the clock is doubted.
 *
 * So any prefix of the inputs, with any repetitions and cut anywhere, gives the same record and the same events with
 * the same ids, bit for bit. The record is of one version of the library: after an update the state is taken over at
 * the next input.
 *
 * @param record of `startUnit` or `advanceUnit`, through JSON or not. Of its state no more is looked at than the
 *   version, and the ids and meanings of alarms and followed figures. Of one that is damaged elsewhere there may come
 *   an error of the engine, without `code`, or NaN in the next record, which JSON makes null.
 *   `resumeMonitor(prepared, record.state)` looks at it whole, once, for a record that comes from where it may be
 *   damaged
 * @throws `not_prepared`; `bad_configuration` where `prepared` is not that of the record; `bad_state` for a record of
 *   another version, or whose state is not of this configuration; `unknown_option` for a member that no record has;
 *   `wrong_type`, `empty`, `out_of_range` for one that is none, and for a `seq` that is no number from 1 on. These are
 *   mistakes of the host: nothing has changed.
 *
 * @example
 * ```ts
 * import { advanceUnit, prepareMonitor, startUnit } from 'motescale/monitor';
 * const alarms = [{ id: 'hot', type: 'high', figure: { quantity: 'celsius' }, setpoint: 65 }] as const;
 * const prepared = prepareMonitor({ codes: [], alarms });
 * const first = startUnit(prepared, { unit: 'upper gate' });
 * const input = { seq: 1, payload: { time: 0, celsius: 70 } };
 * const { record, outcome, events } = advanceUnit(prepared, first, input);
 * [outcome, events[0]?.id]; // => ['accepted', 'upper gate.1.1']
 * advanceUnit(prepared, record, input).outcome; // => 'duplicate'
 * advanceUnit(prepared, record, { ...input, seq: 3 }).missing; // => 2
 * ```
 */
export function advanceUnit(prepared: PreparedMonitor, record: UnitRecord, input: UnitInput): UnitStep {
  requirePrepared(prepared, 'monitor', 'prepareMonitor');
  requireRecord(record);
  requireMembers(requireObject(input, 'input', '{ seq, payload }'), 'input', ['seq', 'payload']);
  requireRule({ ...countRule, least: 1 }, input.seq, 'input.seq');
  const { seq, payload } = input;
  if (seq <= record.seq) return { record, outcome: 'duplicate', verdict: null, events: [] };
  const next = record.seq + 1;
  if (seq > next) return { record, outcome: 'gap', missing: next, verdict: null, events: [] };
  if (isConfiguration(payload)) return configure(prepared, record, payload, next);
  requireOwn(prepared, record);
  // one that another version left is taken over, and what does not go on is told
  const isOfNow = record.library === version;
  const { state, events: atUpdate } = isOfNow ? { state: record.state, events: [] } : takenOver(prepared, record);
  try {
    const step = advanceMonitor(prepared, state, payload);
    const after = { ...record, seq, library: version, state: step.state };
    return stepTo(after, 'accepted', step.verdict, [...atUpdate, ...step.events]);
  } catch (error) {
    const mistake = caught(error);
    if (mistake.code === 'bad_state') throw error;
    return reject({ ...record, seq, library: version, state }, payload, mistake, atUpdate);
  }
}

/** The state that another version left, and what is to be told of it. */
function takenOver(
  prepared: PreparedMonitor,
  { state: before, configuration }: UnitRecord,
): { readonly state: MonitorState; readonly events: readonly (MonitorEvent | ConfigurationEvent)[] } {
  const { state, events, kept, dropped, added } = resumeMonitor(prepared, before);
  if (dropped.length + added.length === 0) return { state, events };
  const time = state.time ?? 0;
  return { state, events: [{ time, event: 'configured', configuration, kept, dropped, added }, ...events] };
}

function configure(
  prepared: PreparedMonitor,
  record: UnitRecord,
  payload: ConfigurationPayload,
  seq: number,
): UnitStep {
  try {
    requireMembers(payload, 'input', ['kind', 'configuration', 'time']);
    requireRule(nameRule, payload.configuration, 'input.configuration');
    requireRule(inputTimeRule, payload.time, 'input.time');
  } catch (error) {
    return reject({ ...record, seq }, payload, caught(error));
  }
  const { configuration } = payload;
  requireNamed(prepared, configuration, 'input.configuration');
  const resumed = resumeMonitor(prepared, record.state);
  const { kept, dropped, added } = resumed;
  const { state, time, before, after } = changedAt(prepared, resumed.state, payload.time);
  const told: ConfigurationEvent = { time, event: 'configured', configuration, kept, dropped, added };
  // a shelf that ends sooner was cut at the last input, and may have ended since
  const shelves = resumed.events.filter(({ event }) => event === 'shelved');
  const gone = resumed.events.filter(({ event }) => event !== 'shelved').map((event) => ({ ...event, time }));
  const changed = { ...record, seq, configuration, print: prepared.print, library: version, state };
  return stepTo(changed, 'accepted', null, [...shelves, ...before, told, ...gone, ...after]);
}

/**
 * The state when the configuration changes: time passes as by a tick, on the clock of the readings, and a time far
 * ahead is set aside. What the settings of now have made due since the last input is told as of the change.
 */
function changedAt(prepared: PreparedMonitor, state: MonitorState, moment: number): Changed {
  if (state.time === undefined) return { state, time: moment, before: [], after: [] };
  const events: MonitorEvent[] = [];
  const next = takeMoment(prepared, state, { kind: 'configuration', time: moment }, events);
  const time = next.time as number;
  const decided = events.some(({ event }) => event === 'clock_set' || event === 'clock_kept');
  const isOfNow = ({ event }: MonitorEvent) => !decided && bySettings.indexOf(event) >= 0;
  const after = inOrderOfTime(events).filter((event) => isOfNow(event) && !('standing' in event));
  const before = events.filter((event) => after.indexOf(event) < 0);
  return { state: next, time, before, after: after.map((event) => ({ ...event, time })) };
}

interface Changed {
  readonly state: MonitorState;
  readonly time: number;
  readonly before: readonly MonitorEvent[];
  readonly after: readonly MonitorEvent[];
}

/** What falls due after a time that the configuration sets. */
const bySettings: readonly MonitorEvent['event'][] = [
  ...(['readings_stale', 'target_stale', 'signal_stale', 're_alarmed', 'chattering_ended'] as const),
];

function reject(
  record: UnitRecord,
  payload: unknown,
  error: MotescaleError,
  before: readonly (MonitorEvent | ConfigurationEvent)[] = [],
): UnitStep {
  const time = timeIn(payload, error) ?? record.state.time ?? 0;
  const event: RejectedEvent = { time, event: 'rejected', ...toldOf(error) };
  return stepTo(record, 'rejected', null, [...before, event]);
}

/** The time of an input that cannot be taken; null where none can be read but the one that is wrong. */
function timeIn(payload: unknown, error: MotescaleError): number | null {
  if (!isObject(payload)) return null;
  const { time, receivedAt } = payload;
  const isWrong = (name: string) =>
    error.parameter === `input.${name}` || problemsOf(error).some(({ path }) => path[0] === name);
  if (isTime(time) && !isWrong('time')) return time;
  return isTime(receivedAt) && !isWrong('receivedAt') ? receivedAt : null;
}

/**
 * What an error tells, each on one line; of several mistakes the first one, and then the others: a message may have
 * room for one.
 */
function toldOf(error: MotescaleError): Pick<RejectedEvent, 'code' | 'parameter' | 'received' | 'expected'> {
  const { code, parameter } = error;
  const received = readable(error.received);
  // a unit takes one kind more than a monitor
  const expected = parameter === 'input.kind' ? `${error.expected}, 'configuration'` : error.expected;
  const [first, ...others] = problemsOf(error);
  if (first === undefined || others.length === 0) return { code, parameter: readable(parameter), received, expected };
  const more = others.slice(0, mostTold).map((problem) => problemLine(parameter, problem));
  const left = others.length > mostTold ? `; and ${others.length - mostTold} more` : '';
  return {
    code: first.code,
    parameter: readable(parameterAt(parameter, first.path)),
    received: readable(first.received),
    expected: `${first.expected}; and beside it ${more.join('; ')}${left}`,
  };
}

/** To a record that has moved on, with the ids that its number gives the events. */
function stepTo(
  record: UnitRecord,
  outcome: UnitStep['outcome'],
  verdict: Verdict | null,
  events: readonly (MonitorEvent | RejectedEvent | ConfigurationEvent)[],
): UnitStep {
  const { unit, seq } = record;
  const told = events.map((event, i): UnitEvent => ({ ...event, id: `${unit}.${seq}.${i + 1}` }));
  return { record, outcome, verdict, events: told };
}

function isConfiguration(payload: unknown): payload is ConfigurationPayload {
  return isObject(payload) && payload.kind === 'configuration';
}

/** A configuration that bears a name of its own bears the one it is called by. */
function requireNamed(prepared: PreparedMonitor, configuration: string, parameter: string): void {
  if (isNamed(prepared, configuration)) return;
  const expected = `${show(prepared.configuration)}, the name that was prepared`;
  throw motescaleError('bad_configuration', parameter, configuration, expected);
}

function isNamed({ configuration, print }: PreparedMonitor, name: string): boolean {
  return configuration === name || configuration === `print-${print}`;
}

function requireOwn(prepared: PreparedMonitor, record: UnitRecord): void {
  if (prepared.print === record.print && isNamed(prepared, record.configuration)) return;
  const change = "a change of it comes as { kind: 'configuration' }";
  const expected =
    prepared.configuration === record.configuration
      ? `'${record.configuration}' with the contents that the record is of, and not others by the same name; ${change}`
      : `what was prepared of '${record.configuration}'; ${change}`;
  throw motescaleError('bad_configuration', 'prepared', prepared.configuration, expected);
}

function requireRecord(record: UnitRecord): void {
  requireObject(record, 'record', 'a record of startUnit or advanceUnit');
  if (record.version !== recordVersion)
    throw motescaleError('bad_state', 'record.version', record.version, `${recordVersion}`);
  requireMembers(record, 'record', recordMembers);
  requireRule(nameRule, record.unit, 'record.unit');
  requireRule(nameRule, record.configuration, 'record.configuration');
  requireRule(countRule, record.seq, 'record.seq');
}
