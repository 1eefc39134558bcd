import { describe, expect, test } from 'vitest';
import {
  classify,
  iso4406,
  iso4406Microscope,
  likelyClasses,
  limitsOf,
  nas1638,
  possibleClasses,
} from '../../../src/codes/index.ts';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import { stream } from '../../doubles.ts';
import { some } from '../../volume.ts';
import { indexOf, partly, randomSample, sizesOf, tables } from '../samples.ts';

describe('likelyClasses', () => {
  test.each(tables)('$id: lies within possibleClasses, and on measured sizes equals classify', (table, sizing) => {
    const random = stream(31);
    const codeTable = sizing === 'iso11171' ? iso4406 : iso4406Microscope;
    const coded = codeTable.columns.map((column) => column.from[sizing] as number);
    const sizes = [...new Set([...sizesOf(table, sizing), ...coded])].sort((a, b) => a - b);
    for (let i = 0; i < some(2000, 400); i += 1) {
      const sample = randomSample(random, sizes, sizing);
      const measured = likelyClasses(table, sample);
      const truth = classify(table, sample);
      for (const { column, lowest, highest } of measured.columns) {
        const found = truth.parts.find((part) => part.column === column)?.class;
        expect([lowest, highest], column).toEqual([found, found]);
      }
      const byCode = limitsOf(codeTable, classify(codeTable, sample), sizing);
      const known = i % 2 === 0 ? byCode : partly(random, sample);
      const likely = likelyClasses(table, known);
      const possible = possibleClasses(table, known);
      for (const { column, lowest, highest } of likely.columns) {
        const bound = possible.columns.find((candidate) => candidate.column === column);
        expect(indexOf(table, lowest)).toBeGreaterThanOrEqual(indexOf(table, bound?.lowest as string));
        expect(indexOf(table, highest)).toBeLessThanOrEqual(indexOf(table, bound?.highest as string));
      }
    }
  });

  test('of a code in its own table says the code', () => {
    const span = likelyClasses(iso4406, limitsOf(iso4406, '18/16/13'));
    expect(span.columns.map(({ lowest, highest }) => [lowest, highest])).toEqual([
      ['18', '18'],
      ['16', '16'],
      ['13', '13'],
    ]);
  });

  test('where nothing can be estimated the bounds stand, and never the cleanest class', () => {
    for (const known of [cumulativeCounts({ 4: 1e6 }), limitsOf(iso4406, '18/-/-'), limitsOf(iso4406, '>28/>28/>28')]) {
      const span = likelyClasses(nas1638, known);
      expect(span.basis).toEqual([]);
      expect(span.highest).toBe('>12');
      expect(span).toMatchObject({ lowest: possibleClasses(nas1638, known).lowest });
    }
  });

  test('two equal numbers side by side leave the range between them open', () => {
    const span = likelyClasses(nas1638, limitsOf(iso4406, '18/16/16'));
    expect(span.columns[0]).toEqual({ column: '5-15', lowest: '00', highest: '7' });
  });

  test('measured dirt is never called none', () => {
    const counts = cumulativeCounts({ 6: 10, 14: 1, 21: 0.5, 38: 0.1, 70: 0.001 });
    expect(likelyClasses(nas1638, counts).columns[4]).toEqual({ column: '>100', lowest: '1', highest: '1' });
  });

  test('a real sample of a code lies within', () => {
    const counts = cumulativeCounts({ 4: 600, 6: 155, 14: 41 });
    expect(classify(iso4406, counts).text).toBe('16/14/13');
    expect(classify(nas1638, counts, { columns: ['5-15'] }).worst).toBe('6');
    expect(likelyClasses(nas1638, limitsOf(iso4406, '16/14/13')).columns[0]).toMatchObject({ highest: '6' });
  });
});
