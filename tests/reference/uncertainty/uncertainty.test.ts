/** Counts as a Gamma distribution, blanks and agreement; the figures printed are rows of the folder. */
import { expect, test } from 'vitest';
import { blandAltman, codeUncertainty, iso4406, subtractBlank } from '../../../src/codes/index.ts';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import compare from './compare.json' with { type: 'json' };

test('q counted is Gamma(q + 1): mean and variance 10 for 9 (JCGM 101:2008, 6.4.11)', () => {
  const counts = cumulativeCounts({ 4: 9 }, { volumeMl: 1 });
  const errors = { volume: 0, sizing: 0 };
  const cut = (confidence: number) => codeUncertainty(iso4406, counts, errors, { confidence }).columns[0];
  expect(cut(0.95)?.relative).toBeCloseTo(Math.sqrt(10) / 10, 12);
  // P(G > x) is the Poisson sum of 0 to 9: the 95 % limits of counting 9 or 10 (Garwood's upper limit for 9 is
  // 17.084803)
  expect(cut(0.95)?.high).toBeCloseTo(17.084803, 6);
  // and the lower one is Garwood's for 10
  expect(cut(0.95)?.low).toBeCloseTo(4.795389, 6);
});

test('subtractBlank decides by the binomial of both counts, by hand: 5 heads in 5 throws are 1/32', () => {
  const detected = (n: number, m: number) =>
    subtractBlank({ counted: n, volumeMl: 10 }, { counted: m, volumeMl: 10 }).detected;
  expect([detected(4, 0), detected(5, 0)]).toEqual([false, true]);
  // 7 or 8 of 8: 9/256; 6 or more of 7: 8/128
  expect([detected(6, 1), detected(7, 1)]).toEqual([false, true]);
  // of a blank of 100 the critical level is 23.3; in whole numbers, 125 or more of 225 are 5.47 %, 126 or more of 226
  // are 4.81 %
  expect([detected(125, 100), detected(126, 100)]).toEqual([false, true]);
  const heads = (least: number, throws: number) => {
    let [ways, sum] = [1n, 0n];
    for (let k = 0n; k <= BigInt(throws); k += 1n) {
      if (k >= BigInt(least)) sum += ways;
      ways = (ways * (BigInt(throws) - k)) / (k + 1n);
    }
    return Number((10000n * sum) / 2n ** BigInt(throws));
  };
  expect([heads(125, 225), heads(126, 226)]).toEqual([546, 480]);
});

// NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.2
test("the limits of a bias are Student's t, 2.120 at 16 degrees of freedom", () => {
  const { a, b } = (compare.find(({ id }) => id === 'pefr-limits-1.96') as (typeof compare)[0]).inputs as {
    a: number[];
    b: number[];
  };
  const found = blandAltman(a.map((line, i) => ({ line, laboratory: b[i] as number })));
  expect((found.biasHigh - found.bias) / (found.sd / Math.sqrt(17))).toBeCloseTo(2.12, 3);
  expect(found.bias - found.biasLow).toBeCloseTo(found.biasHigh - found.bias, 9);
});
