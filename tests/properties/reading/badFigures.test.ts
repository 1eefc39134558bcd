/** A figure that is bad, and a viscosity that contradicts its line, pass no check; what they find stays. */
import { describe, expect, test } from 'vitest';
import { advanceAcceptance, prepareAcceptance, startAcceptance } from '../../../src/acceptance/index.ts';
import { iso4406 } from '../../../src/codes/index.ts';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import { advanceMonitor, prepareMonitor, startMonitor } from '../../../src/monitor/index.ts';
import { assessReading, type FigureName, type OwnReadingLimits, type Reading } from '../../../src/reading/index.ts';
import { viscosityAt, viscosityLineOfGrade } from '../../../src/viscosity/index.ts';

const oil = viscosityLineOfGrade(46, 102);
const limits: OwnReadingLimits = {
  mlPerMin: { low: 30, high: 90 },
  leastKPa: 30,
  mostKPa: 600,
  celsius: { low: 15, high: 80 },
  mostMm2PerS: 100,
  viscosityLine: oil,
  solubility: { b: 1413 },
  flushMl: 100,
};
const counts = cumulativeCounts({ 4: 18900, 6: 4020, 14: 330 }, { volumeMl: 10 });
const figures = { mlPerMin: 60, kPa: 34, celsius: 42, mm2PerS: 42, waterSaturation: 0.4 };
const sound: Reading = { ...figures, counts, time: 0, measuringSeconds: 30, coldestCelsius: 38 };
/** The figures of a reading that have a quality of their own, beside the counts. */
const names = Object.keys(figures) as (keyof typeof figures)[];
const flagged = (name: FigureName, value?: number) =>
  ({ ...sound, ...(value === undefined ? {} : { [name]: value }), qualities: { [name]: 'bad' } }) as Reading;
const codesOf = (reading: Reading, own = limits) => assessReading(reading, own).findings.map(({ code }) => code);

describe('a figure that the instrument calls bad', () => {
  test.each(names)('leaves unchecked what it would without being sent: %s', (name) => {
    const bad = flagged(name);
    const { [name]: _left, ...without } = bad;
    const asked = assessReading(bad, limits).unchecked.slice().sort();
    expect(asked).toEqual(assessReading(without, limits).unchecked.slice().sort());
    expect(asked).not.toEqual(assessReading(sound, limits).unchecked.slice().sort());
    // where the limits call it no more than uncertain it is evidence as before
    const mild: OwnReadingLimits = { ...limits, qualities: { flagged_by_instrument: 'uncertain' } };
    expect(assessReading(bad, mild).unchecked).toEqual(assessReading(sound, mild).unchecked);
  });

  test('still finds what is against the oil', () => {
    expect(codesOf(flagged('kPa', 10))).toEqual(['pressure_low', 'flagged_by_instrument']);
    expect(codesOf(flagged('celsius', 81))).toContain('temperature_high');
    expect(codesOf(flagged('waterSaturation', 0.97))).toContain('free_water_likely');
    expect(codesOf(flagged('mlPerMin', 20))).toContain('flow_low');
    // none is none, whoever says so
    expect(codesOf(flagged('mlPerMin', 0))).toEqual(['no_flow', 'flagged_by_instrument']);
  });

  test('gives way to another source', () => {
    const cold: Reading = { ...flagged('mm2PerS'), celsius: 20 };
    const { findings, unchecked, quality } = assessReading(cold, limits);
    const high = findings.filter(({ code }) => code === 'viscosity_high').map(({ value }) => value);
    expect([high, quality]).toEqual([[viscosityAt(oil, 20)], 'uncertain']);
    expect(unchecked).not.toContain('viscosity_high');
    // a sound viscometer needs no thermometer, which may show what it will
    const { unchecked: others, findings: found } = assessReading(flagged('celsius', -20), limits);
    expect(others).not.toContain('viscosity_high');
    expect(found.map(({ code }) => code)).not.toContain('viscosity_high');
  });

  test('flushes no line', () => {
    const minute = 60000;
    const at = (i: number, bad: boolean): Reading => ({
      counts: cumulativeCounts({ 4: 18900 + 7 * i, 6: 4020 - 3 * i, 14: 330 + i }, { volumeMl: 10 }),
      time: i * minute,
      mlPerMin: i === 0 ? 0 : 60,
      ...(bad && i > 0 ? { qualities: { mlPerMin: 'bad' } } : {}),
    });
    const passed = (bad: boolean) =>
      assessReading(
        at(4, false),
        limits,
        [0, 1, 2, 3].map((i) => at(i, bad)),
      );
    expect(passed(false).findings).toEqual([]);
    expect(passed(true).findings.map(({ code, value }) => [code, value])).toEqual([['standing_oil', 0]]);
    const first = assessReading(at(1, true), limits);
    for (const code of ['no_flow', 'flow_low', 'flow_high', 'standing_oil'] as const)
      expect(first.unchecked).toContain(code);
  });

  test('proves nothing', () => {
    const prepared = prepareAcceptance({ table: iso4406, target: '18/16/13', readings: 5, leastMs: 2400000, limits });
    const proof = (more: Omit<Reading, 'time'>) => {
      let state = startAcceptance(prepared);
      for (let i = 0; i < 8 && state.accepted === undefined; i += 1) {
        const now = cumulativeCounts({ 4: 18900 + 17 * i, 6: 4020 - 3 * i, 14: 330 + i }, { volumeMl: 10 });
        const reading = { ...sound, counts: now, time: i * 600000, flushedMl: 500, mlPerMin: 60 + i / 10, ...more };
        state = advanceAcceptance(prepared, state, reading).state;
      }
      return state;
    };
    expect(proof({}).accepted?.run.unchecked).not.toContain('pressure_low');
    expect(proof({ qualities: { kPa: 'bad' } }).accepted?.run.unchecked).toContain('pressure_low');
    expect(proof({ celsius: 16, qualities: { mm2PerS: 'bad' } })).toMatchObject({ notCounted: 8 });
    expect(proof({ celsius: 16, qualities: { mm2PerS: 'bad' } }).accepted).toBeUndefined();
  });
});

test('a thermometer that a monitor finds stuck passes no check from that reading on', () => {
  const prepared = prepareMonitor({ codes: [], limits });
  let state = startMonitor(prepared);
  const of: boolean[][] = [];
  for (let i = 0; i < 24 * 90; i += 1) {
    const raw = { 4: 18900 + ((37 * i) % 113), 6: 4020 - (i % 9), 14: 330 + (i % 5) };
    const now = cumulativeCounts(raw, { volumeMl: 10 });
    const celsius = i < 24 * 60 ? 40 + ((i * 29) % 71) / 10 : 46.3;
    const step = advanceMonitor(prepared, state, { time: i * 3600000, counts: now, celsius });
    state = step.state;
    const { figureQualities, unchecked = [] } = step.verdict ?? {};
    of.push([figureQualities?.celsius === 'bad', unchecked.indexOf('viscosity_high') >= 0]);
  }
  expect(of.filter(([bad]) => bad).length).toBeGreaterThan(24 * 20);
  expect(of.filter(([bad, isUnchecked]) => bad !== isUnchecked)).toEqual([]);
});

describe('a viscosity that contradicts the line of the oil', () => {
  const high = (celsius: number, mm2PerS: number, own: OwnReadingLimits = limits) => {
    const { findings, unchecked } = assessReading({ celsius, mm2PerS, counts }, own);
    const [found] = findings.filter(({ code }) => code === 'viscosity_high').map(({ value }) => value);
    return found ?? (unchecked.indexOf('viscosity_high') < 0 ? 'none' : 'unchecked');
  };

  test('is held against the limit by the greater of the two', () => {
    expect(high(20, 33)).toBe(viscosityAt(oil, 20));
    expect(high(42, 120)).toBe(120);
    expect(high(42, 20)).toBe('none');
    // within the share the measured one decides
    expect(viscosityAt(oil, 22)).toBeGreaterThan(100);
    expect(high(22, 99)).toBe('none');
  });

  test('so too where that makes both bad', () => {
    const own: OwnReadingLimits = { ...limits, qualities: { viscosity_off_line: 'bad' } };
    expect(high(20, 33, own)).toBe(viscosityAt(oil, 20));
    expect(high(42, 120, own)).toBe(120);
    expect(high(42, 20, own)).toBe('unchecked');
  });
});
