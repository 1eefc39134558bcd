/** A period judged by a table of ranges: the codes are those of readings, since ranges do not add up to one. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { as4059Differential, classify, nas1638 } from '../../../src/codes/index.ts';
import { type CumulativeCounts, cumulativeCounts } from '../../../src/counts/index.ts';
import { periodFigures } from '../../../src/report/index.ts';
import { some } from '../../volume.ts';

const sizes = [6, 14, 21, 38, 70];
const samples = fc
  .array(fc.array(fc.integer({ min: 0, max: 400 }), { minLength: 5, maxLength: 5 }), { minLength: 1, maxLength: 9 })
  .map((list) =>
    list.map((ranges) => {
      const perMl = ranges.map((_count, i) => ranges.slice(i).reduce((sum, count) => sum + count ** 2 / 100, 0));
      return { sizing: 'iso11171', sizes, perMl } as CumulativeCounts;
    }),
  );

test('lowest and highest are those of the readings', () => {
  fc.assert(
    fc.property(fc.constantFrom(nas1638, as4059Differential), samples, (table, list) => {
      const { counts } = periodFigures(
        list.map((each, i) => ({ time: i * 3600000, counts: each })),
        { table },
      );
      const found = list.map((each) => classify(table, each));
      const places = found.map(({ worst }) => (worst[0] === '>' ? Infinity : table.classes.indexOf(worst)));
      const text = (place: number) => found.filter((_code, i) => places[i] === place).map((code) => code.text);
      expect(text(Math.min(...places))).toContain(counts?.codes?.lowest);
      expect(text(Math.max(...places))).toContain(counts?.codes?.highest);
      const sorted = [...places].sort((a, b) => a - b);
      expect(text(sorted[Math.floor(sorted.length / 2)] as number)).toContain(counts?.codes?.median);
      expect(counts?.codes?.last).toBe(found[found.length - 1]?.text);
    }),
    { numRuns: some(2000) },
  );
});

test('the highest counts of two readings make no class of their own', () => {
  const first = cumulativeCounts({ 6: 330, 14: 9, 21: 1, 38: 0, 70: 0 });
  const second = cumulativeCounts({ 6: 300, 14: 60, 21: 10, 38: 1, 70: 0 });
  const readings = [first, second].map((counts, i) => ({ time: i * 864e5, counts }));
  expect(periodFigures(readings, { table: nas1638 }).counts?.codes).toEqual({
    ...{ lowest: '7', median: '8', highest: '8', last: '7' },
  });
});
