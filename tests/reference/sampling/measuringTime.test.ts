import { describe, expect, test } from 'vitest';
import { as4059Differential, iso4406, limitsOf } from '../../../src/codes/index.ts';
import { isMotescaleError } from '../../../src/counts/index.ts';
import { countedVolume, countingConfidence, timeForCount, timeForTarget } from '../../../src/sampling/index.ts';
import figures from './measuringTime.json' with { type: 'json' };

describe('how long to count', () => {
  test.each(figures.timeForCount)('$perMl per mL: $ml mL for $particles particles', ({ perMl, particles, ml }) => {
    const seconds = timeForCount({ perMl, particles, mlPerMin: 100 });
    expect(countedVolume({ mlPerMin: 100, seconds })).toBeCloseTo(ml, 3);
  });

  test.each(figures.chance)('$particles or more with a chance of $chance: $expected expected', (row) => {
    const seconds = timeForCount({ perMl: 1, mlPerMin: 60, particles: row.particles, chance: row.chance });
    expect(seconds).toBeCloseTo(row.expected, 5);
  });

  test.each(figures.confidence)('limits of $expected counted', ({ expected, low, high, relativeError }) => {
    const found = countingConfidence({ perMl: expected / 10, mlPerMin: 60, seconds: 10 });
    expect(found.expected).toBeCloseTo(expected, 12);
    expect(found.low * 10).toBeCloseTo(low, 5);
    expect(found.high * 10).toBeCloseTo(high, 5);
    expect(found.relativeError).toBeCloseTo(relativeError, 6);
  });

  test('between two whole counts the limits are those of the lower', () => {
    const found = countingConfidence({ perMl: 10.9, mlPerMin: 60, seconds: 1 });
    expect(found.low).toBeCloseTo(4.795389, 5);
    expect(found.high).toBeCloseTo(18.390356, 5);
  });

  test.each(figures.timeForTarget)('mL for each size of $code', ({ code, least, most }) => {
    const time = timeForTarget({ target: limitsOf(iso4406, code), mlPerMin: 60 });
    time.sizes.forEach((size, i) => {
      expect(size.leastSeconds).toBeCloseTo(least[i] as number, 10);
      expect(size.mostSeconds).toBeCloseTo(most[i] as number, 10);
    });
    expect(time.leastSeconds).toBeCloseTo(Math.max(...least), 10);
    expect(time.mostSeconds).toBeCloseTo(Math.max(...most), 10);
  });

  test('a target in ranges, one that reaches down to zero, one without an upper limit', () => {
    const ranges = timeForTarget({ target: limitsOf(as4059Differential, '6'), mlPerMin: 60 });
    expect(ranges.sizes[0]).toMatchObject({ from: 6, to: 14, mostSeconds: null });
    expect(ranges.leastSeconds).toBeGreaterThan(0);
    const bands = [{ from: 4, to: null, above: 5, upTo: null }];
    const open = timeForTarget({ target: { sizing: 'iso11171', bands }, mlPerMin: 60, particles: 10 });
    expect(open).toMatchObject({ leastSeconds: null, mostSeconds: 2 });
    const then = { sizing: 'iso11171' as const, bands: [...bands, { from: 6, to: null, above: 5, upTo: 10 }] };
    expect(timeForTarget({ target: then, mlPerMin: 60 }).leastSeconds).toBeNull();
  });

  const inBands = (band: object) => ({
    target: { sizing: 'iso11171', bands: [{ from: 4, to: null, above: 1, upTo: 5 }, band] },
    mlPerMin: 1,
  });
  test.each([
    [{ target: { sizing: 'iso11171', bands: [] }, mlPerMin: 1 }, 'empty wanted.target.bands'],
    [{ target: { sizing: 'iso', bands: [{}] }, mlPerMin: 1 }, 'unknown_sizing wanted.target.sizing'],
    [{ target: limitsOf(iso4406, '18/16/13'), mlPerMin: 0 }, 'out_of_range wanted.mlPerMin'],
    [{ mlPerMin: 1 }, 'wrong_type wanted.target'],
    [inBands({ from: 4, to: null, above: 5 }), 'wrong_type wanted.target.bands[1].upTo'],
    [inBands({ from: 4, to: null, upTo: 5 }), 'wrong_type wanted.target.bands[1].above'],
    [inBands({ from: 4, to: null, above: -1, upTo: 5 }), 'negative wanted.target.bands[1].above'],
    [inBands({ from: 4, to: null, above: 1, upTo: 1e13 }), 'out_of_range wanted.target.bands[1].upTo'],
    [{ target: { sizing: 'iso11171', bands: new Array(1) }, mlPerMin: 1 }, 'wrong_type wanted.target.bands[0]'],
  ])('bad input %#', (wanted, expected) => {
    let found = 'no error';
    try {
      timeForTarget(wanted as never);
    } catch (error) {
      if (isMotescaleError(error)) found = `${error.code} ${error.parameter}`;
    }
    expect(found).toBe(expected);
  });
});
