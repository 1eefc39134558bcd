/** What comes and goes: told once as that, silent until it has been steady, and then told as it stands. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { standardTables } from '../../../src/codes/index.ts';
import { germanTexts as german } from '../../../src/german/index.ts';
import {
  advanceMonitor,
  advanceUnit,
  type MonitorConfig,
  type MonitorEvent,
  type MonitorInput,
  type MonitorState,
  prepareMonitor,
  resumeMonitor,
  startMonitor,
  startUnit,
} from '../../../src/monitor/index.ts';
import { messageOf } from '../../../src/report/index.ts';
import { expectRefused } from '../../inputs/refused.ts';
import { some } from '../../volume.ts';
import { begin, day, hour, minute } from './kept.ts';

const hot = { id: 'hot', type: 'high', figure: { quantity: 'celsius' }, setpoint: 65 } as const;
const acid = { id: 'acid', type: 'high', figure: { other: 'acid number' }, setpoint: 2 } as const;
const config: MonitorConfig = { codes: [], alarms: [hot, acid], chattering: {} };
const prepare = (more: object = {}) => prepareMonitor({ ...config, ...more }, { tables: standardTables });

/** All events of some inputs, minutes since the beginning first. */
function told(inputs: readonly MonitorInput[], prepared = prepare(), from = startMonitor(prepared)) {
  let state = from;
  const events: MonitorEvent[] = [];
  for (const input of inputs) {
    const step = advanceMonitor(prepared, state, input);
    state = step.state;
    events.push(...step.events);
  }
  const words = events.map(({ time, event, ...rest }) => {
    const { condition = '', figure = '', untold = '', standing } = rest as { [name: string]: unknown };
    const parts = [(time - begin) / minute, event, condition, figure, untold, standing === true ? 'standing' : ''];
    return parts.filter((part) => part !== '').join(' ');
  });
  return { state, events, words };
}
const at = (minutes: number) => begin + minutes * minute;
/** A reading whose temperature is good or bad. */
const warm = (minutes: number, good: boolean): MonitorInput => ({
  time: at(minutes),
  celsius: 50,
  ...(good ? {} : { qualities: { celsius: 'bad' } }),
});
const tick = (minutes: number): MonitorInput => ({ kind: 'tick', time: at(minutes) });
const every = (step: number, from: number, to: number) =>
  Array.from({ length: (to - from) / step }, (_, i) => from + i * step);
const alternating = (to: number) => every(10, 0, to).map((minutes) => warm(minutes, (minutes / 10) % 2 === 0));
const first = [
  '10 quality_bad celsius',
  '20 quality_restored celsius',
  '30 quality_bad celsius',
  '40 quality_restored celsius',
  '50 quality_bad celsius',
  '50 condition_chattering quality_bad celsius',
];

describe('a figure that is bad in every other reading', () => {
  test('is told three times, then that it comes and goes, and no more', () => {
    const { words, events } = told(alternating(1400));
    expect(words).toEqual(first);
    const rest = { condition: 'quality_bad', figure: 'celsius', raises: 3, since: at(10), withinMs: hour };
    expect(events[5]).toEqual({ time: at(50), event: 'condition_chattering', ...rest });
  });

  test('is told as it stands once it has been steady for an hour, and counted', () => {
    const good = every(10, 200, 320).map((minutes) => warm(minutes, true));
    const { words, state } = told([...alternating(200), ...good, warm(320, false)]);
    // bad last at 190, good from 200 on: after 260 it is steady
    const steady = ['260 condition_chattering_ended quality_bad celsius 7', '260 quality_restored celsius standing'];
    expect(words).toEqual([...first, ...steady, '320 quality_bad celsius']);
    expect(state.conditions).toHaveLength(1);
    expect(told([tick(400)], prepare(), state).state.conditions).toBeUndefined();
  });

  test('and stays bad: that is told by a tick too, strictly after the hour', () => {
    const bad = [...alternating(200), tick(250)];
    expect(told(bad).words).toEqual(first);
    const { words } = told([...bad, tick(251)]);
    expect(words.slice(6)).toEqual([
      '250 condition_chattering_ended quality_bad celsius 7',
      '250 quality_bad celsius standing',
    ]);
  });

  test('by other limits, or each time', () => {
    const [inputs, chattering] = [alternating(380), { raises: 2, withinMs: 20 * minute }];
    expect(told(inputs, prepare({ chattering })).words.slice(3)).toEqual([
      '30 condition_chattering quality_bad celsius',
    ]);
    expect(told(inputs, prepare({ chattering: { raises: 2, withinMs: 20 * minute - 1 } })).words).toHaveLength(37);
    expect(told(inputs, prepare({ chattering: { raises: 20, withinMs: day } })).words).toHaveLength(37);
  });

  test.each([undefined, null])('is told each time where nothing is asked for: %s', (chattering) => {
    const each = prepare({ chattering });
    const { words, state } = told(alternating(380), each);
    expect(words).toHaveLength(37);
    expect(state).not.toHaveProperty('conditions');
    const late = told([{ time: at(370), celsius: 70 }], each, state).state;
    expect(late.alarms[0]).not.toHaveProperty('named');
  });

  test('goes on from a saved state, also where the configuration changes', () => {
    const { state } = told(alternating(200));
    const each = prepare({ chattering: null });
    const next = told([warm(200, true)], each, resumeMonitor(each, JSON.parse(JSON.stringify(state))).state);
    expect(next.words).toEqual([
      '190 condition_chattering_ended quality_bad celsius 7',
      '190 quality_bad celsius standing',
      '200 quality_restored celsius',
    ]);
    const short = prepare({ chattering: { raises: 3, withinMs: minute } });
    expect(told([warm(200, true)], short, resumeMonitor(short, state).state).words).toEqual([
      '191 condition_chattering_ended quality_bad celsius 7',
      '191 quality_bad celsius standing',
      '200 quality_restored celsius',
    ]);
  });

  test('of its own name', () => {
    const inputs = every(10, 0, 200).map((minutes) => {
      const value = 1;
      return { time: at(minutes), others: { 'acid number': minutes % 20 === 0 ? value : { value, quality: 'bad' } } };
    });
    expect(told(inputs as MonitorInput[]).words.slice(5)).toEqual([
      '50 condition_chattering quality_bad other acid number',
    ]);
  });
});

describe('other things that come and go', () => {
  test('readings that are stale, and a target that is', () => {
    const codes = [{ table: 'iso4406', target: '18/16/13' }];
    const prepared = prepare({ codes, alarms: [], staleAfterMs: 5 * minute });
    const inputs = every(10, 0, 100).map((minutes) => ({ time: at(minutes), codes: { iso4406: '17/15/12' } }));
    const { words } = told([...inputs, tick(300)], prepared);
    expect(words.filter((line) => line.includes('readings'))).toEqual([
      ...['5 readings_stale', '10 readings_restored', '15 readings_stale', '20 readings_restored'],
      ...['25 readings_stale', '25 condition_chattering readings_stale'],
      // last at 90, stale at 95, and so an hour after
      ...['155 condition_chattering_ended readings_stale 7', '155 readings_stale standing'],
    ]);
    expect(words.filter((line) => line.includes('target')).slice(4)).toEqual([
      ...['25 target_stale code iso4406', '25 condition_chattering target_stale code iso4406'],
      ...['155 condition_chattering_ended target_stale code iso4406 7', '155 target_stale code iso4406 standing'],
    ]);
  });

  test('that were steady before they change, in the time between two inputs', () => {
    const codes = [{ table: 'iso4406', target: '18/16/13' }];
    const prepared = prepare({
      codes,
      alarms: [],
      staleAfterMs: 5 * minute,
      chattering: { raises: 2, withinMs: hour },
    });
    const code = (minutes: number) => ({ time: at(minutes), codes: { iso4406: '17/15/12' } });
    const { words } = told([code(0), code(10), code(20), code(200), code(201), code(300)], prepared);
    expect(words.filter((line) => line.includes('target'))).toEqual([
      ...['5 target_stale code iso4406', '10 target_restored code iso4406', '15 target_stale code iso4406'],
      '15 condition_chattering target_stale code iso4406',
      // restored at 20 and stale at 25, both untold
      ...['85 condition_chattering_ended target_stale code iso4406 1', '85 target_stale code iso4406 standing'],
      ...['200 target_restored code iso4406', '206 target_stale code iso4406', '300 target_restored code iso4406'],
    ]);
  });

  test('codes that nothing reads: told again which they are', () => {
    const coded = (minutes: number, unused: boolean): MonitorInput => ({
      time: at(minutes),
      celsius: 50,
      codes: unused ? { nas1638: '7' } : {},
    });
    const inputs = every(10, 0, 200).map((minutes) => coded(minutes, minutes % 20 === 0));
    const { words, events } = told([...inputs, ...every(10, 200, 300).map((minutes) => coded(minutes, true))]);
    expect(words).toEqual([
      ...['0 code_unused', '20 code_unused', '40 code_unused', '40 condition_chattering code_unused'],
      ...['260 condition_chattering_ended code_unused 8', '270 code_unused'],
    ]);
    expect(events[5]).toMatchObject({ codes: ['nas1638'], reading: at(270) });
  });

  test('readings that come late: held, but for one that names an alarm which none has named for an hour', () => {
    const pairs = every(20, 0, 400).flatMap((minutes) => {
      const celsius = minutes === 200 || minutes === 220 || minutes === 300 ? 70 : 50;
      return [
        { time: at(minutes + 10), celsius: 50 },
        { time: at(minutes), celsius },
      ];
    });
    const { words, events, state } = told([...pairs, ...every(10, 410, 500).map((minutes) => warm(minutes, true))]);
    expect(words).toEqual([
      ...['10 late', '30 late', '50 late', '50 condition_chattering late', '210 late', '310 late'],
      '450 condition_chattering_ended late 15',
    ]);
    expect(events.slice(4, 6)).toMatchObject([{ beyond: ['hot'] }, { beyond: ['hot'] }]);
    expect(state.arrivals.late).toBe(20);
    expect(state.alarms[0]).not.toHaveProperty('named');
  });

  test('readings held back that come in one go are each told', () => {
    const live = [warm(0, true), warm(100, true)];
    const held = every(1, 1, 60).map((minutes) => ({ ...warm(minutes, true), receivedAt: at(100) }) as MonitorInput);
    expect(told([...live, ...held]).words.filter((line) => line.startsWith('100 '))).toHaveLength(59);
  });

  test('a clock that stands still: told thrice, then that it goes on, and once that it would raise the alarm', () => {
    const sure = every(10, -100, 10).map((minutes) => ({ ...warm(minutes, true), receivedAt: at(minutes) }));
    const stuck = (minutes: number, celsius: number) => ({ time: at(0), celsius, receivedAt: at(minutes) });
    const still = every(10, 10, 100).map((minutes) => stuck(minutes, 51));
    const beyond = every(10, 100, 600).map((minutes) => stuck(minutes, 70));
    const { words, state } = told([...sure, ...still, ...beyond] as MonitorInput[]);
    expect(words.filter((line) => line.includes('contradicted'))).toEqual([
      ...['0 contradicted', '10 contradicted', '20 contradicted', '20 condition_chattering contradicted'],
      '90 contradicted',
    ]);
    expect(state.arrivals.repeated).toBe(59);
  });

  test('a clock that leaps in every other reading', () => {
    const inputs = every(10, 0, 1000).map((minutes) => warm(minutes % 20 === 0 ? minutes : minutes + 30000, true));
    const sure = every(10, -100, 0).map((minutes) => warm(minutes, true));
    const { words, state } = told([...sure, ...inputs, ...every(10, 1000, 1100).map((minutes) => warm(minutes, true))]);
    expect(words).toEqual([
      ...['0 set_aside', '0 clock_kept', '20 set_aside', '20 clock_kept', '40 set_aside'],
      ...['40 condition_chattering set_aside', '1040 condition_chattering_ended set_aside 47'],
      '1040 clock_kept standing',
    ]);
    expect(state.arrivals.setAside).toBe(50);
  });

  test('on a clock that is set the hour goes on', () => {
    const bad = alternating(200);
    const ahead = 1000 * 1440;
    const { words } = told([...bad, warm(ahead, false), warm(ahead + 10, false), tick(ahead + 51), tick(ahead + 62)]);
    const end = words.filter((line) => /standing|ended|clock_set/.test(line));
    // bad last at 190, which is now the time of the reading set aside
    expect(end).toEqual([
      `${ahead} clock_set`,
      `${ahead + 60} condition_chattering_ended quality_bad celsius 7`,
      `${ahead + 60} quality_bad celsius standing`,
    ]);
  });
});

describe('the words', () => {
  test('in English and German', () => {
    const { events } = told([...alternating(200), tick(300)]);
    const [begins, ends, stands] = events.slice(5) as [MonitorEvent, MonitorEvent, MonitorEvent];
    const line = (event: MonitorEvent, texts?: typeof german) => messageOf(event, texts).line;
    expect(line(begins)).toBe(
      'Comes and goes: Temperature: not to be relied on. Times since 2027-01-15 08:10: 3. It is told again when it ' +
        'has been steady for 60 min.',
    );
    expect(line(ends)).toBe(
      'No longer comes and goes: Temperature: not to be relied on. Times it has come meanwhile and was not told: 7.',
    );
    expect(messageOf(stands).paragraph).toContain('This is how things stand after a time without announcements.');
    expect(line(begins, german)).toContain('Meldung flattert: Temperatur: ungültig. Anzahl seit ');
    expect(line(ends, german)).toBe('Flattern beendet: Temperatur: ungültig. Inzwischen nicht gemeldet: 7.');
  });
});

describe('a state from outside', () => {
  const { state } = told(alternating(200));
  const [[name, kept]] = state.conditions as [[string, string]];

  test.each<[string, unknown]>([
    ['an unknown condition', [['dead', kept]]],
    ['one twice', [...(state.conditions ?? []), [name, kept]]],
    ['no text of times', [[name, `${kept} `]]],
    ['a character that is none', [[name, `"${kept.slice(1)}`]]],
    ['a time that there is not', [[name, `~${kept.slice(1)}`]]],
    ['more raises than there can be', [[name, kept.slice(0, 9).repeat(21)]]],
  ])('%s is refused', (_name, conditions) => {
    const damaged = { ...state, conditions };
    expectRefused('bad_state', 'state.conditions', 'what advanceMonitor remembers of conditions', () =>
      resumeMonitor(prepare(), damaged),
    );
  });

  test('a unit tells the end that a new configuration brings after that it is in force', () => {
    const prepared = prepare();
    let record = startUnit(prepared, { unit: 'upper gate' });
    alternating(200).forEach((payload, i) => {
      record = advanceUnit(prepared, record, { seq: i + 1, payload }).record;
    });
    const short = prepareMonitor(
      { ...config, chattering: { raises: 3, withinMs: minute } },
      { configuration: 'short' },
    );
    const payload = { kind: 'configuration', configuration: 'short', time: at(200) } as const;
    const { events } = advanceUnit(short, record, { seq: record.seq + 1, payload });
    expect(events.map(({ time, event }) => `${(time - begin) / minute} ${event}`)).toEqual([
      ...['200 configured', '200 condition_chattering_ended', '200 quality_bad'],
    ]);
  });
});

/** Steps of anything that comes and goes. */
const step = fc.record({
  after: fc.constantFrom(1, 1, 10, 10, 29, 61, 130),
  kind: fc.constantFrom('reading', 'reading', 'reading', 'reading', 'late', 'again', 'other', 'ahead', 'tick'),
  bad: fc.integer({ min: 0, max: 7 }),
  celsius: fc.constantFrom(50, 50, 51, 70),
});
type Given = typeof step extends fc.Arbitrary<infer One> ? One : never;

function inputsOf(steps: readonly Given[]): MonitorInput[] {
  const inputs: MonitorInput[] = [];
  let now = begin;
  const reading = (time: number, { bad, celsius }: Given): MonitorInput => ({
    ...{ time, celsius, waterSaturation: 0.3 },
    qualities: { celsius: bad % 2 === 1 ? 'bad' : 'good', waterSaturation: bad % 4 > 1 ? 'bad' : 'good' },
    others: { 'acid number': { value: 1, quality: bad > 3 ? 'bad' : 'good' } },
  });
  for (const one of steps) {
    if (['reading', 'ahead', 'tick'].includes(one.kind)) now += one.after * minute;
    if (one.kind === 'reading') inputs.push(reading(now, one));
    if (one.kind === 'late') inputs.push(reading(now - 1000 * one.after, one));
    if (one.kind === 'again' || one.kind === 'other') inputs.push(reading(now, one));
    if (one.kind === 'ahead') inputs.push(reading(now + 30 * day, one));
    if (one.kind === 'tick') inputs.push({ kind: 'tick', time: now });
  }
  return inputs;
}

const reversed = (data: unknown): unknown => {
  if (Array.isArray(data)) return data.map(reversed);
  if (typeof data !== 'object' || data === null) return data;
  return Object.fromEntries(
    Object.entries(data)
      .reverse()
      .map(([name, value]) => [name, reversed(value)]),
  );
};
const keyOf = (event: MonitorEvent): string => {
  const { condition = event.event, figure = '' } = event as { condition?: string; figure?: string };
  return `${condition} ${figure}`;
};
const coming: readonly string[] = [
  'quality_bad',
  'readings_stale',
  'late',
  'too_late',
  'repeated',
  'contradicted',
  'set_aside',
];

describe('whatever comes and goes', () => {
  const settings = fc.record({
    raises: fc.integer({ min: 2, max: 4 }),
    withinMs: fc.constantFrom(10 * minute, 30 * minute, hour),
  });
  const more = { staleAfterMs: 40 * minute, clockJumpMs: day };
  const runs = fc.record({ chattering: settings, steps: fc.array(step, { minLength: 30, maxLength: 150 }) });
  const volume = { numRuns: some(400, 60) };

  test('only events are held, each counted; a restart at every input, and the order of members, change nothing', () => {
    fc.assert(
      fc.property(runs, ({ chattering, steps }) => {
        const [held, each] = [prepare({ ...more, chattering }), prepare({ ...more, chattering: null })];
        let [state, all, saved] = [startMonitor(held), startMonitor(each), startMonitor(held)];
        const tally = new Map<string, number>();
        const count = (event: MonitorEvent, by: number) => {
          const key = keyOf(event);
          if (coming.includes(key.split(' ')[0] as string) && !('standing' in event))
            tally.set(key, (tally.get(key) ?? 0) + by);
        };
        for (const input of inputsOf(steps)) {
          const now = advanceMonitor(held, state, input);
          const then = advanceMonitor(each, all, input);
          const copy = JSON.parse(JSON.stringify(reversed(saved)));
          const again = advanceMonitor(held, resumeMonitor(held, copy).state, reversed(input) as MonitorInput);
          expect(again.events).toEqual(now.events);
          expect(again.state).toEqual(now.state);
          expect(now.verdict).toEqual(then.verdict);
          [state, all, saved] = [now.state, then.state, again.state];
          expect(bare(state)).toEqual(bare(all));
          expect(JSON.stringify(state).length).toBeLessThanOrEqual(held.stateBytes);
          for (const event of then.events) count(event, 1);
          for (const event of now.events)
            if (event.event === 'condition_chattering_ended') count(event, -(event.untold as number));
            else if (event.event !== 'condition_chattering') count(event, -1);
        }
        // what is still held is told by a last hour of rest
        const last = (state.time ?? begin) + 2 * hour;
        for (const event of advanceMonitor(held, state, { kind: 'tick', time: last }).events)
          if (event.event === 'condition_chattering_ended') count(event, -(event.untold as number));
        for (const [key, left] of tally) expect(`${key} ${left}`).toBe(`${key} 0`);
      }),
      volume,
    );
  });

  test('never twice without a steady time between; what was told last is true where it has been steady', () => {
    fc.assert(
      fc.property(runs, ({ chattering, steps }) => {
        const prepared = prepare({ ...more, chattering });
        let state = startMonitor(prepared);
        const going = new Map<string, boolean>();
        const changed = new Map<string, number>();
        const isTold = new Map<string, boolean>();
        let isBad: readonly string[] = [];
        for (const input of [...inputsOf(steps), { kind: 'tick', time: begin + 400 * day } as const]) {
          const { state: next, events } = advanceMonitor(prepared, state, input);
          for (const event of events) {
            const key = keyOf(event);
            if (event.event === 'condition_chattering') {
              expect(going.get(key)).not.toBe(true);
              going.set(key, true);
            }
            if (event.event === 'condition_chattering_ended') {
              expect(going.get(key)).toBe(true);
              going.set(key, false);
              const figure = event.figure as string;
              if (event.condition === 'quality_bad')
                expect(event.time - (changed.get(figure) as number)).toBeGreaterThanOrEqual(chattering.withinMs);
            }
            if (event.event === 'quality_bad') isTold.set(event.figure, true);
            if (event.event === 'quality_restored') isTold.set(event.figure, false);
          }
          state = next;
          const time = state.time as number;
          for (const figure of ['celsius', 'waterSaturation', 'other acid number']) {
            const is = (state.bad ?? []).includes(figure);
            if (is !== isBad.includes(figure)) changed.set(figure, time);
            else if (time - (changed.get(figure) ?? begin - day) > chattering.withinMs)
              expect(`${figure} ${isTold.get(figure) ?? false}`).toBe(`${figure} ${is}`);
          }
          isBad = state.bad ?? [];
        }
      }),
      volume,
    );
  });
});

/** All that a state has beside what is remembered of events. */
function bare({ conditions: _conditions, alarms, ...rest }: MonitorState) {
  return { ...rest, alarms: alarms.map(({ named: _named, ...alarm }) => alarm) };
}
