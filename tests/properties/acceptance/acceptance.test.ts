/** The proof that a flush is done: each rule by example, and against a definition that looks back over all readings. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  type AcceptanceConfig,
  type AcceptanceEvent,
  type AcceptanceReading,
  type AcceptanceRecord,
  type AcceptanceState,
  acceptanceText,
  advanceAcceptance as advancePrepared,
  type PreparedAcceptance,
  prepareAcceptance,
  resumeAcceptance,
  startAcceptance as startPrepared,
} from '../../../src/acceptance/index.ts';
import { acceptanceBytes } from '../../../src/acceptance/prepare.ts';
import * as codes from '../../../src/codes/index.ts';
import { type ClassTable, classify, classTable, iso4406 } from '../../../src/codes/index.ts';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import { problemsOf } from '../../../src/index.ts';
import { findingCodes } from '../../../src/reading/findingKinds.ts';
import { findingText } from '../../../src/reading/index.ts';
import { standardIds } from '../../../src/reading/tableIds.ts';
import { isPacked } from '../../../src/state/packed.ts';

const minute = 60000;
const prepare = (of: AcceptanceConfig): PreparedAcceptance => prepareAcceptance(of);
const startAcceptance = (of: AcceptanceConfig) => startPrepared(prepare(of));
const advanceAcceptance = (of: AcceptanceConfig, state: AcceptanceState, one: AcceptanceReading) =>
  advancePrepared(prepare(of), state, one);
const counts = (four: number, six: number, fourteen: number) =>
  cumulativeCounts({ 4: four * 10, 6: six * 10, 14: fourteen * 10 }, { volumeMl: 10 });
const met = counts(1890, 402, 33);
const better = counts(900, 200, 20);
/** Its particles are no shown figure times the volume. */
const still = cumulativeCounts({ 4: 18901, 6: 4021, 14: 331 }, { volumeMl: 10 });
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
  const prepared = prepare(of);
  for (const one of readings) {
    const step = advancePrepared(prepared, between(state), one);
    state = step.state;
    events.push(...step.events);
  }
  return { state, events, told: events.map(({ event }) => event) };
}
/** What these readings and limits never let anyone look at. */
const never = [
  ...['pressure_high', 'volume_disagrees', 'viscosity_off_line', 'calibration_overdue', 'clock_ahead'],
  ...['flow_pulsating', 'start_up', 'standing_oil'],
];
const saved = (state: AcceptanceState): AcceptanceState => JSON.parse(JSON.stringify(state));

describe('what counts', () => {
  test('three consecutive good readings, and the record of why', () => {
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
      ...{ table: 'iso4406', title: 'ISO 4406, automatic particle counter', edition: '1999, 2017, 2021' },
      ...{ target: '18/16/13', leftOut: [], worst: '18/16/12' },
      run: {
        readings: 3,
        fewParticles: 0,
        notCounted: 1,
        from: 20 * minute,
        to: 50 * minute,
        ms: 10 * minute,
        litres: 300,
        fromLitres: 700,
        toLitres: 1600,
        counts: 'changed',
        margins: [
          { column: '4', classes: 0 },
          { column: '6', classes: 0 },
          { column: '14', classes: 1 },
        ],
        unchecked: [
          ...['no_flow', 'flow_low', 'flow_high', 'viscosity_high', 'temperature_low', 'temperature_high'],
          ...['line_not_flushed', 'above_coincidence_limit', 'free_water_likely', 'cooled_below_saturation'],
          ...never,
          ...['no_particles', 'values_stuck', 'channels_stuck', 'channel_empty'],
        ],
      },
      text: '18/16/12',
      required: { readings: 3, ms: 0, litres: 0 },
      readings: 6,
      began: 0,
      notCounted: 2,
      restarts: 1,
      lastRestart: { time: 10 * minute, why: 'worse_than_target', text: '18/17/12' },
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

  test.each<[string, Partial<AcceptanceReading>, string[], number | null, string, RegExp]>([
    [
      'bad, though worse',
      { counts: worse, mlPerMin: 0 },
      ['not_counted'],
      1,
      'bad',
      /the reading is bad\. No oil flows/,
    ],
    ['uncertain', { kPa: 100, qualities: { counts: 'uncertain' } }, ['not_counted'], 1, 'uncertain', /uncertain\. /],
    [
      'uncertain and worse',
      { qualities: { counts: 'uncertain' }, counts: worse },
      ['restarted', 'not_counted'],
      null,
      'worse_than_target',
      /worse than the target \(18\/17\/12\)/,
    ],
    [
      'without a size',
      { counts: cumulativeCounts({ 4: 18900, 6: 4020 }, { volumeMl: 10 }) },
      ['not_counted'],
      1,
      'not_known',
      /nothing is known at 14\./,
    ],
    [
      'without any size',
      { counts: cumulativeCounts({ 21: 500, 38: 90 }, { volumeMl: 10 }) },
      ['not_counted'],
      1,
      'no_code',
      /counts.*sizes/,
    ],
    ['without counts', { counts: undefined }, ['not_counted'], 1, 'no_code', /neither counts nor a code/],
    [
      'met by a code that few counted',
      { counts: undefined, codes: { iso4406: '18/16/>=13' } },
      ['not_counted'],
      1,
      'few_counted',
      /too few particles to be sure at 14\./,
    ],
    ['of the same time', { time: 0 }, ['not_counted'], 1, 'not_newer', /not newer/],
    ['of an earlier time', { time: -5 }, ['not_counted'], 1, 'not_newer', /not newer/],
    [
      'of an earlier time and worse',
      { time: -5, counts: worse },
      ['restarted', 'not_counted'],
      null,
      'worse_than_target',
      /worse than the target/,
    ],
    [
      'near the target by few particles',
      { counts: cumulativeCounts({ 4: 190, 6: 40, 14: 15 }, { volumeMl: 0.2 }) },
      ['not_counted'],
      1,
      'uncertain',
      /14 µm/,
    ],
  ])('not a reading that is %s', (_name, more, told, readings, why, text) => {
    const { state, events, ...rest } = run(config, [reading(0), reading(10, more)]);
    expect(rest.told).toEqual(['counted', ...told]);
    const last = events[events.length - 1] as AcceptanceEvent;
    expect(last.why).toBe(why);
    const more1 = {
      bad: ['findings'],
      uncertain: ['findings'],
      not_known: ['missing'],
      no_code: ['reason'],
      few_counted: ['missing'],
    };
    const members = ['event', 'outcome', 'quality', 'text', 'time', 'why', ...(more1[why as 'bad'] ?? [])];
    expect(Object.keys(last).sort()).toEqual(members.sort());
    expect(acceptanceText(last)).toMatch(text);
    expect(state.run?.readings ?? null).toBe(readings);
    expect(state.notCounted).toBe(1);
  });

  test('doubt about another figure is none about the counts', () => {
    const hot = { ...config, readings: 2, limits: { ...config.limits, celsius: { low: 5, high: 60 } } };
    const doubted = { celsius: 40, qualities: { celsius: 'bad' as const } };
    expect(run(hot, [reading(0, doubted), reading(1, doubted)]).told).toEqual(['counted', 'accepted']);
  });

  test('doubt about another figure beside few particles is none about these', () => {
    const few = { counts: cumulativeCounts({ 4: 500, 6: 100, 14: 12 }, { volumeMl: 10 }) };
    const doubted = { celsius: 40, qualities: { celsius: 'bad' as const } };
    const clean = { ...config, target: '16/14/11' };
    expect(run(clean, [reading(0, { ...few, ...doubted })]).told).toEqual(['counted']);
    const { events } = run(clean, [reading(0, { ...few, ...doubted, kPa: 100 })]);
    expect(events[0]?.findings?.map(({ code }) => code)).toEqual(['pressure_low', 'few_particles']);
  });

  test('a code beside counts that say another is doubted', () => {
    const { told, events } = run(config, [reading(0, { codes: { iso4406: '12/10/7' } })]);
    expect(told).toEqual(['not_counted']);
    expect(events[0]?.why).toBe('uncertain');
    expect(run(config, [reading(0, { codes: { iso4406: '18/16/12' } })]).told).toEqual(['counted']);
    const own = { ...config, table: { ...iso4406, id: 'own' } };
    expect(run(own, [reading(0, { codes: { own: '12/10/7' } })]).events[0]?.why).toBe('uncertain');
  });

  test('a code without counts is judged as a code', () => {
    const coded = (minutes: number, code: string) => ({ time: minutes * minute, codes: { iso4406: code } });
    const { told, state } = run(config, [coded(0, '18/16/13'), coded(1, '19/16/13'), coded(2, '17/15/12')]);
    expect(told).toEqual(['counted', 'restarted', 'not_counted', 'counted']);
    expect(state.run?.margins.map(({ classes }) => classes)).toEqual([1, 1, 1]);
  });

  test('a code alone that says >= counts only where the target asks for other sizes', () => {
    const told = (code: string, columns?: readonly string[]) => {
      const one = { time: 0, kPa: 240, codes: { iso4406: code } };
      const [event] = run({ ...config, ...(columns === undefined ? {} : { columns }) }, [one]).events;
      return [event?.event, event?.why];
    };
    expect(told('16/14/10')[0]).toBe('counted');
    // three classes cleaner than asked, and yet nobody knows how many there may have been
    expect(told('16/14/>=10')).toEqual(['not_counted', 'few_counted']);
    expect(told('16/14/>=10', ['4', '6'])[0]).toBe('counted');
  });

  test('a gap or a volume counter that runs back begins the run anew with the reading', () => {
    const gap = run(
      { ...config, maxGapMs: 15 * minute },
      [0, 10, 25, 41].map((t) => reading(t)),
    );
    expect(gap.told).toEqual(['counted', 'counted', 'accepted', 'after_acceptance']);
    const wide = run(
      { ...config, maxGapMs: 15 * minute },
      [0, 10, 26].map((t) => reading(t)),
    );
    expect(wide.told).toEqual(['counted', 'counted', 'restarted', 'counted']);
    expect(wide.state).toMatchObject({
      run: { readings: 1 },
      lastRestart: { why: 'gap_too_long' },
    });
    const back = run({ ...config, leastLitres: 10 }, [reading(0, { litres: 500 }), reading(10, { litres: 20 })]);
    expect(back.told).toEqual(['counted', 'restarted', 'counted']);
    expect(back.state).toMatchObject({
      run: { readings: 1, fromLitres: 20 },
      lastRestart: { why: 'volume_counter_ran_back' },
    });
  });

  test('a volume counter that stands still ends no run, nor does one that is not there', () => {
    const litres = [500, 500, undefined, 500, 499].map((one, i) =>
      reading(i, one === undefined ? {} : { litres: one }),
    );
    expect(run({ ...config, readings: 9 }, litres).told).toEqual([...Array(4).fill('counted'), 'restarted', 'counted']);
  });

  test('a reading without the volume counter is refused where the proof asks for a volume', () => {
    expect(() => run({ ...config, leastLitres: 10 }, [reading(0)])).toThrow(
      expect.objectContaining({
        ...{ code: 'missing_volume', parameter: 'reading.litres' },
        expected: 'the volume counter in litres, since leastLitres is set',
      }),
    );
  });

  test('a reading that does not count ends no run by its distance; the next that counts does', () => {
    const doubted = reading(30, { qualities: { counts: 'uncertain' } });
    const { told } = run({ ...config, maxGapMs: 15 * minute }, [reading(0), reading(10), doubted, reading(31)]);
    expect(told).toEqual(['counted', 'counted', 'not_counted', 'restarted', 'counted']);
  });

  test('a counter that has frozen proves nothing, though its temperature lives', () => {
    const of = { ...config, readings: 6, limits: {} };
    const frozen = (from: number, till: number) =>
      Array.from({ length: till - from }, (_, i) => reading(from + i, { counts: still, celsius: 40 + i }));
    const live = (from: number, till: number) =>
      frozen(from, till).map((one, i) => ({ ...one, counts: i % 2 === 0 ? better : met }));
    const { told, events, state } = run(of, [...frozen(0, 7), ...live(7, 13)], saved);
    expect(told).toEqual([
      ...['counted', 'not_counted', 'restarted'],
      ...['not_counted', 'not_counted', 'not_counted', 'not_counted', 'not_counted'],
      ...['counted', 'counted', 'counted', 'counted', 'counted', 'accepted'],
    ]);
    expect(events[1]?.why).toBe('same_as_last');
    expect(events[2]?.why).toBe('counts_stuck');
    expect(events[3]).toMatchObject({ quality: 'bad', text: null });
    expect(acceptanceText(events[3] as AcceptanceEvent)).toMatch(/The last 3 readings have the same counts/);
    expect(state.accepted?.run).toMatchObject({ readings: 6, from: 7 * minute });
    expect(state.accepted?.lastRestart).toMatchObject({ why: 'counts_stuck', time: 2 * minute });
  });

  test('how many are too many is what the limits say; few particles may repeat', () => {
    const same = (n: number, more = {}) => Array.from({ length: n }, (_, i) => reading(i, { counts: still, ...more }));
    // of 18,901, 4,021 and 330 particles a repeat comes by chance once in two million: two of them are too many for
    // 1e-8
    const four = { ...config, readings: 4, limits: {} };
    expect(run(four, same(3)).told).toEqual(['counted', 'not_counted', 'restarted', 'not_counted']);
    expect(run({ ...config, readings: 9, limits: { stuckChance: null } }, same(9)).told[8]).toBe('accepted');
    const told = { ...config, readings: 2, limits: { qualities: { values_stuck: 'good' as const } } };
    expect(run(told, same(9)).events.slice(-1)).toMatchObject([{ why: 'same_as_last', wanting: { readings: 1 } }]);
    const few = cumulativeCounts({ 4: 2, 6: 1, 14: 1 }, { volumeMl: 10 });
    const qualities = { no_particles: 'good' as const };
    const flat = { ...config, readings: 9, limits: { flattestSteepness: null, particles: null, qualities } };
    expect(run(flat, same(9, { counts: few })).told).not.toContain('restarted');
    const one = cumulativeCounts({ 4: 1, 6: 0, 14: 0 }, { volumeMl: 10 });
    const none = cumulativeCounts({ 4: 0, 6: 0, 14: 0 }, { volumeMl: 10 });
    expect(run(flat, [...same(8, { counts: none }), reading(9, { counts: one })]).told[8]).toBe('accepted');
    const enough = cumulativeCounts({ 4: 100, 6: 40, 14: 25 }, { volumeMl: 10 });
    expect(run(flat, same(9, { counts: enough })).told).not.toContain('accepted');
    // one that comes late is not one of the consecutive ones
    const late = [reading(0), reading(1), reading(0), reading(2), reading(1), reading(3)];
    expect(run({ ...config, readings: 4 }, late).told[5]).toBe('accepted');
  });

  test('exactly the least volume is enough, in tenths of a litre too', () => {
    const tenths = { ...config, readings: 2, leastMs: 0, leastLitres: 0.2 };
    const exactly = run(tenths, [reading(0, { litres: 0.1 }), reading(10, { litres: 0.3 })]);
    expect(exactly.state.accepted).toBeDefined();
  });

  test('a volume counter that adds up doubles proves no more than it counted, and its state goes on', () => {
    for (const [first, each] of [
      ...([
        [0.1, 0.1],
        [1e6 + 1 / 3, 45 * 0.6789],
        [0, 1 / 3],
        [7e5, 0.1234567891234567],
      ] as const),
    ]) {
      const of = { ...config, readings: 60, leastLitres: 1e9 };
      let litres = first;
      let state = startAcceptance(of);
      for (let i = 0; i < 40; i += 1) {
        state = advanceAcceptance(of, state, reading(i, { litres, counts: i % 2 ? met : better })).state;
        expect(resumeAcceptance(prepareAcceptance(of), saved(state)).state).toEqual(state);
        litres += each;
      }
      expect(state.run?.litres).toBeCloseTo(39 * each, 6);
    }
  });

  test('volume that nobody saw proves nothing: beside bad readings, or where none came', () => {
    const of = { ...config, readings: 6, leastLitres: 2000 };
    const good = (minutes: number, litres: number) => reading(minutes, { litres, counts: minutes % 20 ? met : better });
    const before = [0, 1, 2, 3].map((i) => good(10 * i, 20 * i));
    const after = [0, 1, 2, 3].map((i) => good(640 + 10 * i, 2040 + 20 * i));
    const bad = Array.from({ length: 60 }, (_, i) => reading(40 + 10 * i, { litres: 60 + 33 * i, mlPerMin: 0 }));
    for (const between of [bad, []]) {
      const { state } = run(of, [...before, ...between, ...after]);
      expect(state.accepted).toBeUndefined();
      expect(state.run).toMatchObject({ readings: 8, litres: 120, fromLitres: 0, toLitres: 2100 });
    }
    // far apart but regular: all of it was seen
    const regular = [0, 1, 2, 3, 4, 5].map((i) => reading(240 * i, { litres: 400 * i, counts: i % 2 ? met : better }));
    expect(run(of, regular).state.accepted?.run.litres).toBe(2000);
  });

  test('a counter that stands and then leaps proves neither volume nor the time before, until it moves', () => {
    const of = { ...config, readings: 9, leastLitres: 500, mostLitresPerMin: 60 };
    const at = (minutes: number, litres: number) => reading(minutes, { litres, counts: minutes % 20 ? met : better });
    const stood = run(of, [at(0, 100), at(10, 100), at(20, 900000)]);
    expect(stood.state.run).toMatchObject({ ms: 0, litres: 0, stoodMs: 20 * 60000 });
    const moved = run(of, [at(0, 100), at(10, 100), at(20, 900000), at(30, 900200)]);
    expect(moved.state.run).toMatchObject({ ms: 30 * 60000, litres: 200 });
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

  test('few particles count by their upper limit far inside the target, and nowhere else', () => {
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
    expect(told(few(12, { qualities: { counts: 'uncertain' } }))).toBe('not_counted');
    expect(told({ counts: { ...few(12).counts, volumeMl: undefined } as never })).toBe('not_counted');
    // 16 particles, class 8 or more, where few particles are no doubt
    const lenient = { ...of, target: '16/14/8', limits: { particles: null } };
    const [event] = run(lenient, [reading(0, few(16))]).events;
    expect(event).toMatchObject({ quality: 'good', text: '13/10/>=8', why: 'few_counted', missing: ['14'] });
    const strict = { ...of, limits: { qualities: { few_particles: 'bad' as const } } };
    expect(run(strict, [reading(0, few(12))]).told).toEqual(['not_counted']);
  });

  describe('a class rests on large sizes too, of which few particles are counted', () => {
    const nas = (volumeMl: number, scale: number) => (i: number) =>
      cumulativeCounts(
        { 4: 5000 * scale + i, 6: 1200 * scale + i, 14: 150 * scale - i, 21: 30 * scale, 38: 3 * scale, 70: scale },
        { volumeMl },
      );
    const told = (of: (i: number) => ReturnType<typeof counts>, limits: AcceptanceConfig['limits'] = {}) => {
      const own = { ...config, table: codes.nas1638, target: '6', limits: { ...config.limits, ...limits } };
      return run(
        own,
        [0, 1, 2].map((i) => reading(i * 10, { counts: of(i) })),
      );
    };

    test('1 particle in 10 mL may be 5.57, and 56 in 100 mL are not class 6', () => {
      // limits at 95 % by F. Garwood, Biometrika 28 (1936) 437; class 6 has 16 in
      // 100 mL beyond 100 µm (NAS 1638 as in tests/reference/classes/tables.json)
      const { events, state } = told(nas(10, 1));
      expect(codes.codeInterval(codes.nas1638, nas(10, 1)(0)).high.text).toBe('8');
      expect(events.map(({ event }) => event)).toEqual(['not_counted', 'not_counted', 'not_counted']);
      expect(events[0]).toMatchObject({ why: 'few_counted', missing: ['50-100', '>100'], quality: 'good' });
      expect(state.accepted).toBeUndefined();
    });

    test('of a hundred times the volume they are many', () => {
      const { state } = told(nas(1000, 100));
      expect(state.accepted?.run).toMatchObject({ readings: 3, fewParticles: 0 });
    });

    test('where even the upper limit keeps the target they count, with its margins', () => {
      const { state } = told(nas(100, 1));
      expect(state.accepted?.run).toMatchObject({ readings: 3, fewParticles: 3 });
      const { high } = codes.codeInterval(codes.nas1638, nas(100, 1)(0));
      expect(Number(high.text)).toBeLessThan(6);
    });

    test('a size that was not counted rests on the few of the next smaller one', () => {
      const of = (target: string, at: object) => {
        const own = { ...config, table: codes.nas1638, target };
        const seen = [0, 1, 2].map((i) =>
          reading(i * 10, { counts: cumulativeCounts({ 4: 9000 + i, 6: 2000, ...at }, { volumeMl: 10 }) }),
        );
        return run(own, seen).events.map(({ event, why = event }) => why);
      };
      const large = { 14: 100, 21: 30, 38: 0 };
      // none of 38 µm(c) in 10 mL may be 36.9 in 100 mL beyond 100 µm: class 7 has 32, 8 has 64
      for (const at of [large, { ...large, 70: 0 }]) {
        expect(of('7', at)).toEqual(['few_counted', 'few_counted', 'few_counted']);
        expect(of('8', at)).toEqual(['counted', 'counted', 'accepted']);
      }
      expect([of('7', { 14: 0 })[2], of('8', { 14: 0 })[2]]).toEqual(['uncertain', 'accepted']);
    });

    test('few are those between two sizes, and at the sizes judged', () => {
      const limits = { stuckChance: null, flattestSteepness: null };
      const steep = { 4: 5000, 6: 1200, 14: 35, 21: 30, 38: 25, 70: 22 };
      const of = (more: object) =>
        run({ ...config, table: codes.nas1638, target: '11', limits, ...more } as AcceptanceConfig, [
          ...[0, 1, 2].map((i) =>
            reading(i * 10, { counts: cumulativeCounts({ ...steep, 4: 5000 + i }, { volumeMl: 10 }) }),
          ),
        ]).state.accepted?.run;
      expect(of({})).toMatchObject({ readings: 3, fewParticles: 3 });
      expect(of({ columns: ['5-15', '>100'] })).toMatchObject({ readings: 3, fewParticles: 0 });
    });

    test('as many as the limit asks for are enough', () => {
      // 1 beyond 100 µm, and 2 from 50 to 100 µm
      const of = (particles: number) => told(nas(10, 1), { particles }).events[0];
      expect(of(1)?.event).toBe('counted');
      expect(of(2)).toMatchObject({ why: 'few_counted', missing: ['>100'] });
    });

    test.each<[string, AcceptanceConfig['limits']]>([
      ['no least number', { particles: null }],
      ['sizes of one’s own', { particleSizes: [6] }],
      ['no doubt in few', { qualities: { few_particles: 'good' } }],
    ])('%s: as the limits say', (_what, limits) => {
      expect(told(nas(10, 1), limits).state.accepted?.run).toMatchObject({ readings: 3, fewParticles: 0 });
    });
  });

  test('the record says what was not looked at in any of the readings', () => {
    const uncheckedOf = (of: AcceptanceConfig, each: readonly Partial<AcceptanceReading>[]) =>
      run(
        of,
        each.map((more, i) => reading(i, { counts: i % 2 === 0 ? met : better, ...more })),
      ).state.accepted?.run.unchecked.filter((code) => !never.includes(code));
    const flow = { mlPerMin: 50, celsius: 45, mm2PerS: 46, flushedMl: 500 };
    const full = { ...flow, waterSaturation: 0.3, coldestCelsius: 30, litres: 900 };
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
    const { litres: _litres, ...noLitres } = full;
    expect(uncheckedOf(of, [full, full, noLitres, full, full])).toEqual(['volume_stood']);
    const { mlPerMin: _flow, ...noFlow } = full;
    const { waterSaturation: _water, ...noWater } = full;
    expect(uncheckedOf(of, [full, noFlow, full, noWater, full])).toEqual([
      ...['no_flow', 'flow_low', 'flow_high', 'free_water_likely', 'cooled_below_saturation'],
    ]);
    // of two equal readings no frozen counter is told: they are no proof
    const two = [full, { ...full, counts: met }];
    expect(uncheckedOf({ ...of, readings: 2 }, two)).toBeUndefined();
    expect(uncheckedOf({ ...of, limits: { ...of.limits, stuckChance: null } }, [full, full, full, full, full])).toEqual(
      ['no_particles', 'values_stuck', 'channels_stuck', 'channel_empty'],
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
    expect(after.events).toMatchObject([{ event: 'worse_after_acceptance', outcome: { met: false } }]);
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
    ['a gap', { maxGapMs: minute }],
    ['other limits of a reading', { limits: { stuckChance: null } }],
  ])('a state restored under %s is refused, before and after acceptance', (_name, changed) => {
    const next = reading(4, { counts: better, litres: 7 });
    const accepted = advanceAcceptance(four, nearly, next);
    expect(accepted.state.accepted?.target).toBe('22/20/17');
    for (const state of [nearly, accepted.state, startAcceptance(four)]) {
      expect(() => advanceAcceptance({ ...four, ...changed }, saved(state), { ...next, time: 5 * minute })).toThrow(
        expect.objectContaining({ code: 'bad_state', parameter: 'state' }),
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
    (i: number) => `${'long '.repeat(12)}${i}`,
  ];

  const flat = (table: ClassTable, perMl: number) => ({
    sizing: 'iso11171' as const,
    sizes: table.columns.map(({ from }) => from.iso11171 as number),
    perMl: table.columns.map(() => perMl),
  });
  const bytesOf = (state: AcceptanceState) => new TextEncoder().encode(JSON.stringify(state)).length;

  /**
   * The largest state on the way to an acceptance with numbers and codes as long as they come; null where the table is
   * refused.
   */
  function largest(table: ClassTable): number | null {
    const target = classify(table, flat(table, 5000)).text;
    const of: AcceptanceConfig = {
      ...{ table, target, readings: 2, leastMs: 1e14, leastLitres: 123456789012.34567 },
      limits: { flattestSteepness: null, qualities: { viscosity_high: 'good' } },
    };
    let state: AcceptanceState;
    try {
      state = { ...startAcceptance(of), notCounted: 9e15, restarts: 9e15 };
    } catch (error) {
      expect(error).toMatchObject({ problems: [{ path: ['table'] }] });
      return null;
    }
    let most = bytesOf(state);
    const litres = [11 / 7e50, 12 / 7e50, 13 / 7e50, 66e11 / 7];
    [0.011, 7e6, 0.012, 0.013].forEach((perMl, i) => {
      const time = -6.2e13 + i * 1.01e14;
      state = advanceAcceptance(of, state, { time, litres: litres[i] as number, counts: flat(table, perMl) }).state;
      most = Math.max(most, bytesOf(state));
      if (state.run === undefined) return;
      // a run that began when the clock was set back has three gaps of its own
      const gap = { gap: 3e14, ms: 3e14, litres: 11 / 7e50 };
      const begun = { ...state, worseAt: -6.2e13, run: { ...state.run, early: [gap, gap, gap] } };
      most = Math.max(most, bytesOf(begun));
    });
    expect(state.accepted?.lastRestart?.why).toBe('worse_than_target');
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

  test('is reckoned from names, codes and columns', () => {
    const { length } = JSON.stringify(findingCodes);
    const bytes = (table: ClassTable, target: string, columns: readonly string[] | null) =>
      acceptanceBytes({ table, target, columns, wanted: null }) - 1270 - length - 866 - 160;
    // id and target twice, three codes `28/28/28` and what a mark takes, three columns
    const codes3 = 3 * (2 + 3 * (2 + 3));
    expect(bytes(iso4406, '18/16/13', null)).toBe(2 * (7 + 8) + codes3 + 3 * 28 + '4614'.length);
    expect(bytes(iso4406, '18/16/13', ['14'])).toBe(2 * (7 + 8) + codes3 + 28 + '14'.length);
    const single = 2 * (7 + 1) + 3 * 3 + 3 * 28 + '4614'.length;
    expect(bytes({ ...iso4406, notation: 'single' }, '8', null)).toBe(single);
    const { notation: _notation, ...without } = iso4406;
    expect(bytes(without, '8', null)).toBe(single);
    const lettered = 3 * (2 + 3 * (2 + 3) + '4614'.length);
    expect(bytes({ ...iso4406, notation: 'lettered' }, '8', null)).toBe(2 * 8 + lettered + 3 * 28 + '4614'.length);
    // a record with a long title takes more than the counts seen: title, edition, a fourth code, the names not judged
    const source = { ...iso4406.source, edition: 'y'.repeat(50) };
    const titled = { ...iso4406, title: 'x'.repeat(1000), source } as ClassTable;
    const more = 80 + 1000 + 50 + (2 + 3 * (2 + 3)) - 866 - 160;
    expect(bytes(titled, '18/16/13', null)).toBe(2 * (7 + 8) + codes3 + 3 * 28 + '4614'.length + more);
    const named = more + 2 * ('4'.length + 3);
    expect(bytes(titled, '18/16/13', ['14'])).toBe(2 * (7 + 8) + codes3 + 28 + '14'.length + named);
    const { source: _source, ...sourceless } = titled;
    expect(bytes(sourceless as ClassTable, '18/16/13', ['14'])).toBe(bytes(titled, '18/16/13', ['14']) - 50);
  });

  test('a target of `>=` is refused by its place', () => {
    const refused = () => prepareAcceptance({ table: iso4406, target: '16/>=14/11', readings: 2 });
    const expected = 'a code without >=, which tells how few were counted, not what is asked for';
    const problems = [{ path: ['target'], code: 'bad_code', received: "'16/>=14/11'", expected }];
    expect(refused).toThrow(expect.objectContaining({ problems }));
  });

  test('a table that would not fit is refused by its place', () => {
    const many = wide(64, (i) => `${'long '.repeat(12)}${i}`, 'scale_numbers');
    const target = many.columns.map(() => '9').join('/');
    expect(() => prepareAcceptance({ table: many, target, readings: 2 })).toThrow(
      expect.objectContaining({
        problems: [
          {
            ...{ path: ['table'], code: 'out_of_range', received: expect.stringMatching(/^\d+$/) },
            expected: 'columns whose names and codes fit a state of 6144 bytes (judge fewer by `columns`)',
          },
        ],
      }),
    );
  });

  test('what fills the room to the last byte is taken, and one more is not', () => {
    const columns = 60;
    const target = Array(columns).fill('9').join('/');
    const needs = (table: ClassTable) => acceptanceBytes({ table, target, columns: null, wanted: null });
    const longer = (by: number) =>
      wide(columns, (i) => `${i}`.padEnd(2 + Math.floor((by + i) / columns), '-'), 'scale_numbers');
    const room = 6144 - needs(longer(0));
    const [full, over] = [longer(room), longer(room + 1)];
    expect([needs(full), needs(over)]).toEqual([6144, 6145]);
    const fits = (table: ClassTable) => () => prepareAcceptance({ table, target, readings: 2 });
    expect(fits(full)).not.toThrow();
    expect(fits(over)).toThrow('received 6145,');
  });

  test('all tables of the library fit', () => {
    const tables = Object.values(codes).filter((one) => typeof one === 'object' && 'classes' in one) as ClassTable[];
    expect(tables.length).toBeGreaterThan(6);
    for (const table of tables) {
      expect(acceptanceBytes({ table, target: '18', columns: null, wanted: null })).toBeLessThan(6144);
    }
  });
});

describe('laws', () => {
  const one = fc.record({
    after: fc.constantFrom(-90 * minute, -minute, 0, minute, 5 * minute, 5 * minute, 40 * minute),
    counts: fc.constantFrom(met, met, met, better, better, worse),
    doubted: fc.constantFrom(false, false, false, true),
    mlPerMin: fc.constantFrom(50, 50, 50, 0),
    litres: fc.constantFrom(0, 0, 10, 20, 30, 50, -25, -200),
    measuringSeconds: fc.constantFrom(undefined, undefined, 30, 150),
  });
  const flush = fc.array(one, { maxLength: 60 }).map((list) => {
    let time = 0;
    let litres = 0;
    return list.map(({ after, litres: more, doubted, measuringSeconds, ...rest }): AcceptanceReading => {
      time += after;
      litres = Math.max(0, litres + more);
      const timed = measuringSeconds === undefined ? {} : { measuringSeconds };
      return { ...rest, ...timed, time, litres, ...(doubted ? { qualities: { counts: 'uncertain' as const } } : {}) };
    });
  });
  const some = fc
    .record({
      table: fc.constant(iso4406),
      target: fc.constant('18/16/13'),
      readings: fc.integer({ min: 2, max: 6 }),
      limits: fc.constant({ stuckChance: null }),
      leastMs: fc.constantFrom(0, 20 * minute, 90 * minute),
      leastLitres: fc.constantFrom(0, 60, 90),
      mostLitresPerMin: fc.constantFrom(undefined, 5, 25),
      maxGapMs: fc.constantFrom(null, 10 * minute, 1000 * minute),
    })
    .map(
      ({ maxGapMs, mostLitresPerMin, ...rest }): AcceptanceConfig => ({
        ...rest,
        ...(mostLitresPerMin === undefined ? {} : { mostLitresPerMin }),
        ...(maxGapMs === null ? {} : { maxGapMs }),
      }),
    );

  const isBad = ({ mlPerMin }: AcceptanceReading) => mlPerMin === 0;
  const isDoubted = ({ qualities }: AcceptanceReading) => qualities?.counts === 'uncertain';
  const isWorse = (one: AcceptanceReading) => !isBad(one) && one.counts === worse;

  /** A reading in the order of one clock; `broken`: one out of order came after it that was worse. */
  interface Kept {
    readonly one: AcceptanceReading;
    broken: boolean;
    /** Dated before one that was worse. */
    readonly old: boolean;
  }

  /** The log by clocks: three older ones in a row, each newer than the one before, begin another. */
  function clocksOf(all: readonly AcceptanceReading[]): Kept[][] {
    const clocks: Kept[][] = [[]];
    let older: number[] = [];
    let worseAt = -Infinity;
    for (const one of all) {
      const old = one.time <= worseAt;
      if (isWorse(one)) worseAt = Math.max(worseAt, one.time);
      const clock = clocks[clocks.length - 1] as Kept[];
      const last = clock[clock.length - 1];
      if (last === undefined || one.time > last.one.time) {
        clock.push({ one, broken: false, old });
        older = [];
        continue;
      }
      older = one.time > (older[older.length - 1] ?? Infinity) ? [...older, one.time] : [one.time];
      if (older.length >= 3 && one.time < last.one.time) {
        clocks.push([{ one, broken: false, old }]);
        older = [];
      } else if (isWorse(one)) last.broken = true;
    }
    return clocks;
  }

  /** Whether the readings of one clock up to `end` are a proof, looking back from the last. */
  function isProof(of: AcceptanceConfig, clock: readonly Kept[], end: number): boolean {
    const last = clock[end] as Kept;
    if (isBad(last.one) || isDoubted(last.one) || isWorse(last.one) || last.old) return false;
    const counted: number[] = [];
    let ranBack = false;
    for (let i = end; i >= 0; i -= 1) {
      const { one, broken, old } = clock[i] as Kept;
      if (i < end && broken) break;
      if (isBad(one)) continue;
      if (isWorse(one) || ranBack) break;
      const before = clock.slice(0, i).filter((kept) => !isBad(kept.one));
      ranBack = (before[before.length - 1]?.one.litres ?? 0) > (one.litres as number);
      if (isDoubted(one) || old) continue;
      const after = clock[counted[0] as number]?.one;
      if (after !== undefined && of.maxGapMs !== undefined && after.time - one.time > of.maxGapMs) break;
      counted.unshift(i);
    }
    let ms = 0;
    let litres = 0;
    /** What the first gaps prove: none that turns out longer than three usual ones. */
    let early: { gap: number; ms: number; litres: number }[] = [];
    // while the counter stands, time waits for it to move
    let stood = 0;
    for (const i of counted.slice(1)) {
      const waiting = stood;
      stood = 0;
      const gap = (at: number) => (clock[at] as Kept).one.time - (clock[at - 1] as Kept).one.time;
      const gaps: number[] = [];
      for (let at = Math.max(1, i - 5); at < i; at += 1) gaps.push(gap(at));
      const isEarly = gaps.length < 3;
      if (isEarly) gaps.push(gap(i));
      gaps.sort((a, b) => a - b);
      const usual = gaps[Math.floor((gaps.length - 1) / 2)] as number;
      if (of.maxGapMs === undefined) {
        for (const one of early.filter((each) => each.gap > 3 * usual)) {
          ms -= one.ms;
          litres -= one.litres;
        }
        early = isEarly ? early.filter((each) => each.gap <= 3 * usual) : [];
      }
      if (counted.indexOf(i - 1) < 0) continue;
      const spread = Math.max(60 * minute, (2 * (of.leastMs ?? 0)) / (of.readings - 1));
      if (of.maxGapMs === undefined && gap(i) > 3 * usual) continue;
      const own = gap(i) <= (of.maxGapMs ?? spread) ? gap(i) : 0;
      const passed = ((clock[i] as Kept).one.litres as number) - ((clock[i - 1] as Kept).one.litres as number);
      if (passed === 0) {
        stood = waiting + own;
        continue;
      }
      const leapt = passed > ((of.mostLitresPerMin ?? Infinity) * gap(i)) / minute;
      const longest = of.maxGapMs ?? 3 * usual;
      const proved = waiting + own <= longest ? waiting + own : own;
      ms += proved;
      if (!leapt) litres += passed;
      if (isEarly) early.push({ gap: gap(i), ms: proved, litres: leapt ? 0 : passed });
    }
    // those that share most of their time with the last are none of their own
    let number = 0;
    let countedAt = -Infinity;
    for (const i of counted) {
      const { time, measuringSeconds = 0 } = (clock[i] as Kept).one;
      if (time - countedAt < 500 * measuringSeconds) continue;
      number += 1;
      countedAt = time;
    }
    return number >= of.readings && ms >= (of.leastMs ?? 0) && litres >= (of.leastLitres ?? 0);
  }

  /** The time of acceptance from the definition: the first reading that ends a stretch fulfilling everything. */
  function acceptedAt(of: AcceptanceConfig, all: readonly AcceptanceReading[]): number | null {
    for (let n = 1; n <= all.length; n += 1) {
      const clocks = clocksOf(all.slice(0, n));
      const clock = clocks[clocks.length - 1] as Kept[];
      const end = clock.length - 1;
      if (clock[end]?.one === all[n - 1] && isProof(of, clock, end)) return (all[n - 1] as AcceptanceReading).time;
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

  test('restored after every reading it is the same; one event for each reading beside restarts; at most 6 kB', () => {
    fc.assert(
      fc.property(some, flush, (of, readings) => {
        const through = run(of, readings, (state) => {
          // no member is there and undefined
          expect(state).toStrictEqual(saved(state));
          expect(isPacked(state.seen ?? '', 5, 32)).toBe(true);
          return state;
        });
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

describe('what doubt and clocks can do', () => {
  test('older readings of one time, or that came no later by the host, show no clock set back', () => {
    const given = (...more: Partial<AcceptanceReading>[]) =>
      run(config, [reading(100, { receivedAt: 5 }), ...more.map((one) => reading(0, one))]).events.map(
        ({ event, why }) => why ?? event,
      );
    const figures = [{ kPa: 241 }, { kPa: 242 }, { kPa: 243 }, { kPa: 244 }];
    expect(given(...figures)).toEqual(['counted', ...Array(4).fill('not_newer')]);
    // the host tells of the one and not of the other: three in a row tell it
    const three = [0, 1, 2].map((i) => ({ time: i }));
    expect(given(...three)).toEqual(['counted', 'not_newer', 'not_newer', 'clock_set_back', 'counted']);
    expect(given({ time: 1, receivedAt: 5 })).toEqual(['counted', 'not_newer']);
    // one may have been overtaken on its way, two have not
    const two = [1, 2].map((i) => ({ time: i, receivedAt: 5 + i }));
    expect(given(two[0] as object)).toEqual(['counted', 'not_newer']);
    expect(given(...two)).toEqual(['counted', 'not_newer', 'clock_set_back', 'counted']);
    // one of the same time is none, though it came later, or as the third
    expect(given({ time: 100 * minute, kPa: 241, receivedAt: 6 })).toEqual(['counted', 'not_newer']);
    const upTo = [98, 99, 100].map((i) => ({ time: i * minute, kPa: 241 }));
    expect(given(...upTo)).toEqual(['counted', ...Array(3).fill('not_newer')]);
    // nor did the host tell of the first
    const later = [reading(100), ...[0, 1, 2].map((i) => reading(i, { receivedAt: 5 + i }))];
    expect(run(config, later).told.filter((event) => event !== 'not_counted')).toEqual([
      ...['counted', 'restarted', 'counted'],
    ]);
  });

  test('where no run is there, neither a worse reading of before nor a clock set back ends one', () => {
    const bad = { mlPerMin: 0 };
    const older = run(config, [reading(10, bad), reading(0, { counts: worse })]);
    expect([older.told, older.state.restarts]).toEqual([['not_counted', 'not_counted'], 0]);
    const back = run(config, [reading(10, bad), reading(0), reading(1), reading(2)]);
    expect(back.told).toEqual(['not_counted', 'not_counted', 'not_counted', 'counted']);
    expect(back.state.restarts).toBe(0);
    const ended = run(config, [reading(10), reading(0, { counts: worse })]).state.lastRestart;
    expect(ended).toEqual({ time: 0, why: 'worse_than_target', text: '18/17/12' });
  });

  test('readings that differ by their volume counter alone are others, and the last 32 are known again', () => {
    const nine = { ...config, readings: 99 };
    const counter = (minutes: number, litres: number) => reading(minutes, { litres });
    const before = [1, 2, 3, 4].map((t) => counter(t, 10 + t / 1000));
    const again = run(nine, [...before, ...before.slice(0, 3), ...before.slice(0, 3)]);
    expect(again.told).toEqual([...Array(4).fill('counted'), ...Array(6).fill('not_counted')]);
    const other = run(nine, [...before, ...[1, 2, 3].map((t) => counter(t, 10.01 + t / 1000))]);
    expect(other.told.slice(4)).toEqual(['not_counted', 'not_counted', 'restarted', 'counted']);
    const many = Array.from({ length: 40 }, (_, i) => reading(i, { litres: i }));
    const { state } = run(nine, many);
    expect(isPacked(state.seen as string, 5, 32)).toBe(true);
    expect(state.seen).toHaveLength(160);
  });

  test('by a clock set back three days the counts are known since three days before', () => {
    const days = (n: number) => n * 24 * 60;
    const { state } = run(config, [reading(days(10)), ...[0, 1, 2].map((i) => reading(days(7) + i))]);
    expect(state.repeats?.sinceDay).toBe(7);
  });

  const night = { table: iso4406, target: '18/16/13', readings: 5, leastMs: 12 * 60 * minute };
  const at = (minutes: number, more: Partial<AcceptanceReading> = {}) =>
    reading(minutes, { counts: minutes % 20 === 0 ? met : better, ...more });
  const every10 = (from: number, till: number, more: Partial<AcceptanceReading> = {}) =>
    Array.from({ length: (till - from) / 10 }, (_, i) => at(from + i * 10, more));

  test('a gap of three usual ones counts, one a millisecond longer does not', () => {
    const before = every10(0, 40);
    const last = (ms: number) => ({ ...at(60), time: 60 * minute + ms });
    expect(run(night, [...before, last(0)]).state.run).toMatchObject({ readings: 5, ms: 60 * minute });
    expect(run(night, [...before, last(1)]).state.run).toMatchObject({ readings: 5, ms: 30 * minute });
    // one gap is too few to tell what is usual: then an hour, or as long as the rule spreads its readings
    const one = [at(0), at(6 * 60)];
    expect(run(night, one).state.run).toMatchObject({ ms: 6 * 60 * minute });
    expect(run({ ...night, leastMs: minute }, one).state.run).toMatchObject({ ms: 0 });
  });

  test('what is usual is the middle of the last gaps by length', () => {
    const frozen = (state: AcceptanceState) => {
      Object.freeze(state.gaps);
      return state;
    };
    const last = (ms: number) =>
      run(night, [...[0, 10, 40, 50].map((t) => at(t)), { ...at(80), time: 80 * minute + ms }], frozen).state.run;
    expect(last(0)?.ms).toBe(80 * minute);
    expect(last(1)?.ms).toBe(50 * minute);
  });

  test('a night without flow proves no twelve hours; twelve hours of flow do', () => {
    const stood = [...every10(0, 30), ...every10(30, 750, { mlPerMin: 0 }), ...every10(750, 770)];
    expect(run(night, stood).state.accepted).toBeUndefined();
    expect(run(night, stood).state.run).toMatchObject({ readings: 5, ms: 30 * minute });
    expect(run(night, every10(0, 720)).state.accepted).toBeUndefined();
    expect(run(night, every10(0, 730)).state.accepted?.run.ms).toBe(720 * minute);
  });

  test.each([13 * 60, 5 * 60, 60])('a clock that leaps by %i minutes adds no time', (leap) => {
    const leapt = [...every10(0, 60), ...every10(60, 70).map((one) => ({ ...one, time: one.time + leap * minute }))];
    expect(run(night, leapt).state.run).toMatchObject({ ms: 50 * minute });
  });

  test('where the host says when readings came in, no more counts than passed by its clock', () => {
    const came = (minutes: number, leap: number) => at(minutes + leap, { receivedAt: (10000 + minutes) * minute });
    const { state } = run(night, [came(0, 0), came(10, 0), came(20, 20), came(30, 20)]);
    // where it says so of one of two, their own times count
    expect(run(night, [came(0, 0), at(10)]).state.run?.ms).toBe(10 * minute);
    expect(run(night, [at(0), came(10, 0)]).state.run?.ms).toBe(10 * minute);
    expect(state.run).toMatchObject({ readings: 4, ms: 30 * minute });
  });

  test('a clock set back ends the run after three readings, after two where the host tells', () => {
    const back = (more: (i: number) => Partial<AcceptanceReading> = () => ({})) => [
      ...every10(1000, 1020).map((one, i) => ({ ...one, ...more(i) })),
      ...every10(0, 50).map((one, i) => ({ ...one, ...more(i + 2) })),
    ];
    const three = run(config, back());
    expect(three.told).toEqual([
      ...['counted', 'counted', 'not_counted', 'not_counted', 'restarted', 'counted', 'counted', 'accepted'],
    ]);
    expect(three.state.accepted?.lastRestart?.why).toBe('clock_set_back');
    const told = run(
      config,
      back((i) => ({ receivedAt: (10000 + i) * minute })),
    );
    expect(told.told).toEqual([
      ...['counted', 'counted', 'not_counted', 'restarted', 'counted', 'counted', 'accepted', 'after_acceptance'],
    ]);
  });

  test('a reading in six that is overtaken on its way sets no clock', () => {
    const sent = Array.from({ length: 60 }, (_x, i) =>
      reading(10 * i, { receivedAt: (10 * i + (i % 6 === 3 ? 11 : 0)) * minute }),
    );
    const { told } = run(
      config,
      sent.sort((a, b) => (a.receivedAt as number) - (b.receivedAt as number)),
    );
    expect(told).not.toContain('restarted');
    expect(told).toContain('accepted');
  });
});

describe('resumed', () => {
  const half = run(config, [reading(0), reading(10)]).state;
  const {
    version: _,
    of: __,
    ...old
  } = {
    ...half,
    run: { ...half.run, ms: undefined },
    time: half.time as number,
    litres: null,
    lastRestart: null,
    accepted: null,
    same: { print: 7, count: 1 },
  };

  const proof = run(config, [reading(0), reading(10), reading(20)]).state.accepted as AcceptanceRecord;

  /** The state half-way, or accepted, with other members of its run. */
  function broken(where: 'run' | 'accepted', more: object): object {
    if (where === 'run') return { ...half, run: { ...half.run, ...more } };
    const { run: _run, ...rest } = half;
    return { ...rest, accepted: { ...proof, run: { ...proof.run, ...more } } };
  }

  test('goes on as it was; a run half-way of version 0.1 goes on too', () => {
    const prepared = prepare(config);
    expect(resumeAcceptance(prepared, saved(half))).toEqual({
      ...{ state: half, events: [], kept: ['run', 'repeats'], dropped: [], added: [] },
    });
    const { state, kept, dropped } = resumeAcceptance(prepared, saved({ ...old, version: 1 } as never));
    expect([kept, dropped]).toEqual([['run'], ['repeats']]);
    expect(state.run?.ms).toBe(10 * minute);
    expect(advancePrepared(prepared, state, reading(20)).events[0]?.event).toBe('accepted');
  });

  test('a proof of version 0.1 goes on where it had not begun, had begun anew, or was there', () => {
    const prepared = prepare(config);
    const resume = (more: object) => resumeAcceptance(prepared, saved({ ...old, version: 1, ...more } as never));
    const fresh = startPrepared(prepared);
    const begun = resume({ time: null, run: null });
    expect(begun).toEqual({ state: fresh, events: [], kept: [], dropped: ['repeats'], added: [] });
    const restart = { time: 4, why: 'too long since the last good reading', text: '18/16/12' };
    const again = resume({ run: null, litres: 7, restarts: 1, lastRestart: restart }).state;
    const lastRestart = { ...restart, why: 'gap_too_long' };
    // how many readings there were is not known
    const { readings: _readings, ...tried } = fresh;
    expect(again).toEqual({ ...tried, time: half.time, litres: 7, restarts: 1, lastRestart });
    const { ms: _ms, ...bare } = proof.run;
    const { title: _title, edition: _edition, leftOut: _left, worst: _worst, began: _began, ...little } = proof;
    const ms = 20 * minute;
    for (const [before, now] of [
      [null, null],
      [restart, lastRestart],
    ]) {
      const there = resume({
        time: proof.run.to,
        run: null,
        accepted: { ...little, readings: undefined, run: bare, lastRestart: before },
      });
      const unknown = { readings: null, began: null };
      expect(there.state.accepted).toEqual({ ...proof, ...unknown, run: { ...bare, ms }, lastRestart: now });
      expect([there.kept, there.dropped]).toEqual([['record'], ['repeats']]);
    }
  });

  test('the words of version 0.1 for why a run ended are those of now', () => {
    const late = 'too long since the last good reading';
    const words = ['worse than target', 'counts stuck', late, 'volume counter ran back'];
    const now = words.map((why) => {
      const lastRestart = { time: 0, why, text: null };
      return resumeAcceptance(prepare(config), saved({ ...old, version: 1, lastRestart } as never)).state.lastRestart;
    });
    const expected = ['worse_than_target', 'counts_stuck', 'gap_too_long', 'volume_counter_ran_back'];
    expect(now).toEqual(expected.map((why) => ({ time: 0, why, text: null })));
  });

  test('a clock set back after version 0.1 was left, of which no counts are known', () => {
    const prepared = prepare(config);
    let state = resumeAcceptance(prepared, saved({ ...old, version: 1 } as never)).state;
    const told = [-30, -20, -10].flatMap((minutes) => {
      const step = advancePrepared(prepared, state, reading(minutes));
      state = step.state;
      return step.events.map(({ event, why }) => why ?? event);
    });
    expect(told).toEqual(['not_newer', 'not_newer', 'clock_set_back', 'counted']);
    expect(state).toMatchObject({ time: -10 * minute, run: { readings: 1 }, repeats: { known: 1 } });
  });

  test.each([
    ['state', null],
    ['state.run', { ...half, accepted: proof }],
    ['state.accepted.run', { ...broken('accepted', { ms: 1e9 }) }],
    ['state.accepted.run', { ...broken('accepted', { fewParticles: 4 }) }],
    ['state.accepted.run.margins', { ...broken('accepted', { margins: [] }) }],
    ['state.accepted.run', { ...old, version: 1, run: null, accepted: { ...proof, run: null } }],
    ['state.accepted.lastRestart', { ...old, version: 1, run: null, accepted: { ...proof, lastRestart: undefined } }],
    ['state.run.margins', { ...broken('run', { margins: half.run?.margins.slice(1) }) }],
    ['state.time', { ...broken('run', {}), run: undefined, older: { count: 1, time: 0 }, time: undefined }],
    ['state.run', { ...old, version: 1, run: 5 }],
    ['state.run.fewParticles', { ...old, version: 1, run: {} }],
    ['state.accepted', { ...old, version: 1, run: null, accepted: 5 }],
    ['state.accepted.lastRestart', { ...old, version: 1, run: null, accepted: { lastRestart: 5 } }],
    ['state.lastRestart', { ...old, version: 1, lastRestart: 5 }],
    ['state.version', { ...half, version: -1 }],
    ['state', { ...half, version: 3 }],
    ['state.notCounted', { ...half, notCounted: 0.5 }],
    ['state.run.margins', { ...half, run: { ...half.run, margins: 7 } }],
    ['state.run', { ...half, run: { ...half.run, ms: 1e9 } }],
    ['state.run', { ...half, run: { ...half.run, fewParticles: 9 } }],
    ['state.repeats', { ...half, repeats: { ...half.repeats, runs: [1] } }],
    ['state.time', { ...half, time: undefined }],
    ['state.more', { ...half, more: 1 }],
    ['state', { ...half, print: 5 }],
    ['state.lastRestart.why', { ...old, version: 1, lastRestart: { time: 0, why: 'x', text: null } }],
    ['state', { ...old, version: 1, print: 5 }],
  ])('%s is refused where it is damaged or of another proof', (parameter, state) => {
    expect(() => resumeAcceptance(prepare(config), state)).toThrow(
      expect.objectContaining({ code: 'bad_state', parameter }),
    );
  });

  test('what is told of members that do not agree', () => {
    for (const [state, words] of [
      [{ ...half, repeats: { ...half.repeats, runs: [1] } }, 'counts, as a state keeps them'],
      [broken('run', { ms: 1e9 }), 'a run whose parts agree, as a state keeps it'],
      [broken('run', { margins: [] }), 'margins at the 3 sizes of the target, as a state keeps them'],
      [{ ...half, time: undefined }, 'the time of the last reading, as a state keeps it'],
      [{ ...broken('accepted', {}), run: half.run }, 'no run beside a record'],
      [{ ...half, version: 3 }, 'the version, which resumeAcceptance brings: 2'],
      [{ ...half, print: 5 }, 'the state of this proof (iso4406 18/16/13: 3 readings, 0 ms, 0 L)'],
    ] as const)
      expect(() => resumeAcceptance(prepare(config), state)).toThrow(`expected ${words}`);
    for (const [state, received] of [
      [{ ...half, notCounted: 0.5 }, '0.5'],
      [broken('run', { margins: [] }), 'an array of 0'],
      [{ ...half, time: undefined }, 'undefined'],
      [{ ...half, print: 5 }, `'${half.of}'`],
      [{ ...old, version: 1, print: 5 }, '5'],
    ] as const)
      expect(() => resumeAcceptance(prepare(config), state)).toThrow(expect.objectContaining({ received }));
    const whole = { ms: 10 * minute, fewParticles: 2 };
    expect(resumeAcceptance(prepare(config), broken('run', whole)).state.run).toMatchObject(whole);
  });

  test('a run that did not begin at 0, and a target without one of the sizes', () => {
    const later = run({ ...config, target: '18/-/13' }, [reading(10), reading(20)]).state;
    const prepared = prepare({ ...config, target: '18/-/13' });
    expect(later.run?.margins).toHaveLength(2);
    expect(resumeAcceptance(prepared, saved(later)).kept).toEqual(['run', 'repeats']);
    const longer = { ...later, run: { ...later.run, ms: 10 * minute + 1 } };
    expect(() => resumeAcceptance(prepared, longer)).toThrow('a run whose parts agree, as a state keeps it');
    const { ms: _ms, ...bare } = later.run as { ms: number };
    const first = { ...old, print: later.print, version: 1, time: later.time, run: bare };
    expect(resumeAcceptance(prepared, saved(first as never)).state.run?.ms).toBe(10 * minute);
  });

  test('a configuration that was not prepared', () => {
    for (const one of [config, null, { ...prepare(config), version: '0.0.1' }]) {
      expect(() => startPrepared(one as never)).toThrow(expect.objectContaining({ code: 'not_prepared' }));
      expect(() => advancePrepared(one as never, half, reading(20))).toThrow(
        expect.objectContaining({ code: 'not_prepared' }),
      );
      expect(() => resumeAcceptance(one as never, half)).toThrow(expect.objectContaining({ code: 'not_prepared' }));
    }
  });

  test('a code of the own table may come, though its id is that of no standard', () => {
    const own = { ...iso4406, id: 'own' };
    const coded = { time: 0, codes: { own: '18/16/13' } };
    expect(run({ ...config, table: own }, [coded]).told).toEqual(['counted']);
    expect(() => run(config, [coded])).toThrow(expect.objectContaining({ code: 'unknown_option' }));
  });

  test('a table by its id comes from those handed in', () => {
    const named = { ...config, table: 'iso4406' };
    expect(prepareAcceptance(named, { tables: codes.standardTables }).print).toBe(prepare(config).print);
    expect(prepareAcceptance({ ...named, tables: [iso4406] }).code.table.id).toBe('iso4406');
    expect(prepareAcceptance(config).tableIds).toEqual(standardIds);
    expect(() => prepareAcceptance(named, { tabels: [] } as never)).toThrow(
      expect.objectContaining({ code: 'unknown_option', parameter: 'options.tabels' }),
    );
    expect(() => prepareAcceptance(named, { tables: 5 } as never)).toThrow(
      expect.objectContaining({ code: 'wrong_type', parameter: 'options.tables' }),
    );
    expect(() => prepareAcceptance({ ...config, tables: 5 as never })).toThrow('expected class tables');
    expect(() => prepareAcceptance(named)).toThrow(
      expect.objectContaining({ problems: [expect.objectContaining({ path: ['table'] })] }),
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
      maxGapMs: 0,
      limits: { x: 1, leastKPa: 'a' },
      n: 3,
    };
    try {
      prepareAcceptance(bad as never);
      expect.unreachable();
    } catch (error) {
      expect(problemsOf(error).map(({ path }) => path.join('.'))).toEqual([
        ...['n', 'readings', 'leastMs', 'leastLitres', 'maxGapMs', 'limits.x', 'limits.leastKPa', 'target'],
      ]);
    }
    expect(() => prepareAcceptance({ ...config, target: '18' })).toThrow(
      expect.objectContaining({ problems: [expect.objectContaining({ path: ['target'], code: 'bad_code' })] }),
    );
    expect(() => startAcceptance(null as never)).toThrow(expect.objectContaining({ code: 'bad_configuration' }));
  });

  test('limits that contradict each other are told beside other mistakes', () => {
    try {
      prepareAcceptance({ ...config, readings: 1, limits: { celsius: { low: 80, high: 5 } } });
      expect.unreachable();
    } catch (error) {
      expect(problemsOf(error).map(({ path }) => path.join('.'))).toEqual([
        'readings',
        expect.stringMatching(/^limits\.celsius/),
      ]);
    }
  });

  test.each<[string, object, string]>([
    ['table', { table: 5 }, 'a class table'],
    ['table', { table: undefined }, 'a class table'],
    ['target', { target: 5 }, 'a code of the table'],
    ['target', { target: '' }, 'a code of the table'],
    ['columns', { columns: 5 }, 'labels of columns'],
    ['readings', { readings: 10001 }, 'a whole number of readings from 2 to 10000'],
  ])('one mistake is told once: %s %j', (place, more, words) => {
    try {
      prepareAcceptance({ ...config, ...more } as never);
      expect.unreachable();
    } catch (error) {
      expect(problemsOf(error)).toMatchObject([{ path: [place], expected: expect.stringContaining(words) }]);
    }
  });

  const fresh = startAcceptance(config);
  const needsLitres = { ...config, leastLitres: 5 };
  test.each([
    ['bad_state', config, null, reading(0)],
    ['bad_state', config, { ...fresh, version: 0 }, reading(0)],
    ['wrong_type', config, fresh, { time: 0, counts: {} }],
    ['missing_volume', needsLitres, startAcceptance(needsLitres), reading(0)],
    ['bad_state', needsLitres, fresh, reading(0, { litres: 5 })],
    ['negative', config, fresh, reading(0, { litres: -1 })],
    ['wrong_type', config, fresh, null],
    ['wrong_type', config, fresh, { counts: met }],
    ['negative', config, fresh, reading(0, { kPa: 240, flushedMl: -2 })],
    ['bad_configuration', { ...config, readings: 2.5 }, fresh, reading(0)],
  ])('%s', (code, of, state, input) => {
    expect(() => advanceAcceptance(of as never, state as never, input as never)).toThrow(
      expect.objectContaining({ code }),
    );
  });
});

describe('an event in words', () => {
  const event = { time: 0, event: 'not_counted', text: '18/16/13', quality: 'good', outcome: null } as const;

  test.each<[string, object, string]>([
    ['counted', {}, 'Counted: 18/16/13.'],
    ['accepted', {}, 'The target is shown to be met; the last reading: 18/16/13.'],
    ['after_acceptance', {}, 'The target is proved already: this reading changes nothing.'],
    ['restarted', { why: 'worse_than_target' }, 'The run ends: this reading is worse than the target (18/16/13).'],
    ['restarted', { why: 'counts_stuck' }, 'The run ends: the counts no longer change, so they are not measured.'],
    ['restarted', { why: 'gap_too_long' }, 'The run ends: too long since the last good reading.'],
    ['restarted', { why: 'volume_counter_ran_back' }, 'The run ends: the volume counter ran back.'],
    ['restarted', { why: 'clock_set_back' }, 'The run ends: the clock was set back.'],
    ['not_counted', { why: 'worse_than_target', text: null }, 'Not counted: worse than the target (-).'],
    ['not_counted', { why: 'not_known', missing: ['4', '14'] }, 'Not counted: nothing is known at 4, 14.'],
    ['not_counted', { why: 'few_counted', missing: ['14'] }, 'Not counted: too few particles to be sure at 14.'],
    ['not_counted', { why: 'no_code', reason: 'no counts' }, 'Not counted: no counts.'],
    ['not_counted', { why: 'no_code' }, 'Not counted: .'],
    ['not_counted', { why: 'not_known' }, 'Not counted: nothing is known at .'],
    ['not_counted', { why: 'not_newer' }, 'Not counted: not newer than the last reading.'],
    ['not_counted', { why: 'uncertain', findings: [] }, 'Not counted, the reading is uncertain. '],
    // a word of a later version stands for itself
    ['restarted', { why: 'oil_changed' }, 'oil_changed'],
    ['not_counted', {}, ''],
  ])('%s %j', (word, more, text) => {
    expect(acceptanceText({ ...event, event: word, ...more } as never)).toBe(text);
  });

  test('several findings stand one after the other', () => {
    const { events } = run(config, [reading(0, { mlPerMin: 0, kPa: 100 })]);
    const [first, second] = (events[0]?.findings ?? []).map((one) => findingText(one));
    expect(first).toMatch(/^No oil flows/);
    const all = acceptanceText(events[0] as AcceptanceEvent);
    expect(all).toBe(`Not counted, the reading is bad. ${first} ${second}`);
    const lists = { findings: 'an array of findings', missing: 'an array of columns' };
    for (const [name, words] of Object.entries(lists))
      expect(() => acceptanceText({ ...event, [name]: 5 } as never)).toThrow(`expected ${words}`);
  });

  test.each<[string, string, unknown]>([
    ['wrong_type', 'event', null],
    ['unknown_option', 'event.whi', { ...event, whi: 1 }],
    ['unknown_option', 'event.event', { ...event, event: 'refused' }],
    ['wrong_type', 'event.why', { ...event, why: 5 }],
    ['wrong_type', 'event.reason', { ...event, reason: null }],
    ['wrong_type', 'event.text', { ...event, text: 18 }],
    ['wrong_type', 'event.findings', { ...event, findings: {} }],
    ['wrong_type', 'event.missing', { ...event, missing: '14' }],
    ['wrong_type', 'event.missing[1]', { ...event, missing: ['4', 14] }],
  ])('%s at %s', (code, parameter, bad) => {
    expect(() => acceptanceText(bad as never)).toThrow(expect.objectContaining({ code, parameter }));
  });
});
