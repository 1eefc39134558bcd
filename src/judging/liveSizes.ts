/**
 * Some channels of a counter may freeze while the others live: what these give is a figure of its own, and is not
 * silenced. The frozen sizes are then as if they had not been counted.
 */
import { riseWithSize } from '../counts/checkCounts.ts';
import type { CumulativeCounts } from '../counts/types.ts';
import type { Assessment, TimedReading } from '../reading/reading.ts';

/** A reading, and how far its figures can be relied on. */
export interface Judged {
  readonly reading: TimedReading;
  readonly assessment: Assessment;
}

/**
 * The same with the sizes alone that live, uncertain, where the counts are bad for nothing but their frozen sizes; any
 * other as it is.
 */
export function withLiveSizes({ reading, assessment }: Judged): Judged {
  const { counts } = reading;
  const { findings, figureQualities } = assessment;
  const spoilt = findings.filter(({ quality, affects }) => quality === 'bad' && affects.indexOf('counts') >= 0);
  const stuck = spoilt.filter(({ code }) => code === 'channels_stuck')[0];
  if (counts === undefined || stuck === undefined) return { reading, assessment };
  const live = without(counts, stuck.sizes as readonly number[]);
  // a frozen count above a smaller size is no fault of the others
  const ofOthers = spoilt.some(
    ({ code }) => code !== 'channels_stuck' && (code !== 'counts_rise_with_size' || riseWithSize(live)),
  );
  if (ofOthers || live.sizes.length === 0) return { reading, assessment };
  const qualities = { ...figureQualities, counts: 'uncertain' } as const;
  return { reading: { ...reading, counts: live }, assessment: { ...assessment, figureQualities: qualities } };
}

function without(counts: CumulativeCounts, sizes: readonly number[]): CumulativeCounts {
  const { counted } = counts;
  const keep = (list: readonly number[]) => list.filter((_, i) => sizes.indexOf(counts.sizes[i] as number) < 0);
  const live = { ...counts, sizes: keep(counts.sizes), perMl: keep(counts.perMl) };
  return counted === undefined ? live : { ...live, counted: keep(counted) };
}
