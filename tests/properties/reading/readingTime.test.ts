import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { countInterval, isMotescaleError } from '../../../src/counts/index.ts';
import { countedVolume, countingConfidence, speedForViscosity, timeForCount } from '../../../src/sampling/index.ts';

const positive = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const thrown = (run: () => unknown): string => {
  try {
    run();
  } catch (error) {
    return isMotescaleError(error) ? `${error.code} ${error.parameter}` : String(error);
  }
  return 'no error';
};

describe('measuring time', () => {
  test('timeForCount and countedVolume are inverse', () => {
    fc.assert(
      fc.property(positive(1e-3, 1e6), positive(0.1, 1000), positive(0.5, 1e6), (perMl, mlPerMin, particles) => {
        const seconds = timeForCount({ perMl, mlPerMin, particles });
        expect((perMl * countedVolume({ mlPerMin, seconds })) / particles).toBeCloseTo(1, 13);
      }),
    );
  });

  test('the chance asked for is the chance had', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 500 }), positive(0.501, 0.9999), (particles, chance) => {
        const oil = { perMl: 2, mlPerMin: 50 };
        const wanted = { ...oil, particles };
        const seconds = timeForCount({ ...wanted, chance });
        expect(seconds).toBeGreaterThan(timeForCount(wanted) * 0.6);
        expect(countingConfidence({ ...oil, seconds }, { particles }).chance).toBeCloseTo(chance, 9);
      }),
    );
  });

  test('longer measuring never lowers confidence', () => {
    fc.assert(
      fc.property(
        positive(1e-2, 1e4),
        positive(1, 500),
        positive(0.1, 600),
        positive(1, 20),
        fc.integer({ min: 1, max: 100 }),
        (perMl, mlPerMin, seconds, times, particles) => {
          const short = countingConfidence({ perMl, mlPerMin, seconds }, { particles });
          const long = countingConfidence({ perMl, mlPerMin, seconds: seconds * times }, { particles });
          expect(long.chance).toBeGreaterThanOrEqual(short.chance - 1e-12);
          expect(long.relativeError as number).toBeLessThanOrEqual(short.relativeError as number);
          if (short.low > 0) expect(long.high / long.low).toBeLessThanOrEqual((short.high / short.low) * (1 + 1e-12));
        },
      ),
    );
  });

  test('the limits are those of the particles expected, where these are a whole number', () => {
    const counted = fc.integer({ min: 1, max: 20000 });
    const volume = fc.constantFrom(0.1, 0.25, 1, 3, 7, 10, 100, 1000);
    const confidence = fc.constantFrom(0.5, 0.9, 0.95, 0.99);
    fc.assert(
      fc.property(counted, volume, confidence, (n, volumeMl, sure) => {
        const setting = { perMl: n / volumeMl, mlPerMin: volumeMl * 60, seconds: 1 };
        const { expected, low, high } = countingConfidence(setting, { confidence: sure });
        const interval = countInterval(n, { confidence: sure });
        expect(expected).toBe(n);
        expect(low * volumeMl).toBeCloseTo(interval.low, 8);
        expect(high * volumeMl).toBeCloseTo(interval.high, 8);
      }),
    );
    // 0.29 x 100 is 28.999999999999996 in doubles
    expect(countingConfidence({ perMl: 0.29, mlPerMin: 100, seconds: 60 })).toMatchObject({
      expected: 29,
      low: countInterval(29).low / 100,
      high: countInterval(29).high / 100,
    });
    const between = countingConfidence({ perMl: 0.299, mlPerMin: 100, seconds: 60 });
    expect(between.expected).toBeCloseTo(29.9, 12);
    expect(between.low).toBe(countInterval(29).low / 100);
    // hardly any is not none
    expect(countingConfidence({ perMl: 1e-12, mlPerMin: 60, seconds: 1 }).expected).toBe(1e-12);
  });

  test('no particles, and bad input', () => {
    const none = countingConfidence({ perMl: 0, mlPerMin: 100, seconds: 60 });
    expect(none).toMatchObject({ expected: 0, chance: 0, relativeError: null, low: 0 });
    expect(none.high).toBeCloseTo(-Math.log(0.025) / 100, 10);
    expect(countedVolume({ mlPerMin: 0, seconds: 60 })).toBe(0);
    expect(thrown(() => countedVolume({ mlPerMin: -1, seconds: 60 }))).toBe('negative setting.mlPerMin');
    expect(thrown(() => timeForCount({ perMl: 0, mlPerMin: 100 }))).toBe('out_of_range wanted.perMl');
    expect(thrown(() => timeForCount({ perMl: 1, mlPerMin: 0 }))).toBe('out_of_range wanted.mlPerMin');
    expect(thrown(() => timeForCount({ perMl: 1, mlPerMin: 1, chance: 0.5 }))).toBe('out_of_range wanted.chance');
    expect(thrown(() => timeForCount({ perMl: 1, mlPerMin: 1, chance: 0.9, particles: 2.5 }))).toBe(
      'not_an_integer wanted.particles',
    );
    expect(thrown(() => timeForCount({ perMl: 1e13, mlPerMin: 1 }))).toBe('out_of_range wanted.perMl');
    expect(thrown(() => timeForCount({ perMl: 1, mlPerMin: 1, particles: 1e16 }))).toBe(
      'out_of_range wanted.particles',
    );
    expect(thrown(() => timeForCount({ perMl: 1, mlPerMin: 1, particles: 1e10, chance: 0.9 }))).toBe(
      'out_of_range wanted.particles',
    );
    expect(thrown(() => countingConfidence({ perMl: 1, mlPerMin: 0, seconds: 1 }))).toBe('out_of_range setting');
    expect(thrown(() => countingConfidence({ perMl: 1e9, mlPerMin: 60, seconds: 2 }))).toBe('out_of_range setting');
  });
});

describe('speed for viscosity', () => {
  const found = [
    { mm2PerS: 50, percent: 28 },
    { mm2PerS: 160, percent: 41 },
  ];
  const curves = fc.uniqueArray(fc.integer({ min: 5, max: 800 }), { minLength: 2, maxLength: 8 }).chain((viscosities) =>
    fc
      .array(fc.double({ min: 0, max: 100, noNaN: true }), {
        minLength: viscosities.length,
        maxLength: viscosities.length,
      })
      .map((percents) => viscosities.map((mm2PerS, i) => ({ mm2PerS, percent: percents[i] as number }))),
  );

  test('at its points and beyond them', () => {
    expect(speedForViscosity(found, 50)).toEqual({ percent: 28, outside: false });
    expect(speedForViscosity(found, 160)).toEqual({ percent: 41, outside: false });
    expect(speedForViscosity(found, 49.9)).toEqual({ percent: 28, outside: true });
    expect(speedForViscosity(found, 160.1)).toEqual({ percent: 41, outside: true });
  });

  test('through its points, between its neighbours, clamped outside', () => {
    fc.assert(
      fc.property(curves, positive(1, 1000), (curve, mm2PerS) => {
        for (const point of curve) {
          expect(speedForViscosity(curve, point.mm2PerS)).toEqual({ percent: point.percent, outside: false });
        }
        const { percent, outside } = speedForViscosity(curve, mm2PerS);
        const sorted = [...curve].sort((a, b) => a.mm2PerS - b.mm2PerS);
        const below = sorted.filter((point) => point.mm2PerS <= mm2PerS).pop();
        const above = sorted.find((point) => point.mm2PerS >= mm2PerS);
        expect(outside).toBe(below === undefined || above === undefined);
        const neighbours = [(below ?? above)?.percent as number, (above ?? below)?.percent as number];
        expect(percent).toBeGreaterThanOrEqual(Math.min(...neighbours));
        expect(percent).toBeLessThanOrEqual(Math.max(...neighbours));
      }),
    );
  });

  test('rises wherever the points rise', () => {
    fc.assert(
      fc.property(curves, positive(1, 1000), positive(1, 1000), (curve, a, b) => {
        const percents = curve.map((point) => point.percent).sort((x, y) => x - y);
        const rising = [...curve]
          .sort((x, y) => x.mm2PerS - y.mm2PerS)
          .map(({ mm2PerS }, i) => ({ mm2PerS, percent: percents[i] as number }));
        const low = speedForViscosity(rising, Math.min(a, b)).percent;
        expect(speedForViscosity(rising, Math.max(a, b)).percent).toBeGreaterThanOrEqual(low - 1e-9);
      }),
    );
  });

  test('bad input', () => {
    expect(thrown(() => speedForViscosity([], 75))).toBe('empty curve');
    expect(thrown(() => speedForViscosity(found.slice(0, 1), 75))).toBe('too_few curve');
    expect(thrown(() => speedForViscosity([...found, ...found], 75))).toBe('out_of_range curve');
    expect(thrown(() => speedForViscosity([{ mm2PerS: 1, percent: 101 }, found[0] as never], 75))).toBe(
      'out_of_range curve[0].percent',
    );
    expect(thrown(() => speedForViscosity(found, 0))).toBe('out_of_range mm2PerS');
  });
});
