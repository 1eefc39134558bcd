import { describe, expect, test } from 'vitest';
import { classify, iso4406 } from '../../../src/codes/index.ts';
import {
  convertCounts,
  convertSizing,
  countAt,
  cumulativeCounts,
  equivalentDustMgPerL,
  type InterpolationMethod,
  testDustCounts,
} from '../../../src/counts/index.ts';
import calibration from './calibration.json' with { type: 'json' };
import interpolation from './interpolation.json' with { type: 'json' };
import table4 from './iso16889-table4.json' with { type: 'json' };

describe('size calibration, ISO 4402 and ISO 11171', () => {
  test('all sizes of a sample at once, its counts as they were', () => {
    const old = cumulativeCounts({ 5: 32000, 15: 4000, 100: 10 }, { sizing: 'iso4402', volumeMl: 10 });
    const counts = convertCounts(old, 'iso11171');
    expect(counts).toEqual({ ...old, sizing: 'iso11171', sizes: [6.4, 13.6, 70] });
    expect(convertCounts(counts, 'iso4402')).toEqual(old);
    expect(convertCounts(old, 'iso4402')).toEqual(old);
    const inB = convertCounts(counts, 'iso11171b').sizes;
    expect(inB).toEqual(counts.sizes.map((size) => convertSizing(size, 'iso11171', 'iso11171b')));
  });

  test.each(calibration.pairs.slice(1).map((pair, i) => [calibration.pairs[i], pair] as [number[], number[]]))(
    'from %s to %s on a straight line (chosen here: the standard prints the pairs only)',
    (below, above) => {
      const [iso4402, iso11171] = below.map((size, i) => (size + (above[i] as number)) / 2) as [number, number];
      expect(convertSizing(iso4402, 'iso4402', 'iso11171')).toBeCloseTo(iso11171, 12);
      expect(convertSizing(iso11171, 'iso11171', 'iso4402')).toBeCloseTo(iso4402, 12);
    },
  );
});

describe('ISO 16889 Table 4, ISO medium test dust', () => {
  test.each(['3', '10', '15'] as const)('at %s mg/L: every size within the acceptance range, and the code', (level) => {
    const at = Object.fromEntries(table4.rows.map((row) => [row.size, row.midpoints[level]]));
    const counts = cumulativeCounts(at);
    expect(classify(iso4406, counts).text).toBe(table4.codes[level]);
    const dust = equivalentDustMgPerL(counts);
    // the three columns agree within 1 % to 25 µm(c) and 5 % at 50 µm(c)
    for (const { size, mgPerL } of dust.bySize) {
      expect(Math.abs(mgPerL / Number(level) - 1), `${size} µm(c)`).toBeLessThan(size > 25 ? 0.05 : 0.011);
      const row = table4.rows.find((candidate) => candidate.size === size) as (typeof table4.rows)[number];
      const [low, high] = row.ranges[level] as [number, number];
      const fromTen = row.midpoints['10'] * (Number(level) / 10);
      expect(fromTen).toBeGreaterThanOrEqual(low);
      expect(fromTen).toBeLessThanOrEqual(high);
    }
    expect(dust.mgPerL).toBeCloseTo(Number(level), 0);
  });
});

describe('test dust at a concentration', () => {
  test('has the sizes of the table, in µm(c)', () => {
    const { sizing, sizes } = testDustCounts(3);
    expect(sizing).toBe('iso11171');
    expect(sizes).toEqual(table4.rows.map((row) => row.size));
  });

  test('10 mg/L: the midpoints themselves', () => {
    expect(testDustCounts(10).perMl).toEqual(table4.rows.map((row) => row.midpoints['10']));
  });
});

describe('interpolation', () => {
  const leftOut = (size: number, method: InterpolationMethod) => {
    const rest = table4.rows.filter((row) => row.size !== size);
    const counts = cumulativeCounts(Object.fromEntries(rest.map((row) => [row.size, row.midpoints['10']])));
    const truth = table4.rows.find((row) => row.size === size)?.midpoints['10'] as number;
    return 100 * (countAt(counts, size, { method }).perMl / truth - 1);
  };

  test.each(interpolation.holdOut.rows)('left out: $size µm(c)', (row) => {
    // the default within 4 %; each method as measured on the same data
    expect(Math.abs(leftOut(row.size, 'monotone'))).toBeLessThan(4);
    expect(leftOut(row.size, 'monotone')).toBeCloseTo(row.naturalSpline, 1);
    expect(leftOut(row.size, 'log_log')).toBeCloseTo(row.logLogNeighbours, 1);
    expect(leftOut(row.size, 'log_log2')).toBeCloseTo(row.logLog2Neighbours, 1);
  });

  test('never rises from 1 to 50 µm(c), by any method', () => {
    const counts = cumulativeCounts(Object.fromEntries(table4.rows.map((row) => [row.size, row.midpoints['10']])));
    for (const method of ['monotone', 'log_log', 'log_log2'] as const) {
      let before = Infinity;
      for (let size = 1; size <= 50; size += 0.01) {
        const { perMl } = countAt(counts, size, { method });
        expect(perMl).toBeLessThanOrEqual(before * (1 + 1e-13));
        before = perMl;
      }
    }
  });
});
