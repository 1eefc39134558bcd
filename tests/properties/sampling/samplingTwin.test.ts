/** Flushing, counting and the speed of a pump, once more in decimals of 50 digits. */
import type { Decimal } from 'decimal.js';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { iso4406, limitsOf } from '../../../src/codes/index.ts';
import { countingConfidence, flush, speedForViscosity, timeForTarget } from '../../../src/sampling/index.ts';
import { Exact } from '../../doubles.ts';
import { some } from '../../volume.ts';
import { poissonFrom, poissonUpTo } from '../distributionTwins.ts';
import { splineTwin } from '../splineTwin.ts';
import { agrees, between, d, near, short, spread, written } from '../twin.ts';

const at = <T>(list: readonly T[], i: number): T => list[i] as T;

describe('a flush', () => {
  test('from the parabola of speeds: the share that is new, and the rest that is still to leave: 1e-15', () => {
    fc.assert(
      fc.property(spread(0.1, 1e4), spread(0.1, 1e5), between(0.001, 0.999999), (volumeMl, mlPerMin, renewal) => {
        const line = { volumeMl, mlPerMin, renewal };
        const found = flush(line);
        const mean = d(volumeMl).div(d(mlPerMin)).times(60);
        // at a radius r the oil needs mean / 2 (1 - r^2), and of the flow (1 - r^2)^2 runs outside of r: old at time t
        // is what is slower, (mean / 2t)^2
        const old = (seconds: number) => mean.div(d(seconds).times(2)).pow(2);
        near(old(found.seconds).toNumber(), d(1).minus(d(renewal)), 1e-15 * (1 - renewal) + 2e-16);
        agrees(found.firstSeconds, mean.div(2), 4e-16);
        agrees(found.ml, d(found.seconds).times(d(mlPerMin)).div(60), 1e-15);
        // the integral of old x flow from then on
        agrees(found.remainingMl, old(found.seconds).times(d(found.seconds)).times(d(mlPerMin)).div(60), 1e-15);
        const plug = flush({ ...line, profile: 'plug' });
        agrees(plug.seconds, mean, 4e-16);
        expect(plug).toEqual({ seconds: plug.seconds, ml: volumeMl, firstSeconds: plug.seconds, remainingMl: 0 });
      }),
      { numRuns: some(1000) },
    );
  });
});

describe('counting', () => {
  test('the particles expected; the chance of enough by the sum of Poisson: 1e-12 of it or of its rest', () => {
    const shares = fc.constantFrom(0.9, 0.95, 0.99);
    const flows = fc.tuple(short(1, 500, 1), fc.integer({ min: 1, max: 300 }), spread(0.5, 400));
    fc.assert(
      fc.property(
        flows,
        fc.integer({ min: 1, max: 150 }),
        shares,
        ([mlPerMin, seconds, mean], particles, confidence) => {
          const perMl = (mean * 60) / (mlPerMin * seconds);
          const found = countingConfidence({ perMl, mlPerMin, seconds }, { particles, confidence });
          const tail = d(1).minus(d(confidence)).div(2);
          const volume = written(mlPerMin).times(seconds).div(60);
          const expected = d(perMl).times(volume);
          agrees(found.volumeMl, volume, 3e-16);
          // a product that only rounding keeps from a whole number is that number
          near(found.expected, expected, 1.001e-9);
          agrees(found.relativeError as number, d(found.expected).pow('-0.5'), 3e-16);
          const short = poissonUpTo(particles - 1, d(found.expected));
          const chance = poissonFrom(particles, d(found.expected));
          if (chance.lt('0.5')) agrees(found.chance, chance, 1e-12);
          else near(1 - found.chance, short, 1e-12 * short.toNumber() + 2e-16);
          const counted = Math.floor(found.expected);
          const steep = 1e-10 * (2 * counted + 20);
          agrees(poissonUpTo(counted, volume.times(d(found.high))).toNumber(), tail, steep);
          if (counted === 0) expect(found.low).toBe(0);
          else agrees(1 - poissonUpTo(counted - 1, volume.times(d(found.low))).toNumber(), tail, steep);
        },
      ),
      { numRuns: some(200, 40) },
    );
  });
});

test('the time for a target: the particles wanted over the flow, for the slowest size: 1e-15', () => {
  const numbers = fc.tuple(fc.integer({ min: 2, max: 24 }), fc.nat(5), fc.nat(5));
  fc.assert(
    fc.property(numbers, spread(1, 500), spread(1, 1000), ([first, second, third], mlPerMin, particles) => {
      const code = [first, Math.max(1, first - second), Math.max(1, first - second - third)];
      const limit = (number: number) => d(iso4406.limits[number]?.[0] as number);
      const seconds = (perMl: Decimal) => d(particles).div(perMl).div(d(mlPerMin)).times(60);
      const found = timeForTarget({ target: limitsOf(iso4406, code.join('/')), mlPerMin, particles });
      code.forEach((number, i) => {
        agrees(at(found.sizes, i).leastSeconds as number, seconds(limit(number)), 1e-15);
        agrees(at(found.sizes, i).mostSeconds as number, seconds(limit(number - 1)), 1e-15);
      });
      agrees(found.leastSeconds as number, seconds(limit(at(code, 2))), 1e-15);
      agrees(found.mostSeconds as number, seconds(limit(at(code, 2) - 1)), 1e-15);
    }),
    { numRuns: some(1000) },
  );
});

describe('a pump', () => {
  test('its speed between the points of commissioning: 1e-13 of full speed', () => {
    const points = fc.uniqueArray(fc.tuple(short(5, 600, 0), between(0, 100)), {
      minLength: 2,
      maxLength: 8,
      selector: ([mm2PerS]) => mm2PerS,
    });
    fc.assert(
      fc.property(points, between(-0.2, 1.2), (list, share) => {
        const curve = list.map(([mm2PerS, percent]) => ({ mm2PerS, percent }));
        const ordered = [...curve].sort((a, b) => a.mm2PerS - b.mm2PerS);
        const [first, last] = [at(ordered, 0), at(ordered, ordered.length - 1)];
        const mm2PerS = Math.max(1, first.mm2PerS + share * (last.mm2PerS - first.mm2PerS));
        const x = ordered.map((point) => d(point.mm2PerS));
        const y = ordered.map((point) => d(point.percent));
        const inside = Exact.max(d(first.mm2PerS), Exact.min(d(mm2PerS), d(last.mm2PerS)));
        const found = speedForViscosity(curve, mm2PerS);
        near(found.percent, splineTwin(x, y)(inside), 1e-11);
        expect(found.outside).toBe(!inside.eq(d(mm2PerS)));
      }),
      { numRuns: some(200, 60) },
    );
  });
});
