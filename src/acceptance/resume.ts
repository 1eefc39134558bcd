/** The door for the state of a proof from outside: after a restart or an update of the library. */
import type { Wanted } from '../codes/targetOutcome.ts';
import { motescaleError, parameterAt } from '../errors.ts';
import { subtractDecimals } from '../numeric/decimal.ts';
import { isRepeats, repeatsRule } from '../reading/remembered/repeatsState.ts';
import { isVersion1, requireStateRule, valueAt } from '../rules/require.ts';
import { requireNoneLater } from '../state/noLater.ts';
import { requirePrepared } from '../state/prepared.ts';
import { acceptanceStateVersion, startAcceptance } from './prepare.ts';
import { provedOf } from './proved.ts';
import { acceptanceStateRule, restartWords } from './rules.ts';
import type {
  AcceptanceEvent,
  AcceptanceRecord,
  AcceptanceRestart,
  AcceptanceRun,
  AcceptanceState,
  PreparedAcceptance,
} from './types.ts';

/**
 * Throws `bad_state` unless the state is of this version and of this proof: what `advanceAcceptance` asks at each
 * reading.
 */
export function requireAcceptanceState(prepared: PreparedAcceptance, state: AcceptanceState): void {
  if (typeof state !== 'object' || state === null || state.version !== acceptanceStateVersion) {
    const expected = `the version, which resumeAcceptance brings: ${acceptanceStateVersion}`;
    throw motescaleError('bad_state', 'state', state, expected);
  }
  requireSame(prepared, state);
}

/** A proof rests on one table, target, rule and limits: readings held against others prove nothing here. */
function requireSame({ of, print }: PreparedAcceptance, state: { readonly of?: string; readonly print: number }): void {
  if (state.print === print) return;
  const expected = `the state of this proof (${of}), with the same table and limits: begin a new one`;
  throw motescaleError('bad_state', 'state', state.of ?? state.print, expected);
}

/**
 * The state to go on from after it was saved: of this version of the library or of any before, a run half-way included.
 *
 * A proof rests on one configuration. A state that was made under another table, target, rule or limits is refused:
 * begin a new proof.
 *
 * @returns the state; `kept`, `dropped`, `added`: the parts of it (`run`, `record`, `repeats`) that go on, are let go,
 *   or begin. `events` is empty.
 * @throws `not_prepared`; `bad_state` that names the member that is damaged, or what the state belongs to
 *
 * @example
 * ```ts
 * import { iso4406 } from 'motescale/codes';
 * import { advanceAcceptance, prepareAcceptance, resumeAcceptance, startAcceptance } from 'motescale/acceptance';
 * const prepared = prepareAcceptance({ table: iso4406, target: '18/16/13', readings: 7 });
 * const reading = { time: 0, codes: { iso4406: '17/15/12' } };
 * const saved = JSON.stringify(advanceAcceptance(prepared, startAcceptance(prepared), reading).state);
 * resumeAcceptance(prepared, JSON.parse(saved)).kept; // => ['run', 'repeats']
 * ```
 */
export function resumeAcceptance(
  prepared: PreparedAcceptance,
  state: unknown,
): { state: AcceptanceState; events: AcceptanceEvent[]; kept: string[]; dropped: string[]; added: string[] } {
  requirePrepared(prepared, 'acceptance', 'prepareAcceptance');
  const older = isVersion1(state);
  const saved = older ? fromVersion1(prepared, state as Version1) : (state as AcceptanceState);
  const { members } = acceptanceStateRule;
  const repeats = { ...repeatsRule(), optional: true } as const;
  requireStateRule({ ...acceptanceStateRule, members: { ...members, repeats } }, saved);
  requireSound(prepared, saved);
  requireAcceptanceState(prepared, saved);
  const { particlesSeen: _seen, ...rest } = saved as AcceptanceState & { readonly particlesSeen?: boolean };
  const now = withWorseAt(withWholeRecord(prepared, rest));
  const there = (['run', 'accepted', 'repeats'] as const).filter((name) => now[name] !== undefined);
  const kept = there.map((name) => (name === 'accepted' ? 'record' : name));
  // what version 0.1 remembered of the counts was a fingerprint
  return { state: now, events: [], kept, dropped: older ? ['repeats'] : [], added: [] };
}

/** A state saved before this was kept knows it by why the run ended. */
function withWorseAt(state: AcceptanceState): AcceptanceState {
  const { lastRestart, accepted, worseAt } = state;
  if (worseAt !== undefined || accepted !== undefined || lastRestart?.why !== 'worse_than_target') return state;
  return { ...state, worseAt: lastRestart.time };
}

/** A record of before it said so much: what follows from the rest is put in. */
function withWholeRecord({ code }: PreparedAcceptance, state: AcceptanceState): AcceptanceState {
  const { accepted } = state;
  if (accepted === undefined) return state;
  const known = { readings: null, began: null, ...provedOf(code, accepted.run.margins) };
  return { ...state, accepted: { ...known, ...accepted } };
}

/** What members ask of each other. */
function requireSound({ code }: PreparedAcceptance, state: AcceptanceState): void {
  const { repeats, run, accepted, older, time } = state;
  const require = (sound: boolean, path: string[], expected: string) => {
    if (!sound) throw motescaleError('bad_state', parameterAt('state', path), valueAt(state, path), expected);
  };
  require(repeats === undefined || isRepeats(repeats), ['repeats'], 'counts, as a state keeps them');
  require(run === undefined || accepted === undefined, ['run'], 'no run beside a record');
  const one = run ?? accepted?.run;
  if (one !== undefined) {
    const path = run === undefined ? ['accepted', 'run'] : ['run'];
    const passed = subtractDecimals(one.toLitres ?? 0, one.fromLitres ?? 0);
    const { from, to, countedAt = to, stoodMs = 0 } = one;
    const isTimed = one.ms + stoodMs <= to - from && countedAt >= from && countedAt <= to;
    const { readings, fewParticles, withoutCounts = 0, withoutVolume = 0 } = one;
    const isMade = fewParticles <= readings && withoutCounts + withoutVolume <= readings;
    const agree = isMade && isTimed && one.litres <= passed;
    require(agree, path, 'a run whose parts agree, as a state keeps it');
    const sizes = (code.wanted as Wanted).filter((place) => place !== null).length;
    const expected = `margins at the ${sizes} sizes of the target, as a state keeps them`;
    require(one.margins.length === sizes, [...path, 'margins'], expected);
  }
  const timed = time !== undefined || (run === undefined && older === undefined);
  require(timed, ['time'], 'the time of the last reading, as a state keeps it');
  requireNoneLater(state, 'state', time);
}

/** What version 0.1 saved. */
interface Version1 {
  readonly print: number;
  readonly time: number | null;
  readonly litres: number | null;
  readonly run: Run1 | null;
  readonly notCounted: number;
  readonly restarts: number;
  readonly lastRestart: Restart1 | null;
  readonly accepted:
    | (Omit<AcceptanceRecord, 'run' | 'lastRestart'> & { readonly run: Run1; readonly lastRestart: Restart1 | null })
    | null;
}
type Run1 = Omit<AcceptanceRun, 'ms' | 'litres'>;
type Restart1 = { readonly time: number; readonly why: string; readonly text: string | null };

/** The sentences of version 0.1, in the order of the words. */
const reasons1 = [
  'worse than target',
  'counts stuck',
  'too long since the last good reading',
  'volume counter ran back',
];

function fromVersion1(prepared: PreparedAcceptance, state: Version1): AcceptanceState {
  requireSame(prepared, state);
  const { time, litres, run, notCounted, restarts, lastRestart, accepted } = state;
  const { readings, ...begun } = startAcceptance(prepared);
  // how many there were it did not remember
  const isNew = time === null && notCounted === 0 && accepted === null;
  return {
    ...begun,
    ...(isNew ? { readings } : {}),
    notCounted,
    restarts,
    ...(time === null ? {} : { time }),
    ...(litres === null ? {} : { litres }),
    ...(run === null ? {} : { run: run1(run) }),
    ...(lastRestart === null ? {} : { lastRestart: restart1(lastRestart) }),
    ...(accepted === null ? {} : { accepted: record1(accepted) }),
  };
}

/** It counted all the time and volume from the first to the last. */
function run1(run: Run1): AcceptanceRun {
  if (typeof run !== 'object' || run === null) return run;
  const litres = Math.max(0, subtractDecimals(run.toLitres ?? 0, run.fromLitres ?? 0));
  return { ...run, ms: run.to - run.from, litres };
}

function restart1(restart: Restart1): AcceptanceRestart {
  const place = typeof restart === 'object' && restart !== null ? reasons1.indexOf(restart.why) : -1;
  return place < 0 ? (restart as never) : { ...restart, why: restartWords[place] as AcceptanceRestart['why'] };
}

function record1(record: NonNullable<Version1['accepted']>): AcceptanceRecord {
  if (typeof record !== 'object') return record;
  const { run, lastRestart } = record;
  return { ...record, run: run1(run), lastRestart: restart1(lastRestart as Restart1) };
}
