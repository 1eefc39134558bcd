import { expect, test } from 'vitest';
import { log } from '../../../src/numeric/logarithm.ts';
import { Exact, exactly, nextDown, nextUp, stream, ulpsOff } from '../../doubles.ts';
import { some } from '../../volume.ts';

const inputs = some(100_000, 2000);

test('log is at most 1 ulp off, over all magnitudes, near 1 and at the extremes', () => {
  const random = stream(4406);
  const xs = [
    5e-324,
    2.2250738585072014e-308,
    nextDown(1),
    1,
    nextUp(1),
    Math.SQRT1_2,
    Math.SQRT2,
    1.7976931348623157e308,
  ];
  while (xs.length < inputs) {
    const kind = xs.length % 4;
    if (kind === 0) xs.push(2 ** ((random() - 0.5) * 2040));
    else if (kind === 1) xs.push(0.5 + random());
    else if (kind === 2) xs.push(1 + (random() - 0.5) * 2 ** (-40 * random()));
    else xs.push(1e7 * random() + 1e-9);
  }
  let worst = 0;
  let where = 0;
  for (const x of xs) {
    const off = x === 1 ? Math.abs(log(x)) : ulpsOff(log(x), Exact.ln(exactly(x)));
    if (off > worst) [worst, where] = [off, x];
  }
  expect(worst, `log(${where})`).toBeLessThanOrEqual(1);
  expect(worst).toBeGreaterThan(0.5);
});

test('log of a quotient that has become 0 ends, and is no number', () => {
  expect(log(0)).toBe(-Infinity);
  expect(log(-0)).toBe(-Infinity);
});
