/** States saved and restored: under another configuration, taken over into another, and damaged in any place. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type AcceptanceConfig, advanceAcceptance, startAcceptance } from '../../src/acceptance/index.ts';
import { type AlarmConfig, advanceAlarm, alarmStateName, startAlarm } from '../../src/alarm/index.ts';
import { iso4406, nas1638 } from '../../src/codes/index.ts';
import { cumulativeCounts } from '../../src/counts/index.ts';
import { isMotescaleError } from '../../src/errors.ts';
import {
  advanceMonitor,
  type FollowedFigure,
  type MonitorAlarm,
  type MonitorConfig,
  type MonitorInput,
  type MonitorState,
  startMonitor,
} from '../../src/monitor/index.ts';
import type { TimedReading } from '../../src/reading/index.ts';

const minute = 60000;
const hour = 60 * minute;
const day = 24 * hour;
const begin = 1.8e12;

const config = {
  codes: [{ table: iso4406, target: '18/16/13' }],
  alarms: [
    { id: 'code', type: 'high', figure: { code: 'iso4406' }, setpoint: '18/16/13', deadband: 1 },
    {
      id: 'pressure',
      type: 'high',
      figure: { quantity: 'kPa' },
      setpoint: 900,
      deadband: 10,
      staleAfterMs: 5 * minute,
    },
    {
      ...{ id: 'rise', type: 'rise', figure: { scaleNumberAt: 6 }, setpoint: 1, withinMs: hour },
      chattering: { raises: 3, withinMs: 8 * hour },
    },
    { id: 'x', type: 'low', figure: { other: 'x' }, setpoint: 3, onDelayMs: 30 * minute, staleAfterMs: 10 * hour },
  ],
  follow: [
    { id: '6 µm', figure: { continuousScaleNumberAt: 6 }, blockMs: hour, blocks: 10, learn: 5, decision: 3 },
    { id: 'x', figure: { other: 'x' }, blockMs: hour },
  ],
  staleAfterMs: 2 * hour,
} as const satisfies MonitorConfig;

/** Readings of an oil that comes and goes, so that every member of a state is used at some time. */
function readingAt(i: number): TimedReading {
  const six = 300 + ((i * 7919) % 200) + (i % 50 > 40 ? 600 : 0);
  return {
    time: begin + i * 10 * minute,
    counts: cumulativeCounts({ 4: 18900 + i, 6: six * 10, 14: 330 + ((i * 31) % 7) }, { volumeMl: 10 }),
    ...(i % 17 === 3 ? {} : { kPa: i % 30 > 20 ? 950 : 800 }),
    mlPerMin: i % 17 === 3 ? 0 : 50,
    others: { x: i % 23 > 11 ? 5 : 1 },
  };
}
function inputsAt(i: number): MonitorInput[] {
  const time = begin + i * 10 * minute;
  const inputs: MonitorInput[] = [readingAt(i)];
  if (i % 40 === 7) inputs.push({ time, alarm: 'pressure', command: 'shelve', forMs: hour, oneShot: true });
  if (i % 40 === 9) inputs.push({ time, alarm: 'x', command: 'remove_from_service' });
  if (i % 40 === 21) inputs.push({ time, alarm: 'x', command: 'return_to_service' });
  return inputs;
}
/** The state after every reading. */
const states: MonitorState[] = [startMonitor(config)];
for (let i = 0; i < 200; i += 1) {
  let state = states[i] as MonitorState;
  for (const input of inputsAt(i)) state = advanceMonitor(config, state, input).state;
  states.push(state);
}
const full = states[200] as MonitorState;
const saved = <T>(data: T): T => JSON.parse(JSON.stringify(data));
const on = (of: MonitorConfig, state: MonitorState) => advanceMonitor(of, saved(state), readingAt(200));

type Changed = { alarms?: readonly unknown[]; follow?: readonly unknown[] };
const withAlarm = (i: number, own: object): Changed => ({
  alarms: config.alarms.map((alarm, j) => (j === i ? { ...alarm, ...own } : alarm)),
});
const withFollowed = (i: number, own: object): Changed => ({
  follow: config.follow.map((one, j) => (j === i ? { ...one, ...own } : one)),
});
const another = { id: 'hot', type: 'high', figure: { quantity: 'celsius' }, setpoint: 65 };

test('the states tried hold everything a state can hold', () => {
  const all = JSON.stringify(states);
  for (const some of ['"active":true', '"shelf":{', '"outOfService":true', '"chattering":true', '"stale":true'])
    expect(all.includes(some), some).toBe(true);
  for (const some of ['"direction":"', '"silentRaises":1', '"pending":1']) expect(all.includes(some), some).toBe(true);
  expect(full.followed[0]?.means).toHaveLength(10);
  expect(full.alarms[2]?.state.extremes.length).toBeGreaterThan(0);
});

describe('a state under another configuration', () => {
  test.each<[string, Changed, string, string]>([
    ['an alarm turned round', withAlarm(1, { type: 'low' }), 'state.alarms[1].print', "'pressure'"],
    [
      'an alarm on another figure',
      withAlarm(1, { figure: { quantity: 'celsius' } }),
      'state.alarms[1].print',
      'figure',
    ],
    ['another size', withAlarm(2, { figure: { scaleNumberAt: 14 } }), 'state.alarms[2].print', "'rise'"],
    ['another time looked back over', withAlarm(2, { withinMs: day }), 'state.alarms[2].print', 'withinMs'],
    ['another name of a figure', withAlarm(3, { figure: { other: 'y' } }), 'state.alarms[3].print', "'x'"],
    ['an alarm more', { alarms: [...config.alarms, another] }, 'state.alarms', "'hot' among the ids"],
    ['an alarm less', { alarms: config.alarms.slice(1) }, 'state.alarms[0].id', 'an id of the configuration'],
    ['an alarm renamed', withAlarm(0, { id: 'dirty' }), 'state.alarms', "'dirty' among the ids"],
    ['alarms in another order', { alarms: [...config.alarms].reverse() }, 'state.alarms[0].id', "'x' in this place"],
    ['no alarms', { alarms: undefined } as never, 'state.alarms[0].id', 'an id of'],
    ['longer blocks', withFollowed(0, { blockMs: day }), 'state.followed[0].print', "blockMs and blocks of '6 µm'"],
    ['more blocks', withFollowed(0, { blocks: 11 }), 'state.followed[0].print', "'6 µm'"],
    ['another followed figure', withFollowed(1, { figure: { other: 'y' } }), 'state.followed[1].print', "'x'"],
    ['a figure no longer followed', { follow: config.follow.slice(0, 1) }, 'state.followed[1].id', 'an id of'],
  ])('%s is refused, and the error names what does not fit', (_name, changed, parameter, expected) => {
    const of = { ...config, ...changed } as MonitorConfig;
    expect(() => on(of, full)).toThrow(
      expect.objectContaining({ code: 'bad_state', parameter, expected: expect.stringContaining(expected) }),
    );
    // and nothing is refused that was taken over
    expect(() => on(of, startMonitor(of, full))).not.toThrow();
  });

  test('what is only applied to the next reading may change freely', () => {
    const of = {
      codes: [{ table: iso4406, target: '20/18/15' }, { table: nas1638 }],
      limits: { leastKPa: 100 },
      alarms: [
        { ...config.alarms[0], setpoint: '22/20/17', deadband: 0 },
        { ...config.alarms[1], setpoint: 700, deadband: 5, onDelayMs: minute, longestShelfMs: hour },
        { ...config.alarms[2], setpoint: 2, latching: true, chattering: { raises: 2, withinMs: hour } },
        { ...config.alarms[3], setpoint: 1, offDelayMs: hour, staleAfterMs: 2 * day },
      ],
      follow: [
        { ...config.follow[0], learn: 9, slack: 0.5, decision: 4 },
        { ...config.follow[1], blockMs: hour, blocks: 40 },
      ],
      staleAfterMs: day,
    };
    for (const state of [full, states[90], states[27]]) {
      const changed = of as unknown as MonitorConfig;
      const { state: next, verdict } = on(changed, state as MonitorState);
      expect(verdict?.inTarget).toBe(true);
      expect(startMonitor(changed, next)).toEqual(next);
    }
  });

  test('defaults written out mean the same', () => {
    const of = { ...config, ...withFollowed(1, { blocks: 40 }) } as MonitorConfig;
    expect(on(of, full)).toEqual(on(config, full));
  });
});

describe('taken over into another configuration', () => {
  test('under the same one nothing changes, at any time', () => {
    for (const state of states) {
      const taken = startMonitor(config, saved(state));
      expect(JSON.stringify(taken)).toBe(JSON.stringify(state));
    }
    fc.assert(
      fc.property(
        fc.nat({ max: 199 }),
        fc.subarray<MonitorAlarm>([...config.alarms]),
        fc.subarray<FollowedFigure>([...config.follow]),
        (i, alarms, follow) => {
          // through a smaller configuration and on: those kept say what they would have said
          const small: MonitorConfig = { ...config, alarms, follow };
          const direct = advanceMonitor(config, states[i] as MonitorState, readingAt(i));
          const less = advanceMonitor(small, startMonitor(small, states[i] as MonitorState), readingAt(i));
          const keeps = (list: readonly { id: string }[]) => list.map(({ id }) => id);
          expect(less.state.alarms).toEqual(direct.state.alarms.filter(({ id }) => keeps(alarms).includes(id)));
          expect(less.state.followed).toEqual(direct.state.followed.filter(({ id }) => keeps(follow).includes(id)));
          expect(less.state.counted).toEqual(direct.state.counted);
        },
      ),
      { numRuns: 100 },
    );
  });

  test('by id and not by place; what is new or means something else begins anew', () => {
    const alarms = [another, config.alarms[3], { ...config.alarms[1], type: 'low' }, config.alarms[0]];
    const follow = [config.follow[1], { ...config.follow[0], blockMs: day }];
    const of = { ...config, alarms, follow } as MonitorConfig;
    const fresh = startMonitor(of);
    const state = startMonitor(of, full);
    expect(state.alarms).toEqual([fresh.alarms[0], full.alarms[3], fresh.alarms[2], full.alarms[0]]);
    expect(state.followed).toEqual([full.followed[1], fresh.followed[1]]);
    const { time, recent, repeats, counted, heard, stale } = full;
    expect(state).toMatchObject({ time, recent, repeats, counted, heard, stale });
    // a reading that came before the change is still known
    expect(advanceMonitor(of, state, readingAt(199)).events[0]?.event).toBe('repeated');
  });

  test.each([null, 5, {}, { ...full, time: Infinity }, { ...full, alarms: [null] }])(
    'an earlier state that is none: bad_state',
    (earlier) => {
      expect(() => startMonitor(config, earlier as never)).toThrow(
        expect.objectContaining({ code: 'bad_state', parameter: expect.stringMatching(/^earlier/) }),
      );
    },
  );
});

/** A copy with one member, at any depth, taken away or replaced. */
function damaged(data: unknown, place: number, by: unknown): { copy: unknown; path: string } {
  const copy = structuredClone(data);
  const places: [Record<string, unknown>, string, string][] = [];
  const walk = (holder: unknown, path: string): void => {
    if (typeof holder !== 'object' || holder === null) return;
    for (const name of Object.keys(holder)) {
      places.push([holder as Record<string, unknown>, name, `${path}.${name}`]);
      walk((holder as Record<string, unknown>)[name], `${path}.${name}`);
    }
  };
  walk(copy, '');
  const [holder, name, path] = places[place % places.length] as [Record<string, unknown>, string, string];
  if (by === 'take away' && Array.isArray(holder)) holder.splice(Number(name), 1);
  else if (by === 'take away') delete holder[name];
  else holder[name] = by;
  return { copy, path };
}
const junk = fc.constantFrom(
  'take away',
  null,
  Number.NaN,
  {},
  [],
  '',
  -1,
  Infinity,
  -Infinity,
  0.5,
  1e17,
  1e300,
  'x',
  true,
  [null],
);

/** Every number in what came out is one. */
function expectNumbers(data: unknown, path: string): void {
  if (typeof data === 'number' && !Number.isFinite(data)) throw new Error(`${path} is ${data}`);
  if (typeof data !== 'object' || data === null) return;
  for (const [name, value] of Object.entries(data)) expectNumbers(value, `${path}.${name}`);
}

/** Steps on from a damaged state: refused as such, or gone on with to the end. */
function refusedOrSound(
  copy: unknown,
  path: string,
  steps: readonly ((state: never) => { state: unknown })[],
): boolean {
  let state = copy;
  for (const step of steps) {
    try {
      const result = step(state as never);
      expectNumbers(result, path);
      state = result.state;
    } catch (error) {
      if (isMotescaleError(error) && error.code === 'bad_state') return true;
      throw new Error(`${path}: ${String(error)}`);
    }
  }
  return false;
}

describe('a state damaged in any place is refused or harmless', () => {
  test('of a monitor', () => {
    let refused = 0;
    fc.assert(
      fc.property(fc.nat({ max: 200 }), fc.nat(), junk, (i, place, by) => {
        const { copy, path } = damaged(states[i], place, by);
        const inputs: MonitorInput[] = [
          { time: begin - 1 },
          ...(i > 2 ? [readingAt(i - 2)] : []),
          ...[0, 1, 2, 3, 4, 5, 40].flatMap((more) => inputsAt(i + more)),
          { time: begin + 60 * day, alarm: 'code', command: 'reset' },
          readingAt(i + 9000),
          readingAt(i + 9001),
        ];
        if (
          refusedOrSound(
            copy,
            path,
            inputs.map((input) => (state: never) => advanceMonitor(config, state, input)),
          )
        )
          refused += 1;
        // the same for a state to be taken over
        refusedOrSound(copy, path, [(state: never) => ({ state: startMonitor(config, state) })]);
      }),
      { numRuns: 2000 },
    );
    expect(refused).toBeGreaterThan(1000);
  });

  test('of an alarm', () => {
    const alarms: AlarmConfig[] = [
      { id: 'a', type: 'high', setpoint: 5, deadband: 1, onDelayMs: minute, staleAfterMs: hour, latching: true },
      { id: 'b', type: 'rise', setpoint: 2, withinMs: hour, chattering: { raises: 2, withinMs: hour } },
    ];
    const stateAfter = (of: AlarmConfig, n: number) => {
      let state = startAlarm(of);
      for (let i = 0; i < n; i += 1) {
        state = advanceAlarm(of, state, { time: i * 5 * minute, value: (i * 7) % 11 }).state;
        if (i % 13 === 5)
          state = advanceAlarm(of, state, { time: i * 5 * minute, command: 'shelve', forMs: hour }).state;
      }
      return state;
    };
    fc.assert(
      fc.property(fc.constantFrom(...alarms), fc.nat({ max: 30 }), fc.nat(), junk, (of, n, place, by) => {
        const { copy, path } = damaged(stateAfter(of, n), place, by);
        const steps = [0, 1, 2, 3, 30].map(
          (more) => (state: never) => advanceAlarm(of, state, { time: (n + more) * 5 * minute, value: more * 3 }),
        );
        const named = (state: never) => ({ state, name: alarmStateName(state) });
        refusedOrSound(copy, path, [named, ...steps, named]);
      }),
      { numRuns: 1000 },
    );
  });

  test('of an acceptance', () => {
    const of: AcceptanceConfig = {
      table: iso4406,
      target: '18/16/13',
      readings: 8,
      leastMs: hour,
      leastLitres: 50,
      longestGapMs: day,
    };
    const take = (i: number) => (state: never) => advanceAcceptance(of, state, { ...readingAt(i), litres: i * 10 });
    const stateAfter = (n: number) => {
      let state = startAcceptance(of);
      for (let i = 0; i < n; i += 1) state = take(i + 38)(state as never).state;
      return state;
    };
    const ends = [stateAfter(2), stateAfter(9), stateAfter(25), stateAfter(40)];
    expect(ends.map(({ run, accepted }) => [run?.readings ?? null, accepted !== null])).toMatchObject([
      [2, false],
      [null, false],
      [null, true],
      [null, true],
    ]);
    let refused = 0;
    fc.assert(
      fc.property(fc.constantFrom(...ends), fc.nat(), junk, (end, place, by) => {
        const { copy, path } = damaged(end, place, by);
        if (
          refusedOrSound(
            copy,
            path,
            [60, 61, 200, 201].map((i) => take(i + 38)),
          )
        )
          refused += 1;
      }),
      { numRuns: 1000 },
    );
    expect(refused).toBeGreaterThan(500);
  });

  // the cases that once ran on
  const one = startAlarm({ id: 'a', type: 'high', setpoint: 1 });
  test.each<[string, string]>([
    ['an endless time', JSON.stringify({ ...full, time: 0 }).replace('"time":0', '"time":1e999')],
    ['no reading among the last', JSON.stringify({ ...full, recent: [null] })],
    ['no counts of readings', JSON.stringify({ ...full, counted: {} })],
    ['no level', JSON.stringify({ ...full, followed: [{ ...full.followed[0], level: null }, full.followed[1]] })],
    ['an empty level', JSON.stringify({ ...full, followed: [{ ...full.followed[0], level: {} }, full.followed[1]] })],
    [
      'no open block',
      JSON.stringify({ ...full, followed: [{ ...full.followed[0], open: undefined }, full.followed[1]] }),
    ],
    ['no sum', JSON.stringify({ ...full, followed: [{ ...full.followed[0], up: undefined }, full.followed[1]] })],
    ['an open block that is to come', JSON.stringify(full).replace(/"open":\{"block":\d+/, '"open":{"block":9000000')],
    ['readings in no order', JSON.stringify({ ...full, recent: [...full.recent].reverse() })],
  ])('%s', (_name, text) => {
    expect(() => on(config, JSON.parse(text))).toThrow(expect.objectContaining({ code: 'bad_state' }));
  });

  test('a shelf without an end', () => {
    for (const until of [Number.NaN, Infinity, null, 0.5]) {
      const shelved = { ...one, shelf: { until, oneShot: false } } as never;
      expect(() => advanceAlarm({ id: 'a', type: 'high', setpoint: 1 }, shelved, { time: 5, value: 1 })).toThrow(
        expect.objectContaining({ code: 'bad_state' }),
      );
    }
  });

  test('a figure that a state could not hold is refused before it', () => {
    expect(() => advanceAlarm({ id: 'a', type: 'high', setpoint: 1 }, one, { time: 5, value: 1.1e60 })).toThrow(
      expect.objectContaining({ code: 'out_of_range' }),
    );
    const swing: AlarmConfig = { id: 'a', type: 'rise', setpoint: 1, withinMs: hour };
    let state = startAlarm(swing);
    for (const [time, value] of [-1e60, 1e60, 0].entries()) state = advanceAlarm(swing, state, { time, value }).state;
    expect(state.value).toBe(1e60);
  });
});
