/** How often the limits of an ingression hold it: simulated, with another generator than the figures of the pages. */
import { expect, test } from 'vitest';
import { cleanUp, estimateIngression } from '../../../src/filtration/index.ts';
import { normalOf, poissonOf, shares } from '../../chance.ts';
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
    if ((low as number) <= tank.ingressionPerMin && tank.ingressionPerMin <= (high as number)) within += 1;
  }
  return within / runs;
}

test.each([3, 4, 8, 20])('limits of %d independent readings hold 95 of 100', (readings) => {
  // four standard errors of the share
  expect(Math.abs(held(readings, 0, readings) - 0.95)).toBeLessThan(4 * Math.sqrt((0.95 * 0.05) / runs));
});

test('readings without scatter have no limits: no particle counted is no certainty of none', () => {
  const loop = { litres: 400, litresPerMin: 40, beta: 10 };
  const of = (...perMl: number[]) =>
    estimateIngression(
      loop,
      perMl.map((count, i) => ({ minutes: 60 * i, perMl: count })),
    );
  const none = { standardError: null, low: null, high: null };
  expect(of(0, 0, 0, 0)).toMatchObject({ ingressionPerMin: 0, scatterPerMl: 0, ...none });
  expect(of(0.1, 0.1, 0.1)).toMatchObject(none);
  const straight = [100, 130, 160].map((perMl, i) => ({ minutes: 60 * i, perMl }));
  expect(estimateIngression({ ...loop, beta: 1 }, straight)).toMatchObject(none);
  expect(of(0, 0, 0, 0.1).high).toBeGreaterThan(0);
});

test('of few particles the limits hold as seldom as the doc comment says', () => {
  const loop = { litres: 400, litresPerMin: 40, beta: 10 };
  const rate = (expected: number, readings: number) => {
    const share = shares(expected * 10 + readings);
    let [within, given] = [0, 0];
    for (let run = 0; run < runs; run += 1) {
      const counts = Array.from({ length: readings }, (_unused, i) => {
        return { minutes: 30 * i, perMl: poissonOf(expected, share) / 10 };
      });
      const { low, high } = estimateIngression(loop, counts);
      if (low === null || high === null) continue;
      given += 1;
      // what keeps the tank at so many: all that comes in is held back at nine of ten of the flow
      const truth = (expected / 10) * 1000 * 40 * 0.9;
      if (low <= truth && truth <= high) within += 1;
    }
    return within / given;
  };
  expect(Math.abs(rate(20, 5) - 0.95)).toBeLessThan(0.03);
  expect(Math.abs(rate(2, 3) - 0.9)).toBeLessThan(0.035);
  expect(Math.abs(rate(0.5, 3) - 0.766)).toBeLessThan(0.06);
});

test('limits of readings that resemble each other hold as seldom as the page says', () => {
  expect(held(8, 0.9, 1)).toBeGreaterThan(0.33);
  expect(held(8, 0.9, 1)).toBeLessThan(0.48);
});
