/** What a target says of a code: every case of a size kept, failed, missing or resting on few particles. */
import { expect, test } from 'vitest';
import {
  as4059Cumulative,
  cc1246,
  cc1246Count,
  cc1246Level,
  classify,
  gost17216,
  iso4406,
  meets,
  nas1638,
} from '../../../src/codes/index.ts';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import { expectRefused } from '../../inputs/refused.ts';

type Sizes = readonly string[];
type Row = readonly [
  target: string,
  actual: string,
  met: boolean | null,
  classes: number[],
  missing: Sizes,
  few: Sizes,
];

const rows: readonly Row[] = [
  ['18/16/13', '18/16/13', true, [0, 0, 0], [], []],
  ['18/16/13', '17/16/12', true, [1, 0, 1], [], []],
  ['18/16/13', '19/16/12', false, [-1, 0, 1], [], []],
  ['18/16/13', '18/16/>=12', true, [0, 0, 1], [], ['14']],
  ['18/16/13', '18/16/>=13', null, [0, 0, 0], [], ['14']],
  ['18/16/13', '18/16/>=14', false, [0, 0, -1], [], ['14']],
  ['18/16/13', '19/16/>=13', false, [-1, 0, 0], [], ['14']],
  ['18/16/13', '18/-/13', null, [0, 0], ['6'], []],
  ['18/16/13', '19/-/13', false, [-1, 0], ['6'], []],
  ['18/16/13', '18/*/13', false, [0, -13, 0], [], []],
  ['18/16/13', '>28/16/13', false, [-11, 0, 0], [], []],
  ['18/-/13', '18/28/13', true, [0, 0], [], []],
  ['18/-/-', '-/16/13', null, [], ['4'], []],
  ['>28/-/13', '>28/-/13', true, [0, 0], [], []],
  ['>28/-/13', '*/-/13', true, [0, 0], [], []],
  ['>28/-/13', '28/-/13', true, [1, 0], [], []],
];

test.each(rows)('ISO 4406 %s of %s: %s', (target, actual, met, classes, missing, uncertain) => {
  const found = meets(iso4406, target, actual);
  expect([found.met, found.margins.map((margin) => margin.classes)]).toEqual([met, classes]);
  expect([found.missing, found.uncertain]).toEqual([missing, uncertain]);
});

test.each<[string, string, boolean | null]>([
  ['8', '8', true],
  ['8', '9', false],
  ['8', '>12', false],
  ['8', '8 or dirtier', null],
  ['8', '00 or dirtier', null],
  ['8', '9 or dirtier', false],
  ['>12', '>12', true],
])('NAS 1638 %s of %s: %s', (target, actual, met) => {
  const found = meets(nas1638, target, actual);
  expect(found.met).toBe(met);
  expect(found.missing.length).toBe(met === null ? 5 : 0);
});

test.each<[string, string, boolean | null, Sizes]>([
  ['7B/6C/5D', '6B-F', null, ['D']],
  ['7B/6C/5D', '6B-D', null, ['D']],
  ['5B/5C/5D', '6B-D', false, []],
  ['5B-F', '6B-F', false, []],
  ['5B-F', '6A-F', null, ['B', 'C', 'D', 'E', 'F']],
  ['6B-F', '6B-F', true, []],
  ['5D', '6D/7E-F', false, []],
  ['12B', '>12B-F', null, ['B']],
  ['12B', '>12B', false, []],
  ['12B-F', '>12B-F', false, []],
  ['5C/5E', '6B/6C/6D-F', false, ['E']],
])('a class for several sizes together: SAE AS4059 %s of %s: %s', (target, actual, met, missing) => {
  expect(meets(as4059Cumulative, target, actual)).toMatchObject({ met, missing });
});

test('one class for all was decided by any of the columns, also by one that is not judged', () => {
  const of = (actual: string) => meets(nas1638, '2', actual, { columns: ['5-15'] });
  expect([of('2').met, of('3').met, of('>12').met, of('8 or dirtier').met]).toEqual([true, null, null, null]);
  expect(of('3')).toMatchObject({ margins: [], missing: ['5-15'] });
});

test('with no particle of a size, there is none of a larger one that was not counted', () => {
  const nas = (at38: number, target = '8') =>
    meets(nas1638, target, cumulativeCounts({ 6: 3200, 14: 1300, 21: 60, 38: at38 }, { per: '100mL' }));
  // between 6, 14, 21 and 38: 1900, 1240 and 60, classes 3, 5 and 3
  expect(nas(0)).toEqual({
    ...{ met: true, missing: [], uncertain: [] },
    margins: [
      { column: '5-15', classes: 5 },
      { column: '15-25', classes: 3 },
      { column: '25-50', classes: 5 },
    ],
  });
  expect(nas(0, '4')).toMatchObject({ met: false, missing: [] });
  // class 5 allows 45 from 50 to 100 µm and 8 above, so of 8 in all both ranges keep it
  expect([nas(8, '5').met, nas(9, '5').met, nas(9, '5').missing]).toEqual([true, null, ['>100']]);
  // neither way does another size's target matter, nor one that nothing was counted below
  expect(meets(iso4406, '-/-/3', cumulativeCounts({ 4: 2, 6: 0 }))).toMatchObject({ met: true, margins: [] });
  expect(meets(iso4406, '3/-/-', cumulativeCounts({ 6: 0, 14: 0 }))).toMatchObject({ met: null, missing: ['4'] });
  const as4059 = (at38: number) =>
    meets(as4059Cumulative, '6B-F', cumulativeCounts({ 6: 900, 14: 90, 21: 20, 38: at38 }, { per: '100mL' }));
  expect([as4059(0).met, as4059(1).met, as4059(0).missing, as4059(1).missing]).toEqual([true, null, [], ['F']]);
});

test('no particle counted may be one too many for class 0 of ISO 4406, where so few are marked', () => {
  const of = (target: string, volumeMl?: number) =>
    meets(iso4406, target, cumulativeCounts({ 4: 0, 6: 0 }, volumeMl === undefined ? {} : { volumeMl }));
  expect([of('0/0/0').met, of('1/1/1').met]).toEqual([true, true]);
  expect([of('0/0/0', 10).met, of('1/1/0', 10).met, of('1/1/1', 10).met]).toEqual([null, null, true]);
  expect(of('1/1/0', 10).missing).toEqual(['14']);
});

test('columns asked for alone are judged alone', () => {
  const judged = (columns: string[]) => meets(iso4406, '18/16/13', '19/16/-', { columns });
  expect(judged(['6'])).toEqual({ met: true, margins: [{ column: '6', classes: 0 }], missing: [], uncertain: [] });
  expect([judged(['4']).met, judged(['14']).met, judged(['6', '14']).met]).toEqual([false, null, null]);
  // the target asks for nothing of the column judged: nothing is shown
  expect(meets(iso4406, '18/-/13', '19/16/-', { columns: ['6'] })).toEqual({
    met: null,
    margins: [],
    missing: [],
    uncertain: [],
  });
});

test("fibres and mass are no counter's: they are missing, and the particles decide", () => {
  const of = (target: string, at25: number) =>
    meets(gost17216, target, cumulativeCounts({ 5: 3200, 10: 1300, 25: at25, 50: 5, 100: 1, 200: 0 }, microscope));
  const microscope = { sizing: 'microscope', volumeMl: 100 } as const;
  // 1240 between 10 and 25 are class 8, all else is cleaner
  expect(of('8', 60)).toMatchObject({ met: true, missing: ['fibres', 'mass %'], uncertain: [] });
  expect(of('7', 60)).toMatchObject({ met: false, missing: ['fibres', 'mass %'] });
  const without100 = (at50: number) =>
    meets(gost17216, '9', cumulativeCounts({ 5: 3200, 10: 1300, 25: 60, 50: at50 }, microscope));
  // no more than 13 are of 100 µm and larger: between 50 and 100 class 9 allows 50, above 100 it allows 12
  expect(without100(51)).toMatchObject({ met: null, missing: ['50-100', '100-200', 'fibres', 'mass %'] });
  expect(without100(13)).toMatchObject({ met: null, missing: ['100-200', 'fibres', 'mass %'] });
  expect(without100(12)).toMatchObject({ met: true, missing: ['fibres', 'mass %'] });
});

test('of none of 70 µm(c) there are none of 100 to 200 µm, which no counter to ISO 11171 sizes', () => {
  const sizes = { 4.2: 20, 4.6: 15, 6.4: 10, 9.8: 4, 21.2: 0.5, 38.2: 0.02 };
  const of = (at70: number) => cumulativeCounts({ ...sizes, 70: at70 });
  expect(meets(gost17216, '10', of(0))).toMatchObject({ met: true, missing: ['fibres', 'mass %'] });
  expect([classify(gost17216, of(0)).text, classify(gost17216, of(0.02)).text]).toEqual(['6', '6']);
  // class 6 allows 2 per 100 mL above 100 µm
  const dirtier = classify(gost17216, { ...of(0.02), perMl: [...of(0.02).perMl.slice(0, 5), 0.07, 0.07] });
  expect([dirtier.text, dirtier.missing]).toEqual(['6 or dirtier', ['100-200', 'fibres', 'mass %']]);
  const without = cumulativeCounts(sizes);
  expect(meets(gost17216, '10', without).met).toBe(true);
  const levels = (at70: number) => classify(cc1246, cumulativeCounts({ ...sizes, 13.6: 2, 70: at70 })).text;
  expect([levels(0), levels(0.01)]).toEqual(['100', '100 or dirtier']);
});

test('a size for which the class of the target sets no limit is not asked for', () => {
  const { margins } = meets(gost17216, '17', '17');
  const unset = gost17216.limits[gost17216.classes.indexOf('17')]?.filter((limit) => limit === null).length as number;
  expect(unset).toBeGreaterThan(0);
  expect(margins).toHaveLength(gost17216.columns.length - unset);
});

test.each(['-/-/-', '18/*/13'])('%s is no target', (target) => {
  expectRefused('bad_code', 'target', "a class for at least one size, and no '*'", () =>
    meets(iso4406, target, '18/16/13'),
  );
});

test('a class or dirtier is no target', () => {
  expectRefused('bad_code', 'target', 'a class for at least one size', () => meets(nas1638, '8 or dirtier', '8'));
});

test('level 1 of IEST-STD-CC1246 is one particle of 1 µm; less has no level', () => {
  expect([cc1246Level(1, 1), cc1246Level(0.999, 1), cc1246Level(0, 5), cc1246Count(1, 1)]).toEqual([1, null, null, 1]);
  expect(cc1246Level(cc1246Count(100, 25), 25)).toBeCloseTo(100, 9);
  expect(cc1246.classes).toContain('100');
});
