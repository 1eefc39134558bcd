/**
 * A unit's record: however its inputs are delivered, cut and replayed, the record and the events are the same, bit for
 * bit.
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  advanceMonitor,
  advanceUnit,
  type MonitorConfig,
  prepareMonitor,
  type RejectedEvent,
  startMonitor,
  startUnit,
  type UnitInput,
  type UnitPayload,
  type UnitRecord,
} from '../../../src/monitor/index.ts';
import { messageOf } from '../../../src/report/index.ts';
import { some } from '../../volume.ts';

const hot = { id: 'hot', type: 'high', figure: { quantity: 'celsius' }, setpoint: 65, deadband: 3 } as const;
const spring: MonitorConfig = { codes: [], alarms: [hot] };
const summer: MonitorConfig = {
  codes: [],
  alarms: [
    { ...hot, setpoint: 70 },
    { ...hot, id: 'very hot', setpoint: 80 },
  ],
};
const prepared = { spring: prepareMonitor(spring), summer: prepareMonitor(summer, { configuration: 'summer' }) };

const payload: fc.Arbitrary<UnitPayload> = fc.oneof(
  {
    weight: 8,
    arbitrary: fc.record({ time: fc.nat({ max: 1e6 }), celsius: fc.integer({ min: 50, max: 90 }) }),
  },
  { weight: 1, arbitrary: fc.record({ kind: fc.constant('tick' as const), time: fc.nat({ max: 1e6 }) }) },
  // one that cannot be taken
  { weight: 1, arbitrary: fc.constant({ time: 5, celcius: 3 } as unknown as UnitPayload) },
  {
    weight: 1,
    arbitrary: fc.record({
      kind: fc.constant('command' as const),
      time: fc.nat({ max: 1e6 }),
      alarm: fc.constantFrom('hot', 'very hot'),
      command: fc.constantFrom('acknowledge' as const, 'reset' as const),
    }),
  },
  {
    weight: 1,
    arbitrary: fc.record({
      kind: fc.constant('configuration' as const),
      time: fc.nat({ max: 1e6 }),
      configuration: fc.constantFrom('spring', 'summer'),
    }),
  },
);

/** What the host hands in with an input: what was prepared of the configuration that holds by then. */
function inForce(inputs: readonly UnitInput[], seq: number) {
  let name: 'spring' | 'summer' = 'spring';
  for (const { payload: one } of inputs.slice(0, seq))
    if (one.kind === 'configuration') name = one.configuration as 'spring' | 'summer';
  return prepared[name];
}

function deliver(inputs: readonly UnitInput[], order: readonly number[], restart: boolean) {
  let record: UnitRecord = startUnit(prepared.spring, { unit: 'upper gate', configuration: 'spring' });
  const events = new Map<string, string>();
  for (const place of order) {
    const input = inputs[place] as UnitInput;
    const before = JSON.stringify(record);
    const step = advanceUnit(inForce(inputs, Math.min(input.seq, record.seq + 1)), record, input);
    if (step.outcome === 'duplicate' || step.outcome === 'gap') {
      expect(JSON.stringify(step.record)).toBe(before);
      expect(step.events).toEqual([]);
    } else expect(step.record.seq).toBe(record.seq + 1);
    if (step.outcome === 'gap') expect(step.missing).toBe(record.seq + 1);
    if (step.outcome === 'rejected') expect(step.events).toMatchObject([{ event: 'rejected' }]);
    for (const event of step.events) {
      expect(events.has(event.id)).toBe(false);
      events.set(event.id, JSON.stringify(event));
    }
    record = restart ? JSON.parse(JSON.stringify(step.record)) : step.record;
  }
  return { record: JSON.stringify(record), events: [...events.entries()] };
}

describe('a record', () => {
  test('any prefix, cut anywhere and replayed with repetitions: the same record and events, bit for bit', () => {
    fc.assert(
      fc.property(
        fc.array(payload, { minLength: 1, maxLength: 25 }),
        fc.array(fc.nat()),
        fc.nat(),
        (payloads, extra, cut) => {
          const inputs = payloads.map((one, i): UnitInput => ({ seq: i + 1, payload: one }));
          const straight = inputs.map((_one, i) => i);
          const whole = deliver(inputs, straight, false);
          // delivered with repetitions, and with inputs ahead of their turn, which wait
          const messy = straight.flatMap((place) => [
            place,
            ...extra.filter((x) => x % inputs.length === place).map((x) => (x >> 3) % inputs.length),
          ]);
          const again = deliver(inputs, [...messy, ...straight], true);
          expect(again.record).toBe(whole.record);
          expect(again.events).toEqual(whole.events);
          const first = deliver(inputs, straight.slice(0, cut % inputs.length), true);
          expect(whole.events.slice(0, first.events.length)).toEqual(first.events);
        },
      ),
      { numRuns: some(500, 200) },
    );
  });

  const start = startUnit(prepared.spring, { unit: 'upper gate', configuration: 'spring' });

  test('outcomes and ids', () => {
    const first = advanceUnit(prepared.spring, start, { seq: 1, payload: { time: 0, celsius: 70 } });
    expect(first).toMatchObject({ outcome: 'accepted', events: [{ id: 'upper gate.1.1', event: 'raised' }] });
    const gap = advanceUnit(prepared.spring, first.record, { seq: 4, payload: { time: 1, celsius: 70 } });
    expect(gap).toEqual({ record: first.record, outcome: 'gap', missing: 2, verdict: null, events: [] });
    const bad = advanceUnit(prepared.spring, first.record, { seq: 2, payload: { time: 1, celcius: 70 } as never });
    expect(bad).toMatchObject({
      outcome: 'rejected',
      record: { seq: 2, state: first.record.state },
      events: [{ id: 'upper gate.2.1', event: 'rejected', code: 'unknown_option', parameter: 'input.celcius' }],
    });
  });

  test('an input that is refused is told at its own time, or when it was received, else at that of the last', () => {
    const begin = Date.UTC(2026, 2, 1);
    const first = advanceUnit(prepared.spring, start, { seq: 1, payload: { time: begin, celsius: 50 } }).record;
    const at = (payload: object, record = first) =>
      advanceUnit(prepared.spring, record, { seq: record.seq + 1, payload: payload as never }).events[0]?.time;
    expect(at({ time: begin + 5, celsius: 'x' })).toBe(begin + 5);
    expect(at({ time: begin + 5, celsius: 'x' }, start)).toBe(begin + 5);
    expect(at({ time: 'noon', celsius: 'x', receivedAt: begin + 7 })).toBe(begin + 7);
    expect(at({ time: 'noon', celsius: 'x' })).toBe(begin);
    // in seconds: whatever else is wrong, it is no time
    expect(at({ time: begin / 1000, celsius: 'x', receivedAt: begin + 7 })).toBe(begin + 7);
    expect(at(null as never)).toBe(begin);
    expect(at({ celsius: 'x' }, start)).toBe(0);
  });

  test('of several mistakes the event tells the first by its own name, then the others', () => {
    const payload = { time: 0, celsius: 'warm', kPa: 'low', counts: { 4: 1890, 6: 402, 14: 33 } } as never;
    const [event] = advanceUnit(prepared.spring, start, { seq: 1, payload }).events as RejectedEvent[];
    expect(event).toMatchObject({ code: 'unknown_option', parameter: 'input.counts.4', received: "'4'" });
    expect(event?.expected).toMatch(/^cumulativeCounts\(\{ 4: 1890, 6: 402 \}\) around counts by size/);
    expect(event?.expected).toContain("; input.celsius: received 'warm', expected a temperature");
    expect(messageOf(event as RejectedEvent, undefined, { unit: 'Lock 3' }).line).toContain('cumulativeCounts');
    const one = advanceUnit(prepared.spring, start, { seq: 1, payload: { time: 0, celsius: 'warm' } as never });
    expect(one.events).toMatchObject([{ parameter: 'input.celsius', expected: expect.not.stringContaining('beside') }]);
    const many = { time: 0, celsius: 40, ...Object.fromEntries(Array.from({ length: 40 }, (_, i) => [`x${i}`, i])) };
    const told = advanceUnit(prepared.spring, start, { seq: 1, payload: many as never }).events as RejectedEvent[];
    expect(told[0]?.expected).toMatch(/; and \d+ more$/);
  });

  test('another configuration: told, and asked for from there on', () => {
    const change = { kind: 'configuration', configuration: 'summer', time: 9 } as const;
    const changed = advanceUnit(prepared.summer, start, { seq: 1, payload: change });
    expect(changed.events).toEqual([
      {
        ...{ time: 9, event: 'configured', configuration: 'summer', id: 'upper gate.1.1' },
        ...{ kept: ['hot'], dropped: [], added: ['very hot'] },
      },
    ]);
    const next = { seq: 2, payload: { time: 10, celsius: 68 } };
    expect(advanceUnit(prepared.summer, changed.record, next).outcome).toBe('accepted');
    for (const run of [
      () => advanceUnit(prepared.spring, changed.record, next),
      () => advanceUnit(prepared.summer, start, { seq: 1, payload: { time: 0, celsius: 1 } }),
      () => advanceUnit(prepared.summer, start, { seq: 1, payload: { ...change, configuration: 'autumn' } }),
    ])
      expect(run).toThrow(expect.objectContaining({ code: 'bad_configuration' }));
  });

  test('another configuration is timed as a command is: not before the last input, and not far ahead', () => {
    const [minute, day] = [60000, 86400000];
    const begin = Date.UTC(2026, 2, 1);
    let record = start;
    for (const i of [0, 1, 2])
      record = advanceUnit(prepared.spring, record, {
        seq: i + 1,
        payload: { time: begin + i * minute, celsius: 70 },
      }).record;
    const none = prepareMonitor({ codes: [] }, { configuration: 'none' });
    const at = (time: number) =>
      advanceUnit(none, record, { seq: 4, payload: { kind: 'configuration', configuration: 'none', time } });
    const times = (time: number) => at(time).events.map((one) => `${one.event} ${(one.time - begin) / minute}`);
    expect(times(begin - 5 * minute)).toEqual(['configured 2', 'dropped 2']);
    expect(times(begin + 5 * minute)).toEqual(['configured 5', 'dropped 5']);
    expect(times(begin + 40 * day)).toEqual(['configured 2', 'dropped 2']);
    // the next input decides, as after a tick
    const later = advanceUnit(none, at(begin + 40 * day).record, {
      seq: 5,
      payload: { kind: 'tick', time: begin + 40 * day },
    });
    expect(later.events.map(({ event }) => event)).toContain('clock_set');
    expect(at(begin + 5 * minute).record.state.time).toBe(begin + 5 * minute);
  });

  test('what an input may be is told whole: the kinds of a unit, and that there is no alarm', () => {
    const bare = prepareMonitor({ codes: [] });
    const expectedOf = (payload: object) =>
      advanceUnit(bare, startUnit(bare, { unit: 'x' }), { seq: 1, payload: payload as never }).events.map(
        (one) => (one as RejectedEvent).expected,
      )[0];
    expect(expectedOf({ kind: 'configuratoin', time: 0 })).toBe(
      "one of 'reading', 'tick', 'command', 'relearn', 'configuration'",
    );
    expect(() => advanceMonitor(bare, startMonitor(bare), { kind: 'configuratoin', time: 0 } as never)).toThrow(
      /one of 'reading', 'tick', 'command', 'relearn'$/,
    );
    expect(expectedOf({ kind: 'command', command: 'reset', alarm: 'hot', time: 0 })).toBe(
      'none: the configuration has no alarms',
    );
    expect(expectedOf({ kind: 'relearn', followed: 'hot', time: 0 })).toBe(
      'none: the configuration has no followed figures',
    );
  });

  test('what new settings make due is told as of the change; what was due before has its own time', () => {
    const hour = 3600000;
    const slow = prepareMonitor({ codes: [], alarms: [hot] });
    const shorter = { ...hot, reAlarmAfterMs: 7 * hour, staleAfterMs: hour };
    const quick = prepareMonitor({ codes: [], alarms: [shorter], staleAfterMs: 2 * hour }, { configuration: 'quick' });
    const payloads: [typeof slow, UnitPayload][] = [
      [slow, { time: 0, celsius: 70 }],
      [slow, { time: 5 * hour, celsius: 70 }],
      [slow, { kind: 'command', alarm: 'hot', command: 'shelve', forMs: hour, time: 5 * hour }],
      [quick, { kind: 'configuration', configuration: 'quick', time: 8 * hour }],
      [quick, { kind: 'tick', time: 22 * hour }],
    ];
    let record = startUnit(slow, { unit: 'upper gate' });
    const told = payloads.map(([of, payload], i) => {
      const step = advanceUnit(of, record, { seq: i + 1, payload });
      record = step.record;
      return step.events.map(({ event, time }) => `${time / hour} ${event}`);
    });
    const due = ['signal_stale', 'readings_stale', 're_alarmed'].map((event) => `8 ${event}`);
    expect(told[3]).toEqual(['6 unshelved', '6 raised', '8 configured', ...due]);
    expect(told[4]).toEqual(['21 re_alarmed']);
  });

  test('a record of an earlier version of the library is taken over at the next input', () => {
    const old = { ...start, library: '0.1.9' };
    const { record } = advanceUnit(prepared.spring, old, { seq: 1, payload: { time: 0, celsius: 70 } });
    expect(record).toEqual(advanceUnit(prepared.spring, start, { seq: 1, payload: { time: 0, celsius: 70 } }).record);
  });

  test('what an earlier version left and does not go on is told, before what the input brings, or its refusal', () => {
    const { record } = advanceUnit(prepared.spring, start, { seq: 1, payload: { time: 0, celsius: 70 } });
    const [alarm] = record.state.alarms;
    // an alarm of that name that stood for another figure
    const alarms = [{ ...alarm, of: 'high kPa' }];
    const old = { ...record, library: '0.1.9', state: { ...record.state, alarms } } as UnitRecord;
    const words = (payload: unknown) =>
      advanceUnit(prepared.spring, old, { seq: 2, payload } as UnitInput).events.map(
        ({ id, event }) => `${id} ${event}`,
      );
    const first = ['upper gate.2.1 configured', 'upper gate.2.2 dropped'];
    expect(words({ time: 60000, celsius: 71 })).toEqual([...first, 'upper gate.2.3 raised']);
    expect(words({ time: 60000, celcius: 71 })).toEqual([...first, 'upper gate.2.3 rejected']);
    // where all goes on nothing is told
    const same = { ...record, library: '0.1.9' };
    expect(advanceUnit(prepared.spring, same, { seq: 2, payload: { kind: 'tick', time: 1 } }).events).toEqual([]);
  });
});

test('a shelf that a configuration cuts short is told as of the last input, before it ends', () => {
  const hot = { id: 'hot', type: 'high', figure: { quantity: 'celsius' }, setpoint: 65 } as const;
  const of = (hours: number, configuration: string) =>
    prepareMonitor({ codes: [], alarms: [{ ...hot, longestShelfMs: hours * 3600000 }] }, { configuration });
  const [long, short] = [of(24, 'long'), of(1, 'short')];
  let record = startUnit(long, { unit: 'upper gate' });
  const told: [number, string][] = [];
  const take = (prepared: ReturnType<typeof of>, payload: UnitInput['payload']) => {
    const step = advanceUnit(prepared, record, { seq: record.seq + 1, payload });
    record = step.record;
    for (const { time, event } of step.events) told.push([time / 3600000, event]);
  };
  take(long, { time: 0, celsius: 50 });
  take(long, { kind: 'command', time: 0, alarm: 'hot', command: 'shelve', forMs: 24 * 3600000 });
  take(short, { kind: 'configuration', time: 5 * 3600000, configuration: 'short' });
  expect(told.slice(1)).toEqual([
    [0, 'shelved'],
    [1, 'unshelved'],
    [5, 'configured'],
  ]);
});
