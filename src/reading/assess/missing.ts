/** A size that is needed and was not counted: told at once, and not only when an alarm has waited for it. */
import { type Check, type Needed, nothing } from './check.ts';

/** A size that a target, an alarm or a followed figure needs. */
export const countMissing: Check = {
  codes: [],
  find: ({ reading: { counts }, needed }) => {
    if (counts === undefined) return nothing;
    const { sizes, sizing } = counts;
    const lacking: number[] = [];
    const need = (size: number | undefined) => {
      if (size !== undefined && sizes.indexOf(size) < 0) lacking.push(size);
    };
    for (let i = 0; i < needed.length; i += 1) {
      const one = needed[i] as Needed;
      need(typeof one === 'number' ? one : one.from[sizing]);
      if (typeof one !== 'number') need(one.to?.[sizing]);
    }
    if (lacking.length === 0) return nothing;
    const missing = lacking.sort((a, b) => a - b).filter((size, i) => size !== lacking[i - 1]);
    return [{ code: 'count_missing', value: missing.length, limit: 0, sizes: missing, sizing }];
  },
};
