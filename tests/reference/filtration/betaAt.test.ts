/** Ratios at the sizes counted, from those of a data sheet. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { betaAt, combineFilters, combineFiltersBySize } from '../../../src/filtration/index.ts';
import { d } from '../../properties/twin.ts';

const element = [
  { size: 6.5, beta: 75 },
  { size: 8, beta: 200 },
  { size: 12, beta: 1000 },
];

describe('a ratio at a size', () => {
  // by hand: ln(7/6.5) / ln(8/6.5) = 0.0741080 / 0.2076394 = 0.356907; 75 (200/75)^0.356907 = 106.43
  test.each([
    [6.5, 75],
    [7, 106.43],
    [8, 200],
    [9.79796, 447.21],
    [12, 1000],
    [14, 1000],
    [100, 1000],
  ])('%d µm: %d', (size, beta) => {
    expect(Math.abs(betaAt(element, size) / beta - 1)).toBeLessThan(1e-4);
  });

  test('at a point it is that of the point, to the bit', () => {
    for (const { size, beta } of element) expect(betaAt(element, size)).toBe(beta);
  });

  test('below the smallest point: what is asked for by name', () => {
    expect(betaAt(element, 4, { below: 'unfiltered' })).toBe(1);
    // 75 (4/6.5)^4.72371, the slope being ln(200/75) / ln(8/6.5)
    expect(betaAt(element, 4, { below: 'extrapolated' })).toBeCloseTo(7.569, 2);
    expect(betaAt(element, 1, { below: 'extrapolated' })).toBe(1);
    expect(betaAt([{ size: 10, beta: 1000 }], 14)).toBe(1000);
  });

  test('below it where nothing is asked for: the refusal says where the points begin, and what is to be done', () => {
    expect(() => betaAt(element, 4)).toThrow(/expected 6\.5 µm, the smallest point, or more; options\.below/);
    const one = [{ size: 10, beta: 1000 }];
    expect(() => betaAt(one, 4, { below: 'extrapolated' })).toThrow(/expected two points to be extrapolated/);
  });

  test('never falls with size, and lies on the line: a twin of 50 digits to 1e-13', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 6.5, max: 12, noNaN: true }),
        fc.double({ min: 6.5, max: 12, noNaN: true }),
        (a, b) => {
          const [small, large] = a < b ? [a, b] : [b, a];
          expect(betaAt(element, small)).toBeLessThanOrEqual(betaAt(element, large));
          const [from, to] = small < 8 ? [element[0], element[1]] : [element[1], element[2]];
          if (from === undefined || to === undefined) return;
          const share = d(small).div(from.size).ln().div(d(to.size).div(from.size).ln());
          const exact = d(to.beta).div(from.beta).pow(share).times(from.beta);
          expect(d(betaAt(element, small)).div(exact).minus(1).abs().toNumber()).toBeLessThan(1e-13);
        },
      ),
    );
  });

  test.each<[string, string, () => unknown]>([
    ['out_of_range', 'size', () => betaAt(element, 4)],
    ['too_few', 'points', () => betaAt([{ size: 10, beta: 1000 }], 4, { below: 'extrapolated' })],
    ['empty', 'points', () => betaAt([], 4)],
    ['wrong_type', 'points[0]', () => betaAt(new Array(1), 4)],
    ['out_of_range', 'points[0].beta', () => betaAt([{ size: 4, beta: 0.5 }], 4)],
    ['infinite', 'points[0].beta', () => betaAt([{ size: 4, beta: Infinity }], 4)],
    ['sizes_out_of_order', 'points[1].size', () => betaAt([element[0], element[0]] as never, 8)],
    ['out_of_range', 'points[1].beta', () => betaAt([...element.slice(2), { size: 20, beta: 75 }], 14)],
    ['unknown_option', 'options.below', () => betaAt(element, 7, { below: 'one' as never })],
    ['unknown_option', 'options.under', () => betaAt(element, 7, { under: 'none' } as never)],
  ])('%s at %s', (code, parameter, call) => {
    expect(call).toThrow(expect.objectContaining({ name: 'MotescaleError', code, parameter }));
  });
});

describe('filters by size', () => {
  const of = (i: number) => (list: readonly number[]) => list[i] as number;
  const fine = [20, 75, 1000];
  const coarse = [1.2, 2, 10];

  test('are those of each size alone', () => {
    const circuit = <Ratio>(first: Ratio, second: Ratio) => ({
      series: [
        { filter: second, bypass: 0.05 },
        {
          parallel: [
            { litresPerMin: 30, filter: first },
            { litresPerMin: 10, filter: { series: [second, first] } },
          ],
        },
      ],
    });
    const bySize = combineFiltersBySize(circuit(fine, coarse));
    expect(bySize).toEqual([0, 1, 2].map((i) => combineFilters(circuit(of(i)(fine), of(i)(coarse)))));
    expect(combineFiltersBySize(fine)).toEqual(fine);
    expect(combineFiltersBySize([Infinity, 2])).toEqual([Infinity, 2]);
  });

  test('of which one has fewer ratios: it says how many are expected', () => {
    expect(() => combineFiltersBySize({ series: [fine, [2, 10]] })).toThrow(
      /an array of 3, as many ratios as the first/,
    );
  });

  test.each<[string, string, () => unknown]>([
    ['length_mismatch', 'arrangement.series[1]', () => combineFiltersBySize({ series: [fine, [2, 10]] })],
    ['empty', 'arrangement', () => combineFiltersBySize([])],
    ['wrong_type', 'arrangement.series[1]', () => combineFiltersBySize({ series: [fine, 2 as never] })],
    ['wrong_type', 'arrangement', () => combineFilters(fine as never)],
    ['out_of_range', 'arrangement[2]', () => combineFiltersBySize([20, 75, 0.5])],
  ])('%s at %s', (code, parameter, call) => {
    expect(call).toThrow(expect.objectContaining({ name: 'MotescaleError', code, parameter }));
  });
});
