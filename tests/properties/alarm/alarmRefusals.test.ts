/** What an alarm refuses, each with the words that say why; and what lies just within is taken. */
import { describe, expect, test } from 'vitest';
import { type AlarmConfig, advanceAlarm, prepareAlarm, resumeAlarm, startAlarm } from '../../../src/alarm/index.ts';
import { problemsOf } from '../../../src/errors.ts';
import { earliestWritten, latestWritten } from '../../../src/rules/bounds.ts';
import { packFigure, packTime, packWhole } from '../../../src/state/packed.ts';
import { expectRefused } from '../../inputs/refused.ts';

const hot: AlarmConfig = { id: 'hot', type: 'high', setpoint: 65 };
const rise = { id: 'rise', type: 'rise', setpoint: 4, withinMs: 24000 } as const satisfies AlarmConfig;
const alone = prepareAlarm(hot);

describe('a configuration', () => {
  const problems = (config: unknown) => {
    try {
      prepareAlarm(config as AlarmConfig);
    } catch (error) {
      return problemsOf(error).map(({ path, code, expected }) => `${code} ${path.join('.')}: ${expected}`);
    }
    return [];
  };

  test.each<[string, unknown, string[]]>([
    ['a time for a limit', { ...hot, withinMs: 5 }, ["unknown_option withinMs: nothing, except for 'rise' or 'fall'"]],
    [
      'no time for a change',
      { ...rise, withinMs: undefined },
      ['wrong_type withinMs: the time looked back over, in milliseconds'],
    ],
    ['a rise of nothing', { ...rise, setpoint: 0 }, ['out_of_range setpoint: an amount above 0']],
    ['a deadband as wide', { ...rise, deadband: 4 }, ['out_of_range deadband: less than the setpoint 4']],
    [
      'modes that are none',
      { ...hot, suppressedInModes: 5 },
      ['wrong_type suppressedInModes: modes of the machine, 1 to 16 of them'],
    ],
    ['a note that is none', { ...hot, note: 5 }, ['wrong_type note: what to do or to know of 1 to 400 characters']],
    ['the widest deadband', { ...rise, deadband: 3.999 }, []],
    ['the deadband of a limit', { ...hot, setpoint: 0, deadband: 9 }, []],
  ])('%s', (_name, config, expected) => {
    expect(problems(config)).toEqual(expected);
  });

  test('what is left out', () => {
    expect(alone).toMatchObject({
      ...{ of: 'high', limit: 65, back: 65, withinMs: 0, onDelayMs: 0, offDelayMs: 0, latching: false },
      ...{ longestShelfMs: 28800000, staleAfterMs: 'usual', reAlarmAfterMs: null, suppressedInModes: [] },
      ...{ chattering: { raises: 3, withinMs: 3600000 }, details: { setpoint: 65, priority: 'medium' } },
    });
    expect(Object.keys(prepareAlarm(hot).details)).toEqual(['setpoint', 'priority']);
    const low = prepareAlarm({ ...hot, type: 'low', deadband: 2, onDelayMs: 7, staleAfterMs: null, note: 'look' });
    expect(low).toMatchObject({ of: 'low', limit: -65, back: -67, offDelayMs: 7, staleAfterMs: null });
    expect(low.details).toEqual({ setpoint: 65, priority: 'medium', note: 'look' });
    expect(prepareAlarm(rise).of).toBe('rise in 24000 ms');
  });
});

describe('an input', () => {
  const one = startAlarm(alone);
  const take =
    (input: unknown, state: unknown = one) =>
    () =>
      advanceAlarm(alone, state as never, input as never);

  test.each<[string, string, string, unknown]>([
    ['wrong_type', 'input', "a reading { time, value }, or { kind: 'command', ... }, { kind: 'tick', time }", null],
    ['unknown_option', 'input.kind', "one of 'reading', 'tick', 'command'", { kind: 'shelve', time: 0 }],
    ['wrong_type', 'input.value', 'a figure', { time: 0 }],
    ['wrong_type', 'input.time', 'whole milliseconds', { time: 5n, value: 1 }],
    ['wrong_type', 'input.value', 'a figure', { time: 0, value: Symbol('x') }],
    ['out_of_range', 'input.value', 'a figure', { time: 0, value: 1.1e60 }],
    ['out_of_range', 'input.value', 'a figure', { time: 0, value: -1.1e60 }],
    ['not_an_integer', 'input.time', 'whole milliseconds since 1970-01-01 UTC', { time: 0.5, value: 1 }],
    ['out_of_range', 'input.time', 'whole milliseconds since 1970-01-01 UTC', { time: latestWritten + 1, value: 1 }],
    ['out_of_range', 'input.time', 'whole milliseconds since 1970-01-01 UTC', { time: earliestWritten - 1, value: 1 }],
    ['unknown_option', 'input.valeu', 'quality, time, value', { time: 0, value: 1, valeu: 1 }],
    [
      'unknown_option',
      'input.forMs',
      'by, command, kind, time, why',
      { kind: 'command', time: 0, command: 'reset', forMs: 1 },
    ],
    ['wrong_type', 'input.forMs', 'whole milliseconds', { kind: 'command', time: 0, command: 'shelve' }],
    ['wrong_type', 'input.by', 'who of 1 to', { kind: 'command', time: 0, command: 'reset', by: 5 }],
    ['wrong_type', 'input.why', 'why of 1 to', { kind: 'command', time: 0, command: 'reset', why: 5 }],
    ['unknown_option', 'input.value', 'kind, mode, time', { kind: 'tick', time: 0, value: 1 }],
  ])('%s at %s: %s', (code, parameter, words, input) => {
    expectRefused(code, parameter, words, take(input));
  });

  test.each([
    { time: latestWritten, value: 1e60 },
    { time: earliestWritten, value: -1e60 },
    { kind: 'reading', time: 0, value: null },
  ])('taken: %j', (input) => {
    expect(take(input)().state.read).toBe(input.time);
  });

  test.each<[string, string, unknown]>([
    ['state', 'a state of startAlarm, advanceAlarm or resumeAlarm', null],
    ['state', 'a state of startAlarm, advanceAlarm or resumeAlarm', 'x'],
    ['state.version', 'the version, which resumeAlarm brings: 3', { ...one, version: 1 }],
    ['state.of', "'high'; resumeAlarm goes on from others", { ...one, of: 'low' }],
  ])('under a state that is none: %s', (parameter, words, state) => {
    expectRefused('bad_state', parameter, words, take({ time: 0, value: 1 }, state));
  });
});

test('a state has no member that is there and undefined', () => {
  const commanded = advanceAlarm(alone, startAlarm(alone), { kind: 'command', time: 5, command: 'acknowledge' });
  const ticked = advanceAlarm(alone, startAlarm(alone), { kind: 'tick', time: 5 });
  for (const { state } of [commanded, ticked]) expect(state).toStrictEqual({ ...startAlarm(alone), time: 5, heard: 5 });
  expect(advanceAlarm(alone, ticked.state, { time: 6, value: 1 }).state.read).toBe(6);
});

describe('a state of version 1', () => {
  const bare = {
    ...{ version: 1, time: 50, read: 40, active: false, latched: false, acknowledged: true, changed: null },
    ...{ pending: null, shelf: null, outOfService: false, silentRaises: 0, value: 7, heard: 40, stale: false },
    ...{ announced: { active: false, stale: false, chattering: false }, raises: [], chattering: false, extremes: [] },
  };
  const go = (more: object, own = alone) => resumeAlarm(own, { ...bare, ...more }).state;

  test('keeps what is so, and no member for what is not', () => {
    const { of } = alone;
    expect(go({})).toStrictEqual({ version: 3, of, time: 50, read: 40, value: 7, heard: 40 });
    const announced = { active: true, stale: true, chattering: true };
    // told of a silence only while there is one
    expect(go({ announced })).not.toHaveProperty('told');
    expect(go({ announced, outOfService: true }).told).toBe('asc');
    expect(go({ announced: { ...announced, active: false, stale: false }, outOfService: true }).told).toBe('c');
  });

  test('of a change: extremes that are too long ago are let go', () => {
    const at = (part: number) => [part, 3];
    const time = (30 * rise.withinMs) / 24;
    const { extremes, part } = go({ time, extremes: [at(0), at(5), at(6), at(30)] }, prepareAlarm(rise));
    expect(part).toBe(30);
    expect(extremes).toBe([24, 0].map((ago) => packWhole(ago, 1) + packFigure(3)).join(''));
  });
});

describe('a state that comes from outside', () => {
  const prepared = prepareAlarm(rise);
  const state = { ...startAlarm(prepared), time: 0, part: 0, extremes: packWhole(24, 1) + packFigure(-2e60) };
  const time = packTime(8.64e15);
  const extremesOf = (n: number) => Array.from({ length: n }, (_, i) => packWhole(i % 25, 1) + packFigure(i)).join('');

  test.each<[string, object]>([
    ['as it was', {}],
    ['chattering', { time: 253370678399999, chattering: true, raises: packTime(0) + packTime(-8.64e15) }],
    ['all of its last input', { since: 0, realarmed: 0, pending: 0, heard: 0, read: 0, raises: packTime(0) }],
    ['shelved to a time ahead', { shelf: { until: 1 } }],
    ['silent', { told: 'ascb' }],
    ['with a part and no extremes', { extremes: '' }],
    ['with an extreme in each part', { extremes: extremesOf(25) }],
  ])('%s', (_name, more) => {
    expect(resumeAlarm(prepared, { ...state, ...more }).state).toEqual({ ...state, ...more });
  });

  const times = 'times, as a state keeps them';
  const later = 'a time no later than state.time, as a state keeps it';
  const extremes = 'extremes, as a state keeps them';
  test.each<[string, string, object]>([
    ['state.raises', 'the raises that chatter', { chattering: true }],
    ['state.raises', times, { raises: time.slice(1) }],
    ['state.raises', times, { raises: packTime(8.64e15 + 2) }],
    ['state.raises', times, { raises: time + packTime(-8.64e15 - 2) }],
    ...['since', 'realarmed', 'pending', 'heard', 'read'].flatMap((name): [string, string, object][] => [
      [`state.${name}`, later, { [name]: 1 }],
      [`state.${name}`, later, { time: undefined, part: undefined, extremes: '', [name]: 0 }],
    ]),
    ['state.raises', later, { raises: packTime(1) + packTime(0) }],
    ['state.part', 'a part no later than state.time, as a state keeps it', { part: 1 }],
    ['state.part', 'a part no later than state.time, as a state keeps it', { time: -1 }],
    ['state.told', 'letters of a, s, c and b, as a state keeps them', { told: 'sa' }],
    ['state.told', 'letters of a, s, c and b, as a state keeps them', { told: 'aa' }],
    ['state.told', 'letters of a, s, c and b, as a state keeps them', { told: 'xa' }],
    ['state.told', 'letters of a, s, c and b, as a state keeps them', { told: '4' }],
    ['state.part', 'the time that the extremes are told from, as a state keeps it', { part: undefined }],
    ['state.extremes', extremes, { extremes: state.extremes.slice(1) }],
    ['state.extremes', 'a text of 0 to 275 characters', { extremes: extremesOf(26) }],
    ['state.extremes', extremes, { extremes: packWhole(25, 1) + packFigure(1) }],
    ['state.extremes', extremes, { extremes: packWhole(0, 1) + packFigure(2.1e60) }],
    ['state.extremes', extremes, { extremes: state.extremes + packWhole(25, 1) + packFigure(1) }],
  ])('%s: %s', (parameter, words, more) => {
    expectRefused('bad_state', parameter, words, () => resumeAlarm(prepared, { ...state, ...more }));
  });

  test('that meant something else: it begins anew, and what stood is told', () => {
    const other = (more: object) => resumeAlarm(alone, { ...state, ...more });
    const fresh = startAlarm(alone);
    expect(other({})).toEqual({ state: { ...fresh, time: 0 }, events: [], kept: [], dropped: ['hot'], added: ['hot'] });
    expect(other({ time: 7, active: true }).events).toEqual([
      { time: 7, alarm: 'hot', event: 'dropped', state: 'acknowledged_alarm' },
    ]);
    const never = other({ time: undefined, latched: true, unacknowledged: true });
    expect(never.state).toStrictEqual(fresh);
    expect(never.events).toEqual([{ time: 0, alarm: 'hot', event: 'dropped', state: 'latched_unacknowledged' }]);
  });

  test('that meant something else: what was silent, bad or chattering is told, of silence since when', () => {
    const events = (more: object) => resumeAlarm(alone, { ...state, time: 7, ...more }).events;
    const dropped = { time: 7, alarm: 'hot', event: 'dropped', state: 'normal' };
    expect(events({ stale: true, heard: 3 })).toStrictEqual([{ ...dropped, since: 3 }]);
    expect(events({ stale: true })).toStrictEqual([dropped]);
    expect(events({ bad: true, heard: 3 })).toStrictEqual([dropped]);
    expect(events({ chattering: true, raises: packTime(1), heard: 3 })).toStrictEqual([dropped]);
  });

  test('of a change looked back over longer, whose parts are longer too: it begins anew', () => {
    const longer = prepareAlarm({ ...rise, withinMs: 48000 });
    expect(resumeAlarm(longer, { ...state, time: 24000, part: 24 })).toMatchObject({ kept: [], added: ['rise'] });
  });

  test('what is no state, or comes without a prepared alarm, is refused in words that say so', () => {
    expectRefused('bad_state', 'state', 'a state of startAlarm, advanceAlarm or resumeAlarm', () =>
      resumeAlarm(alone, 5),
    );
    expectRefused('not_prepared', 'prepared', 'what prepareAlarm of version', () => resumeAlarm({} as never, state));
  });
});

test('a prepared alarm that has lost a member ends its step', () => {
  const { staleAfterMs: _lost, ...cut } = prepareAlarm({ id: 'hot', type: 'high', setpoint: 65 });
  const { events } = advanceAlarm(cut as never, startAlarm(cut as never), { time: 0, value: 66 });
  expect(events.map(({ event }) => event)).toEqual(['raised']);
});
