/** Grades, blends and scales where one thing alone decides. */
import { describe, expect, test } from 'vitest';
import { requireFractions } from '../../../src/viscosity/blending.ts';
import {
  blendFraction,
  blendViscosity,
  compareGrades,
  convertViscosity,
  gradesOfOil,
  saeEngineGrades,
  saeGearGrades,
  viscosityLine,
} from '../../../src/viscosity/index.ts';

describe('grades', () => {
  test('winter grades are those with a W, the others those without', () => {
    for (const { grades, winter } of [saeEngineGrades(12), saeGearGrades(13.5)]) {
      expect(grades.length).toBeGreaterThan(0);
      expect(winter.length).toBeGreaterThan(2);
      for (const grade of winter) expect(grade).toMatch(/^\d+W$/);
      for (const grade of grades) expect(grade).toMatch(/^\d+$/);
    }
  });

  test('a grade without an upper limit has none at the other temperature either', () => {
    const compared = compareGrades(95);
    expect([...new Set(compared.map(({ system }) => system))]).toEqual([
      ...['ISO 3448', 'AGMA 9005', 'SAE J300', 'SAE J306'],
    ]);
    const open = compared.filter(({ at100, printedAt }) => printedAt === 100 && at100.most === null);
    expect(open.length).toBeGreaterThan(0);
    for (const { at40 } of open) expect(at40.most).toBeNull();
  });

  test('both limits of a grade belong to it', () => {
    // ISO 3448:1992, VG 46: 41.4 to 50.6 mm2/s
    expect([41.4, 50.6, 50.7].map((at40) => gradesOfOil(at40, 95).iso)).toEqual([['46'], ['46'], []]);
  });
});

describe('blends', () => {
  test('a part of nothing changes nothing', () => {
    const parts = [12.1, 46.3, 980.7].map((mm2PerS) => ({ fraction: mm2PerS === 46.3 ? 1 : 0, mm2PerS }));
    for (const method of ['astm', 'refutas'] as const) {
      expect(blendViscosity(parts, method)).toBe(46.3);
      expect(blendViscosity(parts.slice().reverse(), method)).toBe(46.3);
    }
  });

  test('fractions that add to nearly 1 are brought to 1', () => {
    const parts = [0.5, 0.5 + 9e-10].map((fraction) => ({ fraction, mm2PerS: 46 }));
    const [first, second] = requireFractions(parts, 'mm2PerS') as [number, number];
    expect(Math.abs(first + second - 1)).toBeLessThan(3e-16);
  });

  test('two parts alike are named', () => {
    expect(() => blendFraction({ firstMm2PerS: 46, secondMm2PerS: 46, targetMm2PerS: 46 })).toThrow(
      expect.objectContaining({ code: 'no_answer', parameter: 'of' }),
    );
  });
});

describe('scales', () => {
  test('a scale that needs a temperature gives it to the other', () => {
    expect(convertViscosity(200, 'SFS', 'SUS')).toBe(convertViscosity(200, 'SFS', 'SUS', { celsius: 50 }));
    expect(convertViscosity(2000, 'SUS', 'SFS')).toBe(convertViscosity(2000, 'SUS', 'SFS', { celsius: 50 }));
    expect(convertViscosity(200, 'SFS', 'SUS')).not.toBe(
      convertViscosity(convertViscosity(200, 'SFS', 'mm2/s'), 'mm2/s', 'SUS'),
    );
  });

  test('a figure in its own scale stays what it is, to the last bit', () => {
    for (let seconds = 60.1; seconds < 90; seconds += 0.7)
      expect(convertViscosity(seconds, 'SUS', 'SUS')).toBe(seconds);
  });

  test('a line that rises says of how many points', () => {
    const rising = [20, 40, 60].map((celsius) => ({ celsius, mm2PerS: celsius }));
    expect(() => viscosityLine(rising)).toThrow('received 3, expected a viscosity that falls');
  });
});
