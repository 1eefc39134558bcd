/** Size calibration: what a size of one sizing is called in another, for one size and for all of a sample. */
import { motescaleError } from '../errors.ts';
import { checkCounts, requireSizing } from './checkCounts.ts';
import { onLine } from './interpolation.ts';
import { requireSize } from './ranges.ts';
import type { CumulativeCounts, Sizing } from './types.ts';

/** Sizes of ISO 4402 and the same sizes in µm(c), as printed. */
const iso4402Sizes: readonly number[] = [0.8, 1, 2, 2.7, 3, 4.3, 5, 7, 10, 12, 15, 15.5, 20, 25, 30, 40, 50, 100];
const iso11171Sizes: readonly number[] = [
  4, 4.2, 4.6, 5, 5.1, 6, 6.4, 7.7, 9.8, 11.3, 13.6, 14, 17.5, 21.2, 24.9, 31.7, 38.2, 70,
];
const micrometreCPerB = 0.898;

/**
 * A size in another sizing, in µm.
 *
 * - ISO 4402 and ISO 11171: by the published pairs, exactly at a pair and on a straight line between two; from 0.8 to
 *   100 µm (ISO 4402), 4 to 70 µm(c).
 * - µm(b) and µm(c): µm(c) = 0.898 µm(b). From memory.
 * - Microscope sizes are another quantity (longest dimension against projected area): they are converted to nothing,
 *   and nothing to them.
 *
 * The working sizes of ISO 4406 and SAE AS4059 (6 and 14 µm(c) for 5 and 15 µm) are rounded and not these pairs: 5 µm
 * is 6.4 µm(c).
 *
 * Source: ISO 11171:1999, table of corresponding sizes.
 *
 * @throws `sizing_not_convertible`, `out_of_range`, `unknown_sizing`; `wrong_type`, `not_a_number`, `infinite`,
 * `negative` for what is no size.
 *
 * @example
 * ```ts
 * import { convertSizing } from 'motescale/counts';
 * convertSizing(5, 'iso4402', 'iso11171'); // => 6.4
 * convertSizing(38.2, 'iso11171', 'iso4402'); // => 50
 * ```
 */
export function convertSizing(size: number, from: Sizing, to: Sizing): number {
  requireSize(size, 'size');
  requireConvertible(requireSizing(from, 'from'), requireSizing(to, 'to'), 'from');
  return converted(size, from, to, 'size');
}

/**
 * The same particles with their sizes in another sizing: each size by `convertSizing`, the counts as they were. A size
 * of a table is met only where a size falls exactly on it (5 µm of ISO 4402 becomes 6.4 µm(c), and no ISO 4406 code is
 * made at 6.4): `likelyClasses` estimates between sizes.
 *
 * Range and source: those of `convertSizing`.
 *
 * @throws `sizing_not_convertible`; `out_of_range` with the place of the size; `unknown_sizing`; any error of bad
 *   counts.
 *
 * @example
 * ```ts
 * import { convertCounts, cumulativeCounts } from 'motescale/counts';
 * import { iso4406, likelyClasses } from 'motescale/codes';
 * const old = cumulativeCounts({ 5: 3200, 15: 400, 25: 60 }, { sizing: 'iso4402' });
 * const counts = convertCounts(old, 'iso11171');
 * counts.sizes; // => [6.4, 13.6, 21.2]
 * likelyClasses(iso4406, counts).columns.map(({ highest }) => highest); // => ['21', '19', '16']
 * ```
 */
export function convertCounts(counts: CumulativeCounts, to: Sizing): CumulativeCounts {
  checkCounts(counts);
  requireConvertible(counts.sizing, requireSizing(to, 'to'), 'counts.sizing');
  const sizes = counts.sizes.map((size, i) => converted(size, counts.sizing, to, `counts.sizes[${i}]`));
  return { ...counts, sizing: to, sizes };
}

function requireConvertible(from: Sizing, to: Sizing, parameter: string): void {
  if (from === to || (from !== 'microscope' && to !== 'microscope')) return;
  const name = from === 'microscope' ? parameter : 'to';
  const expected =
    'a sizing by automatic counter: the longest dimension seen by microscope has no equivalent in the others';
  throw motescaleError('sizing_not_convertible', name, 'microscope', expected);
}

/** The same of sizings that convert. */
export function converted(size: number, from: Sizing, to: Sizing, parameter: string): number {
  if (from === to) return size;
  const inC =
    from === 'iso11171b'
      ? size * micrometreCPerB
      : from === 'iso4402'
        ? along(iso4402Sizes, iso11171Sizes, size, parameter)
        : size;
  if (to === 'iso11171b') return inC / micrometreCPerB;
  return to === 'iso4402' ? along(iso11171Sizes, iso4402Sizes, inC, parameter) : inC;
}

/** The straight line through the published pairs. */
function along(xs: readonly number[], ys: readonly number[], x: number, parameter: string): number {
  const last = xs.length - 1;
  const low = xs[0] as number;
  const high = xs[last] as number;
  if (x < low || x > high) {
    const expected = `a size in µm from ${low} to ${high} (the span of the published pairs)`;
    throw motescaleError('out_of_range', parameter, x, expected);
  }
  let i = 0;
  while (i + 1 < last && x >= (xs[i + 1] as number)) i += 1;
  return onLine(xs, ys, i, x);
}
