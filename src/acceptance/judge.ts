/** One reading beside the target: whether it counts, and if not, why. */
import { columnPlace, countedIn } from '../codes/columnCount.ts';
import { type Code, codeInterval, type TargetOutcome } from '../codes/index.ts';
import { type Margins, outcomeOf, type Wanted } from '../codes/targetOutcome.ts';
import type { CumulativeCounts } from '../counts/types.ts';
import { assessArrived } from '../judging/assess.ts';
import { codeGiven, codeVerdicts } from '../judging/codeVerdict.ts';
import type { CodeVerdict } from '../judging/types.ts';
import { oilCounted, particlesCounted } from '../reading/counted.ts';
import type { Finding, FindingCode, Quality, Repeats } from '../reading/index.ts';
import { asksForLife, showsLife } from './alive.ts';
import type { notCountedWords } from './rules.ts';
import type { AcceptanceReading, AcceptanceVolume, PreparedAcceptance } from './types.ts';
import { judgesFew, unprovableOf } from './volumes.ts';

/** A reading judged: `why` it does not count, null if it does. */
export interface Judged {
  readonly quality: Quality;
  readonly text: string | null;
  readonly outcome: TargetOutcome | null;
  /** The margins that are shown at all sizes known, or those of the upper limit where few particles were counted. */
  readonly margins: TargetOutcome['margins'];
  readonly fewParticles: boolean;
  readonly worse: boolean;
  /** Whether its counts are those of the readings before it, too often to be measured. */
  readonly stuck: boolean;
  readonly unchecked: readonly FindingCode[];
  readonly why: (typeof notCountedWords)[number] | null;
  readonly findings: readonly Finding[];
  readonly reason: string | null;
  /** Columns that counts of this volume never prove. */
  readonly unprovable: readonly AcceptanceVolume[];
}

/** What only a row of readings can tell: asked of the last of them, in the record. */
export const ofTheRow: readonly FindingCode[] = ['values_stuck', 'channels_stuck', 'channel_empty'];

/**
 * By these the oil counted was not that of the machine, or was not counted at all, or the code that says so cannot be:
 * dirt in it says nothing.
 */
const ofOtherOil: readonly FindingCode[] = [
  ...(['no_flow', 'line_not_flushed', 'standing_oil', 'code_rises_with_size'] as const),
  ...ofTheRow,
];

/**
 * Assesses and classifies a reading; `repeats` has taken it in, null where it is not newer than the last. Bad counts
 * are not compared.
 */
export function judge(prepared: PreparedAcceptance, reading: AcceptanceReading, repeats: Repeats | null): Judged {
  const { quality, findings, unchecked } = assessArrived(prepared.limits, reading, repeats, [prepared.code]);
  // doubt about the thermometer is no doubt about the counts
  const doubts = findings.filter(({ affects, quality: one }) => affects.indexOf('counts') >= 0 && one !== 'good');
  const judged: Judged = {
    quality,
    text: null,
    outcome: null,
    margins: [],
    fewParticles: false,
    worse: false,
    stuck: doubts.some(({ code }) => ofTheRow.indexOf(code) >= 0),
    unchecked,
    why: 'bad',
    findings: doubts,
    reason: null,
    unprovable: [],
  };
  const isBad = quality === 'bad';
  if (isBad && doubts.some(({ code }) => ofOtherOil.indexOf(code) >= 0)) return judged;
  const shows = isBad ? withoutRise(reading) : reading;
  const { text, code, outcome, from, reason = null } = codeVerdicts([prepared.code], shows)[0] as CodeVerdict;
  if (outcome === null) return isBad ? judged : { ...judged, why: 'no_code', reason };
  const { table, wanted } = prepared.code;
  const margins: Margins = [];
  outcomeOf(table, wanted as Wanted, (code as Code).parts, shows.counts, margins);
  const shown = { ...judged, text, outcome, margins, why: null };
  if (margins.some(({ classes }) => classes < 0)) return { ...shown, worse: true, why: 'worse_than_target' };
  if (isFull(prepared, reading, outcome))
    return { ...shown, text: reading.codes?.[table.id] as string, worse: true, why: 'worse_than_target' };
  if (isBad) return judged;
  if (outcome.missing.length > 0)
    return { ...shown, why: 'not_known', unprovable: unprovableOf(prepared.volumes, outcome.missing, Infinity) };
  if (isUnflushed(prepared, unchecked)) return { ...shown, why: 'flush_not_shown' };
  // so few are also what a dead counter gives
  if (asksForLife(prepared.limits) && !showsLife(prepared, reading)) return { ...shown, why: 'few_in_all' };
  // a code written `>=` does not say how many particles were counted, so that no upper limit is known
  const sure = outcome.met === true && (from === 'counts' || outcome.uncertain.length === 0);
  const onlyFew = doubts.length === 1 && (doubts[0] as Finding).code === 'few_particles';
  // of a code alone its marks say at which sizes, and the outcome knows whether the target asks for one of them
  const fewByMark = onlyFew && reading.counts === undefined;
  if ((quality === 'good' || fewByMark) && !sure) return { ...shown, why: 'few_counted' };
  if (fewByMark) return shown;
  const uncertain = quality === 'good' ? fewAt(prepared, reading, outcome) : [];
  if (quality === 'good' && uncertain.length === 0) return shown;
  const few = uncertain.length > 0 || onlyFew;
  const upper = few ? atUpperLimit(prepared, reading) : null;
  if (upper?.met === true) return { ...shown, margins: upper.margins, fewParticles: true };
  const beyond = (upper?.margins ?? []).map(({ column }) => column);
  const oil = upper === null ? Infinity : (oilCounted(reading, reading.counts as CumulativeCounts) as number);
  const unprovable = unprovableOf(prepared.volumes, beyond, oil);
  if (quality !== 'good') return { ...shown, why: 'uncertain', unprovable };
  return { ...shown, outcome: { ...outcome, uncertain }, why: 'few_counted', unprovable };
}

/** Whether the line has to be flushed, and neither `flushedMl` nor the flow shows that it is. */
function isUnflushed({ limits }: PreparedAcceptance, unchecked: readonly FindingCode[]): boolean {
  if (limits.flushMl === null) return false;
  return unchecked.indexOf('line_not_flushed') >= 0 && unchecked.indexOf('standing_oil') >= 0;
}

/** Whether a size that was not counted is too many to count (`*`) by the code beside the counts. */
function isFull({ code }: PreparedAcceptance, reading: AcceptanceReading, { missing }: TargetOutcome): boolean {
  const given = codeGiven(code.table, reading);
  if (typeof given === 'string') return false;
  return given.parts.some(({ mark, column }) => mark === 'too_many' && missing.indexOf(column) >= 0);
}

/**
 * The reading with counts that rise with size lowered to those of the smaller sizes, the least that can have been
 * there: what is dirty even so is no fault of one channel.
 */
function withoutRise(reading: AcceptanceReading): AcceptanceReading {
  const { counts } = reading;
  if (counts === undefined) return reading;
  const { perMl, counted } = counts;
  const lowered = { ...counts, perMl: falling(perMl) };
  return { ...reading, counts: counted === undefined ? lowered : { ...lowered, counted: falling(counted) } };
}

function falling(list: readonly number[]): number[] {
  let least = Infinity;
  return list.map((one) => {
    least = Math.min(least, one);
    return least;
  });
}

/**
 * Columns the target asks for in which so few particles were counted that chance may have decided the class. Of the
 * sizes of ISO 4406 that is a finding of the reading; a class counts larger ones. Sizes of one's own stand instead.
 */
function fewAt(
  { code: { table, wanted }, limits }: PreparedAcceptance,
  reading: AcceptanceReading,
  { uncertain }: TargetOutcome,
): string[] {
  const { counts } = reading;
  const counted = counts === undefined ? null : particlesCounted(reading, counts);
  if (counted === null || !judgesFew(limits)) return [];
  const few: string[] = [];
  table.columns.forEach((column, i) => {
    if (wanted?.[i] === null) return;
    const place = columnPlace(column, counts as CumulativeCounts);
    // of a size that was not counted the outcome knows whether the few that bound it keep the target
    const isFew =
      place === null ? uncertain.indexOf(column.label) >= 0 : countedIn(counted, place) < (limits.particles as number);
    if (isFew) few.push(column.label);
  });
  return few;
}

/**
 * The outcome if as many particles were there as the counting statistics leave possible, of counts that are few; null
 * where their volume is not known.
 */
function atUpperLimit({ code }: PreparedAcceptance, { counts }: AcceptanceReading): TargetOutcome | null {
  const few = counts as CumulativeCounts;
  if (few.volumeMl === undefined) return null;
  return outcomeOf(code.table, code.wanted as Wanted, codeInterval(code.table, few).high.parts);
}
