/** From version 0.1.0, as it ran, to this one: nothing that stood is lost, and what is lost is told. */
import { describe, expect, test } from 'vitest';
import {
  type AcceptanceConfig,
  type AcceptanceRecord,
  prepareAcceptance,
  resumeAcceptance,
} from '../../../src/acceptance/index.ts';
import { prepareAlarm, resumeAlarm } from '../../../src/alarm/index.ts';
import { iso4406 } from '../../../src/codes/index.ts';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import { germanTexts } from '../../../src/german/index.ts';
import {
  advanceMonitor,
  advanceUnit,
  alarmSummary,
  type MonitorEvent,
  type MonitorState,
  type PreparedMonitor,
  prepareMonitor,
  resumeMonitor,
  startUnit,
  type UnitPayload,
} from '../../../src/monitor/index.ts';
import { acceptanceSheetText, messageOf } from '../../../src/report/index.ts';
import { normalOf, poissonOf, shares } from '../../chance.ts';
import { library1 } from '../../differential/library1.ts';
import { some } from '../../volume.ts';

const minute = 60000;
const hour = 60 * minute;

/** What is asked here of 0.1.0. */
interface Library1 {
  readonly iso4406: object;
  startMonitor(config: object): object;
  advanceMonitor(config: object, state: object, input: object): { state: object; events: MonitorEvent[] };
  startAcceptance(config: object): object;
  advanceAcceptance(config: object, state: object, reading: object): { state: { accepted: unknown } };
}
const before = library1 as unknown as Library1;

const saved = <State>(state: State): State => JSON.parse(JSON.stringify(state));

function after1(config: object, inputs: readonly object[]): { state: object; events: MonitorEvent[] } {
  let state = before.startMonitor(config);
  const events: MonitorEvent[] = [];
  for (const input of inputs) {
    const step = before.advanceMonitor(config, state, input);
    state = step.state;
    events.push(...step.events);
  }
  return { state: saved(state), events: saved(events) };
}

describe('a counter that stopped before the upgrade', () => {
  const dirty = { id: 'dirty', type: 'high', figure: { code: 'iso4406' }, deadband: 1 } as const;
  const measured = (means: readonly number[], share: () => number) => {
    const [at4 = 0, at6 = 0, at14 = 0] = means.map((mean) => poissonOf(25 * mean, share));
    return cumulativeCounts({ 4: at4 + at6 + at14, 6: at6 + at14, 14: at14 }, { volumeMl: 25 });
  };

  /** Oil eight times as dirty as the setpoint allows; then the counter stands at clean counts. */
  function frozen(means: readonly number[], setpoint: string, seed: number, count: number) {
    const share = shares(seed);
    const readings = (n: number, from: number, of: () => object) =>
      Array.from({ length: n }, (_, i) => ({ time: (from + i) * 5 * minute, celsius: 40, counts: of() }));
    const still = measured(means, share);
    const inputs = [
      ...readings(12, 0, () =>
        measured(
          means.map((mean) => 8 * mean),
          share,
        ),
      ),
      ...readings(count, 12, () => still),
    ];
    const alarms = [{ ...dirty, setpoint, onDelayMs: 30 * minute }];
    const { state } = after1({ codes: [{ table: before.iso4406 }], alarms, limits: { leastKPa: 20 } }, inputs);
    const prepared = prepareMonitor({ codes: [{ table: iso4406, target: setpoint }], alarms });
    return { prepared, still, state, time: (12 + count) * 5 * minute };
  }

  const oils: [readonly number[], string][] = [
    [[2000, 500, 40], '19/17/14'],
    [[200, 40, 3], '16/14/11'],
    [[100, 12, 0.6], '15/12/8'],
  ];
  test.each(oils)('is known to have, and clears no alarm: %j per mL', (means, setpoint) => {
    for (let seed = 1; seed <= some(60, 4); seed += 1) {
      const { prepared, still, state, time } = frozen(means, setpoint, seed, 6 + (seed % 5));
      let { state: now } = resumeMonitor(prepared, state);
      expect(alarmSummary(prepared, now).alarms[0]?.state).toBe('unacknowledged_alarm');
      for (let i = 0; i < 20; i += 1) {
        const step = advanceMonitor(prepared, now, { time: time + i * 5 * minute, celsius: 40, counts: still });
        expect(step.verdict?.figureQualities.counts).toBe('bad');
        expect(step.verdict?.inTarget).toBe(null);
        // through what is saved, too
        now = resumeMonitor(prepared, saved(step.state)).state;
      }
      expect(alarmSummary(prepared, now).alarms[0]?.state).toBe('unacknowledged_alarm');
    }
  });

  test('counts that differ are measured, and nothing of before is kept beside them', () => {
    const { prepared, state, time } = frozen([2000, 500, 40], '19/17/14', 7, 9);
    const counts = cumulativeCounts({ 4: 60000, 6: 12000, 14: 900 }, { volumeMl: 25 });
    const step = advanceMonitor(prepared, resumeMonitor(prepared, state).state, { time, counts });
    expect(step.verdict?.figureQualities.counts).toBe('good');
    expect(step.state.repeats).toMatchObject({ known: 1, runs: [1, 1, 1] });
    expect(step.state.repeats).not.toHaveProperty('same');
  });

  test('a reading without counts comes between; a measurement that goes on is the same one', () => {
    const { prepared, still, state, time } = frozen([2000, 500, 40], '19/17/14', 7, 9);
    let { state: now } = resumeMonitor(prepared, state);
    now = advanceMonitor(prepared, now, { time, celsius: 40 }).state;
    const reading = { time: time + minute, counts: still, measuringSeconds: 600 };
    const step = advanceMonitor(prepared, saved(now), reading);
    expect(step.verdict?.findings.map(({ code }) => code)).toContain('values_stuck');
    expect(step.state.repeats).not.toHaveProperty('same');
  });

  test('a damaged memory of it is refused', () => {
    const { prepared, state } = frozen([200, 40, 3], '16/14/11', 3, 6);
    const { state: now } = resumeMonitor(prepared, state);
    const repeats = now.repeats as object;
    expect(now.repeats?.same?.[1]).toBe(6);
    for (const same of [[1], [1, 2, 3], [-1, 2], [1, 0.5], [1, 1000], [null, 2]])
      expect(() => resumeMonitor(prepared, { ...now, repeats: { ...repeats, same } })).toThrow('state.repeats');
    expect(() =>
      resumeMonitor(prepared, { ...now, repeats: { ...repeats, perMl: 'aaaa', runs: [1], known: 1 } }),
    ).toThrow('state.repeats');
  });
});

describe('a state becomes a record', () => {
  const hot = { id: 'hot', type: 'high', figure: { quantity: 'celsius' }, setpoint: 65, latching: true } as const;
  const wet = { id: 'wet', type: 'high', figure: { quantity: 'waterSaturation' }, setpoint: 0.8 } as const;
  const follow = [{ id: 't', figure: { quantity: 'celsius' } }] as const;
  const counts = cumulativeCounts({ 4: 20000, 6: 5000, 14: 500 }, { volumeMl: 10 });
  const { state } = after1({ codes: [], alarms: [hot, wet], follow }, [
    { time: 0, counts, celsius: 70, waterSaturation: 0.9 },
    { time: minute, alarm: 'wet', command: 'shelve', forMs: 8 * hour },
  ]);
  const step = (prepared: PreparedMonitor, payload: UnitPayload) => {
    const record = saved(startUnit(prepared, { unit: 'u1', state }));
    expect(record.seq).toBe(0);
    return advanceUnit(prepared, record, { seq: 1, payload });
  };
  const told = (events: readonly { id: string; event: string }[]) => events.map(({ id, event }) => `${id} ${event}`);
  const whole = prepareMonitor({ codes: [], alarms: [hot, wet], follow });
  const hotAlone = prepareMonitor({ codes: [], alarms: [hot] });

  test('latched and shelved alarms go on, and what does not is told first', () => {
    const { record, events } = step(whole, { time: hour, celsius: 50, waterSaturation: 0.9 });
    expect(told(events)).toEqual(['u1.1.1 configured', 'u1.1.2 returned']);
    expect(events[0]).toMatchObject({ kept: ['hot', 'wet', 't'], dropped: ['t.change'], added: [] });
    expect(alarmSummary(whole, record.state).alarms.map((one) => one.state)).toEqual([
      'latched_unacknowledged',
      'shelved',
    ]);
    // it is of this version now: nothing is told twice
    const next = advanceUnit(whole, saved(record), { seq: 2, payload: { kind: 'tick', time: 2 * hour } });
    expect(next.events).toEqual([]);
  });

  test('also where the first input cannot be taken, or changes the configuration', () => {
    const rejected = step(hotAlone, { time: hour, celcius: 3 } as never);
    expect(told(rejected.events)).toEqual(['u1.1.1 configured', 'u1.1.2 dropped', 'u1.1.3 rejected']);
    expect(alarmSummary(hotAlone, rejected.record.state).alarms[0]?.state).toBe('unacknowledged_alarm');
    const configured = step(whole, { kind: 'configuration', configuration: whole.configuration, time: hour });
    expect(told(configured.events)).toEqual(['u1.1.1 configured']);
  });

  test('a state of this version too; a damaged one is refused at once', () => {
    const { state: now } = resumeMonitor(whole, state);
    const record = startUnit(hotAlone, { unit: 'u1', state: now });
    const { events } = advanceUnit(hotAlone, record, { seq: 1, payload: { kind: 'tick', time: hour } });
    expect(told(events)).toEqual(['u1.1.1 configured', 'u1.1.2 dropped']);
    const broken = { ...state, heard: 9 * hour };
    expect(() => startUnit(whole, { unit: 'u1', state: broken })).toThrow('state.heard');
    expect(() => startUnit(whole, { unit: 'u1', state: null })).toThrow('state: received null');
  });
});

describe('a shelf that is longer than it may be', () => {
  const hot = {
    id: 'hot',
    type: 'high',
    figure: { quantity: 'celsius' },
    setpoint: 65,
    longestShelfMs: 24 * hour,
  } as const;
  const shelve = { time: hour, alarm: 'hot', command: 'shelve', forMs: 20 * hour };
  const { state } = after1({ codes: [], alarms: [hot] }, [{ time: 0, counts: cumulativeCounts({ 4: 9 }) }, shelve]);
  const eventsOf = (longestShelfMs: number, from: object) => {
    const prepared = prepareMonitor({ codes: [], alarms: [{ ...hot, longestShelfMs }] });
    const { state: now, events } = resumeMonitor(prepared, saved(from));
    expect(resumeMonitor(prepared, saved(now)).events).toEqual([]);
    const step = advanceMonitor(prepared, now, { kind: 'tick', time: 23 * hour });
    return [...events, ...step.events].map(({ event, time }) => `${event} ${time / hour}`);
  };

  test('ends after the longest of now, and that is told', () => {
    expect(eventsOf(24 * hour, state)).toEqual(['unshelved 21']);
    expect(eventsOf(20 * hour, state)).toEqual(['unshelved 21']);
    expect(eventsOf(2 * hour, state)).toEqual(['shelved 1', 'unshelved 3']);
    const now = resumeMonitor(prepareMonitor({ codes: [], alarms: [hot] }), state).state;
    expect(eventsOf(2 * hour, now)).toEqual(['shelved 1', 'unshelved 3']);
  });

  test('one without an end is damaged, and has one', () => {
    const damaged = JSON.parse(JSON.stringify(state).replace(`"until":${21 * hour}`, `"until":${1e6 * hour}`));
    expect(damaged).not.toEqual(state);
    expect(eventsOf(8 * hour, damaged)).toEqual(['shelved 1', 'unshelved 9']);
  });

  test('of an alarm by itself', () => {
    const prepared = prepareAlarm({ id: 'hot', type: 'high', setpoint: 65, longestShelfMs: hour });
    const { events, state: now } = resumeAlarm(prepared, {
      version: 3,
      of: prepared.of,
      time: 0,
      shelf: { until: 9 * hour },
    });
    expect(events).toEqual([{ time: 0, alarm: 'hot', event: 'shelved', until: hour }]);
    expect(now.shelf).toEqual({ until: hour });
  });
});

describe('a proof half-way', () => {
  const limits = { leastKPa: 20 };
  const kept = (then: object, now: AcceptanceConfig['limits'], more: object = {}) => {
    const rule = { target: '18/16/13', readings: 6, ...more };
    const config = { table: before.iso4406, ...rule, limits: then };
    let state = before.startAcceptance(config);
    for (let i = 0; i < 3; i += 1) {
      const counts = cumulativeCounts({ 4: 30000 + i, 6: 8000 + i, 14: 700 + i }, { volumeMl: 25 });
      state = before.advanceAcceptance(config, state, { time: i * 10 * minute, kPa: 700, counts }).state;
    }
    const prepared = prepareAcceptance({ table: iso4406, ...rule, limits: now });
    return resumeAcceptance(prepared, saved(state)).kept;
  };
  const same: [object, AcceptanceConfig['limits']][] = [
    [limits, limits],
    [{ ...limits, stuckReadings: 6 }, limits],
    // the most that is looked for (our choice)
    [{ ...limits, stuckReadings: 100 }, limits],
    [
      { ...limits, stuckReadings: 6 },
      { ...limits, stuckChance: 1e-6 },
    ],
    [
      { ...limits, stuckReadings: null },
      { ...limits, stuckChance: null },
    ],
    [limits, { ...limits, stuckChance: null }],
    [
      { ...limits, qualities: { air_or_droplets_likely: 'bad', no_flow: 'bad' } },
      { ...limits, qualities: { flat_size_distribution: 'bad', no_flow: 'bad' } },
    ],
    [{ leastKPa: null }, {}],
    [{ leastKPa: null, mostMm2PerS: null, stuckReadings: 4 }, {}],
    [{ ...limits, mostMm2PerS: null }, limits],
    [{}, {}],
  ];
  test.each(same)('%j goes on as %j', (then, now) => expect(kept(then, now)).toEqual(['run']));

  const other: [object, AcceptanceConfig['limits']][] = [
    [{ ...limits, stuckReadings: null }, limits],
    [{}, { leastKPa: 40 }],
    [{ leastKPa: null }, limits],
    [{ mostMm2PerS: null }, { mostMm2PerS: 400 }],
    [limits, { ...limits, particles: 10 }],
    [limits, { ...limits, qualities: { flat_size_distribution: 'bad' } }],
  ];
  test.each(other)('%j is not taken for %j', (then, now) => {
    expect(() => kept(then, now)).toThrow('with the same table and limits: begin a new one');
  });

  test('of a code of two sizes, whose distribution could not be checked', () => {
    expect(kept(limits, limits, { target: '18/16/-', columns: ['4', '6'] })).toEqual(['run']);
  });

  test('a record that was kept by itself can be printed', () => {
    const config = { table: before.iso4406, target: '18/16/13', readings: 3, limits };
    let state: { accepted?: unknown } = before.startAcceptance(config);
    const at = (i: number) => (i === 1 ? 5 : 1);
    for (let i = 0; i < 6; i += 1) {
      const counts = cumulativeCounts({ 4: 30000 * at(i), 6: 8000 + i, 14: 700 + i }, { volumeMl: 25 });
      state = before.advanceAcceptance(config, state, { time: i * 10 * minute, litres: 10 * i, kPa: 30, counts }).state;
    }
    const page = acceptanceSheetText(saved(state.accepted) as AcceptanceRecord);
    for (const line of [
      'Table: ISO 4406\n',
      'Readings in a row: 3, from 1970-01-01 00:20 to 1970-01-01 00:40',
      'Worst class at each column: -\n',
      'Begun anew, times: 1',
    ])
      expect(page).toContain(line);
    expect(() => acceptanceSheetText({ table: 'iso4406' } as never)).toThrow('record.lastRestart: received undefined');
  });
});

describe('events that were kept', () => {
  const hot = { id: 'hot', type: 'high', figure: { quantity: 'celsius' }, setpoint: 65 } as const;
  const follow = [{ id: 'heat', figure: { quantity: 'celsius' }, blockMs: hour }];
  const readings = Array.from({ length: 200 }, (_, i) => ({
    time: i * hour,
    counts: cumulativeCounts({ 4: 20000 + i, 6: 5000, 14: 500 }, { volumeMl: 10 }),
    celsius: (i < 120 ? 50 : 70) + (i % 3),
  }));
  const { events } = after1({ codes: [], alarms: [hot], follow }, readings);
  const line = (word: string) => messageOf(events.find(({ event }) => event === word) as MonitorEvent);

  test('have words, without what they do not tell', () => {
    expect(line('raised')).toEqual({
      subject: 'hot: alarm raised',
      line: 'hot: alarm raised.',
      paragraph: 'hot: alarm raised. Time: 1970-01-06 00:00 (UTC).',
    });
    expect(line('change_found').line).toMatch(
      /^heat: level has gone up\. heat was about 51; since about .* about \d+\.$/,
    );
    for (const event of events) expect(messageOf(event, germanTexts).line).not.toMatch(/undefined|NaN|null| {2}/);
  });

  test('one of now that lacks a member is refused', () => {
    const raised = { time: 0, event: 'raised', alarm: 'hot', value: 70 };
    expect(() => messageOf({ ...raised, priority: 'high' } as never)).toThrow('event.setpoint');
    expect(() => messageOf({ ...raised, setpoint: 65, value: undefined } as never)).toThrow('event.value');
  });
});

describe('followed figures learn anew', () => {
  const day = 24 * hour;
  const figure = { continuousScaleNumberAt: 6 } as const;
  const prepared = prepareMonitor({ codes: [], follow: [{ id: 'f6', figure }] });
  const upgrade = 60;

  /** Four readings a day; 0.1.0 up to the day of the upgrade; a step of one class on a day, reckoned from there. */
  function unit(seed: number, blockMs: number | undefined, stepOn: number, days: number) {
    const share = shares(seed);
    const then = { codes: [], follow: [blockMs === undefined ? { id: 'f6', figure } : { id: 'f6', figure, blockMs }] };
    let old = before.startMonitor(then);
    let now: MonitorState | undefined;
    let weather = 0;
    const told: number[] = [];
    const standings: (string | undefined)[] = [];
    for (let i = 0; i < (upgrade + days) * 4; i += 1) {
      const time = i * 6 * hour;
      if (i % 4 === 0) weather = 0.6 * weather + 0.12 * normalOf(share);
      const level = weather + 0.1 * normalOf(share) + (i / 4 >= upgrade + stepOn ? 1 : 0);
      const at6 = Math.round(12500 * 2 ** level);
      const counts = cumulativeCounts({ 4: 4 * at6, 6: at6, 14: Math.round(at6 / 12) }, { volumeMl: 25 });
      const reading = { time, kPa: 800, counts };
      const step = i < upgrade * 4 ? before.advanceMonitor(then, old, reading) : null;
      if (step !== null) old = step.state;
      const next = step ?? advanceMonitor(prepared, now ?? resumeMonitor(prepared, saved(old)).state, reading);
      if (step === null) now = next.state as MonitorState;
      for (const event of next.events) if (event.event === 'change_found') told.push(event.time / day - upgrade);
      if (now !== undefined && i % 4 === 3) standings.push(alarmSummary(prepared, now).followed[0]?.standing);
    }
    return { told: told.some((on) => on > stepOn), standings };
  }

  test('for eight days after half-day blocks; not at all after forty blocks of a day', () => {
    const { standings } = unit(1, undefined, 1000, 12);
    expect(standings.map((word) => word === 'watching')).toEqual(standings.map((_, i) => i >= 7));
    expect(unit(1, day, 1000, 3).standings).toEqual(['watching', 'watching', 'watching']);
  });

  // of 60 units, as docs/upgrading.md counts them
  const steps: [number, string][] = [
    [-10, '011101111111101001011111001011111100110110111010010010100111'],
    [-3, '111111111110011001111111111011111000111110111010010010110111'],
    [3, '111011101010111101110111111111011101111111111110111111101111'],
    [20, '111111111111111111110111111111111111111111111111111111111111'],
  ];
  test.each(steps)('a step of one class %i days from the upgrade', (stepOn, all) => {
    const found = Array.from({ length: some(60, 3) }, (_, i) => (unit(i + 1, undefined, stepOn, 100).told ? '1' : '0'));
    expect(found.join('')).toBe(all.slice(0, found.length));
  });
});
