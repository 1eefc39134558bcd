/**
 * Readings that go on show that no clock has been set: a tick or a command ahead of them, of another clock or while
 * they wait in a buffer, holds no alarm back and ends no shelf.
 */
import { describe, expect, test } from 'vitest';
import {
  advanceMonitor,
  type MonitorConfig,
  type MonitorInput,
  prepareMonitor,
  resumeMonitor,
  startMonitor,
} from '../../../src/monitor/index.ts';

const minute = 60000;
const hour = 60 * minute;
const begin = Date.UTC(2026, 2, 1);
const hot = { id: 'hot', type: 'high', figure: { quantity: 'celsius' }, setpoint: 60 } as const;
const wet = { id: 'wet', type: 'high', figure: { quantity: 'waterSaturation' }, setpoint: 0.8 } as const;
const hotFrom = 1000;

/** Inputs in the order they come; hot from minute 1000 on. Returns what is told, each with the minute it came. */
function run(config: Partial<MonitorConfig>, inputs: readonly (readonly [number, MonitorInput])[]) {
  const prepared = prepareMonitor({ codes: [], ...config });
  let state = startMonitor(prepared);
  const told: [string, number][] = [];
  for (const [at, input] of inputs) {
    const step = advanceMonitor(prepared, state, input);
    state = step.state;
    for (const { event } of step.events) told.push([event, at]);
    // what is saved between any two can be resumed
    if (at % 70 === 0) resumeMonitor(prepared, JSON.parse(JSON.stringify(state)));
  }
  return { state, told, first: (word: string) => told.find(([event]) => event === word)?.[1] };
}

const reading = (at: number, timed: boolean): MonitorInput => ({
  time: begin + at * minute,
  celsius: (at >= hotFrom ? 70 : 45) + (at % 3),
  waterSaturation: 0.3 + (at % 7) / 100,
  ...(timed ? { receivedAt: begin + at * minute + 300 } : {}),
});

type Moment = (time: number) => MonitorInput;
const moments: Record<string, Moment> = {
  tick: (time) => ({ kind: 'tick', time }),
  command: (time) => ({ kind: 'command', alarm: 'wet', command: 'acknowledge', time }),
};

/** A reading each so many minutes, and now and then a moment whose clock is ahead. */
function ahead(every: number, momentEvery: number, by: number, moment: Moment, until = 1300, timed = true) {
  const inputs: [number, MonitorInput][] = [];
  for (let at = 0; at < until; at += every) {
    inputs.push([at, reading(at, timed)]);
    if (at > 100 && at % momentEvery === 0) inputs.push([at, moment(begin + (at + by) * minute + 20000)]);
  }
  return inputs;
}

describe('a clock of ticks or commands ahead of the readings, which the host times', () => {
  test.each([
    [1, 5, 5, 4],
    [1, 10, 10, 30],
    [10, 30, 60, 15],
    [10, 30, 60, 120],
    [10, 60, 120, 600],
  ])('a reading each %d min, one of them each %d, on-delay %d, %d min ahead', (every, each, delay, by) => {
    for (const moment of Object.values(moments)) {
      const alarms = [{ ...hot, onDelayMs: delay * minute }, wet];
      const { first, told } = run({ alarms }, ahead(every, each, by, moment));
      expect((first('raised') as number) - hotFrom).toBeLessThan(delay + every);
      // and it is said that the clocks differ
      expect(told.some(([event]) => event === 'clock_set')).toBe(true);
    }
  });

  test('a shelf ends no sooner than by that clock, and an alarm is raised anew no more often', () => {
    const shelve: MonitorInput = {
      ...{ kind: 'command', alarm: 'hot', command: 'shelve' },
      ...{ forMs: 8 * hour, time: begin + 1200 * minute },
    };
    const inputs = ahead(10, 30, 60, moments.tick as Moment, 6000);
    inputs.splice(inputs.findIndex(([at]) => at === 1210) - 1, 0, [1200, shelve]);
    const { first, told } = run({ alarms: [{ ...hot, reAlarmAfterMs: 8 * hour }] }, inputs);
    expect(first('unshelved')).toBeGreaterThanOrEqual(1200 + 7 * 60);
    expect(told.filter(([event]) => event === 're_alarmed').length).toBeLessThanOrEqual(12);
  });

  test('a shelf given by a clock a day ahead has no more left than the longest', () => {
    const shelve: MonitorInput = {
      ...{ kind: 'command', alarm: 'hot', command: 'shelve' },
      ...{ forMs: 8 * hour, time: begin + 1100 * minute + 20 * hour },
    };
    const inputs = ahead(10, 100000, 0, moments.tick as Moment, 3000);
    inputs.splice(
      inputs.findIndex(([at]) => at === 1110),
      0,
      [1100, shelve],
    );
    expect(run({ alarms: [hot] }, inputs).first('unshelved')).toBe(1590);
  });

  test('a day that a tick has closed is closed once', () => {
    const config = { follow: [{ id: 'water', figure: { quantity: 'waterSaturation' }, least: 0.1 }] } as const;
    const inputs = ahead(10, 30, 60, moments.tick as Moment, 10 * 1440);
    const { state } = run(config, inputs);
    const even = run(config, ahead(10, 30, 0, moments.tick as Moment, 10 * 1440)).state;
    const blocks = (one: typeof state) => ((one.followed[0]?.change?.length as number) - 36) / 4;
    expect([blocks(even), blocks(state)]).toEqual([9, 10]);
  });
});

describe('readings sent in blocks, ticks between, all clocks right, and no receivedAt', () => {
  test.each([
    [9, 30, 90],
    [9, 30, 240],
    [12, 60, 120],
    [24, 120, 240],
  ])('%d readings of ten minutes, a tick each %d, on-delay %d', (block, each, delay) => {
    const inputs: [number, MonitorInput][] = [];
    let waiting: MonitorInput[] = [];
    for (let at = 0; at < 3000; at += 10) {
      waiting.push(reading(at, false));
      if (waiting.length === block) {
        inputs.push(...waiting.map((one): [number, MonitorInput] => [at, one]));
        waiting = [];
      }
      if (at % each === 0) inputs.push([at, { kind: 'tick', time: begin + at * minute + 30000 }]);
    }
    const raised = run({ alarms: [{ ...hot, onDelayMs: delay * minute }] }, inputs).first('raised');
    // by the end of the block after the one in which the delay is over
    expect(raised).toBeLessThanOrEqual(hotFrom + delay + 20 * block);
  });
});
