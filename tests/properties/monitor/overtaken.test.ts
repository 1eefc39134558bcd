/**
 * Readings that a tick has gone ahead of, as from a network that was down, and figures handed in late, as from a
 * laboratory: judged by when they were taken, told as of when they come.
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  advanceMonitor,
  type MonitorConfig,
  type MonitorEvent,
  type MonitorInput,
  type MonitorState,
  prepareMonitor,
  resumeMonitor,
  startMonitor,
} from '../../../src/monitor/index.ts';
import { some } from '../../volume.ts';

const minute = 60000;
const hour = 60 * minute;
const day = 24 * hour;
const begin = Date.UTC(2026, 10, 2);

function run(config: MonitorConfig, inputs: readonly MonitorInput[]) {
  const prepared = prepareMonitor(config);
  let state: MonitorState = startMonitor(prepared);
  const events: MonitorEvent[] = [];
  let taken = 0;
  for (const input of inputs) {
    const step = advanceMonitor(prepared, state, input);
    state = step.state;
    taken += 1;
    if (taken % 97 === 0) state = resumeMonitor(prepared, JSON.parse(JSON.stringify(state))).state;
    for (const event of step.events) {
      expect(event.time).toBeGreaterThanOrEqual(events[events.length - 1]?.time ?? event.time);
      events.push(event);
    }
  }
  return { state, events };
}

/** What the alarms tell, without when. */
const toldByAlarms = (events: readonly MonitorEvent[]) =>
  events.flatMap((one) => ('alarm' in one ? [`${one.alarm} ${one.event} ${'value' in one ? one.value : ''}`] : []));

interface Taken {
  readonly time: number;
  readonly celsius: number;
}

/** Readings handed in so many at a time, each some seconds after the last of its batch, with ticks of the host. */
function inBatches(taken: readonly Taken[], sizes: readonly number[], everyMs: number | null): MonitorInput[] {
  const come: { readonly at: number; readonly input: MonitorInput }[] = [];
  for (let from = 0, i = 0; from < taken.length; i += 1) {
    const batch = taken.slice(from, from + (sizes[i % sizes.length] as number));
    const at = (batch[batch.length - 1] as Taken).time + 30000;
    for (const one of batch) come.push({ at, input: { ...one, receivedAt: at } });
    from += batch.length;
  }
  const end = (come[come.length - 1] as { at: number }).at;
  if (everyMs !== null)
    for (let at = begin + everyMs / 2; at < end; at += everyMs) come.push({ at, input: { kind: 'tick', time: at } });
  return come.sort((a, b) => a.at - b.at).map(({ input }) => input);
}

describe('in batches that ticks have gone ahead of', () => {
  test('an hour and a half at 80 °C each day, told after half an hour: none is missed, none told twice', () => {
    const taken = Array.from({ length: 20 * 144 }, (_x, i) => {
      const ofDay = (i % 144) / 6;
      return { time: begin + i * 10 * minute, celsius: (ofDay >= 9.4 && ofDay < 10.9 ? 80 : 45) + (i % 7) / 10 };
    });
    const hot = {
      id: 'hot',
      type: 'high',
      figure: { quantity: 'celsius' },
      setpoint: 65,
      onDelayMs: hour / 2,
    } as const;
    for (const size of [1, 24, 144])
      for (const everyMs of [null, hour, 12 * hour]) {
        const { events } = run({ codes: [], alarms: [hot] }, inBatches(taken, [size], everyMs));
        const told = events.map(({ event }) => event);
        expect([size, everyMs, told.filter((event) => event === 'raised').length]).toEqual([size, everyMs, 20]);
        expect(told.filter((event) => event === 'returned')).toHaveLength(20);
        expect(told.length).toBe(40);
      }
  });

  const alarms = (onDelayMs: number): MonitorConfig['alarms'] => [
    { id: 'hot', type: 'high', figure: { quantity: 'celsius' }, setpoint: 60, deadband: 2, onDelayMs },
    { id: 'rise', type: 'rise', figure: { quantity: 'celsius' }, setpoint: 12, withinMs: 6 * hour, onDelayMs },
    { id: 'fall', type: 'fall', figure: { quantity: 'celsius' }, setpoint: 12, withinMs: 3 * hour, offDelayMs: hour },
  ];

  test('whatever the batches and the ticks, the alarms tell the same as of readings one by one', () => {
    let raised = 0;
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 40, max: 70 }), { minLength: 20, maxLength: 120 }),
        fc.array(fc.integer({ min: 1, max: 40 }), { minLength: 1, maxLength: 6 }),
        fc.constantFrom(0, hour, 5 * hour),
        fc.constantFrom(20 * minute, hour, 7 * hour),
        (values, sizes, onDelayMs, everyMs) => {
          // each value stands for three readings, so that delays run
          const taken = values.flatMap((celsius, i) =>
            [0, 1, 2].map((k) => ({ time: begin + (3 * i + k) * hour, celsius: celsius + k / 10 })),
          );
          const config: MonitorConfig = { codes: [], alarms: alarms(onDelayMs) ?? [], staleAfterMs: null };
          const still = { ...config, alarms: (config.alarms ?? []).map((one) => ({ ...one, staleAfterMs: null })) };
          const one = toldByAlarms(run(still, taken).events).filter((told) => !told.includes('chattering'));
          const many = run(still, inBatches(taken, sizes, everyMs)).events;
          expect(toldByAlarms(many).filter((told) => !told.includes('chattering'))).toEqual(one);
          raised += one.length;
        },
      ),
      { numRuns: some(600, 40) },
    );
    expect(raised).toBeGreaterThan(some(600, 40));
  });

  test('a followed figure has its blocks: three days of an outage are three days', () => {
    const taken = Array.from({ length: 24 * 90 }, (_x, i) => ({
      time: begin + i * hour,
      celsius: 50 + Math.sin(i) + (i >= 24 * 60 ? 5 : 0),
    }));
    const config: MonitorConfig = {
      codes: [],
      follow: [{ id: 'warm', figure: { quantity: 'celsius' }, least: 2 }],
      staleAfterMs: null,
    };
    const sizes = [72];
    const trend = (inputs: readonly MonitorInput[]) =>
      run(config, [...inputs, { kind: 'tick', time: begin + 90 * day }]);
    const one = trend(taken);
    expect(one.state.followed[0]?.trend).toBeDefined();
    expect(trend(inBatches(taken, sizes, hour)).state.followed).toEqual(one.state.followed);
    const changes = (events: readonly MonitorEvent[]) => events.filter(({ event }) => event === 'change_found');
    expect(changes(one.events)).toHaveLength(1);
    expect(changes(trend(inBatches(taken, sizes, hour)).events)).toMatchObject(
      changes(one.events).map(({ time: _time, ...rest }) => rest),
    );
  });

  test('a figure whose block a tick has closed goes into the next: none is lost', () => {
    const config: MonitorConfig = { codes: [], follow: [{ id: 'warm', figure: { quantity: 'celsius' } }] };
    const at = (hours: number, celsius: number) => ({ time: begin + hours * hour, celsius });
    const { state } = run(config, [
      at(20, 40),
      { kind: 'tick', time: begin + 25 * hour },
      at(22, 50),
      at(23, 52),
      at(25, 60),
    ]);
    expect(state.followed[0]?.open).toMatchObject({ count: 3, mean: 54 });
  });
});

describe('a figure that is handed in late, and is news', () => {
  const acid: MonitorConfig = {
    codes: [],
    alarms: [
      { id: 'acid', type: 'high', figure: { other: 'acid number' }, setpoint: 1, staleAfterMs: 30 * day },
      { id: 'hot', type: 'high', figure: { quantity: 'celsius' }, setpoint: 65 },
    ],
    follow: [{ id: 'acid', figure: { other: 'acid number' }, blockMs: 7 * day, least: 0.3 }],
  };
  const weeks = 30;
  const sensor = Array.from({ length: weeks * 7 * 4 }, (_x, i) => ({
    at: begin + i * 6 * hour,
    input: { time: begin + i * 6 * hour, celsius: 45 + (i % 7) / 10 } as MonitorInput,
  }));
  /** A bottle a week, whose acid number comes so much later; twice the limit from the tenth week on. */
  const bottles = (laterMs: number, again = false) =>
    Array.from({ length: weeks }, (_x, week) => {
      const time = begin + week * 7 * day + 3 * hour + minute;
      const input: MonitorInput = { time, others: { 'acid number': (week < 10 ? 0.4 : 2) + (week % 3) / 50 } };
      return [{ at: time + laterMs, input }, ...(again ? [{ at: time + laterMs + 2 * day, input }] : [])];
    }).flat();
  const inOrder = (list: readonly { readonly at: number; readonly input: MonitorInput }[]) =>
    [...list].sort((a, b) => a.at - b.at).map(({ input }) => input);

  test.each([0, 29 * minute, 3 * day])(
    'an acid number %i ms after its bottle is judged, once, and followed',
    (late) => {
      const onTime = run(acid, inOrder([...sensor, ...bottles(0)])).state.followed[0]?.trend;
      expect(onTime).toBeDefined();
      for (const again of [false, true]) {
        const { state, events } = run(acid, inOrder([...sensor, ...bottles(late, again)]));
        const raised = events.filter(({ event }) => event === 'raised');
        expect(raised).toMatchObject([{ alarm: 'acid', value: 2.02 }]);
        expect((raised[0]?.time as number) - (begin + 70 * day + 3 * hour + minute)).toBeLessThanOrEqual(late);
        expect(state.followed[0]?.trend).toEqual(onTime);
      }
    },
  );

  test('two instruments whose readings cross: each figure is judged', () => {
    const inputs = Array.from({ length: 60 }, (_x, i) => [
      { time: begin + i * 10 * minute + 5000, celsius: 50 },
      { time: begin + i * 10 * minute, others: { 'acid number': i < 30 ? 0.5 : 2 } },
    ]).flat();
    const { events } = run(acid, inputs);
    expect(events.filter(({ event }) => event === 'raised')).toMatchObject([
      { alarm: 'acid', time: begin + 300 * minute + 5000 },
    ]);
  });

  test('of a figure that has been heard since nothing is taken back', () => {
    const at = (hours: number, celsius: number) => ({ time: begin + hours * hour, celsius });
    const { state, events } = run(acid, [at(1, 50), at(3, 50), at(2, 80)]);
    expect(events).toMatchObject([{ event: 'late', beyond: ['hot'] }]);
    expect(state.alarms.every(({ active }) => active !== true)).toBe(true);
  });

  test('it is judged if it was taken after the wait for it began, or by an alarm that has just been added', () => {
    const taken = (time: number) => ({ time, others: { 'acid number': 2 } });
    const since = (time: number) =>
      run(acid, [{ kind: 'tick', time: begin }, { time: begin + hour, celsius: 50 }, taken(time)]).events;
    expect(since(begin)).toMatchObject([{ event: 'late', beyond: ['acid'] }]);
    expect(since(begin + 1)).toMatchObject([
      { event: 'late', beyond: [] },
      { event: 'raised', alarm: 'acid' },
    ]);
    const { state: before } = run({ codes: [], alarms: acid.alarms?.slice(1) }, [{ time: begin, celsius: 50 }]);
    const prepared = prepareMonitor(acid);
    const { state } = resumeMonitor(prepared, JSON.parse(JSON.stringify(before)));
    const { events } = advanceMonitor(prepared, state, taken(begin - hour));
    expect(events).toMatchObject([
      { event: 'late', beyond: [] },
      { event: 'raised', alarm: 'acid' },
    ]);
  });

  test('what was taken before all began is told, and judged by none', () => {
    const { events } = run(acid, [
      { time: begin, celsius: 50 },
      { time: begin - day, others: { 'acid number': 2 } },
    ]);
    expect(events).toMatchObject([{ event: 'late', beyond: ['acid'] }]);
  });
});
