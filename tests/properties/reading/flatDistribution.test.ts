/** A flat size distribution: against its definition, every pair of sizes with logarithms and no shortcut. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { CumulativeCounts } from '../../../src/counts/index.ts';
import { flatDistribution } from '../../../src/reading/assess/distribution.ts';
import { wholeLimits } from '../../../src/reading/ownLimits.ts';
import { some } from '../../volume.ts';

const log = Math.log10;

/** Null where no pair can be looked at; else the flattest pair of those too flat, if any. */
function byDefinition({ sizes, perMl, counted }: CumulativeCounts, steepness: number) {
  const first = sizes.findIndex((size) => size >= 4);
  const particles = counted ?? perMl;
  const [size, n, p] = [(i: number) => sizes[i] ?? 0, (i: number) => perMl[i] ?? 0, (i: number) => particles[i] ?? 0];
  const told = sizes
    .map((_size, i) => i)
    .filter((i) => first >= 0 && i > first && n(i) > 0 && n(i) <= n(first) && p(i) >= 20);
  const last = told[told.length - 1] ?? first;
  const pairs = told.filter((i) => size(i) >= 2 * size(first)).map((i): [number, number] => [first, i]);
  const looked = pairs.length > 0;
  sizes.forEach((one, i) => {
    if (i > first && i < last && one >= 10 && one <= 15 && size(last) >= 2 * one) pairs.push([i, last]);
  });
  if (!looked) return null;
  const flat = pairs
    .filter(([from, to]) => n(from) >= n(to))
    .map(([from, to]) => {
      const width = log(size(to) / size(from));
      const slope = log(n(from) / n(to)) / width;
      const limit = steepness * (log(size(from)) + log(size(to)));
      const share = Math.max(0, 1 / p(to) - 1 / Math.max(1, p(from)));
      const scatter = p(to) < 400 ? Math.sqrt(share) / Math.LN10 / width : 0;
      return { slope, limit, room: limit - slope - 4 * scatter, sizes: [size(from), size(to)] };
    });
  return { found: flat.filter(({ room }) => room > 0).sort((a, b) => a.slope / a.limit - b.slope / b.limit)[0], flat };
}

const sizesGiven = fc
  .subarray([2, 3, 4, 4.6, 6, 7.9, 8, 10, 12, 14, 15, 15.1, 21, 28, 30, 38, 70], { minLength: 2 })
  .filter((sizes) => sizes.length > 1);
const countsGiven = sizesGiven.chain((sizes) =>
  fc
    .tuple(
      fc.double({ min: 0.2, max: 6, noNaN: true }),
      fc.double({ min: 0.5, max: 3, noNaN: true }),
      fc.array(fc.double({ min: -0.3, max: 0.1, noNaN: true }), { minLength: sizes.length, maxLength: sizes.length }),
      fc.option(fc.constantFrom(1, 10, 100), { freq: 3 }),
    )
    .map(([top, slope, noise, volumeMl]): CumulativeCounts => {
      const perMl = sizes.map((size, i) => Math.floor(10 ** (top - slope * log(size) + (noise[i] ?? 0)) * 10) / 10);
      if (volumeMl === null) return { sizing: 'iso11171', sizes, perMl };
      const counted = perMl.map((count) => Math.round(count * volumeMl));
      return { sizing: 'iso11171', sizes, perMl: counted.map((count) => count / volumeMl), counted, volumeMl };
    }),
);

test('the flattest pair is told where it is flatter than any dirt, chance allowed for', () => {
  let [unlooked, fine, flat] = [0, 0, 0];
  fc.assert(
    fc.property(countsGiven, fc.constantFrom(0.926, 0.7, 1.3), (counts, flattestSteepness) => {
      const limits = wholeLimits({ flattestSteepness });
      const told = flatDistribution.find({ reading: { counts }, limits, repeats: null, tables: [], needed: [] });
      const wanted = byDefinition(counts, flattestSteepness);
      if (wanted === null) {
        expect(told).toBeNull();
        unlooked += 1;
        return;
      }
      // at the limit itself a rounding decides
      fc.pre(wanted.flat.every(({ room }) => Math.abs(room) > 1e-9));
      expect(told?.map(({ sizes }) => sizes)).toEqual(wanted.found === undefined ? [] : [wanted.found.sizes]);
      if (wanted.found === undefined) fine += 1;
      else {
        expect(told?.[0]?.value).toBeCloseTo(wanted.found.slope, 10);
        expect(told?.[0]?.limit).toBeCloseTo(wanted.found.limit, 10);
        flat += 1;
      }
    }),
    { numRuns: some(5000, 500) },
  );
  expect(Math.min(unlooked, fine, flat)).toBeGreaterThan(4);
});

test('a pair whose counts rise is no flat one, wherever it lies', () => {
  const of = (perMl: number[]) => {
    const counts = { sizing: 'iso11171' as const, sizes: [4, 6, 10, 14, 21], perMl, volumeMl: 100 };
    return flatDistribution
      .find({ reading: { counts }, limits: wholeLimits({}), repeats: null, tables: [], needed: [] })
      ?.map(({ sizes }) => sizes);
  };
  expect(of([1000, 400, 20, 19, 30])).toEqual([]);
  expect(of([1000, 400, 31, 31, 30])).toEqual([[10, 21]]);
});

test('other sizings are taken as µm(c); of sizes by microscope, or without a limit, nothing is said', () => {
  const of = (sizing: CumulativeCounts['sizing'], sizes: number[], own: object = {}) =>
    flatDistribution
      .find({
        ...{ limits: wholeLimits(own), repeats: null, tables: [], needed: [] },
        reading: { counts: { sizing, sizes, perMl: [1890, 1700, 1500], volumeMl: 100 } },
      })
      ?.map(({ sizes: pair, sizing: as, limit }) => [pair, as, Math.round(limit * 1000) / 1000]);
  expect(of('iso11171', [4, 6, 14])).toEqual([[[4, 14], 'iso11171', 1.619]]);
  // 15 µm of ISO 4402 are 13.6 µm(c), and 5 µm are 6.4
  expect(of('iso4402', [5, 10, 15])?.[0]?.slice(0, 2)).toEqual([[5, 15], 'iso4402']);
  expect(of('iso4402', [5, 10, 15])?.[0]?.[2]).toBeCloseTo(0.926 * (log(6.4) + log(13.6)), 2);
  // beyond the published pairs the size is taken as it is
  expect(of('iso4402', [5, 15, 200])?.[0]?.[0]).toEqual([15, 200]);
  expect(of('microscope', [5, 10, 15])).toBeUndefined();
  expect(of('iso11171', [4, 6, 14], { flattestSteepness: null })).toBeUndefined();
});
