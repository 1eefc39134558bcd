/**
 * One reading beside the target: whether it counts, and if not, why.
 */
import { classify, codeInterval, meets, type TargetOutcome } from '../codes/index.ts';
import { isMotescaleError } from '../errors.ts';
import { columnsOf } from '../judging/codeVerdict.ts';
import { assessBeside } from '../reading/assessReading.ts';
import type { FindingCode, Quality } from '../reading/index.ts';
import type { AcceptanceConfig, AcceptanceReading } from './types.ts';

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
    quality,
    text: null,
    outcome: null,
    margins: [],
    fewParticles: false,
    worse: false,
    stuck: doubts.indexOf('values_stuck') >= 0,
    unchecked,
    why: `bad: ${found}`,
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
  return meets(config.table, config.target, codeInterval(config.table, counts).high, columnsOf(config));
}
