/** Particles and volumes summed over a bucket. A mean of codes hides how few were counted; their sum does not. */
import { requireFilledArray, requireObject } from '../checks.ts';
import { checkCounts, requireSizing } from '../counts/checkCounts.ts';
import { requireCount, requireDilution, requireMeasurableCount, requireVolume } from '../counts/ranges.ts';
import type { CumulativeCounts, Sizing } from '../counts/types.ts';
import { motescaleError } from '../errors.ts';
import { proportion } from '../numeric/decimal.ts';
import { addExactly, canonicalSum, roundedSum } from '../numeric/exactSum.ts';
import type { RollUpBucket, RollUpReading } from './types.ts';

/** The sums while they grow; left out where nothing was counted. */
export interface CountedSums {
  counted?: number[];
  /** The volume, exact: doubles that add up to it. */
  volumes?: number[];
}

/** What a reading counted, checked; nothing where it gives none, or where the counts rise with size. */
export function requireCounted(reading: RollUpReading, parameter: string): Pick<RollUpReading, 'counted' | 'volumeMl'> {
  const { counted, volumeMl } = reading;
  if (counted === undefined && volumeMl === undefined) return {};
  const volume = requireVolume(volumeMl, `${parameter}.volumeMl`);
  requireFilledArray(counted, `${parameter}.counted`, 'an array of particles counted, size by size');
  const particles = (counted as readonly number[]).map((n, i) =>
    requireMeasurableCount(n, `${parameter}.counted[${i}]`),
  );
  // more of a larger size: a channel is wrong, and their sum would say nothing
  for (let i = 1; i < particles.length; i += 1) if ((particles[i] as number) > (particles[i - 1] as number)) return {};
  return { counted: particles, volumeMl: volume };
}

/** Adds what a reading, or an earlier bucket, counted. */
export function addCounted(
  sums: CountedSums,
  counted: readonly number[] | undefined,
  volumes: readonly number[] | undefined,
): void {
  if (counted === undefined || volumes === undefined) return;
  const before = sums.counted;
  sums.counted = before === undefined ? counted.slice() : before.map((n, i) => n + (counted[i] as number));
  for (const part of volumes) sums.volumes = addExactly(sums.volumes ?? [], part);
}

/** The sums as they are given away. */
export function finishedSums(sums: CountedSums): Pick<RollUpBucket, 'counted' | 'volumes' | 'volumeMl'> {
  if (sums.counted === undefined || sums.volumes === undefined) return {};
  const volumes = canonicalSum(sums.volumes);
  return { counted: sums.counted, volumes, volumeMl: roundedSum(volumes) };
}

/**
 * The counts of a whole bucket, from all particles counted in it and the volume they were counted in: ten visits of 2
 * particles each are 20 in ten volumes. So `>=` of ISO 4406, `codeInterval` and `codeUncertainty` follow from what was
 * really counted.
 *
 * The sums are exact. They say nothing of how the oil changed within the bucket; `spent` and `max` do.
 *
 * @param bucket a bucket of a roll-up whose readings had `counted` and `volumeMl`
 * @param sizes the sizes of the readings' counts, µm, ascending
 * @param options `sizing`: how they were measured; `iso11171` where left out. `dilution`: how many times all samples
 * of the bucket were diluted; 1 where left out. Samples diluted differently need roll-ups of their own.
 * @throws `no_answer` where nothing was counted in the bucket; `length_mismatch` for another number of sizes;
 * `sizes_out_of_order`, `unknown_sizing`, `wrong_type`, `empty`.
 *
 * @example
 * ```ts
 * import { classify, iso4406 } from 'motescale/codes';
 * import { bucketCounts, rollUp } from 'motescale/history';
 * const visit = (time: number, counted: number[]) => ({ time, value: 6, counted, volumeMl: 10 });
 * const readings = [visit(0, [140, 21, 2]), visit(600000, [151, 26, 4]), visit(1200000, [133, 19, 1])];
 * const [hour] = rollUp(readings, { widthMs: 3600000, holdMs: 900000 });
 * hour?.counted; // => [424, 66, 7]
 * hour?.volumeMl; // => 30
 * if (hour) classify(iso4406, bucketCounts(hour, [4, 6, 14])).text; // => '11/8/>=5'
 * ```
 */
export function bucketCounts(
  bucket: Pick<RollUpBucket, 'counted' | 'volumeMl'>,
  sizes: readonly number[],
  options: { readonly sizing?: Sizing | undefined; readonly dilution?: number | undefined } = {},
): CumulativeCounts {
  requireObject(bucket, 'bucket');
  requireObject(options, 'options', undefined, ['sizing', 'dilution']);
  requireFilledArray(sizes, 'sizes', 'an array of sizes');
  const { counted, volumeMl } = bucket;
  if (counted === undefined || volumeMl === undefined) {
    throw motescaleError('no_answer', 'bucket.counted', counted, 'a bucket whose readings had counted and volumeMl');
  }
  requireFilledArray(counted, 'bucket.counted', 'an array of particles counted, size by size');
  requireVolume(volumeMl, 'bucket.volumeMl');
  if (sizes.length !== counted.length) {
    throw motescaleError('length_mismatch', 'sizes', sizes, `${counted.length} sizes, as the readings counted`);
  }
  const dilution = options.dilution === undefined ? 1 : requireDilution(options.dilution, 'options.dilution');
  const perMl = counted.map((n, i) => proportion(requireCount(n, `bucket.counted[${i}]`), dilution, volumeMl));
  const nameOf = (list: string, i?: number) => (list === 'sizes' ? `sizes[${i}]` : `bucket.${list}[${i}]`);
  const sizing = options.sizing === undefined ? 'iso11171' : requireSizing(options.sizing, 'options.sizing');
  const counts = { sizing, sizes: sizes.slice(), perMl, counted: counted.slice(), volumeMl };
  return checkCounts(dilution === 1 ? counts : { ...counts, dilution }, 'bucket', false, nameOf);
}
