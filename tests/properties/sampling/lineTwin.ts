/** Flow through a tube in decimals of 50 digits: Hagen and Poiseuille, Darcy and Colebrook, straight from the books. */
import type { Decimal } from 'decimal.js';
import type { Fluid, Segment } from '../../../src/sampling/index.ts';
import { Exact } from '../../doubles.ts';
import { d, pi } from '../twin.ts';

/** Standard gravity, m/s². */
export const gravity: Decimal = d('9.80665');

/** Darcy's friction factor of turbulent flow: Newton's method on Colebrook's equation for 1 / sqrt f. */
export function colebrook(reynolds: Decimal, roughness: Decimal): Decimal {
  const rough = roughness.div('3.7');
  const smooth = d('2.51').div(reynolds);
  // a first answer in doubles, by plain repetition
  let start = 6;
  for (let round = 0; round < 30; round += 1) {
    start = -2 * Math.log10(rough.toNumber() + smooth.toNumber() * start);
  }
  let x = d(start);
  for (let round = 0; round < 3; round += 1) {
    const inside = rough.plus(smooth.times(x));
    const slope = smooth.times(2).div(Exact.ln(10)).div(inside).plus(1);
    x = x.minus(x.plus(Exact.log10(inside).times(2)).div(slope));
  }
  return x.pow(-2);
}

export interface TubeTwin {
  readonly speed: Decimal;
  readonly reynolds: Decimal;
  readonly volumeMl: Decimal;
  readonly seconds: Decimal;
  /** Darcy's factor at most, and at least. */
  readonly factors: readonly [Decimal, Decimal];
  /** kPa: at most, at least, for fittings, for the rise. */
  readonly friction: Decimal;
  readonly frictionLow: Decimal;
  readonly fittings: Decimal;
  readonly rise: Decimal;
  /** Pa. */
  readonly wallShear: Decimal;
}

/** One tube at a flow above 0. */
export function tubeTwin(segment: Segment, mlPerMin: number, fluid: Fluid): TubeTwin {
  const bore = d(segment.boreMm).div(1000);
  const area = pi.times(bore.pow(2)).div(4);
  const flow = d(mlPerMin).div(6e7);
  const speed = flow.div(area);
  const density = d(fluid.kgPerM3);
  const reynolds = speed.times(bore).div(d(fluid.mm2PerS)).times(1e6);
  const laminar = d(64).div(reynolds);
  const turbulent = () => colebrook(reynolds, d(segment.roughnessMm ?? 0.00152).div(d(segment.boreMm)));
  const most = reynolds.lt(2000) ? laminar : turbulent();
  const least = reynolds.gt(4000) ? most : laminar;
  const metres = d(segment.metres);
  const head = density.times(speed.pow(2)).div(2);
  const lost = (factor: Decimal) => factor.times(metres).div(bore).times(head).div(1000);
  return {
    speed,
    reynolds,
    volumeMl: area.times(metres).times(1e6),
    seconds: area.times(metres).div(flow),
    factors: [most, least],
    friction: lost(most),
    frictionLow: lost(least),
    fittings: d(segment.k1 ?? 0)
      .div(reynolds)
      .plus(d(segment.k ?? 0))
      .times(head)
      .div(1000),
    rise: density
      .times(gravity)
      .times(d(segment.riseMetres ?? 0))
      .div(1000),
    wallShear: most.times(density).times(speed.pow(2)).div(8),
  };
}

/** What a line takes at most, kPa. */
export function dropTwin(segments: readonly Segment[], mlPerMin: number, fluid: Fluid): Decimal {
  return segments.reduce((total, segment) => {
    const { friction, fittings, rise } = tubeTwin(segment, mlPerMin, fluid);
    return total.plus(friction).plus(fittings).plus(rise);
  }, d(0));
}
