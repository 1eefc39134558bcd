/** States that were cut or damaged where rules of single members say nothing: gone on from, or refused by name. */
import { describe, expect, test } from 'vitest';
import { keptChange, openChange } from '../../../src/monitor/followed/means.ts';
import {
  advanceMonitor,
  advanceUnit,
  type MonitorEvent,
  type MonitorInput,
  type MonitorState,
  prepareMonitor,
  resumeMonitor,
  startMonitor,
  startUnit,
} from '../../../src/monitor/index.ts';
import { packFigure, packTime, packWhole } from '../../../src/state/packed.ts';
import { startChange } from '../../../src/trend/index.ts';
import { expectRefused } from '../../inputs/refused.ts';
import { begin, day, hour, minute } from './kept.ts';

const prepared = prepareMonitor({
  codes: [],
  alarms: [
    { id: 'high', type: 'high', figure: { other: 'a' }, setpoint: 5, reAlarmAfterMs: hour },
    { id: 'rise', type: 'rise', figure: { other: 'a' }, setpoint: 2, withinMs: day },
  ],
  follow: [{ id: 'mean', figure: { other: 'a' }, blockMs: hour, least: 1 }],
  staleAfterMs: day,
});
type Loose = { -readonly [Key in keyof MonitorState]: MonitorState[Key] };
const copy = (state: MonitorState): Loose => JSON.parse(JSON.stringify(state));

function go(state: MonitorState, inputs: readonly MonitorInput[]) {
  const events: MonitorEvent[] = [];
  let now = resumeMonitor(prepared, state).state;
  for (const input of inputs) {
    const step = advanceMonitor(prepared, now, input);
    now = resumeMonitor(prepared, copy(step.state)).state;
    events.push(...step.events);
  }
  return { state: now, told: events.map(({ time, event }) => `${(time - begin) / minute} ${event}`) };
}
const reading = (minutes: number, a = 9) => ({ time: begin + minutes * minute, others: { a } });
const course = Array.from({ length: 30 }, (_, i) => reading(20 * i, i % 4));
const doubted = go(startMonitor(prepared), [...course, reading(9e5)]).state;

test('the state tried doubts the clock, follows a figure, and remembers readings', () => {
  expect(Object.keys(doubted).sort()).toEqual([
    ...['alarms', 'arrivals', 'clock', 'followed', 'heard', 'recent', 'repeats', 'time', 'usualMs', 'version'],
  ]);
  expect(doubted.clock?.ahead?.last?.alarms).toHaveLength(20);
  expect(doubted.followed[0]).toHaveProperty('trend');
});

describe('a member that may be left out', () => {
  const after = [reading(9e5 + 1), reading(9e5 + 2)];
  const back = [reading(100), reading(101), reading(102), reading(103)];

  test.each(['heard', 'recent', 'repeats', 'usualMs', 'clock'] as const)(
    '%s: the clock can be set all the same',
    (name) => {
      const cut = copy(doubted);
      delete cut[name];
      const told = { usualMs: '580 clock_kept', clock: '900001 clock_set' };
      // where nothing is usual, nothing lies too far ahead
      expect(go(cut, after).told).toContain(told[name as keyof typeof told] ?? '900000 clock_set');
      expect(go(cut, back).told).toContain('102 clock_set');
    },
  );

  test('time, where no other is kept: the next reading gives it, and an alarm that is gone has gone at no time', () => {
    const { version, arrivals } = doubted;
    const [high, rise] = startMonitor(prepared).alarms;
    const bare = { version, arrivals, alarms: [high, { ...rise, unacknowledged: true }], followed: [] };
    const first = advanceMonitor(prepared, resumeMonitor(prepared, bare).state, reading(570));
    expect([first.state.time, first.verdict?.arrival]).toEqual([begin + 570 * minute, 'in_order']);
    const less = prepareMonitor({ codes: [] });
    expect(resumeMonitor(less, bare).events).toMatchObject([
      { time: 0, alarm: 'rise', event: 'dropped', state: 'returned_to_normal_unacknowledged' },
    ]);
    for (const name of ['recent', 'heard', 'repeats', 'alarms', 'followed'] as const)
      expect(() => resumeMonitor(prepared, { ...bare, [name]: doubted[name] })).toThrow(
        /no later than state\.time, as a state keeps it/,
      );
    expectRefused('bad_state', 'state.followed[0].open.block', 'a block no later than state.time', () =>
      resumeMonitor(prepared, { ...bare, followed: doubted.followed }),
    );
  });

  describe('a time after the last one is refused', () => {
    const lately = go(startMonitor(prepared), [...course, { ...reading(583, 1), mlPerMin: 0 }, reading(586, 9)]).state;
    const flowing = go(lately, [{ ...reading(589, 9), mlPerMin: 40 }, reading(588)]).state;
    const last = flowing.time as number;
    const change = flowing.followed[0]?.change as string;
    const blockLater = keptChange({ ...openChange(change), last: Math.floor(last / hour) + 1 });
    const [high, rise] = flowing.alarms;
    const withAlarm = (more: object) => ({ alarms: [{ ...high, ...more }, rise] });
    const withRepeats = (more: object) => ({ repeats: { ...flowing.repeats, ...more } });

    test.each<[string, object]>([
      ['heard', { heard: last + 1 }],
      [
        'recent[1]',
        {
          recent: [
            [last, 5],
            [last + 1, 5],
          ],
        },
      ],
      ['clock.behind.time', { clock: { behind: { time: last + 1, count: 1 } } }],
      ['targets[0].heard', { targets: [{ id: 'iso4406', heard: last + 1 }] }],
      ['repeats.time', withRepeats({ time: last + 1 })],
      ['repeats.before', withRepeats({ before: last + 1 })],
      ['repeats.flow.from', withRepeats({ flow: { ...flowing.repeats?.flow, from: last + 1 } })],
      ['alarms[0].since', withAlarm({ since: last + 1 })],
      ['alarms[0].realarmed', withAlarm({ realarmed: last + 1 })],
      ['alarms[0].pending', withAlarm({ pending: last + 1 })],
      ['alarms[0].heard', withAlarm({ heard: last + 1 })],
      ['alarms[0].raises', withAlarm({ raises: packTime(last + 1) })],
      ['alarms[1].part', { alarms: [high, { ...rise, part: Math.floor((last * 24) / day) + 1 }] }],
      ['followed[0].change', { followed: [{ ...flowing.followed[0], change: blockLater }] }],
    ])('state.%s', (name, more) => {
      const what = /part|change/.test(name) ? (name.endsWith('part') ? 'part' : 'block') : 'time';
      const words = `a ${what} no later than state.time, as a state keeps it`;
      expectRefused('bad_state', `state.${name}`, words, () => resumeMonitor(prepared, { ...flowing, ...more }));
    });

    test('in the order of the state that was saved, and not of an alarm that is gone', () => {
      const spoilt = { ...rise, part: 1e12 };
      const swapped = { ...flowing, alarms: [spoilt, high] };
      expectRefused('bad_state', 'state.alarms[0].part', 'a part no later', () => resumeMonitor(prepared, swapped));
      const gone = { ...flowing, alarms: [high, { ...spoilt, id: 'gone' }] };
      expect(resumeMonitor(prepared, gone).dropped).toEqual(['gone']);
    });

    test("but not the end of a shelf, the host's clock, a reading ahead, or the day of the first reading", () => {
      const sinceDay = (flowing.repeats?.sinceDay as number) + 1;
      const ahead = { time: last + 9e9, count: 1, readings: [last + 9e9] };
      const clock = { ahead, behind: { time: last - 1, count: 1, receivedAt: last + 9e9 } };
      const more = {
        receivedAt: last + 9e9,
        clock,
        ...withRepeats({ sinceDay }),
        ...withAlarm({ shelf: { until: 1e14 } }),
      };
      expect(resumeMonitor(prepared, { ...flowing, ...more }).kept).toEqual(['high', 'rise', 'mean']);
    });

    test('one bent bit in a delay that runs, as 3795593600000 for 1795593600000', () => {
      const delayed = prepareMonitor({
        codes: [],
        alarms: [{ id: 'hot', type: 'high', figure: { quantity: 'celsius' }, setpoint: 60, onDelayMs: 600000 }],
      });
      let state = startMonitor(delayed);
      for (let i = 0; i < 5; i += 1)
        state = advanceMonitor(delayed, state, { time: 1795593600000 + i * minute, celsius: 65 }).state;
      const bent = JSON.stringify(state).replace('"pending":1', '"pending":3');
      expectRefused('bad_state', 'state.alarms[0].pending', 'a time no later than state.time', () =>
        resumeMonitor(delayed, JSON.parse(bent)),
      );
    });
  });

  test('an alarm that stands since no time, with no figure: it is not raised anew, and is told without one', () => {
    const [high, rise] = copy(doubted).alarms;
    const alarms = [{ id: 'high', of: high?.of, active: true, shelf: { until: begin + 700 * minute } }, rise];
    const state = { ...copy(doubted), alarms } as MonitorState;
    delete (state as Loose).clock;
    const now = resumeMonitor(prepared, state).state;
    const { events } = advanceMonitor(prepared, now, { kind: 'tick', time: begin + 1000 * minute });
    const own = events.filter((event) => 'alarm' in event && event.alarm === 'high');
    expect(own.map(({ event }) => event)).toEqual(['unshelved', 'raised']);
    expect(own[1]).not.toHaveProperty('value');
    const since = { ...state, alarms: [{ id: 'high', of: high?.of, active: true, since: begin }, rise] };
    const anew = advanceMonitor(prepared, resumeMonitor(prepared, since).state, { kind: 'tick', time: begin + day });
    const [told] = anew.events.filter((event) => 'alarm' in event && event.alarm === 'high');
    // one that was due before the last input, at 580 minutes, is reckoned from there
    expect(told).toMatchObject({ event: 're_alarmed', times: 14, time: begin + (580 + 14 * 60) * minute });
    expect(told).not.toHaveProperty('value');
  });

  test('a clock is set before any reading, and where what is usual is learned anew', () => {
    const ticks = [0, 9e5].map((minutes) => ({ kind: 'tick', time: begin + minutes * minute }) as const);
    const first = prepareMonitor({ codes: [], clockJumpMs: day });
    let state = startMonitor(first);
    for (const input of ticks) state = advanceMonitor(first, state, input).state;
    const set = advanceMonitor(first, state, { time: begin + (9e5 + 1) * minute, celsius: 40 });
    expect([set.events[0]?.event, set.verdict?.arrival]).toEqual(['clock_set', 'in_order']);
    const { clock: _clock, ...sure } = copy(doubted);
    const learning = go(sure, [{ kind: 'relearn', time: begin + 590 * minute }, ...after]).state;
    const { last, since, ring } = openChange(learning.followed[0]?.change as string);
    expect([last, since, ring]).toEqual([Math.floor((begin + 9e5 * minute) / hour) - 1, null, []]);
  });

  test('fewer figures set aside than there are alarms: the others had none', () => {
    const cut = copy(doubted);
    const ahead = cut.clock?.ahead as NonNullable<NonNullable<MonitorState['clock']>['ahead']>;
    const last = ahead.last as NonNullable<typeof ahead.last>;
    const less = { ...last, alarms: last.alarms.slice(10), followed: '' };
    const { clock } = resumeMonitor(prepared, { ...cut, clock: { ahead: { ...ahead, last: less } } }).state;
    const none = last.alarms.slice(0, 0).padEnd(10, packWhole(1, 10));
    expect(clock?.ahead?.last).toEqual({ ...last, alarms: last.alarms.slice(10) + none, followed: none });
  });
});

describe('what a text of a state cannot be', () => {
  const change = doubted.followed[0]?.change as string;
  const trend = doubted.followed[0]?.trend as string;
  const withText = (name: 'change' | 'trend', text: string) => ({
    ...doubted,
    followed: [{ ...doubted.followed[0], [name]: text }],
  });
  const put = (text: string, at: number, piece: string) => text.slice(0, at) + piece + text.slice(at + piece.length);
  const length = change.length;
  const opened = openChange(change);
  const past = 4e11 + 1;

  test('the text itself is taken, and one that has unlearned', () => {
    expect(length).toBe(36 + 4 * 9);
    for (const kept of [change, keptChange({ ...startChange(), last: opened.last, steps: opened.steps })])
      expect(resumeMonitor(prepared, withText('change', kept)).state.followed[0]?.change).toBe(kept);
    // the blocks farthest from 1970 that there are by then, and the largest figures
    const far = keptChange({
      ...opened,
      last: Math.floor((doubted.time as number) / hour),
      since: -2e11,
      level: -2e60,
      steps: { count: 0, square: 1e130 },
    });
    expect(resumeMonitor(prepared, withText('change', far)).state.followed[0]?.change).toBe(far);
    const back = { ...opened, last: -2e11, ring: [] };
    expect(resumeMonitor(prepared, withText('change', keptChange(back))).kept).toContain('mean');
  });

  test.each<[string, string]>([
    ['a unit beyond the last', put(change, 0, packWhole(73, 1))],
    ['a last block too far', put(change, 1, packWhole(past, 6))],
    ['no last block', put(change, 1, packWhole(0, 6))],
    ['a block since too far', put(change, 7, packWhole(past, 6))],
    ['since no block', put(change, 7, packWhole(0, 6))],
    ['neither settled nor not', put(change, 13, packWhole(4, 1))],
    ['a level too high', put(change, 16, packFigure(2.1e60))],
    ['squares below 0', put(change, 26, packFigure(-1))],
    ['squares too large', put(change, 26, packFigure(1.1e130))],
    ['a first mean that is none', put(change, 36, packWhole(0, 4))],
    ['a last mean that is none', put(change, length - 4, packWhole(0, 4))],
    ['a mean of eight digits', put(change, 40, packWhole(20000000, 4))],
    ['half a mean', change.slice(0, -2)],
    ['a character that none is written with', put(change, 50, '"')],
  ])('a change with %s', (_name, text) => {
    expectRefused('bad_state', 'state.followed[0].change', 'a change, as a state keeps it', () =>
      resumeMonitor(prepared, withText('change', text)),
    );
  });

  test.each<[string, string]>([
    ['a direction of none', put(trend, 19, packWhole(3, 1))],
    ['no slope', put(trend, 20, packWhole(1, 10))],
    ['a slope too steep', put(trend, 20, packFigure(2.1e60))],
    ['a low limit too low', put(trend, 30, packFigure(-2.1e60))],
    ['a high limit too high', put(trend, 40, packFigure(2.1e60))],
    ['a character that none is written with', put(trend, 58, '"')],
    ['a chance below 0', put(trend, 50, packFigure(-0.1))],
    ['a chance above 1', put(trend, 50, packFigure(1.1))],
    ['a beginning at no time', put(trend, 0, '~~')],
    ['an end at no time', put(trend, 9, '~~')],
  ])('a trend with %s', (_name, text) => {
    expectRefused('bad_state', 'state.followed[0].trend', 'a trend, as a state keeps it', () =>
      resumeMonitor(prepared, withText('trend', text)),
    );
  });

  const aside = (more: object) => {
    const ahead = doubted.clock?.ahead;
    return { ...doubted, clock: { ahead: { ...ahead, last: { ...ahead?.last, ...more } } } };
  };
  test.each<[string, string, unknown]>([
    ['state.clock.ahead.last', 'figures, as a state keeps them', aside({ alarms: 'half' })],
    ['state.clock.ahead.last', 'figures, as a state keeps them', aside({ followed: packFigure(2.1e60) })],
    ['state.stale', 'true, or left out', { ...doubted, stale: false }],
    ['state.unused', 'true, 1 or 2, or left out', { ...doubted, unused: 'x' }],
    [
      'state.recent[1]',
      'times, oldest first, and fingerprints',
      {
        ...doubted,
        recent: [
          [5, 1],
          [4, 2],
        ],
      },
    ],
    ['state.recent[0]', 'times, oldest first, and fingerprints', { ...doubted, recent: [[5, -1]] }],
    ['state.recent[0]', 'times, oldest first, and fingerprints', { ...doubted, recent: [[null, 1]] }],
    ['state.repeats', 'counts, as a state keeps them', { ...doubted, repeats: { ...doubted.repeats, runs: [1] } }],
    ['state.alarms[1].id', 'each id once', { ...doubted, alarms: [doubted.alarms[0], doubted.alarms[0]] }],
    ['state.followed[1].id', 'each id once', { ...doubted, followed: [doubted.followed[0], doubted.followed[0]] }],
  ])('%s: %s', (parameter, words, state) => {
    expectRefused('bad_state', parameter, words, () => resumeMonitor(prepared, state));
  });

  test('the fingerprint of a reading may be unknown', () => {
    expect(
      resumeMonitor(prepared, {
        ...doubted,
        recent: [
          [5, null],
          [6, 0],
        ],
      }).state.recent,
    ).toHaveLength(2);
  });
});

describe('a record of a unit', () => {
  const record = startUnit(prepared, { unit: 'upper gate' });
  const input = { seq: 1, payload: reading(0) };

  test.each<[string, string, string, unknown]>([
    ['wrong_type', 'record', 'a record of startUnit or advanceUnit', null],
    ['bad_state', 'record.version', '1', { ...record, version: 2 }],
    ['wrong_type', 'record.unit', 'a name', { ...record, unit: 5 }],
    ['empty', 'record.unit', 'a name', { ...record, unit: '' }],
    ['out_of_range', 'record.unit', 'a name', { ...record, unit: 'x'.repeat(65) }],
    ['wrong_type', 'record.configuration', 'a name', { ...record, configuration: 5 }],
    ['unknown_option', 'record.sequence', "'unit', 'seq', 'configuration'", { ...record, sequence: 4 }],
    ['negative', 'record.seq', 'a whole number', { ...record, seq: -1 }],
    ['bad_state', 'state.alarms', '2 of them', { ...record, state: { ...record.state, alarms: [] } }],
    ['bad_configuration', 'prepared', 'a change of it comes as { kind:', { ...record, print: 5 }],
  ])('%s at %s: %s', (code, parameter, words, bad) => {
    expectRefused(code, parameter, words, () => advanceUnit(prepared, bad as never, input));
  });

  test.each<[string, string, string, object]>([
    [
      'unknown_option',
      'input.name',
      "one of 'kind', 'configuration', 'time'",
      { configuration: 'x', time: 0, name: 'x' },
    ],
    ['wrong_type', 'input.configuration', 'a name', { configuration: 5, time: 0 }],
    ['not_an_integer', 'input.time', 'whole milliseconds', { configuration: 'x', time: 0.5 }],
  ])('another configuration that is none is rejected: %s at %s', (code, parameter, words, payload) => {
    const step = advanceUnit(
      prepared,
      { ...record, seq: 7 },
      { seq: 8, payload: { kind: 'configuration', ...payload } as never },
    );
    expect(step).toMatchObject({ outcome: 'rejected', verdict: null, record: { seq: 8, state: record.state } });
    expect(step.events).toHaveLength(1);
    expect(step.events[0]).toMatchObject({ id: 'upper gate.8.1', time: 0, event: 'rejected', code, parameter });
    expect((step.events[0] as { expected: string }).expected).toContain(words);
  });

  test('of another name than what was prepared', () => {
    const named = prepareMonitor({ codes: [] }, { configuration: 'spring' });
    const own = startUnit(named, { unit: 'x' });
    expect(own.configuration).toBe('spring');
    expectRefused('bad_configuration', 'prepared', "what was prepared of 'summer'; a change of it comes as", () =>
      advanceUnit(named, { ...own, configuration: 'summer' }, input),
    );
    const edited = prepareMonitor({ codes: [], restoredAfter: 5 }, { configuration: 'spring' });
    const others = "'spring' with the contents that the record is of, and not others by the same name; a change of it";
    expectRefused('bad_configuration', 'prepared', others, () => advanceUnit(edited, own, input));
    expectRefused('bad_configuration', 'prepared', others, () => advanceUnit(named, { ...own, print: 5 }, input));
    expectRefused('bad_configuration', 'unit.configuration', "'spring', the name that was prepared", () =>
      startUnit(named, { unit: 'x', configuration: 'summer' }),
    );
    for (const unit of ['', 'x'.repeat(65)])
      expect(() => startUnit(named, { unit })).toThrow(expect.objectContaining({ parameter: 'unit.unit' }));
    expect(startUnit(named, { unit: 'x'.repeat(64) }).seq).toBe(0);
  });

  test('numbers of inputs', () => {
    const at = (seq: unknown) => () => advanceUnit(prepared, record, { ...input, seq } as never);
    expectRefused('out_of_range', 'input.seq', 'a whole number', at(0));
    expectRefused('not_an_integer', 'input.seq', 'a whole number', at(1.5));
    expect(at(1)().outcome).toBe('accepted');
    expect(at(2)()).toMatchObject({ outcome: 'gap', missing: 1 });
    expect(advanceUnit(prepared, { ...record, seq: 3 }, { ...input, seq: 3 }).outcome).toBe('duplicate');
  });

  test('of twenty mistakes beside the first nineteen are told, and how many more there are', () => {
    const told = (n: number) => {
      const more = Object.fromEntries(Array.from({ length: n }, (_, i) => [`x${i + 10}`, 1]));
      const { events } = advanceUnit(prepared, record, { seq: 1, payload: { ...reading(0), ...more } as never });
      return (events[0] as { expected: string }).expected;
    };
    expect(told(20)).toMatch(/; input\.x29: received [^;]*$/);
    expect(told(20)).not.toContain('; and 1 more');
    expect(told(21)).toMatch(/; and 1 more$/);
    expect(told(21)).not.toContain('input.x30');
  });
});

test('a damaged time of an alarm keeps no step busy for ever, and is named where the state is taken in', () => {
  const alarms = doubted.alarms.map((alarm) => ({ ...alarm, heard: '' as never }));
  const damaged = { ...startMonitor(prepared), alarms } as MonitorState;
  const told = advanceMonitor(prepared, damaged, reading(0)).events.map(({ event }) => event);
  expect(told).not.toContain('chattering_ended');
  expectRefused('bad_state', 'state.alarms[0].heard', 'whole milliseconds', () => resumeMonitor(prepared, damaged));
});
