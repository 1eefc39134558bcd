/** What pages and doc comments say of few pairs, blanks, two repeats and a first look, measured. */
import { expect, test } from 'vitest';
import { blandAltman, detectionLimits, indexOfDispersion } from '../../../src/codes/index.ts';
import { fieldsForPrecision } from '../../../src/counts/index.ts';
import { normalOf, poissonOf, shares } from '../../chance.ts';
import { some } from '../../volume.ts';

const runs = some(20000, 4000);

/** In per cent: how often a try comes out true. */
function often(seed: number, tried: (share: () => number) => boolean): number {
  const share = shares(seed);
  let found = 0;
  for (let run = 0; run < runs; run += 1) if (tried(share)) found += 1;
  return (100 * found) / runs;
}

/** Five standard errors of a share, and half a per cent for the rounding of what is stated. */
const room = (stated: number) => 0.5 + 5 * Math.sqrt((stated * (100 - stated)) / runs);

test.each([
  [3, 76],
  [6, 87],
  [10, 91],
  [30, 94],
])('limits of agreement of %d pairs hold the next difference in %d of 100', (pairs, stated) => {
  const found = often(pairs, (share) => {
    const known = Array.from({ length: pairs }, () => ({ line: normalOf(share), laboratory: 0 }));
    const { low, high } = blandAltman(known);
    const next = normalOf(share);
    return low <= next && next <= high;
  });
  expect(Math.abs(found - stated)).toBeLessThan(room(stated));
});

test.each([
  [2, 10, 16, 92],
  [10, 10, 9, 93],
  [2, 1, 15, 88],
  [30, 1, 7, 92],
])('a blank of %d in %d mL for 10 mL: passed in %d of 100, detected in %d', (blank, volumeMl, none, detected) => {
  const expected = blank * (10 / volumeMl);
  const true95 = 1.6449 ** 2 + 2 * 1.6449 * Math.sqrt(expected * (1 + 10 / volumeMl));
  const above = (content: number) =>
    often(blank + volumeMl, (share) => {
      const counted = poissonOf(blank, share);
      const net = poissonOf(expected + content, share) - counted * (10 / volumeMl);
      return net > detectionLimits({ counted, volumeMl }, 10).critical;
    });
  expect(Math.abs(above(0) - none)).toBeLessThan(room(none));
  expect(Math.abs(above(true95) - detected)).toBeLessThan(room(detected));
});

test.each([
  [2, 2, 20],
  [2, 5, 13],
  [2, 20, 6],
  [4, 5, 5],
])('%d counts of a mean of %d: pLess below 0.05 in %d of 100', (counts, mean, stated) => {
  const found = often(mean, (share) => {
    const counted = Array.from({ length: counts }, () => poissonOf(mean, share));
    return counted.some((one) => one > 0) && indexOfDispersion(counted).pLess < 0.05;
  });
  expect(Math.abs(found - stated)).toBeLessThan(room(stated) + 0.5);
});

test('fields by a first look bring enough particles in little more than half of all cases', () => {
  const found = often(1, (share) => {
    const seen = poissonOf(41, share);
    return poissonOf((41 / 20) * fieldsForPrecision(seen, 20, 0.1), share) >= 100;
  });
  expect(Math.abs(found - 54)).toBeLessThan(room(54));
});
