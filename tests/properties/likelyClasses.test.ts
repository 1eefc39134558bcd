import { describe, expect, test } from 'vitest';
import { classify, likelyClasses, possibleClasses } from '../../src/codes/index.ts';
import { stream } from '../doubles.ts';
import { indexOf, partly, randomSample, sizesOf, tables } from './samples.ts';

describe('likelyClasses', () => {
  test.each(tables)('$id: lies within possibleClasses, and on measured sizes equals classify', (table, sizing) => {
    const random = stream(31);
    const sizes = sizesOf(table, sizing);
    for (let i = 0; i < 2000; i += 1) {
      const sample = randomSample(random, sizes, sizing);
      const measured = likelyClasses(sample, table);
      const truth = classify(table, sample);
      for (const { column, lowest, highest } of measured.columns) {
        const found = truth.parts.find((part) => part.column === column)?.class;
        expect([lowest, highest], column).toEqual([found, found]);
      }
      const known = partly(random, sample);
      const likely = likelyClasses(known, table);
      const possible = possibleClasses(known, table);
      for (const { column, lowest, highest } of likely.columns) {
        const bound = possible.columns.find((candidate) => candidate.column === column);
        expect(indexOf(table, lowest)).toBeGreaterThanOrEqual(indexOf(table, bound?.lowest as string));
        expect(indexOf(table, highest)).toBeLessThanOrEqual(indexOf(table, bound?.highest as string));
      }
    }
  });
});
