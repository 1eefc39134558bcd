/**
 * A size that is needed and was not counted: told at once, and not only when an alarm has waited for it.
 */
import { type Check, type Needed, nothing } from './check.ts';

/** A size that a target, an alarm or a followed figure needs. */
export const countMissing: Check = {
  codes: [],
  find: ({ reading: { counts }, needed }) => {
    if (counts === undefined) return nothing;
    const { sizes, sizing } = counts;
    let missing: readonly number[] = noSizes;
    for (let i = 0; i < needed.length; i += 1) {
      const one = needed[i] as Needed;
      if (typeof one === 'number') missing = withMissing(missing, sizes, one);
      else missing = withMissing(withMissing(missing, sizes, one.from[sizing]), sizes, one.to?.[sizing]);
    }
    if (missing.length === 0) return nothing;
    const ascending = missing.slice().sort((a, b) => a - b);
    return [{ code: 'count_missing', value: missing.length, limit: 0, sizes: ascending, sizing }];
  },
};

const noSizes: readonly number[] = [];

function withMissing(
  missing: readonly number[],
  sizes: readonly number[],
  size: number | undefined,
): readonly number[] {
  if (size === undefined || sizes.indexOf(size) >= 0 || missing.indexOf(size) >= 0) return missing;
  return missing.concat([size]);
}
