/** The flow that a pipe takes to be turbulent, or to have any other Reynolds number. */
import { requireObject, requireWithin } from '../../checks.ts';
import { mostReynolds } from './frictionFactor.ts';
import { requireBore, requireMm2PerS } from './line.ts';

/**
 * The flow, in mL/min, that has a Reynolds number in a round pipe: Re x viscosity x π x bore / 4, the inverse of
 * `reynolds` of `lineFlow`.
 *
 * Flow is turbulent above 4000; how far above a flush has to be is for its standard or contract to say. Of pipes one
 * behind the other the widest asks for most. Thin (warm) oil needs less flow: take the viscosity at the coldest
 * temperature of the flush. Source: definition of the Reynolds number; its limits: Hydraulic Institute Engineering Data
 * Book, 2nd edition 1990, section 3.A.
 *
 * Safety: a flush at such a flow heats the oil and drives pressure up: `lineFlow` gives the drop, and pipe, hose and
 * relief valve must stand it.
 *
 * @param pipe `reynolds` from 1e-12 to 1e8, `boreMm` (inner diameter) from 0.05 to 10000, `mm2PerS` from 0.01 to 1e7
 * @throws `out_of_range`.
 *
 * @example
 * ```ts
 * import { flowForReynolds } from 'motescale/sampling';
 * flowForReynolds({ reynolds: 4000, boreMm: 25, mm2PerS: 32 }) / 1000; // ~> 150.8
 * ```
 */
export function flowForReynolds(pipe: {
  readonly reynolds: number;
  readonly boreMm: number;
  readonly mm2PerS: number;
}): number {
  requireObject(pipe, 'pipe', 'a pipe { reynolds, boreMm, mm2PerS }', ['reynolds', 'boreMm', 'mm2PerS']);
  const reynolds = requireWithin(pipe.reynolds, 'pipe.reynolds', 1e-12, mostReynolds);
  const boreMm = requireBore(pipe.boreMm, 'pipe.boreMm');
  const mm2PerS = requireMm2PerS(pipe.mm2PerS, 'pipe.mm2PerS');
  // mm² / s times mm are 1e-3 mL / s
  return (reynolds * mm2PerS * Math.PI * boreMm * 60) / 4000;
}
