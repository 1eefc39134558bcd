/** The proof that a flush is done: each rule by example, and against a definition that looks back over all readings. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { iso4406 } from '../../src/codes/index.ts';
import { cumulativeCounts } from '../../src/counts/index.ts';
import {
  type AcceptanceConfig,
  type AcceptanceEvent,
  type AcceptanceReading,
  type AcceptanceState,
  advanceAcceptance,
  isBadConfiguration,
  startAcceptance,
} from '../../src/monitor/index.ts';

const minute = 60000;
const counts = (four: number, six: number, fourteen: number) =>
  cumulativeCounts({ 4: four * 10, 6: six * 10, 14: fourteen * 10 }, { volumeMl: 10 });
const met = counts(1890, 402, 33);
const better = counts(900, 200, 20);
const worse = counts(1890, 702, 33);
const reading = (minutes: number, more: Partial<AcceptanceReading> = {}): AcceptanceReading => ({
  time: minutes * minute,
  counts: met,
  kPa: 800,
  ...more,
});
const config: AcceptanceConfig = { table: iso4406, target: '18/16/13', readings: 3 };

function run(of: AcceptanceConfig, readings: readonly AcceptanceReading[], between = (s: AcceptanceState) => s) {
  let state = startAcceptance(of);
  const events: AcceptanceEvent[] = [];
  for (const one of readings) {
    const step = advanceAcceptance(of, between(state), one);
    state = step.state;
    events.push(...step.events);
  }
  return { state, events, told: events.map(({ event }) => event) };
}
const saved = (state: AcceptanceState): AcceptanceState => JSON.parse(JSON.stringify(state));

describe('what counts', () => {
  test('three good readings running, and the record of why', () => {
    const { events, state, told } = run(config, [
      reading(0, { litres: 100 }),
      reading(10, { litres: 400, counts: worse }),
      reading(20, { litres: 700, counts: better }),
      reading(30, { litres: 1000 }),
      reading(40, { litres: 1300, mlPerMin: 0 }),
      reading(50, { litres: 1600 }),
    ]);
    expect(told).toEqual(['counted', 'restarted', 'not_counted', 'counted', 'counted', 'not_counted', 'accepted']);
    expect(state.accepted).toEqual({
      table: 'iso4406',
      target: '18/16/13',
      run: {
        readings: 3,
        from: 20 * minute,
        to: 50 * minute,
        fromLitres: 700,
        toLitres: 1600,
        margins: [
          { column: '4', classes: 0 },
          { column: '6', classes: 0 },
          { column: '14', classes: 1 },
        ],
      },
      text: '18/16/12',
      required: { readings: 3, ms: 0, litres: 0 },
      notCounted: 2,
      restarts: 1,
      lastRestart: { time: 10 * minute, why: 'worse than target', text: '18/17/12' },
    });
    expect(events[events.length - 1]?.record).toEqual(state.accepted);
  });

  test('time and volume too, from the first to the last of the run', () => {
    const of = { ...config, readings: 2, leastMs: 30 * minute, leastLitres: 900 };
    const { events } = run(
      of,
      [0, 10, 20, 30, 40].map((t) => reading(t, { litres: 50 + t * 25, counts: t === 20 ? better : met })),
    );
    expect(events.map(({ event, wanting }) => [event, wanting])).toEqual([
      ['counted', { readings: 1, ms: 30 * minute, litres: 900 }],
      ['counted', { readings: 0, ms: 20 * minute, litres: 650 }],
      ['counted', { readings: 0, ms: 10 * minute, litres: 400 }],
      ['counted', { readings: 0, ms: 0, litres: 150 }],
      ['accepted', undefined],
    ]);
  });

  test.each([
    ['bad, though worse', { counts: worse, mlPerMin: 0 }, ['counted', 'not_counted'], 1, /^bad: /],
    ['uncertain', { kPa: 100 }, ['counted', 'not_counted'], 1, /^uncertain: /],
    ['uncertain and worse', { kPa: 100, counts: worse }, ['counted', 'restarted', 'not_counted'], null, /^worse/],
    [
      'without a size',
      { counts: cumulativeCounts({ 4: 18900, 6: 4020 }, { volumeMl: 10 }) },
      ['counted', 'not_counted'],
      1,
      /^not known at 14$/,
    ],
    [
      'without any size',
      { counts: cumulativeCounts({ 21: 500, 38: 90 }, { volumeMl: 10 }) },
      ['counted', 'not_counted'],
      1,
      /^counts.sizes/,
    ],
    [
      'too clean for its volume',
      { counts: cumulativeCounts({ 4: 190, 6: 40, 14: 3 }, { volumeMl: 1 }) },
      ['counted', 'not_counted'],
      1,
      /few|20/,
    ],
    ['of the same time', { time: 0 }, ['counted', 'not_counted'], 1, /^not newer than the last, 0$/],
    ['of an earlier time, though worse', { time: -5, counts: worse }, ['counted', 'not_counted'], 1, /^not newer/],
  ])('not a reading that is %s', (_name, more, told, readings, why) => {
    const { state, events, ...rest } = run(config, [reading(0), reading(10, more)]);
    expect(rest.told).toEqual(told);
    expect(events[events.length - 1]?.why).toMatch(why);
    expect(state.run?.readings ?? null).toBe(readings);
    expect(state.notCounted).toBe(1);
  });

  test('a gap or a volume counter that runs back begins the run anew with the reading', () => {
    const gap = run(
      { ...config, longestGapMs: 15 * minute },
      [0, 10, 25, 41].map((t) => reading(t)),
    );
    expect(gap.told).toEqual(['counted', 'counted', 'accepted', 'after_acceptance']);
    const wide = run(
      { ...config, longestGapMs: 15 * minute },
      [0, 10, 26].map((t) => reading(t)),
    );
    expect(wide.told).toEqual(['counted', 'counted', 'restarted', 'counted']);
    expect(wide.state).toMatchObject({
      run: { readings: 1 },
      lastRestart: { why: 'too long since the last good reading' },
    });
    const back = run({ ...config, leastLitres: 10 }, [reading(0, { litres: 500 }), reading(10, { litres: 20 })]);
    expect(back.told).toEqual(['counted', 'restarted', 'counted']);
    expect(back.state).toMatchObject({
      run: { readings: 1, fromLitres: 20 },
      lastRestart: { why: 'volume counter ran back' },
    });
  });

  test('a counter that has frozen proves nothing, though its temperature lives: neither the readings told nor those before', () => {
    const of = { ...config, readings: 6 };
    const frozen = (from: number, till: number) =>
      Array.from({ length: till - from }, (_, i) => reading(from + i, { celsius: 40 + i }));
    const live = (from: number, till: number) =>
      frozen(from, till).map((one, i) => ({ ...one, counts: i % 2 === 0 ? better : met }));
    const { told, events, state } = run(of, [...frozen(0, 7), ...live(7, 13)], saved);
    expect(told).toEqual([
      ...['counted', 'counted', 'counted', 'counted', 'restarted', 'not_counted', 'not_counted', 'not_counted'],
      ...['counted', 'counted', 'counted', 'counted', 'counted', 'accepted'],
    ]);
    expect(events[4]?.why).toBe('counts stuck');
    expect(events[5]).toMatchObject({ quality: 'bad', text: null });
    expect(events[5]?.why).toMatch(/^bad: The last 5 readings have the same counts/);
    expect(state.accepted?.run).toMatchObject({ readings: 6, from: 7 * minute });
    expect(state.accepted?.lastRestart).toMatchObject({ why: 'counts stuck', time: 4 * minute });
  });

  test('how many are too many is what the limits say; few particles may repeat', () => {
    const same = (n: number, more = {}) => Array.from({ length: n }, (_, i) => reading(i, more));
    const strict = { ...config, limits: { stuckReadings: 3 } };
    expect(run(strict, same(3)).told).toEqual(['counted', 'counted', 'restarted', 'not_counted']);
    expect(run({ ...config, readings: 9, limits: { stuckReadings: null } }, same(9)).told[8]).toBe('accepted');
    const told = { ...config, readings: 9, limits: { qualities: { values_stuck: 'good' as const } } };
    expect(run(told, same(9)).told[8]).toBe('accepted');
    const few = cumulativeCounts({ 4: 99, 6: 40, 14: 25 }, { volumeMl: 10 });
    const flat = { ...config, readings: 9, limits: { flattestSteepness: null } };
    expect(run(flat, same(9, { counts: few })).told[8]).toBe('accepted');
    const enough = cumulativeCounts({ 4: 100, 6: 40, 14: 25 }, { volumeMl: 10 });
    expect(run(flat, same(9, { counts: enough })).told).not.toContain('accepted');
    // one that comes late is not one of those running
    const late = [reading(0), reading(1), reading(0), reading(2), reading(1), reading(3)];
    expect(run({ ...config, readings: 4 }, late).told[5]).toBe('accepted');
  });

  test('the record stands, and what comes after is told', () => {
    const { state, told } = run(
      config,
      [0, 1, 2].map((t) => reading(t)),
    );
    const after = advanceAcceptance(config, state, reading(3, { counts: worse }));
    expect(told[2]).toBe('accepted');
    expect(after.state).toEqual(state);
    expect(after.events).toMatchObject([{ event: 'after_acceptance', outcome: { met: false } }]);
  });
});

describe('laws', () => {
  const one = fc.record({
    after: fc.constantFrom(-minute, 0, minute, 5 * minute, 40 * minute),
    counts: fc.constantFrom(met, met, met, better, better, worse),
    kPa: fc.constantFrom(800, 800, 800, 100),
    mlPerMin: fc.constantFrom(50, 50, 50, 0),
    litres: fc.nat({ max: 50 }),
  });
  const flush = fc.array(one, { maxLength: 60 }).map((list) => {
    let time = 0;
    let litres = 0;
    return list.map(({ after, litres: more, ...rest }): AcceptanceReading => {
      time += after;
      litres += more;
      return { ...rest, time, litres };
    });
  });
  const some = fc.record({
    table: fc.constant(iso4406),
    target: fc.constant('18/16/13'),
    readings: fc.integer({ min: 2, max: 6 }),
    leastMs: fc.constantFrom(0, 20 * minute),
    leastLitres: fc.constantFrom(0, 60),
    longestGapMs: fc.constantFrom(10 * minute, 1000 * minute),
  });

  /** The time of acceptance from the definition: the first reading that ends a stretch fulfilling everything. */
  function acceptedAt(of: AcceptanceConfig, all: readonly AcceptanceReading[]): number | null {
    const newest: AcceptanceReading[] = [];
    for (const r of all) if (newest.every(({ time }) => r.time > time)) newest.push(r);
    for (let end = 0; end < newest.length; end += 1) {
      const stretch: AcceptanceReading[] = [];
      for (let i = end; i >= 0; i -= 1) {
        const r = newest[i] as AcceptanceReading;
        const five = newest.slice(i - 4, i + 1);
        if (i >= 4 && five.every((one) => one.counts === r.counts)) break; // stuck
        if (r.mlPerMin === 0) continue;
        if (r.counts === worse) break;
        if (r.kPa === 100) continue;
        const after = stretch[0];
        if (after !== undefined && after.time - r.time > (of.longestGapMs as number)) break;
        stretch.unshift(r);
      }
      const first = stretch[0];
      const last = stretch[stretch.length - 1];
      if (first === undefined || last === undefined || last !== newest[end]) continue;
      const enough = stretch.length >= of.readings && last.time - first.time >= (of.leastMs as number);
      if (enough && (last.litres as number) - (first.litres as number) >= (of.leastLitres as number)) return last.time;
    }
    return null;
  }

  test('accepted exactly when the definition says so', () => {
    fc.assert(
      fc.property(some, flush, (of, readings) => {
        expect(run(of, readings).state.accepted?.run.to ?? null).toBe(acceptedAt(of, readings));
      }),
      { numRuns: 600 },
    );
  });

  test('restored after every reading it is the same; one event for each reading beside restarts; at most 4 kB', () => {
    fc.assert(
      fc.property(some, flush, (of, readings) => {
        const through = run(of, readings);
        const restored = run(of, readings, (state) => {
          expect(JSON.stringify(state).length).toBeLessThanOrEqual(4096);
          return saved(state);
        });
        expect(restored).toEqual(through);
        expect(through.told.filter((event) => event !== 'restarted')).toHaveLength(readings.length);
        expect(through.told.filter((event) => event === 'restarted')).toHaveLength(through.state.restarts);
      }),
      { numRuns: 300 },
    );
  });
});

describe('errors', () => {
  test('a bad configuration names every mistake', () => {
    const bad = {
      table: iso4406,
      target: '18',
      readings: 1,
      leastMs: -1,
      leastLitres: -1,
      longestGapMs: 0,
      limits: { x: 1, leastKPa: 'a' },
      n: 3,
    };
    try {
      startAcceptance(bad as never);
      expect.unreachable();
    } catch (error) {
      if (!isBadConfiguration(error)) throw error;
      expect(error.problems.map(({ parameter }) => parameter)).toEqual([
        'config.target',
        'config.readings',
        'config.leastMs',
        'config.leastLitres',
        'config.longestGapMs',
        'config.limits',
        'config.limits.leastKPa',
        'config.n',
      ]);
    }
    expect(() => startAcceptance(null as never)).toThrow(expect.objectContaining({ code: 'bad_configuration' }));
  });

  const fresh = startAcceptance(config);
  test.each([
    ['bad_state', config, null, reading(0)],
    ['bad_state', config, { ...fresh, version: 0 }, reading(0)],
    ['bad_state', config, { ...fresh, run: {} }, reading(0)],
    ['bad_state', config, { ...fresh, same: undefined }, reading(0)],
    ['bad_state', config, { ...fresh, same: null }, reading(0)],
    ['bad_state', config, { ...fresh, same: { print: Number.NaN, count: 1 } }, reading(0)],
    ['bad_state', config, { ...fresh, same: { print: 1 } }, reading(0)],
    ['wrong_type', config, fresh, { time: 0, counts: {} }],
    ['missing_volume', { ...config, leastLitres: 5 }, fresh, reading(0)],
    ['negative', config, fresh, reading(0, { litres: -1 })],
    ['wrong_type', config, fresh, null],
    ['wrong_type', config, fresh, { counts: met }],
    ['wrong_type', config, fresh, { time: 0 }],
    ['negative', config, fresh, reading(0, { kPa: 800, mlPerMin: -2 })],
    ['bad_configuration', { ...config, readings: 2.5 }, fresh, reading(0)],
  ])('%s', (code, of, state, input) => {
    expect(() => advanceAcceptance(of as never, state as never, input as never)).toThrow(
      expect.objectContaining({ code }),
    );
  });
});
