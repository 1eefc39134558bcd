/**
 * Whether oil that stood may be counted: found where flow was seen to begin, and not looked at where nobody saw it. The
 * volume passed is a balance: the sum of flow times time.
 */
import { describe, expect, test } from 'vitest';
import { iso4406 } from '../../../src/codes/index.ts';
import {
  advanceMonitor,
  prepareMonitor,
  resumeMonitor,
  startMonitor,
  type Verdict,
} from '../../../src/monitor/index.ts';
import { normalOf, shares } from '../../chance.ts';

const minute = 60000;
const hour = 60 * minute;
const plan = prepareMonitor({ codes: [{ table: iso4406 }], limits: { flushMl: 833, settleMs: 10 * minute } });

interface Told {
  readonly min: number;
  readonly mlPerMin?: number;
  readonly flushedMl?: number;
}

function told(rows: readonly Told[], state = startMonitor(plan)) {
  let now = state;
  let verdict: Verdict | null = null;
  for (const { min, ...more } of rows) {
    const step = advanceMonitor(plan, now, { time: min * minute, celsius: 40 + (min % 7) / 10, ...more });
    now = step.state;
    verdict = step.verdict;
  }
  const { findings = [], unchecked = [] } = verdict ?? {};
  return {
    state: now,
    found: findings.filter(({ code }) => code === 'standing_oil' || code === 'start_up'),
    unchecked: unchecked.filter((code) => code === 'standing_oil' || code === 'start_up'),
  };
}

const each = (from: number, to: number, mlPerMin: number, more: object = {}): Told[] =>
  Array.from({ length: to - from }, (_, i) => ({ min: from + i, mlPerMin, ...more }));
const both = ['start_up', 'standing_oil'];

describe('where nobody saw the flow begin', () => {
  test('at the first reading ever, until enough has passed', () => {
    expect(told(each(0, 1, 60))).toMatchObject({ found: [], unchecked: both });
    // 13 min of 60 are 780 mL, 14 are 840
    expect(told(each(0, 14, 60))).toMatchObject({ found: [], unchecked: ['standing_oil'] });
    expect(told(each(0, 15, 60))).toMatchObject({ found: [], unchecked: [] });
  });

  test('after a silence longer than readings are usually apart, and not after a shorter', () => {
    expect(told([...each(0, 60, 60), { min: 780, mlPerMin: 60 }])).toMatchObject({ found: [], unchecked: both });
    expect(told([...each(0, 60, 60), { min: 64, mlPerMin: 60 }]).unchecked).toEqual(both);
    expect(told([...each(0, 60, 60), { min: 63, mlPerMin: 60 }]).unchecked).toEqual([]);
    // readings came, but none that tells the flow
    const without = Array.from({ length: 30 }, (_, i) => ({ min: 60 + i }));
    expect(told([...each(0, 60, 60), ...without, { min: 90, mlPerMin: 60 }]).unchecked).toEqual(both);
    const hourly = Array.from({ length: 9 }, (_, i) => ({ min: 60 * i, mlPerMin: 60 }));
    expect(told(hourly).unchecked).toEqual([]);
  });

  test('through a saved state, and of one that builds before have left', () => {
    const { state } = told(each(0, 6, 60));
    const saved = JSON.parse(JSON.stringify(state));
    expect(told(each(6, 14, 60), resumeMonitor(plan, saved).state).unchecked).toEqual(['standing_oil']);
    expect(told(each(6, 15, 60), resumeMonitor(plan, saved).state).unchecked).toEqual([]);
    saved.repeats.flow = { last: 60, swing: 0, swings: 1000, from: 0, gap: minute };
    expect(told(each(6, 7, 60), resumeMonitor(plan, saved).state)).toMatchObject({ found: [], unchecked: both });
  });

  test('where the clock has been set, for how long nobody knows', () => {
    const days = 14 * 24 * 60;
    const { state, unchecked } = told([...each(0, 60, 60), ...each(days, days + 2, 60)]);
    expect(state.time).toBe((days + 1) * minute);
    expect(unchecked).toEqual(both);
  });
});

describe('where it was seen to begin', () => {
  test('though more had passed since the line was opened', () => {
    const opened = { flushedMl: 9000 };
    const { found } = told([...each(0, 60, 0, opened), ...each(60, 63, 60, opened)]);
    expect(found).toMatchObject([
      { code: 'start_up', value: 2 * minute },
      { code: 'standing_oil', value: 120, limit: 833 },
    ]);
    // too little since it was opened is found by that, and not twice
    const little = told([{ min: 0, mlPerMin: 0 }, ...each(1, 14, 60, { flushedMl: 800 })]);
    expect(little).toMatchObject({ found: [], unchecked: [] });
  });

  test('the oil that passed is the sum of flow times time, by the lesser flow of each two readings', () => {
    const { found } = told([{ min: 0, mlPerMin: 0 }, ...each(1, 15, 5), ...each(15, 18, 60)]);
    // 14 min of 5 and 2 of 60
    expect(found).toMatchObject([{ code: 'standing_oil', value: 14 * 5 + 2 * 60 }]);
  });

  test('it goes on past readings that do not tell the flow', () => {
    const rows = [{ min: 0, mlPerMin: 0 }, ...each(1, 5, 60), { min: 5 }, { min: 6, mlPerMin: 60 }];
    expect(told(rows).found).toMatchObject([{ value: 5 * minute }, { code: 'standing_oil', value: 300 }]);
  });
});

test('a sound unit of which readings are lost is not unchecked all the time', () => {
  const random = shares(61);
  const shareOf = (every: number, lost: number, count: number) => {
    let state = startMonitor(plan);
    let unchecked = 0;
    let time = 0;
    for (let i = 0; i < count; i += 1) {
      time += every;
      while (random() < lost) time += every;
      const step = advanceMonitor(plan, state, { time, mlPerMin: 60 * (1 + 0.03 * normalOf(random)) });
      state = step.state;
      expect(step.verdict?.findings).toEqual([]);
      if (step.verdict?.unchecked.includes('standing_oil') === true) unchecked += 1;
    }
    return unchecked / count;
  };
  expect(shareOf(minute, 0.05, 5000)).toBeLessThan(0.01);
  expect(shareOf(minute, 0.2, 5000)).toBeLessThan(0.02);
  expect(shareOf(hour, 0.3, 5000)).toBeLessThan(0.02);
});
