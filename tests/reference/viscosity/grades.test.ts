import { describe, expect, test } from 'vitest';
import {
  agmaGradeLimits,
  agmaGrades,
  agmaGradesOf,
  isoGrade,
  isoGradeLimits,
  isoGrades,
  type SaeGearEdition,
  saeEngineGradeLimits,
  saeEngineGrades,
  saeEngineGradesOf,
  saeGearGradeLimits,
  saeGearGrades2005,
  saeGearGrades2019,
  saeGearGradesOf,
} from '../../../src/viscosity/index.ts';
import grades from './grades.json' with { type: 'json' };

describe(grades.iso3448.source, () => {
  test.each(grades.iso3448.rows as [number, number, number, number][])('VG %d', (grade, middle, least, most) => {
    expect(isoGradeLimits(grade)).toEqual({ grade, middle, least, most });
    for (const inside of [least, middle, most]) expect(isoGrade(inside)).toEqual({ grade });
    expect(middle * 0.9).toBeCloseTo(least, 9);
    expect(middle * 1.1).toBeCloseTo(most, 9);
  });

  test('an oil in every gap lies between its neighbours', () => {
    expect(isoGrades).toHaveLength(20);
    for (let i = 1; i < isoGrades.length; i += 1) {
      const [below, above] = [isoGrades[i - 1], isoGrades[i]] as [(typeof isoGrades)[0], (typeof isoGrades)[0]];
      expect(isoGrade((below.most + above.least) / 2)).toEqual({ grade: null, between: [below.grade, above.grade] });
    }
  });
});

describe(grades.agma9005.source, () => {
  test.each(grades.agma9005.rows as [string, 40 | 100, number, number][])('%s', (grade, celsius, least, most) => {
    expect(agmaGradeLimits(grade)).toEqual({ grade, celsius, least, most });
    for (const inside of [least, most]) {
      expect(agmaGradesOf(celsius === 40 ? { at40: inside } : { at100: inside })).toContain(grade);
    }
    expect(agmaGradesOf(celsius === 40 ? { at40: most * 1.001 } : { at100: most * 1.001 })).not.toContain(grade);
    expect(agmaGradesOf(celsius === 40 ? { at40: least * 0.999 } : { at100: least * 0.999 })).not.toContain(grade);
  });

  test.each(Object.entries(grades.agma9005.isoOf))('%s has the limits of ISO VG %d', (agma, iso) => {
    const { least, most } = agmaGradeLimits(agma);
    expect(isoGradeLimits(iso)).toMatchObject({ least, most });
  });

  test('has no other number', () => {
    expect(agmaGrades).toHaveLength(grades.agma9005.rows.length);
  });
});

describe(grades.j300.source, () => {
  const rows = grades.j300.rows as [string, number, number | null, number | null, ...(number | null)[]][];

  test('every cell', () => {
    const cells = saeEngineGrades.map((row) => [
      row.grade,
      row.least,
      row.below,
      row.hthsLeast,
      row.crankingMost?.mPaS ?? null,
      row.crankingMost?.celsius ?? null,
      row.pumpingMost?.mPaS ?? null,
      row.pumpingMost?.celsius ?? null,
    ]);
    expect(cells).toEqual(rows);
  });

  test.each(rows)('%s: the lower limit belongs to it, the upper does not', (grade, least, below) => {
    const named = (at100: number) => saeEngineGradesOf(at100)[below === null ? 'winter' : 'grades'];
    expect(named(least)).toContain(grade);
    expect(named(least - 0.001)).not.toContain(grade);
    if (below !== null) expect(named(below - 0.001)).toContain(grade);
    if (below !== null) expect(named(below)).not.toContain(grade);
    expect(saeEngineGradeLimits(grade).map((row) => row.least)).toContain(least);
  });

  test.each([
    [9.3, '30'],
    [12.5, '40'],
  ])('%d mm2/s is %s and nothing else', (at100, grade) => {
    expect(saeEngineGradesOf(at100).grades).toEqual([grade]);
  });

  test.each([
    [14, 3.4, []],
    [14, 3.5, ['40']],
    [6, 1.69, []],
    [6, 1.7, ['8']],
    [6, 2, ['8', '12']],
  ])('%d mm2/s with HTHS %d mPa·s', (at100, hths, expected) => {
    expect(saeEngineGradesOf(at100, { hths }).grades).toEqual(expected);
  });
});

describe.each(grades.j306)('$source', ({ edition, rows }) => {
  const table = edition === '2019' ? saeGearGrades2019 : saeGearGrades2005;
  const options = { edition: edition as SaeGearEdition };

  test('every cell', () => {
    expect(table.map((row) => [row.grade, row.least, row.below, row.coldest])).toEqual(rows);
  });

  test.each(rows as [string, number, number | null, number | null][])('%s', (grade, least, below, coldest) => {
    const named = (at100: number) => saeGearGradesOf(at100, options)[coldest === null ? 'grades' : 'winter'];
    expect(saeGearGradeLimits(grade, options)).toEqual({ grade, least, below, coldest });
    expect(named(least)).toContain(grade);
    expect(named(least - 0.001)).not.toContain(grade);
    if (below !== null) expect(named(below - 0.001)).toContain(grade);
    if (below !== null) expect(named(below)).not.toContain(grade);
  });

  test('13.5 mm2/s is 90 and nothing else', () => {
    expect(saeGearGradesOf(13.5, options)).toMatchObject({ grades: ['90'], edition });
  });
});
