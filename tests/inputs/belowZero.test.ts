/**
 * A flow meter at standstill and a sensor in dry oil show a little less than zero: read tolerantly that is zero, and a
 * flow that cannot be read at all makes the counts uncertain.
 */
import { describe, expect, test } from 'vitest';
import { advanceAcceptance, prepareAcceptance, startAcceptance } from '../../src/acceptance/index.ts';
import { iso4406 } from '../../src/codes/index.ts';
import { advanceMonitor, prepareMonitor, startMonitor } from '../../src/monitor/index.ts';
import { assessReading, type OwnReadingLimits, type Reading, type TimedReading } from '../../src/reading/index.ts';
import { type Problem, parseAcceptanceReading, parseMonitorReading, parseReading } from '../../src/schema/index.ts';

const keeps = { keepReadable: true };
const hour = 3600000;
const start = Date.UTC(2026, 10, 2);
const counts = (k = 0) => ({
  ...{ sizing: 'iso11171', sizes: [4, 6, 14], volumeMl: 10 },
  counted: [3880 + 31 * k, 880 + 9 * k, 80 + k],
});

describe('read as zero, and told', () => {
  test.each<[string, object, object, unknown]>([
    ['a flow', { mlPerMin: -0.2 }, { mlPerMin: 0 }, -0.2],
    ['as text with a point', { mlPerMin: '-0.2' }, { mlPerMin: 0 }, '-0.2'],
    ['the other way round', { mlPerMin: -50 }, { mlPerMin: 0 }, -50],
    ['the lowest that is read', { mlPerMin: -1e12 }, { mlPerMin: 0 }, -1e12],
    ['a dry oil', { waterSaturation: -0.001 }, { waterSaturation: 0 }, -0.001],
    ['at its bound', { waterSaturation: -0.02 }, { waterSaturation: 0 }, -0.02],
  ])('%s', (_what, raw, read, received) => {
    const told: Problem[] = [];
    const [name] = Object.keys(raw) as [string];
    const parsed = parseReading({ celsius: 40, ...raw }, told, keeps);
    expect(parsed).toEqual({ celsius: 40, ...read });
    expect(told).toMatchObject([{ path: [name], code: 'out_of_range' }]);
    expect(told[0]?.received).toBe(typeof received === 'string' ? `'${received}'` : `${received}`);
    expect(told[0]?.expected).toMatch(/^read as 0: /);
  });

  test.each<[string, object]>([
    ['mlPerMin', { mlPerMin: -1.1e12 }],
    ['waterSaturation', { waterSaturation: -0.0201 }],
    ['waterSaturation', { waterSaturation: -0.25 }],
    ['mm2PerS', { mm2PerS: -0.01 }],
    ['mlPerMin', { mlPerMin: '-0,2' }],
  ])('what lies further below, or is no number, is unreadable: %s', (name, raw) => {
    expect(parseReading({ celsius: 40, ...raw }, [], keeps)).toEqual({ celsius: 40, qualities: { [name]: 'bad' } });
  });

  test('pressure and temperature below zero are figures, and zero is zero', () => {
    const told: Problem[] = [];
    const raw = { kPa: -3, celsius: -20, coldestCelsius: -25, mlPerMin: 0, waterSaturation: 0 };
    expect(parseReading(raw, told, keeps)).toEqual(raw);
    expect(told).toEqual([]);
  });

  test('strict doors stay strict', () => {
    const raw = { waterSaturation: -0.001 };
    expect(() => parseReading(raw)).toThrow('reading.waterSaturation');
    expect(() => assessReading(raw)).toThrow('reading.waterSaturation');
    expect(() => assessReading({ mlPerMin: -1.1e12 })).toThrow('reading.mlPerMin');
  });
});

test('a monitor tells no flow, and raises the alarm on little flow', () => {
  const alarm = { id: 'low', type: 'low', figure: { quantity: 'mlPerMin' }, setpoint: 20 } as const;
  const prepared = prepareMonitor({ codes: [{ table: iso4406, target: '18/16/13' }], alarms: [alarm] });
  const perMl = { sizing: 'iso11171', sizes: [4, 6, 14], perMl: [388, 88, 8] };
  const walk = (flow: unknown, parsed = true) => {
    let state = startMonitor(prepared);
    const told: string[] = [];
    let last: unknown;
    for (let k = 0; k < 3; k += 1) {
      const raw = { time: start + k * hour, mlPerMin: k === 0 ? 50 : flow, counts: counts(k) };
      const reading = parsed ? parseMonitorReading(raw, [], keeps) : ({ ...raw, counts: perMl } as TimedReading);
      const step = advanceMonitor(prepared, state, reading);
      state = step.state;
      for (const { event } of step.events) told.push(event);
      const { figureQualities, inTarget, findings } = step.verdict ?? { figureQualities: {}, findings: [] };
      last = { counts: figureQualities.counts, inTarget, findings: findings.map(({ code }) => code) };
    }
    return { told, last };
  };
  const standing = { told: ['raised', 'quality_bad'], last: { counts: 'bad', inTarget: null, findings: ['no_flow'] } };
  for (const flow of [0, -0.2, '-0.2']) expect(walk(flow)).toEqual(standing);
  // as it came, too
  for (const flow of [0, -0.2, -25]) expect(walk(flow, false)).toEqual(standing);
  expect(walk('n/a')).toEqual({
    told: ['quality_bad'],
    last: { counts: 'uncertain', inTarget: true, findings: ['flagged_by_instrument', 'flow_unknown'] },
  });
});

test('a proof counts neither standing oil nor oil of which nobody knows whether it flowed', () => {
  const prepared = prepareAcceptance({ table: iso4406, target: '16/14/11', readings: 3, leastMs: 20 * 60000 });
  const why = (flow: object) => {
    let state = startAcceptance(prepared);
    const told: string[] = [];
    for (let k = 0; k < 3; k += 1) {
      const raw = { time: start + k * 600000, counts: counts(k), ...flow };
      const step = advanceAcceptance(prepared, state, parseAcceptanceReading(raw, [], keeps));
      state = step.state;
      for (const one of step.events) told.push('why' in one ? `${one.why}` : one.event);
    }
    return told;
  };
  expect(why({ mlPerMin: -0.2 })).toEqual(['bad', 'bad', 'bad']);
  expect(why({ mlPerMin: 'n/a' })).toEqual(['uncertain', 'uncertain', 'uncertain']);
  expect(why({ mlPerMin: 50, qualities: { mlPerMin: 'bad' } })).toEqual(['uncertain', 'uncertain', 'uncertain']);
  for (const flow of [{ mlPerMin: 50 }, {}, { mlPerMin: null }])
    expect(why(flow)).toEqual(['counted', 'counted', 'accepted']);
});

describe('a flow that cannot be relied on', () => {
  const of = (reading: object, limits: OwnReadingLimits = {}) => {
    const all = assessReading(
      { counts: { sizing: 'iso11171', sizes: [4], perMl: [400] }, ...reading } as Reading,
      limits,
    );
    return [all.quality, ...all.findings.map(({ code }) => code)];
  };
  const bad = { qualities: { mlPerMin: 'bad' } };

  test('makes the counts uncertain, sent or not', () => {
    expect(of(bad)).toEqual(['uncertain', 'flagged_by_instrument', 'flow_unknown']);
    expect(of({ ...bad, mlPerMin: 50 })).toEqual(['uncertain', 'flagged_by_instrument', 'flow_unknown']);
    expect(of({ ...bad, counts: undefined, codes: { iso4406: '18/16/13' } })[0]).toBe('uncertain');
  });

  test('is none of no flow, which has its own finding, where nothing was counted, and without a flow', () => {
    expect(of({ ...bad, mlPerMin: 0 })).toEqual(['bad', 'no_flow', 'flagged_by_instrument']);
    expect(of({ ...bad, counts: undefined, celsius: 40 })).toEqual(['bad', 'flagged_by_instrument']);
    expect(of({})).toEqual(['good']);
    expect(of({ mlPerMin: 50, qualities: { mlPerMin: 'uncertain' } })).toEqual(['good', 'flagged_by_instrument']);
  });

  test('follows the limits', () => {
    expect(of(bad, { qualities: { flow_unknown: 'bad' } })[0]).toBe('bad');
    expect(of(bad, { qualities: { flow_unknown: 'good' } })[0]).toBe('good');
    // whose instrument flags what is sound
    const milder: OwnReadingLimits = { qualities: { flagged_by_instrument: 'good' } };
    expect(of({ ...bad, mlPerMin: 50 }, milder)).toEqual(['good', 'flagged_by_instrument']);
    expect(of(bad, milder)).toEqual(['uncertain', 'flagged_by_instrument', 'flow_unknown']);
  });
});

test('a flow below 0 is judged as 0 by every check, and takes no other figure with it', () => {
  const limits: OwnReadingLimits = { mlPerMin: { low: 30, high: 90 }, mostKPa: 2500, flushMl: 833, settleMs: 600000 };
  const reading = { time: start, counts: { sizing: 'iso11171', sizes: [4, 6, 14], perMl: [388, 88, 8] } } as const;
  const given = (mlPerMin: number) => ({ ...reading, kPa: 5000, measuringSeconds: 60, celsius: 42, mlPerMin });
  const judged = (flow: number, own: OwnReadingLimits) => {
    const found = assessReading(given(flow), own, [{ ...given(60), time: start - hour }]);
    return { ...found, findings: found.findings.map(({ value, limit: _, ...one }) => [one, value > 0 && value]) };
  };
  for (const own of [{}, limits])
    for (const flow of [-0.01, -0.2, -25]) expect(judged(flow, own)).toEqual(judged(0, own));
  expect(assessReading(given(-0.2), limits).findings.map(({ code }) => code)).toEqual(['no_flow', 'pressure_high']);
  // an alarm on over-pressure is raised
  const high = { id: 'high', type: 'high', figure: { quantity: 'kPa' }, setpoint: 2600 } as const;
  const prepared = prepareMonitor({ codes: [], limits, alarms: [high] });
  const step = advanceMonitor(prepared, startMonitor(prepared), given(-0.1));
  expect(step.events.map(({ event }) => event)).toContain('raised');
  // a setpoint at or below 0 is still one that no flow passes
  const never = { id: 'low', type: 'low', figure: { quantity: 'mlPerMin' }, setpoint: -1 } as const;
  expect(() => prepareMonitor({ codes: [], alarms: [never] })).toThrow('a setpoint above 0');
});
