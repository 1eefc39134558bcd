/** The smallest bore that a limit of pressure leaves room for. */
import { requireObject, requireWithin } from '../../checks.ts';
import { motescaleError } from '../../errors.ts';
import { findRoot } from '../../numeric/root.ts';
import { mostReynolds } from './frictionFactor.ts';
import { totalOf } from './highPoint.ts';
import { drawnTubingMm, type Fluid, requireFlow, requireLiquid, requireTube, type Segment } from './line.ts';
import { dropOf, reynoldsOf } from './pressureDrop.ts';

const tubeMembers = ['metres', 'riseMetres', 'k', 'k1', 'strainer', 'roughnessMm', 'mlPerMin', 'kPa', 'fluid'];

/**
 * The smallest bore, in mm, at which a tube passes the flow with no more than `kPa` between its ends (a difference of
 * pressures, rise included). In the critical zone the greater drop decides. Take the next bore on sale above it.
 *
 * Range, assumptions and sources: those of `lineFlow`; bores from 0.05 mm (and twenty times the roughness) to 10000 mm.
 * For a suction line `kPa` is the atmosphere's pressure less the least absolute pressure the pump's inlet stands.
 *
 * Safety: a `k` without `k1` is far too small in laminar flow, and the bore comes out too narrow; `lineFlow` with that
 * bore marks it by `fittingsTooLow`. A narrow suction line starves its pump.
 *
 * @throws `no_answer` where rise and strainer alone need more than `kPa`, or even 10000 mm is too narrow;
 *   `out_of_range`, among others at zero flow, or without any length or fitting, for which any bore will do, and where
 *   the Reynolds number in that bore is above 1e8, as `lineFlow` does.
 *
 * @example
 * ```ts
 * import { smallestBore } from 'motescale/sampling';
 * smallestBore({ metres: 3, riseMetres: 1, mlPerMin: 60, kPa: 25, fluid: { mm2PerS: 240, kgPerM3: 872 } }); // ~> 6.28
 * ```
 */
export function smallestBore(
  tube: Omit<Segment, 'boreMm'> & { readonly mlPerMin: number; readonly kPa: number; readonly fluid: Fluid },
): number {
  requireObject(tube, 'tube', 'a tube { metres, mlPerMin, kPa, fluid }', tubeMembers);
  const roughness = requireWithin(tube.roughnessMm ?? drawnTubingMm, 'tube.roughnessMm', 0, 500);
  const narrowest = Math.max(0.05, roughness * 20 * (1 + 1e-12));
  if (narrowest > 10000) {
    const expected = 'below 500: a twentieth of the widest bore, 10000 mm';
    throw motescaleError('out_of_range', 'tube.roughnessMm', roughness, expected);
  }
  const liquid = requireLiquid(tube.fluid, 'tube.fluid');
  const flow = requireFlow(tube.mlPerMin, 'tube.mlPerMin');
  if (flow === 0)
    throw motescaleError('out_of_range', 'tube.mlPerMin', 0, 'a flow above 0: without flow any bore will do');
  const tubeOf = (boreMm: number) => requireTube({ ...tube, boreMm }, 'tube');
  const { metres, k, k1 } = tubeOf(narrowest);
  if (metres === 0 && k === 0 && k1 === 0) {
    const expected = 'a length above 0, or fittings by k1 and k: without either any bore will do';
    throw motescaleError('out_of_range', 'tube.metres', 0, expected);
  }
  const pascal = requireWithin(tube.kPa, 'tube.kPa', -1e6, 1e6) * 1000;
  const excess = (boreMm: number) => totalOf([dropOf(tubeOf(boreMm), flow, liquid)]) - pascal;
  const within = (boreMm: number) => {
    const reynolds = reynoldsOf(tubeOf(boreMm), flow, liquid);
    if (reynolds <= mostReynolds) return boreMm;
    const expected = 'a Reynolds number up to 1e8 in the smallest bore: less flow or less kPa';
    throw motescaleError('out_of_range', 'tube', reynolds, expected);
  };
  if (excess(narrowest) <= 0) return within(narrowest);
  if (excess(10000) > 0) {
    const expected = 'more than rise and strainer alone take, and a bore up to 10000 mm';
    throw motescaleError('no_answer', 'tube.kPa', tube.kPa, expected);
  }
  // at a jump between regimes the root may come to lie on the wrong side of it
  let bore = findRoot(excess, narrowest, 10000);
  while (excess(bore) > 0) bore *= 1 + 1e-13;
  return within(bore);
}
