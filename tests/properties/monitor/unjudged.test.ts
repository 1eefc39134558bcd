/** Where too few blocks of a followed figure have a value: told once, and once when there are enough again. */
import { expect, test } from 'vitest';
import { advanceMonitor, type FollowedFigure, prepareMonitor, startMonitor } from '../../../src/monitor/index.ts';

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
