/**
 * A random mixture of all that goes wrong, over 500 steps: nothing throws but what is refused, nothing is NaN, no
 * acknowledgement, latch or shelf is lost, alarms judge again after three readings, and every reading is judged or
 * named.
 */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { iso4406 } from '../../../src/codes/index.ts';
import { isMotescaleError } from '../../../src/errors.ts';
import {
  advanceMonitor,
  type MonitorEvent,
  type MonitorInput,
  type MonitorState,
  prepareMonitor,
  resumeMonitor,
  startMonitor,
} from '../../../src/monitor/index.ts';
import type { Reading } from '../../../src/reading/index.ts';
import { viscosityLineOfGrade } from '../../../src/viscosity/index.ts';
import { some } from '../../volume.ts';
import { begin, day, hour, kept, minute, oneToJudge } from './kept.ts';

const forMs = 4e11;

const prepared = prepareMonitor({
  codes: [{ table: iso4406, target: '18/16/13' }],
  limits: {
    ...{ mlPerMin: { low: 30, high: 90 }, leastKPa: 20, mostKPa: 400, countedShare: 0.5, settleMs: hour, flushMl: 200 },
    ...{ viscosityLine: viscosityLineOfGrade(46, 102), coincidencePerMl: 24000, calibrationMs: 400 * day },
  },
  alarms: [
    ...kept,
    oneToJudge,
    { id: 'dirt', type: 'high', figure: { code: 'iso4406' }, setpoint: '19/17/14', suppressedInModes: ['start'] },
    { id: 'hot', type: 'high', figure: { quantity: 'celsius' }, setpoint: 70, deadband: 3, onDelayMs: 10 * minute },
    { id: 'rise', type: 'rise', figure: { continuousScaleNumberAt: 6 }, setpoint: 2, withinMs: day },
  ],
  follow: [{ id: 'at 6', figure: { continuousScaleNumberAt: 6 } }],
});
const everyOther = ['acknowledged', 'latched', 'shelved', 'judged'];

const sizes = [4, 6, 10, 14, 21, 38];
const counted = [10000, 4000, 1200, 450, 120, 12];
const countsOf = (list: readonly number[]) => ({
  ...{ sizing: 'iso11171' as const, sizes, volumeMl: 25, counted: list },
  perMl: list.map((n) => n / 25),
});

/** The figures of a reading: as they should be, and what instruments make of them. */
const figures: fc.Arbitrary<Partial<Reading>> = fc.oneof(
  { weight: 6, arbitrary: fc.constant({}) },
  fc.constantFrom<Partial<Reading>>(
    { mlPerMin: 0, celsius: 95 },
    { mlPerMin: 1e12, kPa: 450 },
    { counts: countsOf([100, 4000, 1200, 450, 120, 12]) },
    { counts: countsOf([4000, 4000, 1200, 450, 120, 12]) },
    { counts: countsOf([0, 0, 0, 0, 0, 0]) },
    { counts: { sizing: 'iso11171', sizes: [4, 14], perMl: [1e9, 0] } },
    { counts: undefined, codes: { iso4406: '18/16/>=13' } },
    { counts: undefined, codes: { iso4406: 'nonsense' } },
    { counts: undefined },
    { celsius: -273.15, mm2PerS: 1e12 },
    { celsius: 82, mm2PerS: 1e-9, waterSaturation: 2 },
    { waterSaturation: 0, coldestCelsius: -200 },
    { qualities: { counts: 'bad', celsius: 'uncertain' } },
    { calibratedAt: 0, flushedMl: 0, measuringSeconds: 1e-6 },
    { mode: 'start' },
    { mode: 'another' },
  ),
);

const span = fc.oneof(
  fc.constantFrom(1, minute, 10 * minute, hour, day, day + 1, 30 * day, 365 * day),
  fc.integer({ min: 1, max: 3 * 365 * day }),
);
const signed = fc.tuple(span, fc.boolean()).map(([by, ahead]) => (ahead ? by : -by));

type Step =
  | { readonly kind: 'good'; readonly figures: Partial<Reading>; readonly host: boolean; readonly noise: number }
  | { readonly kind: 'wrong time'; readonly by: number; readonly host: boolean; readonly noise: number }
  | { readonly kind: 'clock set'; readonly by: number }
  | { readonly kind: 'gap'; readonly by: number }
  | { readonly kind: 'again'; readonly back: number; readonly other: boolean }
  | { readonly kind: 'held'; readonly count: number; readonly host: boolean; readonly order: number }
  | { readonly kind: 'tick' | 'relearn' | 'acknowledge'; readonly by: number }
  | { readonly kind: 'refused'; readonly input: unknown };

const noise = fc.integer({ min: 0, max: 1e6 });
const step: fc.Arbitrary<Step> = fc.oneof(
  {
    weight: 12,
    arbitrary: fc.record({ kind: fc.constant('good' as const), figures, host: fc.boolean(), noise }),
  },
  fc.record({ kind: fc.constant('wrong time' as const), by: signed, host: fc.boolean(), noise }),
  fc.record({ kind: fc.constant('clock set' as const), by: signed }),
  fc.record({ kind: fc.constant('gap' as const), by: span }),
  fc.record({ kind: fc.constant('again' as const), back: fc.integer({ min: 0, max: 20 }), other: fc.boolean() }),
  fc.record({
    ...{ kind: fc.constant('held' as const), count: fc.integer({ min: 2, max: 8 }), host: fc.boolean(), order: noise },
  }),
  fc.record({ kind: fc.constantFrom('tick' as const, 'relearn' as const, 'acknowledge' as const), by: signed }),
  fc.record({
    kind: fc.constant('refused' as const),
    input: fc.constantFrom<unknown>(
      ...[null, 5, 'text', [], {}, { time: Number.NaN }, { time: '5' }, { time: 1.5 }, { time: 9e15 }],
      ...[
        { time: begin, celcius: 4 },
        { time: begin, celsius: 1e300 },
        { time: begin, flushedMl: -1 },
      ],
      ...[
        { time: begin, others: 5 },
        { time: begin, counts: { sizes: [4] } },
        { kind: 'tock', time: begin },
      ],
      ...[{ kind: 'command', time: begin, alarm: 'none', command: 'acknowledge' }],
    ),
  }),
);

const unsound = (value: unknown): boolean =>
  typeof value === 'number'
    ? !Number.isFinite(value)
    : typeof value === 'object' && value !== null && Object.values(value).some(unsound);

function run(steps: readonly Step[]): void {
  let state: MonitorState = startMonitor(prepared);
  let truth = begin;
  let off = 0;
  let waiting = 0;
  const given: MonitorInput[] = [];
  const unjudged: number[] = [];
  const events: MonitorEvent[] = [];

  const give = (input: MonitorInput, healthy: boolean, isReading = true) => {
    const saved = given.length % 3 === 0 ? resumeMonitor(prepared, JSON.parse(JSON.stringify(state))).state : state;
    const { verdict, events: happened, state: next } = advanceMonitor(prepared, saved, input);
    state = next;
    expect(unsound({ state, verdict, happened })).toBe(false);
    expect(JSON.stringify(state).length).toBeLessThanOrEqual(prepared.stateBytes);
    events.push(...happened);
    if (!isReading || verdict === null) return;
    given.push(input);
    if (verdict.arrival !== 'in_order') unjudged.push(input.time);
    const judged = verdict.alarms.filter(({ id }) => everyOther.includes(id)).every((alarm) => alarm.judged);
    waiting = judged || !healthy ? 0 : waiting + 1;
    expect(waiting).toBeLessThanOrEqual(3);
  };
  let n = 0;
  const reading = (time: number, own: Partial<Reading>, scatter: number, received: number | null): MonitorInput => {
    n += 1;
    const all = {
      ...{ time, counts: countsOf(counted.map((c, i) => c + ((scatter >> i) % 9))), mlPerMin: 50 + (scatter % 7) / 10 },
      ...{ measuringSeconds: 60, kPa: 60, celsius: 44 + (scatter % 13) / 10, mm2PerS: 38, waterSaturation: 0.3 },
      ...own,
      others: { a: 9, b: n < 3 ? 9 : 1, d: n / 1000 },
    };
    return (received === null ? all : { ...all, receivedAt: received }) as MonitorInput;
  };
  const next = (ms = 10 * minute) => {
    truth += ms;
    return truth;
  };
  for (let i = 0; i < 5; i += 1) give(reading(next() + off, {}, i * 77, null), true);
  const now = () => state.time as number;
  give({ kind: 'command', time: now(), alarm: 'acknowledged', command: 'acknowledge' }, true, false);
  give({ kind: 'command', time: now(), alarm: 'shelved', command: 'shelve', forMs }, true, false);
  for (const one of steps) {
    // three readings after the last fault
    if (one.kind !== 'good') waiting = 0;
    switch (one.kind) {
      case 'good':
        give(reading(next() + off, one.figures, one.noise, one.host ? truth : null), true);
        break;
      case 'wrong time':
        give(reading(next() + off + one.by, {}, one.noise, one.host ? truth : null), false);
        break;
      case 'clock set':
        off = Math.max(-3e11, Math.min(3e11, off + one.by));
        break;
      case 'gap':
        next(one.by % (40 * day));
        break;
      case 'again': {
        const before = given[given.length - 1 - (one.back % given.length)] as Reading & { readonly time: number };
        give(one.other ? { ...before, celsius: 50 } : before, false);
        break;
      }
      case 'held': {
        const held = Array.from({ length: one.count }, (_x, i) => reading(next() + off, {}, one.order + i, null));
        held.sort((a, b) => ((a.time * (one.order + 1)) % 1009) - ((b.time * (one.order + 1)) % 1009));
        for (const late of held) give((one.host ? { ...late, receivedAt: truth } : late) as MonitorInput, false);
        break;
      }
      case 'tick':
        give({ kind: 'tick', time: truth + off + one.by }, false, false);
        break;
      case 'relearn':
        give({ kind: 'relearn', time: truth + off + one.by }, false, false);
        break;
      case 'acknowledge':
        give(
          { kind: 'command', time: truth + off + one.by, alarm: 'acknowledged', command: 'acknowledge' },
          false,
          false,
        );
        break;
      case 'refused': {
        const before = JSON.stringify(state);
        try {
          advanceMonitor(prepared, state, one.input as MonitorInput);
          expect(one.input).toBe('refused');
        } catch (error) {
          if (!isMotescaleError(error)) throw error;
          expect(error.message).not.toMatch(/NaN expected|undefined\[/);
        }
        expect(JSON.stringify(state)).toBe(before);
        break;
      }
    }
  }
  // what is in doubt at the end is decided by four more
  for (let i = 0; i < 4; i += 1) give(reading(next() + off, {}, i, null), true);
  const [acknowledged, latched, shelved] = state.alarms;
  expect(acknowledged?.active).toBe(true);
  expect(acknowledged?.unacknowledged).toBeUndefined();
  expect(latched?.latched ?? latched?.active).toBe(true);
  // the shelf lasts longer than all gaps together
  expect(events.some((e) => e.event === 'unshelved')).toBe(false);
  expect((shelved?.shelf?.until as number) - now()).toBeLessThanOrEqual(forMs);
  const told = new Set<number>();
  for (const e of events) {
    if ('reading' in e && e.reading !== undefined) told.add(e.reading);
    if ('judged' in e) for (const time of e.judged ?? []) told.add(time);
    if ('lost' in e) for (const time of e.lost ?? []) told.add(time);
  }
  for (const time of unjudged) expect(told.has(time)).toBe(true);
}

test('a random mixture of all that goes wrong', () => {
  fc.assert(
    fc.property(fc.array(step, { minLength: 1, maxLength: 500, size: 'max' }), (steps) => run(steps)),
    // of 500 steps, shrinking takes longer than anyone waits
    { numRuns: some(100, 12), endOnFailure: true },
  );
});
