/**
 * A target that is met by few particles, in tables that do not mark such classes: what chance leaves open is told.
 *
 * Source of the limits: Garwood, Biometrika 28 (1936) 437.
 */
import { expect, test } from 'vitest';
import { mayPass } from '../../../src/codes/fewCounted.ts';
import {
  as4059Cumulative,
  as4059Differential,
  gost17216,
  iso4406,
  meets,
  nas1638,
  possibleClasses,
} from '../../../src/codes/index.ts';
import { countInterval, cumulativeCounts } from '../../../src/counts/index.ts';
import { sampleSheet, sheetText } from '../../../src/report/index.ts';

const clean = { 4: 900, 6: 100, 14: 30, 21: 2, 38: 0, 70: 0 };

test('none in 10 mL leaves 36.9 per 100 mL possible: NAS 1638 4 allows 4 beyond 100 µm, 11 allows 512', () => {
  const counts = cumulativeCounts(clean, { volumeMl: 10 });
  expect(meets(nas1638, '4', counts)).toMatchObject({ met: true, uncertain: ['50-100', '>100'] });
  expect(meets(nas1638, '11', counts)).toMatchObject({ met: true, uncertain: [] });
  expect(meets(as4059Differential, '4', counts).uncertain).toEqual(['50-100', '>100']);
  expect(meets(as4059Cumulative, '4B-F', counts).uncertain).toContain('F');
  // in a litre there are enough; of counts per mL nothing is known
  expect(
    meets(nas1638, '4', cumulativeCounts({ 4: 900e2, 6: 100e2, 14: 30e2, 21: 200, 38: 0, 70: 0 }, { volumeMl: 1000 })),
  ).toMatchObject({ met: true, uncertain: [] });
  expect(meets(nas1638, '4', cumulativeCounts({ 4: 90, 6: 10, 14: 3, 21: 0.2, 38: 0, 70: 0 })).uncertain).toEqual([]);
});

test('dilution and the share of the sample count', () => {
  // 2 between 14 and 21 µm(c): at most 7.22 in 10 mL, 361 per 100 mL diluted by 5, 722 by 10; NAS 1638 4 allows 712
  const counts = (dilution: number) => cumulativeCounts({ 6: 400, 14: 5, 21: 3 }, { volumeMl: 10, dilution });
  const uncertain = (dilution: number) => meets(nas1638, '4', counts(dilution), { columns: ['15-25'] }).uncertain;
  expect(uncertain(5)).toEqual([]);
  expect(uncertain(10)).toEqual(['15-25']);
});

test('the upper limits are those of the counting statistics, and bound them', () => {
  for (let counted = 0; counted < 20; counted += 1) {
    const { high } = countInterval(counted);
    const at = (perMl: number) => ({ ...iso4406, classes: ['0'], limits: [[perMl, perMl, perMl]] });
    const counts = cumulativeCounts({ 4: counted }, { volumeMl: 1 });
    expect(mayPass(at(high * 0.9999), 0, 0, counts)).toBe(true);
    expect(mayPass(at(high * 1.0003), 0, 0, counts)).toBe(false);
  }
  expect(mayPass(iso4406, 2, 0, cumulativeCounts({ 14: 20 }, { volumeMl: 1 }))).toBe(false);
});

test('a target of GOST 17216 is met where the ranges counted hold more than its own, else not known', () => {
  const counts = cumulativeCounts({ 4: 18900, 6: 4020, 14: 330, 21: 41, 38: 6, 70: 0 });
  const { highest } = possibleClasses(gost17216, counts);
  expect(meets(gost17216, highest, counts)).toMatchObject({ met: true });
  const next = gost17216.classes[gost17216.classes.indexOf(highest) - 1] as string;
  expect(() => meets(gost17216, next, counts)).toThrow(/sizes of column/);
});

test('the sheet says so', () => {
  const sheet = (target: string, volumeMl: number) => {
    const counts = cumulativeCounts(clean, { volumeMl });
    const judged = sampleSheet(counts, { tables: [nas1638], target });
    const text = sheetText(judged).replace(/\s+/g, ' ');
    return [judged.target?.few, text.includes('by few particles in column 50-100, >100')];
  };
  expect(sheet('4', 10)).toEqual([['50-100', '>100'], true]);
  expect(sheet('11', 10)).toEqual([[], false]);
});
