/** Laws of filtration: clean-up is monotone, time and count are inverse, combinations stay within their bounds. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { countsDiffer, cumulativeCounts } from '../../../src/counts/index.ts';
import {
  betaToHold,
  betaToReach,
  cleanUp,
  cleanUpCounts,
  combineFilters,
  efficiencyOfBeta,
  estimateIngression,
  type FilterArrangement,
  filtrationRatios,
  flowToHold,
  flowToReach,
  steadyState,
  type Tank,
  timeToReach,
  timeToReachCode,
} from '../../../src/filtration/index.ts';
import { some } from '../../volume.ts';

/** From low to high, evenly over orders of magnitude. */
const spread = (low: number, high: number) =>
  fc.double({ min: Math.log(low), max: Math.log(high), noNaN: true }).map(Math.exp);

const beta = spread(1.01, 1e5);
const tanks: fc.Arbitrary<Required<Tank>> = fc.record({
  litres: spread(1, 1e4),
  litresPerMin: spread(0.1, 1e3),
  beta,
  perMl: spread(0.1, 1e6),
  ingressionPerMin: fc.oneof(fc.constant(0), spread(1, 1e8)),
});
const runs = { numRuns: some(2000) };
const near = (a: number, b: number, relative: number) =>
  expect(Math.abs(a - b)).toBeLessThanOrEqual(relative * Math.max(Math.abs(a), Math.abs(b)));

describe('clean-up', () => {
  test('goes from the start towards the steady state, never past it and never back', () => {
    fc.assert(
      fc.property(tanks, spread(0.01, 1e4), spread(0.01, 1e4), (tank, first, more) => {
        const settled = steadyState(tank);
        const [a, b] = [cleanUp(tank, first), cleanUp(tank, first + more)];
        const slack = 1e-13 * Math.max(tank.perMl, settled);
        const [low, high] = [Math.min(tank.perMl, settled), Math.max(tank.perMl, settled)];
        for (const count of [a, b]) {
          expect(count).toBeGreaterThanOrEqual(low - slack);
          expect(count).toBeLessThanOrEqual(high + slack);
        }
        expect(Math.abs(b - settled)).toBeLessThanOrEqual(Math.abs(a - settled) + slack);
      }),
      runs,
    );
  });

  test('twice a time is the time once more', () => {
    fc.assert(
      fc.property(tanks, spread(0.01, 1e3), (tank, minutes) => {
        near(cleanUp(tank, 2 * minutes), cleanUp({ ...tank, perMl: cleanUp(tank, minutes) }, minutes), 1e-12);
      }),
      runs,
    );
  });

  test('time and count are inverse', () => {
    fc.assert(
      fc.property(tanks, fc.double({ min: 0.001, max: 0.999, noNaN: true }), (tank, share) => {
        const settled = steadyState(tank);
        fc.pre(settled < 0.9 * tank.perMl);
        const target = settled + (tank.perMl - settled) * share;
        const minutes = timeToReach(tank, target) as number;
        near(cleanUp(tank, minutes), target, 1e-11);
      }),
      runs,
    );
  });

  test('a cleaner target takes longer', () => {
    fc.assert(
      fc.property(tanks, spread(0.01, 1e6), spread(0.01, 1e6), (tank, a, b) => {
        const [clean, dirty] = [Math.min(a, b), Math.max(a, b)];
        const [long, short] = [timeToReach(tank, clean), timeToReach(tank, dirty)];
        if (long !== null) {
          expect(short).not.toBeNull();
          expect(long).toBeGreaterThanOrEqual(short as number);
        }
      }),
      runs,
    );
  });

  test('by size: counts never rise with size, and each size runs as on its own', () => {
    const three = (arbitrary: fc.Arbitrary<number>) => fc.array(arbitrary, { minLength: 3, maxLength: 3 });
    const falling = (list: number[]) => [...list].sort((a, b) => b - a);
    fc.assert(
      fc.property(
        three(spread(0.1, 1e5)),
        three(spread(1, 1e4)),
        three(spread(1, 1e7)),
        spread(0.01, 1e4),
        (perMl, betas, ingression, minutes) => {
          const tank = {
            litres: 400,
            litresPerMin: 40,
            counts: { sizing: 'iso11171' as const, sizes: [4, 6, 14], perMl: falling(perMl) },
            beta: falling(betas).reverse(),
            ingressionPerMin: falling(ingression),
          };
          const after = cleanUpCounts(tank, minutes).perMl;
          after.forEach((count, i) => {
            if (i > 0) expect(count).toBeLessThanOrEqual(after[i - 1] as number);
            const single = {
              ...tank,
              beta: tank.beta[i] as number,
              perMl: tank.counts.perMl[i] as number,
              ingressionPerMin: tank.ingressionPerMin[i] as number,
            };
            near(count, cleanUp(single, minutes), 1e-13);
          });
        },
      ),
      runs,
    );
  });
});

test('by size: rounding lets no count rise with size', () => {
  const loop = { litres: 400, litresPerMin: 40 };
  const [beta, better] = [3.7142857142857144, 3.714285714285717];
  const one = (ratio: number) => cleanUp({ ...loop, beta: ratio, perMl: 112, ingressionPerMin: 1e6 }, 1);
  expect(one(better)).toBeGreaterThan(one(beta));
  const counts = { sizing: 'iso11171' as const, sizes: [4, 6], perMl: [112, 112] };
  const tank = { ...loop, counts, beta: [beta, better], ingressionPerMin: [1e6, 1e6] };
  expect(cleanUpCounts(tank, 1).perMl).toEqual([one(beta), one(beta)]);
});

describe('time to reach a code', () => {
  const three = (arbitrary: fc.Arbitrary<number>) => fc.array(arbitrary, { minLength: 3, maxLength: 3 });
  const falling = (list: number[]) => [...list].sort((a, b) => b - a);
  const bySize = fc
    .tuple(three(spread(10, 1e5)), three(spread(1.1, 1e4)), three(spread(1, 1e7)))
    .map(([perMl, betas, ingression]) => ({
      litres: 400,
      litresPerMin: 40,
      counts: { sizing: 'iso11171' as const, sizes: [4, 6, 14], perMl: falling(perMl) },
      beta: falling(betas).reverse(),
      ingressionPerMin: falling(ingression),
    }));

  test('all sizes within the limits at that minute, not all before; if never, at no minute', () => {
    fc.assert(
      fc.property(
        bySize,
        three(spread(10, 1e4)),
        fc.array(spread(0.01, 1e3), { minLength: 5, maxLength: 5 }),
        (tank, at, tries) => {
          const limits = falling(at);
          const bands = limits.map((upTo, i) => ({ from: [4, 6, 14][i] as number, to: null, above: 0, upTo }));
          const time = timeToReachCode(tank, { sizing: 'iso11171', bands });
          const within = (minutes: number, slack: number) =>
            cleanUpCounts(tank, minutes).perMl.every((count, i) => count <= (limits[i] as number) * (1 + slack));
          for (const minutes of [...tries, 0]) {
            if (time.minutes === null || minutes < time.minutes) expect(within(minutes, -1e-9)).toBe(false);
            else if (time.heldUntil === null || minutes <= time.heldUntil) expect(within(minutes, 1e-9)).toBe(true);
            else expect(within(minutes, -1e-9)).toBe(false);
          }
          if (time.minutes !== null) expect(within(time.minutes, 1e-9)).toBe(true);
        },
      ),
      runs,
    );
  });
});

describe('how long a code is held, without a filter, where a litre rises by 1 per mL and minute', () => {
  const band = (from: number, upTo: number) => ({ from, to: null, above: 0, upTo });
  const rising = (perMl: number[], beta: number[], ingressionPerMin: number[], upTo: number[], litresPerMin = 0.5) => {
    const sizes = [4, 6, 14].slice(0, perMl.length);
    const counts = { sizing: 'iso11171' as const, sizes, perMl };
    const target = { sizing: 'iso11171' as const, bands: sizes.map((size, i) => band(size, upTo[i] as number)) };
    return timeToReachCode({ litres: 1, litresPerMin, counts, beta, ingressionPerMin }, target);
  };

  test('until the first size leaves', () => {
    const { minutes, heldUntil, sizes } = rising([100, 50], [1, 1], [1000, 1000], [110, 100]);
    expect([minutes, heldUntil, ...sizes.map((size) => size.heldUntil)]).toEqual([0, 10, 10, 50]);
  });

  test('no time at all where a size begins at its limit', () => {
    expect(rising([100], [1], [1000], [100])).toMatchObject({ minutes: 0, heldUntil: 0, slowestSize: null });
  });

  test('never reached where others have left before; the smaller of two that leave together is named', () => {
    // from 50 to 10 per mL at a rate of 0.01 per minute: 161 minutes, and the others leave after 10
    const late = rising([100, 100, 50], [1, 1, 2], [1000, 1000, 0], [110, 110, 10], 0.02);
    expect(late).toMatchObject({ minutes: null, heldUntil: null, slowestSize: 4 });
  });

  test('reached where one arrives at the moment another leaves', () => {
    // from 64 to 15 per mL at a rate of 0.25 per minute
    const minutes = 5.8033315290298475;
    near(minutes, Math.log(64 / 15) / 0.25, 1e-15);
    const together = rising([64, 64], [1, 2], [1000, 0], [64 + minutes, 15]);
    expect(together).toMatchObject({ minutes, heldUntil: minutes, slowestSize: 6 });
  });
});

test('a ratio at a size that only one of them has, of another sizing, or over hardly any particles', () => {
  const counts = (perMl: number[], sizing: 'iso11171' | 'iso4402' = 'iso11171') => ({ sizing, sizes: [6, 14], perMl });
  const refused = (parameter: string, expected: string) => expect.objectContaining({ parameter, expected });
  expect(() => filtrationRatios(counts([9, 3]), counts([9, 3], 'iso4402'))).toThrow(
    refused('downstream.sizing', "'iso11171'"),
  );
  expect(() => filtrationRatios(counts([9, 3]), counts([9, 1e-61]))).toThrow(
    refused('downstream.perMl[1]', '0, or particles per mL, 1e-60 or more'),
  );
  expect(() => filtrationRatios(counts([9, 3]), { ...counts([9, 3]), sizes: [5, 15] })).toThrow(
    refused('downstream.sizes', 'a size that is counted upstream too'),
  );
});

test('a size without a particle on either side has no ratio: a dead counter is no perfect filter', () => {
  const ratios = (before: number[], behind: number[]) => {
    const of = (perMl: number[]) => ({ sizing: 'iso11171' as const, sizes: [4, 6, 14], perMl });
    return filtrationRatios(of(before), of(behind)).map(({ size, beta }) => [size, beta]);
  };
  expect(ratios([0, 0, 0], [0, 0, 0])).toEqual([]);
  expect(ratios([90, 0, 0], [9, 3, 0])).toEqual([
    [4, 10],
    [6, 0],
  ]);
  expect(ratios([90, 9, 3], [9, 3, 0])).toEqual([
    [4, 10],
    [6, 3],
    [14, null],
  ]);
});

test('a ratio of raw counts has the limits of countsDiffer, one per mL none', () => {
  const raw = (counted: number, volumeMl: number, dilution = 1) =>
    cumulativeCounts({ 6: counted }, { volumeMl, dilution });
  const same = (before: readonly [number, number, number?], behind: readonly [number, number, number?]) => {
    const [found] = filtrationRatios(raw(...before), raw(...behind));
    const oil = ([counted, volumeMl, dilution = 1]: typeof before) => ({ counted, volumeMl: volumeMl / dilution });
    const { ratio, low, high } = countsDiffer(oil(before), oil(behind));
    expect(found?.beta ?? null).toBe(ratio === null ? null : found?.beta);
    expect(found?.low).toBeCloseTo(low, 9);
    if (high === null) expect(found?.high).toBeNull();
    else expect((found?.high ?? 0) / high).toBeCloseTo(1, 9);
  };
  same([100, 10], [1, 10]);
  same([100, 10, 20], [7, 25]);
  same([0, 10], [7, 25, 2]);
  same([100, 10], [0, 10]);
  expect(filtrationRatios(raw(100, 10), cumulativeCounts({ 6: 1 }))).toEqual([{ size: 6, beta: 10 }]);
  // more than the limits are worked out for
  expect(filtrationRatios(raw(2e9, 10), raw(1e9, 10))).toEqual([{ size: 6, beta: 2 }]);
});

describe('combinations', () => {
  const betas = fc.array(spread(1, 1e5), { minLength: 1, maxLength: 5 });

  test('in series at least as good as the best, in any order', () => {
    fc.assert(
      fc.property(betas, (list) => {
        const together = combineFilters({ series: list });
        expect(together).toBeGreaterThanOrEqual(Math.max(...list) * (1 - 1e-14));
        near(together, combineFilters({ series: [...list].reverse() }), 1e-14);
      }),
      runs,
    );
  });

  test.each<[string, (filter: FilterArrangement) => FilterArrangement]>([
    ['series', (filter) => ({ series: [filter] })],
    ['parallel', (filter) => ({ parallel: [{ litresPerMin: 1, filter }] })],
    ['bypass', (filter) => ({ filter, bypass: 0 })],
  ])('nested 100 deep and no deeper: %s', (_name, around) => {
    let nested: FilterArrangement = 75;
    for (let deep = 0; deep < 100; deep += 1) nested = around(nested);
    near(combineFilters(nested), 75, 1e-12);
    expect(() => combineFilters(around(nested))).toThrow('filters nested at most 100 deep');
  });

  test('in parallel between the worst and the best, whatever the flows', () => {
    fc.assert(
      fc.property(fc.array(fc.tuple(spread(0.1, 1e3), spread(1, 1e5)), { minLength: 1, maxLength: 5 }), (list) => {
        const together = combineFilters({ parallel: list.map(([litresPerMin, filter]) => ({ litresPerMin, filter })) });
        const all = list.map(([, filter]) => filter);
        expect(together).toBeGreaterThanOrEqual(Math.min(...all));
        expect(together).toBeLessThanOrEqual(Math.max(...all));
      }),
      runs,
    );
  });

  test('filters on one tank clean it like one in parallel with all the flow', () => {
    fc.assert(
      fc.property(spread(1, 100), spread(1, 100), beta, beta, (flow, otherFlow, first, second) => {
        const together = combineFilters({
          parallel: [
            { litresPerMin: flow, filter: first },
            { litresPerMin: otherFlow, filter: second },
          ],
        });
        const cleaned = (flow + otherFlow) * efficiencyOfBeta(together);
        near(cleaned, flow * efficiencyOfBeta(first) + otherFlow * efficiencyOfBeta(second), 1e-9);
      }),
      runs,
    );
  });

  test('a bypass never helps, and bounds the ratio by 1 over its share', () => {
    fc.assert(
      fc.property(spread(1, 1e5), fc.double({ min: 0.001, max: 1, noNaN: true }), (filter, bypass) => {
        const together = combineFilters({ filter, bypass });
        expect(together).toBeLessThanOrEqual(Math.min(filter, 1 / bypass) * (1 + 1e-14));
        expect(together).toBeGreaterThanOrEqual(1 - 1e-14);
      }),
      runs,
    );
  });

  test('a filter that lets nothing through is the limit of ever better ones', () => {
    fc.assert(
      fc.property(
        spread(1, 1e5),
        spread(0.1, 1e3),
        fc.double({ min: 0.001, max: 1, noNaN: true }),
        (filter, flow, share) => {
          const around = (best: number) => ({
            series: combineFilters({ series: [filter, best] }),
            parallel: combineFilters({
              parallel: [
                { litresPerMin: flow, filter },
                { litresPerMin: 50, filter: best },
              ],
            }),
            bypass: combineFilters({ filter: best, bypass: share }),
          });
          const [perfect, nearly] = [around(Infinity), around(1e40)];
          expect(perfect.series).toBe(Infinity);
          near(perfect.parallel, nearly.parallel, 1e-14);
          near(perfect.parallel, (filter * (flow + 50)) / flow, 1e-14);
          near(perfect.bypass, nearly.bypass, 1e-14);
          near(perfect.bypass, 1 / share, 1e-14);
        },
      ),
      runs,
    );
  });
});

describe('what is needed', () => {
  /** A ratio near 1 is a small difference of doubles, and a steady state goes as one over it. */
  const within = (ratio: number) => 1e-9 + 1e-14 / (ratio - 1);

  test('holds, and reaches, the target exactly', () => {
    fc.assert(
      fc.property(tanks, spread(0.1, 1e5), spread(0.1, 1e4), (tank, target, minutes) => {
        if (tank.ingressionPerMin > 0) {
          const holding = betaToHold(tank, target);
          if (holding !== null && holding < 1e4) near(steadyState({ ...tank, beta: holding }), target, within(holding));
          const flow = flowToHold(tank, target);
          near(steadyState({ ...tank, litresPerMin: flow as number }), target, 1e-12);
        }
        const reaching = betaToReach(tank, target, minutes);
        if (reaching === null) expect(cleanUp({ ...tank, beta: 1e15 }, minutes)).toBeGreaterThan(target * (1 - 1e-9));
        else if (reaching === 1)
          expect(cleanUp({ ...tank, beta: 1 }, minutes)).toBeLessThanOrEqual(target * (1 + 1e-12));
        else if (reaching < 1e4) near(cleanUp({ ...tank, beta: reaching }, minutes), target, 1e-8);
        const flow = flowToReach(tank, target, minutes) as number;
        if (flow > 0) near(cleanUp({ ...tank, litresPerMin: flow }, minutes), target, 1e-9);
      }),
      runs,
    );
  });
});

describe('what no filter does, or what needs none', () => {
  test('hold a count at which a perfect filter ends, or that its flow just carries', () => {
    for (let k = 0; k < 100; k += 1) {
      const litresPerMin = 1 + k * 0.37;
      const tank = { litres: 400, litresPerMin, perMl: 1, ingressionPerMin: 12345.6 * (k + 1) };
      expect(betaToHold(tank, steadyState({ ...tank, beta: Infinity }))).toBeNull();
      const target = 0.1 + k * 1.13;
      expect(betaToHold({ ...tank, ingressionPerMin: 1000 * litresPerMin * target }, target)).toBeNull();
    }
  });

  test('reach a count for which a perfect filter is just enough', () => {
    const tank = { litres: 1, perMl: 5000 };
    const litresPerMin = flowToReach({ ...tank, beta: Infinity }, 640, 1) as number;
    expect(betaToReach({ ...tank, litresPerMin }, 640, 1)).toBeNull();
    expect(betaToReach({ ...tank, litresPerMin: litresPerMin * 1.01 }, 640, 1)).toBeGreaterThan(100);
  });

  test('a tank within its target needs no flow, whatever the filter', () => {
    expect(flowToReach({ litres: 400, beta: 1, perMl: 100 }, 640, 30)).toBe(0);
    expect(flowToReach({ litres: 400, beta: 1, perMl: 641 }, 640, 30)).toBeNull();
  });
});

describe('ingression from a trend', () => {
  test('three readings are enough, two are not; the scatter is that of one figure left over', () => {
    const loop = { litres: 400, litresPerMin: 40, beta: 1 };
    // about the line 100 + 0.5 t, by -1, +2, -1: the residuals of least squares themselves
    const readings = [99, 132, 159].map((perMl, i) => ({ minutes: 60 * i, perMl }));
    const estimate = estimateIngression(loop, readings);
    near(estimate.ingressionPerMin, 200000, 1e-12);
    near(estimate.perMlAtStart, 100, 1e-12);
    near(estimate.scatterPerMl, Math.sqrt(6), 1e-12);
    // the standard error of a slope: scatter / sqrt(sum of squares of the times about their mean)
    near(estimate.standardError as number, (Math.sqrt(6) / Math.sqrt(7200)) * 400000, 1e-12);
    expect(() => estimateIngression(loop, readings.slice(0, 2))).toThrowError(
      expect.objectContaining({ code: 'too_few', parameter: 'readings' }),
    );
  });

  test('the ingression that made the readings is found again', () => {
    const times = [0, 20, 45, 60, 100, 180];
    fc.assert(
      fc.property(tanks, (tank) => {
        fc.pre(tank.ingressionPerMin > 0);
        // the figure must show in the counts: neither drowned by the start nor gone within rounding
        const rise = cleanUp({ ...tank, perMl: 0 }, 180);
        fc.pre(rise > 1e-3 * tank.perMl);
        const readings = times.map((minutes) => ({ minutes, perMl: cleanUp(tank, minutes) }));
        near(estimateIngression(tank, readings).ingressionPerMin, tank.ingressionPerMin, 1e-6);
      }),
      runs,
    );
  });

  test('its error is what it says: about the scatter of estimates over many noisy runs', () => {
    const tank = { litres: 400, litresPerMin: 20, beta: 5, perMl: 300, ingressionPerMin: 1000000 };
    const times = Array.from({ length: 20 }, (_unused, i) => 12 * i);
    let seed = 1;
    const uniform = () => {
      seed = (seed * 48271) % 2147483647;
      return seed / 2147483647;
    };
    const estimates = Array.from({ length: 2000 }, () => {
      const readings = times.map((minutes) => {
        let noise = -6;
        for (let i = 0; i < 12; i += 1) noise += uniform();
        return { minutes, perMl: cleanUp(tank, minutes) + 4 * noise };
      });
      return estimateIngression(tank, readings);
    });
    const mean = estimates.reduce((sum, { ingressionPerMin }) => sum + ingressionPerMin, 0) / estimates.length;
    const squares = estimates.reduce((sum, { ingressionPerMin }) => sum + (ingressionPerMin - mean) ** 2, 0);
    const stated = Math.sqrt(estimates.reduce((sum, { standardError }) => sum + (standardError ?? 0) ** 2, 0) / 2000);
    const seen = Math.sqrt(squares / 1999);
    expect(Math.abs(mean - 1000000)).toBeLessThan((4 * seen) / Math.sqrt(2000));
    expect(stated / seen).toBeGreaterThan(0.93);
    expect(stated / seen).toBeLessThan(1.07);
  });
});

test.each([5e-324, 6e-323, 1e-310])('a filter is found for oil that begins with %d per mL', (perMl) => {
  const tank = { litres: 0.0117539, litresPerMin: 30, perMl, ingressionPerMin: 33333 };
  const { litres, litresPerMin, ingressionPerMin } = tank;
  const without = betaToReach({ litres, litresPerMin, perMl: 0, ingressionPerMin }, 160, 30);
  expect(without).toBeGreaterThan(1);
  expect(betaToReach(tank, 160, 30)).toBe(without);
});
