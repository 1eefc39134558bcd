/**
 * The times of events, over random courses with clocks that leap and configurations that change: those of one step are
 * in order of time, none lies before the input before it, and none after the time that the step has reached.
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { advanceAlarm, prepareAlarm, resumeAlarm, startAlarm } from '../../../src/alarm/index.ts';
import { nameOfState } from '../../../src/alarm/memory.ts';
import { iso4406 } from '../../../src/codes/index.ts';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import { germanTexts } from '../../../src/german/index.ts';
import {
  advanceMonitor,
  type MonitorConfig,
  type MonitorEvent,
  type MonitorInput,
  prepareMonitor,
  resumeMonitor,
  startMonitor,
} from '../../../src/monitor/index.ts';
import { messageOf } from '../../../src/report/index.ts';
import { some } from '../../volume.ts';
import { begin, day, hour, minute } from './kept.ts';

const hot = { id: 'hot', type: 'high', figure: { quantity: 'celsius' }, setpoint: 65 } as const;
const acid = { id: 'acid', type: 'high', figure: { other: 'acid' }, setpoint: 2 } as const;
const rise = { id: 'rise', type: 'rise', figure: { quantity: 'celsius' }, setpoint: 4, withinMs: hour } as const;
const follow = [{ id: 'mean', figure: { quantity: 'celsius' }, blockMs: hour, least: 1 }] as const;
const chattering = { raises: 2, withinMs: 10 * minute };
const codes = [{ table: iso4406, target: '18/16/13' }];
const configs: readonly MonitorConfig[] = [
  { codes: [], alarms: [hot, acid] },
  { codes, alarms: [{ ...hot, reAlarmAfterMs: 5 * hour }, acid, rise], staleAfterMs: hour, follow },
  { codes, alarms: [{ ...hot, staleAfterMs: 20 * minute, chattering }, rise], staleAfterMs: 40 * day, follow },
  { codes: [], alarms: [{ ...hot, reAlarmAfterMs: 7 * minute, suppressedInModes: ['rest'] }], clockJumpMs: 2 * day },
];
const prepared = configs.map((config) => prepareMonitor(config));

const step = fc.oneof(
  { weight: 12, arbitrary: fc.constantFrom(minute, 10 * minute, 11 * minute) },
  { weight: 3, arbitrary: fc.constantFrom(0, hour, 7 * hour, 30 * hour, -minute, -25 * minute) },
  { weight: 1, arbitrary: fc.constantFrom(9 * day, 200 * day, -200 * day, -3 * day) },
);
const input = fc.oneof(
  {
    weight: 10,
    arbitrary: fc.record({
      celsius: fc.constantFrom(50, 58, 64, 66, 71),
      dirt: fc.constantFrom(0, 0, 1900, 190000),
      acid: fc.constantFrom(null, null, null, 1, 3),
      mode: fc.constantFrom(undefined, undefined, 'rest', 'run'),
      received: fc.constantFrom(null, null, 0, 3 * minute, -2 * hour),
    }),
  },
  { weight: 5, arbitrary: fc.constant('tick' as const) },
  { weight: 1, arbitrary: fc.constantFrom('shelve' as const, 'acknowledge' as const, 'unshelve' as const) },
);
/** A course: after how long, what comes, and now and then another configuration. */
const course = fc.array(
  fc.tuple(step, input, fc.oneof({ weight: 15, arbitrary: fc.constant(null) }, { weight: 1, arbitrary: fc.nat(3) })),
  { minLength: 5, maxLength: 60 },
);

interface Given {
  readonly celsius: number;
  readonly dirt: number;
  readonly acid: number | null;
  readonly mode: string | undefined;
  readonly received: number | null;
}

function inputOf(time: number, what: unknown): MonitorInput {
  if (what === 'tick') return { kind: 'tick', time };
  if (what === 'shelve') return { kind: 'command', time, alarm: 'hot', command: what, forMs: 40 * minute };
  if (typeof what === 'string') return { kind: 'command', time, alarm: 'hot', command: what as 'acknowledge' };
  const { celsius, dirt, acid, mode, received } = what as Given;
  return {
    time,
    celsius,
    ...(dirt === 0 ? {} : { counts: cumulativeCounts({ 4: dirt, 6: dirt / 5, 14: dirt / 95 }, { volumeMl: 10 }) }),
    ...(acid === null ? {} : { others: { acid } }),
    ...(mode === undefined ? {} : { mode }),
    ...(received === null ? {} : { receivedAt: time + received }),
  };
}

/** What is wrong with the times of the events of one step; where a clock was set, another time begins with it. */
function misplaced(events: readonly MonitorEvent[], before: number, after: number | undefined): string[] {
  const wrong: string[] = [];
  let least = before;
  events.forEach(({ time, event }, i) => {
    if (event === 'clock_set' || event === 'clock_set_back') least = time;
    else if (time < least) wrong.push(`${event} ${i} is ${(least - time) / minute} min before what was`);
    least = time;
  });
  if (least > (after ?? Number.POSITIVE_INFINITY)) wrong.push(`${(least - (after as number)) / minute} min too late`);
  return wrong;
}

/** A course through one configuration, on to its end under another. */
function through(before: MonitorConfig, inputs: readonly MonitorInput[], after: MonitorConfig, on: MonitorInput[]) {
  const [first, second] = [prepareMonitor(before), prepareMonitor(after)];
  let state = startMonitor(first);
  for (const one of inputs) state = advanceMonitor(first, state, one).state;
  state = resumeMonitor(second, JSON.parse(JSON.stringify(state))).state;
  const told = on.map((one) => {
    const step = advanceMonitor(second, state, one);
    state = step.state;
    return step.events.map((event) => {
      const {
        time,
        event: word,
        alarm = '',
        times = 1,
      } = { alarm: '', ...event } as Extract<typeof event, { times?: 1 }>;
      return `${(time - begin) / hour} ${word} ${alarm} ${times}`.replace(/ +1?$/, '');
    });
  });
  return { told, state };
}

describe('settings that change apply from then on', () => {
  const anew: MonitorConfig = { codes: [], alarms: [{ ...hot, reAlarmAfterMs: 5 * hour }] };
  const stood = Array.from({ length: 48 }, (_, i) => ({ time: begin + i * hour, celsius: 70 + (i % 2) }));
  const seen = { kind: 'command', alarm: 'hot', command: 'acknowledge', time: begin + 47.5 * hour } as const;
  const tick = (hours: number) => ({ kind: 'tick', time: begin + hours * hour }) as const;

  test('a new re-alarm is reckoned from the last input, and undoes no acknowledgement of before', () => {
    const without: MonitorConfig = { codes: [], alarms: [hot] };
    const on = [{ time: begin + 48 * hour, celsius: 70 }, tick(52), tick(53), tick(63)];
    const { told } = through(without, [...stood, seen], anew, on);
    expect(told).toEqual([[], [], ['52.5 re_alarmed hot'], ['62.5 re_alarmed hot 2']]);
    expect(through(without, [...stood, seen], anew, on.slice(0, 2)).state.alarms[0]).not.toHaveProperty(
      'unacknowledged',
    );
    // the same settings change nothing
    expect(through(anew, stood, anew, [tick(49.9), tick(50)]).told).toEqual([[], ['50 re_alarmed hot']]);
  });

  test('readings, signals and targets are stale as of the last input, and not before it', () => {
    const of = (staleAfterMs: number): MonitorConfig => ({ codes, alarms: [hot, acid], staleAfterMs });
    const counts = cumulativeCounts({ 4: 1901, 6: 402, 14: 33 }, { volumeMl: 10 });
    const inputs = [0, 10, 20].map((at) => ({ time: begin + at * minute, celsius: 50, counts, others: { acid: 1 } }));
    const told = through(of(9 * day), [...inputs, tick(10)], of(hour), [tick(10.5)]).told[0];
    const words = ['readings_stale', 'target_stale', 'signal_stale hot', 'signal_stale acid'];
    expect(told).toEqual(words.map((word) => `10 ${word}`));
    expect(through(of(hour), inputs, of(hour), [tick(10.5)]).told[0]?.join()).toMatch(/,1[.]33+ readings_stale,/);
  });

  test('what they make due is told before a clock is set, on the old clock', () => {
    const ticks = Array.from({ length: 19 }, (_, i) => tick(2 + i));
    const inputs = Array.from({ length: 12 }, (_, i) => ({ time: begin + i * 10 * minute, celsius: 50 }));
    const of: MonitorConfig = { codes: [], alarms: [hot, acid] };
    const on = [200 * 60, 200 * 60 + 10].map((at) => ({ time: begin + at * minute, celsius: 50 }));
    const { told } = through(of, [...inputs, ...ticks], { ...of, staleAfterMs: hour }, on);
    expect(told[1]?.slice(0, 4)).toEqual([
      '20 readings_stale',
      '20 signal_stale hot',
      '20 signal_stale acid',
      '200 clock_set',
    ]);
    expect(told[1]?.[4]).toBe('200 signal_restored hot');
  });
});

test('a verdict says how the alarms stand after the step, also where a clock that stands lets time pass', () => {
  const plan = prepareMonitor({ codes: [], alarms: [hot] });
  const shelve = {
    kind: 'command',
    alarm: 'hot',
    command: 'shelve',
    forMs: 10 * minute,
    time: begin + minute,
  } as const;
  let state = advanceMonitor(plan, startMonitor(plan), { time: begin, receivedAt: begin, celsius: 70 }).state;
  state = advanceMonitor(plan, state, shelve).state;
  const { verdict, events } = advanceMonitor(plan, state, {
    ...{ time: begin, receivedAt: begin + 20 * minute, celsius: 71 },
  });
  expect(events.map(({ event }) => event)).toEqual(['contradicted', 'unshelved', 'raised']);
  expect(verdict?.alarms).toEqual([{ id: 'hot', state: 'unacknowledged_alarm', judged: false }]);
});

test('a stale signal that is dropped with its alarm is told, and names the figure that is missing', () => {
  const fine = { id: 'dirty', type: 'high', figure: { perMlAt: 14 }, setpoint: 100, staleAfterMs: hour } as const;
  const of: MonitorConfig = { codes: [], alarms: [fine] };
  const plan = prepareMonitor(of);
  let state = startMonitor(plan);
  const counts = (sizes: Record<number, number>) => cumulativeCounts(sizes, { volumeMl: 10 });
  const inputs: MonitorInput[] = [
    { time: begin, counts: counts({ 4: 1890, 6: 402, 14: 33 }) },
    { time: begin + 2 * hour, counts: counts({ 4: 1990, 6: 433 }) },
  ];
  const told = inputs.flatMap((one) => {
    const step = advanceMonitor(plan, state, one);
    state = step.state;
    return step.events.filter(({ event }) => event === 'signal_stale');
  });
  expect(told.map((event) => messageOf(event).line)).toEqual([
    'dirty: nothing to judge. Count at 14 µm(c) and larger: no good value since 2027-01-15 08:00. ' +
      'The alarm stays as it is.',
  ]);
  expect(told.map((event) => messageOf(event, germanTexts).line)).toEqual([
    'dirty: nichts zu beurteilen. Partikel ab 14 µm(c): kein gültiger Wert seit 2027-01-15 08:00. ' +
      'Der Alarm bleibt, wie er ist.',
  ]);
  const renamed = prepareMonitor({ codes: [], alarms: [{ ...fine, id: 'fine dirt' }] });
  const { events } = resumeMonitor(renamed, JSON.parse(JSON.stringify(state)));
  expect(events).toEqual([{ time: begin + 2 * hour, alarm: 'dirty', event: 'dropped', state: 'normal', since: begin }]);
  const [dropped] = events as [MonitorEvent];
  expect(messageOf(dropped).paragraph).toContain(
    'state was: normal. Its figure had no good value since 2027-01-15 08:00.',
  );
  expect(messageOf(dropped, germanTexts).paragraph).toContain('seit 2027-01-15 08:00 nicht mehr gültig.');
  // one that is as it began has nothing to tell
  expect(resumeMonitor(renamed, startMonitor(plan)).events).toEqual([]);
});

describe('the times of events', () => {
  test('of a monitor are in order, and none lies before the input before it, whatever has been configured', () => {
    const told = new Set<string>();
    fc.assert(
      fc.property(course, (inputs) => {
        let place = 0;
        let state = startMonitor(prepared[0] as (typeof prepared)[number]);
        let time = begin;
        for (const [after, what, change] of inputs) {
          time += after;
          if (change !== null) {
            place = change;
            state = resumeMonitor(prepared[place] as (typeof prepared)[number], state).state;
          }
          const next = advanceMonitor(prepared[place] as (typeof prepared)[number], state, inputOf(time, what));
          const { events } = next;
          next.verdict?.alarms.forEach(({ state: name }, i) => {
            expect(name).toBe(nameOfState(next.state.alarms[i] as (typeof next.state.alarms)[number]));
          });
          expect(misplaced(events, state.time ?? time, next.state.time), JSON.stringify(events)).toEqual([]);
          for (const { event } of events) told.add(event);
          state = next.state;
        }
      }),
      { numRuns: some(4000, 250) },
    );
    for (const event of [
      'clock_set',
      'signal_stale',
      'readings_stale',
      'target_stale',
      're_alarmed',
      'chattering_ended',
    ])
      expect(told.has(event), event).toBe(true);
  });

  test('of an alarm alone likewise', () => {
    const alarms = [{}, { reAlarmAfterMs: 3 * minute }, { staleAfterMs: minute }, { reAlarmAfterMs: 7, chattering }];
    const plans = alarms.map((own) => prepareAlarm({ id: 'x', type: 'high', setpoint: 65, ...own }));
    fc.assert(
      fc.property(course, (inputs) => {
        let plan = plans[0] as (typeof plans)[number];
        let state = startAlarm(plan);
        let time = begin;
        for (const [after, what, change] of inputs) {
          time += after;
          if (change !== null) {
            plan = plans[change] as (typeof plans)[number];
            state = resumeAlarm(plan, state).state;
          }
          const value = typeof what === 'string' ? null : what.celsius;
          const next = advanceAlarm(plan, state, value === null ? { kind: 'tick', time } : { time, value });
          expect(misplaced(next.events, state.time ?? time, next.state.time)).toEqual([]);
          state = next.state;
        }
      }),
      { numRuns: some(2000, 120) },
    );
  });
});
