/** What is worked out of a monitor's configuration, member by member; and how its inputs and states are refused. */
import { describe, expect, test } from 'vitest';
import { iso4406, nas1638 } from '../../../src/codes/index.ts';
import { problemsOf } from '../../../src/errors.ts';
import {
  advanceMonitor,
  type MonitorAlarm,
  type MonitorConfig,
  prepareMonitor,
  startMonitor,
} from '../../../src/monitor/index.ts';
import { expectRefused } from '../../inputs/refused.ts';

const hot = { id: 'hot', type: 'high', figure: { quantity: 'celsius' }, setpoint: 65 } as const;
const mean = { id: 'mean', figure: { other: 'acid' } } as const;
const prepare = (more: object) => prepareMonitor({ codes: [], ...more } as MonitorConfig);
const alarm = (more: object) => prepare({ alarms: [{ ...hot, ...more }] }).alarms[0];

describe('the bytes of a state: the table in docs/upgrading.md', () => {
  const bytes = (more: object) => prepare(more).stateBytes;
  const none = bytes({});
  const added = (more: object) => bytes({ alarms: [{ ...hot, ...more }] }) - none;
  const one = 359 + 'hot'.length + 'high celsius'.length + 3 * 9;

  test.each<[string, object, number]>([
    ['an alarm', {}, one],
    ['five raises', { chattering: { raises: 5, withinMs: 1 } }, one + 2 * 9],
    ['raised anew', { reAlarmAfterMs: 5 }, one + 30],
    ['modes', { suppressedInModes: ['a', 'start-up', 'b'] }, one + 43 + 'start-up'.length],
    ['a mode that JSON escapes', { suppressedInModes: ['ü'] }, one + 43 + 6],
    ['a change', { type: 'rise', withinMs: 1000 }, one + 320 + ' in 1000 ms'.length],
    ['a figure of one’s own', { figure: { other: 'x' } }, one + 'other x'.length - 'celsius'.length + 9 + 1],
  ])('%s', (_name, more, expected) => {
    expect(added(more)).toBe(expected);
  });

  test('a followed figure', () => {
    const followed = 488 + 'mean'.length + 'other acid in blocks of 86400000 ms'.length + 9 + 'acid'.length;
    expect(bytes({ follow: [mean] }) - none).toBe(followed);
  });

  test('restoredAfter, only above 1: a figure of one’s own counts too', () => {
    expect(bytes({ restoredAfter: 1 })).toBe(none);
    expect(bytes({ restoredAfter: 2 })).toBe(none + 234);
    expect(bytes({ restoredAfter: 1000 })).toBe(none + 234);
    const more = 234 + 35 + 'acid'.length;
    expect(bytes({ restoredAfter: 2, alarms: [hot], follow: [mean] }) - bytes({ alarms: [hot], follow: [mean] })).toBe(
      more,
    );
  });

  test('as many as fit, and not one byte more', () => {
    const most = bytes({ alarms: [hot] });
    expect(bytes({ alarms: [hot], maxStateBytes: most })).toBe(most);
    expect(() => prepare({ alarms: [hot], maxStateBytes: most - 1 })).toThrow(
      `received ${most}, expected alarms and followed figures whose state fits ${most - 1} bytes (fewer of them, ` +
        'fewer blocks, or maxStateBytes)',
    );
    expect(prepare({})).toMatchObject({ maxStateBytes: 8192, staleAfterMs: 'usual', clockJumpMs: 'usual' });
    expect(prepare({ maxStateBytes: 9000, staleAfterMs: null, clockJumpMs: 5 })).toMatchObject({
      ...{ maxStateBytes: 9000, staleAfterMs: null, clockJumpMs: 5 },
    });
  });
});

describe('alarms and followed figures', () => {
  test.each<[string, object, object]>([
    ['a scale number, high', { figure: { scaleNumberAt: 6 }, setpoint: 16 }, { limit: 16.5, back: 16.5 }],
    ['between two, high', { figure: { scaleNumberAt: 6 }, setpoint: 16.4 }, { limit: 16.5, back: 16.5 }],
    ['low', { type: 'low', figure: { scaleNumberAt: 6 }, setpoint: 16 }, { limit: -15.5, back: -15.5 }],
    ['between two, low', { type: 'low', figure: { scaleNumberAt: 6 }, setpoint: 15.4 }, { limit: -15.5 }],
    ['a rise', { type: 'rise', figure: { scaleNumberAt: 6 }, setpoint: 2, withinMs: 5 }, { limit: 2, withinMs: 5 }],
    [
      'a figure with parts',
      { figure: { continuousScaleNumberAt: 6 }, setpoint: 16, deadband: 1 },
      { limit: 16, back: 15 },
    ],
  ])('%s', (_name, more, plan) => {
    const watch = alarm(more);
    expect(watch?.plan).toMatchObject(plan);
    expect(watch?.plan.details.setpoint).toBe((more as { setpoint: number }).setpoint);
    expect(watch?.onCode).toBeNull();
  });

  test('on a code: by the place of its table, half a class beyond the setpoint', () => {
    const figure = { code: 'nas1638' };
    const config = { codes: [{ table: iso4406 }, { table: nas1638, columns: ['5-15'] }] };
    const [watch] = prepare({ ...config, alarms: [{ ...hot, figure, setpoint: '8' }] }).alarms;
    expect(watch?.onCode).toEqual({ place: 1, wanted: [9, null, null, null, null] });
    expect(watch?.plan).toMatchObject({ of: 'high code nas1638', limit: 0.5, details: { setpoint: '8' } });
  });

  test('when an alarm is stale: its own say, else that of the monitor', () => {
    const stale = (more: object, staleAfterMs?: number | null) =>
      prepare({ alarms: [{ ...hot, ...more }], ...(staleAfterMs === undefined ? {} : { staleAfterMs }) }).alarms[0]
        ?.plan.staleAfterMs;
    expect(stale({})).toBe('usual');
    expect(stale({}, null)).toBe('usual');
    expect(stale({}, 7)).toBe(7);
    expect(stale({ staleAfterMs: 5 }, 7)).toBe(5);
    expect(stale({ staleAfterMs: null }, 7)).toBeNull();
  });

  test('what is left out of a followed figure', () => {
    const plan = (more: object) => prepare({ follow: [{ ...mean, ...more }] }).follow[0];
    expect(plan({})).toMatchObject({ blockMs: 86400000, blocks: 40, detector: { least: 1e30 } });
    expect(plan({ blockMs: 60000, blocks: 8, least: 2, season: 1, resolution: 0.5 })).toMatchObject({
      ...{ blockMs: 60000, blocks: 8, of: 'other acid in blocks of 60000 ms' },
      detector: { least: 2, season: 1, resolution: 0.5 },
    });
    expect(plan({ figure: { scaleNumberAt: 6 } })?.detector).toMatchObject({ least: 0.5, resolution: 1 });
    expect(plan({ figure: { scaleNumberAt: 6 }, resolution: 0.1 })?.detector).toMatchObject({ resolution: 0.1 });
    const parts = plan({ figure: { continuousScaleNumberAt: 6 } })?.detector;
    expect(parts).toMatchObject({ least: 0.5 });
    expect(parts?.resolution).toBe(plan({ figure: { perMlAt: 6 } })?.detector.resolution);
  });

  test('sizes that someone waits for, each once', () => {
    const { needed } = prepare({
      codes: [{ table: iso4406, target: '-/16/13' }],
      alarms: [
        { ...hot, figure: { code: 'iso4406' }, setpoint: '18/-/13' },
        { ...hot, id: 'five', figure: { perMlAt: 5 } },
      ],
      follow: [
        { ...mean, figure: { scaleNumberAt: 21 } },
        { id: 'again', figure: { continuousScaleNumberAt: 5 } },
      ],
    });
    expect(needed.map((one) => (typeof one === 'number' ? one : one.label))).toEqual(['6', '14', '4', 5, 21]);
  });
});

describe('mistakes between members', () => {
  const problems = (more: object) => {
    try {
      prepare(more);
    } catch (error) {
      return problemsOf(error).map(({ path, code, expected }) => `${code} ${path.join('.')}: ${expected}`);
    }
    return [];
  };
  const code: MonitorAlarm = { id: 'code', type: 'high', figure: { code: 'iso4406' }, setpoint: '18/16/13' };

  test.each<[string, object, string[]]>([
    ['an id twice', { alarms: [hot, hot] }, ['unknown_option alarms.1.id: an id that no other one here has']],
    ['followed twice', { follow: [mean, mean] }, ['unknown_option follow.1.id: an id that no other one here has']],
    [
      'a code of no table',
      { alarms: [code] },
      ['unknown_option alarms.0.figure.code: the id of a table in config.codes'],
    ],
    [
      'a code that cannot be read',
      { codes: [{ table: iso4406 }], alarms: [{ ...code, setpoint: '18/x' }] },
      ['bad_code alarms.0.setpoint'],
    ],
    ['the whole saturation', { alarms: [{ ...hot, figure: { quantity: 'waterSaturation' }, setpoint: 0.99 }] }, []],
    [
      'a saturation in percent',
      { alarms: [{ ...hot, figure: { quantity: 'waterSaturation' }, setpoint: 45 }] },
      ['out_of_range alarms.0.setpoint: a share, 0.45 for 45 %'],
    ],
    [
      'a target and a setpoint on it that cannot be read',
      { codes: [{ table: iso4406, target: 'x' }], alarms: [{ ...code, setpoint: '18/y' }] },
      ['bad_code codes.0.target', 'bad_code alarms.0.setpoint'],
    ],
    [
      'a target that cannot be read, and a code of no table',
      { codes: [{ table: nas1638, target: 'x' }], alarms: [code] },
      ['bad_code codes.0.target', 'unknown_option alarms.0.figure.code'],
    ],
    // one mistake is told, not what follows from it
    [
      'a code whose table has a mistake',
      { codes: [{ table: iso4406, target: 'x' }], alarms: [code] },
      ['bad_code codes.0.target'],
    ],
  ])('%s', (_name, more, expected) => {
    const found = problems(more);
    expect(found).toHaveLength(expected.length);
    found.forEach((one, i) => {
      expect(one.startsWith(expected[i] as string)).toBe(true);
    });
  });
});

describe('inputs and states', () => {
  const prepared = prepare({ alarms: [hot, { ...hot, id: 'hotter' }], follow: [mean] });
  const fresh = startMonitor(prepared);

  test.each<[string, string, string, unknown]>([
    ['wrong_type', 'input', "a reading { time, ... }, or an input of kind 'tick', 'command' or 'relearn'", null],
    ['unknown_option', 'input.kind', "one of 'reading', 'tick', 'command', 'relearn'", { kind: 'shelve', time: 0 }],
    [
      'unknown_option',
      'input.alarm',
      "one of 'hot', 'hotter'",
      { kind: 'command', time: 0, alarm: 'cold', command: 'reset' },
    ],
    ['wrong_type', 'input.alarm', 'a name', { kind: 'command', time: 0, command: 'reset' }],
    ['unknown_option', 'input.followed', "one of 'mean'", { kind: 'relearn', time: 0, followed: 'hot' }],
    ['wrong_type', 'input.time', 'whole milliseconds', { kind: 'relearn' }],
    ['wrong_type', 'input.time', 'whole milliseconds', { kind: 'tick' }],
    ['unknown_option', 'input.codes.x', '', { time: 0, codes: { x: '18' } }],
  ])('%s at %s: %s', (errorCode, parameter, words, input) => {
    expectRefused(errorCode, parameter, words, () => advanceMonitor(prepared, fresh, input as never));
  });

  const on = 'resumeMonitor goes on from others';
  test.each<[string, string, unknown]>([
    ['state', 'a state of startMonitor, advanceMonitor or resumeMonitor', null],
    ['state', 'a state of startMonitor, advanceMonitor or resumeMonitor', 7],
    ['state.version', `the version, which resumeMonitor brings: ${fresh.version}`, { ...fresh, version: 1 }],
    ['state.alarms', `2 of them, as in the configuration; ${on}`, { ...fresh, alarms: {} }],
    ['state.alarms', `2 of them, as in the configuration; ${on}`, { ...fresh, alarms: fresh.alarms.slice(1) }],
    ['state.alarms[0].id', `'hot'; ${on}`, { ...fresh, alarms: [null, null] }],
    ['state.alarms[1].id', `'hotter'; ${on}`, { ...fresh, alarms: [fresh.alarms[0], fresh.alarms[0]] }],
    ['state.alarms[1].of', `'high celsius'; ${on}`, { ...fresh, alarms: [fresh.alarms[0], { id: 'hotter', of: 'x' }] }],
    ['state.followed', `1 of them, as in the configuration; ${on}`, { ...fresh, followed: [] }],
    ['state.followed[0].id', `'mean'; ${on}`, { ...fresh, followed: [{}] }],
  ])('%s: %s', (parameter, words, state) => {
    expectRefused('bad_state', parameter, words, () => advanceMonitor(prepared, state as never, { time: 0 }));
  });
});
