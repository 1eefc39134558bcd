/**
 * A command answers what its operator has seen, and is refused as late only where it is: not after an outage, nor where
 * one clock is ahead of the other and the monitor knows it (EventId of OPC 10000-9, from memory).
 */
import { expect, test } from 'vitest';
import { advanceMonitor, type MonitorInput, prepareMonitor, startMonitor } from '../../../src/monitor/index.ts';

const minute = 60000;
const alarms = [{ id: 'hot', type: 'high', figure: { quantity: 'celsius' }, setpoint: 65, latching: true } as const];
const prepared = prepareMonitor({ codes: [], alarms });
const tick = (at: number): MonitorInput => ({ kind: 'tick', time: at * minute });
const give = (command: 'acknowledge' | 'reset', at: number): MonitorInput => ({
  kind: 'command',
  command,
  alarm: 'hot',
  time: at * minute,
});
const read = (at: number, celsius: number, receivedAt?: number): MonitorInput => ({
  time: at * minute,
  celsius,
  ...(receivedAt === undefined ? {} : { receivedAt: receivedAt * minute }),
});

function last(inputs: readonly MonitorInput[]) {
  let state = startMonitor(prepared);
  let told = '';
  for (const input of inputs) {
    const step = advanceMonitor(prepared, state, input);
    state = step.state;
    for (const one of step.events) told = 'reason' in one ? `${one.event} ${one.reason}` : one.event;
  }
  return told;
}

// a network that was down from 180 to 720, with ticks all the while
const down = [0, 60, 120, 180].map((at) => read(at, 50));
for (let at = 190; at <= 720; at += 10) down.push(tick(at));

test('after an outage, an alarm that a reading of before raised is acknowledged and reset', () => {
  for (const taken of [630, 690]) {
    const raised = [...down, read(taken, 70)];
    expect(last([...raised, give('acknowledge', 722)])).toBe('acknowledged');
    expect(last([...raised, tick(721), give('acknowledge', 722)])).toBe('acknowledged');
    expect(last([...raised, read(taken + 20, 50), give('reset', 722)])).toBe('reset');
    // on its way while the alarm was raised
    expect(last([...raised, give('acknowledge', 718.9)])).toBe('refused older_than_alarm');
    expect(last([...raised, read(taken + 20, 50), give('reset', 718.9)])).toBe('refused older_than_return');
  }
});

test("the first alarm of a sensor whose clock is two hours behind the host's", () => {
  const raised = [read(0, 50), tick(120), read(1, 70)];
  expect(last([...raised, give('acknowledge', 121)])).toBe('acknowledged');
  expect(last([...raised, give('acknowledge', 118.9)])).toBe('refused older_than_alarm');
});

test("a sensor's clock ahead of the host's by less than a minute, or more, with receivedAt", () => {
  for (const ahead of [0.5, 5]) {
    const readings = [0, 1, 2, 3, 4, 5].map((at) => read(at, at < 5 ? 50 : 70, at - ahead));
    expect(last([...readings, give('acknowledge', 5.25 - ahead)])).toBe('acknowledged');
    expect(last([...readings, give('acknowledge', 4.75 - ahead)])).toBe('refused older_than_alarm');
  }
});

test("a sensor's clock ahead of the host's, without receivedAt: a minute off is right, more is not known", () => {
  const readings = [0, 1, 2, 3, 4, 5].map((at) => read(at, at < 5 ? 50 : 70));
  expect(last([...readings, give('acknowledge', 4.75)])).toBe('acknowledged');
  expect(last([...readings, give('acknowledge', 3.9)])).toBe('refused older_than_alarm');
});
