/** Learning anew counts from when it was said: an order that comes twice, or weeks late, forgets nothing of since. */
import { expect, test } from 'vitest';
import { germanTexts } from '../../../src/german/index.ts';
import {
  advanceMonitor,
  type MonitorEvent,
  prepareMonitor,
  resumeMonitor,
  startMonitor,
} from '../../../src/monitor/index.ts';
import { messageOf } from '../../../src/report/index.ts';

const day = 86400000;
const begin = Date.UTC(2026, 2, 1);
const prepared = prepareMonitor({ codes: [], follow: [{ id: 'six', figure: { other: 'six' }, least: 0.5 }] });

/** A reading each six hours, a step of 1.5 on day 85; the order to learn anew, given on day 50, comes on these days. */
function run(...comes: readonly number[]) {
  let state = startMonitor(prepared);
  const events: MonitorEvent[] = [];
  let seed = 7;
  for (let i = 0; i < 4 * 100; i += 1) {
    const at = i / 4;
    seed = (seed * 1103515245 + 12345) % 2147483648;
    const inputs = [
      ...(comes.includes(at) ? [{ kind: 'relearn', time: begin + 50 * day } as const] : []),
      { time: begin + at * day, others: { six: 12 + (at >= 85 ? 1.5 : 0) + (at < 50 ? 2 : 0) + seed / 4e9 } },
    ];
    for (const input of inputs) {
      const step = advanceMonitor(prepared, state, input);
      state = step.state;
      events.push(...step.events);
    }
  }
  expect(resumeMonitor(prepared, JSON.parse(JSON.stringify(state))).state).toEqual(state);
  return events.map(({ event, time }) => `${event} ${(time - begin) / day}`).filter((one) => !one.includes('stale'));
}

test('an order that comes a second time changes nothing and is told', () => {
  const once = run(50);
  expect(once).toEqual(['relearning 50', 'change_found 87']);
  for (const again of [60, 70, 80])
    expect(run(50, again)).toEqual(['relearning 50', `relearn_refused ${again - 0.25}`, 'change_found 87']);
});

test('one that comes late is learned from when it was given', () => {
  expect(run(60).filter((one) => !one.startsWith('change_found 5'))).toEqual(['relearning 59.75', 'change_found 87']);
});

test('the refusal says from when on it is learned', () => {
  const event = { time: begin, event: 'relearn_refused', followed: 'six', figure: 'other six', since: begin } as const;
  expect(messageOf(event).line).toBe('six: not learned anew. six is learned from 2026-03-01 00:00 on already.');
  expect(messageOf(event, germanTexts).line).toContain('wird schon seit');
});
