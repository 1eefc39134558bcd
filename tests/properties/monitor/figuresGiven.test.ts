/** Figures as a reading gives them: of one's own, with a quality; scale numbers from a code; a probability. */
import { describe, expect, test } from 'vitest';
import { iso4406, nas1638 } from '../../../src/codes/index.ts';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import { fingerprint } from '../../../src/judging/fingerprint.ts';
import {
  advanceMonitor,
  type MonitorConfig,
  type MonitorEvent,
  type MonitorInput,
  prepareMonitor,
  resumeMonitor,
  startMonitor,
} from '../../../src/monitor/index.ts';
import type { TimedReading } from '../../../src/reading/index.ts';
import { expectRefused } from '../../inputs/refused.ts';
import { day, hour, minute } from './kept.ts';

function run(config: MonitorConfig, inputs: readonly MonitorInput[]) {
  const prepared = prepareMonitor(config);
  let state = startMonitor(prepared);
  const events: MonitorEvent[] = [];
  let verdict = null;
  for (const input of inputs) {
    const step = advanceMonitor(prepared, resumeMonitor(prepared, JSON.parse(JSON.stringify(state))).state, input);
    state = step.state;
    events.push(...step.events);
    verdict = step.verdict;
  }
  return { state, events, verdict };
}
const short = (events: readonly MonitorEvent[]) =>
  events.map((e) => `${e.time} ${e.event} ${'alarm' in e ? e.alarm : 'figure' in e ? e.figure : ''}`.trim());

describe('a figure of one’s own with a quality', () => {
  const acid = { other: 'acid number' };
  const config: MonitorConfig = {
    codes: [],
    alarms: [{ id: 'sour', type: 'high', figure: acid, setpoint: 1 }],
    follow: [
      { id: 'acid', figure: acid, blockMs: hour },
      { id: 'soot', figure: { other: 'soot' }, blockMs: hour },
    ],
    staleAfterMs: 2 * minute,
  };
  const given = (at: number, others: TimedReading['others'] & object): MonitorInput => ({ time: at * minute, others });

  test('a bad one is told once for each figure, moves nothing, and leaves the readings stale', () => {
    const { events, state, verdict } = run(config, [
      given(0, { 'acid number': 0.4, soot: { value: 1, quality: 'uncertain' } }),
      given(1, { 'acid number': { value: 9, quality: 'bad' }, soot: { value: 8, quality: 'bad' } }),
      given(2, { 'acid number': { value: 9, quality: 'bad' } }),
      given(3, { 'acid number': { value: 9, quality: 'bad' }, sand: { value: 1, quality: 'bad' } }),
      given(4, { 'acid number': { value: 2, quality: 'uncertain' }, soot: 3 }),
      given(5, { 'acid number': { value: 3, quality: 'good' } }),
    ]);
    expect(events).toEqual([
      { time: minute, event: 'quality_bad', figure: 'other acid number', findings: [] },
      { time: minute, event: 'quality_bad', figure: 'other soot', findings: [] },
      { time: 2 * minute, event: 'readings_stale', since: 0 },
      { time: 2 * minute, alarm: 'sour', event: 'signal_stale', since: 0, figure: 'other acid number' },
      { time: 4 * minute, alarm: 'sour', event: 'signal_restored', figure: 'other acid number' },
      expect.objectContaining({ time: 4 * minute, event: 'raised', alarm: 'sour', value: 2 }),
      { time: 4 * minute, event: 'readings_restored' },
      { time: 4 * minute, event: 'quality_restored', figure: 'other acid number' },
      { time: 4 * minute, event: 'quality_restored', figure: 'other soot' },
    ]);
    expect(state.followed.map(({ open }) => [open?.count, open?.mean])).toEqual([
      [3, expect.closeTo(1.8, 12)],
      [2, 2],
    ]);
    expect(state.bad).toBeUndefined();
    expect(verdict?.alarms).toEqual([{ id: 'sour', state: 'unacknowledged_alarm', judged: true }]);
  });

  test('a figure that is bad stays so where a reading lacks it', () => {
    const bad = { time: 0, celsius: 40, kPa: 300, qualities: { celsius: 'bad' } } as const;
    const { events, state } = run(config, [bad, { time: 1, kPa: 300 }, { time: 2, celsius: 40 }]);
    const told = events.filter((event) => 'figure' in event && event.figure === 'celsius');
    expect(short(told)).toEqual(['0 quality_bad celsius', '2 quality_restored celsius']);
    expect(state.bad).toBeUndefined();
  });

  test('one good figure among bad ones is enough to be heard', () => {
    const bad = { value: 1, quality: 'bad' } as const;
    const heard = (others: object) => run(config, [given(0, { soot: 1 }), { time: hour, others } as never]).state.heard;
    expect(heard({ a: bad, b: 1 })).toBe(hour);
    expect(heard({ a: bad, b: { value: 1, quality: 'uncertain' } })).toBe(hour);
    expect(heard({ a: bad, b: bad })).toBe(0);
    expect(heard({})).toBe(0);
  });

  test('its quality belongs to the fingerprint', () => {
    const prints = [
      { a: 1 },
      { a: { value: 1, quality: 'good' } },
      { a: { value: 1, quality: 'bad' } },
      { a: { value: 2, quality: 'bad' } },
      { b: { value: 2, quality: 'bad' } },
    ].map((others) => fingerprint({ time: 0, others } as TimedReading));
    expect(new Set(prints).size).toBe(5);
    expect(fingerprint({ time: 7, others: { a: { quality: 'bad', value: 1 } } })).toBe(prints[2]);
  });
});

describe('a scale number', () => {
  const config: MonitorConfig = {
    codes: [],
    alarms: [{ id: 'dirty', type: 'high', figure: { scaleNumberAt: 6 }, setpoint: 16 }],
  };
  const told = (one: Partial<TimedReading>) => {
    const { events, verdict } = run(config, [{ time: 0, ...one }]);
    const raised = events.find(({ event }) => event === 'raised') as { value?: number } | undefined;
    return [verdict?.alarms[0]?.judged, raised?.value ?? null];
  };

  test.each<[string, string, unknown[]]>([
    ['of the size', '20/17/14', [true, 17]],
    ['not above the setpoint', '20/16/14', [true, null]],
    ['of two sizes', '-/17/14', [true, 17]],
    ['beyond the last', '>28/>28/14', [true, 29]],
    ['seen by few', '20/>=17/14', [true, 17]],
    ['not there', '20/-/14', [false, null]],
    ['too many to count', '*/*/14', [true, 29]],
    ['that cannot be read', 'seventeen', [false, null]],
  ])('%s, from the code %s', (_name, code, expected) => {
    expect(told({ codes: { iso4406: code } })).toEqual(expected);
  });

  test('of a size that no code has, of another table, and from counts before the code', () => {
    const five = { ...config, alarms: [{ ...(config.alarms?.[0] as object), figure: { scaleNumberAt: 5 } }] };
    expect(run(five as never, [{ time: 0, codes: { iso4406: '20/17/14' } }]).verdict?.alarms[0]?.judged).toBe(false);
    expect(told({ codes: { nas1638: '9' } })).toEqual([false, null]);
    const counts = cumulativeCounts({ 4: 18900, 6: 7020, 14: 330 }, { volumeMl: 10 });
    expect(told({ counts, codes: { iso4406: '18/17/12' } })).toEqual([true, 17]);
    expect(told({ counts: cumulativeCounts({ 4: 18900 }), codes: { iso4406: '18/17/12' } })).toEqual([false, null]);
    const share = {
      ...config,
      alarms: [{ ...(config.alarms?.[0] as object), figure: { continuousScaleNumberAt: 6 } }],
    };
    // a code has no figure between its numbers
    expect(run(share as never, [{ time: 0, codes: { iso4406: '20/17/14' } }]).verdict?.alarms[0]?.judged).toBe(false);
  });
});

describe('a probability', () => {
  const errors = { volume: 0.03, sizing: 0.02 };
  const prepared = prepareMonitor({ codes: [{ table: iso4406, target: '18/16/13', errors }, { table: nas1638 }] });

  test('of codes with errors alone, and null where it cannot be told', () => {
    const codesOf = (one: Partial<TimedReading>) =>
      advanceMonitor(prepared, startMonitor(prepared), { time: 0, ...one }).verdict?.codes ?? [];
    const whole = codesOf({ counts: cumulativeCounts({ 4: 18900, 6: 4020, 14: 330 }, { volumeMl: 10 }) });
    expect(whole[0]?.probability).toBeGreaterThan(0);
    expect(whole[1]).not.toHaveProperty('probability');
    const missing = codesOf({ counts: cumulativeCounts({ 4: 18900, 6: 4020 }, { volumeMl: 10 }) });
    expect(missing[0]?.probability).toBeNull();
    const { volumeMl: _volume, ...bare } = cumulativeCounts({ 4: 18900, 6: 4020, 14: 330 }, { volumeMl: 10 });
    expect(codesOf({ counts: bare })[0]?.probability).toBeNull();
    expect(codesOf({ codes: { iso4406: '18/16/13' } })[0]?.probability).toBeNull();
  });
});

describe('the clock and time', () => {
  test('readings are never stale where the configuration says so', () => {
    const reading = (time: number) => ({ time, celsius: 40 });
    const events = (staleAfterMs: number | null) =>
      short(run({ codes: [], staleAfterMs }, [reading(0), { kind: 'tick', time: 9 * day }]).events);
    expect(events(null)).toEqual([]);
    expect(events(9 * day)).toEqual([]);
    expect(events(9 * day - 1)).toEqual([`${9 * day - 1} readings_stale`]);
  });

  test('what is due by a clock set back is told after it, and not as of a time before it', () => {
    // what is usual shrinks to a week with the set-back, so that ten of it are over
    const months = [0, 40, 80, 120].map((at) => ({ time: at * day, celsius: 40 }));
    const back = [-21, 0, 2].map((i) => ({ kind: 'tick', time: 200 * day + i * (i < 0 ? day : 1) }) as const);
    const { events } = run({ codes: [] }, [...months, { kind: 'tick', time: 300 * day }, ...back]);
    const to = 200 * day + 2;
    expect(events.map(({ time, event }) => [time, event])).toEqual([
      [to, 'clock_set'],
      [to, 'readings_stale'],
    ]);
  });

  test('a clock set before the first reading, and the reading set aside judged', () => {
    const config: MonitorConfig = {
      codes: [],
      alarms: [{ id: 'hot', type: 'high', figure: { quantity: 'celsius' }, setpoint: 65 }],
      clockJumpMs: day,
    };
    const year = 365 * day;
    const { events, state } = run(config, [
      { kind: 'tick', time: 0 },
      { time: year, celsius: 70 },
      { time: year + 5, celsius: 60 },
    ]);
    expect(short(events)).toEqual([
      '0 set_aside',
      `${year} clock_set`,
      `${year} raised hot`,
      `${year + 5} returned hot`,
    ]);
    expect(state.recent?.map(([time]) => time)).toEqual([year, year + 5]);
  });

  test('without a limit on a clock ahead five minutes tell a clock set back', () => {
    const of = (clockAheadMs: number | null): MonitorConfig => ({ codes: [], limits: { clockAheadMs } });
    const events = (config: MonitorConfig, ahead: number) => {
      const reading = (time: number, receivedAt: number) => ({ time, receivedAt, celsius: 40 });
      // nothing is usual yet: the host's clock alone tells
      return short(run(config, [reading(ahead, 0), reading(60000, 60000)]).events).filter((e) =>
        /clock_set|late/.test(e),
      );
    };
    expect(events(of(null), 360001)).toEqual(['60000 clock_set']);
    expect(events(of(null), 360000)).toEqual(['360000 late']);
    expect(events(of(400000), 360001)).toEqual(['360001 late']);
  });

  test('of several followed figures one learns anew', () => {
    const follow = ['a', 'b'].map((id) => ({ id, figure: { other: id }, blockMs: minute }));
    const inputs = [0, 1, 2].map((i) => ({ time: i * minute, others: { a: i, b: i } }));
    const { state, events } = run({ codes: [], follow }, [
      ...inputs,
      { kind: 'relearn', time: 3 * minute, followed: 'b' },
    ]);
    expect(short(events)).toEqual([`${3 * minute} relearning other b`]);
    expect(state.followed.map(({ change }) => change?.length)).toEqual([36 + 3 * 4, 36]);
  });
});

describe('tables and names handed in', () => {
  const problems = (config: unknown, options?: object) => {
    try {
      prepareMonitor(config as MonitorConfig, options);
    } catch (error) {
      return (error as { problems: { path: unknown[]; expected: string }[] }).problems.map(
        ({ path, expected }) => `${path.join('.')}: ${expected}`,
      );
    }
    return [];
  };

  test('a table by an id that none has: those that were handed in are named', () => {
    expect(problems({ codes: [{ table: 'x' }] })).toEqual([
      'codes.0.table: a class table itself: no `tables` were handed in that an id could name',
    ]);
    expect(problems({ codes: [{ table: 'x' }], tables: [iso4406] }, { tables: [nas1638] })).toEqual([
      "codes.0.table: the id of a table: 'nas1638', 'iso4406'",
    ]);
    expect(problems({ codes: [{ table: 'iso4406' }] }, { tables: [iso4406] })).toEqual([]);
  });

  test('the same table twice, a column of another, errors without a target', () => {
    expect(problems({ codes: [{ table: iso4406 }, { table: iso4406 }] })).toEqual(['codes.1.table: each table once']);
    expect(problems({ codes: [{ table: iso4406, columns: ['4', '5'] }] })).toEqual([
      "codes.0.columns.1: one of '4', '6', '14'",
    ]);
    expect(problems({ codes: [{ table: iso4406, errors: {} }] })).toEqual(['codes.0.errors: a target beside it']);
    expect(problems({ codes: [{ table: iso4406, target: '18/16/13', columns: ['6'] }] })).toEqual([]);
    expect(problems({ codes: [{ table: iso4406, target: '-/16/-', columns: ['4'] }] })).toEqual([
      "codes.0.target: classes of the table, for one of '4'",
    ]);
  });

  test('a table of the list that is none is told once', () => {
    expect(problems({ codes: [], tables: [5, iso4406] })).toEqual(['tables.0: a class table']);
    const [bad] = problems({ codes: [], tables: [{ ...iso4406, classes: [] }] });
    expect(bad).toMatch(/^tables\.0/);
  });

  test.each<[string, string, string, object]>([
    ['wrong_type', 'options.tables', 'an array of class tables', { tables: iso4406 }],
    ['wrong_type', 'options.configuration', 'a name', { configuration: 5 }],
    ['out_of_range', 'options.configuration', 'a name of 1 to 64 characters', { configuration: '' }],
    ['out_of_range', 'options.configuration', 'a name of 1 to 64 characters', { configuration: 'x'.repeat(65) }],
    ['unknown_option', 'options.table', 'tables', { table: [] }],
  ])('%s at %s: %s', (code, parameter, words, options) => {
    expectRefused(code, parameter, words, () => prepareMonitor({ codes: [] }, options as never));
  });

  test('a name of 64 characters is one', () => {
    const configuration = 'x'.repeat(64);
    expect(prepareMonitor({ codes: [] }, { configuration }).configuration).toBe(configuration);
  });
});
