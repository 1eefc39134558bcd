/** A sensor that has failed: what no oil can have is told, and touches that figure alone. */
import { describe, expect, test } from 'vitest';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import { advanceMonitor, prepareMonitor, startMonitor } from '../../../src/monitor/index.ts';
import { assessReading, findingText, type OwnReadingLimits, type Reading } from '../../../src/reading/index.ts';
import { viscosityLineOfGrade } from '../../../src/viscosity/index.ts';

const counts = cumulativeCounts({ 4: 18900, 6: 4020, 14: 330 }, { volumeMl: 10 });
const qualitiesOf = (reading: Reading, limits: OwnReadingLimits = {}) =>
  assessReading({ counts, ...reading }, limits).figureQualities;

describe('a figure that no oil can have', () => {
  test.each([
    ['celsius', 850, 250],
    ['celsius', 250.1, 250],
    ['celsius', 313.15, 250],
    ['celsius', -80.1, -80],
    ['celsius', -273, -80],
    ['kPa', -500, -101.325],
    ['kPa', -101.33, -101.325],
    ['kPa', 25000000, 1000000],
    ['mm2PerS', 0.19, 0.2],
    ['mm2PerS', 3e7, 2e7],
  ] as const)('%s %d', (name, value, limit) => {
    const { findings, figureQualities, quality } = assessReading({ counts, [name]: value });
    expect(findings).toEqual([{ code: 'figure_implausible', quality: 'bad', affects: [name], value, limit }]);
    expect(figureQualities).toEqual({ counts: 'good', [name]: 'bad' });
    expect(quality).toBe('good');
  });

  test.each([
    { celsius: 250 },
    { celsius: -80 },
    { kPa: -101.325 },
    { kPa: 1000000 },
    { mm2PerS: 0.2 },
    { mm2PerS: 2e7 },
  ])('%j is none', (figures) => {
    expect(assessReading({ counts, ...figures }).findings).toEqual([]);
  });

  test('of all three, three findings in words', () => {
    const { findings, unchecked } = assessReading({ counts, celsius: 850, kPa: -500, mm2PerS: 1e8 });
    expect(findings.map(({ affects }) => affects[0])).toEqual(['kPa', 'celsius', 'mm2PerS']);
    expect(findingText(findings[1] as never)).toMatch(
      /^The temperature reads 850, beyond the 250 that an oil can have/,
    );
    expect(unchecked).not.toContain('figure_implausible');
  });

  test('beside it, one at its very end, or the coldest that was, is none', () => {
    for (const beside of [{ kPa: -101.325 }, { kPa: 1000000 }, { coldestCelsius: -200 }]) {
      const { findings } = assessReading({ counts, celsius: 850, ...beside });
      expect(findings.map(({ affects, value }) => [affects, value])).toEqual([[['celsius'], 850]]);
    }
    // and counts for the other checks
    const low = assessReading({ counts, celsius: 850, kPa: -101.325 }, { leastKPa: 10 });
    expect(low.findings.map(({ code }) => code)).toEqual(['pressure_low', 'figure_implausible']);
  });

  test('counts as not measured for every other check', () => {
    const limits = {
      celsius: { low: 0, high: 80 },
      mostMm2PerS: 400,
      leastKPa: 10,
      solubility: { b: 1600 },
      viscosityLine: viscosityLineOfGrade(46, 102),
    };
    for (const celsius of [850, -273]) {
      const { findings, unchecked, figureQualities } = assessReading(
        { counts, celsius, kPa: -500, waterSaturation: 0.5, coldestCelsius: 20 },
        limits,
      );
      expect(findings.map(({ code }) => code)).toEqual(['figure_implausible', 'figure_implausible']);
      for (const code of ['temperature_low', 'temperature_high', 'viscosity_high', 'pressure_low'] as const)
        expect(unchecked).toContain(code);
      expect(unchecked).toContain('cooled_below_saturation');
      expect(figureQualities.counts).toBe('good');
    }
    // the viscosity by the temperature stands in for one that cannot be
    const cold = assessReading({ counts, celsius: -20, mm2PerS: 1e9 }, limits).findings;
    expect(cold.map(({ code }) => code)).toContain('viscosity_high');
  });

  test('a coldest temperature that cannot be leaves its check undone', () => {
    const { findings, unchecked } = assessReading(
      { counts, celsius: 45, waterSaturation: 0.3, coldestCelsius: -200 },
      { solubility: { b: 1600 } },
    );
    expect(findings).toEqual([]);
    expect(unchecked).toContain('cooled_below_saturation');
  });

  test('its bounds are limits', () => {
    expect(qualitiesOf({ celsius: 300 }, { plausibleCelsius: { low: 0, high: 320 } }).celsius).toBe('good');
    expect(qualitiesOf({ celsius: 95 }, { plausibleCelsius: { low: 0, high: 90 } }).celsius).toBe('bad');
    expect(qualitiesOf({ celsius: 850 }, { qualities: { figure_implausible: 'uncertain' } }).celsius).toBe('uncertain');
    const off = assessReading({ counts, celsius: 850 }, { plausibleCelsius: null });
    expect(off.findings).toEqual([]);
    expect(off.unchecked).toContain('figure_implausible');
    expect(() => assessReading({ counts }, { plausibleKPa: { low: 5, high: 4 } })).toThrow(/plausibleKPa.high/);
  });

  test('is unchecked where a figure came that has no bounds, and none other is found', () => {
    const isUnchecked = (figures: Reading, limits: OwnReadingLimits = {}) =>
      assessReading({ counts, ...figures }, limits).unchecked.indexOf('figure_implausible') >= 0;
    expect(isUnchecked({})).toBe(false);
    expect(isUnchecked({ celsius: 40, kPa: 300, mm2PerS: 46 })).toBe(false);
    expect(isUnchecked({ celsius: 40, kPa: 300 }, { plausibleKPa: null })).toBe(true);
    expect(isUnchecked({ celsius: 40 }, { plausibleKPa: null })).toBe(false);
    expect(isUnchecked({ celsius: 850, kPa: 300 }, { plausibleKPa: null })).toBe(false);
  });

  test('raises no alarm of a monitor', () => {
    const hot = { id: 'hot', type: 'high', figure: { quantity: 'celsius' }, setpoint: 65 } as const;
    const prepared = prepareMonitor({ codes: [], alarms: [hot] });
    const { state } = advanceMonitor(prepared, startMonitor(prepared), { time: 0, celsius: 40 });
    const { events } = advanceMonitor(prepared, state, { time: 60000, celsius: 850 });
    const bad = { event: 'quality_bad', figure: 'celsius', findings: ['figure_implausible'] };
    expect(events).toEqual([{ time: 60000, ...bad }]);
  });
});

describe('figures that contradict each other', () => {
  const limits = { solubility: { b: 1600 }, calibrationMs: 1e10 };

  test('a coldest temperature warmer than now: the colder decides', () => {
    const wet = { counts, celsius: 40, waterSaturation: 1.2 };
    const found = (coldestCelsius: number) =>
      assessReading({ ...wet, coldestCelsius }, limits).findings.filter(
        ({ code }) => code === 'cooled_below_saturation',
      );
    expect(found(40)).toHaveLength(1);
    expect(found(60)).toEqual(found(40));
    expect(found(60)[0]?.value).toBe(40);
  });

  test('a calibration after the reading leaves its age unknown', () => {
    const time = 1.8e12;
    const uncheckedOf = (after: number, own = {}) =>
      assessReading({ counts, time, calibratedAt: time + after }, { ...limits, ...own }).unchecked.indexOf(
        'calibration_overdue',
      ) >= 0;
    expect(uncheckedOf(300001)).toBe(true);
    expect(uncheckedOf(300000)).toBe(false);
    expect(uncheckedOf(300001, { clockAheadMs: 400000 })).toBe(false);
    expect(uncheckedOf(300001, { clockAheadMs: null })).toBe(true);
    expect(uncheckedOf(-1)).toBe(false);
  });
});
