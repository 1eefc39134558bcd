/**
 * Some channels of a counter may freeze, die or show what another shows while the others live: what these give is a
 * figure of its own, and is not silenced. The broken sizes are then as if they had not been counted.
 */
import { riseWithSize } from '../counts/checkCounts.ts';
import type { CumulativeCounts } from '../counts/types.ts';
import type { Assessment, Finding, FindingCode, TimedReading } from '../reading/reading.ts';

/** A reading, and how far its figures can be relied on. */
export interface Judged {
  readonly reading: TimedReading;
  readonly assessment: Assessment;
}

/** What breaks the sizes that a finding names, and leaves the others. */
const ofSizes: readonly FindingCode[] = ['channels_stuck', 'channel_empty', 'channels_equal'];

/**
 * The same with the sizes alone that live, uncertain, where the counts are bad for nothing but their broken sizes; any
 * other as it is.
 */
export function withLiveSizes(judged: Judged): Judged {
  const { reading, assessment } = judged;
  const { counts } = reading;
  const { findings, figureQualities } = assessment;
  if (findings.length === 0) return judged;
  const spoilt = findings.filter(({ quality, affects }) => quality === 'bad' && affects.indexOf('counts') >= 0);
  const ofThese = spoilt.filter(({ code }) => ofSizes.indexOf(code) >= 0);
  if (counts === undefined || ofThese.length === 0) return judged;
  const live = without(counts, (size) => ofThese.some((finding) => isBroken(size, finding)));
  // a broken count above a smaller size is no fault of the others
  const ofOthers = spoilt.some(
    ({ code }) => ofSizes.indexOf(code) < 0 && (code !== 'counts_rise_with_size' || riseWithSize(live)),
  );
  // of a dark counter noise is left, at the smallest size
  const fewest = ofThese.some(({ code }) => code === 'channel_empty') ? 2 : 1;
  if (ofOthers || live.sizes.length < fewest) return judged;
  const qualities = { ...figureQualities, counts: 'uncertain' } as const;
  return { reading: { ...reading, counts: live }, assessment: { ...assessment, figureQualities: qualities } };
}

/** Above the first size without a particle none has one. */
function isBroken(size: number, { code, sizes = [] }: Finding): boolean {
  return code === 'channel_empty' ? size >= (sizes[0] as number) : sizes.indexOf(size) >= 0;
}

function without(counts: CumulativeCounts, isBrokenSize: (size: number) => boolean): CumulativeCounts {
  const { counted } = counts;
  const keep = (list: readonly number[]) => list.filter((_, i) => !isBrokenSize(counts.sizes[i] as number));
  const live = { ...counts, sizes: keep(counts.sizes), perMl: keep(counts.perMl) };
  return counted === undefined ? live : { ...live, counted: keep(counted) };
}
