/** The levels of a bucket, damaged: an object that has no number in it is refused like any other. */
import { expect, test } from 'vitest';
import { bucketQuantile, rollUp } from '../../src/history/index.ts';

const counts = [402, 411, 395].map((value, i) => ({ time: i * 600000, value }));
const [bucket] = rollUp(counts, { widthMs: 3600000, holdMs: 1200000, levels: true });

test.each([[Object.create(null)], [{ valueOf: 1, toString: 1 }], ['402'], [Number.NaN], [Infinity]])('%#', (level) => {
  const levels = [{ level, ms: 600000 }] as never;
  expect(() => bucketQuantile({ ...bucket, levels } as never, 0.5)).toThrowError(
    expect.objectContaining({ code: 'bad_state', parameter: 'bucket' }),
  );
});
