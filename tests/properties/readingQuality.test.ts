import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { assessReading, type Quality, type Reading, worstQuality } from '../../src/sampling/index.ts';

const order: readonly Quality[] = ['good', 'uncertain', 'bad'];
const rank = (quality: Quality) => order.indexOf(quality);

const good: Reading = {
  counts: { sizing: 'iso11171', sizes: [4, 6, 14], perMl: [1890, 402, 33], counted: [18900, 4020, 330], volumeMl: 10 },
  time: 2000,
  mlPerMin: 100,
  kPa: 800,
  celsius: 45,
  mm2PerS: 46,
  waterSaturation: 0.3,
  flushedMl: 500,
};
const limits = { mlPerMin: { low: 50, high: 150 }, celsius: { low: 0, high: 80 }, flushMl: 300 };
/** Changes of separate figures, each of which adds one finding. */
const faults: readonly Partial<Reading>[] = [
  { mlPerMin: 0 },
  { kPa: 100 },
  { celsius: 90 },
  { mm2PerS: 400 },
  { waterSaturation: 1 },
  { flushedMl: 10 },
  { time: 500 },
];
const assess = (chosen: readonly Partial<Reading>[]) =>
  assessReading(Object.assign({}, good, ...chosen), limits, [{ ...good, time: 1000 }]);

describe('quality', () => {
  test('never improves when a finding is added', () => {
    fc.assert(
      fc.property(fc.subarray([...faults]), fc.constantFrom(...faults), (some, one) => {
        const before = assess(some);
        const after = assess([...some, one]);
        expect(before.findings.length).toBe(some.length);
        expect(after.findings.length).toBeGreaterThanOrEqual(some.length);
        expect(rank(after.quality)).toBeGreaterThanOrEqual(rank(before.quality));
        expect(after.quality).toBe(worstQuality(after.findings.map((finding) => finding.quality)));
      }),
    );
  });

  test('the worst of several, in any order', () => {
    fc.assert(
      fc.property(fc.array(fc.constantFrom(...order)), (qualities) => {
        expect(rank(worstQuality(qualities))).toBe(Math.max(0, ...qualities.map(rank)));
      }),
    );
    expect(() => worstQuality(['fair' as Quality])).toThrow(/qualities\[0\]/);
  });

  test('any counts give an assessment that survives JSON, its figures all numbers', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 0, max: 1e9, noNaN: true }), { minLength: 1, maxLength: 6 }),
        fc.constantFrom('iso11171', 'iso4402', 'microscope', 'iso11171b'),
        fc.double({ min: 0, max: 1e6, noNaN: true }),
        (perMl, sizing, mlPerMin) => {
          const sizes = [4, 6, 14, 21, 38, 70].slice(0, perMl.length);
          const result = assessReading({ counts: { sizing, sizes, perMl }, mlPerMin, measuringSeconds: 60 });
          for (const { figure, limit } of result.findings) {
            expect(Number.isFinite(figure)).toBe(true);
            expect(Number.isFinite(limit)).toBe(true);
          }
          expect(JSON.parse(JSON.stringify(result))).toEqual(result);
          const rises = perMl.some((count, i) => i > 0 && count > (perMl[i - 1] as number));
          expect(result.findings.some((finding) => finding.code === 'counts_rise_with_size')).toBe(rises);
        },
      ),
    );
  });
});
