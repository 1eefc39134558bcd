/** Single steps of a monitor, worked out by hand: what each member of its answers says. */
import { describe, expect, test } from 'vitest';
import { iso4406 } from '../../../src/codes/index.ts';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import {
  advanceMonitor,
  type MonitorConfig,
  type MonitorInput,
  type PreparedMonitor,
  prepareMonitor,
  startMonitor,
  startUnit,
} from '../../../src/monitor/index.ts';
import { expectRefused } from '../../inputs/refused.ts';

const hour = 3600000;
const hot = { id: 'hot', type: 'high', figure: { quantity: 'celsius' }, setpoint: 65 } as const;
const wet = { id: 'wet', type: 'high', figure: { quantity: 'waterSaturation' }, setpoint: 0.8 } as const;

function run(config: MonitorConfig, inputs: readonly MonitorInput[]) {
  const prepared = prepareMonitor(config);
  let state = startMonitor(prepared);
  return inputs.map((input) => {
    const step = advanceMonitor(prepared, state, input);
    state = step.state;
    return step;
  });
}

const hourly = (n: number, more: (i: number) => object): MonitorInput[] =>
  Array.from({ length: n }, (_, i) => ({ time: i * hour, ...more(i) }));

test('a reading far ahead is set aside, by name, with the alarms it would raise by figures that are good', () => {
  const config = { codes: [], alarms: [hot, wet] };
  const before = hourly(3, () => ({ celsius: 40, waterSaturation: 0.3 }));
  const ahead = { time: 400 * 24 * hour, celsius: 70, waterSaturation: 0.9, qualities: { waterSaturation: 'bad' } };
  const last = run(config, [...before, ahead as MonitorInput]).pop();
  expect(last?.verdict?.arrival).toBe('set_aside');
  expect(last?.events).toEqual([{ time: 2 * hour, event: 'set_aside', reading: ahead.time, beyond: ['hot'] }]);
  expect(last?.state.arrivals).toMatchObject({ inOrder: 3, setAside: 1 });
});

test('a tick may bring the mode in which an alarm is silent', () => {
  const config = { codes: [], alarms: [{ ...hot, suppressedInModes: ['standby'] }] };
  const tick = { kind: 'tick', time: hour, mode: 'standby' } as const;
  const [, after, next] = run(config, [{ time: 0, celsius: 40 }, tick, { ...tick, time: 2 * hour, mode: 'run' }]);
  expect(after?.events.map(({ event }) => event)).toEqual(['suppressed']);
  expect(next?.events.map(({ event }) => event)).toEqual(['unsuppressed']);
});

test('of a figure that turns bad the findings that make it so are named, and no others', () => {
  const config = { codes: [], alarms: [hot, wet], limits: { mlPerMin: { low: 50, high: 150 } } };
  const counts = cumulativeCounts({ 4: 18900, 6: 4020, 14: 330 }, { volumeMl: 10 });
  const odd = { time: 0, counts, mlPerMin: 0, celsius: 40, qualities: { celsius: 'bad' } } as const;
  const [step] = run(config, [odd]);
  const bad = step?.events.filter(({ event }) => event === 'quality_bad');
  expect(bad).toEqual([
    { time: 0, event: 'quality_bad', figure: 'counts', findings: ['no_flow'] },
    { time: 0, event: 'quality_bad', figure: 'celsius', findings: ['flagged_by_instrument'] },
  ]);
});

test('what is remembered of counts outlives ticks and commands', () => {
  const counts = cumulativeCounts({ 4: 189000, 6: 40210, 14: 3307 }, { volumeMl: 100 });
  const config = { codes: [{ table: iso4406 }], alarms: [hot] };
  const between = (time: number): MonitorInput[] => [
    { kind: 'tick', time },
    { kind: 'command', time, command: 'acknowledge', alarm: 'hot' },
  ];
  const inputs = Array.from({ length: 8 }, (_, i) => [{ time: i * hour, counts }, ...between(i * hour + 1)]).flat();
  const found = run(config, inputs).flatMap(({ verdict }) => verdict?.findings.map(({ code }) => code) ?? []);
  expect(found).toContain('values_stuck');
});

test('a time behind is remembered beside one ahead', () => {
  const before = hourly(4, () => ({ celsius: 40 }));
  const ahead = { time: 400 * 24 * hour, celsius: 40 };
  const steps = run({ codes: [], alarms: [hot] }, [...before, { time: 2.5 * hour, celsius: 40 }, ahead]);
  expect(steps.pop()?.state.clock).toMatchObject({ ahead: { time: ahead.time }, behind: { time: 2.5 * hour } });
  const alone = run({ codes: [], alarms: [hot] }, [...before, ahead]).pop()?.state.clock;
  expect(Object.keys(alone ?? {})).toEqual(['ahead']);
});

describe('what was not prepared', () => {
  test.each([
    ['startMonitor', (raw: PreparedMonitor) => startMonitor(raw)],
    ['advanceMonitor', (raw: PreparedMonitor) => advanceMonitor(raw, {} as never, { time: 0 })],
    ['startUnit', (raw: PreparedMonitor) => startUnit(raw, { unit: 'gate', configuration: 'first' })],
  ])('is refused by %s in the words that say how', (_name, call) => {
    expectRefused('not_prepared', 'prepared', 'what prepareMonitor of version', () => call({ codes: [] } as never));
  });
});
