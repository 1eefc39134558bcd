/**
 * A machine watched reading by reading: each thing it says once by example, and the laws of its state on random
 * histories.
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type AlarmConfig, advanceAlarm, prepareAlarm, startAlarm } from '../../../src/alarm/index.ts';
import { as4059Differential, iso4406, nas1638 } from '../../../src/codes/index.ts';
import { type CumulativeCounts, cumulativeCounts } from '../../../src/counts/index.ts';
import { openChange } from '../../../src/monitor/followed/means.ts';
import {
  type ChangeEvent,
  type FollowedFigure,
  type MonitorConfig,
  type MonitorEvent,
  type MonitorInput,
  type MonitorState,
  mostStateBytes,
  problemsOf,
  type Verdict,
} from '../../../src/monitor/index.ts';
import { shorten } from '../../../src/numeric/shorten.ts';
import { findingText, type TimedReading } from '../../../src/reading/index.ts';
import { repeatsBytes } from '../../../src/reading/remembered/repeatsState.ts';
import { advanceChange, autocorrelatedTrend, prepareChange, startChange } from '../../../src/trend/index.ts';
import { some } from '../../volume.ts';
import { advanceMonitor, prepared, startMonitor, stateBytes } from '../watched.ts';

const minute = 60000;
const hour = 60 * minute;
const day = 24 * hour;

const at = (four: number, six: number, fourteen: number): CumulativeCounts =>
  cumulativeCounts({ 4: four * 10, 6: six * 10, 14: fourteen * 10 }, { volumeMl: 10 });
const clean = at(1890, 402, 33);
/** Its particles are no shown figure times the volume. */
const still = cumulativeCounts({ 4: 18901, 6: 4021, 14: 331 }, { volumeMl: 10 });
/** A reading that nothing is wrong with. */
const reading = (time: number, more: Partial<TimedReading> = {}): TimedReading => ({
  time,
  counts: clean,
  kPa: 800,
  ...more,
});

const config: MonitorConfig = {
  codes: [{ table: iso4406, target: '18/16/13' }, { table: nas1638 }],
  alarms: [
    { id: 'code', type: 'high', figure: { code: 'iso4406' }, setpoint: '18/16/13', deadband: 1 },
    { id: 'hot', type: 'high', figure: { quantity: 'celsius' }, setpoint: 65, deadband: 3 },
    { id: 'rise', type: 'rise', figure: { scaleNumberAt: 6 }, setpoint: 2, withinMs: day },
  ],
  follow: [{ id: '6 µm', figure: { continuousScaleNumberAt: 6 }, blockMs: hour, blocks: 10 }],
  staleAfterMs: hour,
  // the same counts come again and again here
  limits: { stuckChance: null },
};

function run(
  of: MonitorConfig,
  inputs: readonly MonitorInput[],
  between: (state: MonitorState) => MonitorState = (s) => s,
) {
  let state = startMonitor(of);
  const events: MonitorEvent[] = [];
  const verdicts: Verdict[] = [];
  for (const input of inputs) {
    const step = advanceMonitor(of, between(state), input);
    state = step.state;
    events.push(...step.events);
    if (step.verdict !== null) verdicts.push(step.verdict);
  }
  return { state, events, verdicts, last: verdicts[verdicts.length - 1] as Verdict };
}

const saved = (state: MonitorState): MonitorState => JSON.parse(JSON.stringify(state));
const told = (events: readonly MonitorEvent[]) =>
  events.map((e) => `${e.time} ${e.event}${'alarm' in e ? ` ${e.alarm}` : ''}`);

describe('whole figures: the setpoint lies half a class beyond itself', () => {
  const course = (alarm: object, sixes: readonly number[]) => {
    const of: MonitorConfig = {
      codes: [{ table: iso4406 }],
      alarms: [{ id: 'dirty', type: 'high', ...alarm } as never],
      limits: { stuckChance: null },
    };
    const inputs = sixes.map((six, i) => reading(i * minute, { counts: at(5000, six, 33) }));
    return told(run(of, inputs).events);
  };
  const [at17, at16, at15] = [1000, 500, 200];

  test.each([
    ['a code', { figure: { code: 'iso4406' }, setpoint: '-/16/-' }],
    ['a scale number', { figure: { scaleNumberAt: 6 }, setpoint: 16 }],
    ['a scale number, between two', { figure: { scaleNumberAt: 6 }, setpoint: 16.4 }],
  ])('%s', (_name, alarm) => {
    expect(course(alarm, [at16, at17, at16])).toEqual(['60000 raised dirty', '120000 returned dirty']);
    const one = { ...alarm, deadband: 1 };
    expect(course(one, [at17, at16, at15])).toEqual(['0 raised dirty', '120000 returned dirty']);
  });

  test('a low scale number, mirrored', () => {
    const alarm = { type: 'low', figure: { scaleNumberAt: 6 }, setpoint: 16, deadband: 1 };
    expect(course(alarm, [at16, at15, at16, at17])).toEqual(['60000 raised dirty', '180000 returned dirty']);
  });
});

describe('a verdict', () => {
  test('codes, target and margins at each size', () => {
    const { last } = run(config, [reading(0, { counts: at(1890, 702, 33) })]);
    expect(last).toMatchObject({ time: 0, arrival: 'in_order', quality: 'good', inTarget: false });
    expect(last.codes.map(({ table, text }) => [table, text])).toEqual([
      ['iso4406', '18/17/12'],
      ['nas1638', '9 or dirtier'],
    ]);
    expect(last.codes[0]?.outcome?.margins).toEqual([
      { column: '4', classes: 0 },
      { column: '6', classes: -1 },
      { column: '14', classes: 1 },
    ]);
    expect(last.alarms).toEqual([
      { id: 'code', state: 'unacknowledged_alarm', judged: true },
      { id: 'hot', state: 'normal', judged: false },
      { id: 'rise', state: 'normal', judged: true },
    ]);
  });

  test.each([
    ['met', clean, '18/16/13', true],
    ['not met', clean, '17/16/13', false],
    ['a size of the target not counted', cumulativeCounts({ 4: 18900, 6: 4020 }, { volumeMl: 10 }), '18/16/13', null],
    ['no target', clean, undefined, null],
  ])('in target or not: %s', (_name, counts, target, expected) => {
    const of = { codes: [target === undefined ? { table: iso4406 } : { table: iso4406, target }] };
    expect(run(of, [reading(0, { counts })]).last.inTarget).toBe(expected);
  });

  test('bad counts are told and move no alarm and no trend of theirs', () => {
    const bad = reading(minute, { counts: at(90000, 40000, 3000), celsius: 99, mlPerMin: 0 });
    const { last, events, state } = run(config, [reading(0, { celsius: 40 }), bad]);
    expect(last).toMatchObject({ quality: 'bad', inTarget: null });
    expect(last.findings.map(({ code }) => code)).toEqual(['no_flow']);
    expect(last.codes[0]?.text).toBe('24/22/19');
    // the thermometer needs no flow
    expect(last.figureQualities).toEqual({ counts: 'bad', mlPerMin: 'good', kPa: 'good', celsius: 'good' });
    expect(last.alarms.map(({ id, judged }) => [id, judged])).toEqual([
      ['code', false],
      ['hot', true],
      ['rise', false],
    ]);
    expect(told(events)).toEqual([`${minute} raised hot`, `${minute} quality_bad`]);
    expect(state.arrivals).toEqual({ inOrder: 2, bad: 1, late: 0, tooLate: 0, repeated: 0, setAside: 0 });
    expect(state.followed[0]?.open?.count).toBe(1);
  });

  test('counts that a table cannot classify have a reason instead of a code', () => {
    const { last, events } = run(config, [
      reading(0, { counts: cumulativeCounts({ 21: 500, 38: 90 }, { volumeMl: 10 }) }),
    ]);
    expect(last.codes[0]).toMatchObject({ text: null, classification: null, outcome: null });
    expect(last.codes[0]?.reason).toMatch(/^counts.sizes: received/);
    expect(last.inTarget).toBe(null);
    expect(events).toEqual([]);
  });

  test('counts that rise with size have no code', () => {
    const { sizing, sizes } = clean;
    const rising = { sizing, sizes, perMl: [100, 200, 33] };
    const { last } = run(config, [reading(0, { counts: rising })]);
    expect(last).toMatchObject({ quality: 'bad', inTarget: null });
    expect(last.codes).toMatchObject([
      { text: null, reason: 'counts rise with size', target: '18/16/13' },
      { text: null },
    ]);
  });

  test('values stuck are found across a restart, with nothing but the last counts remembered', () => {
    const inputs = [0, 1, 2, 3, 4, 5].map((i) => reading(i * minute, { counts: i < 5 ? still : at(1891, 403, 34) }));
    const { verdicts } = run({ ...config, limits: {} }, inputs, saved);
    expect(verdicts.map(({ quality }) => quality)).toEqual(['good', 'good', 'bad', 'bad', 'bad', 'good']);
    expect(verdicts.map(({ unchecked }) => unchecked.includes('values_stuck'))).toEqual([
      ...[true, true, false, false, false, false],
    ]);
  });

  test('counts that are stuck are found though the temperature lives; few particles that repeat are not judged', () => {
    const warming = (counts: CumulativeCounts) =>
      [0, 1, 2, 3, 4, 5].map((i) => reading(i * minute, { counts, celsius: 40 + i }));
    const judged = { ...config, limits: {} };
    const { verdicts, state } = run(judged, warming(still), saved);
    expect(verdicts.map(({ quality }) => quality)).toEqual(['good', 'good', 'bad', 'bad', 'bad', 'bad']);
    expect(verdicts[5]?.findings.map((finding) => findingText(finding))[0]).toMatch(
      /^The last 6 readings have the same counts/,
    );
    expect(state.repeats?.runs).toEqual([6, 6, 6]);
    for (const few of [
      [4, 1, 0],
      [0, 0, 0],
      [10, 5, 1.3],
    ]) {
      const counts: CumulativeCounts = { sizing: 'iso11171', sizes: [4, 6, 14], perMl: few };
      for (const { quality, unchecked } of run(judged, warming(counts)).verdicts) {
        expect(quality).toBe('good');
        expect(unchecked).toContain('values_stuck');
      }
    }
  });

  test('of a reading out of order it is not known whether its counts were stuck', () => {
    const { verdicts } = run(
      config,
      [0, 1, 2, 4, 5, 6, 3].map((i) => reading(i, { counts: i === 6 ? at(1891, 402, 33) : clean })),
    );
    const last = verdicts[6];
    expect(last).toMatchObject({ arrival: 'late', quality: 'good' });
    expect(last?.unchecked).toContain('values_stuck');
  });
});

describe('alarms', () => {
  test('on a code: raised when one size is a class above it, back when all are a class below', () => {
    const { events } = run(config, [
      reading(0),
      reading(1, { counts: at(1890, 700, 33) }),
      reading(2, { counts: clean }),
      reading(3, { counts: at(1200, 300, 30) }),
    ]);
    expect(told(events)).toEqual(['1 raised code', '3 returned code']);
    expect(events[0]).toMatchObject({ value: 1, code: '18/17/12' });
  });

  test('on another code than the target', () => {
    const alarms = [{ id: 'worse', type: 'high', figure: { code: 'iso4406' }, setpoint: '19/17/14' }] as const;
    const values = [702, 1402].map((six, i) => reading(i, { counts: at(1890, six, 33) }));
    expect(told(run({ ...config, alarms }, values).events)).toEqual(['1 raised worse']);
  });

  test('on each kind of figure', () => {
    const alarm = { type: 'high', setpoint: 0.1 } as const;
    const of: MonitorConfig = {
      codes: [],
      alarms: [
        { ...alarm, id: 'a', figure: { perMlAt: 6 } },
        { ...alarm, id: 'b', figure: { scaleNumberAt: 6 } },
        { ...alarm, id: 'c', figure: { continuousScaleNumberAt: 6 } },
        { ...alarm, id: 'd', figure: { quantity: 'waterSaturation' } },
        { ...alarm, id: 'e', figure: { other: 'acid number' } },
        { ...alarm, id: 'f', figure: { perMlAt: 21 } },
        { ...alarm, id: 'g', figure: { other: 'toString' } },
      ],
    };
    const { events } = run(of, [reading(0, { waterSaturation: 0.4, others: { 'acid number': 0.6 } })]);
    const found = events.map((e) => ('alarm' in e ? [e.alarm, e.value] : []));
    expect(found.slice(0, 2)).toEqual([
      ['a', 402],
      ['b', 16],
    ]);
    expect(found[2]?.[1]).toBeCloseTo(15.33, 2);
    expect(found.slice(3)).toEqual([
      ['d', 0.4],
      ['e', 0.6],
    ]);
  });

  test('the same as advanceAlarm on the readings in order', () => {
    const values = fc.array(
      fc.tuple(fc.nat({ max: 300 }), fc.double({ min: 55, max: 75, noNaN: true }), fc.boolean()),
      { maxLength: 40 },
    );
    const hot: AlarmConfig = {
      id: 'hot',
      type: 'high',
      setpoint: 65,
      deadband: 3,
      onDelayMs: 200,
      latching: true,
      staleAfterMs: 500,
    };
    fc.assert(
      fc.property(values, (list) => {
        const limits = { stuckChance: null };
        const of: MonitorConfig = { codes: [], limits, alarms: [{ ...hot, figure: { quantity: 'celsius' } }] };
        let time = 0;
        const inputs = list.map(([after, celsius, flows], i) => {
          time += after + 1;
          return reading(time, { celsius, mlPerMin: flows ? 50 : 0, counts: at(1890 + i, 402, 33) });
        });
        const alone = prepareAlarm(hot);
        let alarm = startAlarm(alone);
        const expected = inputs.flatMap((r) => {
          const step = advanceAlarm(alone, alarm, { time: r.time, value: r.celsius as number, quality: 'good' });
          alarm = step.state;
          return step.events;
        });
        const own = run(of, inputs).events.filter((e) => 'alarm' in e);
        expect(own).toEqual(expected.map((e) => (e.event === 'raised' ? { ...e, figure: 'celsius' } : e)));
      }),
      { numRuns: some(100, 40) },
    );
  });

  test('commands go to one alarm, in order of time', () => {
    const { events, state } = run(config, [
      reading(0, { celsius: 70 }),
      { kind: 'command', time: 1, alarm: 'hot', command: 'acknowledge' },
      { kind: 'command', time: 2, alarm: 'hot', command: 'shelve', forMs: 10 },
      { kind: 'command', time: 1, alarm: 'code', command: 'reset' },
      { kind: 'tick', time: 20 },
    ]);
    expect(told(events)).toEqual([
      '0 raised hot',
      '1 acknowledged hot',
      '2 shelved hot',
      '2 refused code',
      '12 unshelved hot',
      '12 raised hot',
    ]);
    expect(state.time).toBe(20);
    expect(() => advanceMonitor(config, state, { kind: 'command', time: 21, alarm: 'cold', command: 'reset' })).toThrow(
      expect.objectContaining({ code: 'unknown_option', parameter: 'input.alarm' }),
    );
  });
});

describe('how readings come', () => {
  test('late: a verdict, the alarms it lies beyond, the open block, and no alarm taken back', () => {
    const late = reading(minute, { celsius: 80, counts: at(1890, 702, 33) });
    const { events, last, state } = run(config, [reading(0), reading(2 * minute, { celsius: 50 }), late]);
    expect(events).toEqual([
      { time: 2 * minute, event: 'late', reading: minute, beyond: ['code', 'hot'], followed: ['6 µm'] },
    ]);
    expect(last).toMatchObject({ arrival: 'late', inTarget: false });
    expect(state).toMatchObject({ time: 2 * minute, arrivals: { inOrder: 2, late: 1 } });
    expect(state.followed[0]?.open?.count).toBe(3);
    expect(run(config, [reading(2 * hour), reading(hour)]).events).toMatchObject([{ event: 'late', followed: [] }]);
  });

  test('a late reading on a setpoint does not lie beyond it', () => {
    const of: MonitorConfig = {
      codes: [],
      alarms: (['high', 'low'] as const).map((type) => ({
        id: type,
        type,
        figure: { quantity: 'celsius' },
        setpoint: 65,
      })),
    };
    const beyond = (celsius: number) =>
      run(of, [
        reading(0),
        { kind: 'tick', time: 2 * minute },
        reading(3 * minute, { celsius: 65 }),
        reading(minute, { celsius }),
      ]).events;
    expect(beyond(65)).toMatchObject([{ event: 'late', beyond: [] }]);
    expect(beyond(65.1)).toMatchObject([{ event: 'late', beyond: ['high'] }]);
    expect(beyond(64.9)).toMatchObject([{ event: 'late', beyond: ['low'] }]);
  });

  test('late bad counts lie beyond nothing and enter nothing; the temperature beside them is good', () => {
    const late = reading(minute, { celsius: 80, mlPerMin: 0 });
    expect(run(config, [reading(2 * minute), late]).events).toMatchObject([
      { event: 'late', beyond: ['hot'], followed: [] },
    ]);
  });

  test('repeated, with the same figures or others: the first stands', () => {
    const first = run(config, [reading(0), reading(minute)]);
    const again = run(config, [
      reading(0),
      reading(minute),
      reading(0),
      reading(minute),
      reading(minute, { kPa: 900 }),
    ]);
    expect(again.events).toEqual([
      { time: minute, event: 'repeated', reading: 0 },
      { time: minute, event: 'repeated', reading: minute },
      { time: minute, event: 'contradicted', reading: minute, beyond: [] },
    ]);
    expect(again.state).toEqual({ ...first.state, arrivals: { ...first.state.arrivals, repeated: 3 } });
    const late = run(config, [reading(5), reading(4), reading(4)]);
    expect(late.events.map((e) => e.event)).toEqual(['late', 'repeated']);
  });

  test('older than the last sixteen: told, and entered nowhere', () => {
    const many = Array.from({ length: 17 }, (_x, i) => reading(i * 1000 + 1000, { counts: at(1890 + i, 402, 33) }));
    const { events, last, state } = run(config, [...many, reading(500, { celsius: 70 })]);
    expect(events).toEqual([{ time: 17000, event: 'too_late', reading: 500, beyond: ['hot'], followed: [] }]);
    expect(last.arrival).toBe('too_late');
    expect(state.arrivals.tooLate).toBe(1);
    expect(state.followed[0]?.open?.count).toBe(17);
  });

  test('stale at its own time, restored by a usable reading', () => {
    const { events } = run(config, [
      reading(0),
      { kind: 'tick', time: hour },
      { kind: 'tick', time: 2 * hour },
      reading(3 * hour, { mlPerMin: 0 }),
      reading(4 * hour),
    ]);
    // its pressure can be relied on, its counts cannot
    const ofReadings = events.filter((event) => !('alarm' in event));
    expect(told(ofReadings)).toEqual([
      `${hour} readings_stale`,
      `${3 * hour} readings_restored`,
      `${3 * hour} quality_bad`,
      `${4 * hour} quality_restored`,
    ]);
    expect(ofReadings[2]).toMatchObject({ figure: 'counts', findings: ['no_flow'] });
    expect(run(config, [reading(0), { kind: 'tick', time: hour }, reading(hour)]).events).toEqual([]);
  });

  test('a reading that a command or a time has overtaken is in order, and counts as of then', () => {
    const { events, state, last } = run(config, [
      reading(0),
      { kind: 'command', time: 3 * minute, alarm: 'hot', command: 'remove_from_service' },
      { kind: 'command', time: 2 * minute, alarm: 'hot', command: 'return_to_service' },
      reading(minute, { celsius: 80 }),
      { kind: 'tick', time: 2 * minute },
    ]);
    expect(told(events).slice(1)).toEqual([`${3 * minute} returned_to_service hot`, `${3 * minute} raised hot`]);
    expect(last).toMatchObject({ time: minute, arrival: 'in_order' });
    expect(state).toMatchObject({ time: 3 * minute, arrivals: { inOrder: 2, late: 0 } });
  });
});

describe('a followed figure', () => {
  const of: MonitorConfig = {
    limits: { stuckChance: null },
    clockJumpMs: 1e12,
    codes: [],
    follow: [{ id: 'x', figure: { other: 'x' }, blockMs: hour, blocks: 12 }],
  };
  const hourly = (values: readonly number[]) =>
    values.map((x, i) => reading(i * hour, { others: { x }, counts: at(1890 + i, 402, 33) }));

  test('the rolling trend is that of the last closed blocks, gaps and all, per day', () => {
    const values = [9, 9, 9, 3, 1, 4, 1.5, 5, 9, 2, 6, 5.5, 3.5, 5, 8, 9];
    const inputs = hourly(values).filter((_r, i) => i !== 3 && i !== 7);
    const { last } = run(of, inputs);
    // twelve blocks back from the last closed one, the first of which has no reading
    const blocks = values.map((value, i) => (i === 7 ? null : value)).slice(4, 15);
    const { slope, low, high, p, verdict } = autocorrelatedTrend(blocks);
    const { trend } = last.trends[0] as Verdict['trends'][number];
    expect(trend).toMatchObject({ from: 4 * hour, to: 15 * hour, blocks: 10, direction: verdict });
    expect(trend?.perDay).toBeCloseTo(24 * slope, 5);
    expect(trend?.low).toBeCloseTo(24 * (low as number), 4);
    expect(trend?.high).toBeCloseTo(24 * (high as number), 4);
    expect(trend?.p).toBeCloseTo(p as number, 5);
  });

  test.each([
    [1, 'rising'],
    [-1, 'falling'],
  ])('direction %d', (sign, direction) => {
    const { last } = run(of, hourly(Array.from({ length: 14 }, (_x, i) => sign * i)));
    expect(last.trends[0]?.trend).toMatchObject({ direction, perDay: 24 * sign });
  });

  test('no trend before eight blocks have closed', () => {
    expect(run(of, hourly([1, 2, 3, 4, 5, 6, 7, 8])).last.trends).toEqual([{ id: 'x', trend: null }]);
    expect(run(of, hourly([1, 2, 3, 4, 5, 6, 7, 8, 9])).last.trends[0]?.trend?.blocks).toBe(8);
  });

  const stepped = Array.from({ length: 60 }, (_x, i) => 17 + (i % 3) / 20 + (i >= 50 ? 1 : 0));
  const detecting = { ...of, follow: [{ ...(of.follow?.[0] as FollowedFigure), least: 0.5 }] };

  test('a change of level is found as advanceChange finds it, at the end of the block that decides', () => {
    const { events } = run(detecting, hourly(stepped));
    const detector = prepareChange({ least: 0.5 });
    let change = startChange();
    const expected = stepped.slice(0, -1).flatMap((value, day) => {
      const step = advanceChange(detector, change, { day, value: shorten(value) });
      change = step.state;
      if (step.change === null) return [];
      const { kind, direction, since, before, after } = step.change;
      const told = { kind, direction, since: (since as number) * hour, before: shorten(before), after: shorten(after) };
      return [{ time: (day + 1) * hour, event: 'change_found', followed: 'x', figure: 'other x', ...told }];
    });
    expect(expected).toHaveLength(1);
    expect(events).toEqual(expected);
  });

  test('a level that has crept has no date, and says how long its mean is of', () => {
    // worn from block 40 on
    const worn = Array.from({ length: 400 }, (_x, i) => 17 + (i % 3) / 20 + Math.max(0, i - 40) / 100);
    const told = run(detecting, hourly(worn)).events as ChangeEvent[];
    expect([...new Set(told.map(({ kind }) => kind))].sort()).toEqual(['slow']);
    for (const { since, meanOverMs, time, after } of told) {
      expect([since, meanOverMs]).toEqual([null, 14 * hour]);
      const last = worn.slice(time / hour - 14, time / hour);
      expect(after).toBeCloseTo(last.reduce((sum, value) => sum + value, 0) / 14, 4);
    }
    const slower = Array.from({ length: 400 }, (_x, i) => 17 + (i % 3) / 20 + Math.max(0, i - 40) / 280);
    const drift = run(detecting, hourly(slower)).events as ChangeEvent[];
    expect(drift.map(({ kind, since, meanOverMs }) => [kind, since, meanOverMs])).toContainEqual([
      'drift',
      null,
      28 * hour,
    ]);
  });

  test('a figure whose smallest step is not said has no changes; one that is a scale number has', () => {
    expect(run(of, hourly(stepped)).events).toEqual([]);
    const scale: MonitorConfig = { codes: [], follow: [{ id: 's', figure: { continuousScaleNumberAt: 6 } }] };
    expect(prepared(scale).follow[0]?.detector.least).toBe(0.5);
  });

  test('relearn: what is usual is learned anew, of one figure or of all', () => {
    const before = run(detecting, hourly(stepped.slice(0, 30))).state;
    const { state, events } = advanceMonitor(detecting, before, { kind: 'relearn', time: 30 * hour, followed: 'x' });
    expect(events).toEqual([{ time: 30 * hour, event: 'relearning', followed: 'x', figure: 'other x' }]);
    expect(openChange(state.followed[0]?.change as string).ring).toEqual([]);
    expect(state.followed[0]?.trend).toBeUndefined();
    expect(advanceMonitor(detecting, before, { kind: 'relearn', time: 30 * hour }).events).toEqual(events);
    expect(() => advanceMonitor(detecting, before, { kind: 'relearn', time: 30 * hour, followed: 'y' })).toThrow(
      expect.objectContaining({ code: 'unknown_option', parameter: 'input.followed' }),
    );
  });

  test('after a gap longer than the blocks it begins anew', () => {
    const far = { ...reading(1000 * hour, { others: { x: 5 } }) };
    const { state } = run(of, [...hourly([1, 2, 3]), far, { kind: 'tick', time: 1002 * hour }]);
    expect(openChange(state.followed[0]?.change as string)).toMatchObject({ last: 1000, ring: [5] });
  });

  test('readings of one block in any order give the same mean', () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: 0, max: 30, noNaN: true }), { minLength: 1, maxLength: 15 }), (xs) => {
        const inputs = xs.map((x, i) => reading(i * minute, { others: { x }, counts: at(1890 + i, 402, 33) }));
        const forward = run(of, inputs).state.followed[0]?.open;
        const backward = run(of, [...inputs].reverse()).state.followed[0]?.open;
        expect(backward?.count).toBe(forward?.count);
        expect(backward?.mean).toBeCloseTo(forward?.mean as number, 9);
      }),
      { numRuns: 50 },
    );
  });
});

describe('laws of the state', () => {
  const crowded: MonitorConfig = {
    ...config,
    clockJumpMs: 8e15,
    alarms: [
      ...(config.alarms ?? []),
      {
        id: 'wet "\n',
        type: 'low',
        figure: { other: 'x' },
        setpoint: 0,
        onDelayMs: 30000,
        latching: true,
        chattering: { raises: 20, withinMs: day },
      },
    ],
    follow: [
      ...(config.follow ?? []),
      { id: 'x', figure: { other: 'x' }, blockMs: minute, blocks: 30 },
      { id: 'celsius', figure: { quantity: 'celsius' }, blockMs: hour },
    ],
  };
  const someReading = fc.record({
    counts: fc.tuple(fc.nat({ max: 5000 }), fc.nat({ max: 5000 }), fc.nat({ max: 5000 })).map((list) => {
      const [a, b, c] = [...list].sort((x, y) => y - x) as [number, number, number];
      return at(a, b, c);
    }),
    celsius: fc.double({ min: -20, max: 120, noNaN: true }),
    mlPerMin: fc.constantFrom(0, 50, 50, 50),
    kPa: fc.constantFrom(800, 100),
    others: fc.record({
      x: fc.oneof(fc.double({ min: -1e12, max: 1e12, noNaN: true }), fc.double({ min: -5, max: 5, noNaN: true })),
    }),
  });
  const moves = fc.constantFrom(
    -hour,
    -minute,
    -1,
    0,
    1,
    1000,
    minute,
    minute,
    minute,
    2 * minute,
    hour + 1,
    13 * hour,
    60 * day,
  );
  const command = fc.record({
    kind: fc.constant('command' as const),
    alarm: fc.constantFrom('hot', 'code', 'rise'),
    command: fc.constantFrom('acknowledge', 'reset', 'unshelve', 'remove_from_service', 'return_to_service'),
  });
  const shelving = fc.record({
    kind: fc.constant('command' as const),
    alarm: fc.constantFrom('hot', 'code'),
    command: fc.constant('shelve'),
    forMs: fc.integer({ min: 1, max: hour }),
  });
  const inputs = (start: number, forwards = false): fc.Arbitrary<MonitorInput[]> =>
    fc
      .array(
        fc.tuple(
          moves,
          fc.oneof(
            { weight: 8, arbitrary: someReading },
            { weight: 1, arbitrary: fc.constant({ kind: 'tick' as const }) },
            { weight: 2, arbitrary: command },
            { weight: 1, arbitrary: shelving },
          ),
        ),
        { maxLength: 60 },
      )
      .map((list) => {
        let time = start;
        return list.map(([move, input]) => {
          time += forwards ? Math.abs(move) : move;
          return { ...input, time } as MonitorInput;
        });
      });

  test('saved and restored after every input, it says the same', () => {
    fc.assert(
      fc.property(inputs(1.8e12), (list) => {
        const through = run(crowded, list);
        const restored = run(crowded, list, saved);
        expect(restored.events).toEqual(through.events);
        expect(restored.verdicts).toEqual(through.verdicts);
        expect(restored.state).toEqual(through.state);
      }),
      { numRuns: some(200, 60) },
    );
  });

  test('no reading is lost silently, and the state keeps within its bytes', () => {
    const { clockJumpMs: _far, ...doubting } = crowded;
    const most = stateBytes(crowded);
    expect(most).toBeLessThanOrEqual(mostStateBytes);
    fc.assert(
      fc.property(
        fc.constantFrom(1.8e12, 2.53e14, -6.2e13).chain((start) => inputs(start)),
        (list) => {
          let readings = 0;
          let aside = 0;
          const { state, events } = run(doubting, list, (before) => {
            expect(new TextEncoder().encode(JSON.stringify(before)).length).toBeLessThanOrEqual(most);
            return before;
          });
          for (const input of list) if ('counts' in input) readings += 1;
          for (const e of events)
            if (['late', 'too_late', 'repeated', 'contradicted', 'set_aside'].includes(e.event)) aside += 1;
          const { inOrder, late, tooLate, repeated, setAside } = state.arrivals;
          expect(inOrder + late + tooLate + repeated + setAside).toBe(readings);
          expect(late + tooLate + repeated + setAside).toBe(aside);
        },
      ),
      { numRuns: some(200, 60) },
    );
  });

  test('however long it runs', () => {
    const most = stateBytes(crowded);
    let state = startMonitor(crowded);
    let largest = 0;
    for (let i = 0; i < some(6000, 1000); i += 1) {
      const x = Math.sin(i * i) * (i % 7 === 0 ? 1e-90 : 3);
      const input = reading(1.8e12 + i * 119999, {
        counts: at(1000 + ((i * 7919) % 3000), 500 + ((i * 104729) % 499), 30 + (i % 17)),
        celsius: 60 + 10 * Math.sin(i / 3),
        others: { x },
      });
      state = advanceMonitor(crowded, state, input).state;
      largest = Math.max(largest, new TextEncoder().encode(JSON.stringify(state)).length);
    }
    expect(largest).toBeLessThanOrEqual(most);
    // these counts have three sizes of the 32 there is room for
    expect(largest).toBeGreaterThan((most - repeatsBytes) / 3);
  });

  test('a tick up to which all has come in changes nothing but when one hears of it', () => {
    fc.assert(
      fc.property(inputs(1.8e12, true), (list) => {
        const first = list[0]?.time ?? 0;
        const ticked = list.flatMap((input, i) => {
          const next = list[i + 1]?.time ?? input.time;
          return [
            input,
            { kind: 'tick' as const, time: Math.floor((input.time + next) / 2) },
            { kind: 'tick' as const, time: next },
          ];
        });
        const ends: MonitorInput = { kind: 'tick', time: 1.9e12 };
        const once = run(crowded, [{ kind: 'tick', time: first }, ...list, ends]);
        expect(run(crowded, [{ kind: 'tick', time: first }, ...ticked, ends]).events).toEqual(once.events);
      }),
      { numRuns: some(100, 40) },
    );
  });
});

describe('errors', () => {
  test('a bad configuration names every mistake', () => {
    const bad = {
      codes: [
        { table: iso4406, target: '18/16' },
        { table: iso4406 },
        { table: 'nas1638' },
        { table: as4059Differential, goal: '7' },
        null,
      ],
      limits: { leastKPa: 'low', mostVisc: 3, qualities: { no_flow: 'awful', no_oil: 'bad' } },
      alarms: [
        { id: 'a', type: 'high', figure: { code: 'iso4406' }, setpoint: '18/16', latching: 1 },
        { id: 'a', type: 'low', figure: { code: 'nas1638' }, setpoint: '6' },
        { id: 'c', type: 'high', figure: { quantity: 'humidity' }, setpoint: 1, deadbnd: 2 },
        { id: 'd', type: 'high', figure: { perMlAt: 4, other: 'x' }, setpoint: 1 },
        { id: 'e', type: 'high', figure: { perMlAt: -4 }, setpoint: 1 },
        { id: 'f', type: 'high', setpoint: 1 },
        7,
      ],
      follow: [{ id: 'x', figure: { other: '' }, blockMs: 5, blocks: 7.5, decision: -1, lambda: 1 }, undefined],
      staleAfterMs: 0,
      target: '18/16/13',
    };
    try {
      startMonitor(bad as never);
      expect.unreachable();
    } catch (error) {
      expect(
        problemsOf(error)
          .map(({ path }) => path.join('.'))
          .sort(),
      ).toEqual([
        'alarms.0.latching',
        'alarms.1.id',
        'alarms.1.type',
        'alarms.2.deadbnd',
        'alarms.2.figure.quantity',
        'alarms.3.figure.perMlAt',
        'alarms.4.figure.perMlAt',
        'alarms.5.figure',
        'alarms.6',
        'codes.0.target',
        'codes.1.table',
        'codes.3.goal',
        'codes.4',
        'follow.0.blockMs',
        'follow.0.blocks',
        'follow.0.decision',
        'follow.0.figure.other',
        'follow.0.lambda',
        'follow.1',
        'limits.leastKPa',
        'limits.mostVisc',
        'limits.qualities.no_flow',
        'limits.qualities.no_oil',
        'staleAfterMs',
        'target',
      ]);
    }
  });

  test.each([
    ['no object', null, []],
    ['no codes', {}, ['codes']],
    ['alarms that are no list', { codes: [], alarms: {} }, ['alarms']],
    ['limits that are no object', { codes: [], limits: 5 }, ['limits']],
  ])('one mistake: %s', (_name, of, place) => {
    expect(() => startMonitor(of as never)).toThrow(
      expect.objectContaining({ code: 'bad_configuration', problems: [expect.objectContaining({ path: place })] }),
    );
  });

  test.each(['high', 'low', 'rise', 'fall'] as const)(
    'a saturation in percent is refused: alarm of type %s',
    (type) => {
      const alarm = (setpoint: number) => ({
        ...{ id: 'wet', figure: { quantity: 'waterSaturation' as const }, type, setpoint },
        ...(type === 'rise' || type === 'fall' ? { withinMs: hour } : {}),
      });
      const path = ['alarms', 0, 'setpoint'];
      const problem = { path, code: 'out_of_range', received: '80', expected: 'a share, 0.45 for 45 %' };
      expect(() => startMonitor({ codes: [], alarms: [alarm(80)] })).toThrow(
        expect.objectContaining({ code: 'bad_configuration', problems: [problem] }),
      );
      expect(() => startMonitor({ codes: [], alarms: [alarm(0.8), { ...alarm(0.99), id: 'very' }] })).not.toThrow();
      expect(() =>
        startMonitor({ codes: [], alarms: [{ ...alarm(80), figure: { quantity: 'celsius' } }] }),
      ).not.toThrow();
      for (const setpoint of [Infinity, Number.NaN, '80']) {
        expect(() => startMonitor({ codes: [], alarms: [alarm(setpoint as number)] })).toThrow(
          expect.objectContaining({ problems: [expect.objectContaining({ path })] }),
        );
      }
    },
  );

  test('more than fits the state is refused at the start', () => {
    const alarm = { type: 'high', figure: { quantity: 'celsius' }, setpoint: 65 } as const;
    const alarms = Array.from({ length: 60 }, (_x, i) => ({ ...alarm, id: `hot ${i}` }));
    expect(() => startMonitor({ codes: [], alarms })).toThrow(/\d+ bytes/);
    expect(() => startMonitor({ codes: [], alarms: alarms.slice(0, 12) })).not.toThrow();
  });

  const fresh = startMonitor(config);
  test.each([
    ['bad_state', null, reading(0)],
    ['bad_state', { ...fresh, version: 1 }, reading(0)],
    ['bad_state', { ...fresh, alarms: fresh.alarms.slice(1) }, reading(0)],
    ['bad_state', { ...fresh, alarms: [...fresh.alarms].reverse() }, reading(0)],
    ['bad_state', { ...fresh, followed: [{ ...fresh.followed[0], id: 'y' }] }, reading(0)],
    ['bad_state', { ...fresh, alarms: fresh.alarms.map(({ id }) => ({ id })) }, reading(0)],
    ['wrong_type', fresh, null],
    ['wrong_type', fresh, { counts: clean }],
    ['not_an_integer', fresh, reading(0.5)],
    ['wrong_type', fresh, { time: 0, counts: 5 }],
    ['empty', fresh, { time: 0, counts: { ...clean, perMl: [] } }],
    ['negative', fresh, { time: 0, counts: { ...clean, perMl: [3, 2, -1] } }],
    ['negative', fresh, reading(0, { flushedMl: -1 })],
    ['out_of_range', fresh, reading(0, { waterSaturation: 45 })],
    ['not_a_number', fresh, reading(0, { others: { x: Number.NaN } })],
    ['wrong_type', fresh, reading(0, { others: 5 as never })],
    ['out_of_range', fresh, reading(0, { others: { x: 1.1e12 } })],
    ['out_of_range', fresh, { time: 0, counts: { ...clean, perMl: [1e13, 2, 1] } }],
    ['unknown_option', fresh, { kind: 'command', time: 0, alarm: 'hot', command: 'silence' }],
  ])('%s', (code, state, input) => {
    expect(() => advanceMonitor(config, state as never, input as never)).toThrow(expect.objectContaining({ code }));
  });
});

test.each([
  ['codes.0', { codes: new Array(1) }],
  ['alarms.0', { codes: [], alarms: new Array(1) }],
  ['follow.0', { codes: [], follow: new Array(1) }],
  ['codes.0.table.notation', { codes: [{ table: { ...nas1638, notation: 0 } }] }],
])('a place left empty, or filled with what is none: %s', (place, bad) => {
  expect(() => startMonitor(bad as never)).toThrowError(
    expect.objectContaining({
      problems: [expect.objectContaining({ path: place.split('.').map((step) => (step === '0' ? 0 : step)) })],
    }),
  );
});

test.each([
  ['a misspelt member', { time: 0, count: clean }, 'input.count'],
  ['an alarm beside counts', { ...reading(0), alarm: 'hot' }, 'input.alarm'],
  ['counts beside a command', { ...reading(0), kind: 'command', alarm: 'hot', command: 'acknowledge' }, 'input.counts'],
])('an input that would be passed over: %s', (_name, input, parameter) => {
  expect(() => advanceMonitor(config, startMonitor(config), input as never)).toThrowError(
    expect.objectContaining({ code: 'unknown_option', parameter }),
  );
});

test.each(['-/-/-', '18/*/13'])('a target that nothing can keep, %s, is a mistake in the configuration', (target) => {
  for (const bad of [
    { codes: [{ table: iso4406, target }] },
    {
      codes: [{ table: iso4406 }],
      alarms: [{ id: 'a', type: 'high', figure: { code: 'iso4406' }, setpoint: target }],
    },
  ]) {
    expect(() => startMonitor(bad as never)).toThrowError(expect.objectContaining({ code: 'bad_configuration' }));
  }
});

describe('an alarm that a reading cannot judge', () => {
  const judgedBy = (of: MonitorConfig, one: TimedReading) =>
    advanceMonitor(of, startMonitor(of), one).verdict?.alarms.map(({ state, judged }) => [state, judged]);
  const without14 = cumulativeCounts({ 4: 18900, 6: 4020 }, { volumeMl: 10 });
  const onCode: MonitorConfig = {
    codes: [{ table: iso4406 }],
    alarms: [{ id: 'code', type: 'high', figure: { code: 'iso4406' }, setpoint: '18/16/13' }],
  };
  const onSize: MonitorConfig = {
    codes: [{ table: iso4406 }],
    alarms: [{ id: '5 µm', type: 'high', figure: { perMlAt: 5 }, setpoint: 100, staleAfterMs: hour }],
  };

  test('a code alarm whose 14 µm is missing is not judged, unless another size is beyond', () => {
    expect(judgedBy(onCode, reading(0))).toEqual([['normal', true]]);
    expect(judgedBy(onCode, reading(0, { counts: without14 }))).toEqual([['normal', false]]);
    const dirty = cumulativeCounts({ 4: 18900, 6: 7020 }, { volumeMl: 10 });
    expect(judgedBy(onCode, reading(0, { counts: dirty }))?.[0]?.[1]).toBe(true);
    expect(advanceMonitor(onCode, startMonitor(onCode), reading(0, { counts: dirty })).events[0]?.event).toBe('raised');
  });

  test('a missing size does not clear it either', () => {
    const raised = advanceMonitor(onCode, startMonitor(onCode), reading(0, { counts: at(1890, 702, 33) })).state;
    expect(advanceMonitor(onCode, raised, reading(minute, { counts: without14 })).events).toEqual([]);
    expect(advanceMonitor(onCode, raised, reading(minute)).events[0]?.event).toBe('returned');
  });

  test('a size never counted: not judged, and stale in time', () => {
    expect(judgedBy(onSize, reading(0))).toEqual([['normal', false]]);
    const { state } = advanceMonitor(onSize, startMonitor(onSize), reading(0));
    expect(advanceMonitor(onSize, state, reading(2 * hour)).events.map(({ event }) => event)).toContain('signal_stale');
  });

  test('a bad reading and one out of order judge nothing', () => {
    expect(judgedBy(onCode, reading(0, { mlPerMin: 0 }))).toEqual([['normal', false]]);
    const { state } = advanceMonitor(onCode, startMonitor(onCode), reading(minute));
    expect(advanceMonitor(onCode, state, reading(0)).verdict?.alarms[0]?.judged).toBe(false);
  });
});

test('columns: a counter at 4, 6, 14 and 21 µm is held to the ranges it sees', () => {
  const alarms = [{ id: 'code', type: 'high', figure: { code: 'nas1638' }, setpoint: '8' }] as const;
  const counts = cumulativeCounts({ 4: 1890, 6: 402, 14: 33, 21: 3 });
  const verdictBy = (columns?: readonly string[]) => {
    const of: MonitorConfig = { codes: [{ table: nas1638, target: '8', ...(columns && { columns }) }], alarms };
    return advanceMonitor(of, startMonitor(of), reading(0, { counts })).verdict;
  };
  expect(verdictBy()?.inTarget).toBeNull();
  expect(verdictBy()?.alarms[0]?.judged).toBe(false);
  expect(verdictBy(['5-15', '15-25'])?.inTarget).toBe(true);
  expect(verdictBy(['5-15', '15-25'])?.alarms[0]?.judged).toBe(true);
  expect(verdictBy(['5-15', '25-50'])?.codes[0]?.reason).toContain('25-50');
});
