/** A flat size distribution: against its definition, every pair of sizes with logarithms and no shortcut. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { CumulativeCounts } from '../../../src/counts/index.ts';
import { flatDistribution } from '../../../src/reading/assess/distribution.ts';
import { wholeLimits } from '../../../src/reading/ownLimits.ts';
import { poissonOf, shares } from '../../chance.ts';
import { some } from '../../volume.ts';

const seed = Number(process.env.MOTESCALE_SEED ?? 4406);

const log = Math.log10;

/** Null where no pair can be looked at; else the flattest pair of those too flat, if any. */
function byDefinition({ sizes, perMl, counted }: CumulativeCounts, steepness: number) {
  const first = sizes.findIndex((size) => size >= 4);
  const particles = counted ?? perMl;
  const [size, n, p] = [(i: number) => sizes[i] ?? 0, (i: number) => perMl[i] ?? 0, (i: number) => particles[i] ?? 0];
  const told = sizes
    .map((_size, i) => i)
    .filter((i) => first >= 0 && i > first && n(i) > 0 && n(i) <= n(first) && p(i) >= 20);
  if (told.length === 0) return null;
  const last = told[told.length - 1] ?? 0;
  const isEnough = ([from, to]: [number, number]) => p(to) >= (size(to) < 2 * size(from) ? 100 : 20);
  const pairs = told.map((i): [number, number] => [first, i]);
  sizes.forEach((one, i) => {
    if (i <= first || i >= last || one < 10 || one > 15) return;
    pairs.push([i, last]);
    if (told.includes(i + 1) && i + 1 !== last) pairs.push([i, i + 1]);
  });
  const looked = pairs.filter(isEnough);
  if (looked.length === 0) return null;
  const slope = (from: number, to: number) => log(n(from) / n(to)) / log(size(to) / size(from));
  const flat = looked
    .filter(([from, to]) => n(from) >= n(to))
    .map(([from, to]) => {
      const solids = steepness * (log(size(from)) + log(size(to)));
      const limit = from === first ? solids : Math.min(solids, slope(first, from));
      // of all particles of the smaller size so many are larger; by the angle whose sine is the root of that share
      const [all, larger] = [Math.max(p(from), p(to)), p(to)];
      const angle = Math.asin(Math.sqrt(larger / all)) - Math.asin(Math.sqrt((size(from) / size(to)) ** limit));
      const room = slope(from, to) >= limit ? -1 : 2 * Math.sqrt(all) * Math.sin(angle) - 4;
      return { slope: slope(from, to), limit, room, sizes: [size(from), size(to)] };
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
  expect(of([1000, 400, 20, 7, 30])).toEqual([]);
  expect(of([1000, 400, 31, 12, 30])).toEqual([[10, 21]]);
});

test('other sizings are taken as µm(c); of sizes by microscope, or without a limit, nothing is said', () => {
  const of = (sizing: CumulativeCounts['sizing'], sizes: number[], own: object = {}) =>
    flatDistribution
      .find({
        ...{ limits: wholeLimits(own), repeats: null, tables: [], needed: [] },
        reading: { counts: { sizing, sizes, perMl: [1890, 1700, 1500].slice(0, sizes.length), volumeMl: 100 } },
      })
      ?.map(({ sizes: pair, sizing: as, limit }) => [pair, as, Math.round(limit * 1000) / 1000]);
  expect(of('iso11171', [4, 6, 14])).toEqual([[[4, 14], 'iso11171', 1.619]]);
  // 15 µm of ISO 4402 are 13.6 µm(c), and 5 µm are 6.4
  expect(of('iso4402', [5, 15])?.[0]?.slice(0, 2)).toEqual([[5, 15], 'iso4402']);
  expect(of('iso4402', [5, 15])?.[0]?.[2]).toBeCloseTo(0.926 * (log(6.4) + log(13.6)), 2);
  // beyond the published pairs the size is taken as it is
  expect(of('iso4402', [5, 15, 200])?.[0]?.[0]).toEqual([5, 200]);
  expect(of('iso4402', [5, 15, 200])?.[0]?.[2]).toBeCloseTo(0.926 * (log(6.4) + log(200)), 2);
  expect(of('microscope', [5, 10, 15])).toBeUndefined();
  expect(of('iso11171', [4, 6, 14], { flattestSteepness: null })).toBeUndefined();
});

/** Of so many readings of an oil of a shape, the share in which it is told. */
function toldOf(shape: (size: number) => number, perMl: number, volumeMl: number, sizes: readonly number[]): number {
  const next = shares(seed);
  const readings = some(3000, 600);
  let told = 0;
  for (let k = 0; k < readings; k += 1) {
    const counted: number[] = [];
    let sum = 0;
    for (let i = sizes.length - 1; i >= 0; i -= 1) {
      const larger = i + 1 < sizes.length ? shape(sizes[i + 1] as number) : 0;
      sum += poissonOf(perMl * volumeMl * (shape(sizes[i] as number) - larger), next);
      counted[i] = sum;
    }
    const counts = { sizing: 'iso11171' as const, sizes, counted, volumeMl, perMl: counted.map((n) => n / volumeMl) };
    const found = flatDistribution.find({
      ...{ reading: { counts }, limits: wholeLimits({}), repeats: null, tables: [], needed: [] },
    });
    if (found !== null && found.length > 0) told += 1;
  }
  return told / readings;
}
const six = [4, 6, 14, 21, 38, 70];
/** As a power law, or steeper the larger, from 4 µm on. */
const powerLaw = (exponent: number) => (size: number) => (size / 4) ** -exponent;
const steepening = (k: number) => (size: number) => 10 ** (-k * (log(size) ** 2 - log(4) ** 2));

describe('sound oil is not called flat by chance', () => {
  test.each([
    ['the flattest published, hardly steeper', steepening(0.93)],
    ['exponent 2.3', powerLaw(2.3)],
    ['exponent 2.5', powerLaw(2.5)],
    ['exponent 2.7', powerLaw(2.7)],
    ['exponent 4.5', powerLaw(4.5)],
  ])('%s', (_name, shape) => {
    for (const [perMl, ml] of [
      [20, 100],
      [300, 0.5],
      [4000, 0.5],
      [4000, 10],
      [4000, 100],
    ] as const) {
      expect(toldOf(shape, perMl, ml, six), `${perMl} per mL, ${ml} mL`).toBeLessThan(0.004);
      expect(toldOf(shape, perMl, ml, [4, 6, 14]), `${perMl} per mL, ${ml} mL`).toBeLessThan(0.004);
    }
  });
});

describe('a threshold that has drifted near the next one', () => {
  const drifted = (from: number, to: number, shape: (size: number) => number) => (size: number) =>
    shape(size === from ? to : size);
  test.each([
    // of the oil of exponent 5 the smallest size alone is dirty
    ['4 µm to 5.9 µm, exponent 5', drifted(4, 5.9, powerLaw(5)), [4, 6, 14]],
    ['4 µm to 5.5 µm', drifted(4, 5.5, powerLaw(2.5)), [4, 6, 14]],
    ['14 µm to 20 µm', drifted(14, 20, powerLaw(3)), [4, 6, 14, 21]],
  ])('%s', (_name, shape, sizes) => {
    expect(toldOf(shape, 4000, 10, sizes)).toBeGreaterThan(0.99);
  });
});
