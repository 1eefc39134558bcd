/**
 * One reading beside the target: whether it counts, and if not, why.
 */
import { codeInterval, meets, type TargetOutcome } from '../codes/index.ts';
import { assessArrived } from '../judging/assess.ts';
import { codePlan } from '../judging/codePlan.ts';
import { codeVerdicts, columnsOf } from '../judging/codeVerdict.ts';
import type { CodeVerdict } from '../judging/types.ts';
import { type FindingCode, findingText, type Quality } from '../reading/index.ts';
import { wholeLimits } from '../reading/readingLimits.ts';
import type { Repeats } from '../reading/repeats.ts';
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
  /** The same of what only a row of readings can tell. */
  readonly uncheckedOfRow: readonly FindingCode[];
  readonly why: string | null;
}

/** What only a row of readings can tell: asked of the last of them, in the record. */
const ofTheRow: readonly FindingCode[] = ['values_stuck', 'channels_stuck'];

/** Assesses and classifies a reading; `repeats` has taken it in, null where it is not newer than the last. Bad readings are not compared. */
export function judge(config: AcceptanceConfig, reading: AcceptanceReading, repeats: Repeats | null): Judged {
  const { quality, findings, unchecked: left } = assessArrived(wholeLimits(config.limits), reading, repeats);
  const doubts = findings.filter(({ affects, quality: one }) => affects.indexOf('counts') >= 0 && one !== 'good');
  const found = doubts.map((finding) => findingText(finding)).join(' ');
  const judged: Judged = {
    quality,
    text: null,
    outcome: null,
    margins: [],
    fewParticles: false,
    worse: false,
    stuck: doubts.some(({ code }) => ofTheRow.indexOf(code) >= 0),
    unchecked: left.filter((code) => ofTheRow.indexOf(code) < 0),
    uncheckedOfRow: left.filter((code) => ofTheRow.indexOf(code) >= 0),
    why: `bad: ${found}`,
  };
  if (quality === 'bad') return judged;
  const [verdict] = codeVerdicts([codePlan(config.table, config.target, config.columns ?? null)], reading);
  const { text, outcome, reason = '' } = verdict as CodeVerdict;
  if (text === null || outcome === null) return { ...judged, why: reason };
  const { margins } = outcome;
  const shown = { ...judged, text, outcome, margins, why: null };
  if (margins.some(({ classes }) => classes < 0)) return { ...shown, worse: true, why: 'worse than target' };
  if (outcome.missing.length > 0) return { ...shown, why: `not known at ${outcome.missing.join(', ')}` };
  if (quality === 'good') {
    return outcome.met ? shown : { ...shown, why: `few counted at ${outcome.uncertain.join(', ')}` };
  }
  const few = doubts.length === 1 && doubts[0]?.code === 'few_particles';
  const upper = few ? atUpperLimit(config, reading) : null;
  if (upper === null || !upper.met) return { ...shown, why: `uncertain: ${found}` };
  return { ...shown, margins: upper.margins, fewParticles: true };
}

/** The outcome if as many particles were there as the counting statistics leave possible; null where the number counted is not known. */
function atUpperLimit(config: AcceptanceConfig, { counts }: AcceptanceReading): TargetOutcome | null {
  if (counts?.counted === undefined || counts.volumeMl === undefined) return null;
  return meets(config.table, config.target, codeInterval(config.table, counts).high, columnsOf(config));
}
