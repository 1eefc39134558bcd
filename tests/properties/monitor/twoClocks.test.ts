/**
 * Two clocks: readings by the sensor's, ticks by the host's. Whatever the one is off the other, and when it steps, the
 * alarms judge, no delay is cut short, and the clock is not set again and again.
 */
import { describe, expect, test } from 'vitest';
import { advanceMonitor, type MonitorEvent, prepareMonitor, startMonitor } from '../../../src/monitor/index.ts';

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
const ticks: readonly number[] = [0, minute, 5 * minute, 10 * minute, 20 * minute, hour, 12 * hour];

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
