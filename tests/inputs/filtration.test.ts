/** Filtration at its edges: what is refused, by which parameter and with what words, and what just passes. */
import { describe, expect, test } from 'vitest';
import { cumulativeCounts } from '../../src/counts/index.ts';
import {
  betaToHold,
  betaToReach,
  cleanUp,
  cleanUpCounts,
  cleanUpCurve,
  combineFilters,
  filtrationRatios,
  flowToHold,
  flowToReach,
  timeToReach,
  timeToReachCode,
} from '../../src/filtration/index.ts';
import { expectRefused, type Refused } from './refused.ts';

const any = (value: unknown) => value as never;
const counts = cumulativeCounts({ 4: 9000, 6: 800 });
const tank = { litres: 400, litresPerMin: 40, counts, beta: [2, 10] };
const single = { litres: 400, litresPerMin: 100, perMl: 5000 };

const refused: readonly Refused[] = [
  ['missing_size', 'downstream.sizes', 'upstream too', () => filtrationRatios(counts, cumulativeCounts({ 14: 1 }))],
  ['out_of_range', 'arrangement.bypass', '0 to 1', () => combineFilters({ filter: 10, bypass: -0.1 })],
  ['out_of_range', 'arrangement.bypass', '0 to 1', () => combineFilters({ filter: 10, bypass: 1.1 })],
  ['out_of_range', 'arrangement.series', 'together is up to', () => combineFilters({ series: Array(300).fill(1e9) })],
  ['unknown_option', 'arrangement.x', '', () => combineFilters(any({ parallel: [], x: 1 }))],
  ['unknown_option', 'arrangement.x', '', () => combineFilters(any({ series: [], x: 1 }))],
  ['negative', 'tank.ingressionPerMin[1]', '0 or more', () => cleanUpCounts({ ...tank, ingressionPerMin: [5, -1] }, 1)],
  ['out_of_range', 'steps', '100000', () => cleanUpCurve(tank, 60, 100001)],
  [
    'missing_size',
    'tank.counts.sizes',
    'counts at 14 µm',
    () => timeToReachCode(tank, { sizing: 'iso11171', bands: [{ from: 14, to: null, above: 0, upTo: 10 }] }),
  ],
];

describe('refused', () => {
  test.each(refused)('%s %s, %s', expectRefused);
});

describe('at the edge', () => {
  test('a tank that is at its target needs no time, no filter and no flow', () => {
    expect(timeToReach({ ...single, beta: 2 }, 5000)).toBe(0);
    expect(betaToReach(single, 5000, 10)).toBe(1);
    expect(flowToReach({ litres: 400, perMl: 5000, beta: 2 }, 5000, 10)).toBe(0);
    expect(betaToReach({ ...single, ingressionPerMin: 0 }, 5000, 10)).toBe(1);
  });

  test('a clean tank with something coming in reaches a target by a filter', () => {
    const filling = { ...single, perMl: 0, ingressionPerMin: 1e7 };
    // without a filter 250 per mL after ten minutes, with one that lets nothing through 91.8
    expect(betaToReach(filling, 250, 10)).toBe(1);
    expect(betaToReach(filling, 91, 10)).toBeNull();
    const beta = betaToReach(filling, 150, 10) as number;
    expect(cleanUp({ ...filling, beta }, 10)).toBeCloseTo(150, 9);
  });

  test('nothing holds what comes in as fast as the flow takes it out', () => {
    const fed = { ...single, ingressionPerMin: 1000000 };
    expect(betaToHold(fed, 10)).toBeNull();
    expect(betaToHold(fed, 9.9)).toBeNull();
    expect(betaToHold(fed, 10.1)).toBeGreaterThan(100);
    expect(flowToHold({ litres: 400, beta: 1, perMl: 5000, ingressionPerMin: 1000000 }, 20)).toBeNull();
  });

  test('a filter that lets nothing through, and one beside it', () => {
    const flow = (filter: number) => ({ litresPerMin: 10, filter });
    expect(combineFilters({ parallel: [flow(Infinity), flow(Infinity)] })).toBe(Infinity);
    expect(combineFilters({ parallel: [flow(Infinity), flow(4)] })).toBe(8);
    expect(combineFilters({ filter: Infinity, bypass: 0 })).toBe(Infinity);
    expect(combineFilters({ filter: Infinity, bypass: 0.25 })).toBe(4);
  });
});
