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
  estimateIngression,
  type FilterArrangement,
  filtrationRatios,
  flowToHold,
  flowToReach,
  steadyState,
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
  [
    'out_of_range',
    'arrangement.series',
    'a filtration ratio, up to 1e+60',
    () => combineFilters({ series: Array(300).fill(1e9) }),
  ],
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

  test('a target far below one particle is reached, with a little coming in', () => {
    const fed = { litres: 400, beta: 1000, perMl: 1000, ingressionPerMin: 1 };
    const litresPerMin = flowToReach(fed, 0.001, 60) as number;
    expect(cleanUp({ ...fed, litresPerMin }, 60)).toBeCloseTo(0.001, 12);
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

  test('filters nested 100 deep are combined, 101 are too deep', () => {
    const nested = (depth: number) => {
      let filter: FilterArrangement = 75;
      for (let i = 0; i < depth; i += 1) filter = { series: [filter] };
      return filter;
    };
    expect(combineFilters(nested(100))).toBe(75);
    expectRefused('out_of_range', 'arrangement', 'filters nested at most 100 deep', () => combineFilters(nested(101)));
  });

  test('at no time at all the count is that of the start, to the last digit', () => {
    for (const perMl of [0, 0.1, 5000])
      for (const beta of [1, 2, Infinity])
        expect(cleanUp({ litres: 3, litresPerMin: 7, beta, perMl, ingressionPerMin: 1e5 }, 0)).toBe(perMl);
  });

  test('without a filter the count rises by what comes in, in a straight line', () => {
    expect(cleanUp({ litres: 4, litresPerMin: 7, beta: 1, perMl: 100, ingressionPerMin: 8000 }, 5)).toBe(110);
    expect(timeToReach({ litres: 4, litresPerMin: 7, beta: 1, perMl: 100, ingressionPerMin: 8000 }, 99)).toBeNull();
    expect(timeToReach({ litres: 4, litresPerMin: 7, beta: 1, perMl: 100, ingressionPerMin: 8000 }, 100)).toBe(0);
  });

  test('a target within 1e-12 of the steady state is never reached, one further is', () => {
    const fed = { ...single, beta: 2, ingressionPerMin: 1e6 };
    const settled = steadyState(fed);
    expect(settled).toBe(20);
    expect(timeToReach(fed, settled * (1 + 9e-13))).toBeNull();
    expect(timeToReach(fed, settled * (1 + 1.2e-12))).toBeGreaterThan(10);
  });

  test('of sizes that arrive together the first is named; a limit that is the start is kept from the start', () => {
    const alike = { ...tank, counts: cumulativeCounts({ 4: 9000, 6: 9000 }), beta: [2, 2] };
    const band = (from: number, upTo: number | null) => ({ from, to: null, above: 0, upTo });
    const times = (...bands: ReturnType<typeof band>[]) => timeToReachCode(alike, { sizing: 'iso11171', bands });
    expect(times(band(4, 100), band(6, 100)).slowestSize).toBe(4);
    expect(times(band(6, 100), band(4, 100)).slowestSize).toBe(6);
    expect(times(band(4, 9000), band(6, 9000))).toMatchObject({ minutes: 0, heldUntil: null, slowestSize: null });
    expect(times(band(4, null), band(6, 100)).sizes.map(({ size }) => size)).toEqual([6]);
  });

  test('clean oil leaves its limit at a time that can be told, and a size that comes too late has none', () => {
    // 200 L at 100 L/min with a filter that stops half: the count of 4 µm goes from 0 to 20 per mL
    const counts = cumulativeCounts({ 4: 0.001, 6: 0.001 });
    const fed = { litres: 200, litresPerMin: 100, counts, beta: [2, 2], ingressionPerMin: [1e6, 1e6] };
    const bands = [{ from: 4, to: null, above: 0, upTo: 10 }];
    const { minutes, heldUntil } = timeToReachCode(fed, { sizing: 'iso11171', bands });
    // half the way to 20, by halves of ln 2 over a rate of 1/4 per minute
    expect(minutes).toBe(0);
    expect(heldUntil as number).toBeCloseTo(4 * Math.log(19.999 / 10), 9);
    const dirty = { ...fed, counts: cumulativeCounts({ 4: 0.001, 6: 0 }), ingressionPerMin: [1e6, 0] };
    expect(timeToReachCode(dirty, { sizing: 'iso11171', bands }).heldUntil).toBe(heldUntil);
  });

  test('a sizing of the target that is not that of the tank is refused', () => {
    const bands = [{ from: 4, to: null, above: 0, upTo: 10 }];
    expectRefused('sizing_not_convertible', 'target.sizing', "'iso11171'", () =>
      timeToReachCode(tank, { sizing: 'microscope', bands }),
    );
  });

  test('three readings are the fewest, and at one time they say nothing', () => {
    const at = (...minutes: number[]) => minutes.map((minute) => ({ minutes: minute, perMl: 100 }));
    const loop = { litres: 400, litresPerMin: 40, beta: 75 };
    expectRefused('too_few', 'readings', 'three readings or more', () => estimateIngression(loop, at(0, 1)));
    expectRefused('no_answer', 'readings', 'far enough apart', () => estimateIngression(loop, at(5, 5, 5)));
    expect(estimateIngression(loop, at(0, 10, 20)).scatterPerMl).toBeCloseTo(0, 9);
  });
});
