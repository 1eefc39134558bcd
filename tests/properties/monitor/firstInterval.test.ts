/** A sensor fitted on a Friday and put to work on Monday: what is usual is told by Monday's readings. */
import { expect, test } from 'vitest';
import { iso4406 } from '../../../src/codes/index.ts';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import { advanceMonitor, type MonitorInput, prepareMonitor, startMonitor } from '../../../src/monitor/index.ts';
import { begin, day, hour, minute } from './kept.ts';

const prepared = prepareMonitor({
  codes: [{ table: iso4406, target: '18/16/13' }],
  alarms: [
    { id: 'hot', type: 'high', figure: { quantity: 'celsius' }, setpoint: 65 },
    { id: 'acid', type: 'high', figure: { other: 'acid' }, setpoint: 2 },
  ],
});

function through(times: readonly number[], silent = 0) {
  let state = startMonitor(prepared);
  const told: string[] = [];
  const inputs: MonitorInput[] = times.map((time, i) => ({
    ...{ time: begin + time, celsius: 50, ...(i % 3 === 0 ? { others: { acid: 1 } } : {}) },
    counts: cumulativeCounts({ 4: 18900 + 31 * i, 6: 4020 + 7 * i, 14: 330 + i }, { volumeMl: 10 }),
  }));
  const last = begin + (times[times.length - 1] as number);
  for (let hours = 1; hours <= silent; hours += 1) inputs.push({ kind: 'tick', time: last + hours * hour });
  for (const input of inputs) {
    const step = advanceMonitor(prepared, state, input);
    state = step.state;
    for (const { event, time } of step.events) told.push(`${(time - last) / day} ${event}`);
  }
  return { state, told: told.filter((one) => /_stale/.test(one)) };
}
const monday = (readings: number, every = 10 * minute) =>
  Array.from({ length: readings }, (_, i) => 64 * hour + i * every);

test('one that dies on its first day is told a day later, and not after twelve', () => {
  expect(
    through([0, ...monday(7)], 15 * 24)
      .told.filter((one) => !/acid/.test(one))
      .slice(0, 3),
  ).toEqual([...['1 readings_stale', '1 target_stale', '1 signal_stale']]);
  // six of Monday are too few to tell
  expect(through([0, ...monday(6)], 10 * 24).told).toEqual([]);
});

test('what is usual is then that of the others, and goes on from there', () => {
  const usual = (times: readonly number[]) => {
    const { state } = through(times);
    return [state.usualMs, state.targets?.[0]?.usualMs, state.alarms[0]?.usualMs];
  };
  expect(usual([0, ...monday(7)])).toEqual([10 * minute, 10 * minute, 10 * minute]);
  expect(usual([0, ...monday(40)])).toEqual([10 * minute, 10 * minute, 10 * minute]);
  // what came less often has learned by itself
  expect(through([0, ...monday(7)]).state.alarms[1]?.usualMs).toBeGreaterThan(day);
});

test.each([
  ['steady intervals', [0, ...monday(7)].map((_, i) => i * hour)],
  ['a first interval of eight times the longest', [0, 8, 9, 10, 11, 12, 13, 14].map((at) => at * hour)],
  ['an odd interval that is not the first', [0, 1, 2, 22, 23, 24, 25, 26].map((at) => at * hour)],
])('%s: nothing is forgotten', (_what, times) => {
  let usual: number | null = null;
  for (let i = 1; i < times.length; i += 1) {
    const interval = (times[i] as number) - (times[i - 1] as number);
    const counted: number = usual === null ? interval : Math.max(usual / 2, Math.min(2 * usual, interval));
    usual = usual === null ? interval : Math.floor(usual + (counted - usual) / 4 + 1 / 2);
  }
  expect(through(times).state.usualMs).toBe(usual);
});
