/**
 * One reading beside the target, and what it makes of the run of readings before it.
 */
import { classify, codeInterval, meets, type TargetOutcome } from '../codes/index.ts';
import { isMotescaleError, motescaleError } from '../errors.ts';
import { assessBeside } from '../sampling/assessReading.ts';
import { defaultReadingLimits, type FindingCode, type Quality } from '../sampling/index.ts';
import type {
  AcceptanceConfig,
  AcceptanceReading,
  AcceptanceRecord,
  AcceptanceRestart,
  AcceptanceRun,
  AcceptanceState,
} from './acceptanceTypes.ts';
import { columnsOf } from './codeVerdict.ts';

/** A reading judged: `why` it does not count, null if it does. */
export interface Judged {
  readonly quality: Quality;
  readonly text: string | null;
  readonly outcome: TargetOutcome | null;
  /** The margins that are shown: those of `outcome`, or of the upper limit where few particles were counted. */
  readonly margins: TargetOutcome['margins'];
  readonly fewParticles: boolean;
  readonly worse: boolean;
  /** Whether its counts are those of the readings before it, too often to be measured. */
  readonly stuck: boolean;
  readonly unchecked: readonly FindingCode[];
  readonly why: string | null;
}

/** Assesses and classifies a reading, one of so many running with the same counts. Bad readings are not compared. */
export function judge(config: AcceptanceConfig, reading: AcceptanceReading, same: number): Judged {
  // `known`: whether the readings are enough to tell a frozen counter is asked of the whole run, in the record
  const {
    quality,
    findings,
    unchecked: left,
  } = assessBeside(reading, config.limits ?? {}, [], { same, known: Infinity });
  const doubts = findings.filter((finding) => finding.quality !== 'good').map(({ code }) => code);
  const found = findings.map((finding) => finding.text).join(' ');
  const unchecked = left.filter((code) => code !== 'clock_backwards');
  const judged: Judged = {
    ...{ quality, text: null, outcome: null, margins: [], fewParticles: false, worse: false },
    ...{ stuck: doubts.indexOf('values_stuck') >= 0, unchecked, why: `bad: ${found}` },
  };
  if (quality === 'bad') return judged;
  try {
    const classification = classify(config.table, reading.counts, columnsOf(config));
    const outcome = meets(config.table, config.target, classification, columnsOf(config));
    const { margins } = outcome;
    const shown = { ...judged, text: classification.text, outcome, margins, why: null };
    if (margins.some(({ classes }) => classes < 0)) return { ...shown, worse: true, why: 'worse than target' };
    if (!outcome.met) return { ...shown, why: `not known at ${outcome.missing.join(', ')}` };
    if (quality === 'good') return shown;
    const upper = doubts.join() === 'few_particles' ? atUpperLimit(config, reading) : null;
    if (upper === null || !upper.met) return { ...shown, why: `uncertain: ${found}` };
    return { ...shown, margins: upper.margins, fewParticles: true };
  } catch (error) {
    if (!isMotescaleError(error)) throw error;
    return { ...judged, why: error.message };
  }
}

/** The outcome if as many particles were there as the counting statistics leave possible; null where the number counted is not known. */
function atUpperLimit(config: AcceptanceConfig, { counts }: AcceptanceReading): TargetOutcome | null {
  if (counts.counted === undefined || counts.volumeMl === undefined) return null;
  return meets(config.table, config.target, codeInterval(counts, { table: config.table }).high, columnsOf(config));
}

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
  const litres = (run.toLitres ?? 0) - (run.fromLitres ?? 0);
  return {
    readings: Math.max(0, config.readings - run.readings),
    ms: Math.max(0, (config.leastMs ?? 0) - (run.to - run.from)),
    litres: Math.max(0, (config.leastLitres ?? 0) - litres),
  };
}

/** The record of why. */
export function recordOf(
  config: AcceptanceConfig,
  state: AcceptanceState,
  run: AcceptanceRun,
  text: string,
): AcceptanceRecord {
  const { notCounted, restarts, lastRestart } = state;
  const { readings, leastMs, leastLitres } = config;
  const { stuckReadings = defaultReadingLimits.stuckReadings } = config.limits ?? {};
  const tells = stuckReadings !== null && run.readings >= stuckReadings;
  return {
    table: config.table.id,
    target: config.target,
    run: tells ? run : { ...run, unchecked: union(run.unchecked, ['values_stuck']) },
    text,
    required: { readings, ms: leastMs ?? 0, litres: leastLitres ?? 0 },
    notCounted,
    restarts,
    lastRestart,
  };
}
