import { expect, test } from 'vitest';
import { chordLog2 } from '../../../src/numeric/powersOfTwo.ts';
import { stream } from '../../doubles.ts';

test('the chord lies below the logarithm to base 2, and by less than 0.0861', () => {
  const random = stream(1638);
  const xs = [5e-324, 2.2250738585072014e-308, 1, 2, 1.5, 1.7976931348623157e308];
  while (xs.length < 5000) xs.push(2 ** ((random() - 0.5) * 2040));
  for (const x of xs) {
    const below = Math.log2(x) - chordLog2(x);
    expect(below, `${x}`).toBeGreaterThanOrEqual(-1e-12);
    expect(below, `${x}`).toBeLessThan(0.0861);
  }
  expect([1, 2, 1.5, 0.75].map(chordLog2)).toEqual([0, 1, 0.5, -0.5]);
});
