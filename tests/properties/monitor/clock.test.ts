/**
 * A clock that is wrong, by any amount, in either direction, once or for good: the monitor goes on, and nothing is lost
 * in silence.
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  advanceMonitor,
  type MonitorEvent,
  type MonitorInput,
  type MonitorState,
  prepareMonitor,
  resumeMonitor,
  startMonitor,
} from '../../../src/monitor/index.ts';
import { some } from '../../volume.ts';
import { begin, day, hour, kept, minute, oneToJudge } from './kept.ts';

const prepared = prepareMonitor({
  codes: [],
  alarms: [
    ...kept,
    { ...oneToJudge, onDelayMs: minute },
    { id: 'rise', type: 'rise', figure: { other: 'e' }, setpoint: 2, withinMs: 30 * day },
  ],
});
const forMs = 400 * day;

/** What is given besides the readings: a tick of a wrong clock, a command. */
type Fault =
  | { readonly kind: 'once' | 'for good'; readonly by: number }
  | { readonly kind: 'tick'; readonly by: number };

const size = fc.oneof(
  fc.constantFrom(1, minute, hour, day - 1, day, day + 1, 30 * day, 365 * day),
  fc.integer({ min: 1, max: 3 * 365 * day }),
);
const fault: fc.Arbitrary<Fault> = fc
  .tuple(fc.constantFrom('once' as const, 'for good' as const, 'tick' as const), size, fc.boolean())
  .map(([kind, by, ahead]) => ({ kind, by: ahead ? by : -by }));

const reading = (time: number, i: number, received: number | null): MonitorInput => ({
  time,
  ...(received === null ? {} : { receivedAt: received }),
  others: { a: 9, b: i < 2 ? 9 : 1, d: i / 1000, e: i === 0 ? 0 : 3 },
});

interface Ran {
  readonly state: MonitorState;
  readonly events: MonitorEvent[];
  /** Of each reading after the fault: whether alarms judged it. */
  readonly judged: boolean[];
  /** Times of readings that no alarm judged. */
  readonly passed: number[];
  readonly before: MonitorState;
}

function run(every: number, known: number, wrong: Fault, more: number, received: boolean): Ran {
  let state = startMonitor(prepared);
  const events: MonitorEvent[] = [];
  const judged: boolean[] = [];
  const passed: number[] = [];
  const give = (input: MonitorInput) => {
    // killed and started again between any two
    const step = advanceMonitor(prepared, resumeMonitor(prepared, JSON.parse(JSON.stringify(state))).state, input);
    state = step.state;
    events.push(...step.events);
    return step.verdict;
  };
  for (let i = 0; i < known; i += 1) give(reading(begin + i * every, i, received ? begin + i * every : null));
  const last = begin + (known - 1) * every;
  give({ kind: 'command', time: last, alarm: 'acknowledged', command: 'acknowledge' });
  give({ kind: 'command', time: last, alarm: 'shelved', command: 'shelve', forMs });
  const before = state;
  if (wrong.kind === 'tick') give({ kind: 'tick', time: last + wrong.by });
  for (let i = 0; i < more; i += 1) {
    const at = last + (i + 1) * every;
    const off = wrong.kind === 'for good' || (wrong.kind === 'once' && i === 0) ? wrong.by : 0;
    const verdict = give(reading(at + off, known + i, received ? at : null));
    const good = verdict?.alarms.every((alarm) => alarm.judged) === true;
    judged.push(good);
    if (!good) passed.push(at + off);
  }
  return { state, events, judged, passed, before };
}

const naming = ['late', 'too_late', 'contradicted', 'set_aside'];

describe('a clock fault of any size and direction', () => {
  const given = [
    fc.constantFrom(minute, 10 * minute, hour, day, 7 * day),
    fc.integer({ min: 3, max: 25 }),
    fault,
    fc.boolean(),
  ] as const;

  test('at most three readings pass before the alarms judge again, and each of them is named by an event', () => {
    fc.assert(
      fc.property(...given, (every, known, wrong, received) => {
        const { judged, passed, events } = run(every, known, wrong, 12, received);
        let running = 0;
        for (const good of judged) {
          running = good ? 0 : running + 1;
          expect(running).toBeLessThanOrEqual(3);
        }
        expect(judged.slice(-3)).toEqual([true, true, true]);
        const named = events.map((e) => (naming.includes(e.event) && 'reading' in e ? e.reading : null));
        for (const time of passed) expect(named).toContain(time);
      }),
      { numRuns: some(1500, 150) },
    );
  });

  test('no acknowledgement, latch or shelf is lost; a shelf keeps the time it has left', () => {
    fc.assert(
      fc.property(...given, (every, known, wrong, received) => {
        const { state, before, events } = run(every, known, wrong, 12, received);
        const [acknowledged, latched, shelved] = state.alarms;
        expect(acknowledged).toMatchObject({ active: true });
        expect(acknowledged?.unacknowledged).toBeUndefined();
        expect(latched).toMatchObject({ latched: true });
        expect(events.some((e) => e.event === 'unshelved')).toBe(false);
        const left = (shelved?.shelf?.until as number) - (state.time as number);
        expect(before.alarms[2]?.shelf?.until).toBe((before.time as number) + forMs);
        // the true time passed, but for the readings that passed before the clock was known to be set, and what the
        // clock was off within a jump
        expect(left).toBeLessThanOrEqual(forMs);
        if (Math.abs(wrong.by) > Math.max(day, 10 * every)) expect(left).toBeGreaterThanOrEqual(forMs - 13 * every);
        // a rise that stood stands: what it is measured from has moved with the clock
        const [rise, was] = [state.alarms[4], before.alarms[4]];
        if ((known + 13) * every < 29 * day) expect(rise?.active).toBe(was?.active);
      }),
      { numRuns: some(1000, 100) },
    );
  });

  test('delays run on: after one wrong tick an alarm with a delay is raised all the same', () => {
    for (const by of [hour, day, 365 * day, -365 * day]) {
      let state = startMonitor(prepared);
      const events: MonitorEvent[] = [];
      const give = (input: MonitorInput) => {
        const step = advanceMonitor(prepared, state, input);
        state = step.state;
        events.push(...step.events);
      };
      for (let i = 0; i < 5; i += 1) give({ time: begin + i * minute, others: { d: 1 } });
      give({ kind: 'tick', time: begin + 4 * minute + by });
      for (let i = 5; i < 12; i += 1) give({ time: begin + i * minute, others: { d: 9 } });
      expect(events.some((e) => e.event === 'raised')).toBe(true);
    }
  });
});

describe('what decides', () => {
  const start = () => {
    let state = startMonitor(prepared);
    for (let i = 0; i < 3; i += 1) state = advanceMonitor(prepared, state, reading(begin + i * minute, 9, null)).state;
    return state;
  };
  const toldBy = (...inputs: MonitorInput[]) => {
    let state = start();
    const told: string[] = [];
    for (const input of inputs) {
      const step = advanceMonitor(prepared, state, input);
      state = step.state;
      for (const e of step.events) told.push(e.event);
    }
    return { told, state };
  };
  const year = begin + 365 * day;

  test('one far ahead, then one in line with before: the clock is kept, and the one set aside judged', () => {
    const { told, state } = toldBy(reading(year, 9, null), reading(begin + 3 * minute, 9, null));
    expect(told).toEqual(['set_aside', 'clock_kept']);
    expect(state.time).toBe(begin + 3 * minute);
    expect(state.clock).toBeUndefined();
  });

  test('two far ahead and in line: the clock is set, from when to when', () => {
    let state = advanceMonitor(prepared, start(), reading(year, 9, null)).state;
    const step = advanceMonitor(prepared, state, reading(year + minute, 9, null));
    state = step.state;
    expect(step.events[0]).toEqual({
      time: year,
      event: 'clock_set',
      from: begin + 2 * minute,
      to: year,
      judged: [year],
    });
    expect(step.verdict?.arrival).toBe('in_order');
  });

  test('a reading received at its time comes after a gap; one ahead of the host shows a clock that was set', () => {
    expect(toldBy(reading(year, 9, year)).told).toEqual(
      ['readings_stale', ...Array(5).fill('signal_stale')]
        .sort(() => 0)
        .concat([
          'signal_restored',
          'signal_restored',
          'signal_restored',
          'signal_restored',
          'signal_restored',
          'readings_restored',
        ]),
    );
    expect(toldBy(reading(year, 9, begin + 3 * minute)).told).toEqual(['clock_set']);
  });

  test('readings delivered late in one go are late where the host tells when they came', () => {
    const late = [1, 2, 3, 4, 5].map((i) => reading(begin - 100 * minute + i, i, begin + 3 * minute));
    expect(toldBy(...late).told).toEqual(Array(5).fill('late'));
    expect(toldBy(...late.map((input) => ({ ...input, receivedAt: undefined }) as MonitorInput)).told).toEqual([
      'late',
      'late',
      'clock_set',
    ]);
  });

  test('a reading set aside is judged when the clock is known, by alarms and in blocks of followed figures', () => {
    const watched = prepareMonitor({
      codes: [],
      alarms: [{ id: 'high', type: 'high', figure: { other: 'a' }, setpoint: 5 }],
      follow: [{ id: 'mean', figure: { other: 'a' }, blockMs: hour }],
    });
    const run = (...given: MonitorInput[]) => {
      let state = startMonitor(watched);
      const events: MonitorEvent[] = [];
      const before = [0, 1, 2].map((i) => ({ time: begin + i * minute, others: { a: 1 } }));
      for (const input of [...before, ...given]) {
        const saved = resumeMonitor(watched, JSON.parse(JSON.stringify(state))).state;
        const step = advanceMonitor(watched, saved, input);
        state = step.state;
        events.push(...step.events);
      }
      return { state, events };
    };
    const aside = { time: year, others: { a: 9 } };
    const kept = run(aside, { time: begin + 3 * minute, others: { a: 1 } });
    expect(kept.events.map(({ event, time }) => [event, time - begin])).toEqual([
      ['set_aside', 2 * minute],
      ['clock_kept', 2 * minute],
      ['raised', 2 * minute],
      ['returned', 3 * minute],
    ]);
    expect(kept.state.followed[0]?.open).toMatchObject({ mean: 2.6, count: 5 });
    const set = run(aside, { time: year + minute, others: { a: 9 } });
    expect(set.events.filter(({ event }) => event === 'raised').map(({ time }) => time)).toEqual([year]);
    const tick = run(aside, { kind: 'tick', time: year + minute });
    expect(tick.events.filter(({ event }) => event === 'raised').map(({ time }) => time)).toEqual([year]);
    // of two at other times only one can be kept
    const two = run({ time: year + 9 * day, others: { a: 1 } }, aside, { time: year + 1, others: { a: 9 } });
    expect(two.events.filter(({ event }) => event === 'clock_set')).toMatchObject([
      { judged: [year], lost: [year + 9 * day] },
    ]);
  });

  test('with the clock of the host a clock set back is seen at once', () => {
    const told = (...given: (readonly [number, number])[]) => {
      let state = startMonitor(prepared);
      const events: string[] = [];
      for (let i = 0; i < 12; i += 1)
        state = advanceMonitor(prepared, state, reading(begin + 10 * i * minute, 9, begin + 10 * i * minute)).state;
      for (const [at, received] of given) {
        const step = advanceMonitor(prepared, state, reading(begin + at * minute, 9, begin + received * minute));
        state = step.state;
        events.push(...step.events.map(({ event }) => event));
      }
      return events;
    };
    // from right to 25 minutes behind, and no reading is missing there
    expect(told([95, 120])).toEqual(['clock_set']);
    // ahead by two hours, then right again; by five minutes it may be
    expect(told([240, 120], [130, 130])).toEqual(['clock_set', 'clock_set']);
    expect([told([125, 120]), told([125.1, 120])]).toEqual([[], ['clock_set']]);
    // as far ahead, but not after the usual wait: what was held back comes in one go
    expect(told([240, 114.9])).toEqual([]);
    // farther back than is remembered: three at their pace
    expect(told([-880, 120], [-870, 130], [-860, 140])).toEqual(['late', 'late', 'clock_set']);
    // one that was missing comes late
    expect(told([130, 130], [120, 136])).toEqual(['late']);
    // one that comes again, or right after another
    expect(told([100, 121])).toEqual(['repeated']);
    expect(told([95, 111])).toEqual(['late']);
  });

  test('a leap of a clock that is years behind is a gap only if it stays as far behind', () => {
    const events = (...given: (readonly [number, number])[]) => {
      let state = startMonitor(prepared);
      const told: string[] = [];
      for (const [at, received] of given) {
        const step = advanceMonitor(prepared, state, reading(begin + at, 9, begin + received));
        state = step.state;
        for (const { event } of step.events) if (/^(clock|readings|set_aside|late)/.test(event)) told.push(event);
      }
      return told;
    };
    const years = 5 * 365 * day;
    const behind = [0, 1, 2].map((i) => [i * minute - years, i * minute] as const);
    const right = [0, 1, 2].map((i) => [i * minute, i * minute] as const);
    // set ahead by a year, and by all that it was behind
    expect(events(...behind, [365 * day - years, 3 * minute])).toEqual(['clock_set']);
    expect(events(...behind, [3 * minute, 3 * minute])).toEqual(['clock_set']);
    // a gap of 40 days; of 41 the host's clock leaps as well, and a second reading shows that it is one
    const gap = (days: number) =>
      [0, 1].map((i) => [days * day - years + i * minute, days * day + i * minute] as const);
    expect(events(...behind, ...gap(40))).toEqual(['readings_stale', 'readings_restored']);
    expect(events(...behind, ...gap(41))).toEqual(['set_aside', 'readings_stale', 'readings_restored']);
    // held for 40 days and sent in one go, with a hole of ten
    const held = [1, 11, 12].map((i) => [i * day, 40 * day] as const);
    expect(events(...right, ...held)).toEqual(['readings_stale', 'readings_restored']);
    expect(events(...behind, ...held.map(([at, came]) => [at - years, came] as const))).toEqual([
      'readings_stale',
      'readings_restored',
    ]);
  });

  test('a command takes effect at once, whatever its time', () => {
    const { told, state } = toldBy({ kind: 'command', time: year, alarm: 'acknowledged', command: 'acknowledge' });
    expect(told).toEqual(['acknowledged']);
    expect(state.time).toBe(begin + 2 * minute);
  });
});

describe('a sensor that dies', () => {
  const silent = prepareMonitor({
    codes: [],
    alarms: [{ id: 'hot', type: 'high', figure: { quantity: 'celsius' }, setpoint: 65 }],
    staleAfterMs: 6 * hour,
  });
  const last = begin + 47 * hour;
  const alive = Array.from({ length: 48 }, (_, i): MonitorInput => ({ time: begin + i * hour, celsius: 50 }));

  const hear = (inputs: readonly MonitorInput[]) => {
    let state = startMonitor(silent);
    return inputs.flatMap((input) => {
      const step = advanceMonitor(silent, state, input);
      state = step.state;
      return step.events;
    });
  };

  test.each([[[25, 50, 75]], [[200]], [[30, 31]]])('is told at the first tick, of those after %j h', (after) => {
    const ticks = after.map((hours): MonitorInput => ({ kind: 'tick', time: last + hours * hour }));
    const stale = hear([...alive, ...ticks]).filter(({ event }) => event.startsWith('readings_'));
    expect(stale).toEqual([{ time: last, event: 'readings_stale', since: last }]);
    expect(hear([...alive, ticks[0] as MonitorInput])).toEqual(stale);
  });

  test('a tick of a wrong clock tells it too, and the next reading that all is well', () => {
    const wrong: MonitorInput = { kind: 'tick', time: last + 400 * day };
    const found = hear([...alive, wrong, { time: last + hour, celsius: 50 }]);
    expect(found.map(({ event }) => event)).toEqual(['readings_stale', 'readings_restored']);
  });

  test('a tick within the time tells nothing', () => {
    expect(hear([...alive, { kind: 'tick', time: last + 6 * hour }])).toEqual([]);
  });
});
