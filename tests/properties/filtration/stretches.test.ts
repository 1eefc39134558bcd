/**
 * When the particles between two sizes are within a limit: each size goes its own pace, so that what lies between may
 * rise before it falls. Checked against the two curves themselves, C(t) = Cs + (C0 - Cs) exp(-kt) (CDC 1994, MMWR 43
 * (RR-13), table S3-1; with ingression, mass balance), looked at from minute to minute.
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { classify, limitsOf, nas1638 } from '../../../src/codes/index.ts';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import { cleanUpCounts, timeToReachCode } from '../../../src/filtration/index.ts';
import { common, stretchesBetween } from '../../../src/filtration/stretches.ts';
import type { Tank } from '../../../src/filtration/tank.ts';
import { expectRefused } from '../../inputs/refused.ts';
import { some } from '../../volume.ts';

const tankOf = (perMl: number, beta: number, ingressionPerMin = 0): Required<Tank> => ({
  ...{ litres: 400, litresPerMin: 40 },
  ...{ perMl, beta, ingressionPerMin },
});
/** By textbook, with the engine's own exponential. */
const countAt = ({ litres, litresPerMin, perMl, beta, ingressionPerMin }: Required<Tank>, t: number) => {
  const k = (litresPerMin * (1 - 1 / beta)) / litres;
  const rise = ingressionPerMin / (1000 * litres);
  return k === 0 ? perMl + rise * t : rise / k + (perMl - rise / k) * Math.exp(-k * t);
};

describe('a range', () => {
  test('is within its limit just in the stretches that are told', () => {
    const seen = [0, 0, 0];
    const share = fc.integer({ min: 0, max: 1000 }).map((x) => x / 1000);
    const spread = (least: number, most: number) => share.map((x) => least * (most / least) ** x);
    const lowers = fc.record({ perMl: spread(1, 1e5), beta: fc.oneof(fc.constant(1), spread(1.01, 20)), fed: share });
    const uppers = fc.record({
      share: share.map((x) => 1 - x ** 2),
      times: fc.oneof(fc.constant(1), spread(1, 1000)),
      fed: share,
    });
    fc.assert(
      fc.property(lowers, uppers, share, spread(0.2, 1.2), (low, up, fed, height) => {
        const come = fed < 0.4 ? 0 : 4e6 * fed ** 4 * low.fed;
        const lower = tankOf(low.perMl, low.beta, come);
        const upper = tankOf(low.perMl * up.share, low.beta * up.times, come * up.fed);
        const between = (t: number) => countAt(lower, t) - countAt(upper, t);
        // limits near what the range has at its least and most
        const times = Array.from({ length: 120 }, (_, i) => (i === 0 ? 0 : 1e-2 * 1.12 ** i));
        const limit = Math.max(...times.map(between)) * height;
        fc.pre(limit > 1e-6 * low.perMl);
        const stretches = stretchesBetween(lower, upper, limit);
        seen[stretches.length] = (seen[stretches.length] as number) + 1;
        stretches.forEach(({ from, until }, i) => {
          expect(until ?? Infinity).toBeGreaterThanOrEqual(from);
          if (i > 0) expect(stretches[i - 1]?.until).toBeLessThan(from);
        });
        for (const t of times) {
          const over = between(t) - limit;
          // where the rounding of two counts decides
          if (Math.abs(over) < 1e-9 * (countAt(lower, t) + limit)) continue;
          const told = stretches.some(({ from, until }) => from <= t && t <= (until ?? Infinity));
          if (told !== over < 0) throw new Error(`${t} min: ${told ? 'told' : 'not told'}, ${over} over ${limit}`);
        }
      }),
      { numRuns: some(3000, 300) },
    );
    expect(Math.min(...seen)).toBeGreaterThan(some(100, 3));
  });

  test('that rises while the larger particles go counts from when it is clean for good', () => {
    // 700 fall by exp(-t / 60), 500 by exp(-0.0999 t): 200 at the start, more at once, 320 again at 46 min
    const counts = cumulativeCounts({ 6: 700, 14: 500, 21: 490, 38: 0, 70: 0 });
    const tank = { litres: 400, litresPerMin: 40, counts, beta: [1.2, 1000, 1000, 1000, 1000] };
    const bands = [{ from: 6, to: 14, above: 0, upTo: 320 }];
    const time = timeToReachCode(tank, { sizing: 'iso11171', bands });
    expect(time).toMatchObject({ heldUntil: null, slowestSize: 6, sizes: [{ size: 6, to: 14, upTo: 320 }] });
    const t = time.minutes as number;
    expect(700 * Math.exp(-t / 60) - 500 * Math.exp(-0.0999 * t)).toBeCloseTo(320, 9);
    expect(t).toBeCloseTo(46.029, 3);
    const [first, last] = stretchesBetween(tankOf(700, 1.2), tankOf(500, 1000), 320);
    expect([first?.from, last?.from, last?.until]).toEqual([0, t, null]);
    expect(first?.until).toBeGreaterThan(2);
  });

  test('that is above its limit for a moment only is not overlooked', () => {
    for (const come of [0, 2e6]) {
      const [lower, upper] = [tankOf(700, 1.2, 2 * come), tankOf(500, 1000, come)];
      const between = (t: number) => countAt(lower, t) - countAt(upper, t);
      const times = Array.from({ length: 60000 }, (_, i) => i / 1000);
      const peak = times.reduce((best, t) => (between(t) > between(best) ? t : best), 0);
      const [first, last] = stretchesBetween(lower, upper, between(peak) * (1 - 1e-9));
      expect(first?.until).toBeCloseTo(peak, 1);
      expect(last?.from).toBeCloseTo(peak, 1);
      expect(stretchesBetween(lower, upper, between(peak) * (1 + 1e-6))).toHaveLength(1);
    }
  });

  test('that ends upon its limit, or does not change, is neither reached nor left', () => {
    const fed = tankOf(5000, 2, 4e6);
    // 200 and 100 per mL are where the two settle
    expect(stretchesBetween(fed, tankOf(4000, 2, 2e6), 100)).toEqual([]);
    expect(stretchesBetween(tankOf(120, 2, 4e6), tankOf(60, 2, 2e6), 100)).toEqual([{ from: 0, until: null }]);
    expect(stretchesBetween(tankOf(50, 1, 0), tankOf(20, 1, 0), 30)).toEqual([{ from: 0, until: null }]);
    expect(stretchesBetween(tankOf(50, 1, 0), tankOf(20, 1, 0), 29)).toEqual([]);
    // without a filter it rises in a straight line: 10 per mL and minute
    expect(stretchesBetween(tankOf(50, 1, 8e6), tankOf(20, 1, 4e6), 130)).toEqual([{ from: 0, until: 10 }]);
    // rounding decides nothing: within 1e-12 of where they end is there
    const settling = [tankOf(120, 2, 4e6), tankOf(60, 2, 2e6)] as const;
    expect(stretchesBetween(...settling, 100 * (1 - 1e-13))).toEqual([{ from: 0, until: null }]);
    expect(stretchesBetween(fed, tankOf(4000, 2, 2e6), 100 * (1 + 1e-13))).toEqual([]);
    expect(stretchesBetween(...settling, 99)[0]?.until).toBeGreaterThan(1);
    expect(stretchesBetween(fed, tankOf(4000, 2, 2e6), 101)[0]).toMatchObject({
      from: expect.any(Number),
      until: null,
    });
    // no filter holds the smaller: they stay, or come in, while the larger go by half of 40 L/min
    const gone = 20 * Math.LN2;
    expect(stretchesBetween(tankOf(50, 1), tankOf(20, 2), 40)).toEqual([{ from: 0, until: expect.closeTo(gone, 9) }]);
    expect(stretchesBetween(tankOf(50, 1), tankOf(20, 2), 60)).toEqual([{ from: 0, until: null }]);
    expect(stretchesBetween(tankOf(50, 1, 8e6), tankOf(20, 2), 60)[0]?.until).toBeLessThan(2);
    // as many of both come in: none more between them
    expect(stretchesBetween(tankOf(50, 1, 4e6), tankOf(20, 1, 4e6), 30)).toEqual([{ from: 0, until: null }]);
    expect(stretchesBetween(tankOf(50, 1, 4e6), tankOf(20, 1, 4e6), 29)).toEqual([]);
    // none between them is none for good
    expect(stretchesBetween(tankOf(50, 10, 0), tankOf(50, 10, 0), 0)).toEqual([{ from: 0, until: null }]);
    expect(stretchesBetween(tankOf(50, 10, 0), tankOf(40, 10, 0), 0)).toEqual([]);
  });
});

describe('a class per range', () => {
  test('NAS 1638 (1964, Table I) is met from the minute told on, and not before', () => {
    const met = { sooner: 0, later: 0 };
    const count = fc.integer({ min: 0, max: 10 }).map((power) => (power === 0 ? 0 : 2 ** power));
    fc.assert(
      // the limit of class 0 beyond 100 µm is none: no filter gets there
      fc.property(fc.tuple(count, count, count, count, count), fc.integer({ min: 1, max: 12 }), (steps, target) => {
        const [a, b, c, d, e] = steps;
        const counts = cumulativeCounts({ 6: a + b + c + d + e, 14: b + c + d + e, 21: c + d + e, 38: d + e, 70: e });
        const tank = { litres: 400, litresPerMin: 40, counts, beta: [2, 20, 75, 1000, 1000] };
        const { minutes } = timeToReachCode(tank, limitsOf(nas1638, String(target), 'iso11171'));
        const classAt = (t: number) => {
          const { text } = classify(nas1638, cleanUpCounts(tank, t));
          return text === '>12' ? 13 : text === '00' ? -1 : Number(text);
        };
        for (const later of [1.000001, 1.3, 3, 20])
          expect(classAt((minutes as number) * later + 1e-6)).toBeLessThanOrEqual(target);
        met[minutes === 0 ? 'sooner' : 'later'] += 1;
        if (minutes !== 0) expect(classAt((minutes as number) * 0.999999)).toBeGreaterThan(target);
      }),
      { numRuns: some(2000, 100) },
    );
    expect(Math.min(met.sooner, met.later)).toBeGreaterThan(2);
  });

  test('a size that was not counted is asked for, a range turned round refused', () => {
    const counts = cumulativeCounts({ 6: 700, 14: 50 });
    const tank = { litres: 400, litresPerMin: 40, counts, beta: [75, 1000] };
    expectRefused('missing_size', 'tank.counts.sizes', 'counts at 21 µm', () =>
      timeToReachCode(tank, limitsOf(nas1638, '7', 'iso11171')),
    );
    const turned = [{ from: 14, to: 6, above: 0, upTo: 1 }];
    expectRefused('out_of_range', 'target.bands[0].to', 'a size above 14 µm', () =>
      timeToReachCode(tank, { sizing: 'iso11171', bands: turned }),
    );
  });
});

test('what two lists of stretches have in common', () => {
  const some = [
    { from: 0, until: 3 },
    { from: 20, until: null },
  ];
  expect(common(some, [{ from: 2, until: 25 }])).toEqual([
    { from: 2, until: 3 },
    { from: 20, until: 25 },
  ]);
  expect(common(some, [{ from: 3, until: 4 }])).toEqual([{ from: 3, until: 3 }]);
  expect(common(some, [{ from: 4, until: 5 }])).toEqual([]);
  expect(common(some, some)).toEqual(some);
});

test('a range just at its printed limit is within it, as the class is', () => {
  // 2.56 less 0.03 is 2.53 in decimals, the limit of class 5 from 21 to 38 µm(c), and more in binary
  const counts = cumulativeCounts({ 6: 2.56, 14: 2.56, 21: 2.56, 38: 0.03, 70: 0 });
  expect(classify(nas1638, counts).text).toBe('5');
  for (const beta of [1, 2]) {
    const tank = { litres: 400, litresPerMin: 40, counts, beta: [beta, beta, beta, beta, beta] };
    const time = timeToReachCode(tank, limitsOf(nas1638, '5', 'iso11171'));
    expect(time).toMatchObject({ minutes: 0, heldUntil: null, slowestSize: null });
  }
});
