import { describe, expect, test } from 'vitest';
import { classify, guaranteeingCode, iso4406, limitsOf, meets, nas1638 } from '../../../src/codes/index.ts';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import {
  betaOfEfficiency,
  betaToHold,
  betaToReach,
  cleanUp,
  cleanUpCounts,
  cleanUpCurve,
  combineFilters,
  efficiencyOfBeta,
  estimateIngression,
  type FilterArrangement,
  filtrationRatios,
  flowToHold,
  flowToReach,
  isMotescaleError,
  shareRemaining,
  steadyState,
  steadyStateCounts,
  timeForTurnovers,
  timeToReach,
  timeToReachCode,
  turnovers,
} from '../../../src/filtration/index.ts';
import { usGallonsToLitres } from '../../../src/units.ts';
import beta from './beta.json' with { type: 'json' };
import computed from './computed.json' with { type: 'json' };

/** So close to a filter that lets nothing pass that a double cannot tell. */
const perfect = Infinity;

test.each(beta.rows)('beta $beta comes back from its efficiency', (row) => {
  expect(betaOfEfficiency(efficiencyOfBeta(row.beta)) / row.beta).toBeCloseTo(1, 12);
});

describe('computed beside the library', () => {
  test.each(computed.turnovers)('$turnovers turnovers', (row) => {
    const removed = (ratio: number) => (100 * (1 - shareRemaining(row.turnovers, ratio))).toFixed(3);
    expect(removed(perfect)).toBe(row.removedPercent.perfect.toFixed(3));
    expect(removed(2)).toBe(row.removedPercent['2'].toFixed(3));
    expect(removed(10)).toBe(row.removedPercent['10'].toFixed(3));
  });

  test.each(computed.remaining)('$turnovers turnovers at beta $beta', (row) => {
    expect(shareRemaining(row.turnovers, row.beta)).toBeCloseTo(row.share, 8);
  });

  test.each(computed.steadyState)('steady state at beta $beta', (row) => {
    const { upstream, downstream, ...loop } = row;
    const settled = steadyState({ ...loop, litres: 1, perMl: 0 });
    expect(settled).toBeCloseTo(upstream, 6);
    expect(settled / row.beta).toBeCloseTo(downstream, 6);
  });

  test('seven turnovers of 30 US gal at 5 US gal/min', () => {
    const { usGallons, usGallonsPerMin, minutes } = computed.sevenTurnovers;
    const loop = { litres: usGallonsToLitres(usGallons), litresPerMin: usGallonsToLitres(usGallonsPerMin) };
    expect(timeForTurnovers(loop, 7)).toBeCloseTo(minutes, 12);
    expect(turnovers(loop, minutes)).toBeCloseTo(7, 12);
  });

  test('the equation by small steps, as a second opinion', () => {
    const tank = { litres: 400, litresPerMin: 40, beta: 10, perMl: 5000, ingressionPerMin: 2000000 };
    const slope = (perMl: number) => (tank.ingressionPerMin / 1000 - tank.litresPerMin * 0.9 * perMl) / tank.litres;
    let perMl = tank.perMl;
    const step = 0.01;
    for (let i = 0; i < 3000; i += 1) {
      const middle = perMl + (slope(perMl) * step) / 2;
      perMl += slope(middle) * step;
    }
    expect(cleanUp(tank, 30) / perMl).toBeCloseTo(1, 6);
  });
});

describe('edges', () => {
  const tank = { litres: 400, litresPerMin: 40, beta: 10, perMl: 5000, ingressionPerMin: 2000000 };

  test('a filter that lets all pass: the count rises by the ingression', () => {
    expect(cleanUp({ ...tank, beta: 1 }, 60)).toBe(5300);
    expect(timeToReach({ ...tank, beta: 1 }, 4000)).toBeNull();
    expect(steadyState({ ...tank, beta: 1, ingressionPerMin: 0 })).toBe(5000);
  });

  test('never is null, already is 0', () => {
    expect(timeToReach(tank, 5000)).toBe(0);
    expect(timeToReach(tank, steadyState(tank))).toBeNull();
    expect(timeToReach({ ...tank, ingressionPerMin: 0 }, 0)).toBeNull();
  });

  test('what is needed where nothing or nothing possible is needed', () => {
    expect(betaToReach(tank, 10000, 10)).toBe(1);
    expect(flowToReach(tank, 10000, 10)).toBe(0);
    expect(flowToReach({ ...tank, beta: 1 }, 100, 10)).toBeNull();
    expect(flowToHold({ ...tank, beta: 1 }, 100)).toBeNull();
    expect(betaToHold(tank, 50)).toBeNull();
  });

  test('ratios only at common sizes', () => {
    const upstream = cumulativeCounts({ 4: 1600, 6: 400 });
    expect(filtrationRatios(upstream, cumulativeCounts({ 6: 50, 21: 1 }))).toEqual([{ size: 6, beta: 8 }]);
  });
});

describe('time to reach a code', () => {
  const counts = cumulativeCounts({ 4: 9000, 6: 2400, 14: 160 });
  const tank = { litres: 400, litresPerMin: 40, counts, beta: [20, 75, 1000] };

  test('the slowest size decides', () => {
    const time = timeToReachCode(tank, limitsOf(iso4406, '16/16/13'));
    expect(time.slowestSize).toBe(4);
    expect(time.minutes).toBe(timeToReach({ ...tank, beta: 20, perMl: 9000 }, 640));
    expect(time.sizes.map(({ size, upTo }) => [size, upTo])).toEqual([
      [4, 640],
      [6, 640],
      [14, 80],
    ]);
    expect(time.heldUntil).toBeNull();
  });

  test('few particles that keep a limit only as counted are told, by the upper limit of their count', () => {
    const unsure = (four: number, six: number, fourteen: number, more: object, code = '13/8/5') => {
      const few = cumulativeCounts({ 4: four, 6: six, 14: fourteen }, more);
      return timeToReachCode({ ...tank, counts: few }, limitsOf(iso4406, code));
    };
    expect(unsure(30, 0, 0, { volumeMl: 1 })).toMatchObject({ minutes: 0, uncertain: [6, 14] });
    // of none the upper limit is 3.69 particles: against 2.5 and 0.32 per mL it takes 1.5 and 11.6 mL (Garwood 1936)
    expect(unsure(30, 0, 0, { volumeMl: 2 }).uncertain).toEqual([14]);
    expect(unsure(30, 0, 0, { volumeMl: 2, dilution: 2 }).uncertain).toEqual([6, 14]);
    expect(unsure(300, 0, 0, { volumeMl: 12 }).uncertain).toEqual([]);
    expect(unsure(30, 0, 0, {})).toMatchObject({ minutes: 0, uncertain: [] });
    // what is beyond its limit as counted is no doubt, nor are 20 particles
    expect(unsure(19, 19, 0, { volumeMl: 1 }, '12/8/-').uncertain).toEqual([]);
    expect(unsure(20, 19, 0, { volumeMl: 1 }, '12/12/-').uncertain).toEqual([]);
    expect(unsure(81, 0, 0, { volumeMl: 1 })).toMatchObject({ slowestSize: 4, uncertain: [6, 14] });
    const sizes = { 6: 30, 14: 12, 21: 0, 38: 0, 70: 0 };
    const range = { ...tank, counts: cumulativeCounts(sizes, { volumeMl: 10 }), beta: [75, 1000, 1000, 1000, 1000] };
    const { minutes, uncertain } = timeToReachCode(range, limitsOf(nas1638, '3', 'iso11171'));
    expect([minutes, uncertain]).toEqual([0, meets(nas1638, '3', range.counts).uncertain.map((_, i) => [38, 70][i])]);
  });

  test('met from the start, and no limit at a size marked -', () => {
    const time = timeToReachCode(tank, limitsOf(iso4406, '-/20/17'));
    expect(time).toMatchObject({ minutes: 0, heldUntil: null, slowestSize: null });
    expect(time.sizes).toHaveLength(2);
    expect(timeToReachCode(tank, limitsOf(iso4406, '>28/20/17')).sizes).toHaveLength(2);
  });

  test('never, where one size settles above its limit', () => {
    const time = timeToReachCode({ ...tank, ingressionPerMin: [3e7, 1e3, 10] }, limitsOf(iso4406, '16/14/11'));
    expect(time).toMatchObject({ minutes: null, slowestSize: 4 });
  });

  test('reached, but not held: a size that starts clean is carried above its limit by ingression', () => {
    const clean = cumulativeCounts({ 4: 2500, 6: 100, 14: 1 });
    const dirtied = { ...tank, counts: clean, beta: [20, 20, 20], ingressionPerMin: [2e7, 2e7, 1e3] };
    const time = timeToReachCode(dirtied, limitsOf(iso4406, '18/16/13'));
    expect(time.minutes).toBe(0);
    expect(time.heldUntil).toBeNull();
    const tighter = timeToReachCode(dirtied, limitsOf(iso4406, '18/15/13'));
    expect(tighter.minutes).toBe(0);
    const single = { ...tank, beta: 20, perMl: 100, ingressionPerMin: 2e7 };
    expect(cleanUp(single, tighter.heldUntil as number)).toBeCloseTo(320, 9);
    // 4 µm(c) needs longer than 6 µm(c) can wait
    expect(timeToReachCode(dirtied, limitsOf(iso4406, '17/15/13'))).toMatchObject({ minutes: null, slowestSize: 6 });
  });

  test('filter off: ingression alone fills the room that is left', () => {
    const off = { ...tank, beta: [1, 1, 1], ingressionPerMin: [4e7, 0, 0] };
    expect(timeToReachCode(off, limitsOf(iso4406, '20/20/17')).heldUntil).toBe(10);
  });
});

describe('a filter that lets nothing through', () => {
  test('is bounded by its bypass and by what stands beside it, and bounds what it is in series with', () => {
    const half = (filter: number) => ({ litresPerMin: 30, filter });
    expect(combineFilters(Infinity)).toBe(Infinity);
    expect(combineFilters({ filter: Infinity, bypass: 0.1 })).toBe(10);
    expect(combineFilters({ filter: Infinity, bypass: 0 })).toBe(Infinity);
    expect(combineFilters({ filter: Infinity, bypass: 1 })).toBe(1);
    expect(combineFilters({ parallel: [half(Infinity), half(2)] })).toBe(4);
    expect(combineFilters({ parallel: [half(Infinity), half(Infinity)] })).toBe(Infinity);
    expect(combineFilters({ series: [2, Infinity] })).toBe(Infinity);
    expect(combineFilters({ series: [1e40, 1e40, Infinity] })).toBe(Infinity);
  });

  test('what comes out can be asked of a tank', () => {
    const tank = { litres: 400, litresPerMin: 40, perMl: 5000 };
    for (const beta of [combineFilters({ series: [1e20, 1e30] }), combineFilters({ series: [2, Infinity] })]) {
      expect(cleanUp({ ...tank, beta }, 10)).toBeCloseTo(5000 * Math.exp(-1), 9);
    }
  });
});

const nested = (depth: number): FilterArrangement => (depth === 0 ? 2 : { series: [nested(depth - 1)] });
const endless: { series: FilterArrangement[] } = { series: [] };
endless.series.push(endless);

test('filters nest a hundred deep', () => {
  expect(combineFilters(nested(100))).toBe(2);
});

describe('every error', () => {
  const tank = { litres: 400, litresPerMin: 40, beta: 10, perMl: 5000, ingressionPerMin: 1000 };
  const counts = cumulativeCounts({ 4: 9000, 6: 2400 });
  const bySize = { litres: 400, litresPerMin: 40, counts, beta: [2, 10] };

  test.each<[string, string, () => unknown]>([
    ['out_of_range', 'beta', () => efficiencyOfBeta(0.99)],
    ['wrong_type', 'beta', () => efficiencyOfBeta('200' as unknown as number)],
    ['not_a_number', 'beta', () => efficiencyOfBeta(Number.NaN)],
    ['out_of_range', 'efficiency', () => betaOfEfficiency(1)],
    ['out_of_range', 'efficiency', () => betaOfEfficiency(-0.1)],
    ['sizing_not_convertible', 'downstream.sizing', () => filtrationRatios(counts, { ...counts, sizing: 'iso4402' })],
    ['missing_size', 'downstream.sizes', () => filtrationRatios(counts, cumulativeCounts({ 14: 3 }))],
    ['unknown_option', 'arrangement', () => combineFilters({} as unknown as number)],
    ['wrong_type', 'arrangement', () => combineFilters('2' as unknown as number)],
    ['empty', 'arrangement.series', () => combineFilters({ series: [] })],
    ['out_of_range', 'arrangement.series[1]', () => combineFilters({ series: [2, 0.5] })],
    ['out_of_range', 'arrangement.series', () => combineFilters({ series: [1e60, 1e60, 1e60, 1e60, 1e60, 1e60] })],
    ['out_of_range', 'arrangement.bypass', () => combineFilters({ filter: 2, bypass: 1.1 })],
    ['out_of_range', 'arrangement.bypass', () => combineFilters({ filter: Infinity, bypass: 1e-70 })],
    ['out_of_range', 'arrangement.bypass', () => combineFilters({ filter: Infinity, bypass: 5e-324 })],
    ['out_of_range', 'arrangement.series', () => combineFilters({ series: [1e40, 1e40] })],
    [
      'out_of_range',
      'arrangement.parallel',
      () =>
        combineFilters({
          parallel: [
            { litresPerMin: 1, filter: Infinity },
            { litresPerMin: 1e-10, filter: 1e60 },
          ],
        }),
    ],
    ['wrong_type', 'arrangement.parallel[0]', () => combineFilters({ parallel: new Array(1) })],
    ['wrong_type', 'arrangement.series[0]', () => combineFilters({ series: new Array(2) })],
    ['out_of_range', 'arrangement', () => combineFilters(nested(101))],
    ['out_of_range', 'arrangement', () => combineFilters(endless)],
    ['wrong_type', 'loop', () => estimateIngression(null as never, [])],
    ['out_of_range', 'loop.litres', () => estimateIngression({ ...tank, litres: 0 }, [])],
    ['wrong_type', 'tank', () => betaToHold(null as never, 20)],
    ['wrong_type', 'tank', () => flowToHold(undefined as never, 20)],
    ['wrong_type', 'tank', () => betaToReach(7 as never, 20, 10)],
    ['wrong_type', 'tank', () => flowToReach(undefined as never, 20, 10)],
    [
      'out_of_range',
      'arrangement.parallel[0].litresPerMin',
      () => combineFilters({ parallel: [{ litresPerMin: 0, filter: 2 }] }),
    ],
    ['out_of_range', 'tank.litres', () => cleanUp({ ...tank, litres: 0 }, 1)],
    ['negative', 'tank.ingressionPerMin', () => cleanUp({ ...tank, ingressionPerMin: -1 }, 1)],
    ['negative', 'minutes', () => cleanUp(tank, -1)],
    ['no_answer', 'tank.beta', () => steadyState({ ...tank, beta: 1 })],
    ['no_answer', 'tank.beta[0]', () => steadyStateCounts({ ...bySize, beta: [1, 1], ingressionPerMin: [1, 1] })],
    ['length_mismatch', 'tank.beta', () => cleanUpCounts({ ...bySize, beta: [2] }, 1)],
    ['out_of_range', 'tank.beta[1]', () => cleanUpCounts({ ...bySize, beta: [10, 2] }, 1)],
    [
      'counts_rise_with_size',
      'tank.ingressionPerMin[1]',
      () => cleanUpCounts({ ...bySize, ingressionPerMin: [1, 2] }, 1),
    ],
    ['missing_size', 'tank.counts.sizes', () => timeToReachCode(bySize, limitsOf(iso4406, '18/16/13'))],
    ['missing_size', 'tank.counts.sizes', () => timeToReachCode(bySize, limitsOf(nas1638, '6', 'iso11171'))],
    [
      'sizing_not_convertible',
      'target.sizing',
      () => timeToReachCode({ ...bySize, counts: { ...counts, sizing: 'microscope' } }, limitsOf(iso4406, '18/16/13')),
    ],
    ['empty', 'target.bands', () => timeToReachCode(bySize, { sizing: 'iso11171', bands: [] })],
    ['out_of_range', 'minutes', () => cleanUpCurve(bySize, 0)],
    ['not_an_integer', 'steps', () => cleanUpCurve(bySize, 1, 1.5)],
    ['out_of_range', 'perMl', () => betaToHold(tank, 0)],
    ['no_answer', 'tank.ingressionPerMin', () => betaToHold({ ...tank, ingressionPerMin: 0 }, 10)],
    ['no_answer', 'tank.ingressionPerMin', () => flowToHold({ ...tank, ingressionPerMin: 0 }, 10)],
    ['out_of_range', 'minutes', () => betaToReach(tank, 100, 0)],
    ['out_of_range', 'perMl', () => flowToReach(tank, 0, 10)],
    ['out_of_range', 'loop.litres', () => turnovers({ litres: 0, litresPerMin: 1 }, 1)],
    ['negative', 'count', () => timeForTurnovers(tank, -1)],
    ['out_of_range', 'beta', () => shareRemaining(1, 0)],
    ['wrong_type', 'readings[0]', () => estimateIngression(tank, new Array(3))],
    ['wrong_type', 'target.bands[0]', () => timeToReachCode(bySize, { sizing: 'iso11171', bands: new Array(2) })],
    ['too_few', 'readings', () => estimateIngression(tank, [{ minutes: 0, perMl: 1 }])],
    [
      'no_answer',
      'readings',
      () =>
        estimateIngression(
          tank,
          [1, 2, 3].map((perMl) => ({ minutes: 5, perMl })),
        ),
    ],
  ])('%s on %s', (code, parameter, call) => {
    let thrown: unknown;
    try {
      call();
    } catch (error) {
      thrown = error;
    }
    expect(isMotescaleError(thrown)).toBe(true);
    expect(thrown).toMatchObject({ code, parameter });
  });
});

test('a class per range, and the code that guarantees it: the class itself is reached no later', () => {
  const counts = cumulativeCounts({ 4: 900, 6: 300, 14: 30, 21: 25, 38: 10, 70: 1 });
  const tank = { litres: 400, litresPerMin: 40, counts, beta: [20, 75, 1000, 1000, 1000, 1000] };
  const classOf = limitsOf(nas1638, '7', 'iso11171');
  const target = limitsOf(iso4406, guaranteeingCode(nas1638, '7').code);
  expect(timeToReachCode(tank, target).minutes).toBe(0);
  const above = classOf.bands.filter(({ from }) => from > 14).map((band) => ({ ...band, to: null }));
  const { minutes, slowestSize } = timeToReachCode(tank, { ...target, bands: [...target.bands, ...above] });
  // by hand: 10 to 1.80 per mL at 38 µm, ln(10 / 1.8) / (0.1 x 0.999) = 17.165
  expect(minutes).toBeCloseTo(17.165, 3);
  expect(slowestSize).toBe(38);
  // it errs to the safe side: the class is kept then, and has been for a while
  expect(classify(nas1638, cleanUpCounts(tank, minutes as number)).text).toMatch(/^[0-7]$/);
  // by hand: 10 - 1 per mL from 38 to 70 µm to 1.80, ln(9 / 1.8) / (0.1 x 0.999) = 16.110
  expect(timeToReachCode(tank, classOf)).toMatchObject({ minutes: expect.closeTo(16.11, 2), slowestSize: 38 });
});
