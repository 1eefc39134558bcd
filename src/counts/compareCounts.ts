/** Two samples at all sizes at once: before and after a filter, line and bottle. */
import { confidenceOf, noneOf } from '../checks.ts';
import { motescaleError } from '../errors.ts';
import { checkCounts } from './checkCounts.ts';
import { requireFewEnough, requireRaw } from './ranges.ts';
import { differenceOf } from './statistics.ts';
import type { CumulativeCounts, Sizing } from './types.ts';

/** How two samples compare at one size. */
export interface SizeComparison {
  /** In µm. */
  readonly size: number;
  /** Particles per mL of this size and larger. */
  readonly first: number;
  readonly second: number;
  /** The first over the second; null where nothing was counted in the second. */
  readonly ratio: number | null;
  /** Limits of the ratio: they hold at all sizes together. `high` is null where there is none. */
  readonly low: number;
  readonly high: number | null;
  /** Chance of a difference at least this large, at this size alone, if both were equally dirty; 1 where both are 0. */
  readonly p: number;
  /** Whether the limits leave out 1. */
  readonly differs: boolean;
}

/** How two samples compare. */
export interface CountsComparison {
  readonly sizing: Sizing;
  /** Of all sizes together. */
  readonly confidence: number;
  /** Whether they differ at one size at least. */
  readonly differs: boolean;
  /** The sizes that both have. */
  readonly sizes: readonly SizeComparison[];
}

/**
 * Where two samples differ by more than chance, size by size: `countsDiffer` at each size that both have, held to a
 * stricter level, so that two samples of one oil are said to differ at any size with 1 - confidence at most. With five
 * sizes at 95 % each is tested at 99 %, and so are the limits of the ratio. That holds though particles of 14 µm are
 * among those of 6 as well. Sizes at which neither sample has a particle are not tested.
 *
 * It knows the draw of the particles alone. It is for two samples by one instrument in one set-up; for two
 * instruments, or a bottle against a monitor, where an error of size or volume makes many particles differ "by more
 * than chance", use `zetaScore` on what `codeUncertainty` finds.
 *
 * Range: up to 1e9 particles at a size; diluted samples count as the oil that was in them. The limits are those of
 * `countsDiffer`.
 *
 * Sources: those of `countsDiffer`; O. J. Dunn, Journal of the American Statistical Association 56 (1961) 52
 * (Bonferroni's inequality for several comparisons; from memory).
 *
 * @param first raw counts (made with `volumeMl`)
 * @param second the same, in the same sizing
 * @param options `confidence`, 0.95 where left out: of all sizes together
 * @throws `missing_volume` if the counts carry no particles counted and volume; `sizing_not_convertible` where the
 * sizings differ; `missing_size` where no size is in both; `out_of_range`, `unknown_option`, and the errors of bad
 * counts.
 *
 * @example
 * ```ts
 * import { compareCounts, cumulativeCounts } from 'motescale/counts';
 * const before = cumulativeCounts({ 4: 18900, 6: 4020, 14: 96 }, { volumeMl: 10 });
 * const after = cumulativeCounts({ 4: 6240, 6: 1180, 14: 31 }, { volumeMl: 25 });
 * const found = compareCounts(before, after);
 * found.differs; // => true
 * const [, , large] = found.sizes;
 * large?.ratio; // ~> 7.74
 * large?.low; // ~> 4.71
 * ```
 */
export function compareCounts(
  first: CumulativeCounts,
  second: CumulativeCounts,
  options: { readonly confidence?: number | undefined } = {},
): CountsComparison {
  const one = samplesOf(first, 'first');
  const other = samplesOf(second, 'second');
  const confidence = confidenceOf(options);
  const { sizing } = first;
  if (second.sizing !== sizing)
    throw noneOf([sizing], 'sizing_not_convertible', 'second.sizing', second.sizing, ', the sizing of the first');
  const both = first.sizes.filter((size) => second.sizes.indexOf(size) >= 0);
  if (both.length === 0) {
    const expected = `a size of the first: ${first.sizes.join(', ')}`;
    throw motescaleError('missing_size', 'second.sizes', second.sizes, expected);
  }
  const pairs = both.map((size) => [first.sizes.indexOf(size), second.sizes.indexOf(size)] as [number, number]);
  const counted = ([i, k]: [number, number]) => [one.counted[i] as number, other.counted[k] as number] as const;
  const tested = pairs.filter((pair) => counted(pair)[0] + counted(pair)[1] > 0).length;
  const level = (1 - confidence) / Math.max(1, tested);
  const sizes = pairs.map((pair): SizeComparison => {
    const [a, b] = counted(pair);
    const perMl = { first: first.perMl[pair[0]] as number, second: second.perMl[pair[1]] as number };
    const size = first.sizes[pair[0]] as number;
    const found = differenceOf(a, b, one.oilMl / other.oilMl, level / 2);
    return { size, ...perMl, ...found, differs: found.low > 1 || (found.high !== null && found.high < 1) };
  });
  return { sizing, confidence, differs: sizes.some(({ differs }) => differs), sizes };
}

/** The particles counted, and the oil they were in. */
function samplesOf(counts: CumulativeCounts, parameter: string): { counted: readonly number[]; oilMl: number } {
  checkCounts(counts, parameter);
  const { counted, volumeMl } = requireRaw(counts, parameter);
  for (let i = 0; i < counted.length; i += 1) requireFewEnough(counted[i] as number, `${parameter}.counted[${i}]`);
  return { counted, oilMl: volumeMl / (counts.dilution ?? 1) };
}
