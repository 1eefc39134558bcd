import { expect, test } from 'vitest';
import { exp } from '../../../src/numeric/exponential.ts';
import { Exact, exactly, nextUp, stream, ulpsOff } from '../../doubles.ts';
import { some } from '../../volume.ts';

const inputs = some(100_000, 2000);

test('exp is at most 1 ulp off, from the smallest to the largest double, subnormal ones too', () => {
  const random = stream(1638);
  const xs = [-745.13, -708.4, 709.78, 0, nextUp(0), 1, -1, 0.34657359027997264, -0.34657359027997264];
  while (xs.length < inputs) {
    const kind = xs.length % 4;
    if (kind === 0) xs.push(-745 + random() * 1454.7);
    else if (kind === 1) xs.push(random() - 0.5);
    else if (kind === 2) xs.push((random() - 0.5) * 2 ** (-40 * random()));
    else xs.push((random() - 0.5) * 60);
  }
  let worst = 0;
  let where = 0;
  for (const x of xs) {
    const off = ulpsOff(exp(x), Exact.exp(exactly(x)));
    if (off > worst) [worst, where] = [off, x];
  }
  expect(worst, `exp(${where})`).toBeLessThanOrEqual(1);
  expect(worst).toBeGreaterThan(0.5);
});
