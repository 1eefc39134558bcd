/**
 * One reading beside the target, and what it makes of the run of readings before it.
 */
import { classify, meets, type TargetOutcome } from '../codes/index.ts';
import { isMotescaleError, motescaleError } from '../errors.ts';
import { assessBeside } from '../sampling/assessReading.ts';
import type { Quality } from '../sampling/index.ts';
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
  readonly worse: boolean;
  /** Whether its counts are those of the readings before it, too often to be measured. */
  readonly stuck: boolean;
  readonly why: string | null;
}

/** Assesses and classifies a reading, one of so many running with the same counts. Bad readings are not compared. */
export function judge(config: AcceptanceConfig, reading: AcceptanceReading, same: number): Judged {
  const { quality, findings } = assessBeside(reading, config.limits ?? {}, [], { same, known: same });
  const stuck = findings.some((finding) => finding.code === 'values_stuck' && finding.quality !== 'good');
  const found = findings.map((finding) => finding.text).join(' ');
  if (quality === 'bad') return { quality, text: null, outcome: null, worse: false, stuck, why: `bad: ${found}` };
  try {
    const classification = classify(config.table, reading.counts, columnsOf(config));
    const outcome = meets(config.table, config.target, classification, columnsOf(config));
    const worse = outcome.margins.some((margin) => margin.classes < 0);
    let why: string | null = null;
    if (worse) why = 'worse than target';
    else if (!outcome.met) why = `not known at ${outcome.missing.join(', ')}`;
    else if (quality === 'uncertain') why = `uncertain: ${found}`;
    return { quality, text: classification.text, outcome, worse, stuck, why };
  } catch (error) {
    if (!isMotescaleError(error)) throw error;
    return { quality, text: null, outcome: null, worse: false, stuck, why: error.message };
  }
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
  const { margins } = judged.outcome as TargetOutcome;
  if (run === null) return { readings: 1, from: time, to: time, fromLitres: litres, toLitres: litres, margins };
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
  return { ...run, readings: run.readings + 1, to: time, toLitres: litres, margins: least };
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
  return {
    table: config.table.id,
    target: config.target,
    run,
    text,
    required: { readings, ms: leastMs ?? 0, litres: leastLitres ?? 0 },
    notCounted,
    restarts,
    lastRestart,
  };
}
