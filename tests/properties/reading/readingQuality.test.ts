import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { CumulativeCounts } from '../../../src/counts/index.ts';
import {
  type Assessment,
  assessReading,
  type FindingCode,
  type Quality,
  type Reading,
  worstQuality,
} from '../../../src/reading/index.ts';

const order: readonly Quality[] = ['good', 'uncertain', 'bad'];
const rank = (quality: Quality) => order.indexOf(quality);

const good: Reading & { readonly counts: CumulativeCounts } = {
  counts: {
    sizing: 'iso11171',
    sizes: [4, 6, 14],
    perMl: [1890.1, 402, 33],
    counted: [18901, 4020, 330],
    volumeMl: 10,
  },
  time: 2000,
  mlPerMin: 100,
  kPa: 240,
  celsius: 45,
  mm2PerS: 46,
  waterSaturation: 0.3,
  flushedMl: 500,
};
const limits = {
  mlPerMin: { low: 50, high: 150 },
  celsius: { low: 0, high: 80 },
  flushMl: 300,
  coincidencePerMl: 20000,
  leastKPa: 180,
  mostMm2PerS: 220,
};
const counts = (perMl: readonly number[]) => ({
  counts: { ...good.counts, perMl, counted: perMl.map((count) => Math.round(count * 10)) },
});

/**
 * One thing wrong: the change that brings it about, and what it makes of a reading by default, as the manual has it.
 */
interface Fault {
  readonly code: FindingCode;
  readonly quality: Quality;
  readonly change: Partial<Reading>;
}
const fault = (code: FindingCode, quality: Quality, change: Partial<Reading>): Fault => ({ code, quality, change });
/** Of each group one fault can be there; without flow few particles are not looked for. */
const groups: readonly (readonly Fault[])[] = [
  [
    fault('no_flow', 'bad', { mlPerMin: 0 }),
    fault('flow_low', 'uncertain', { mlPerMin: 20 }),
    fault('flow_high', 'uncertain', { mlPerMin: 151 }),
  ],
  [fault('pressure_low', 'uncertain', { kPa: 100 })],
  [fault('temperature_high', 'uncertain', { celsius: 90 }), fault('temperature_low', 'uncertain', { celsius: -1 })],
  [fault('viscosity_high', 'uncertain', { mm2PerS: 400 })],
  [fault('free_water_likely', 'uncertain', { waterSaturation: 1 })],
  [fault('line_not_flushed', 'bad', { flushedMl: 10 })],
  [fault('clock_backwards', 'uncertain', { time: 500 })],
  [
    fault('few_particles', 'uncertain', counts([189, 40.2, 1.9])),
    fault('counts_rise_with_size', 'bad', counts([1890, 2000.1, 33])),
    fault('above_coincidence_limit', 'uncertain', counts([20001, 4020.1, 330])),
    fault('flat_size_distribution', 'uncertain', counts([1890, 1000.1, 300])),
  ],
  [fault('values_stuck', 'bad', {})],
];

const chosenFaults = fc
  .tuple(...groups.map((group) => fc.option(fc.constantFrom(...group))))
  .map((list) => list.filter((one): one is Fault => one !== null))
  .map((list) => {
    const still = list.some(({ code }) => code === 'no_flow');
    return list.filter(({ code }) => !(still && code === 'few_particles'));
  });
const ownQualities = fc.dictionary(
  fc.constantFrom(...groups.flatMap((group) => group.map(({ code }) => code))),
  fc.constantFrom(...order),
);

function assess(chosen: readonly Fault[], qualities: Readonly<Record<string, Quality>>): Assessment {
  const reading: Reading = Object.assign({}, good, ...chosen.map(({ change }) => change));
  const stuck = chosen.some(({ code }) => code === 'values_stuck');
  const earlier = [1, 2, 3, 4].map((i) => ({
    ...good,
    time: 900 + i,
    ...(stuck ? { counts: reading.counts } : counts([1800 + i, 402 + i, 33 + i])),
  }));
  return assessReading(reading, { ...limits, qualities }, earlier);
}

describe('quality', () => {
  test("is that of the worst finding, by the table or by one's own; never better for one more", () => {
    fc.assert(
      fc.property(chosenFaults, fc.nat(), ownQualities, (all, without, own) => {
        fc.pre(all.length > 0);
        const some = all.filter((_, i) => i !== without % all.length);
        const [before, after] = [assess(some, own), assess(all, own)];
        const expected = (list: readonly Fault[]) =>
          Math.max(0, ...list.map(({ code, quality }) => rank(own[code] ?? quality)));
        const codes = (list: readonly { readonly code: FindingCode }[]) => list.map(({ code }) => code).sort();
        expect(codes(before.findings)).toEqual(codes(some));
        expect(codes(after.findings)).toEqual(codes(all));
        expect(rank(before.quality)).toBe(expected(some));
        expect(rank(after.quality)).toBe(expected(all));
        expect(rank(after.quality)).toBeGreaterThanOrEqual(rank(before.quality));
        for (const { code, quality } of all) {
          expect(after.findings.filter((one) => one.code === code).map((one) => one.quality)).toEqual([
            own[code] ?? quality,
          ]);
        }
      }),
      { numRuns: 500 },
    );
  });

  test('the worst of several, in any order', () => {
    fc.assert(
      fc.property(fc.array(fc.constantFrom(...order)), (qualities) => {
        expect(rank(worstQuality(qualities))).toBe(Math.max(0, ...qualities.map(rank)));
      }),
    );
    expect(() => worstQuality(['fair' as Quality])).toThrow(/qualities\[0\]/);
    expect(() => worstQuality('bad' as never)).toThrow(expect.objectContaining({ code: 'wrong_type' }));
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
          for (const { value: figure, limit } of result.findings) {
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
