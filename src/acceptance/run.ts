/**
 * What a judged reading makes of the run of readings before it: it ends, or is longer by one, or proves what had to be
 * shown.
 */
import type { TargetOutcome } from '../codes/index.ts';
import { addDecimals, subtractDecimals } from '../numeric/decimal.ts';
import { repeatChances } from '../reading/assess/repeatChance.ts';
import { particlesCounted } from '../reading/counted.ts';
import { isEmpty } from '../reading/remembered/level.ts';
import { minute } from '../state/timeSteps.ts';
import { type Judged, ofTheRow } from './judge.ts';
import { provedOf } from './proved.ts';
import type {
  AcceptanceEvent,
  AcceptanceReading,
  AcceptanceRecord,
  AcceptanceRestart,
  AcceptanceRun,
  AcceptanceState,
  AcceptanceWanting,
  PreparedAcceptance,
} from './types.ts';

/** Why the run before a reading in order ends with it; null where it goes on. */
export function whyRunEnds(
  { gap }: PreparedAcceptance,
  { run, litres }: AcceptanceState,
  reading: AcceptanceReading,
  judged: Judged,
): AcceptanceRestart['why'] | null {
  if (run === undefined) return null;
  if (judged.worse) return 'worse_than_target';
  if (judged.stuck) return 'counts_stuck';
  if (judged.quality === 'bad') return null;
  if ((reading.litres ?? Infinity) < (litres ?? 0)) return 'volume_counter_ran_back';
  return judged.why === null && gap.ends && reading.time - run.to > gap.mostMs ? 'gap_too_long' : null;
}

/**
 * What a good reading adds to the run, less what of the first gaps is taken back; `stoodMs` is time that is proved only
 * if the volume counter soon moves.
 */
export interface Added {
  readonly ms: number;
  readonly litres: number;
  readonly stoodMs: number;
  readonly early?: NonNullable<AcceptanceRun['early']>;
  readonly unproved?: NonNullable<AcceptanceEvent['unproved']>;
}

/**
 * The time and the volume a good reading adds to the run: those since the reading just before it, if that one counted
 * too. What lies beside a reading that did not count is not proved, nor is a gap too long for the rule or, where the
 * rule has none of its own, for the usual interval: a pause or a step of the clock. Where the host tells when readings
 * came in, no more time than passed by its clock. The volume asks only for the usual interval, and for no more than the
 * pump can deliver. While a volume counter stands, nothing is flushed: time counts
 * once it moves, if it does so within a gap that is not too long, since a coarse counter stands between its steps.
 */
export function addedBy(prepared: PreparedAcceptance, state: AcceptanceState, reading: AcceptanceReading): Added {
  const added = sinceLast(prepared, state, reading);
  const { run, time } = state;
  if (run === undefined || prepared.gap.ends) return added;
  const mostMs = 3 * usualWith(state, reading);
  const { early = [] } = run;
  const kept = early.filter(({ gap }) => gap <= mostMs);
  let { ms, litres } = added;
  for (const one of early) {
    if (one.gap <= mostMs) continue;
    ms -= one.ms;
    litres = subtractDecimals(litres, one.litres);
  }
  const taken = kept.length < early.length ? ({ unproved: 'gap_taken_back' } as const) : {};
  if (!isEarly(state)) return { ...added, ms, litres, ...taken };
  if (added.ms > 0 || added.litres > 0)
    kept.push({ gap: reading.time - (time as number), ms: added.ms, litres: added.litres });
  return { ...added, ms, litres, ...(kept.length === 0 ? {} : { early: kept }), ...taken };
}

/** Whether the gaps before a reading are too few to tell what is usual. */
function isEarly({ gaps = [] }: AcceptanceState): boolean {
  return gaps.length < gapsThatTell;
}

/** What is usual before a reading; as long as that is not known, the middle of all gaps with the one before it. */
function usualWith(state: AcceptanceState, { time }: AcceptanceReading): number {
  return middle(isEarly(state) ? gapsAfter(state, time) : (state.gaps as readonly number[]));
}

function sinceLast(
  { gap, mostLitresPerMin }: PreparedAcceptance,
  state: AcceptanceState,
  reading: AcceptanceReading,
): Added {
  const { run, time, receivedAt } = state;
  if (run === undefined) return nothing;
  if (run.to !== time) return { ...nothing, unproved: 'beside_others' };
  const passed = reading.time - run.to;
  const usual = gap.ends ? null : usualWith(state, reading);
  const mostMs = usual === null ? gap.mostMs : 3 * usual;
  if (usual !== null && passed > mostMs) return { ...nothing, unproved: 'long_gap' };
  const untimed = receivedAt === undefined || reading.receivedAt === undefined;
  const clockMs = untimed ? passed : Math.max(0, Math.min(passed, reading.receivedAt - receivedAt));
  const isLong = passed > gap.mostMs;
  const ms = isLong ? 0 : clockMs;
  // a delivery some seconds late is not worth a word, less than half of the time is (our choice)
  const isLess = 2 * clockMs < passed;
  const long = isLong || isLess ? ({ unproved: isLong ? 'long_gap' : 'less_by_host' } as const) : {};
  const { toLitres } = run;
  if (toLitres === null || reading.litres === undefined) return { ...nothing, ms, ...long };
  const litres = Math.max(0, subtractDecimals(reading.litres, toLitres));
  const stood = (run.stoodMs ?? 0) + ms;
  if (litres === 0) return { ...nothing, stoodMs: stood, unproved: isLong ? 'long_gap' : 'volume_stood' };
  // a rounding of the product is no leap
  const most = mostLitresPerMin === null ? Infinity : (mostLitresPerMin * clockMs * (1 + 1e-9)) / minute;
  // a leap is no movement: what stood before it goes on standing
  if (litres > most) return { ...nothing, stoodMs: stood, unproved: 'volume_leapt' };
  const proved = stood <= mostMs ? stood : ms;
  return { ...nothing, ms: proved, litres, ...long };
}

const nothing: Added = { ms: 0, litres: 0, stoodMs: 0 };

/**
 * Whether a reading shares more than half of its counting time with the last that counted (our choice): it is no
 * reading of its own.
 */
export function overlaps(run: AcceptanceRun | undefined, { time, measuringSeconds = 0 }: AcceptanceReading): boolean {
  return run !== undefined && time - (run.countedAt ?? run.to) < 500 * measuringSeconds;
}

const gapsKept = 5;
const gapsThatTell = 3;

/** The middle one of the last gaps; null where they are too few to tell. */
export function usualGap(gaps: readonly number[]): number | null {
  return gaps.length < gapsThatTell ? null : middle(gaps);
}

function middle(gaps: readonly number[]): number {
  const sorted = gaps.slice().sort((a, b) => a - b);
  return sorted[Math.floor((sorted.length - 1) / 2)] as number;
}

/** The last gaps, with one more. */
export function gapsAfter({ time, gaps = [] }: AcceptanceState, next: number): readonly number[] {
  return time === undefined ? gaps : gaps.slice(1 - gapsKept).concat([next - time]);
}

/** The run with what a reading adds to it; one that overlaps the last is no reading more. */
export function extendRun(
  run: AcceptanceRun | undefined,
  reading: AcceptanceReading,
  litres: number | null,
  judged: Judged,
  added: Added,
): AcceptanceRun {
  const { margins } = judged;
  const { time } = reading;
  const checks: AcceptanceRun['unchecked'] = judged.unchecked.filter((code) => ofTheRow.indexOf(code) < 0);
  const unchecked = reading.litres === undefined ? checks.concat('volume_stood') : checks;
  const few = judged.fewParticles ? 1 : 0;
  if (run === undefined) {
    const begun = { readings: 1, fewParticles: few, ...uncounted(reading), from: time, to: time, ms: 0, litres: 0 };
    return { ...begun, fromLitres: litres, toLitres: litres, margins, unchecked };
  }
  const isCounted = judged.why === null;
  const { countedAt = run.to, stoodMs: _stood, early: _early, ...before } = run;
  const fromLitres = run.fromLitres ?? litres;
  const least = run.margins.map(({ column, classes }, i) => ({
    column,
    classes: Math.min(classes, (margins[i] as TargetOutcome['margins'][number]).classes),
  }));
  return {
    ...before,
    readings: run.readings + (isCounted ? 1 : 0),
    fewParticles: run.fewParticles + (isCounted ? few : 0),
    ...(isCounted ? uncounted(reading, run) : {}),
    ...(judged.why === 'same_as_last' ? { sameAsLast: (run.sameAsLast ?? 0) + 1 } : {}),
    to: time,
    ms: run.ms + added.ms,
    // the sum of many doubles may come out above what the counter shows
    litres: Math.min(addDecimals(run.litres, added.litres), subtractDecimals(litres ?? 0, fromLitres ?? 0)),
    ...(isCounted ? {} : { countedAt }),
    ...(added.stoodMs === 0 ? {} : { stoodMs: added.stoodMs }),
    ...(added.early === undefined ? {} : { early: added.early }),
    fromLitres,
    toLitres: litres,
    margins: least,
    unchecked: union(run.unchecked, unchecked),
  };
}

/** One more of those whose particles nobody knows the number of, if this reading is one. */
function uncounted(
  reading: AcceptanceReading,
  { withoutCounts = 0, withoutVolume = 0 }: Pick<AcceptanceRun, 'withoutCounts' | 'withoutVolume'> = {},
): Pick<AcceptanceRun, 'withoutCounts' | 'withoutVolume'> {
  if (reading.counts === undefined) return { withoutCounts: withoutCounts + 1 };
  return particlesCounted(reading, reading.counts) === null ? { withoutVolume: withoutVolume + 1 } : {};
}

function union(codes: AcceptanceRun['unchecked'], more: AcceptanceRun['unchecked']): AcceptanceRun['unchecked'] {
  return codes.concat(more.filter((code) => codes.indexOf(code) < 0));
}

/** Whether the counts of the run have changed, with one reading more; a code alone says nothing of it. */
export function courseOf(
  before: AcceptanceState,
  after: AcceptanceState,
  { counts }: AcceptanceReading,
): Pick<AcceptanceRun, 'counts'> {
  if (counts === undefined) return {};
  const { counts: course } = after.run ?? {};
  return { counts: course === undefined || areSame(before, after) ? (course ?? 'equal') : 'changed' };
}

/** Whether the last counts are those of before. */
function areSame({ repeats: before }: AcceptanceState, { repeats: after }: AcceptanceState): boolean {
  return before?.perMl === after?.perMl && before?.sizes === after?.sizes;
}

/** Where chance brings the same counts so often, they may have been counted anew (our choice). */
const mostOften = 1 / 2;

/**
 * Whether the counts within a run are those of the reading before, and by chance would be so in less than half of the
 * readings: one count read again is no reading of its own. Sound ones that are taken for it cost at most as many.
 */
export function comesAgain(
  { limits }: PreparedAcceptance,
  before: AcceptanceState,
  after: AcceptanceState,
  reading: AcceptanceReading,
): boolean {
  const { counts } = reading;
  if (after.run === undefined || counts === undefined || limits.stuckChance === null) return false;
  if (!areSame(before, after)) return false;
  return repeatChances(reading, counts).reduce((product, chance) => product * chance, 1) < mostOften;
}

/** Whether all counts of the run are equal, and too few to tell whether they are stuck. */
export function mayBeFrozen(
  { limits }: PreparedAcceptance,
  run: AcceptanceRun,
  { counts }: AcceptanceReading,
  { unchecked }: Judged,
): boolean {
  if (run.counts !== 'equal' || limits.stuckChance === null || unchecked.indexOf('values_stuck') < 0) return false;
  // zeros count only where the limits take them as they are
  return counts === undefined || !isEmpty(counts.perMl);
}

/** Whether anything is wanting. */
export function isWanting({ readings, ms, litres }: AcceptanceWanting): boolean {
  return readings > 0 || ms > 0 || litres > 0;
}

/** What a run wants that has all but a change in its counts. */
export const oneMore: AcceptanceWanting = { readings: 1, ms: 0, litres: 0 };

/**
 * What the run still wants: readings, time, volume. Where a longer gap ends the run, no reading adds more time than the
 * longest, and the first of a run adds none.
 */
export function wantingOf(prepared: PreparedAcceptance, run: AcceptanceRun | undefined): AcceptanceWanting {
  const { readings, ms, litres } = run ?? { readings: 0, ...nothing };
  const { gap } = prepared;
  const leastMs = Math.max(0, prepared.leastMs - ms);
  const byTime = gap.ends ? Math.ceil(leastMs / gap.mostMs) + (run === undefined ? 1 : 0) : 0;
  return {
    readings: Math.max(0, prepared.readings - readings, byTime),
    ms: leastMs,
    litres: Math.max(0, subtractDecimals(prepared.leastLitres, litres)),
  };
}

export function recordOf(
  prepared: PreparedAcceptance,
  state: AcceptanceState,
  run: AcceptanceRun,
  judged: Judged,
): AcceptanceRecord {
  const { readings = null, began = null, notCounted, restarts, lastRestart = null } = state;
  const { code, readings: least, leastMs, leastLitres } = prepared;
  const { early: _early, ...shown } = run;
  return {
    ...provedOf(code, run.margins),
    target: code.target,
    run: { ...shown, unchecked: union(run.unchecked, judged.unchecked) },
    text: judged.text as string,
    required: { readings: least, ms: leastMs, litres: leastLitres },
    readings,
    began,
    notCounted,
    restarts,
    lastRestart,
  };
}
