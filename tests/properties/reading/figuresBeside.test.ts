/** What a reading's figures say of each other, at the ends of what can be said. */
import { describe, expect, test } from 'vitest';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import { advanceMonitor, prepareMonitor, startMonitor } from '../../../src/monitor/index.ts';
import { assessReading, type FindingCode, type OwnReadingLimits, type Reading } from '../../../src/reading/index.ts';
import { temperatureAt, viscosityAt, viscosityLineOfGrade } from '../../../src/viscosity/index.ts';
import { fromDoubleLog } from '../../../src/viscosity/line/doubleLogarithm.ts';

/** The finding of a code: its figure and limit, `none`, or `unchecked`. */
function told(code: FindingCode, reading: Reading, own: OwnReadingLimits, earlier: readonly Reading[] = []) {
  const { findings, unchecked } = assessReading(reading, own, earlier);
  const found = findings.filter((one) => one.code === code).map(({ value, limit }) => [value, limit]);
  return found[0] ?? (unchecked.indexOf(code) < 0 ? 'none' : 'unchecked');
}

describe('a viscosity beside the line of the oil', () => {
  const line = { a: 9, b: 3.5, form: 'full' } as const;
  const of = (celsius: number, mm2PerS: number, own: OwnReadingLimits = {}) =>
    told('viscosity_off_line', { celsius, mm2PerS }, { viscosityLine: line, ...own });
  const at = (celsius: number) => fromDoubleLog(line.a - line.b * Math.log10(celsius + 273.15), 'full') as number;

  test('may be a quarter more, and as much less', () => {
    const usual = at(40);
    expect(of(40, usual * 1.2499)).toBe('none');
    expect(of(40, usual / 1.2499)).toBe('none');
    for (const off of [1.2501, 1 / 1.2501]) {
      const [value, limit] = of(40, usual * off) as [number, number];
      expect(value).toBe(usual * off);
      expect(limit / usual).toBeCloseTo(1, 12);
    }
    expect(of(40, usual * 2.99, { viscosityShare: 2 })).toBe('none');
    expect(of(40, usual * 3.01, { viscosityShare: 2 })).not.toBe('none');
  });

  test('is not checked where the line says nothing, or nothing is set', () => {
    // no temperature of an oil, and none at all
    expect(of(-200, 1000)).toBe('unchecked');
    expect(of(-273.15, 1000, { plausibleCelsius: null })).toBe('unchecked');
    expect(of(40, 1000, { viscosityLine: null })).toBe('unchecked');
    expect(of(40, 1000, { viscosityShare: null })).toBe('unchecked');
  });
});

describe('a viscosity beside a line that has ended', () => {
  const thick = viscosityLineOfGrade(1500, 92);
  // 2e7 mm²/s at -31.4 °C
  const of = (celsius: number, mm2PerS: number) =>
    told('viscosity_off_line', { celsius, mm2PerS }, { viscosityLine: thick, plausibleMm2PerS: null });
  const high = (celsius: number, mostMm2PerS: number, viscosityLine = thick) =>
    told('viscosity_high', { celsius }, { viscosityLine, mostMm2PerS, plausibleCelsius: null });

  test('is too high where the oil is too thick for the chart', () => {
    const [value] = high(-31, 400) as [number, number];
    expect(value).toBeGreaterThan(1e7);
    for (const celsius of [-32, -60, -80]) expect(high(celsius, 400)).toEqual([2e7, 400]);
    // how thick it is nobody knows
    expect(high(-32, 2e7)).toBe('unchecked');
    expect(high(-32, 3e7)).toBe('unchecked');
  });

  test('and is not where it is too thin', () => {
    const steep = { a: 11.5, b: 4.9, form: 'full' } as const;
    expect(() => viscosityAt(steep, 240)).toThrow(/0.21/);
    expect(high(240, 400, steep)).toBe('none');
    expect(high(240, 0.21, steep)).toBe('none');
    expect(high(240, 0.2, steep)).toBe('unchecked');
  });

  test('is off the line where it lies on the other side of its end', () => {
    expect(of(-32, 400)).toEqual([400, 2e7]);
    expect(of(-32, 2e7 / 1.2501)).toEqual([2e7 / 1.2501, 2e7]);
    for (const unknown of [2e7 / 1.2499, 2e7, 1e8]) expect(of(-32, unknown)).toBe('unchecked');
    const steep = { a: 11.5, b: 4.9, form: 'full' } as const;
    const hot = (mm2PerS: number) =>
      told('viscosity_off_line', { celsius: 240, mm2PerS }, { viscosityLine: steep, plausibleMm2PerS: null });
    expect(hot(46)).toEqual([46, 0.21]);
    for (const unknown of [0.25, 0.21, 0.1]) expect(hot(unknown)).toBe('unchecked');
  });
});

describe('a viscosity that was not measured', () => {
  // VG 46 of index 100, mm²/s by ASTM D341
  const oil = viscosityLineOfGrade(46, 100);
  const own = { mostMm2PerS: 100, viscosityLine: oil };
  const of = (reading: Reading, limits: OwnReadingLimits = own) => told('viscosity_high', reading, limits);

  test('is that of the temperature by the line of the oil', () => {
    const [value, limit] = of({ celsius: 5 }) as [number, number];
    expect([value, limit]).toEqual([viscosityAt(oil, 5), 100]);
    expect(value).toBeCloseTo(387, 0);
    const border = temperatureAt(oil, 100);
    expect(of({ celsius: border + 0.01 })).toBe('none');
    expect(of({ celsius: border - 0.01 })).toEqual([viscosityAt(oil, border - 0.01), 100]);
  });

  test('stands back behind one that was and fits the line, in either direction', () => {
    expect(of({ celsius: temperatureAt(oil, 101), mm2PerS: 99 })).toBe('none');
    expect(of({ celsius: 5, mm2PerS: 99 })).toEqual([viscosityAt(oil, 5), 100]);
    expect(of({ celsius: 40, mm2PerS: 101 })).toEqual([101, 100]);
  });

  test('is not checked without a temperature that can be, a line, or a limit', () => {
    expect(of({ mlPerMin: 45 })).toBe('unchecked');
    expect(of({ celsius: 5 }, { mostMm2PerS: 100 })).toBe('unchecked');
    expect(of({ celsius: 5 }, { viscosityLine: oil })).toBe('unchecked');
    for (const celsius of [-200, -273.15]) expect(of({ celsius })).toBe('unchecked');
  });

  test('is checked in a monitor alike, and makes the counts uncertain alone', () => {
    const prepared = prepareMonitor({ codes: [], alarms: [], limits: own });
    const counts = cumulativeCounts({ 4: 12880, 6: 4790, 14: 325 }, { volumeMl: 10 });
    const { verdict } = advanceMonitor(prepared, startMonitor(prepared), { time: 0, celsius: 5, counts });
    expect(verdict?.findings.map(({ code, value }) => [code, value])).toEqual([
      ['viscosity_high', viscosityAt(oil, 5)],
    ]);
    expect(verdict?.figureQualities).toEqual({ counts: 'uncertain', celsius: 'good' });
    expect(verdict?.unchecked).not.toContain('viscosity_high');
  });
});

describe('oil that was colder', () => {
  const of = (b: number, waterSaturation: number, coldestCelsius: number, celsius = 45) =>
    told(
      'cooled_below_saturation',
      { waterSaturation, celsius, coldestCelsius },
      { solubility: { b }, freeWaterSaturation: null, plausibleCelsius: null },
    );

  test('was saturated below the temperature at which its water is all it holds', () => {
    // log10 of the saturation rises by b times the change of 1/T
    const saturated = 1 / (1 / 318.15 + Math.log10(1 / 0.3) / 1600) - 273.15;
    const [value, limit] = of(1600, 0.3, saturated - 0.001) as [number, number];
    expect(value).toBe(saturated - 0.001);
    expect(limit).toBeCloseTo(saturated, 9);
    expect(of(1600, 0.3, saturated + 0.001)).toBe('none');
    expect(of(1600, 1, 44.9)).toEqual([44.9, expect.closeTo(45, 9)]);
  });

  test('without any water never was', () => {
    expect(of(1600, 0, -273.15)).toBe('none');
    // twice as much as it holds: saturated at some temperature, of the flattest oil too
    const [, limit] = of(500, 2, 999, 1000) as [number, number];
    expect(limit).toBeGreaterThan(1000);
    expect(limit).toBeLessThan(6000);
  });

  test('is not checked without one of the three, or the line of the oil', () => {
    const all = { waterSaturation: 0.3, celsius: 45, coldestCelsius: 0 };
    const own = { solubility: { b: 1600 } };
    const without = (name: keyof typeof all) => told('cooled_below_saturation', { ...all, [name]: undefined }, own);
    expect(told('cooled_below_saturation', all, own)).not.toBe('unchecked');
    for (const name of ['waterSaturation', 'celsius', 'coldestCelsius'] as const)
      expect(without(name)).toBe('unchecked');
    expect(told('cooled_below_saturation', all, {})).toBe('unchecked');
  });
});

describe('two channels with one count', () => {
  const of = (perMl: readonly number[], sizes: readonly number[], readings = 3, beside: object = {}, own = {}) => {
    const given = Array.from({ length: readings }, (_x, i) => ({
      counts: { sizing: 'iso11171' as const, sizes, perMl: perMl.map((n) => n + (i % 2)), ...beside },
    }));
    const last = { counts: { ...(given[0] as (typeof given)[0]).counts, perMl } };
    return told('channels_equal', last, { stuckChance: null, ...own }, given.slice(0, -1));
  };
  // from 6 to 14 µm the flattest dirt leaves 10^(-0.926 (log10² 14 - log10² 6)) of its particles
  const left = 10 ** (-0.926 * (Math.log10(14) ** 2 - Math.log10(6) ** 2));

  test('show each other where it comes three times and dirt leaves many between them', () => {
    const [value, limit] = of([900, 400, 400], [4, 6, 14]) as [number, number];
    expect(value).toBe(400);
    expect(limit).toBeCloseTo(400 * (1 - left), 9);
    expect(of([900, 400, 400], [4, 6, 14], 2)).toBe('none');
    expect(of([900, 400, 399], [4, 6, 14])).toBe('none');
    expect(of([900, 400, 400], [4, 6, 14], 3, {}, { flattestSteepness: null })).toBe('unchecked');
    expect(of([900], [4])).toBe('unchecked');
  });

  test('say nothing where hardly any particle lies between them', () => {
    // 20 expected between, and 2 per mL: so much is needed of what was counted and of what is shown
    const counted = (n: number) => {
      const all = [9000, n, n];
      const counts = { sizing: 'iso11171' as const, sizes: [4, 6, 14], perMl: all, counted: all, volumeMl: 1 };
      return told('channels_equal', { counts }, { stuckChance: null }, [{ counts }, { counts }]);
    };
    expect(counted(Math.ceil(20 / (1 - left)))).not.toBe('none');
    expect(counted(Math.floor(20 / (1 - left)))).toBe('none');
    const shown = (n: number) => of([900, n, n], [4, 6, 14], 3, { volumeMl: 100 });
    expect(shown(2.001 / (1 - left))).not.toBe('none');
    expect(shown(1.999 / (1 - left))).toBe('none');
  });

  test('say nothing below 1 µm, where no dirt is known', () => {
    expect(of([9000, 9000, 10], [0.5, 0.9, 4])).toBe('none');
    expect(of([9000, 9000, 10], [0.5, 4, 6])).toBe('none');
    expect(of([9000, 9000, 10], [1, 4, 6])).not.toBe('none');
  });
});

test('volume, flow and time are compared where all are told, the flow runs and the share is not switched off', () => {
  const counts = { sizing: 'iso11171', sizes: [4], perMl: [900], volumeMl: 100 } as const;
  const whole: Reading = { counts, mlPerMin: 50, measuringSeconds: 60 };
  const of = (change: object, own: OwnReadingLimits = { countedShare: 1 }) =>
    told('volume_disagrees', { ...whole, ...change }, own);
  expect(of({})).toEqual([100, 50]);
  expect(of({ mlPerMin: 0 })).toBe('unchecked');
  expect(of({ mlPerMin: undefined })).toBe('unchecked');
  expect(of({ measuringSeconds: undefined })).toBe('unchecked');
  expect(of({ counts: { ...counts, volumeMl: undefined } })).toBe('unchecked');
  expect(of({ counts: undefined })).toBe('unchecked');
  expect(of({}, { countedShare: null })).toBe('unchecked');
});

test('a finding has its sizes only where it is about some', () => {
  const [high] = assessReading({ celsius: 90 }, { celsius: { low: 0, high: 80 } }).findings;
  expect(Object.keys(high as object)).toEqual(['code', 'quality', 'affects', 'value', 'limit']);
  const counts = { sizing: 'iso11171', sizes: [4, 6], perMl: [1, 2] } as const;
  const rise = assessReading({ counts }).findings[0] as object;
  expect(Object.keys(rise)).toEqual(['code', 'quality', 'affects', 'value', 'limit', 'sizes', 'sizing']);
});
