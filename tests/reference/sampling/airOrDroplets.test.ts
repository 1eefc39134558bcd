/**
 * No published dust is taken for air, and bubbles are.
 */
import { erf } from 'mathjs';
import { describe, expect, test } from 'vitest';
import type { CumulativeCounts } from '../../../src/counts/index.ts';
import { assessReading } from '../../../src/reading/index.ts';
import dusts from './dusts.json' with { type: 'json' };

const air = 'flat_size_distribution';
const codes = (counts: CumulativeCounts) => assessReading({ counts }).findings.map((finding) => finding.code);
const judged = (counts: CumulativeCounts) => assessReading({ counts }).unchecked.indexOf(air) < 0;
const counts = (sizes: readonly number[], perMl: readonly number[]): CumulativeCounts => ({
  sizing: 'iso11171',
  sizes,
  perMl,
});

/**
 * Particles larger than each lower edge, from the volume between edges: spheres of one density, volume even in log
 * size.
 */
function fromVolume(edges: readonly number[], percent: readonly number[]): number[] {
  const numbers = percent.map((share, i) => {
    const a = edges[i] as number;
    const b = edges[i + 1] as number;
    return ((share / Math.log(b / a)) * (a ** -3 - b ** -3)) / 3;
  });
  return numbers.map((_, i) => numbers.slice(i).reduce((sum, number) => sum + number, 0));
}

describe('published dusts', () => {
  const { sizes, limits } = dusts.isoMediumTestDust;
  for (const [name, ranges] of Object.entries(limits)) {
    const midpoints = ranges.map(([low, high]) => ((low as number) + (high as number)) / 2);
    for (const dilution of [1, 0.1, 0.01]) {
      test(`ISO medium test dust, ${name} x ${dilution}: all sizes, and 4, 6, 14 alone`, () => {
        const perMl = midpoints.map((count) => count * dilution);
        const three = [4, 6, 14].map((size) => perMl[sizes.indexOf(size)] as number);
        expect(codes(counts(sizes, perMl))).not.toContain(air);
        expect(codes(counts([4, 6, 14], three))).not.toContain(air);
        if (dilution > 0.1) expect(judged(counts([4, 6, 14], three))).toBe(true);
      });
    }
  }

  test('ISO medium test dust at the flattest corner of its limits', () => {
    const perMl = [5870, 205];
    expect(codes(counts([4, 14], perMl))).not.toContain(air);
  });

  test.each(dusts.bySize)('$dust', ({ edges, percent }) => {
    const from = edges.findIndex((edge) => edge >= 4);
    const perMl = fromVolume(edges, percent);
    const scale = 1e6 / (perMl[from] as number);
    const dust = counts(
      edges.slice(from, -1),
      perMl.slice(from).map((count) => count * scale),
    );
    expect(judged(dust)).toBe(true);
    expect(codes(dust)).not.toContain(air);
  });

  test('the shape of NAS 1638, sized by a counter of its day', () => {
    const { sizes, per100Ml } = dusts.nas1638Class8;
    const perMl = per100Ml.map((_, i) => per100Ml.slice(i).reduce((sum, count) => sum + count, 0) / 100);
    const oil: CumulativeCounts = {
      sizing: 'iso4402',
      sizes,
      perMl,
      counted: perMl.map((count) => Math.round(count * 100)),
      volumeMl: 100,
    };
    expect(judged(oil)).toBe(true);
    expect(codes(oil)).not.toContain(air);
  });

  test('the flattest itself, MIL-STD-1246C, is the limit', () => {
    const sizes = [4, 6, 14, 25, 50];
    const shaped = (steepness: number) =>
      counts(
        sizes,
        sizes.map((size) => 10 ** (6 - steepness * Math.log10(size) ** 2)),
      );
    const many = (steepness: number) => {
      const { perMl, ...rest } = shaped(steepness);
      return { ...rest, perMl, volumeMl: 1e4 };
    };
    expect(codes(many(0.927))).not.toContain(air);
    expect(codes(many(0.925))).toContain(air);
    // of one mL chance may make 0.9
    expect(codes(shaped(0.92))).not.toContain(air);
    expect(codes(shaped(0.91))).toContain(air);
  });
});

describe('synthetic bubbles', () => {
  const sizes = [4, 6, 14, 21, 38];
  const lognormal = (median: number, spread: number) => (size: number) =>
    0.5 - 0.5 * erf(Math.log(size / median) / Math.log(spread) / Math.SQRT2);

  test.each([
    [15, 1.4],
    [30, 1.5],
    [60, 1.8],
    [100, 2],
  ])('lognormal, median %s µm, spread %s', (median, spread) => {
    const bubbles = sizes.map((size) => 500 * lognormal(median, spread)(size));
    expect(codes(counts(sizes, bubbles))).toContain(air);
  });

  test.each([20, 40, 80])('lognormal of %s µm on top of an 18/16/13 oil of solids', (median) => {
    const solids = [1900, 480, 60, 12, 2];
    const bubbles = sizes.map((size) => 500 * lognormal(median, 1.5)(size));
    expect(codes(counts(sizes, solids))).not.toContain(air);
    const both = solids.map((count, i) => count + (bubbles[i] as number));
    expect(codes(counts(sizes, both))).toContain(air);
  });

  // number of bubbles as size^-1.5, so larger than a size as size^-0.5 up to the largest that turbulence leaves whole
  // (from memory)
  test('small bubbles torn by turbulence', () => {
    const perMl = sizes.map((size) => 1000 * (size ** -0.5 - 200 ** -0.5));
    expect(codes(counts(sizes, perMl))).toContain(air);
  });

  test('codes whose numbers lie close together', () => {
    expect(codes(counts([4, 6, 14], [8000, 4100, 2000]))).toContain(air); // 20/19/18
    expect(codes(counts([4, 6, 14], [1900, 480, 60]))).not.toContain(air); // 18/16/13
    expect(codes(counts([4, 6, 14], [60, 15, 2]))).not.toContain(air); // 13/11/8
  });
});

describe('what is not judged', () => {
  test('sizes by microscope, one size alone, too few particles', () => {
    expect(judged({ sizing: 'microscope', sizes: [5, 15], perMl: [2000, 1900] })).toBe(false);
    expect(judged(counts([2, 4], [2000, 1900]))).toBe(false);
    expect(judged(counts([4, 14], [100, 19.9]))).toBe(false);
    expect(judged({ ...counts([4, 14], [100, 19.9]), counted: [1000, 199], volumeMl: 10 })).toBe(true);
    expect(judged(counts([14, 21], [0, 0]))).toBe(false);
    expect(judged(counts([1, 2], [5000, 4000]))).toBe(false);
  });

  test('older sizings by the sizes they stand for', () => {
    expect(codes({ sizing: 'iso4402', sizes: [5, 15], perMl: [2000, 1900] })).toContain(air);
    expect(codes({ sizing: 'iso11171b', sizes: [4.5, 15.6], perMl: [2000, 1900] })).toContain(air);
    expect(codes({ sizing: 'iso4402', sizes: [0.5, 5, 15, 110], perMl: [9000, 6090, 1090, 0.1] })).not.toContain(air);
  });
});
