/** What pages and doc comments say of few pairs, blanks, two repeats and a first look, measured. */
import { expect, test } from 'vitest';
import { blandAltman, detectionLimits, indexOfDispersion } from '../../../src/codes/index.ts';
import { fieldsForPrecision } from '../../../src/counts/index.ts';
import { normalOf, poissonOf, shares } from '../../chance.ts';
import { some } from '../../volume.ts';

const runs = some(20000, 1000);

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
  [2, 10, 16, 85, 96],
  [10, 10, 9, 92, 97],
  [2, 1, 15, 77, 99],
  [30, 1, 7, 92, 96],
])('a blank of %d in %d mL for 10 mL: passed in %d of 100, detected in %d, by one blank in %d', (...row) => {
  const [blank, volumeMl, none, detected, byOne] = row;
  const expected = blank * (10 / volumeMl);
  const limits = (counted: number) => detectionLimits({ counted, volumeMl }, 10);
  const above = (content: (planned: number) => number, one = false) =>
    often(blank + volumeMl, (share) => {
      const planned = poissonOf(blank, share);
      const counted = one ? planned : poissonOf(blank, share);
      const net = poissonOf(expected + content(planned), share) - counted * (10 / volumeMl);
      return net > limits(counted).critical;
    });
  expect(Math.abs(above(() => 0) - none)).toBeLessThan(room(none));
  expect(Math.abs(above((planned) => limits(planned).detection) - detected)).toBeLessThan(room(detected));
  expect(Math.abs(above((planned) => limits(planned).detection, true) - byOne)).toBeLessThan(room(byOne));
});

test.each([
  [0.5, 6, 77.8],
  [0.5, 30, 73.8],
  [0.9, 20, 31.3],
])('of differences with a correlation of %d the limits of the bias of %d pairs hold it in %d of 100', (...row) => {
  const [correlation, pairs, stated] = row;
  const found = often(pairs, (share) => {
    let off = normalOf(share);
    const known = Array.from({ length: pairs }, () => {
      off = correlation * off + Math.sqrt(1 - correlation * correlation) * normalOf(share);
      return { line: off, laboratory: 0 };
    });
    const { biasLow, biasHigh, independence } = blandAltman(known);
    expect(independence).toBe('assumed');
    return biasLow <= 0 && biasHigh >= 0;
  });
  expect(Math.abs(found - stated)).toBeLessThan(room(stated));
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
