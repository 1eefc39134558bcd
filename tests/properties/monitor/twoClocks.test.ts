/**
 * Two clocks: readings by the sensor's, ticks by the host's. Whatever the one is off the other, and when it steps, the
 * alarms judge, no delay is cut short, and the clock is not set again and again.
 */
import { describe, expect, test } from 'vitest';
import { advanceMonitor, type MonitorEvent, prepareMonitor, startMonitor } from '../../../src/monitor/index.ts';
import { some } from '../../volume.ts';

const minute = 60000;
const begin = Date.UTC(2026, 2, 1);
const every = 10 * minute;

interface Course {
  /** What the sensor's clock shows less than the host's, at a reading. */
  readonly behind: (i: number) => number;
  readonly celsius: (i: number) => number;
  readonly readings: number;
  /** Ticks lie so far apart on the host's clock; 0: none come. */
  readonly tickEvery: number;
  readonly timed: boolean;
  readonly onDelayMs?: number;
}

/** By event how often it came, and after how many readings the alarm was raised. */
function run({ behind, celsius, readings, tickEvery, timed, onDelayMs = 0 }: Course) {
  const alarm = { id: 'hot', type: 'high', figure: { quantity: 'celsius' }, setpoint: 60, onDelayMs } as const;
  const prepared = prepareMonitor({ codes: [], alarms: [alarm] });
  let state = startMonitor(prepared);
  const told: Partial<Record<MonitorEvent['event'], number>> = {};
  const raised: number[] = [];
  let nextTick = tickEvery === 0 ? Infinity : begin + tickEvery / 2;
  const give = (input: Parameters<typeof advanceMonitor>[2], i: number) => {
    const step = advanceMonitor(prepared, state, input);
    state = step.state;
    for (const { event } of step.events) {
      told[event] = (told[event] ?? 0) + 1;
      if (event === 'raised') raised.push(i);
    }
  };
  for (let i = 0; i < readings; i += 1) {
    const now = begin + i * every;
    for (; nextTick < now; nextTick += tickEvery) give({ kind: 'tick', time: nextTick }, i);
    const reading = { time: now - behind(i), celsius: celsius(i) + (i % 7) / 10 };
    give(timed ? { ...reading, receivedAt: now + 500 } : reading, i);
  }
  return { told, raised };
}

const hour = 60 * minute;
const offsets: readonly (readonly [string, number])[] = [
  ['1 h', hour],
  ['1 day', 24 * hour],
  ['1.5 days', 36 * hour],
  ['all years since 1970', begin],
  ['an hour ahead', -hour],
  ['two days ahead', -48 * hour],
];
const everyTick: readonly number[] = [0, 10 * minute, 20 * minute, 12 * hour, minute, 5 * minute, hour];
const ticks = everyTick.slice(0, some(7, 2));

describe.each([true, false])('with the host clock of readings: %s', (timed) => {
  describe.each(offsets)('the clock of the sensor is set back by %s', (_name, by) => {
    test.each(ticks)('a tick every %d ms', (tickEvery) => {
      const hot = (i: number) => (i >= 40 ? 90 : 50);
      const { told, raised } = run({
        ...{ behind: (i) => (i >= 40 ? by : 0), celsius: hot, readings: 400, tickEvery, timed },
      });
      expect(raised[0] as number, JSON.stringify(told)).toBeLessThanOrEqual(43);
      expect(raised).toHaveLength(1);
      expect(told.clock_set ?? 0, JSON.stringify(told)).toBeLessThanOrEqual(timed ? 2 : 3);
      expect(told.readings_stale ?? 0, JSON.stringify(told)).toBeLessThanOrEqual(timed ? 0 : 1);
      expect(told.too_late ?? 0).toBeLessThanOrEqual(3);
    });
  });

  describe.each(offsets)('the clock of the sensor is behind by %s, always', (_name, by) => {
    test.each(ticks)('a tick every %d ms', (tickEvery) => {
      // hot for 30 minutes, too short for the delay, and later for ten hours
      const hot = (i: number) => ((i >= 200 && i < 203) || (i >= 300 && i < 360) ? 90 : 50);
      const { told, raised } = run({
        ...{ behind: () => by, celsius: hot, readings: 500, tickEvery, timed, onDelayMs: hour },
      });
      expect(told.clock_set ?? 0, JSON.stringify(told)).toBeLessThanOrEqual(3);
      expect(told.readings_stale ?? 0, JSON.stringify(told)).toBeLessThanOrEqual(timed ? 0 : 1);
      expect(raised).toHaveLength(1);
      expect(raised[0] as number).toBeGreaterThanOrEqual(306);
      expect(raised[0] as number).toBeLessThanOrEqual(309 + (timed ? 0 : tickEvery / every));
    });
  });
});

/** Readings and ticks in the order they come, by the true time; a reading comes when `comes` says, if at all. */
function course(given: {
  readonly every: number;
  readonly days: number;
  readonly time: (now: number) => number;
  readonly comes?: (now: number) => number;
  readonly tickEvery?: number;
  readonly phase?: number;
  readonly timed: boolean;
  readonly hot: (now: number) => boolean;
  readonly onDelayMs: number;
  readonly shelveAt?: number;
}) {
  const {
    every: step,
    days,
    time,
    comes = (now) => now,
    tickEvery,
    phase = 0.5,
    timed,
    hot,
    onDelayMs,
    shelveAt,
  } = given;
  const inputs: [number, Parameters<typeof advanceMonitor>[2]][] = [];
  for (let now = 0; now < days * 24 * hour; now += step) {
    const at = comes(now) + 2000;
    if (at === Infinity) continue;
    const reading = { time: begin + Math.floor(time(now)), celsius: (hot(now) ? 80 : 50) + ((now / 1000) % 7) / 10 };
    inputs.push([at, timed ? { ...reading, receivedAt: begin + at } : reading]);
  }
  for (let now = (tickEvery ?? Infinity) * phase; now < days * 24 * hour; now += tickEvery as number)
    inputs.push([now, { kind: 'tick', time: begin + Math.floor(now) }]);
  if (shelveAt !== undefined)
    inputs.push([
      shelveAt,
      { kind: 'command', alarm: 'shelved', command: 'shelve', forMs: 4 * hour, time: begin + shelveAt },
    ]);
  inputs.sort(([one], [other]) => one - other);
  const alarm = { type: 'high', figure: { quantity: 'celsius' }, setpoint: 65 } as const;
  const prepared = prepareMonitor({
    codes: [],
    alarms: [
      { ...alarm, id: 'hot', onDelayMs },
      { ...alarm, id: 'shelved', setpoint: 200 },
    ],
  });
  let state = startMonitor(prepared);
  const told: Partial<Record<string, number>> = {};
  const first: Partial<Record<string, number>> = {};
  for (const [at, input] of inputs) {
    const next = advanceMonitor(prepared, state, input);
    state = next.state;
    for (const { event } of next.events) {
      told[event] = (told[event] ?? 0) + 1;
      first[event] ??= at / hour;
    }
  }
  return { told, first, state };
}

describe('drift, latency and backlogs', () => {
  const day = 24 * hour;

  test.each([
    ['a minute a day, read weekly', 7 * day, 1],
    ['a minute a day, read daily', day, 1],
    ['six minutes a day, read daily', day, 6],
    ['six minutes a day the other way', day, -6],
    ['a minute a day, read every ten minutes', 10 * minute, 1],
    ['a minute a day the other way, read every ten seconds', 10000, -1],
  ])('a clock that gains %s sets no clock', (_what, step, gain) => {
    const days = step < day ? 4 : (45 * step) / day;
    const from = (days / 2) * day;
    const { told, first } = course({
      ...{
        every: step,
        days,
        time: (now) => now + (gain * minute * now) / day,
        tickEvery: step < day ? hour : 12 * hour,
      },
      ...{ timed: true, hot: (now) => now >= from, onDelayMs: 3 * step },
    });
    expect(told.clock_set ?? 0, JSON.stringify(told)).toBe(0);
    expect(first.raised as number).toBeLessThanOrEqual((from + 5 * step) / hour);
    expect(first.raised as number).toBeGreaterThanOrEqual((from + 2.9 * step) / hour);
  });

  test.each([0, 5, 25, 40, 55, 65, 600].flatMap((lag) => [[lag, true] as const, [lag, false] as const]))(
    'readings every ten seconds that come %d s late (timed: %s) delay no alarm',
    (lag, timed) => {
      for (const tickEvery of [minute, 10 * minute]) {
        const { told, first } = course({
          ...{ every: 10000, days: 0.2, time: (now) => now, comes: (now) => now + lag * 1000, tickEvery },
          ...{ timed, hot: (now) => now >= 2 * hour, onDelayMs: 15 * minute },
        });
        // at first the ticks alone say what time it is
        expect(told.clock_set ?? 0, JSON.stringify(told)).toBeLessThanOrEqual(timed ? 1 : 2);
        expect((first.raised as number) - 2 - lag / 3600).toBeGreaterThan(0.24);
        expect((first.raised as number) - 2 - lag / 3600).toBeLessThan(timed ? 0.27 : 0.42);
      }
    },
  );

  test.each([0, 2, 5, 8])('a sensor %d h ahead, read three times a day, and its death are noticed', (ahead) => {
    const { told } = course({
      ...{ every: 8 * hour, days: 60, time: (now) => now + ahead * hour, tickEvery: hour, timed: false },
      ...{ comes: (now) => (now > 30 * day ? Infinity : now), hot: (now) => now > 5 * day, onDelayMs: 15 * minute },
    });
    expect([told.clock_set ?? 0, told.raised, told.readings_stale]).toEqual([0, 1, 1]);
  });

  test.each([20, 30])('after an outage of an hour a sensor %d min behind is as before', (behind) => {
    for (const phase of [0.1, 0.4, 0.77]) {
      const { told, first } = course({
        ...{ every: 5 * minute, days: 8, time: (now) => now - behind * minute, tickEvery: hour, phase, timed: false },
        comes: (now) => (now > 2 * day && now < 2 * day + hour ? 2 * day + hour + now / 1e6 : now),
        ...{ hot: (now) => now > 5 * day && now < 6 * day, onDelayMs: 90 * minute },
      });
      expect(told.clock_set ?? 0, JSON.stringify(told)).toBeLessThanOrEqual(3);
      expect(first.raised as number).toBeGreaterThan(5 * 24 + 0.9);
      expect(first.raised as number).toBeLessThan(5 * 24 + 2.7);
    }
  });

  test.each([20, 30, 40, 50])('a backlog that trickles in, one in %d s beside one a minute, sets no clock', (gap) => {
    const { told, first } = course({
      ...{ every: minute, days: 1.5, time: (now) => now, timed: true, onDelayMs: 15 * minute },
      comes: (now) => (now > 6 * hour && now < 18 * hour ? 18 * hour + (gap * 1000 * (now - 6 * hour)) / minute : now),
      hot: (now) => now > 18.5 * hour && now < 23.5 * hour,
    });
    expect([told.clock_set ?? 0, told.raised]).toEqual([0, 1]);
    expect(first.raised as number).toBeLessThan(18.8);
  });

  const from = 120 * hour;
  test.each([2, 4.8, 12, 23, 30].flatMap((back) => [[back, true] as const, [back, false] as const]))(
    'set back by %d h (timed: %s): a shelf keeps its time and a delay begins anew',
    (back, timed) => {
      const { told, first } = course({
        ...{
          every: 10 * minute,
          days: 5.5,
          time: (now) => (now > from ? now - back * hour : now),
          tickEvery: 10 * minute,
        },
        ...{ timed, hot: (now) => now > 119.8 * hour, onDelayMs: 4 * hour, shelveAt: 119.7 * hour },
      });
      expect(told.clock_set, JSON.stringify(told)).toBe(1);
      expect(told.readings_stale ?? 0).toBe(0);
      expect(Math.abs((first.unshelved as number) - 123.7)).toBeLessThan(0.5);
      expect(Math.abs((first.raised as number) - 124.4)).toBeLessThan(0.4);
    },
  );

  test.each([0.2, 0.8, 1, 3, 23, 23.9, 24, 24.1, 25, 100])('set ahead by %d h, by the clock of the host', (ahead) => {
    for (const tickEvery of [10 * minute, undefined]) {
      const { told, first } = course({
        ...{ every: 10 * minute, days: 5.5, time: (now) => (now > from ? now + ahead * hour : now), timed: true },
        ...{ ...(tickEvery === undefined ? {} : { tickEvery }), shelveAt: 119.7 * hour },
        ...{ hot: (now) => now > 119.8 * hour, onDelayMs: 4 * hour },
      });
      expect(told.clock_set, JSON.stringify(told)).toBe(1);
      expect(told.readings_stale ?? 0).toBe(0);
      expect(Math.abs((first.unshelved as number) - 123.75)).toBeLessThan(0.3);
      expect(Math.abs((first.raised as number) - 124.2)).toBeLessThan(0.3);
    }
  });
});

describe('a sensor whose clock stands still', () => {
  const still = (tickEvery: number, timed: boolean) =>
    run({
      ...{ behind: (i) => Math.max(0, i - 100) * every, celsius: (i) => (i >= 200 ? 90 : 50), readings: 600 },
      ...{ tickEvery, timed },
    });

  test.each([
    ['the host clock of its readings', 0, true],
    ['ticks', hour, false],
    ['both', hour, true],
  ] as const)('by %s its silence is told once, and that its alarm is not judged', (_name, tickEvery, timed) => {
    const { told, raised } = still(tickEvery, timed);
    // those that have the temperature of the last are the last again
    expect(told).toEqual({ contradicted: 485, repeated: 14, readings_stale: 1, signal_stale: 1 });
    expect(raised).toEqual([]);
  });

  test('without either nothing tells the time, and each reading says that it contradicts the last', () => {
    expect(still(0, false).told).toEqual({ contradicted: 485, repeated: 14 });
  });

  test('one reading that contradicts the last moves nothing else', () => {
    const prepared = prepareMonitor({
      codes: [],
      alarms: [{ id: 'hot', type: 'high', figure: { quantity: 'celsius' }, setpoint: 60, onDelayMs: hour }],
    });
    let state = startMonitor(prepared);
    for (let i = 0; i < 20; i += 1) {
      const time = begin + i * every;
      state = advanceMonitor(prepared, state, { time, celsius: 50 + (i % 3), receivedAt: time + 500 }).state;
    }
    const time = begin + 19 * every;
    const step = advanceMonitor(prepared, state, { time, celsius: 70, receivedAt: time + 700 });
    expect(step.events.map(({ event }) => event)).toEqual(['contradicted']);
    const { arrivals, time: now, ...rest } = step.state;
    const { arrivals: before, time: then, ...kept } = state;
    expect(rest).toEqual(kept);
    expect(arrivals).toEqual({ ...before, repeated: before.repeated + 1 });
    expect((now as number) - (then as number)).toBe(700);
  });
});
