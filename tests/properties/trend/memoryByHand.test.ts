/** The memory of a series by hand: distances, ranks, pairs and short series, each answer known without the sources. */
import { describe, expect, test } from 'vitest';
import { centredRanks, lagCorrelations } from '../../../src/trend/dependence/correlations.ts';
import { dependenceOf } from '../../../src/trend/dependence/dependence.ts';
import { dependentSum, fadings, layoutOf, sumOf } from '../../../src/trend/dependence/layout.ts';
import { neighbourCorrelation } from '../../../src/trend/dependence/neighbours.ts';
import { robustLine } from '../../../src/trend/dependence/robustLine.ts';
import { countPairs } from '../../../src/trend/kendall.ts';
import { senSlopeOf } from '../../../src/trend/senSlope.ts';
import { orderPoints } from '../../../src/trend/trendPoints.ts';

const upTo = (n: number) => Array.from({ length: n }, (_x, i) => i);
const list = (numbers: ArrayLike<number>) => Array.from(numbers);

describe('the layout in time', () => {
  test('distances in usual spacings, the lower median of those above 0', () => {
    const { n, mean, spacing, span, squares, ...found } = layoutOf([0, 0, 1, 4, 7]);
    expect([n, mean, spacing, span]).toEqual([5, 2.4, 3, 7 / 3]);
    expect(list(found.gaps)).toEqual([0, 1 / 3, 1, 1]);
    expect(squares).toBeCloseTo(2 * 2.4 ** 2 + 1.4 ** 2 + 1.6 ** 2 + 4.6 ** 2, 12);
    expect(layoutOf([0, 1, 4]).spacing).toBe(1);
    expect(layoutOf([0, 1, 4, 9]).spacing).toBe(3);
  });

  test('times so large that their sums are not whole: no digit is lost', () => {
    for (const first of [1e15, -1e15, 4e15]) {
      const { fromMean, mean, squares } = layoutOf(upTo(11).map((i) => first + i));
      expect(list(fromMean)).toEqual(upTo(11).map((i) => i - 5));
      expect([mean, squares]).toEqual([first + 5, 110]);
    }
  });

  test('a sum takes its terms from both ends at once', () => {
    const [one, tiny] = [1, 2 ** -53];
    // from the front, each tiny one would be lost beside 1
    expect(sumOf([one, tiny, tiny, -one], (value) => value)).toBe(2 * tiny);
    expect(sumOf([3, 5, 8], (value, i) => value * 10 ** i)).toBe(853);
    expect(sumOf([], (value) => value)).toBe(0);
  });

  test('what is left of a correlation over each gap', () => {
    const layout = layoutOf([0, 1, 2, 2, 4, 4.5, 5.5]);
    expect(list(fadings(layout, 0.25))).toEqual([0.25, 0.25, 1, expect.closeTo(0.0625, 14), 0.5, 0.25]);
    expect(list(fadings(layout, 0))).toEqual([0, 0, 1, 0, 0, 0]);
  });

  test('the variance of a weighted sum, pair by pair', () => {
    const layout = layoutOf([0, 1, 3, 3, 4]);
    const [weights, memory, share] = [[1, -2, 3, 0.5, 4], 0.5, 0.8];
    let wanted = 0;
    for (const [i, one] of weights.entries())
      for (const [j, other] of weights.entries()) {
        const apart = Math.abs(([0, 1, 3, 3, 4][i] as number) - ([0, 1, 3, 3, 4][j] as number));
        wanted += one * other * (i === j ? 1 : share * memory ** apart);
      }
    expect(dependentSum(fadings(layout, memory), weights, share)).toBeCloseTo(wanted, 12);
  });
});

describe('ranks and pairs', () => {
  test('ranks about 0, equal ones share theirs; what rounding tells apart is equal', () => {
    expect(list(centredRanks([0, 0, 0]))).toEqual([0, 0, 0]);
    expect(list(centredRanks([5, -7, 5, 1]))).toEqual([1, -1.5, 1, -0.5]);
    expect(list(centredRanks([-1, -2, -2, -2]))).toEqual([1.5, -0.5, -0.5, -0.5]);
    expect(list(centredRanks([1, 1 + 1e-12, 1 + 1e-8]))).toEqual([-0.5, -0.5, 1]);
  });

  test('pairs about a lag apart, over all points, what gaps take away made good', () => {
    // 0, 1, 2, 4: lags 1, 2, 3, 4 have 2, 2, 1, 1 pairs
    const layout = layoutOf([0, 1, 2, 4]);
    const ranks = [1, -1, 2, -2];
    expect(lagCorrelations(layout, ranks, 3)).toEqual([
      { lag: 1, distance: 1, pairs: 2, correlation: expect.closeTo((((1 * -1 + -1 * 2) / 2 / 2.5) * 4) / 5, 14) },
      { lag: 2, distance: 2, pairs: 2, correlation: expect.closeTo((((1 * 2 + 2 * -2) / 2 / 2.5) * 3) / 5, 14) },
      { lag: 3, distance: 3, pairs: 1, correlation: expect.closeTo((((-1 * -2) / 2.5) * 2) / 5, 14) },
    ]);
    expect(lagCorrelations(layout, [0, 0, 0, 0], 1)[0]?.correlation).toBe(0);
    // 1.4 spacings count as one, and say so
    expect(lagCorrelations(layoutOf([0, 1, 2, 3.4]), ranks, 1)).toMatchObject([{ pairs: 3, distance: 3.4 / 3 }]);
  });

  test('of one time and beyond the 24th neighbour no pair is made', () => {
    expect(lagCorrelations(layoutOf([0, 0, 1]), [1, 2, -3], 2)).toMatchObject([{ lag: 1, pairs: 2 }]);
    const crowd = [...Array<number>(24).fill(0), 1, 2];
    expect(lagCorrelations(layoutOf(crowd), crowd, 1)).toMatchObject([{ lag: 1, pairs: 25 }]);
    expect(lagCorrelations(layoutOf([0, ...crowd]), [0, ...crowd], 1)).toMatchObject([{ lag: 1, pairs: 25 }]);
  });
});

describe('neighbours', () => {
  const of = (times: number[], values: number[], slope: number) =>
    neighbourCorrelation(orderPoints(times, values), slope);

  test('of three points; null of two, and where the line leaves nothing', () => {
    // ranks 0, 1, -1: products 0 and -1, over 2 pairs, x 2/3, over a variance of 2/3
    expect(of([0, 1, 2], [0, 1, -1], 0)).toBeCloseTo(-0.5, 15);
    expect(of([0, 1], [0, 1], 0)).toBeNull();
    expect(of([0, 1, 2, 3], [5, 5, 5, 5], 0)).toBeNull();
  });

  test('a perfect line leaves rounding, and that is nothing', () => {
    const times = upTo(40);
    for (const slope of [0.1, 1 / 3, -0.7])
      expect(
        of(
          times,
          times.map((t) => 20.3 + slope * t),
          slope,
        ),
      ).toBeNull();
    // a scatter of 1e-12 is more than rounding
    expect(
      of(
        times,
        times.map((t) => 1 + t / 4 + (t % 2) * 1e-12),
        0.25,
      ),
    ).not.toBeNull();
  });

  test('points of one time are no neighbours', () => {
    // ranks of 0, 3, 1, 2: -1.5, 1.5, -0.5, 0.5; the pairs 0-1, 1-2 of the times 0, 1, 1, 2 are (0, 1) and (2, 3)
    const found = of([0, 1, 1, 2], [0, 1, 3, 2], 0);
    // in order of value within a time: 0, 1, 3, 2 have the ranks -1.5, -0.5, 1.5, 0.5
    expect(found).toBeCloseTo((((-1.5 * -0.5 + 1.5 * 0.5) / 2) * 3) / 4 / 1.25, 14);
    expect(of([1, 1, 1], [1, 2, 4], 0)).toBeNull();
  });
});

describe('a line and its memory', () => {
  const lineOf = (values: number[], times = upTo(values.length)) => {
    const points = orderPoints(times, values);
    return robustLine(points, senSlopeOf(points, countPairs(points, 0)), 0);
  };

  test('a perfect line leaves exactly nothing', () => {
    for (const slope of [0.1, 1 / 3, -0.7]) {
      const line = lineOf(upTo(30).map((t) => 20.3 + slope * t));
      expect(list(line.residuals)).toEqual(Array(30).fill(0));
      expect([line.slopeVariance, line.centreVariance]).toEqual([0, 0]);
    }
  });

  test('a wild value is pulled in to three standard deviations by the median, and what is left is about 0', () => {
    // off by 1, -1, 1, -1 ... and once by 50: the median distance is 1
    const line = lineOf(upTo(21).map((i) => (i === 10 ? 50 : i % 2 === 0 ? 1 : -1)));
    const pulled = Math.max(...list(line.left)) - Math.min(...list(line.left));
    expect(line.slope).toBe(0);
    expect(pulled).toBeCloseTo(3 * 1.4826 * 2 + 2, 12);
    expect(Math.abs(list(line.left).reduce((sum, value) => sum + value, 0))).toBeLessThan(1e-12);
  });

  const untold = (times: number[]) =>
    dependenceOf(
      layoutOf(times),
      times.map((_t, i) => (i * 7) % 5),
    );

  test('what too few points, too few in their span, or too few neighbours do not tell is null', () => {
    expect(untold(upTo(9))).toBeNull();
    expect(untold(upTo(10))).not.toBeNull();
    // ten points over 39 spacings are a quarter of 40 places; over 40 they are not
    expect(untold([...upTo(9), 39])).not.toBeNull();
    expect(untold([...upTo(9), 40])).toBeNull();
    // two pairs of twelve points are about a spacing apart; beside those, first four and more, then six and more
    const apart = (far: number) => {
      const times = [0];
      for (const gap of [far, 0.3, far, 0.3, far, 1, 0.3, far, 0.3, far, 0.3])
        times.push((times[times.length - 1] as number) + gap);
      return times;
    };
    expect(layoutOf(apart(4.4)).spacing).toBeCloseTo(1, 12);
    expect(untold(apart(4.4))).toBeNull();
    expect(untold(apart(6))).toBeNull();
    // ten distances of one: far is a neighbour
    expect(untold(apart(1))).not.toBeNull();
  });
});
