/** What a corrected Mann-Kendall test says of itself; its figures are rows of the folder. */
import { expect, test } from 'vitest';
import { mannKendall } from '../../../src/trend/mannKendall.ts';
import reference from './corrections.json' with { type: 'json' };

test.each(reference.cases)('$id names the independence it rests on', ({ series, options }) => {
  const { values } = reference.series[series as keyof typeof reference.series];
  const found = mannKendall(values, options as Parameters<typeof mannKendall>[1]);
  expect(found.independence).toBe('correction' in options ? options.correction : 'assumed');
});
