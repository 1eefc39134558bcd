import { describe, expect, test } from 'vitest';
import {
  agma9005Table,
  agmaGradeLimits,
  agmaGrades,
  iso3448Table,
  isoGrade,
  isoGradeLimits,
  type SaeGearEdition,
  saeEngineGradeLimits,
  saeEngineGrades,
  saeGearGradeLimits,
  saeGearGrades,
  saeJ300Table,
  saeJ306Table2005,
  saeJ306Table2019,
} from '../../../src/viscosity/index.ts';
import grades from './grades.json' with { type: 'json' };

describe(grades.iso3448.source.document, () => {
  test.each(grades.iso3448.rows as [number, number, number, number][])('VG %d', (grade, middle, least, most) => {
    expect(isoGradeLimits(grade)).toEqual({ grade, middle, least, most });
    for (const inside of [least, middle, most]) expect(isoGrade(inside)).toEqual({ grade });
    expect(middle * 0.9).toBeCloseTo(least, 9);
    expect(middle * 1.1).toBeCloseTo(most, 9);
  });

  test('an oil in every gap lies between its neighbours', () => {
    expect(iso3448Table).toHaveLength(20);
    for (let i = 1; i < iso3448Table.length; i += 1) {
      const [below, above] = [iso3448Table[i - 1], iso3448Table[i]] as [
        (typeof iso3448Table)[0],
        (typeof iso3448Table)[0],
      ];
      expect(isoGrade((below.most + above.least) / 2)).toEqual({ grade: null, between: [below.grade, above.grade] });
    }
  });
});

describe(grades.agma9005.source.document, () => {
  test.each(grades.agma9005.rows as [string, 40 | 100, number, number][])('%s', (grade, celsius, least, most) => {
    expect(agmaGradeLimits(grade)).toEqual({ grade, celsius, least, most });
    for (const inside of [least, most]) {
      expect(agmaGrades(celsius === 40 ? { at40: inside } : { at100: inside })).toContain(grade);
    }
    expect(agmaGrades(celsius === 40 ? { at40: most * 1.001 } : { at100: most * 1.001 })).not.toContain(grade);
    expect(agmaGrades(celsius === 40 ? { at40: least * 0.999 } : { at100: least * 0.999 })).not.toContain(grade);
  });

  test.each(Object.entries(grades.agma9005.isoOf))('%s has the limits of ISO VG %d', (agma, iso) => {
    const { least, most } = agmaGradeLimits(agma);
    expect(isoGradeLimits(iso)).toMatchObject({ least, most });
  });

  test('has no other number', () => {
    expect(agma9005Table).toHaveLength(grades.agma9005.rows.length);
  });
});

describe(grades.j300.source.document, () => {
  const rows = grades.j300.rows as [string, number, number | null, number | null, ...(number | null)[]][];

  test('every cell', () => {
    const cells = saeJ300Table.map((row) => [
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
    const named = (at100: number) => saeEngineGrades(at100)[below === null ? 'winter' : 'grades'];
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
    expect(saeEngineGrades(at100).grades).toEqual([grade]);
  });

  test('the HTHS viscosity of a row is enough for it, and less is not', () => {
    for (const { grade, least, hthsLeast } of saeJ300Table) {
      // grade 40 has a second row, with a higher limit
      if (hthsLeast === null || (grade === '40' && hthsLeast > 3.5)) continue;
      expect(saeEngineGrades(least, { hths: hthsLeast }).grades).toContain(grade);
      expect(saeEngineGrades(least, { hths: hthsLeast - 0.001 }).grades).not.toContain(grade);
    }
  });

  test.each([
    [14, 3.4, []],
    [14, 3.5, ['40']],
    [6, 1.69, []],
    [6, 1.7, ['8']],
    [6, 2, ['8', '12']],
  ])('%d mm2/s with HTHS %d mPa·s', (at100, hths, expected) => {
    expect(saeEngineGrades(at100, { hths }).grades).toEqual(expected);
  });
});

describe.each(grades.j306)('SAE J306, $edition', ({ edition, rows }) => {
  const table = edition === '2019' ? saeJ306Table2019 : saeJ306Table2005;
  const options = { edition: edition as SaeGearEdition };

  test('every cell', () => {
    expect(table.map((row) => [row.grade, row.least, row.below, row.coldest])).toEqual(rows);
  });

  test.each(rows as [string, number, number | null, number | null][])('%s', (grade, least, below, coldest) => {
    const named = (at100: number) => saeGearGrades(at100, options)[coldest === null ? 'grades' : 'winter'];
    expect(saeGearGradeLimits(grade, options)).toEqual({ grade, least, below, coldest });
    expect(named(least)).toContain(grade);
    expect(named(least - 0.001)).not.toContain(grade);
    if (below !== null) expect(named(below - 0.001)).toContain(grade);
    if (below !== null) expect(named(below)).not.toContain(grade);
  });

  test('13.5 mm2/s is 90 and nothing else', () => {
    expect(saeGearGrades(13.5, options)).toMatchObject({ grades: ['90'], edition });
  });
});
