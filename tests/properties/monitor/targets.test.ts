/**
 * A target that readings no longer tell of, and an alarm whose figure has never come: each is told once, and once when
 * readings tell of it again; never where readings rest or come by the week.
 */
import { describe, expect, test } from 'vitest';
import { iso4406, nas1638 } from '../../../src/codes/index.ts';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import type { MonitorConfig, MonitorInput, MonitorState } from '../../../src/monitor/index.ts';
import { messageOf } from '../../../src/report/index.ts';
import { advanceMonitor, prepared, resumeMonitor, startMonitor } from '../watched.ts';

const minute = 60000;
const hour = 60 * minute;
const day = 24 * hour;
const week = 7 * day;
const target = { table: iso4406, target: '18/16/13' };
const onCode = { id: 'dirty', type: 'high', figure: { code: 'iso4406' }, setpoint: '18/16/13' } as const;
const hot = { id: 'hot', type: 'high', figure: { quantity: 'celsius' }, setpoint: 65 } as const;
const wet = { id: 'wet', type: 'high', figure: { quantity: 'waterSaturation' }, setpoint: 0.8 } as const;

const warm = (time: number) => ({ time, celsius: 40 + (time % 7) });
/** The last figures wander, so that none is stuck. */
const counted = (time: number, more: object = {}) => ({
  ...{ time, kPa: 32 },
  counts: cumulativeCounts({
    4: 1890 + (Math.floor(time / hour) % 97),
    6: 402 + (Math.floor(time / hour) % 89),
    14: 33,
  }),
  ...more,
});
const tick = (time: number) => ({ kind: 'tick', time }) as const;
const every = (step: number, from: number, to: number) =>
  Array.from({ length: Math.floor((to - from) / step) + 1 }, (_, i) => from + i * step);

function told(config: MonitorConfig, inputs: readonly MonitorInput[]): { events: string[]; state: MonitorState } {
  let state = startMonitor(config);
  const events: string[] = [];
  for (const input of inputs) {
    const step = advanceMonitor(config, resumeMonitor(config, JSON.parse(JSON.stringify(state))).state, input);
    state = step.state;
    for (const { time, event, ...more } of step.events) {
      const { figure = '', alarm = '', since } = more as { figure?: string; alarm?: string; since?: number };
      events.push([time / hour, event, alarm, figure, since === undefined ? '' : since / hour].join(' ').trim());
    }
  }
  return { events, state };
}

describe('a target without an alarm on its code', () => {
  const codesStop = [
    ...every(hour, 0, 10 * hour).map((time) => counted(time)),
    ...every(hour, 11 * hour, 60 * hour).map(warm),
    ...every(hour, 61 * hour, 70 * hour).map((time) => counted(time)),
  ];

  test('is told once when codes stop and the temperature goes on, and once when they come again', () => {
    expect(told({ codes: [target] }, codesStop).events).toEqual([
      '34 target_stale  code iso4406 10',
      '61 target_restored  code iso4406',
    ]);
    expect(told({ codes: [target], staleAfterMs: 3 * hour }, codesStop).events).toEqual([
      '13 target_stale  code iso4406 10',
      '61 target_restored  code iso4406',
    ]);
  });

  test('is told at a tick as well, each target by itself', () => {
    const config = { codes: [target, { table: nas1638, target: '8' }] };
    const code = (time: number) => ({ ...warm(time), codes: { iso4406: '17/15/12' } });
    const both = (time: number) => ({ ...code(time), codes: { iso4406: '17/15/12', nas1638: '7' } });
    const inputs = [
      ...every(hour, 0, 5 * hour).map(both),
      ...every(hour, 6 * hour, 28 * hour).map(code),
      tick(29.5 * hour),
    ];
    expect(told(config, inputs).events).toEqual(['29 target_stale  code nas1638 5']);
  });

  test('counts that are bad, or that lack a size of the target, tell nothing', () => {
    const bad = every(hour, 11 * hour, 40 * hour).map((time) => counted(time, { mlPerMin: 0 }));
    const lacking = every(hour, 11 * hour, 40 * hour).map((time) => ({
      ...warm(time),
      counts: cumulativeCounts({ 4: 1890 + time / hour, 6: 402 + time / hour }),
    }));
    for (const later of [bad, lacking])
      expect(told({ codes: [target] }, [...codesStop.slice(0, 11), ...later]).events).toContain(
        '34 target_stale  code iso4406 10',
      );
  });

  test('is silent where an alarm stands on the code, where nothing is a target, and where null says so', () => {
    expect(told({ codes: [target], alarms: [onCode] }, codesStop).events).toEqual([
      '34 signal_stale dirty code iso4406 10',
      '61 signal_restored dirty code iso4406',
    ]);
    for (const config of [{ codes: [{ table: iso4406 }] }, { codes: [target], staleAfterMs: null }]) {
      const { events, state } = told(config, codesStop);
      expect(events).toEqual([]);
      if (config.staleAfterMs === undefined) expect(state).not.toHaveProperty('targets');
    }
  });

  test('goes on under another configuration, and on a clock that has been set', () => {
    const before = told({ codes: [target] }, codesStop.slice(0, 11)).state;
    const config: MonitorConfig = { codes: [{ table: nas1638 }, { ...target, target: '17/15/12' }], alarms: [hot] };
    let { state } = resumeMonitor(config, before);
    const events: string[] = [];
    for (const time of every(10 * hour, 20 * hour, 40 * hour)) {
      const step = advanceMonitor(config, state, warm(time));
      state = step.state;
      for (const { time: at, event } of step.events) events.push(`${at / hour} ${event}`);
    }
    expect(events).toEqual(['34 target_stale']);
    const moved = told({ codes: [target] }, [
      ...codesStop.slice(0, 11),
      warm(1000 * day),
      ...every(hour, 1000 * day + hour, 1000 * day + 20 * hour).map(warm),
    ]);
    expect(moved.events.filter((one) => one.includes('target'))).toEqual([]);
  });

  test('a state that is damaged is refused by name', () => {
    const { state } = told({ codes: [target] }, codesStop.slice(0, 3));
    const entry = { id: 'iso4406', heard: 0 };
    for (const [targets, parameter] of [
      [[{ ...entry, heard: 'x' }], 'state.targets[0].heard'],
      [[{ ...entry, stale: false }], 'state.targets[0].stale'],
      [[entry, entry], 'state.targets[1].id'],
    ] as const)
      expect(() => resumeMonitor({ codes: [target] }, { ...state, targets })).toThrowError(
        expect.objectContaining({ code: 'bad_state', parameter }),
      );
  });

  test('the state keeps within its bytes', () => {
    const alone = prepared({ codes: [{ table: iso4406 }] }).stateBytes;
    const largest = { id: 'iso4406', heard: -8.64e15, came: true, usualMs: 9007199254740991, stale: true };
    const { state } = told({ codes: [target] }, codesStop.slice(0, 1));
    const { targets, ...rest } = state;
    expect(targets).toEqual([{ id: 'iso4406', heard: 0, came: true }]);
    const more = JSON.stringify({ ...rest, targets: [largest] }).length - JSON.stringify(rest).length;
    expect(prepared({ codes: [target] }).stateBytes - alone).toBe(more);
  });

  test('reads well', () => {
    const event = { time: 34 * hour, event: 'target_stale', figure: 'code iso4406', since: 10 * hour } as const;
    expect(messageOf(event).line).toBe(
      'Code (ISO 4406): target not judged. No reading since 1970-01-01 10:00 has told whether the target is met.',
    );
  });
});

describe('a figure that has never come, where no staleAfterMs is set', () => {
  const config: MonitorConfig = { codes: [target], alarms: [hot, wet] };

  test('is told a day after the start, or after ten usual intervals, at a reading, once', () => {
    const events = ['24 signal_stale wet waterSaturation 0', '24 target_stale  code iso4406 0'];
    expect(told(config, every(hour, 0, 50 * hour).map(warm)).events.sort()).toEqual(events);
    const slow = told(config, every(5 * hour, 0, 80 * hour).map(warm)).events;
    expect(slow.sort()).toEqual(['50 signal_stale wet waterSaturation 0', '50 target_stale  code iso4406 0']);
  });

  test('is told again when it comes', () => {
    const late = [...every(hour, 0, 50 * hour).map(warm), counted(51 * hour, { waterSaturation: 0.3 })];
    expect(told(config, late).events.slice(2).sort()).toEqual([
      '51 signal_restored wet waterSaturation',
      '51 target_restored  code iso4406',
    ]);
  });

  test('is not told where it comes just then, where few readings came, or where readings rest', () => {
    const first = [...every(hour, 0, 24 * hour).map(warm), counted(25 * hour, { waterSaturation: 0.3 })];
    const few = [...every(minute, 0, 8 * minute).map(warm), warm(3 * day)];
    const rest = [...every(minute, 0, hour).map(warm), ...every(hour, 2 * hour, 3 * day).map(tick)];
    const onlyTicks = every(hour, 0, 3 * day).map(tick);
    for (const inputs of [first, few, rest, onlyTicks])
      expect(told(config, inputs).events.filter((one) => /wet|target/.test(one))).toEqual([]);
  });

  test('bottles by the week are nothing unusual', () => {
    const bottles = every(week, 0, 9 * week).map((time) => counted(time));
    const days = every(day, 0, 9 * week).map(tick);
    const inputs = [...bottles, ...days].sort((a, b) => a.time - b.time);
    expect(told({ ...config, alarms: [onCode, wet] }, inputs).events).toEqual([]);
    expect(told({ ...config, alarms: [] }, inputs).events).toEqual([]);
  });
});
