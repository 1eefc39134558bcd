/**
 * A size that is needed and was not counted: told at once, and not only when an alarm has waited for it.
 */
import { columnSizes } from '../../codes/columnSizes.ts';
import type { ClassColumn } from '../../codes/types.ts';
import { type Check, nothing } from './check.ts';

/** A size in µm, in whatever sizing the counts are; or the sizes of a column of a table. */
export type Needed = number | ClassColumn;

/** A size that a target, an alarm or a followed figure needs. */
export const countMissing: Check = {
  codes: [],
  find: ({ reading: { counts }, needed }) => {
    if (counts === undefined || needed.length === 0) return nothing;
    const { sizes, sizing } = counts;
    const missing: number[] = [];
    const look = (size: number) => {
      if (sizes.indexOf(size) < 0 && missing.indexOf(size) < 0) missing.push(size);
    };
    for (let i = 0; i < needed.length; i += 1) {
      const one = needed[i] as Needed;
      if (typeof one === 'number') {
        look(one);
        continue;
      }
      const { from, to } = columnSizes(one, sizing) ?? { from: sizes[0] as number, to: null };
      look(from);
      if (to !== null) look(to);
    }
    if (missing.length === 0) return nothing;
    return [{ code: 'count_missing', value: missing.length, limit: 0, sizes: missing.sort((a, b) => a - b), sizing }];
  },
};
