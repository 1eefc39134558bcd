import { describe, expect, test } from 'vitest';
import { countedVolume, countingConfidence, timeForCount } from '../../../src/sampling/index.ts';
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
});
