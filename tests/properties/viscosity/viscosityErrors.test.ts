import { describe, expect, test } from 'vitest';
import {
  agmaGradeLimits,
  agmaGrades,
  compareGrades,
  convertViscosity,
  gradesOfOil,
  isoGrade,
  isoGradeLimits,
  lineResiduals,
  pressureViscosityFactor,
  referenceViscosities,
  saeEngineGradeLimits,
  saeEngineGrades,
  saeGearGradeLimits,
  saeGearGrades,
  temperatureAt,
  ubbelohdeWaltherM,
  viscosityAt,
  viscosityAt40OfIndex,
  viscosityAt100OfIndex,
  viscosityIndex,
  viscosityLine,
  viscosityLineOfGrade,
} from '../../../src/viscosity/index.ts';

const at = (celsius: number, mm2PerS: number) => ({ celsius, mm2PerS });
const line = viscosityLine([at(40, 46), at(100, 6.8)]);
const wrong = <T>(value: unknown) => value as T;

test.each([
  // lines
  [() => viscosityLine([]), 'empty', 'points'],
  [() => viscosityLine(wrong(null)), 'wrong_type', 'points'],
  [() => viscosityLine([wrong(7), at(40, 46)]), 'wrong_type', 'points[0]'],
  [() => viscosityLine(Object.assign([at(40, 46), at(60, 20)], { length: 3 })), 'wrong_type', 'points[2]'],
  [() => viscosityLine([at(40, 46)]), 'too_few', 'points'],
  [() => viscosityLine(Array.from({ length: 7 }, () => at(41.3, 46))), 'too_few', 'points'],
  [() => viscosityLine([at(40, 46), at(40, 47), at(40, 45)]), 'too_few', 'points'],
  [() => viscosityLine([at(40, 46), at(40 + 1e-12, 45.9)]), 'too_few', 'points'],
  [() => viscosityLine([at(40, 46), at(45, 36.6), at(49.99, 29.7)]), 'too_few', 'points'],
  [() => ubbelohdeWaltherM([at(40, 46), at(49.99, 29.7)]), 'too_few', 'points'],
  [() => viscosityLine([at(40, 46), at(100, 46)]), 'no_answer', 'points'],
  [() => viscosityLine([at(313, 46), at(373, 6.8)]), 'out_of_range', 'points[0].celsius'],
  [() => ubbelohdeWaltherM([at(313, 46), at(373, 6.8)]), 'out_of_range', 'points[0].celsius'],
  [() => viscosityLine([at(40, 46), at(100, 50)]), 'no_answer', 'points'],
  [() => viscosityLine([at(40, 46), at(100, 0.2)]), 'out_of_range', 'points[1].mm2PerS'],
  [() => viscosityLine([at(40, 2.1e7), at(100, 10)]), 'out_of_range', 'points[0].mm2PerS'],
  [() => viscosityLine([at(-274, 46), at(100, 10)]), 'out_of_range', 'points[0].celsius'],
  [() => viscosityLine([at(Number.NaN, 46), at(100, 10)]), 'not_a_number', 'points[0].celsius'],
  [() => viscosityLine([at(40, 46), at(100, 6)], { form: wrong('long') }), 'unknown_option', 'options.form'],
  [() => viscosityLine([at(40, 46), at(100, 6)], wrong(null)), 'wrong_type', 'options'],
  [() => ubbelohdeWaltherM([at(40, 46)]), 'too_few', 'points'],
  [() => lineResiduals(line, [at(-250, 46)]), 'out_of_range', 'points[0].celsius'],
  [() => viscosityAt(wrong(undefined), 40), 'wrong_type', 'line'],
  [() => viscosityAt({ ...line, a: Number.NaN }, 40), 'not_a_number', 'line.a'],
  [() => viscosityAt({ ...line, b: 0 }, 40), 'out_of_range', 'line.b'],
  [() => viscosityAt({ ...line, form: wrong('') }, 40), 'unknown_option', 'line.form'],
  [() => viscosityAt(line, -273.15), 'out_of_range', 'celsius'],
  [() => viscosityAt(line, Number.POSITIVE_INFINITY), 'infinite', 'celsius'],
  [() => viscosityAt(line, -200), 'out_of_range', 'celsius'],
  [() => viscosityAt(line, 2000), 'out_of_range', 'celsius'],
  [() => viscosityAt({ ...line, a: 1e308, b: 1e308 }, 40), 'out_of_range', 'celsius'],
  [() => temperatureAt(line, 0.2), 'out_of_range', 'mm2PerS'],
  [() => temperatureAt(line, 3e7), 'out_of_range', 'mm2PerS'],
  [() => temperatureAt({ a: 100, b: 1e-5, form: 'full' }, 46), 'no_answer', 'mm2PerS'],
  [() => temperatureAt({ a: -100, b: 1e-5, form: 'full' }, 46), 'no_answer', 'mm2PerS'],
  [() => viscosityLineOfGrade(50, 100), 'unknown_option', 'isoGrade'],
  [() => viscosityLineOfGrade(46, 1001), 'out_of_range', 'viscosityIndex'],
  [() => viscosityLineOfGrade(3, 100), 'out_of_range', 'viscosityIndex'],
  // index
  [() => viscosityIndex(wrong(null)), 'wrong_type', 'kv'],
  [() => viscosityIndex({ at40: 6, at100: 1.99 }), 'out_of_range', 'kv.at100'],
  [() => viscosityIndex({ at40: 6, at100: 6 }), 'out_of_range', 'kv.at40'],
  [() => viscosityIndex({ at40: 3e7, at100: 6 }), 'out_of_range', 'kv.at40'],
  [() => viscosityIndex({ at40: Number.NaN, at100: 6 }), 'not_a_number', 'kv.at40'],
  [() => referenceViscosities(1), 'out_of_range', 'at100'],
  [() => viscosityAt100OfIndex(1, 100), 'out_of_range', 'at40'],
  [() => viscosityAt100OfIndex(46, Number.NaN), 'not_a_number', 'index'],
  [() => viscosityAt100OfIndex(46, 1001), 'out_of_range', 'index'],
  [() => viscosityAt100OfIndex(46, -3000), 'out_of_range', 'index'],
  [() => viscosityAt100OfIndex(2.2, 100), 'out_of_range', 'index'],
  [() => viscosityAt40OfIndex(1, 100), 'out_of_range', 'at100'],
  [() => viscosityAt40OfIndex(7, -1e9), 'out_of_range', 'index'],
  // scales
  [() => convertViscosity(0, 'mm2/s', 'SUS'), 'out_of_range', 'value'],
  [() => convertViscosity(-1, 'mm2/s', 'SUS'), 'negative', 'value'],
  [() => convertViscosity(wrong('46'), 'mm2/s', 'SUS'), 'wrong_type', 'value'],
  [() => convertViscosity(46, wrong('cSt'), 'SUS'), 'unknown_option', 'from'],
  [() => convertViscosity(46, 'mm2/s', wrong('toString')), 'unknown_option', 'to'],
  [() => convertViscosity(46, 'mm2/s', 'SUS', wrong(null)), 'wrong_type', 'options'],
  [() => convertViscosity(46, 'mm2/s', 'SUS', { celsius: Number.NaN }), 'not_a_number', 'options.celsius'],
  // grades
  [() => isoGrade(1.9), 'out_of_range', 'at40'],
  [() => isoGrade(3521), 'out_of_range', 'at40'],
  [() => isoGradeLimits(45), 'unknown_option', 'grade'],
  [() => isoGradeLimits(wrong('46')), 'wrong_type', 'grade'],
  [() => agmaGrades({}), 'too_few', 'kv'],
  [() => agmaGrades({ at40: -1 }), 'negative', 'kv.at40'],
  [() => agmaGrades({ at100: 0 }), 'out_of_range', 'kv.at100'],
  [() => agmaGradeLimits('5 EP'), 'unknown_option', 'grade'],
  [() => saeEngineGrades(0), 'out_of_range', 'at100'],
  [() => saeEngineGrades(10, { hths: 0 }), 'out_of_range', 'options.hths'],
  [() => saeEngineGradeLimits('35'), 'unknown_option', 'grade'],
  [() => saeGearGrades(-1), 'negative', 'at100'],
  [() => saeGearGrades(10, { edition: wrong('1998') }), 'unknown_option', 'options.edition'],
  [() => saeGearGradeLimits('65', { edition: '2005' }), 'unknown_option', 'grade'],
  [() => compareGrades(1001), 'out_of_range', 'viscosityIndex'],
  [() => gradesOfOil(1, 95), 'out_of_range', 'at40'],
  [() => gradesOfOil(3, 95), 'out_of_range', 'viscosityIndex'],
  // pressure
  [() => pressureViscosityFactor(-1, 2e-8), 'negative', 'kPa'],
  [() => pressureViscosityFactor(200000, 2e-8), 'out_of_range', 'kPa'],
  [() => pressureViscosityFactor(1000, 1e-6), 'out_of_range', 'alphaPerPa'],
] as [() => unknown, string, string][])('%s: %s of %s', (act, code, parameter) => {
  expect(act).toThrow(expect.objectContaining({ name: 'MotescaleError', code, parameter }));
});

describe('a refusal names its range and its standard', () => {
  test.each([
    [() => viscosityAt(line, -200), ['-80', '250', 'not in kelvin']],
    [() => viscosityAt(line, -75), ['0.21', '20000000', 'ASTM D341']],
    [() => temperatureAt(line, 0.2), ['0.21', '20000000', 'ASTM D341']],
    [() => viscosityLine([at(40, 46), at(100, 0.2)]), ['0.21', '20000000', 'ASTM D341']],
    [() => viscosityIndex({ at40: 6, at100: 1.99 }), ['2', '20000000', 'ASTM D2270']],
    [() => viscosityAt100OfIndex(46, -3000), ['from -2375 to 744', 'ASTM D2270']],
    [() => viscosityAt100OfIndex(50, 900), ['to 736 (for 50 mm2/s', 'ASTM D2270']],
    [() => viscosityAt100OfIndex(6.8, 50), ['from 75 to 1000', 'ASTM D2270']],
    [() => viscosityLineOfGrade(3, 100), ['no index at all', 'ASTM D2270']],
    [() => isoGrade(1.9), ['1.98', '3520', 'ISO 3448']],
    [() => saeGearGradeLimits('65', { edition: '2005' }), ['70W', '250', 'SAE J306', '2005']],
    [() => saeEngineGradeLimits('35'), ['0W', '60', 'SAE J300']],
    [() => agmaGradeLimits('16'), ['15R', 'AGMA 9005']],
  ] as [() => unknown, string[]][])('%s', (act, parts) => {
    for (const part of parts) expect(act).toThrow(part);
  });
});

test('who writes cSt is told how it is called', () => {
  expect(() => convertViscosity(46, 'cSt' as never, 'SUS')).toThrow(/'mm2\/s', .*; mm2\/s is the same as cSt/);
  expect(() => convertViscosity(214, 'SUS', 'cst' as never)).toThrow(/^to: received 'cst', expected one of 'mm2\/s'/);
});
