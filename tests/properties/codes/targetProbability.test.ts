/** How likely a target is met where columns were not counted: as `meets` takes them. */
import { expect, test } from 'vitest';
import { gost17216, iso4406, meets, nas1638, targetProbability } from '../../../src/codes/index.ts';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import { sampleSheet } from '../../../src/report/index.ts';

const microscope = { sizing: 'microscope', volumeMl: 100 } as const;

test('fibres and mass of GOST 17216 are listed, and the particles decide', () => {
  const counts = cumulativeCounts({ 5: 2000, 10: 900, 25: 100, 50: 12, 100: 0, 200: 0 }, microscope);
  const errors = { volume: 0.03, sizing: 0.03 };
  const found = targetProbability(gost17216, '8', counts, errors);
  expect(found.missing).toEqual(['fibres', 'mass %']);
  expect(found.columns.map(({ column }) => column)).toEqual(['5-10', '10-25', '25-50', '50-100', '100-200']);
  // the same table without those two columns
  const { columns, limits, classes } = gost17216;
  const sized = {
    ...{ ...gost17216, id: 'sized', wording: {}, classes: [...classes] },
    columns: columns.slice(0, -2),
    limits: limits.map((row) => row.slice(0, -2)),
  };
  expect(found).toEqual({ ...targetProbability(sized, '8', counts, errors), missing: found.missing });
  expect(found.probability).toBeGreaterThan(0.5);
  expect(sampleSheet(counts, { tables: [gost17216], target: '8', errors }).target?.probability).toBe(found.probability);
  // a size that a counter could have told leaves it open as before
  const { probability, atLeast, missing } = targetProbability(
    gost17216,
    '8',
    cumulativeCounts({ 5: 2000, 10: 900, 25: 100 }, microscope),
    errors,
  );
  expect([probability, atLeast, missing]).toEqual([null, 0, ['25-50', '50-100', '100-200', 'fibres', 'mass %']]);
});

test('none of a size: the larger ones that were not counted are as unsure as a 0 there', () => {
  const to38 = { 6: 20000, 14: 900, 21: 100, 38: 0 };
  for (const volumeMl of [1, 10, 100]) {
    const [without, with70] = [to38, { ...to38, 70: 0 }].map((sizes) => cumulativeCounts(sizes, { volumeMl }));
    for (const target of ['4', '5', '6', '8']) {
      const [found, counted] = [without, with70].map((of) => targetProbability(nas1638, target, of as never));
      expect(found?.missing).toEqual([]);
      expect(Math.abs((found?.probability as number) - (counted?.probability as number))).toBeLessThan(0.005);
    }
  }
  const counts = cumulativeCounts(to38, { volumeMl: 100 });
  expect(targetProbability(nas1638, '8', counts).probability).toBeGreaterThan(0.99);
  expect([meets(nas1638, '8', counts).met, meets(nas1638, '8', counts).missing]).toEqual([true, []]);
  // one particle is not none
  const one = cumulativeCounts({ ...to38, 38: 1 }, { volumeMl: 100 });
  expect(targetProbability(nas1638, '8', one)).toMatchObject({ probability: null, missing: ['50-100', '>100'] });
  const iso = cumulativeCounts({ 4: 30, 6: 0 }, { volumeMl: 10 });
  expect(targetProbability(iso4406, '10/8/8', iso).columns).toHaveLength(3);
  expect(targetProbability(iso4406, '10/-/8', cumulativeCounts({ 4: 30 }, { volumeMl: 10 })).missing).toEqual(['14']);
});

test('of 100 to 200 µm, which no counter to ISO 11171 sizes, there are none beyond none of 70 µm(c)', () => {
  const sizes = { 4.2: 2000, 4.6: 1500, 6.4: 1000, 9.8: 400, 21.2: 50, 38.2: 2, 70: 0 };
  const found = targetProbability(gost17216, '9', cumulativeCounts(sizes, { volumeMl: 100 }));
  expect(found.missing).toEqual(['fibres', 'mass %']);
  expect(found.columns[found.columns.length - 1]?.column).toBe('100-200');
  expect(found.probability).toBeGreaterThan(0.9);
});
