/** States saved and restored: under another configuration, taken over into another, and damaged in any place. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  advanceAcceptance,
  prepareAcceptance,
  resumeAcceptance,
  startAcceptance,
} from '../../../src/acceptance/index.ts';
import {
  type AlarmConfig,
  advanceAlarm,
  alarmStateName,
  prepareAlarm,
  resumeAlarm,
  startAlarm,
} from '../../../src/alarm/index.ts';
import { iso4406, nas1638 } from '../../../src/codes/index.ts';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import { isMotescaleError } from '../../../src/errors.ts';
import type {
  FollowedFigure,
  MonitorAlarm,
  MonitorConfig,
  MonitorInput,
  MonitorState,
} from '../../../src/monitor/index.ts';
import type { TimedReading } from '../../../src/reading/index.ts';
import { some } from '../../volume.ts';
import { advanceMonitor, resumeMonitor, startMonitor } from '../watched.ts';

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
    { id: '6 µm', figure: { continuousScaleNumberAt: 6 }, blockMs: hour, blocks: 10 },
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
  if (i % 40 === 7)
    inputs.push({
      kind: 'command',
      time,
      alarm: 'pressure',
      command: 'shelve',
      forMs: hour,
      oneShot: true,
    } as MonitorInput);
  if (i % 40 === 9) inputs.push({ kind: 'command', time, alarm: 'x', command: 'remove_from_service' } as MonitorInput);
  if (i % 40 === 21) inputs.push({ kind: 'command', time, alarm: 'x', command: 'return_to_service' } as MonitorInput);
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
  for (const some of ['"trend":"', '"silentRaises":1', '"pending":1', '"told":"'])
    expect(all.includes(some), some).toBe(true);
  expect(full.followed[0]?.change?.length).toBeGreaterThan(4 * 30 + 36);
  expect(full.alarms[2]?.extremes?.length).toBeGreaterThan(0);
});

describe('a state under another configuration', () => {
  test.each<[string, Changed, string, string]>([
    ['an alarm turned round', withAlarm(1, { type: 'low' }), 'state.alarms[1].of', "'low kPa'"],
    [
      'on another figure',
      withAlarm(1, { figure: { quantity: 'celsius' }, setpoint: 90 }),
      'state.alarms[1].of',
      "'high celsius'",
    ],
    ['another size', withAlarm(2, { figure: { scaleNumberAt: 14 } }), 'state.alarms[2].of', 'scaleNumberAt 14'],
    ['another time looked back over', withAlarm(2, { withinMs: day }), 'state.alarms[2].of', 'in 86400000 ms'],
    ['another name of a figure', withAlarm(3, { figure: { other: 'y' } }), 'state.alarms[3].of', "'low other y'"],
    ['an alarm more', { alarms: [...config.alarms, another] }, 'state.alarms', '5 of them'],
    ['an alarm less', { alarms: config.alarms.slice(1) }, 'state.alarms', '3 of them'],
    ['an alarm renamed', withAlarm(0, { id: 'dirty' }), 'state.alarms[0].id', "'dirty'"],
    ['alarms in another order', { alarms: [...config.alarms].reverse() }, 'state.alarms[0].id', "'x'"],
    ['no alarms', { alarms: undefined } as never, 'state.alarms', '0 of them'],
    ['longer blocks', withFollowed(0, { blockMs: day }), 'state.followed[0].of', 'blocks of 86400000 ms'],
    ['another followed figure', withFollowed(1, { figure: { other: 'y' } }), 'state.followed[1].of', 'other y'],
    ['a figure no longer followed', { follow: config.follow.slice(0, 1) }, 'state.followed', '1 of them'],
  ])('%s is refused, and the error names what does not fit', (_name, changed, parameter, expected) => {
    const of = { ...config, ...changed } as MonitorConfig;
    expect(() => on(of, full)).toThrow(
      expect.objectContaining({ code: 'bad_state', parameter, expected: expect.stringContaining(expected) }),
    );
    // and nothing is refused that was taken over
    expect(() => on(of, resumeMonitor(of, saved(full)).state)).not.toThrow();
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
        { ...config.follow[0], least: 0.7, season: 0.1 },
        { ...config.follow[1], blockMs: hour, blocks: 45 },
      ],
      staleAfterMs: day,
    };
    for (const state of [full, states[90], states[27]]) {
      const changed = of as unknown as MonitorConfig;
      const { state: next, verdict } = on(changed, state as MonitorState);
      expect(verdict?.inTarget).toBe(true);
      expect(resumeMonitor(changed, next).state).toEqual(next);
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
      const { state: taken, events, dropped, added } = resumeMonitor(config, saved(state));
      expect(taken).toEqual(state);
      expect([events, dropped, added]).toEqual([[], [], []]);
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
          const less = advanceMonitor(small, resumeMonitor(small, states[i]).state, readingAt(i));
          const keeps = (list: readonly { id: string }[]) => list.map(({ id }) => id);
          expect(less.state.alarms).toEqual(direct.state.alarms.filter(({ id }) => keeps(alarms).includes(id)));
          expect(less.state.followed).toEqual(direct.state.followed.filter(({ id }) => keeps(follow).includes(id)));
          expect(less.state.arrivals).toEqual(direct.state.arrivals);
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
    const { state, kept, dropped, added } = resumeMonitor(of, full);
    expect(kept).toEqual(['x', 'code', 'x']);
    expect(dropped).toEqual(['pressure', 'rise', '6 µm']);
    expect(added).toEqual(['hot', 'pressure', '6 µm']);
    expect(state.alarms).toEqual([fresh.alarms[0], full.alarms[3], fresh.alarms[2], full.alarms[0]]);
    expect(state.followed).toEqual([full.followed[1], fresh.followed[1]]);
    const { time, recent, repeats, arrivals, heard } = full;
    expect(state).toMatchObject({ time, recent, repeats, arrivals, heard });
    // a reading that came before the change is still known
    expect(advanceMonitor(of, state, readingAt(199)).events[0]?.event).toBe('repeated');
  });

  test.each([null, 5, {}, { ...full, time: Infinity }, { ...full, alarms: [null] }])(
    'an earlier state that is none: bad_state',
    (earlier) => {
      expect(() => resumeMonitor(config, earlier)).toThrow(
        expect.objectContaining({ code: 'bad_state', parameter: expect.stringMatching(/^state/) }),
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
          { kind: 'tick', time: begin - 1 },
          ...(i > 2 ? [readingAt(i - 2)] : []),
          ...[0, 1, 2, 3, 4, 5, 40].flatMap((more) => inputsAt(i + more)),
          { kind: 'command', time: begin + 60 * day, alarm: 'code', command: 'reset' },
          readingAt(i + 9000),
          readingAt(i + 9001),
        ];
        if (
          refusedOrSound(copy, path, [
            (state: never) => resumeMonitor(config, state),
            ...inputs.map((input) => (state: never) => advanceMonitor(config, state, input)),
          ])
        )
          refused += 1;
      }),
      { numRuns: some(2000, 500) },
    );
    expect(refused).toBeGreaterThan(some(1000, 250));
  });

  test('of an alarm', () => {
    const alarms: AlarmConfig[] = [
      { id: 'a', type: 'high', setpoint: 5, deadband: 1, onDelayMs: minute, staleAfterMs: hour, latching: true },
      { id: 'b', type: 'rise', setpoint: 2, withinMs: hour, chattering: { raises: 2, withinMs: hour } },
    ];
    const statesOf = (of: AlarmConfig) => {
      let state = startAlarm(prepareAlarm(of));
      const after = [state];
      for (let i = 0; i < 30; i += 1) {
        state = advanceAlarm(prepareAlarm(of), state, { time: i * 5 * minute, value: (i * 7) % 11 }).state;
        if (i % 13 === 5)
          state = advanceAlarm(prepareAlarm(of), state, {
            kind: 'command',
            time: i * 5 * minute,
            command: 'shelve',
            forMs: hour,
          }).state;
        after.push(state);
      }
      return after;
    };
    const given = alarms.map((of) => [of, statesOf(of)] as const);
    fc.assert(
      fc.property(fc.constantFrom(...given), fc.nat({ max: 30 }), fc.nat(), junk, ([of, after], n, place, by) => {
        const { copy, path } = damaged(after[n], place, by);
        const steps = [0, 1, 2, 3, 30].map(
          (more) => (state: never) =>
            advanceAlarm(prepareAlarm(of), state, { time: (n + more) * 5 * minute, value: more * 3 }),
        );
        const resumed = (state: never) => resumeAlarm(prepareAlarm(of), state);
        const named = (state: never) => ({ state, name: alarmStateName(state) });
        refusedOrSound(copy, path, [resumed, named, ...steps, named]);
      }),
      { numRuns: some(1000, 300) },
    );
  });

  test('of an acceptance', () => {
    const of = prepareAcceptance({
      table: iso4406,
      target: '18/16/13',
      readings: 8,
      leastMs: hour,
      leastLitres: 50,
      maxGapMs: day,
    });
    const take = (i: number) => (state: never) =>
      advanceAcceptance(of, resumeAcceptance(of, state).state, { ...readingAt(i), litres: i * 10 });
    const stateAfter = (n: number) => {
      let state = startAcceptance(of);
      for (let i = 0; i < n; i += 1) state = take(i + 38)(state as never).state;
      return state;
    };
    const ends = [stateAfter(2), stateAfter(9), stateAfter(25), stateAfter(40)];
    expect(ends.map(({ run, accepted }) => [run?.readings ?? null, accepted !== undefined])).toMatchObject([
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
      { numRuns: some(1000, 300) },
    );
    expect(refused).toBeGreaterThan(some(500, 150));
  });

  // the cases that once ran on
  const alone = prepareAlarm({ id: 'a', type: 'high', setpoint: 1 });
  const one = startAlarm(alone);
  test.each<[string, string]>([
    ['an endless time', JSON.stringify({ ...full, time: 0 }).replace('"time":0', '"time":1e999')],
    ['no reading among the last', JSON.stringify({ ...full, recent: [null] })],
    ['no counts of readings', JSON.stringify({ ...full, arrivals: {} })],
    ['no change', JSON.stringify(full).replace(/"change":"[^"]*"/, '"change":5')],
    ['means without their last block', JSON.stringify(full).replace(/"change":"(.)......./, '"change":"$1#######')],
    ['half a mean', JSON.stringify(full).replace(/"change":"([^"]*)..",/, '"change":"$1",')],
    ['a trend that goes nowhere', JSON.stringify(full).replace(/"trend":"(.{19})./, '"trend":"$1z')],
    ['a raise at no time', JSON.stringify(full).replace(/"raises":"./, '"raises":"~')],
    ['letters that say nothing', JSON.stringify(full).replace('"active":true', '"active":true,"told":"x"')],
    ['an open block that is to come', JSON.stringify(full).replace(/"open":\{"block":\d+/, '"open":{"block":9000000')],
    ['readings in no order', JSON.stringify({ ...full, recent: [...(full.recent ?? [])].reverse() })],
  ])('%s', (_name, text) => {
    expect(() => resumeMonitor(config, JSON.parse(text))).toThrow(expect.objectContaining({ code: 'bad_state' }));
  });

  test('a shelf without an end', () => {
    for (const until of [Number.NaN, Infinity, null, 0.5]) {
      const shelved = { ...one, shelf: { until } };
      expect(() => resumeAlarm(alone, shelved)).toThrow(expect.objectContaining({ code: 'bad_state' }));
    }
  });

  test('a figure that a state could not hold is refused before it', () => {
    expect(() => advanceAlarm(alone, one, { time: 5, value: 1.1e60 })).toThrow(
      expect.objectContaining({ code: 'out_of_range' }),
    );
    const swing = prepareAlarm({ id: 'a', type: 'rise', setpoint: 1, withinMs: hour });
    let state = startAlarm(swing);
    for (const [time, value] of [-1e60, 1e60, 0].entries()) state = advanceAlarm(swing, state, { time, value }).state;
    expect(state.value).toBe(1e60);
  });
});
