/** How often the limits of an ingression hold it: simulated, with another generator than the figures of the pages. */
import { expect, test } from 'vitest';
import { cleanUp, estimateIngression } from '../../../src/filtration/index.ts';
import { normalOf, shares } from '../../chance.ts';
import { some } from '../../volume.ts';

const runs = some(8000, 1000);
const tank = { litres: 400, litresPerMin: 20, beta: 5, perMl: 300, ingressionPerMin: 300000 };

/** The share of trials whose limits hold the ingression; each reading resembles the last by the correlation. */
function held(readings: number, correlation: number, seed: number): number {
  const share = shares(seed);
  let within = 0;
  for (let run = 0; run < runs; run += 1) {
    let off = normalOf(share);
    const given = Array.from({ length: readings }, (_unused, i) => {
      if (i > 0) off = correlation * off + Math.sqrt(1 - correlation * correlation) * normalOf(share);
      const minutes = (60 * i) / (readings - 1);
      return { minutes, perMl: cleanUp(tank, minutes) + 6 * off };
    });
    const { low, high } = estimateIngression(tank, given);
    if (low <= tank.ingressionPerMin && tank.ingressionPerMin <= high) within += 1;
  }
  return within / runs;
}

test.each([3, 4, 8, 20])('limits of %d independent readings hold 95 of 100', (readings) => {
  // four standard errors of the share
  expect(Math.abs(held(readings, 0, readings) - 0.95)).toBeLessThan(4 * Math.sqrt((0.95 * 0.05) / runs));
});

test('limits of readings that resemble each other hold as seldom as the page says', () => {
  expect(held(8, 0.9, 1)).toBeGreaterThan(0.33);
  expect(held(8, 0.9, 1)).toBeLessThan(0.48);
});
