/** Checks of what only the readings before can tell, on a memory written by hand: each bound and the figure told. */
import { describe, expect, test } from 'vitest';
import { as4059Cumulative, as4059Differential, type ClassTable, classify, iso4406 } from '../../../src/codes/index.ts';
import { problemsOf } from '../../../src/errors.ts';
import {
  calibrationOverdue,
  channelsEqual,
  clockAhead,
  pressureHigh,
  viscosityOffLine,
} from '../../../src/reading/assess/beyond.ts';
import type { Check } from '../../../src/reading/assess/check.ts';
import { codeDisagrees, codeUnreadable } from '../../../src/reading/assess/code.ts';
import {
  clockBackwards,
  flowPulsating,
  sensorStuck,
  standingOil,
  startUp,
} from '../../../src/reading/assess/course.ts';
import { flatDistribution } from '../../../src/reading/assess/distribution.ts';
import { noParticles } from '../../../src/reading/assess/empty.ts';
import { temperature, unflushed, viscosity } from '../../../src/reading/assess/instrument.ts';
import { coincidence, countMissing, fewParticles } from '../../../src/reading/assess/particles.ts';
import { repeatChances, stepsShown } from '../../../src/reading/assess/repeatChance.ts';
import { channelsStuck, valuesStuck } from '../../../src/reading/assess/stuck.ts';
import { freeWater } from '../../../src/reading/assess/water.ts';
import { assessReading, type OwnReadingLimits, type Reading } from '../../../src/reading/index.ts';
import { wholeLimits } from '../../../src/reading/ownLimits.ts';
import { advanceRepeats, noRepeats, type Repeats } from '../../../src/reading/remembered/repeats.ts';
import { runFor } from '../../../src/reading/remembered/runFor.ts';

const day = 86400000;
const counts = {
  ...{ sizing: 'iso11171' as const, sizes: [4, 6, 14], perMl: [1890.1, 402, 33] },
  ...{ counted: [18901, 4020, 330], volumeMl: 10 },
};
/** What a check finds: null, or value and limit of each finding, and its sizes where it has some. */
function told(check: Check, reading: Reading, repeats: Partial<Repeats> | null, own: OwnReadingLimits = {}) {
  const memory = repeats === null ? null : { ...noRepeats, known: 99999, ...repeats };
  const found = check.find({ reading, limits: wholeLimits(own), repeats: memory, tables: [], needed: [] });
  return (
    found?.map(({ value, limit, sizes }) => (sizes === undefined ? [value, limit] : [value, limit, sizes])) ?? null
  );
}
/** Of n particles one number comes again with a chance of at most 1 / sqrt(2 pi n). */
const again = (...particles: number[]) => particles.reduce((sum, n) => sum - Math.log(Math.sqrt(2 * Math.PI * n)), 0);
const runOf = (chance: number, log: number) => 1 + Math.ceil(Math.log(chance) / log);

describe('all counts stuck', () => {
  const of = (run: number, known = run, own = {}, reading: Reading = { counts }) =>
    told(valuesStuck, reading, { known, runs: [run, run, run] }, own);
  const limit = runOf(1e-8, again(14881, 3690, 330));

  test('from the run that chance hardly makes; before it, unchecked while so few readings are known', () => {
    expect(limit).toBe(3);
    expect(of(limit)).toEqual([[limit, limit]]);
    expect(of(limit + 9)).toEqual([[limit + 9, limit]]);
    expect(of(limit - 1)).toBeNull();
    expect(of(limit - 1, limit)).toEqual([]);
    expect(of(4, 4, { stuckChance: 1e-30 })).toBeNull();
    expect(of(runOf(1e-30, again(14881, 3690, 330)), 99, { stuckChance: 1e-30 })).toHaveLength(1);
  });

  test('is asked of two readings or more with counts, where a limit is set', () => {
    expect(of(1, 1)).toBeNull();
    expect(told(valuesStuck, { counts }, { known: 2, runs: [2, 1, 2] })).toEqual([]);
    expect(of(9, 9, { stuckChance: null })).toBeNull();
    expect(told(valuesStuck, { celsius: 40 }, { runs: [9] })).toBeNull();
    expect(told(valuesStuck, { counts }, null)).toBeNull();
  });

  test('says nothing of counts that hardly ever change, however often they come', () => {
    const shown = (perMl: number[]) => ({ counts: { sizing: 'iso11171' as const, sizes: [4, 6, 14], perMl } });
    expect(of(999, 99999, {}, shown([0, 0, 0]))).toBeNull();
    const [first = 0] = repeatChances({}, shown([4, 1, 0]).counts);
    expect(first).toBeGreaterThan(0.99);
    expect(first).toBeLessThan(1);
    expect(of(999, 99999, {}, shown([4, 1, 0]))).toBeNull();
  });
});

describe('some channels stuck', () => {
  const of = (runs: number[], own = {}, known = 99) => told(channelsStuck, { counts }, { known, runs }, own);
  const small = runOf(1e-10, again(14881));
  const two = runOf(1e-10, again(3690, 330));
  const large = runOf(1e-10, again(330));

  test('those that stand longer than the others, by their own chance and a hundredth of the limit', () => {
    expect([small, two, large]).toEqual([6, 4, 8]);
    expect(of([1, two, two])).toEqual([[two, two, [6, 14]]]);
    expect(of([1, two - 1, two - 1])).toEqual([]);
    expect(of([2, two, two + 1])).toEqual([[two, two, [6, 14]]]);
    expect(of([small, 1, 1])).toEqual([[small, small, [4]]]);
    expect(of([1, 1, large - 1])).toEqual([]);
    // the middle channel has not stood for long enough to tell; the last alone has
    expect(of([1, 3, large])).toEqual([[large, large, [14]]]);
    expect(of([2, 2, large])).toEqual([[large, large, [14]]]);
  });

  test('is asked of two sizes, two readings and a limit', () => {
    expect(of([1, 9, 9], {}, 1)).toBeNull();
    expect(of([1, 9, 9], { stuckChance: null })).toBeNull();
    expect(told(channelsStuck, { counts }, null)).toBeNull();
    expect(told(channelsStuck, { celsius: 40 }, { runs: [] })).toBeNull();
    const one = { sizing: 'iso11171' as const, sizes: [4], perMl: [1890] };
    expect(told(channelsStuck, { counts: one }, { runs: [9] })).toBeNull();
    expect(of([9, 9, 9])).toEqual([]);
    // two readings are no run, however small the chance
    expect(of([1, 2, 2], { stuckChance: 0.5 })).toEqual([]);
  });

  test('three readings are a run where two channels count so many; two sizes are enough', () => {
    const many = { sizing: 'iso11171' as const, sizes: [4, 6, 14], perMl: [30000000.1, 2e7, 1e4] };
    const raw = { ...many, counted: [300000001, 2e8, 1e5], volumeMl: 10 };
    expect(runOf(1e-10, again(1e8 + 1, 2e8 - 1e5))).toBe(3);
    expect(told(channelsStuck, { counts: raw }, { runs: [3, 3, 1] })).toEqual([[3, 3, [4, 6]]]);
    const pair = {
      sizing: 'iso11171' as const,
      sizes: [4, 6],
      perMl: [1890.1, 402],
      counted: [18901, 4020],
      volumeMl: 10,
    };
    expect(told(channelsStuck, { counts: pair }, { runs: [1, 9] })?.[0]?.[2]).toEqual([6]);
  });

  test('a channel of zeros that stands beside them is not named', () => {
    const raw = { ...counts, perMl: [1890.1, 402, 0], counted: [18901, 4020, 0] };
    expect(told(channelsStuck, { counts: raw }, { runs: [1, 9, 9] })?.[0]?.[2]).toEqual([6]);
  });

  test('channels that stand as long as all others are no news', () => {
    const shown = { sizing: 'iso11171' as const, sizes: [4, 6, 14], perMl: [1890, 402, 33], volumeMl: 10 };
    expect(told(channelsStuck, { counts: shown }, { runs: [5, 5, 6] })).toEqual([]);
  });
});

test('how many readings a chance takes', () => {
  expect(runFor(1e-8, Math.log(0.0099))).toBe(5);
  expect(runFor(1e-8, Math.log(0.0101))).toBe(6);
  expect(runFor(0.5, Math.log(0.5))).toBe(2);
  expect([runFor(1e-8, 0), runFor(1e-8, 1e-9)]).toEqual([Infinity, Infinity]);
});

describe('how often a count comes again', () => {
  test.each<[readonly number[], readonly number[]]>([
    [
      [1900, 402, 33],
      [10, 1, 1],
    ],
    [
      [1900, 400, 33],
      [100, 10, 1],
    ],
    [
      [0.45, 0.2, 0],
      [0.01, 0.01, 0.01],
    ],
    [
      [100, 40, 3],
      [100, 10, 1],
    ],
    [
      [12.5, 3, 0],
      [0.1, 0.1, 0.1],
    ],
    [
      [1 / 3, 4, 1],
      [0, 0, 0],
    ],
    [[7e11], [1e11]],
  ])('%j is shown in steps of %j', (perMl, steps) => {
    expect(stepsShown(perMl)).toEqual(steps);
  });

  const shown = (perMl: number[], volumeMl?: number) => ({
    ...{ sizing: 'iso11171' as const, sizes: [4, 6, 14], perMl },
    ...(volumeMl === undefined ? {} : { volumeMl }),
  });
  /** Within a step of h of n particles: P(|z| < h / (2 sqrt(n - h))). */
  const within = (n: number, h: number) => {
    const z = h / (2 * Math.sqrt(n - h));
    let [term, sum] = [z, z];
    for (let i = 1; i < 200; i += 1) {
      term *= (-z * z) / (2 * i);
      sum += term / (2 * i + 1);
    }
    return (2 * sum) / Math.sqrt(2 * Math.PI);
  };

  test('of raw counts, by the particles between two sizes', () => {
    const chances = repeatChances({}, counts);
    [14881, 3690, 330].forEach((n, i) => {
      expect(chances[i]).toBeCloseTo(1 / Math.sqrt(2 * Math.PI * n), 14);
    });
    expect(repeatChances({}, { ...counts, perMl: [0.5, 0.5, 0], counted: [5, 5, 0] })).toEqual([
      ...[1, expect.closeTo(1 / Math.sqrt(10 * Math.PI), 14), 1],
    ]);
  });

  test('of counts shown in steps, by the particles in a step', () => {
    const chances = repeatChances({}, shown([1890, 402, 33], 10));
    expect(chances[0]).toBeCloseTo(within(14880, 100), 12);
    expect(chances[1]).toBeCloseTo(within(3690, 10), 12);
    expect(chances[2]).toBeCloseTo(within(330, 10), 12);
    // of a volume not told, 1 mL or 100 mL, whichever repeats more often
    const open = repeatChances({}, shown([1890, 402, 33]));
    expect(open[0]).toBeCloseTo(Math.max(within(1488, 10), within(148800, 1000)), 12);
    expect(open[2]).toBeCloseTo(Math.max(1 / Math.sqrt(2 * Math.PI * 33), within(3300, 100)), 12);
    // fewer than one particle beyond a step say nothing
    expect(repeatChances({}, shown([12, 11, 11], 10)).slice(0, 2)).toEqual([1, 1]);
  });

  test('of a code written as its limits, or of nothing: always', () => {
    expect(repeatChances({}, shown([2500, 640, 80], 10))).toEqual([1, 1, 1]);
    expect(repeatChances({}, shown([2500, 640, 0], 10))).toEqual([1, 1, 1]);
    expect(repeatChances({}, shown([2500, 641, 80], 10))[0]).toBeLessThan(1);
  });
});

describe('a sensor stuck', () => {
  const steady = { value: 41, run: 30, longest: 4, repeats: 20, readings: 90 };
  const of = (change: object = {}, more: Partial<Repeats> = {}, reading: Reading = { celsius: 41 }, own = {}) =>
    told(sensorStuck, reading, { steady: { celsius: { ...steady, ...change } }, ...more }, own);
  const limit = runOf(1e-8, Math.log(25 / 100));

  test('from the run that its own repeats hardly make, and two and a half times the longest', () => {
    expect(limit).toBe(15);
    expect(of()).toEqual([[30, 15]]);
    expect(of({ run: 15 })).toEqual([[15, 15]]);
    expect(of({ run: 14 })).toEqual([]);
    expect(of({ longest: 7 })).toEqual([[30, 19]]);
    expect(of({ longest: 12 })).toEqual([]);
    expect(of({ longest: 11, run: 29 })).toEqual([[29, 29]]);
    expect(of({ longest: 11, run: 28 })).toEqual([]);
  });

  test('not of another value, without a limit, nor of oil full of water', () => {
    expect(of({}, {}, { celsius: 42 })).toEqual([]);
    expect(of({}, {}, {})).toEqual([]);
    expect(of({ run: 1e9 }, {}, { celsius: 41 }, { stuckChance: null })).toEqual([]);
    expect(of({}, {}, { celsius: 41 }, { stuckChance: null })).toEqual([]);
    expect(told(sensorStuck, { celsius: 41 }, null)).toEqual([]);
    expect(told(sensorStuck, { celsius: 41 }, {})).toEqual([]);
    const water = (value: number) =>
      told(sensorStuck, { waterSaturation: value }, { steady: { waterSaturation: { ...steady, value } } });
    expect([0, 0.5, 1].map(water)).toEqual([[[30, 15]], [[30, 15]], []]);
  });

  test('not while the machine may rest: eight days, or thirty where it has never changed', () => {
    const rested = (days: number, longest: number) => of({ longest }, { time: (100 + days) * day, sinceDay: 100 });
    expect([7.99, 8].map((days) => rested(days, 4)?.length)).toEqual([0, 1]);
    expect([29.99, 30].map((days) => rested(days, 0)?.length)).toEqual([0, 1]);
  });
});

describe('the course of the flow', () => {
  const flow = { last: 50, swing: 0.3, swings: 6 };

  test('pulsates from six swings on, beyond the limit', () => {
    const of = (change: object = {}, mlPerMin: number | undefined = 50, own = {}) =>
      told(flowPulsating, { mlPerMin }, { flow: { ...flow, ...change } }, own);
    expect(of()).toEqual([[0.3, 0.25]]);
    expect(of({ swings: 5 })).toBeNull();
    expect(of({ swing: 0.25 })).toEqual([]);
    expect(of({ swing: 0.2501 })).toEqual([[0.2501, 0.25]]);
    expect(of({}, 0)).toEqual([]);
    expect(of({}, 50, { flowSwing: null })).toBeNull();
    expect(told(flowPulsating, {}, { flow })).toBeNull();
    expect(told(flowPulsating, { mlPerMin: 50 }, {})).toBeNull();
    expect(told(flowPulsating, { mlPerMin: 50 }, null)).toBeNull();
  });

  const seen = (ms: number, microlitres = 0) => ({ flow: { ...flow, seen: [ms, microlitres] } }) as const;
  const ran = (ms: number, microlitres = 0) => ({ flow: { ...flow, ran: [ms, microlitres] } }) as const;

  test('has begun: by the time to settle, or by the measurement itself', () => {
    const of = (memory: Partial<Repeats>, change: object = {}, own: OwnReadingLimits = { settleMs: 60000 }) =>
      told(startUp, { time: 2000, mlPerMin: 50, ...change }, memory, own);
    expect(of(seen(59999))).toEqual([[59999, 60000]]);
    expect(of(seen(60000))).toEqual([]);
    expect(of(seen(29999), { measuringSeconds: 30 }, {})).toEqual([[29999, 30000]]);
    expect(of(seen(30000), { measuringSeconds: 30 }, {})).toEqual([]);
    expect(of(seen(1000), {}, {})).toBeNull();
    expect(of(seen(1000), { measuringSeconds: 30 }, { settleMs: null })).toBeNull();
    expect(of(seen(1000), { mlPerMin: 0 })).toEqual([]);
    expect(of(seen(1000), { mlPerMin: undefined })).toBeNull();
    expect(of(seen(1000), { time: undefined })).toBeNull();
    // where it was not seen to begin
    expect(of(ran(59999))).toBeNull();
    expect(of(ran(60000))).toEqual([]);
    expect(of({ flow })).toBeNull();
    expect(told(startUp, { time: 2000, mlPerMin: 50 }, null, { settleMs: 60000 })).toBeNull();
    // no longer time is kept
    expect(of(seen(999999998), {}, { settleMs: 1e10 })).toEqual([[999999998, 1e10]]);
    expect(of(seen(999999999), {}, { settleMs: 1e10 })).toEqual([]);
  });

  test('has passed less than the line holds', () => {
    const of = (memory: Partial<Repeats>, change: object = {}, own: OwnReadingLimits = { flushMl: 100 }) =>
      told(standingOil, { time: 61000, mlPerMin: 50, ...change }, memory, own);
    expect(of(seen(60000, 50000))).toEqual([[50, 100]]);
    expect(of(seen(60000, 99999))).toEqual([[99.999, 100]]);
    expect(of(seen(60000, 100000))).toEqual([]);
    expect(of(seen(60000, 50000), { mlPerMin: 0 })).toEqual([]);
    // too little since the line was opened is told by itself; enough may have passed before it stood
    expect(of(seen(60000, 50000), { flushedMl: 99 })).toEqual([]);
    expect(of(ran(60000, 50000), { flushedMl: 99 })).toEqual([]);
    expect(of(seen(60000, 50000), { flushedMl: 100 })).toEqual([[50, 100]]);
    expect(of(ran(60000, 50000), { flushedMl: 100 })).toBeNull();
    expect(of(seen(60000, 50000), {}, {})).toBeNull();
    expect(of(seen(60000, 50000), { mlPerMin: undefined })).toBeNull();
    expect(of(seen(60000, 50000), { time: undefined })).toBeNull();
    expect(of(ran(60000, 99999))).toBeNull();
    expect(of(ran(60000, 100000))).toEqual([]);
    expect(of({ flow })).toBeNull();
    expect(told(standingOil, { time: 61000, mlPerMin: 50 }, null, { flushMl: 100 })).toBeNull();
    // no greater volume is kept
    expect(of(seen(60000, 99999998), {}, { flushMl: 1e6 })).toEqual([[99999.998, 1e6]]);
    expect(of(seen(60000, 99999999), {}, { flushMl: 1e6 })).toEqual([]);
  });
});

test('no particle, by the level of the unit', () => {
  const zero = { sizing: 'iso11171' as const, sizes: [4, 6], perMl: [0, 0] };
  const raw = { counts: { ...zero, counted: [0, 0], volumeMl: 10 } };
  const of = (level: Repeats['level'], reading: Reading = raw, own = {}) =>
    told(noParticles, reading, level === undefined ? {} : { level }, own);
  // three deviations fewer, a sixteenth of that, so much oil: exp(-18.4) is the limit of 1e-8
  const least = (400 - 3 * 20) / (40 * 16);
  const enough = -Math.log(1e-8) / least;
  expect(of([400, 40, enough + 0.001])).toEqual([[enough + 0.001, 10 * (enough + 0.001)]]);
  expect(of([400, 40, enough - 0.001])).toBeNull();
  expect(of([400, 40, 1e6], { counts: { ...zero, perMl: [0, 1] } })).toEqual([]);
  // shown in whole particles, a level of less than one at the least says nothing
  const shown = { counts: zero };
  const level = (particles: number) => of([particles, 1, 1e9], shown);
  // 256 particles in 13 mL: exactly one per mL at the least, which is enough
  expect(of([256, 13, 1e9], shown)).toHaveLength(1);
  const one = ((3 + Math.sqrt(9 + 4 * 16)) / 2) ** 2;
  expect(level(one + 0.01)).toHaveLength(1);
  expect(level(one - 0.01)).toBeNull();
  // hardly any: the oil of this reading, and what it should have; none is missing where the third is 0
  const few = { counts: { ...raw.counts, perMl: [0.1, 0], counted: [1, 0] } };
  expect(of([400, 40, enough + 0.001], few)).toEqual([[10, 100]]);
  expect(of([400, 40, enough - 0.001], few)).toBeNull();
  expect(of([400, 40, 0], few)).toEqual([]);
  expect(of([0, 40, 1e6])).toBeNull();
  expect(of([400, 0, 1e6])).toBeNull();
  expect(of(undefined)).toBeNull();
  expect(of([400, 40, 1e6], { ...raw, mlPerMin: 0 })).toBeNull();
  expect(of([400, 40, 1e6], raw, { stuckChance: null })).toBeNull();
  expect(of([400, 40, 1e6], { celsius: 40 })).toBeNull();
  expect(told(noParticles, raw, null)).toBeNull();
});

test('sizes that someone waits for, each once, ascending', () => {
  const columns = [
    { label: '4-6', from: { iso11171: 4 }, to: { iso11171: 6 } },
    { label: '25-50', from: { iso11171: 21, microscope: 25 }, to: { iso11171: 38, microscope: 50 } },
    { label: '>100', from: { microscope: 100 } },
  ];
  const of = (reading: Reading, needed: readonly (number | (typeof columns)[number])[]) =>
    countMissing.find({
      ...{ reading, limits: wholeLimits({}), repeats: null, tables: [] },
      needed: needed as never,
    });
  expect(of({ counts }, [70, 4, ...columns, 38])).toEqual([
    { code: 'count_missing', value: 3, limit: 0, sizes: [21, 38, 70], sizing: 'iso11171' },
  ]);
  expect(of({ counts }, [{ label: '14-21', from: { iso11171: 14 }, to: { iso11171: 21 } } as never])).toMatchObject([
    { value: 1, sizes: [21] },
  ]);
  expect(of({ counts }, [4, 14])).toEqual([]);
  expect(of({ counts }, [])).toEqual([]);
  expect(of({ celsius: 40 }, [70])).toEqual([]);
});

describe('the counts by themselves', () => {
  const raw = (counted: number[], perMl = counted, more: object = {}) => ({
    counts: { sizing: 'iso11171' as const, sizes: [4, 6, 14], perMl, counted, volumeMl: 1, ...more },
  });

  test('of the sizes with few particles the one with the fewest is told, and its size last', () => {
    expect(told(fewParticles, raw([15, 3, 5]), null, { particles: 20 })).toEqual([[3, 20, [4, 14, 6]]]);
    expect(told(fewParticles, raw([15, 8, 3]), null, { particles: 20 })).toEqual([[3, 20, [4, 6, 14]]]);
    expect(told(fewParticles, raw([25, 3, 3]), null, { particles: 20 })).toEqual([[3, 20, [6, 14]]]);
    expect(told(fewParticles, raw([3, 25, 25]), null, { particles: 20 })).toEqual([[3, 20, [4]]]);
    // counts that rise have a finding of their own
    expect(told(fewParticles, raw([3, 15, 5]), null, { particles: 20 })).toEqual([[3, 20, [6, 14, 4]]]);
    expect(told(fewParticles, raw([20, 20, 20]), null, { particles: 20 })).toEqual([]);
    expect(told(fewParticles, raw([2, 2, 2]), null, { particles: null })).toBeNull();
  });

  test('sizes of one’s own are looked at and no others, else those of the code that were counted', () => {
    const own = { particles: 20, particleSizes: [100] };
    expect(told(fewParticles, raw([3, 2, 1]), null, own)).toBeNull();
    const pair = raw([100, 3], [100, 3], { sizes: [4, 21] });
    expect(told(fewParticles, pair, null, { particles: 20 })).toEqual([]);
    expect(told(fewParticles, raw([100, 3], [100, 3], { sizes: [5, 21] }), null, { particles: 20 })).toHaveLength(1);
  });

  test('without a flow the time alone does not tell how many there were', () => {
    const few = { counts: { sizing: 'iso11171' as const, sizes: [4, 6, 14], perMl: [3, 2, 1] } };
    expect(told(fewParticles, { ...few, measuringSeconds: 60 }, null, { particles: 20 })).toBeNull();
    expect(told(fewParticles, { ...few, mlPerMin: 5 }, null, { particles: 20 })).toBeNull();
    expect(told(fewParticles, { ...few, mlPerMin: 5, measuringSeconds: 60 }, null, { particles: 10 })).toEqual([
      [5, 10, [14]],
    ]);
  });

  test('coincidence is asked of the diluted sample that passed the sensor', () => {
    const diluted = (perMl: number) => raw([perMl / 10, 40, 33], [perMl, 400, 330], { dilution: 10 });
    expect(told(coincidence, diluted(60000), null, { coincidencePerMl: 6000 })).toEqual([]);
    expect(told(coincidence, diluted(60010), null, { coincidencePerMl: 6000 })).toEqual([[6001, 6000]]);
    expect(told(coincidence, raw([6001, 400, 33]), null, { coincidencePerMl: 6000 })).toEqual([[6001, 6000]]);
  });
});

test('a check without its figure or without its limit is not made', () => {
  const line = { a: 9, b: 3.5, form: 'full' } as const;
  expect(told(viscosityOffLine, { mm2PerS: 46 }, null, { viscosityLine: line })).toBeNull();
  expect(told(viscosityOffLine, { celsius: 40 }, null, { viscosityLine: line })).toBeNull();
  expect(told(viscosity, {}, null, { mostMm2PerS: 300 })).toBeNull();
  expect(told(viscosity, { mm2PerS: 301 }, null, { mostMm2PerS: 300 })).toEqual([[301, 300]]);
  expect(told(unflushed, { flushedMl: 5 }, null, { flushMl: null })).toBeNull();
  expect(told(unflushed, {}, null, { flushMl: 80 })).toBeNull();
  expect(told(unflushed, { flushedMl: 79 }, null, { flushMl: 80 })).toEqual([[79, 80]]);
  expect(told(pressureHigh, {}, null, { mostKPa: 600 })).toBeNull();
  expect(told(pressureHigh, { kPa: 601 }, null, { mostKPa: null })).toBeNull();
  expect([600, 601].map((kPa) => told(pressureHigh, { kPa }, null, { mostKPa: 600 }))).toEqual([[], [[601, 600]]]);
  expect(told(calibrationOverdue, { calibratedAt: 0 }, null, { calibrationMs: 1 })).toBeNull();
  expect(told(calibrationOverdue, { time: 2, calibratedAt: 0 }, null, { calibrationMs: 1 })).toEqual([[2, 1]]);
  expect(told(clockAhead, { receivedAt: 0 }, null, { clockAheadMs: 1 })).toBeNull();
  expect(told(clockAhead, { time: 9, receivedAt: 0 }, null, { clockAheadMs: null })).toBeNull();
  expect(told(clockAhead, { time: 9, receivedAt: 0 }, null, { clockAheadMs: 1 })).toEqual([[9, 1]]);
  expect(told(clockBackwards, {}, { before: 5 })).toBeNull();
  expect(told(clockBackwards, { time: 4 }, { before: 5 })).toEqual([[4, 5]]);
  expect(told(temperature, {}, null, { celsius: { low: 5, high: 80 } })).toBeNull();
  expect(told(temperature, { celsius: 81 }, null, { celsius: { low: 5, high: 80 } })).toEqual([[81, 80]]);
  expect(told(freeWater, { waterSaturation: 0.99 }, null, { freeWaterSaturation: null })).toBeNull();
  expect(told(freeWater, { waterSaturation: 0.95 }, null, { freeWaterSaturation: 0.95 })).toEqual([[0.95, 0.95]]);
});

test('a reading without counts is as good as the worst of its figures', () => {
  const flagged = assessReading({ mm2PerS: 46, celsius: 40, qualities: { celsius: 'bad' } });
  expect(flagged.figureQualities).toEqual({ mm2PerS: 'good', celsius: 'bad' });
  expect(flagged.quality).toBe('bad');
  expect(assessReading({ mm2PerS: 46, celsius: 40 }).quality).toBe('good');
});

describe('a code given beside counts', () => {
  const off = (table: ClassTable, code: string, perMl: number[], sizes = [4, 6, 14, 21, 38, 70]) => {
    const reading = { counts: { sizing: 'iso11171' as const, sizes, perMl }, codes: { [table.id]: code } };
    const plans = [{ table }] as never;
    const found = codeDisagrees.find({ reading, limits: wholeLimits({}), repeats: null, tables: plans, needed: [] });
    return found?.map(({ value }) => value);
  };
  const perMl = [1890, 402, 33, 9, 1.5, 0.2];

  test('is as many classes off as the size where it is most', () => {
    expect(off(iso4406, '18/16/12', perMl)).toEqual([]);
    expect(off(iso4406, '18/16/13', perMl)).toEqual([1]);
    expect(off(iso4406, '15/16/12', perMl)).toEqual([3]);
    expect(off(iso4406, '-/20/-', perMl)).toEqual([4]);
    // one particle more or less in the last digit shown is no class; and the lowest class is one like the others
    expect(off(iso4406, '18/14/12', [1890, 161, 33], [4, 6, 14])).toEqual([1]);
    expect(off(iso4406, '3/0/0', [0.008, 0.008, 0.008], [4, 6, 14])).toEqual([3]);
  });

  test('for several sizes together is that of the dirtiest, and of the others no less', () => {
    const own = classify(as4059Cumulative, { sizing: 'iso11171', sizes: [4, 6, 14, 21, 38, 70], perMl });
    const places = own.parts.map((part) => Number(part.class));
    const dirtiest = Math.max(...places.slice(1));
    expect(off(as4059Cumulative, `${dirtiest}B-F`, perMl)).toEqual([]);
    expect(off(as4059Cumulative, `${dirtiest + 2}B-F`, perMl)).toEqual([2]);
    expect(off(as4059Cumulative, `${dirtiest - 1}B-F`, perMl)).toEqual([1]);
    // sizes that were not counted may be dirtier: too high is not shown, too low is
    expect(off(as4059Cumulative, `${dirtiest + 2}B-F`, perMl.slice(0, 3), [4, 6, 14])).toEqual([]);
    const known = Math.max(...places.slice(1, 3));
    expect(off(as4059Cumulative, `${known - 1}B-F`, perMl.slice(0, 3), [4, 6, 14])).toEqual([1]);
  });

  test('for several sizes of the cleanest class is that class', () => {
    const clean = [0.0001, 0, 0, 0, 0, 0];
    expect(off(as4059Cumulative, '000A-C', clean)).toEqual([]);
    expect(off(as4059Cumulative, '0A-C', clean)).toEqual([2]);
    expect(off(as4059Cumulative, '000E-F', perMl.slice(0, 3), [4, 6, 14])).toEqual([]);
  });

  test('is no further off than half a step of the counts shown leaves it', () => {
    // 1000 stands in tens beside 1890: from 995 to 1005, and the limit of 16 is 640, of 17 is 1300
    const at = (six: number) => [18900, six, 33];
    expect(off(iso4406, '-/17/-', at(1310), [4, 6, 14])).toEqual([1]);
    expect(off(iso4406, '-/18/-', at(1290), [4, 6, 14])).toEqual([1]);
    expect(off(iso4406, '-/17/-', at(1300), [4, 6, 14])).toEqual([]);
    expect(off(iso4406, '-/18/-', at(1300), [4, 6, 14])).toEqual([]);
  });

  test('is no further off than half a step, also just above a limit', () => {
    // 0.2 in tenths is from 0.15: scale number 4 has 0.16, 3 has 0.08; 641 is from 640.5, and 16 has 640
    expect(off(iso4406, '-/-/4', [1.2, 0.5, 0.2], [4, 6, 14])).toEqual([]);
    expect(off(iso4406, '-/-/3', [1.2, 0.5, 0.2], [4, 6, 14])).toEqual([1]);
    expect(off(iso4406, '-/17/-', [1890, 640, 33], [4, 6, 14])).toEqual([]);
    expect(off(iso4406, '-/16/-', [1890, 641, 33], [4, 6, 14])).toEqual([1]);
  });

  test('is no further off between two sizes than half a step of both', () => {
    // class 9 has 128,000 from 6 to 14 µm(c) in 100 mL; 1320 stands in tens and 35 in ones, so 5.5 more or fewer
    const of = (code: string, fourteen: number) =>
      off(as4059Differential, code, [9990, 1320, fourteen, 2, 1, 0], [4, 6, 14, 21, 38, 70]);
    expect(as4059Differential.limits[as4059Differential.classes.indexOf('9')]?.[0]).toBe(128000);
    expect([of('9', 35), of('9', 34), of('10', 45), of('10', 46)]).toEqual([[], [1], [], [1]]);
  });

  test('that zeros alone contradict is told: they may have been half a particle per mL', () => {
    const none = [0, 0, 0];
    expect(off(iso4406, '18/16/13', none, [4, 6, 14])).toEqual([12]);
    expect(off(iso4406, '6/6/6', none, [4, 6, 14])).toEqual([]);
    expect(off(iso4406, '7/6/0', none, [4, 6, 14])).toEqual([1]);
  });

  test('that nobody can read says nothing here', () => {
    expect(off(iso4406, 'n/a', perMl)).toEqual([]);
  });
});

describe('two channels with one count', () => {
  const equal = (perMl: number[], times: number, last = perMl) => {
    let repeats = noRepeats;
    const sizes = [4, 6, 14];
    const at = (i: number, list: number[]) =>
      ({ time: i * 3600000, counts: { sizing: 'iso11171', sizes, perMl: list } }) as const;
    for (let i = 0; i < times; i += 1) repeats = advanceRepeats(repeats, at(i, i === times - 1 ? last : perMl));
    return channelsEqual
      .find({ reading: at(times - 1, last), limits: wholeLimits({}), repeats, tables: [], needed: [] })
      ?.map(({ value, sizes: of }) => [value, of]);
  };

  test('are told from the third reading on, and not where there are none', () => {
    expect(equal([5000, 5000, 33], 2)).toEqual([]);
    expect(equal([5000, 5000, 33], 3)?.[0]?.[1]).toEqual([4, 6]);
    expect(equal([5000, 400, 400], 3)?.[0]?.[1]).toEqual([6, 14]);
    expect(equal([5000, 0, 0], 3)).toEqual([]);
    expect(equal([5000, 5000, 33], 3, [5000, 4999, 33])).toEqual([]);
  });
});

test('a code that cannot be read is counted once, though two lists have its table', () => {
  const reading = { codes: { iso4406: 'n/a', nas1638: '8' } };
  const plans = [{ table: iso4406 }] as never;
  const of = (codes: object) =>
    codeUnreadable.find({
      reading: { codes } as Reading,
      limits: wholeLimits({}),
      repeats: null,
      tables: plans,
      needed: [],
    });
  expect(of(reading.codes)).toEqual([{ code: 'code_unreadable', value: 1, limit: 0, received: 'n/a' }]);
});

describe('a flat distribution', () => {
  const of = (sizing: 'iso11171' | 'iso11171b', sizes: number[], perMl: number[]) =>
    told(flatDistribution, { counts: { sizing, sizes, perMl } }, null)?.map(([, , at]) => at);

  test('is told by the pair that is flattest beside its limit', () => {
    // from 4 to 14 µm(c) 0.50 of 1.62, from 4 to 21 µm(c) 1.07 of 1.78
    expect(of('iso11171', [4, 14, 21], [1000, 534, 170])).toEqual([[4, 14]]);
  });

  test('is looked at from 4 µm(c) of the scale, whatever the sizes were calibrated by', () => {
    // 4.3 µm(b) lie below 4 µm(c)
    expect(of('iso11171b', [4.3, 10, 20], [2000, 1000, 900])).toEqual([[10, 20]]);
  });
});

test('the same counts at other sizes are no repetition', () => {
  const at = (time: number, sizes: number[]) =>
    ({ time, counts: { sizing: 'iso11171', sizes, perMl: [1890, 402, 33] } }) as const;
  const two = advanceRepeats(advanceRepeats(noRepeats, at(0, [4, 6, 14])), at(1, [4, 6, 14]));
  expect(two.runs).toEqual([2, 2, 2]);
  expect(advanceRepeats(two, at(2, [4, 6, 21])).runs).toEqual([1, 1, 1]);
});

test('counts that contradict themselves are named beside a mistake elsewhere', () => {
  const raw = { celsius: 'hot', counts: { ...counts, counted: [18900, 4021, 330] } } as never;
  const problems = (() => {
    try {
      return problemsOf(assessReading(raw));
    } catch (error) {
      return problemsOf(error);
    }
  })();
  expect(problems.map(({ path }) => path[0])).toEqual(['celsius', 'counts']);
});
