/** Cumulative counts (a size and larger) to counts between sizes, and back. */
import { isObject, requireFilledArray, requireMeasure, requireObject } from '../checks.ts';
import { motescaleError } from '../errors.ts';
import { addDecimals, proportion, subtractDecimals } from '../numeric/decimal.ts';
import { checkCounts, disagreement, requireSizing } from './checkCounts.ts';
import { type PerVolume, type RawCount, relatedCounts } from './cumulativeCounts.ts';
import { requireCount, requirePerMl, requireSize } from './ranges.ts';
import type { CumulativeCounts, DifferentialCounts, Sizing } from './types.ts';

/** Counts between sizes as a sheet has them: a `count` in each range, and what it relates to. */
export type RangeCounts = {
  readonly sizing: Sizing;
  readonly ranges: readonly { readonly from: number; readonly to: number | null; readonly count: number }[];
} & (Required<Pick<PerVolume, 'per'>> | Pick<RawCount, 'volumeMl' | 'dilution'>);

interface Range {
  readonly from: number;
  readonly to: number | null;
  readonly perMl?: number;
  readonly count?: number;
}

/**
 * Counts between neighbouring sizes, per mL; the last range is open. Of raw counts also the particles of each range,
 * and their volume, so that `fromDifferential` loses nothing.
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
  const { sizing, counted, volumeMl, dilution = 1 } = counts;
  const raw = counted !== undefined && volumeMl !== undefined;
  const ranges = counts.sizes.map((from, i) => {
    const next = counts.sizes[i + 1];
    const range = { from, to: next ?? null, perMl: perMlBetween(counts, i, next === undefined ? null : i + 1) };
    return raw ? { ...range, count: (counted[i] as number) - (counted[i + 1] ?? 0) } : range;
  });
  return raw ? { sizing, ranges, volumeMl, dilution } : { sizing, ranges };
}

/**
 * Counts of a size and larger, per mL, summed from the largest range down. The last range must be open (`to: null`):
 * without it nothing is known of the particles above.
 *
 * Ranges have a `perMl`, or a `count` where `per: '100mL'`, as NAS 1638 and GOST 17216 have it, or `volumeMl` (and
 * `dilution`) says what it relates to, as of `cumulativeCounts`. With `volumeMl` it is the particles that were counted.
 *
 * @throws `sizes_out_of_order` when a range does not start where the one before ends; `missing_size` when the last
 * range is closed; `wrong_type`, `empty`, `unknown_sizing`, `not_a_number`, `infinite`, `negative`, `out_of_range` for
 * what is no range, or a `perMl` that is not that of the `count`; `missing_volume` for a `count` without `volumeMl` or
 * `per`, or a `dilution` without `volumeMl`; `not_an_integer`, `unknown_option`.
 *
 * @example
 * ```ts
 * import { fromDifferential } from 'motescale/counts';
 * const ranges = [{ from: 6, to: 14, perMl: 369 }, { from: 14, to: null, perMl: 33 }];
 * fromDifferential({ sizing: 'iso11171', ranges }).perMl; // => [402, 33]
 * const counted = [{ from: 6, to: 14, count: 3 }, { from: 14, to: null, count: 0 }];
 * fromDifferential({ sizing: 'iso11171', ranges: counted, volumeMl: 10 }).counted; // => [3, 0]
 * fromDifferential({ sizing: 'iso11171', ranges: counted, per: '100mL' }).perMl; // => [0.03, 0]
 * ```
 */
export function fromDifferential(counts: DifferentialCounts | RangeCounts): CumulativeCounts {
  const members = ['sizing', 'ranges', 'per', 'volumeMl', 'dilution'];
  requireObject(counts, 'counts', 'differential counts { sizing, ranges }', members);
  const { sizing, per, volumeMl, dilution } = counts as DifferentialCounts & Pick<PerVolume, 'per'>;
  const options = { per, volumeMl, dilution } as PerVolume | RawCount;
  const ranges: readonly Range[] = counts.ranges;
  requireFilledArray(ranges, 'counts.ranges');
  const isRaw = volumeMl !== undefined;
  if (!isRaw && per === undefined && ranges.some((range) => isObject(range) && range.count !== undefined)) {
    const expected = "the volume counted in mL, beside count; or per: 'mL' or '100mL'";
    throw motescaleError('missing_volume', 'counts.volumeMl', volumeMl, expected);
  }
  const figure = isRaw || per !== undefined ? 'count' : 'perMl';
  ranges.forEach((range, i) => {
    checkRange(range, `counts.ranges[${i}]`, figure, isRaw);
  });
  for (let i = 0; i < ranges.length; i += 1) checkEnd(ranges, i);
  const figures: number[] = [];
  let total = 0;
  for (let i = ranges.length - 1; i >= 0; i -= 1) {
    total = addDecimals((ranges[i] as Range)[figure] as number, total);
    figures.unshift(total);
  }
  const sizes = ranges.map(({ from }) => from);
  const nameOf = (list: string, i?: number) =>
    i === undefined ? `counts.${list}` : `counts.ranges[${i}].${list === 'sizes' ? 'from' : figure}`;
  const found = relatedCounts(requireSizing(sizing, 'counts.sizing'), sizes, figures, options, nameOf);
  ranges.forEach(({ perMl, count }, i) => {
    if (!isRaw || perMl === undefined) return;
    const wrong = disagreement({ ...found, perMl: [perMl], counted: [count as number] });
    if (wrong !== null)
      throw motescaleError('out_of_range', `counts.ranges[${i}].perMl`, perMl, `${wrong.expected}, of its count`);
  });
  return found;
}

function checkRange(range: Range, name: string, figure: 'count' | 'perMl', isRaw: boolean): void {
  const members = isRaw ? ['from', 'to', 'perMl', 'count'] : ['from', 'to', figure];
  requireObject(range, name, `a range { from, to, ${figure} }`, members);
  requireSize(range.from, `${name}.from`);
  if (range.perMl !== undefined || figure === 'perMl') requirePerMl(range.perMl, `${name}.perMl`);
  if (isRaw) requireCount(range.count, `${name}.count`);
  else if (figure === 'count') requireMeasure(range.count, `${name}.count`, 0, 1e14, 'particles');
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
