/**
 * What a judged reading makes of the run of readings before it: it ends, or is longer by one, or proves what had to be shown.
 */
import type { TargetOutcome } from '../codes/index.ts';
import { motescaleError } from '../errors.ts';
import { subtractDecimals } from '../numeric/decimal.ts';
import type { FindingCode } from '../reading/index.ts';
import type { Judged } from './judge.ts';
import type {
  AcceptanceConfig,
  AcceptanceReading,
  AcceptanceRecord,
  AcceptanceRestart,
  AcceptanceRun,
  AcceptanceState,
} from './types.ts';

/** Why the run before a reading ends with it; null where it goes on. */
export function whyRunEnds(
  config: AcceptanceConfig,
  { run, litres }: AcceptanceState,
  reading: AcceptanceReading,
  judged: Judged,
): AcceptanceRestart['why'] | null {
  if (judged.worse) return 'worse than target';
  if (judged.stuck) return 'counts stuck';
  if (judged.quality === 'bad') return null;
  if (litres !== null && reading.litres !== undefined && reading.litres < litres) return 'volume counter ran back';
  const gap = run === null ? 0 : reading.time - run.to;
  const tooLong = config.longestGapMs !== undefined && gap > config.longestGapMs;
  return judged.why === null && tooLong ? 'too long since the last good reading' : null;
}

/** The run with one more reading in it. */
export function extendRun(
  run: AcceptanceRun | null,
  time: number,
  litres: number | null,
  judged: Judged,
): AcceptanceRun {
  const { margins, unchecked } = judged;
  const few = judged.fewParticles ? 1 : 0;
  if (run === null) {
    const begun = { readings: 1, fewParticles: few, from: time, to: time, fromLitres: litres, toLitres: litres };
    return { ...begun, margins, unchecked };
  }
  if (run.margins.length !== margins.length || run.margins.some(({ column }, i) => column !== margins[i]?.column)) {
    throw motescaleError(
      'bad_state',
      'state.run.margins',
      run.margins,
      'the sizes of the target of this configuration',
    );
  }
  const least = run.margins.map(({ column, classes }, i) => ({
    column,
    classes: Math.min(classes, (margins[i] as TargetOutcome['margins'][number]).classes),
  }));
  return {
    ...run,
    readings: run.readings + 1,
    fewParticles: run.fewParticles + few,
    to: time,
    toLitres: litres,
    margins: least,
    unchecked: union(run.unchecked, unchecked),
  };
}

function union(codes: readonly FindingCode[], more: readonly FindingCode[]): readonly FindingCode[] {
  return codes.concat(more.filter((code) => codes.indexOf(code) < 0));
}

/** What the run still wants: readings, time, volume. */
export function wantingOf(
  config: AcceptanceConfig,
  run: AcceptanceRun,
): { readings: number; ms: number; litres: number } {
  const litres = subtractDecimals(run.toLitres ?? 0, run.fromLitres ?? 0);
  return {
    readings: Math.max(0, config.readings - run.readings),
    ms: Math.max(0, (config.leastMs ?? 0) - (run.to - run.from)),
    litres: Math.max(0, subtractDecimals(config.leastLitres ?? 0, litres)),
  };
}

/** The record of why. */
export function recordOf(
  config: AcceptanceConfig,
  state: AcceptanceState,
  run: AcceptanceRun,
  judged: Judged,
): AcceptanceRecord {
  const { notCounted, restarts, lastRestart } = state;
  const { readings, leastMs, leastLitres } = config;
  return {
    table: config.table.id,
    target: config.target,
    run: { ...run, unchecked: union(run.unchecked, judged.uncheckedOfRow) },
    text: judged.text as string,
    required: { readings, ms: leastMs ?? 0, litres: leastLitres ?? 0 },
    notCounted,
    restarts,
    lastRestart,
  };
}
