/**
 * What a judged reading makes of the run of readings before it: it ends, or is longer by one, or proves what had to be
 * shown.
 */
import type { TargetOutcome } from '../codes/index.ts';
import { addDecimals, subtractDecimals } from '../numeric/decimal.ts';
import type { FindingCode } from '../reading/index.ts';
import { type Judged, ofTheRow } from './judge.ts';
import type {
  AcceptanceReading,
  AcceptanceRecord,
  AcceptanceRestart,
  AcceptanceRun,
  AcceptanceState,
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
 * The time and the volume a good reading adds to the run: those since the reading just before it, if that one counted
 * too. What lies beside a reading that did not count is not proved, nor is a gap too long for the rule or, where the
 * rule has none of its own, for the usual interval: a pause or a step of the clock. Where the host tells when readings
 * came in, no more time than passed by its clock. The volume asks only for the usual interval: a counter does not leap.
 */
export function addedBy(
  { gap }: PreparedAcceptance,
  state: AcceptanceState,
  reading: AcceptanceReading,
): { readonly ms: number; readonly litres: number } {
  const { run, time, gaps = [], receivedAt } = state;
  if (run === undefined || run.to !== time) return nothing;
  const passed = reading.time - run.to;
  const usual = gap.ends ? null : usualGap(gaps);
  if (usual !== null && passed > 3 * usual) return nothing;
  const litres = subtractDecimals(reading.litres ?? 0, run.toLitres ?? reading.litres ?? 0);
  const untimed = receivedAt === undefined || reading.receivedAt === undefined;
  const ms = untimed ? passed : Math.max(0, Math.min(passed, reading.receivedAt - receivedAt));
  return { ms: passed > gap.mostMs ? 0 : ms, litres: Math.max(0, litres) };
}

const nothing = { ms: 0, litres: 0 };

const gapsKept = 5;
const gapsThatTell = 3;

/** The middle one of the last gaps; null where they are too few to tell. */
function usualGap(gaps: readonly number[]): number | null {
  if (gaps.length < gapsThatTell) return null;
  const sorted = gaps.slice().sort((a, b) => a - b);
  return sorted[Math.floor((sorted.length - 1) / 2)] as number;
}

/** The last gaps, with one more. */
export function gapsAfter({ time, gaps = [] }: AcceptanceState, next: number): readonly number[] {
  return time === undefined ? gaps : gaps.slice(1 - gapsKept).concat([next - time]);
}

/** The run with one more reading in it, and what that adds. */
export function extendRun(
  run: AcceptanceRun | undefined,
  { time }: AcceptanceReading,
  litres: number | null,
  judged: Judged,
  added: { readonly ms: number; readonly litres: number },
): AcceptanceRun {
  const { margins } = judged;
  const unchecked = judged.unchecked.filter((code) => ofTheRow.indexOf(code) < 0);
  const few = judged.fewParticles ? 1 : 0;
  if (run === undefined) {
    const begun = { readings: 1, fewParticles: few, from: time, to: time, ...nothing };
    return { ...begun, fromLitres: litres, toLitres: litres, margins, unchecked };
  }
  const fromLitres = run.fromLitres ?? litres;
  const least = run.margins.map(({ column, classes }, i) => ({
    column,
    classes: Math.min(classes, (margins[i] as TargetOutcome['margins'][number]).classes),
  }));
  return {
    ...run,
    readings: run.readings + 1,
    fewParticles: run.fewParticles + few,
    to: time,
    ms: run.ms + added.ms,
    // the sum of many doubles may come out above what the counter shows
    litres: Math.min(addDecimals(run.litres, added.litres), subtractDecimals(litres ?? 0, fromLitres ?? 0)),
    fromLitres,
    toLitres: litres,
    margins: least,
    unchecked: union(run.unchecked, unchecked),
  };
}

function union(codes: readonly FindingCode[], more: readonly FindingCode[]): readonly FindingCode[] {
  return codes.concat(more.filter((code) => codes.indexOf(code) < 0));
}

/** What the run still wants: readings, time, volume. */
export function wantingOf(prepared: PreparedAcceptance, run: AcceptanceRun): AcceptanceRecord['required'] {
  return {
    readings: Math.max(0, prepared.readings - run.readings),
    ms: Math.max(0, prepared.leastMs - run.ms),
    litres: Math.max(0, subtractDecimals(prepared.leastLitres, run.litres)),
  };
}

/** The record of why. */
export function recordOf(
  prepared: PreparedAcceptance,
  state: AcceptanceState,
  run: AcceptanceRun,
  judged: Judged,
): AcceptanceRecord {
  const { notCounted, restarts, lastRestart = null } = state;
  const { code, readings, leastMs, leastLitres } = prepared;
  return {
    table: code.table.id,
    target: code.target,
    run: { ...run, unchecked: union(run.unchecked, judged.unchecked) },
    text: judged.text as string,
    required: { readings, ms: leastMs, litres: leastLitres },
    notCounted,
    restarts,
    lastRestart,
  };
}
