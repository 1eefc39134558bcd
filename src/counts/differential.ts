/**
 * Cumulative counts (a size and larger) to counts between sizes, and back.
 */
import { requireFilledArray, requireNonNegative, requireObject, requirePositive } from '../checks.ts';
import { motescaleError } from '../errors.ts';
import { addDecimals, proportion, subtractDecimals } from '../numeric/decimal.ts';
import { checkCounts, requireSizing } from './checkCounts.ts';
import type { CumulativeCounts, DifferentialCounts } from './types.ts';

/**
 * Counts between neighbouring sizes, per mL; the last range is open.
 *
 * @example
 * ```ts
 * import { cumulativeCounts, toDifferential } from 'motescale/counts';
 * toDifferential(cumulativeCounts({ 4: 1890, 6: 402, 14: 33 })).ranges[1]; // => { from: 6, to: 14, perMl: 369 }
 * ```
 */
export function toDifferential(counts: CumulativeCounts): DifferentialCounts {
  checkCounts(counts);
  const ranges = counts.sizes.map((from, i) => {
    const next = counts.sizes[i + 1];
    return {
      from,
      to: next === undefined ? null : next,
      perMl: perMlBetween(counts, i, next === undefined ? null : i + 1),
    };
  });
  return { sizing: counts.sizing, ranges };
}

/**
 * Counts of a size and larger, per mL, summed from the largest range down. The last range must be open (`to: null`): without it
 * nothing is known of the particles above.
 *
 * @throws `sizes_out_of_order` when a range does not start where the one before ends; `missing_size` when the last range is closed.
 *
 * @example
 * ```ts
 * import { fromDifferential } from 'motescale/counts';
 * const ranges = [{ from: 6, to: 14, perMl: 369 }, { from: 14, to: null, perMl: 33 }];
 * fromDifferential({ sizing: 'iso11171', ranges }).perMl; // => [402, 33]
 * ```
 */
export function fromDifferential(counts: DifferentialCounts): CumulativeCounts {
  requireObject(counts, 'counts', 'differential counts');
  requireSizing(counts.sizing, 'counts.sizing');
  requireFilledArray(counts.ranges, 'counts.ranges');
  const { ranges } = counts;
  for (let i = 0; i < ranges.length; i += 1) checkRange(ranges, i);
  const sizes: number[] = [];
  const perMl: number[] = [];
  let total = 0;
  for (let i = ranges.length - 1; i >= 0; i -= 1) {
    const range = ranges[i] as DifferentialCounts['ranges'][number];
    total = addDecimals(range.perMl, total);
    sizes.unshift(range.from);
    perMl.unshift(total);
  }
  return checkCounts({ sizing: counts.sizing, sizes, perMl });
}

function checkRange(ranges: DifferentialCounts['ranges'], i: number): void {
  const name = `counts.ranges[${i}]`;
  const range = requireObject(ranges[i], name, 'a range { from, to, perMl }') as DifferentialCounts['ranges'][number];
  requirePositive(range.from, `${name}.from`, 'a size in µm above 0');
  requireNonNegative(range.perMl, `${name}.perMl`, 'particles per mL, 0 or more');
  const next = ranges[i + 1];
  if (next === undefined) {
    if (range.to !== null) {
      throw motescaleError(
        'missing_size',
        `${name}.to`,
        range.to,
        'null: the last range must hold all larger particles',
      );
    }
  } else if (range.to !== next.from) {
    throw motescaleError('sizes_out_of_order', `${name}.to`, range.to, `${next.from}, where the next range starts`);
  }
}

/**
 * Particles per mL between two of the measured sizes (by index; null: no upper end). From raw counts it is a difference of whole
 * numbers, from short decimals a difference of decimals: on a limit of a table either is exact.
 */
export function perMlBetween(counts: CumulativeCounts, from: number, to: number | null): number {
  const lower = counts.perMl[from] as number;
  if (to === null) return lower;
  if (counts.counted !== undefined && counts.volumeMl !== undefined) {
    const between = (counts.counted[from] as number) - (counts.counted[to] as number);
    return proportion(between, counts.dilution ?? 1, counts.volumeMl);
  }
  return subtractDecimals(lower, counts.perMl[to] as number);
}
