/** Where too few blocks of a followed figure have a value: told once, and once when there are enough again. */
import { describe, expect, test } from 'vitest';
import { keptChange, openChange } from '../../../src/monitor/followed/means.ts';
import {
  advanceMonitor,
  type FollowedFigure,
  type MonitorInput,
  type MonitorState,
  prepareMonitor,
  resumeMonitor,
  startMonitor,
  type Verdict,
} from '../../../src/monitor/index.ts';

const day = 86400000;
const begin = Date.UTC(2026, 2, 2);

/** The events of a figure given on some days, with the day of each. */
function told(days: readonly number[], follow: Partial<FollowedFigure> = { least: 0.5 }): string[] {
  const prepared = prepareMonitor({
    codes: [],
    follow: [{ id: 'six', figure: { other: 'six' }, ...follow }],
    clockJumpMs: 400 * day,
    staleAfterMs: null,
  });
  let state = startMonitor(prepared);
  const events: string[] = [];
  for (const on of days) {
    const step = advanceMonitor(prepared, state, { time: begin + on * day, others: { six: 15 + (on % 5) / 50 } });
    state = step.state;
    for (const { event } of step.events) events.push(`${on} ${event}`);
  }
  return events;
}

const every = (step: number, from: number, to: number) =>
  Array.from({ length: Math.floor((to - from) / step) + 1 }, (_, i) => from + i * step);

test('a weekly bottle beside blocks of a day is told after four weeks, once; beside blocks of a week never', () => {
  expect(told(every(7, 0, 700))).toEqual(['35 change_unjudged']);
  expect(told(every(7, 0, 1400), { least: 0.5, blockMs: 7 * day })).toEqual([]);
});

test('two bottles a week are too few, three are enough', () => {
  expect(told(every(1, 0, 400).filter((on) => on % 7 === 1 || on % 7 === 4))).toEqual(['32 change_unjudged']);
  expect(told(every(1, 0, 400).filter((on) => [0, 2, 4].includes(on % 7)))).toEqual([]);
});

test('after a winter stop it is told, and when enough days have come again', () => {
  const events = told([...every(1, 0, 99), ...every(1, 145, 300)]);
  expect(events.map((one) => one.split(' ')[1])).toEqual(['change_unjudged', 'change_judged']);
});

test('where no change is worth telling, nothing is missed', () => {
  expect(told(every(7, 0, 700), {})).toEqual([]);
});

/** A figure that comes for 100 days of 1000, and readings without it, or ticks, or neither. */
function dying(follow: Partial<FollowedFigure>, on: (day: number) => MonitorInput | null, days = 1000) {
  const prepared = prepareMonitor({
    codes: [],
    follow: [{ id: 'six', figure: { other: 'six' }, ...follow }],
    clockJumpMs: 4000 * day,
    staleAfterMs: null,
  });
  let state: MonitorState = startMonitor(prepared);
  const events: string[] = [];
  const trends: [number, Verdict['trends'][number]['trend']][] = [];
  for (let now = 0; now < days; now += 1) {
    const other = on(now);
    const input = now < 100 ? { time: begin + now * day, others: { six: 15 + (now % 5) / 50 } } : other;
    if (input === null) continue;
    const step = advanceMonitor(prepared, state, input);
    // between any two inputs the process may end
    state = resumeMonitor(prepared, JSON.parse(JSON.stringify(step.state))).state;
    for (const { event, time } of step.events) events.push(`${(time - begin) / day} ${event}`);
    if (step.verdict !== null) trends.push([now, step.verdict.trends[0]?.trend ?? null]);
  }
  return { prepared, state, events, trends };
}

const celsius = (now: number): MonitorInput => ({ time: begin + now * day, celsius: 40 + (now % 3) / 10 });
const tick = (now: number): MonitorInput => ({ kind: 'tick', time: begin + now * day });

test('a figure that has died is told once, after 28 days without it, whatever shows that they have passed', () => {
  // the last value is of day 99: its block ends with day 100
  expect(dying({ least: 0.5 }, celsius).events).toEqual(['128 change_unjudged']);
  expect(dying({ least: 0.5 }, tick).events).toEqual(['128 change_unjudged']);
  expect(dying({ least: 0.5 }, (now) => (now === 700 ? tick(now) : null)).events).toEqual(['128 change_unjudged']);
  expect(dying({ least: 0.5 }, celsius, 128).events).toEqual([]);
  expect(dying({}, celsius).events).toEqual([]);
});

describe('a figure that has never come', () => {
  /** Celsius comes, the one followed not before a day; every input is saved and read again. */
  const waiting = (follow: Partial<FollowedFigure>, from: number, days: number, inputAt = celsius) => {
    const prepared = prepareMonitor({ codes: [], follow: [{ id: 'six', figure: { other: 'six' }, ...follow }] });
    let state: MonitorState = startMonitor(prepared);
    const events: string[] = [];
    for (let now = 0; now < days; now += 1) {
      const input = now < from ? inputAt(now) : { time: begin + now * day, others: { six: 15 + (now % 5) / 50 } };
      const step = advanceMonitor(prepared, state, input);
      state = resumeMonitor(prepared, JSON.parse(JSON.stringify(step.state))).state;
      for (const { event, time } of step.events) events.push(`${(time - begin) / day} ${event}`);
    }
    return { events, state };
  };

  test('is told once, 28 blocks after the first input; without a least none is told', () => {
    expect(waiting({ least: 0.5 }, 400, 400).events).toEqual(['28 change_unjudged']);
    expect(waiting({ least: 0.5 }, 400, 400, tick).events.filter((one) => /change/.test(one))).toEqual([
      '28 change_unjudged',
    ]);
    // a week of time began on Thursday, four days before
    expect(waiting({ least: 0.5, blockMs: 7 * day }, 400, 400).events).toEqual(['192 change_unjudged']);
    expect(waiting({}, 400, 400).events).toEqual([]);
  });

  test('is not where it comes on the 28th day, and is judged then as if it had been the first', () => {
    expect(waiting({ least: 0.5 }, 27, 28).events).toEqual([]);
    const { events, state } = waiting({ least: 0.5 }, 20, 90);
    expect(events).toEqual([]);
    // the same figures without the days before them
    const prepared = prepareMonitor({ codes: [], follow: [{ id: 'six', figure: { other: 'six' }, least: 0.5 }] });
    let alone: MonitorState = startMonitor(prepared);
    for (let now = 20; now < 90; now += 1) {
      const reading = { time: begin + now * day, others: { six: 15 + (now % 5) / 50 } };
      alone = advanceMonitor(prepared, alone, reading).state;
    }
    expect(state.followed).toEqual(alone.followed);
  });

  test('once it comes is judged when enough is there', () => {
    expect(waiting({ least: 0.5 }, 100, 160).events).toEqual(['28 change_unjudged', '128 change_judged']);
  });

  test('and is new in a configuration is waited for from then on', () => {
    const before = prepareMonitor({ codes: [] });
    let state: MonitorState = startMonitor(before);
    for (let now = 0; now < 300; now += 1) state = advanceMonitor(before, state, celsius(now)).state;
    const prepared = prepareMonitor({ codes: [], follow: [{ id: 'six', figure: { other: 'six' }, least: 0.5 }] });
    state = resumeMonitor(prepared, state).state;
    const told: number[] = [];
    for (let now = 300; now < 400; now += 1) {
      const step = advanceMonitor(prepared, state, celsius(now));
      state = step.state;
      for (const { event, time } of step.events) if (event === 'change_unjudged') told.push((time - begin) / day);
    }
    expect(told).toEqual([328]);
  });
});

test('its trend goes with it, and does not stand in the verdict as of today', () => {
  for (const follow of [{ least: 0.5 }, {}]) {
    const { trends } = dying(follow, celsius, 300);
    expect(trends[127]?.[1]).toMatchObject({ from: begin + 60 * day, to: begin + 100 * day });
    expect(trends.slice(128).every(([, trend]) => trend === null)).toBe(true);
  }
  const { trends } = dying({ blocks: 8 }, celsius, 300);
  expect(trends[107]?.[1]).not.toBeNull();
  expect(trends[108]?.[1]).toBeNull();
});

test('when it comes again it is told as soon as enough blocks are there, also where all was forgotten', () => {
  const backAt = (from: number) => (now: number) =>
    now < from ? celsius(now) : { time: begin + now * day, others: { six: 15 + (now % 5) / 50 } };
  expect(dying({ least: 0.5 }, backAt(135), 250).events).toEqual(['128 change_unjudged', '136 change_judged']);
  // seven days settle, then 21 are learned from
  expect(dying({ least: 0.5 }, backAt(200), 250).events).toEqual([
    '128 change_unjudged',
    '201 relearning',
    '228 change_judged',
  ]);
});

test('relearning does not hide that it is not told', () => {
  const { prepared, state } = dying({ least: 0.5 }, celsius, 140);
  const anew = advanceMonitor(prepared, state, { kind: 'relearn', time: begin + 140 * day });
  expect(anew.events.map(({ event }) => event)).toEqual(['relearning']);
  expect(advanceMonitor(prepared, anew.state, celsius(300)).events).toEqual([]);
});

test('a state of an earlier version in which it is long dead tells it at the next input, as of the last', () => {
  const { prepared, state } = dying({ least: 0.5 }, celsius, 200);
  const change = keptChange(openChange(state.followed[0]?.change as string));
  const earlier = { ...state, followed: state.followed.map((one) => ({ ...one, change })) };
  const next = advanceMonitor(prepared, resumeMonitor(prepared, earlier).state, celsius(200));
  expect(next.events).toMatchObject([{ event: 'change_unjudged', time: begin + 199 * day }]);
  expect(advanceMonitor(prepared, next.state, celsius(201)).events).toEqual([]);
});
