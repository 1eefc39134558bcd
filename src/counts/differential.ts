/** Cumulative counts (a size and larger) to counts between sizes, and back. */
import { requireFilledArray, requireObject } from '../checks.ts';
import { motescaleError } from '../errors.ts';
import { addDecimals, proportion, subtractDecimals } from '../numeric/decimal.ts';
import { checkCounts } from './checkCounts.ts';
import { requirePerMl, requireSize } from './ranges.ts';
import type { CumulativeCounts, DifferentialCounts } from './types.ts';

type Range = DifferentialCounts['ranges'][number];

/**
 * Counts between neighbouring sizes, per mL; the last range is open.
 *
 * @throws what is wrong with the counts: `wrong_type`, `sizes_out_of_order`, `counts_rise_with_size`, `out_of_range`
 *   and the like.
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
    return { from, to: next ?? null, perMl: perMlBetween(counts, i, next === undefined ? null : i + 1) };
  });
  return { sizing: counts.sizing, ranges };
}

/**
 * Counts of a size and larger, per mL, summed from the largest range down. The last range must be open (`to: null`):
 * without it nothing is known of the particles above.
 *
 * @throws `sizes_out_of_order` when a range does not start where the one before ends; `missing_size` when the last
 * range is closed; `wrong_type`, `empty`, `unknown_sizing`, `not_a_number`, `infinite`, `negative`, `out_of_range` for
 * what is no range.
 *
 * @example
 * ```ts
 * import { fromDifferential } from 'motescale/counts';
 * const ranges = [{ from: 6, to: 14, perMl: 369 }, { from: 14, to: null, perMl: 33 }];
 * fromDifferential({ sizing: 'iso11171', ranges }).perMl; // => [402, 33]
 * ```
 */
export function fromDifferential(counts: DifferentialCounts): CumulativeCounts {
  requireObject(counts, 'counts', 'differential counts { sizing, ranges }', ['sizing', 'ranges']);
  requireFilledArray(counts.ranges, 'counts.ranges');
  const { ranges } = counts;
  for (let i = 0; i < ranges.length; i += 1) checkRange(ranges[i], `counts.ranges[${i}]`);
  for (let i = 0; i < ranges.length; i += 1) checkEnd(ranges, i);
  const sizes: number[] = [];
  const perMl: number[] = [];
  let total = 0;
  for (let i = ranges.length - 1; i >= 0; i -= 1) {
    const range = ranges[i] as Range;
    total = addDecimals(range.perMl, total);
    sizes.unshift(range.from);
    perMl.unshift(total);
  }
  return checkCounts(
    { sizing: counts.sizing, sizes, perMl },
    'counts',
    false,
    (list, i) => `counts.ranges[${i}].${list === 'sizes' ? 'from' : list}`,
  );
}

function checkRange(range: Range | undefined, name: string): void {
  requireObject(range, name, 'a range { from, to, perMl }', ['from', 'to', 'perMl']);
  const { from, perMl } = range as Range;
  requireSize(from, `${name}.from`);
  requirePerMl(perMl, `${name}.perMl`);
}

/** Each range ends where the next one starts, and the last is open. */
function checkEnd(ranges: readonly Range[], i: number): void {
  const name = `counts.ranges[${i}].to`;
  const { to } = ranges[i] as Range;
  const next = ranges[i + 1];
  if (next === undefined) {
    if (to === null) return;
    throw motescaleError('missing_size', name, to, 'null: the last range must hold all larger particles');
  }
  if (to !== next.from)
    throw motescaleError('sizes_out_of_order', name, to, `${next.from}, where the next range starts`);
}

/**
 * Particles per mL between two of the measured sizes (by index; null: no upper end). From raw counts it is a difference
 * of whole numbers, from short decimals a difference of decimals: on a limit of a table either is exact.
 */
export function perMlBetween(counts: CumulativeCounts, from: number, to: number | null): number {
  const { perMl, counted, volumeMl, dilution = 1 } = counts;
  const lower = perMl[from] as number;
  if (to === null) return lower;
  if (counted === undefined || volumeMl === undefined) return subtractDecimals(lower, perMl[to] as number);
  return proportion((counted[from] as number) - (counted[to] as number), dilution, volumeMl);
}
