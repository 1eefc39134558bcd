/** Laboratory against on-line, over many pairs: how far apart they are on the whole, and how far one pair may be. */
import { requireFilledArray, requireMembers, requireObject, requireWithin } from '../../checks.ts';
import { motescaleError } from '../../errors.ts';
import { exactSumOf } from '../../numeric/exactSum.ts';
import { normalQuantile } from '../../numeric/normal.ts';
import { studentLimit } from '../../numeric/student.ts';

/** One oil, measured twice: continuous scale numbers, or any figure in one unit. */
export interface MethodPair {
  readonly line: number;
  readonly laboratory: number;
}

/** How two methods agree. */
export interface Agreement {
  readonly n: number;
  /** The mean of line less laboratory. */
  readonly bias: number;
  /** 95 % limits of the bias itself: where they leave out 0, one method reads high on the whole. See `independence`. */
  readonly biasLow: number;
  readonly biasHigh: number;
  /** Standard deviation of the differences. */
  readonly sd: number;
  /** Limits of agreement: 95 % of single differences lie between them where there were many pairs; of 6, 87 %. */
  readonly low: number;
  readonly high: number;
  /** Share of the pairs no more than 1 apart, which on a continuous scale number is one class. */
  readonly withinOneClass: number;
  /** The pairs are taken as independent of each other: both kinds of limits rest on that. */
  readonly independence: 'assumed';
}

/**
 * Bland and Altman's limits of agreement: the mean of the differences, and 1.96 standard deviations of them on either
 * side. A bias says that one of the two reads high on the whole, not which. Wide limits say that single pairs mean
 * little.
 *
 * Compare `continuousScaleNumber` of both at one size: whole numbers jump by one at a limit where the counts hardly
 * differ. A correlation is no measure of agreement: two methods a class apart can have one of 1.
 *
 * The next difference lies between the limits in 76 % after 3 pairs, 87 % after 6, 91 % after 10, 93 % after 20 and 94
 * % after 30 (simulated, 20,000 each, differences normal): they are estimates from the same few pairs.
 *
 * **Pairs taken soon after each other are too alike**, for instruments drift. With a correlation of 0.5 from one
 * difference to the next the limits of the bias hold it in 74 to 78 % (6 to 30 pairs), with one of 0.9 in 31 to 37 %,
 * and a difference much later lies between the limits of agreement in 89 and 66 % after 20 pairs (10,000 each). Take
 * pairs weeks apart. Equal differences give limits of no width, which tell of no agreement: two equal pairs are two
 * pairs.
 *
 * Range: 2 pairs or more, figures of magnitude up to 1e9; the limits are too narrow below about 30 pairs. Assumes
 * differences that scatter alike from clean to dirty, and pairs of one oil at one time, independent of each other.
 *
 * Source: J. M. Bland and D. G. Altman, Lancet 327 (1986) 307, with 1.96 for their 2.
 *
 * @param pairs `line` and `laboratory`
 * @throws `too_few` below 2 pairs; `out_of_range`, `unknown_option`, `wrong_type`, `not_a_number`, `infinite`, `empty`.
 *
 * @example
 * ```ts
 * import { blandAltman } from 'motescale/codes';
 * const found = blandAltman([
 *   { line: 16.2, laboratory: 16.9 },
 *   { line: 17.1, laboratory: 17.5 },
 *   { line: 15.4, laboratory: 16.6 },
 * ]);
 * found.bias; // ~> -0.77
 * found.low; // ~> -1.56
 * found.withinOneClass; // ~> 0.67
 * ```
 */
export function blandAltman(pairs: readonly MethodPair[]): Agreement {
  requireFilledArray(pairs, 'pairs', 'an array of pairs { line, laboratory }');
  const n = pairs.length;
  if (n < 2) throw motescaleError('too_few', 'pairs', pairs, '2 pairs or more');
  const differences = pairs.map((pair, i) => {
    const name = `pairs[${i}]`;
    requireMembers(requireObject(pair, name, 'a pair { line, laboratory }'), name, ['line', 'laboratory']);
    const line = requireWithin(pair.line, `${name}.line`, -1e9, 1e9);
    return line - requireWithin(pair.laboratory, `${name}.laboratory`, -1e9, 1e9);
  });
  const bias = exactSumOf(differences) / n;
  const sd = Math.sqrt(exactSumOf(differences.map((d) => (d - bias) * (d - bias))) / (n - 1));
  const reach = normalQuantile(0.975) * sd;
  const ofBias = (studentLimit(0.05, n - 1) * sd) / Math.sqrt(n);
  const close = differences.filter((d) => Math.abs(d) <= 1 + rounding).length;
  return {
    n,
    bias,
    biasLow: bias - ofBias,
    biasHigh: bias + ofBias,
    sd,
    low: bias - reach,
    high: bias + reach,
    withinOneClass: close / n,
    independence: 'assumed',
  };
}

/** 17.3 - 16.3 is a little more than 1. */
const rounding = 1e-9;
