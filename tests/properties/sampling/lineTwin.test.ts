/** Oil in a line and particles in it, once more in decimals of 50 digits. */
import type { Decimal } from 'decimal.js';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  lineFlow,
  type Segment,
  settlingVelocity,
  smallestBore,
  suctionByTemperature,
  suspension,
} from '../../../src/sampling/index.ts';
import { viscosityAt, viscosityLine } from '../../../src/viscosity/index.ts';
import { Exact } from '../../doubles.ts';
import { full, some } from '../../volume.ts';
import { agrees, between, d, near, pi, spread, sum } from '../twin.ts';
import { dropTwin, gravity, tubeTwin } from './lineTwin.ts';

const at = <T>(list: readonly T[], i: number): T => list[i] as T;
const fluids = fc.record({ mm2PerS: spread(1, 1000), kgPerM3: between(700, 1300) });
const segment: fc.Arbitrary<Segment & { readonly roughnessMm: number }> = fc
  .record({
    metres: spread(0.1, 100),
    boreMm: spread(1, 50),
    rise: between(-5, 5),
    k: between(0, 20),
    k1: between(0, 4000),
    roughnessMm: between(0, 0.05),
  })
  .map(({ rise, ...tube }) => ({ ...tube, riseMetres: Math.max(-tube.metres, Math.min(tube.metres, rise)) }));
/** From laminar to turbulent: a Reynolds number in a bore, and the flow that gives it. */
const flowOf = (reynolds: number, boreMm: number, mm2PerS: number) =>
  (reynolds * Math.PI * boreMm * mm2PerS * 60) / 4000;

/** Infinity where it is beyond what a line tells. */
function viscosityOrMore(line: ReturnType<typeof viscosityLine>, celsius: number): number {
  try {
    return viscosityAt(line, celsius);
  } catch {
    return Infinity;
  }
}

describe('a line', () => {
  test('its flow, laminar, critical and turbulent: 1e-13 of the greatest part of a pressure, 2e-15 of all else', () => {
    const regimes = { laminar: 0, critical: 0, turbulent: 0 };
    const segments = fc.array(segment, { minLength: 1, maxLength: 3 });
    fc.assert(
      fc.property(segments, spread(1, 1e5), fluids, (line, reynolds, fluid) => {
        const mlPerMin = flowOf(reynolds, at(line, 0).boreMm, fluid.mm2PerS);
        const twins = line.map((one) => tubeTwin(one, mlPerMin, fluid));
        fc.pre(twins.every((twin) => twin.reynolds.lt(1e8)));
        const found = lineFlow({ segments: line, mlPerMin, fluid });
        const [friction, rest] = [1e-13, 2e-15];
        twins.forEach((twin, i) => {
          const own = at(found.segments, i);
          const regime = twin.reynolds.lt(2000) ? 'laminar' : twin.reynolds.gt(4000) ? 'turbulent' : 'critical';
          regimes[regime] += 1;
          expect(own.regime).toBe(regime);
          if (regime === 'critical') expect(own.frictionFactor).toBeNull();
          else agrees(own.frictionFactor as number, twin.factors[0], friction);
          for (const [figure, of] of [
            [own.metresPerS, twin.speed],
            [own.reynolds, twin.reynolds],
            [own.volumeMl, twin.volumeMl],
            [own.transitSeconds as number, twin.seconds],
            [own.fittingsKPa, twin.fittings],
            [own.riseKPa, twin.rise],
          ] as const) {
            agrees(figure, of, rest);
          }
          agrees(own.frictionKPa, twin.friction, friction);
          agrees(own.wallShearPa, twin.wallShear, friction);
        });
        const total = (of: (twin: (typeof twins)[0]) => Decimal) => sum(twins.map(of));
        const size = total(({ friction, fittings, rise }) => friction.plus(fittings).plus(rise.abs())).toNumber();
        near(found.kPa, dropTwin(line, mlPerMin, fluid), friction * size);
        const low = total((twin) => twin.frictionLow.plus(twin.fittings).plus(twin.rise));
        near(found.kPaLow, low, friction * size);
        near(
          found.riseKPa,
          total(({ rise }) => rise),
          rest * size,
        );
        agrees(
          found.frictionKPa,
          total((twin) => twin.friction),
          friction,
        );
        agrees(
          found.fittingsKPa,
          total(({ fittings }) => fittings),
          rest,
        );
        agrees(
          found.volumeMl,
          total(({ volumeMl }) => volumeMl),
          rest,
        );
        agrees(
          found.transitSeconds as number,
          total(({ seconds }) => seconds),
          rest,
        );
        agrees(found.reynolds, Exact.max(...twins.map((twin) => twin.reynolds)), rest);
      }),
      { numRuns: some(300, 60) },
    );
    expect(Math.min(regimes.laminar, regimes.critical, regimes.turbulent)).toBeGreaterThan(some(15, 3));
  });

  test('the smallest bore takes no more than allowed, and one narrower by 2e-12 takes more', () => {
    let tried = 0;
    fc.assert(
      fc.property(segment, spread(1, 1e5), spread(1, 1000), fluids, (tube, mlPerMin, spare, fluid) => {
        const { boreMm: _boreMm, ...rest } = tube;
        const kPa = Math.max(0, (fluid.kgPerM3 * 9.80665 * (tube.riseMetres ?? 0)) / 1000) + spare;
        const narrowest = Math.max(0.05, 20 * tube.roughnessMm);
        fc.pre(tubeTwin({ ...rest, boreMm: narrowest }, mlPerMin, fluid).reynolds.lt(1e8));
        const bore = smallestBore({ ...rest, mlPerMin, kPa, fluid });
        const takes = (boreMm: number) => dropTwin([{ ...rest, boreMm }], mlPerMin, fluid).toNumber();
        expect(takes(bore * (1 + 1e-12))).toBeLessThanOrEqual(kPa);
        if (bore < narrowest * 1.000001) return;
        tried += 1;
        expect(takes(bore * (1 - 2e-12))).toBeGreaterThan(kPa);
      }),
      { numRuns: some(300, 60) },
    );
    expect(tried).toBeGreaterThan(some(150, 20));
  });

  test('a pump that lifts cold oil: the inlet 1e-13 of the pressures; the limit at the lowest temperature', () => {
    const seen = { lowest: 0, none: 0, turbulent: 0 };
    const oils = fc.record({ at40: spread(10, 700), share: between(0.09, 0.3), kgPerM3: between(800, 900) });
    const temperatures = fc.array(between(-10, 150), { minLength: 1, maxLength: 4 });
    // any, and such as keep a limit also where hot oil flows turbulent
    const wide = fc.record({ metres: spread(0.1, 3), boreMm: between(10, 40), roughnessMm: between(0, 0.01) });
    const tubes: fc.Arbitrary<{ tube: Segment & { roughnessMm: number }; ml: number }> = fc.oneof(
      fc.record({ tube: segment, ml: spread(1, 1e6) }),
      fc.record({ tube: wide, ml: spread(3000, 30000) }),
    );
    fc.assert(
      fc.property(tubes, oils, temperatures, between(30, 100), ({ tube, ml }, oil, celsius, limit) => {
        const points = [
          { celsius: 40, mm2PerS: oil.at40 },
          { celsius: 100, mm2PerS: Math.max(2, oil.at40 * oil.share) },
        ];
        const viscosity = viscosityLine(points);
        const segments = [tube, { metres: 0.5, boreMm: 6 }];
        const { kgPerM3 } = oil;
        const given = { segments, mlPerMin: ml, viscosity, kgPerM3, celsius, inletLimitKPa: limit };
        const pressures = (mm2PerS: number) => {
          const twins = segments.map((one) => tubeTwin(one, ml, { mm2PerS, kgPerM3 }));
          const all = twins.flatMap(({ friction, fittings, rise }) => [friction, fittings, rise]);
          return {
            inlet: d('101.325').minus(sum(all)),
            size: sum(all.map((one) => one.abs()))
              .plus(102)
              .toNumber(),
            twins,
          };
        };
        const found = suctionByTemperature(given);
        found.rows.forEach((row, i) => {
          expect([row.celsius, row.mm2PerS]).toEqual([at(celsius, i), viscosityAt(viscosity, at(celsius, i))]);
          const { inlet, size } = pressures(row.mm2PerS as number);
          expect(row.inletKPa === null).toBe(inlet.lte(0));
          if (row.inletKPa !== null) near(row.inletKPa, inlet, 1e-13 * size);
          expect(row.allowed).toBe(inlet.gte(limit));
        });
        const { lowestCelsius: lowest } = found;
        const warmest = found.rows.reduce((one, other) => (other.celsius > one.celsius ? other : one));
        const warmestMm2PerS = warmest.mm2PerS as number;
        expect(found.keptTo).toBe(lowest !== null ? 'lowest' : warmest.allowed ? 'coldest' : 'nowhere');
        expect(found.beyondAsked).toBe(lowest !== null && lowest < Math.min(...celsius));
        if (lowest === null) {
          seen.none += 1;
          // kept down to the coldest there is, or to the thickest
          const coldest = Math.min(9.99e6, viscosityOrMore(viscosity, -80));
          if (warmest.allowed) expect(pressures(coldest).inlet.gte(limit)).toBe(true);
          return;
        }
        // no row contradicts it: warmer ones keep the limit, of which the warmest is one
        expect(warmest.allowed && lowest <= warmest.celsius).toBe(true);
        for (const row of found.rows) if (row.celsius > lowest + 1e-9) expect(row.allowed).toBe(true);
        seen.lowest += 1;
        const thickest = viscosityAt(viscosity, lowest);
        const there = pressures(thickest);
        if (there.twins.some(({ reynolds }) => reynolds.gte(2000))) seen.turbulent += 1;
        // a temperature is a double: its last digit moves the viscosity by some 1e-14; and -80 °C, the coldest there
        // is, stands for what is reached within 1e-9 °C below it: on the safe side
        const aMillionth = pressures(viscosityAt(viscosity, lowest + 1e-6))
          .inlet.minus(there.inlet)
          .abs()
          .toNumber();
        const beyond = lowest === -80 ? 1.001e-3 * aMillionth : 0;
        near(there.inlet.toNumber(), d(limit), 1e-11 * there.size + beyond);
        if (lowest === -80) expect(there.inlet.gte(d(limit).minus(1e-11 * there.size))).toBe(true);
        for (const share of [0.999999, 0.9, 0.6, 0.3, 0.1, 0.01]) {
          const thinner = warmestMm2PerS + (thickest - warmestMm2PerS) * share;
          expect(pressures(thinner).inlet.gte(d(limit).minus(1e-9)), `thinner oil, ${share}`).toBe(true);
        }
      }),
      { numRuns: some(300, 40) },
    );
    expect(Math.min(seen.lowest, seen.none)).toBeGreaterThan(some(20, 1));
    if (full) expect(seen.turbulent).toBeGreaterThan(1);
  });
});

describe('particles', () => {
  const correction = (reynolds: Decimal) => reynolds.pow('0.687').times('0.15').plus(1);

  test('they settle where weight is drag: 1e-14', () => {
    const seen = { stokes: 0, between: 0, drag: 0 };
    fc.assert(
      fc.property(spread(1, 3000), between(0, 8000), fluids, (size, particleKgPerM3, fluid) => {
        const diameter = d(size).div(1e6);
        const viscosity = d(fluid.mm2PerS).div(1e6);
        const excess = d(particleKgPerM3).div(d(fluid.kgPerM3)).minus(1);
        fc.pre(excess.abs().gt(0.01));
        const stokes = gravity.times(excess).times(diameter.pow(2)).div(18).div(viscosity);
        const alone = stokes.abs().times(diameter).div(viscosity);
        fc.pre(alone.lt(correction(d(800)).times(800)));
        const speed = settlingVelocity({ size, particleKgPerM3, fluid });
        if (alone.lte('0.2')) {
          seen.stokes += 1;
          return agrees(speed, stokes, 2e-15 + 2e-16 / excess.abs().toNumber());
        }
        const reynolds = d(speed).abs().times(diameter).div(viscosity);
        const isDrag = reynolds.gte('0.3');
        seen[isDrag ? 'drag' : 'between'] += 1;
        const share = isDrag ? d(1) : reynolds.minus('0.2').times(10);
        const drag = reynolds.times(correction(reynolds).minus(1).times(share).plus(1));
        expect(drag.div(alone).minus(1).abs().toNumber()).toBeLessThan(1e-14 + 2e-16 / excess.abs().toNumber());
        expect(speed > 0).toBe(excess.gt(0));
      }),
      { numRuns: some(1500, 150) },
    );
    expect(Math.min(seen.stokes, seen.drag)).toBeGreaterThan(some(100, 8));
    if (full) expect(seen.between).toBeGreaterThan(5);
  });

  /** The share of the flow that lies in the layer from which a particle reaches the wall, after Pich 1972. */
  const lost = (fall: Decimal) => {
    const s = Exact.cbrt(fall);
    const root = d(1).minus(s.pow(2)).sqrt();
    const inside = fall.times(2).times(root).minus(s.times(root)).plus(s.asin());
    return inside.times(2).div(pi);
  };

  test('what a line loses, and what lifts it: 1e-13, from a share of 1e-15 to all', () => {
    const seen = { lost: 0, all: 0, lifted: 0 };
    const tubes = fc.record({ metres: spread(0.01, 100), boreMm: spread(1, 50), roughnessMm: between(0, 0.05) });
    fc.assert(
      fc.property(
        spread(0.1, 100),
        between(1, 8000),
        tubes,
        spread(0.01, 1e5),
        fluids,
        (size, density, tube, re, fluid) => {
          const mlPerMin = flowOf(re, tube.boreMm, fluid.mm2PerS);
          const particle = { size, particleKgPerM3: density, fluid };
          const found = suspension({ ...particle, ...tube, mlPerMin });
          const { speed, reynolds, wallShear } = tubeTwin(tube, mlPerMin, fluid);
          const settling = settlingVelocity(particle);
          expect(found.settlingMetresPerS).toBe(settling);
          if (reynolds.gt(4000)) {
            seen.lifted += 1;
            const friction = wallShear.div(d(fluid.kgPerM3)).sqrt();
            agrees(found.frictionMetresPerS as number, friction, 1e-13);
            expect([found.lostShare, found.suspended]).toEqual([null, friction.gt(d(settling).abs())]);
            return;
          }
          const fall = d(settling).abs().times(d(tube.metres)).times(750).div(d(tube.boreMm)).div(speed);
          const twin = fall.gte(1) ? d(1) : lost(fall);
          seen[fall.gte(1) ? 'all' : 'lost'] += 1;
          agrees(found.lostShare as number, twin, 1e-13);
          expect([found.frictionMetresPerS, found.suspended]).toEqual([null, twin.lte('0.05')]);
        },
      ),
      { numRuns: some(500, 60) },
    );
    expect(Math.min(seen.lost, seen.all, seen.lifted)).toBeGreaterThan(some(15, 3));
  });
});
