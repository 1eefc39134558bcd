/**
 * Counts beyond the sizes known, and between the only two, in three ways, of which the outer two make the band. How far
 * the band opens is chosen by measure over a stated population of size distributions (docs/comparison.md has the
 * table): as narrow as holds the truth in 97 % of it, with a margin.
 */
import { type Curve, countBeyond, countInside, curveThrough } from '../../counts/interpolation.ts';
import { exp } from '../../numeric/exponential.ts';
import { log } from '../../numeric/logarithm.ts';

/**
 * `log_log` and `log_log2` continue the last two counts; `flatter` is a power law that falls more slowly than those two
 * do, as oils with wear debris have it.
 */
type Way = 'log_log' | 'log_log2' | 'flatter';
export const ways: readonly Way[] = ['log_log', 'log_log2', 'flatter'];

/**
 * How much flatter: by a share of the last exponent, and by so many times what the exponent has lost from one pair of
 * sizes to the next.
 */
interface Flattening {
  readonly share: number;
  readonly bend: number;
}

/** From counts. */
export const fromCounts: Flattening = { share: 0.2, bend: 1.2 };
/** From a code, whose corners hold much of the doubt already. */
export const fromCode: Flattening = { share: 0.1, bend: 0.4 };

/** No tail is taken to fall more slowly than in proportion to size, but where the counts do. */
const smallestExponent = 1;

/** The count per mL at a size; null where there is nothing to continue, or no place for the size on the scales. */
export function countAlong(curve: Curve, size: number, way: Way, flattening: Flattening): number | null {
  const { sizes, perMl } = curve.counts;
  const smallest = sizes[0] as number;
  const last = sizes.length - 1;
  if (size >= smallest && size <= (sizes[last] as number)) {
    // a code's corners hold this doubt already
    const open = curve.positive === 2 && flattening === fromCounts;
    return open ? besideStraight(curve, size, way) : countInside(curve, size);
  }
  const above = size > smallest;
  if (above && perMl[last] === 0) return 0;
  if (curve.positive < 2 || Math.min(size, smallest) < 1) return null;
  if (way !== 'flatter') return countBeyond(curve, size, way);
  return above ? countFlatter(curve, size, flattening) : countBeyond(curve, size, 'log_log');
}

/**
 * Between the only two counts the curve is a straight line. Counts that fall as log-log² does lie above it, those of
 * oils with wear debris below: about as far.
 */
function besideStraight(curve: Curve, size: number, way: Way): number {
  const straight = countInside(curve, size);
  if (way === 'log_log' || straight === 0 || (curve.counts.sizes[0] as number) < 1) return straight;
  const bent = countInside(curveThrough(curve.counts, 'log_log2'), size);
  return way === 'log_log2' ? bent : straight * (straight / bent);
}

function countFlatter(curve: Curve, size: number, { share, bend }: Flattening): number {
  const { counts, positive, x } = curve;
  const last = exponentAt(curve, positive - 1);
  const before = positive > 2 ? exponentAt(curve, positive - 2) : last;
  const flatter = last * (1 - share) - bend * Math.max(0, before - last);
  const exponent = Math.min(last, Math.max(smallestExponent, flatter));
  return (counts.perMl[positive - 1] as number) * exp(-exponent * (log(size) - (x[positive - 1] as number)));
}

/** The exponent of the power law through a count and the one before. */
function exponentAt({ x, y }: Curve, i: number): number {
  return ((y[i - 1] as number) - (y[i] as number)) / ((x[i] as number) - (x[i - 1] as number));
}
