/** The proof that a flush is done: each rule by example, and against a definition that looks back over all readings. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { acceptanceBytes } from '../../src/acceptance/acceptanceState.ts';
import {
  type AcceptanceConfig,
  type AcceptanceEvent,
  type AcceptanceReading,
  type AcceptanceState,
  advanceAcceptance,
  startAcceptance,
} from '../../src/acceptance/index.ts';
import * as codes from '../../src/codes/index.ts';
import { type ClassTable, classify, classTable, iso4406 } from '../../src/codes/index.ts';
import { cumulativeCounts } from '../../src/counts/index.ts';
import { isBadConfiguration } from '../../src/state/configuration.ts';

const minute = 60000;
const counts = (four: number, six: number, fourteen: number) =>
  cumulativeCounts({ 4: four * 10, 6: six * 10, 14: fourteen * 10 }, { volumeMl: 10 });
const met = counts(1890, 402, 33);
const better = counts(900, 200, 20);
const worse = counts(1895, 702, 34);
const reading = (minutes: number, more: Partial<AcceptanceReading> = {}): AcceptanceReading => ({
  time: minutes * minute,
  counts: met,
  kPa: 240,
  ...more,
});
const config: AcceptanceConfig = {
  table: iso4406,
  target: '18/16/13',
  readings: 3,
  limits: { leastKPa: 180, stuckChance: null },
};

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
        fewParticles: 0,
        from: 20 * minute,
        to: 50 * minute,
        fromLitres: 700,
        toLitres: 1600,
        margins: [
          { column: '4', classes: 0 },
          { column: '6', classes: 0 },
          { column: '14', classes: 1 },
        ],
        unchecked: [
          ...['no_flow', 'flow_low', 'flow_high', 'viscosity_high', 'temperature_low', 'temperature_high'],
          ...['line_not_flushed', 'above_coincidence_limit', 'free_water_likely', 'cooled_below_saturation'],
          ...['values_stuck', 'channels_stuck'],
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
      'near the target by few particles',
      { counts: cumulativeCounts({ 4: 190, 6: 40, 14: 15 }, { volumeMl: 0.2 }) },
      ['counted', 'not_counted'],
      1,
      /^uncertain: At 14 µm/,
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
    const of = { ...config, readings: 6, limits: {} };
    const frozen = (from: number, till: number) =>
      Array.from({ length: till - from }, (_, i) => reading(from + i, { celsius: 40 + i }));
    const live = (from: number, till: number) =>
      frozen(from, till).map((one, i) => ({ ...one, counts: i % 2 === 0 ? better : met }));
    const { told, events, state } = run(of, [...frozen(0, 7), ...live(7, 13)], saved);
    expect(told).toEqual([
      ...['counted', 'counted', 'restarted', 'not_counted', 'not_counted', 'not_counted', 'not_counted', 'not_counted'],
      ...['counted', 'counted', 'counted', 'counted', 'counted', 'accepted'],
    ]);
    expect(events[2]?.why).toBe('counts stuck');
    expect(events[3]).toMatchObject({ quality: 'bad', text: null });
    expect(events[3]?.why).toMatch(/^bad: The last 3 readings have the same counts/);
    expect(state.accepted?.run).toMatchObject({ readings: 6, from: 7 * minute });
    expect(state.accepted?.lastRestart).toMatchObject({ why: 'counts stuck', time: 2 * minute });
  });

  test('how many are too many is what the limits say; few particles may repeat', () => {
    const same = (n: number, more = {}) => Array.from({ length: n }, (_, i) => reading(i, more));
    // of 18,900, 4,020 and 330 particles a repeat comes by chance once in two million: two of them are too many for 1e-8
    const four = { ...config, readings: 4, limits: {} };
    expect(run(four, same(3)).told).toEqual(['counted', 'counted', 'restarted', 'not_counted']);
    expect(run({ ...config, readings: 9, limits: { stuckChance: null } }, same(9)).told[8]).toBe('accepted');
    const told = { ...config, readings: 9, limits: { qualities: { values_stuck: 'good' as const } } };
    expect(run(told, same(9)).told[8]).toBe('accepted');
    const few = cumulativeCounts({ 4: 2, 6: 1, 14: 1 }, { volumeMl: 10 });
    const flat = { ...config, readings: 9, limits: { flattestSteepness: null, particles: null } };
    expect(run(flat, same(9, { counts: few })).told[8]).toBe('accepted');
    const enough = cumulativeCounts({ 4: 100, 6: 40, 14: 25 }, { volumeMl: 10 });
    expect(run(flat, same(9, { counts: enough })).told).not.toContain('accepted');
    // one that comes late is not one of those running
    const late = [reading(0), reading(1), reading(0), reading(2), reading(1), reading(3)];
    expect(run({ ...config, readings: 4 }, late).told[5]).toBe('accepted');
  });

  test('exactly the least volume is enough, in tenths of a litre too', () => {
    const tenths = { ...config, readings: 2, leastMs: 0, leastLitres: 0.2 };
    const exactly = run(tenths, [reading(0, { litres: 0.1 }), reading(10, { litres: 0.3 })]);
    expect(exactly.state.accepted).not.toBeNull();
  });

  test('the litres of a bad reading are neither compared nor kept', () => {
    const of = { ...config, leastLitres: 100 };
    const bad = { mlPerMin: 0 };
    const low = run(of, [reading(0, { litres: 500 }), reading(1, { ...bad, litres: 0 }), reading(2, { litres: 550 })]);
    expect(low.told).toEqual(['counted', 'not_counted', 'counted']);
    expect(low.state.litres).toBe(550);
    const high = run(of, [
      reading(0, { litres: 500 }),
      reading(1, { ...bad, litres: 9e9 }),
      reading(2, { litres: 550 }),
    ]);
    expect(high.told).toEqual(['counted', 'not_counted', 'counted']);
    expect(high.state.run).toMatchObject({ readings: 2, fromLitres: 500, toLitres: 550 });
    // what an uncertain reading's counter says is kept
    const uncertain = run(of, [reading(0, { litres: 500 }), reading(1, { kPa: 100, litres: 400 })]);
    expect(uncertain.told).toEqual(['counted', 'restarted', 'not_counted']);
  });

  test('few particles, far inside the target, count by their upper limit; near it, with another doubt, or by a quality of bad they do not', () => {
    const of = { ...config, target: '16/14/11', readings: 2 };
    const few = (fourteen: number, more: Partial<AcceptanceReading> = {}) => ({
      counts: cumulativeCounts({ 4: 500, 6: 100, 14: fourteen }, { volumeMl: 10 }),
      ...more,
    });
    const through = run(of, [reading(0, few(12)), reading(1, few(13))], saved);
    expect(through.told).toEqual(['counted', 'accepted']);
    expect(through.events[1]).toMatchObject({ quality: 'uncertain', text: '13/10/>=7' });
    // the upper limits of 100 and of 13 particles, 121.6 and 22.2, are a class dirtier than these
    expect(through.state.accepted?.run).toMatchObject({
      fewParticles: 2,
      margins: [{ classes: 3 }, { classes: 3 }, { column: '14', classes: 3 }],
    });
    const mixed = run({ ...of, readings: 3 }, [reading(0, few(12)), reading(1, few(30)), reading(2, few(13))]);
    expect(mixed.state.accepted?.run).toMatchObject({ readings: 3, fewParticles: 2 });
    const told = (more: Partial<AcceptanceReading>, target = '16/14/11') =>
      run({ ...of, target }, [reading(0, more)]).told[0];
    // one limit of class 8 is 2.5 per mL: 15 in 10 mL keep it, 24.7 are still below
    expect(told(few(15), '16/14/8')).toBe('counted');
    expect(told(few(16), '16/14/8')).toBe('not_counted');
    expect(told(few(12, { kPa: 100 }))).toBe('not_counted');
    expect(told({ counts: { ...few(12).counts, volumeMl: undefined } as never })).toBe('not_counted');
    const strict = { ...of, limits: { qualities: { few_particles: 'bad' as const } } };
    expect(run(strict, [reading(0, few(12))]).told).toEqual(['not_counted']);
  });

  test('the record says what was not looked at in any of the readings', () => {
    const uncheckedOf = (of: AcceptanceConfig, each: readonly Partial<AcceptanceReading>[]) =>
      run(
        of,
        each.map((more, i) => reading(i, { counts: i % 2 === 0 ? met : better, ...more })),
      ).state.accepted?.run.unchecked;
    const full = { mlPerMin: 50, celsius: 45, mm2PerS: 46, flushedMl: 500, waterSaturation: 0.3, coldestCelsius: 30 };
    const of = {
      ...config,
      readings: 5,
      limits: {
        mlPerMin: { low: 20, high: 90 },
        celsius: { low: 5, high: 80 },
        flushMl: 100,
        solubility: { a: 7, b: 1412 },
        coincidencePerMl: 20000,
        leastKPa: 180,
        mostMm2PerS: 220,
      },
    };
    expect(uncheckedOf(of, [full, full, full, full, full])).toEqual([]);
    const { mlPerMin: _flow, ...noFlow } = full;
    const { waterSaturation: _water, ...noWater } = full;
    expect(uncheckedOf(of, [full, noFlow, full, noWater, full])).toEqual([
      ...['no_flow', 'flow_low', 'flow_high', 'free_water_likely', 'cooled_below_saturation'],
    ]);
    // of two equal readings no frozen counter is told
    const two = [full, { ...full, counts: met }];
    expect(uncheckedOf({ ...of, readings: 2 }, two)).toEqual(['values_stuck']);
    expect(uncheckedOf({ ...of, limits: { ...of.limits, stuckChance: null } }, [full, full, full, full, full])).toEqual(
      ['values_stuck', 'channels_stuck'],
    );
    // a restart forgets what was not looked at before it
    expect(uncheckedOf(of, [noFlow, { ...full, counts: worse }, full, full, full, full, full])).toEqual([]);
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

describe('the configuration a proof rests on', () => {
  const four = { table: iso4406, target: '22/20/17', readings: 5 };
  const nearly = run(
    four,
    [0, 1, 2, 3].map((t) => reading(t, { counts: t % 2 === 0 ? worse : met })),
  ).state;
  const own = classTable({ ...iso4406, limits: iso4406.limits.map((row) => row.map((limit) => (limit ?? 0) * 2)) });

  test.each<[string, Partial<AcceptanceConfig>]>([
    ['another target', { target: '18/16/13' }],
    ['a table of the same id with other limits', { table: own }],
    ['other columns', { columns: ['6', '14'] }],
    ['fewer readings', { readings: 4 }],
    ['a time', { leastMs: 1 }],
    ['a volume', { leastLitres: 1 }],
    ['a gap', { longestGapMs: minute }],
    ['other limits of a reading', { limits: { stuckChance: null } }],
  ])('a state restored under %s is refused, before and after acceptance', (_name, changed) => {
    const next = reading(4, { counts: better, litres: 7 });
    const accepted = advanceAcceptance(four, nearly, next);
    expect(accepted.state.accepted?.target).toBe('22/20/17');
    for (const state of [nearly, accepted.state, startAcceptance(four)]) {
      expect(() => advanceAcceptance({ ...four, ...changed }, saved(state), { ...next, time: 5 * minute })).toThrow(
        expect.objectContaining({ code: 'bad_state', parameter: 'state.print' }),
      );
    }
  });

  test('what says the same is the same: defaults written out, members in another order, a copy of the table', () => {
    const table = JSON.parse(JSON.stringify(iso4406));
    const written = {
      limits: {},
      leastLitres: 0,
      leastMs: 0,
      readings: 5,
      target: '22/20/17',
      table,
    };
    expect(advanceAcceptance(written, nearly, reading(4, { counts: better, litres: 7 })).events[0]?.event).toBe(
      'accepted',
    );
  });
});

describe('the space of a state', () => {
  const wide = (columns: number, label: (i: number) => string, notation: ClassTable['notation']) =>
    ({
      ...iso4406,
      id: 'wide',
      notation,
      columns: Array.from({ length: columns }, (_, i) => ({ label: label(i), from: { iso11171: i + 1 } })),
      limits: iso4406.limits.map((row) => Array.from({ length: columns }, () => row[0] ?? null)),
    }) as ClassTable;
  const labels = [
    (i: number) => String(i + 1),
    (i: number) => `column number ${i}`,
    (i: number) => `µ"\n${i}`,
    (i: number) => `${'long '.repeat(20)}${i}`,
  ];

  const flat = (table: ClassTable, perMl: number) => ({
    sizing: 'iso11171' as const,
    sizes: table.columns.map(({ from }) => from.iso11171 as number),
    perMl: table.columns.map(() => perMl),
  });
  const bytesOf = (state: AcceptanceState) => new TextEncoder().encode(JSON.stringify(state)).length;

  /** The largest state on the way to an acceptance with numbers and codes as long as they come; null where the table is refused. */
  function largest(table: ClassTable): number | null {
    const target = classify(table, flat(table, 5000)).text;
    const of: AcceptanceConfig = {
      ...{ table, target, readings: 2, leastMs: 8.6e15, leastLitres: 123456789012.34567 },
      limits: { flattestSteepness: null, qualities: { viscosity_high: 'good' } },
    };
    let state: AcceptanceState;
    try {
      state = { ...startAcceptance(of), notCounted: 9e15, restarts: 9e15 };
    } catch (error) {
      expect(error).toMatchObject({ problems: [{ parameter: 'config.table' }] });
      return null;
    }
    let most = bytesOf(state);
    const litres = [11 / 7e50, 12 / 7e50, 13 / 7e50, 66e11 / 7];
    [0.011, 7e6, 0.012, 0.013].forEach((perMl, i) => {
      const time = i < 3 ? -8.63e15 + i : 8.63e15;
      state = advanceAcceptance(of, state, { time, litres: litres[i] as number, counts: flat(table, perMl) }).state;
      most = Math.max(most, bytesOf(state));
    });
    expect(state.accepted?.lastRestart?.why).toBe('worse than target');
    expect(state.accepted?.run.unchecked.length).toBeGreaterThan(9);
    return most;
  }

  test.each([
    // a code written out has at most 200 characters, and size letters are single
    ['scale_numbers', labels, [1, 2, 6, 12, 20, 30]],
    ['single', labels, [1, 2, 6, 12, 20, 30]],
    ['lettered', [(i: number) => String.fromCharCode(65 + i)], [1, 2, 6, 12, 20, 26]],
  ] as const)(
    'at most 6144 bytes or refused at the start, for tables of any width, written as %s',
    (notation, names, widths) => {
      const found = names.map((label) => widths.map((columns) => largest(wide(columns, label, notation))));
      for (const sizes of found) for (const size of sizes) expect(size ?? 0).toBeLessThanOrEqual(6144);
      for (const sizes of found) expect(sizes[3]).not.toBeNull();
      expect(found[0]?.slice(0, 8)).not.toContain(null);
    },
  );

  test('all tables of the library fit', () => {
    const tables = Object.values(codes).filter((one) => typeof one === 'object' && 'classes' in one) as ClassTable[];
    expect(tables.length).toBeGreaterThan(6);
    for (const table of tables) expect(acceptanceBytes({ table, target: '18', readings: 2 })).toBeLessThan(6144);
  });
});

describe('laws', () => {
  const one = fc.record({
    after: fc.constantFrom(-minute, 0, minute, 5 * minute, 40 * minute),
    counts: fc.constantFrom(met, met, met, better, better, worse),
    kPa: fc.constantFrom(240, 240, 240, 100),
    mlPerMin: fc.constantFrom(50, 50, 50, 0),
    litres: fc.constantFrom(0, 10, 20, 30, 50, -25, -200),
  });
  const flush = fc.array(one, { maxLength: 60 }).map((list) => {
    let time = 0;
    let litres = 0;
    return list.map(({ after, litres: more, ...rest }): AcceptanceReading => {
      time += after;
      litres = Math.max(0, litres + more);
      return { ...rest, time, litres };
    });
  });
  const some = fc.record({
    table: fc.constant(iso4406),
    target: fc.constant('18/16/13'),
    readings: fc.integer({ min: 2, max: 6 }),
    limits: fc.constant({ leastKPa: 180, stuckChance: null }),
    leastMs: fc.constantFrom(0, 20 * minute),
    leastLitres: fc.constantFrom(0, 60),
    longestGapMs: fc.constantFrom(10 * minute, 1000 * minute),
  });

  /** The volume counter of the last reading before that was not bad. */
  function litresBefore(all: readonly AcceptanceReading[], i: number): number {
    const known = all.slice(0, i).filter((_r, j) => !isBad(all, j));
    return known[known.length - 1]?.litres ?? 0;
  }
  const isBad = (all: readonly AcceptanceReading[], i: number) => {
    return all[i]?.mlPerMin === 0;
  };

  /** The time of acceptance from the definition: the first reading that ends a stretch fulfilling everything. */
  function acceptedAt(of: AcceptanceConfig, all: readonly AcceptanceReading[]): number | null {
    const newest: AcceptanceReading[] = [];
    for (const r of all) if (newest.every(({ time }) => r.time > time)) newest.push(r);
    for (let end = 0; end < newest.length; end += 1) {
      const stretch: AcceptanceReading[] = [];
      let ranBack = false;
      for (let i = end; i >= 0; i -= 1) {
        const r = newest[i] as AcceptanceReading;
        if (r.mlPerMin === 0) continue;
        if (r.counts === worse) break;
        if (ranBack) break;
        ranBack = litresBefore(newest, i) > (r.litres as number);
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
          expect(JSON.stringify(state).length).toBeLessThanOrEqual(6144);
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
        'config.limits.x',
        'config.limits.leastKPa',
        'config.n',
      ]);
    }
    expect(() => startAcceptance(null as never)).toThrow(expect.objectContaining({ code: 'bad_configuration' }));
  });

  const fresh = startAcceptance(config);
  const needsLitres = { ...config, leastLitres: 5 };
  test.each([
    ['bad_state', config, null, reading(0)],
    ['bad_state', config, { ...fresh, version: 0 }, reading(0)],
    ['bad_state', config, { ...fresh, run: {} }, reading(0)],
    ['bad_state', config, { ...fresh, repeats: undefined }, reading(0)],
    ['bad_state', config, { ...fresh, repeats: null }, reading(0)],
    ['bad_state', config, { ...fresh, repeats: { ...fresh.repeats, known: Number.NaN } }, reading(0)],
    ['bad_state', config, { ...fresh, repeats: { known: 1 } }, reading(0)],
    ['bad_state', config, { ...fresh, repeats: { ...fresh.repeats, sizes: [4] } }, reading(0)],
    ['wrong_type', config, fresh, { time: 0, counts: {} }],
    ['missing_volume', needsLitres, startAcceptance(needsLitres), reading(0)],
    ['bad_state', needsLitres, fresh, reading(0, { litres: 5 })],
    ['negative', config, fresh, reading(0, { litres: -1 })],
    ['wrong_type', config, fresh, null],
    ['wrong_type', config, fresh, { counts: met }],
    ['negative', config, fresh, reading(0, { kPa: 240, mlPerMin: -2 })],
    ['bad_configuration', { ...config, readings: 2.5 }, fresh, reading(0)],
  ])('%s', (code, of, state, input) => {
    expect(() => advanceAcceptance(of as never, state as never, input as never)).toThrow(
      expect.objectContaining({ code }),
    );
  });
});
