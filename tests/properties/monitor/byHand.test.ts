/** Single steps of a monitor, worked out by hand: what each member of its answers says. */
import { describe, expect, test } from 'vitest';
import { iso4406 } from '../../../src/codes/index.ts';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import { openTrend } from '../../../src/monitor/followed/keptTrend.ts';
import { isChange, keptChange, movedChange, openChange } from '../../../src/monitor/followed/means.ts';
import {
  advanceMonitor,
  advanceUnit,
  type MonitorConfig,
  type MonitorInput,
  type PreparedMonitor,
  prepareMonitor,
  resumeMonitor,
  startMonitor,
  startUnit,
} from '../../../src/monitor/index.ts';
import { unheardMs } from '../../../src/monitor/targets.ts';
import { packWhole, wholeAt } from '../../../src/state/packed.ts';
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

test('a verdict tells as judged what an alarm has taken; of the others those it lies beyond are named', () => {
  const low = { id: 'low', type: 'low', figure: { quantity: 'kPa' }, setpoint: 50 } as const;
  const last = (more: MonitorInput) =>
    run({ codes: [], alarms: [hot, wet, low] }, [...hourly(3, () => ({ celsius: 40, kPa: 60 })), more]).pop();
  const judged = (more: MonitorInput) => last(more)?.verdict?.alarms.map((alarm) => alarm.judged);
  expect(judged({ time: 3 * hour, celsius: 40 })).toEqual([true, false, false]);
  expect(judged({ time: 9000 * hour, celsius: 40 })).toEqual([false, false, false]);
  expect(judged({ time: 2 * hour, celsius: 40, kPa: 60 })).toEqual([false, false, false]);
  // of a late one only a figure that has not been heard since; a pressure that is not there is beyond nothing
  const late = { time: 1.5 * hour, celsius: 70, waterSaturation: 0.9 };
  expect(judged(late)).toEqual([false, true, false]);
  expect(last(late)?.events).toMatchObject([
    { event: 'late', beyond: ['hot'] },
    { event: 'raised', alarm: 'wet' },
  ]);
});

test('a reading too late for the last sixteen takes the place of none of them', () => {
  const config = { codes: [], alarms: [hot] };
  const again = [-1, 1, -1].map((i) => ({ time: i * hour, celsius: 40 }));
  const steps = run(config, [...hourly(17, () => ({ celsius: 40 })), ...again]);
  expect(steps.slice(17).map(({ verdict }) => verdict?.arrival)).toEqual(['too_late', 'repeated', 'too_late']);
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

test('readings in order are counted, and of them the bad ones', () => {
  const config = { codes: [], alarms: [hot], limits: { mlPerMin: { low: 50, high: 150 } } };
  const counts = (i: number) => cumulativeCounts({ 4: 18900 + i, 6: 4020 + i, 14: 330 + i }, { volumeMl: 10 });
  const steps = run(
    config,
    hourly(5, (i) => ({ counts: counts(i), mlPerMin: i === 1 || i === 2 ? 0 : 100 })),
  );
  expect(steps.map(({ state }) => state.arrivals.bad)).toEqual([0, 1, 2, 2, 2]);
  expect(steps.map(({ state }) => state.arrivals.inOrder)).toEqual([1, 2, 3, 4, 5]);
  expect(steps.map(({ verdict }) => verdict?.quality === 'bad')).toEqual([false, true, true, false, false]);
});

test('what the host said of the time is remembered of the last reading alone, and how far behind of all', () => {
  const steps = run({ codes: [], alarms: [hot] }, [
    { time: 0, celsius: 40, receivedAt: 900 },
    { time: hour, celsius: 40, receivedAt: hour + 500 },
    { time: 2 * hour, celsius: 40 },
  ]);
  expect(steps.map(({ state }) => state.receivedAt)).toEqual([900, hour + 500, undefined]);
  expect(steps.map(({ state }) => state.lagMs)).toEqual([900, 500, 500]);
  expect(Object.keys(steps[2]?.state ?? {})).not.toContain('receivedAt');
  expect(Object.keys(run({ codes: [] }, [{ time: 0, celsius: 40 }])[0]?.state ?? {})).not.toContain('lagMs');
});

test('a reading set aside is judged when a tick shows that the clock was set', () => {
  const before = hourly(3, () => ({ celsius: 40 }));
  const far = 400 * 24 * hour;
  const ticks = [1, 2].map((i): MonitorInput => ({ kind: 'tick', time: far + i * 60000 }));
  const events = run({ codes: [], alarms: [hot] }, [...before, { time: far, celsius: 70 }, ...ticks]).flatMap(
    (step) => step.events,
  );
  const [set] = events.filter(({ event }) => event === 'clock_set');
  expect(set).toMatchObject({ judged: [far] });
  expect(events.filter(({ event }) => event === 'raised')).toMatchObject([{ alarm: 'hot', value: 70, time: far }]);
});

test('a time ahead is remembered beside one behind', () => {
  const before = hourly(4, () => ({ celsius: 40 }));
  const ahead = { time: 400 * 24 * hour, celsius: 40 };
  const steps = run({ codes: [], alarms: [hot] }, [...before, ahead, { time: 2.5 * hour, celsius: 40 }]);
  expect(steps.pop()?.state.clock).toMatchObject({ ahead: { time: ahead.time }, behind: { time: 2.5 * hour } });
  const alone = run({ codes: [], alarms: [hot] }, [...before, { time: 2.5 * hour, celsius: 40 }]).pop()?.state.clock;
  expect(Object.keys(alone ?? {})).toEqual(['behind']);
});

test('the host shows a clock set back by the pace of readings it has timed, and between two that are there', () => {
  const config = { codes: [], alarms: [hot] };
  const untimed = hourly(4, () => ({ celsius: 40 }));
  const timed = hourly(4, (i) => ({ celsius: 40, receivedAt: i * hour }));
  const between = { time: 2.5 * hour, celsius: 41, receivedAt: 4 * hour };
  const wordOf = (inputs: readonly MonitorInput[]) => {
    const last = run(config, inputs).pop();
    return [last?.verdict?.arrival, last?.events.some(({ event }) => event === 'clock_set')];
  };
  expect(wordOf([...timed, between])).toEqual(['in_order', true]);
  expect(wordOf([...untimed, between])).toEqual(['late', false]);
  for (const time of [2 * hour, hour]) expect(wordOf([...timed, { ...between, time }])).toEqual(['repeated', false]);
});

test('a tick behind leaves the time where it was', () => {
  const steps = run({ codes: [], alarms: [hot] }, [
    ...hourly(3, () => ({ celsius: 40 })),
    { kind: 'tick', time: hour },
  ]);
  expect(steps.map(({ state }) => state.time)).toEqual([0, hour, 2 * hour, 2 * hour]);
});

test('an interval as long as the longest that is no leap teaches whole', () => {
  const config = { codes: [], clockJumpMs: 240 * hour };
  const usual = (time: number) =>
    run(config, [
      { time: 0, celsius: 40 },
      { time, celsius: 40 },
    ]).pop()?.state.usualMs;
  expect(usual(240 * hour)).toBe(240 * hour);
});

test('a reading set aside goes to the alarms and followed figures that it was kept for', () => {
  const far = 400 * 24 * hour;
  const silent = { ...hot, id: 'silent', suppressedInModes: ['standby'] };
  const pressed = { id: 'hot', type: 'high', figure: { quantity: 'kPa' }, setpoint: 65 } as const;
  const before = run({ codes: [], alarms: [silent, hot] }, [
    ...hourly(3, () => ({ celsius: 40, kPa: 60 })),
    { time: far, celsius: 70, kPa: 60, mode: 'standby' },
  ]).pop()?.state;
  const raisedUnder = (alarms: NonNullable<MonitorConfig['alarms']>) => {
    const prepared = prepareMonitor({ codes: [], alarms });
    const { state } = resumeMonitor(prepared, JSON.parse(JSON.stringify(before)));
    const { events } = advanceMonitor(prepared, state, { kind: 'tick', time: far + 60000 });
    return events.flatMap((one) => (one.event === 'raised' ? [one.alarm] : []));
  };
  expect(raisedUnder([silent, hot])).toEqual(['hot']);
  expect(raisedUnder([hot, silent])).toEqual(['hot']);
  expect(raisedUnder([hot])).toEqual(['hot']);
  expect(raisedUnder([pressed, silent])).toEqual([]);
});

test('the greatest means that can be kept are taken back', () => {
  const state = { last: 5, since: 4, settled: false, level: null, steps: { count: 0, square: 0 } };
  for (const most of [9999999e54, 9999999, 9999999e-18])
    for (const ring of [[most], [-most], [most, null, most]]) {
      const text = keptChange({ ...state, ring });
      const shares = openChange(text).ring.map((mean) => mean === null || Math.abs(mean / most));
      expect([isChange(text), shares]).toEqual([true, ring.map((mean) => mean === null || expect.closeTo(1, 12))]);
    }
  const largest = keptChange({ ...state, ring: [9999999e54] });
  expect(isChange(packWhole(wholeAt(largest, 0, 1) + 1, 1) + largest.slice(1))).toBe(false);
});

test('a change, as a state keeps it is read back whole, moved, and refused where it is no such text', () => {
  const state = { last: 5, since: 4, settled: true, level: 15.2, steps: { count: 7, square: 0.4 }, ring: [15.1, 15.3] };
  const text = keptChange(state);
  expect(openChange(text)).toMatchObject({ ...state, ring: [expect.closeTo(15.1, 5), expect.closeTo(15.3, 5)] });
  expect(openChange(movedChange(text, 10))).toMatchObject({ last: 15, since: 14, settled: true });
  expect(isChange(text)).toBe(true);
  for (const wrong of ['', text.slice(1), text.slice(0, 30), `${text}\u0001...`, `${text}!`, text.replace(/.$/, '"')])
    expect([wrong, isChange(wrong)]).toEqual([wrong, false]);
});

test('a trend of eight blocks has a slope, and limits only once memory can be told', () => {
  const config: MonitorConfig = { codes: [], follow: [{ id: 'x', figure: { other: 'x' }, blockMs: hour, blocks: 30 }] };
  const trends = run(
    config,
    hourly(11, (i) => ({ others: { x: i % 2 } })),
  ).map(({ state }) => state.followed[0]?.trend);
  expect(trends.slice(0, 8)).toEqual(Array(8).fill(undefined));
  expect(openTrend(trends[8] as string)).toMatchObject({ blocks: 8, perDay: 0, low: null, high: null, p: null });
  const told = openTrend(trends[10] as string);
  expect([told.blocks, told.p]).toEqual([10, 1]);
  expect(told.low).toBeLessThan(0);
  expect(told.high).toBe(-(told.low as number));
});

test('a limit of bytes is a whole number of bytes', () => {
  expectRefused('bad_configuration', 'config', 'a whole number of bytes', () =>
    prepareMonitor({ codes: [], maxStateBytes: 1.5 }),
  );
});

test('a delivery that is taken is answered by what became of it', () => {
  const prepared = prepareMonitor({ codes: [], alarms: [hot] }, { configuration: 'first' });
  const record = startUnit(prepared, { unit: 'gate' });
  const taken = advanceUnit(prepared, record, { seq: 1, payload: { time: 0, celsius: 40 } });
  expect([taken.outcome, taken.verdict?.arrival, taken.record.seq]).toEqual(['accepted', 'in_order', 1]);
});

test('another configuration is taken by its name, and refused under one that was not prepared', () => {
  const record = startUnit(prepareMonitor({ codes: [], alarms: [hot] }, { configuration: 'first' }), { unit: 'gate' });
  const second = prepareMonitor({ codes: [], alarms: [wet] }, { configuration: 'second' });
  const change = (configuration: string) => ({
    ...{ seq: 1, payload: { kind: 'configuration', time: 0, configuration } as const },
  });
  const taken = advanceUnit(second, record, change('second'));
  expect([taken.outcome, taken.record.configuration, taken.events[0]?.event]).toEqual([
    ...['accepted', 'second', 'configured'],
  ]);
  expect(() => advanceUnit(second, record, change('third'))).toThrow(/^input\.configuration: received/);
});

test('what never came is stale only once 10 readings have shown what is usual', () => {
  const state = (inOrder: number, usualMs: number | undefined) => ({ arrivals: { inOrder }, usualMs }) as never;
  expect([9, 10].map((n) => unheardMs(state(n, hour)))).toEqual([Infinity, 24 * hour]);
  expect([unheardMs(state(10, 10 * hour)), unheardMs(state(10, undefined))]).toEqual([100 * hour, Infinity]);
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
