/** Counts that are more than the counter can count, `'>30000'`: the code that says so, alone or beside the others. */
import { isObject } from '../checks.ts';
import { mostSizes } from '../counts/cumulativeCounts.ts';
import { isTooMany } from '../reading/fullCounts.ts';
import { numberFrom, sizingLeftOut } from '../reading/parseCounts.ts';

/** The sizes of the code, in µm(c). */
const sizesOfCode = [4, 6, 14];

/**
 * Their code: `*` at each size that came so, `-` at any other; null if no size of it came so or, where no counts are
 * kept `beside` it, if anything else came.
 */
export function codeOfTooMany(counts: unknown, beside: boolean): string | null {
  if (!isObject(counts)) return null;
  const { sizing, sizes, counted, perMl } = counts;
  const list: unknown = counted ?? perMl;
  if ((sizing ?? sizingLeftOut) !== sizingLeftOut || !Array.isArray(sizes) || !Array.isArray(list)) return null;
  if (list.length !== sizes.length || list.length > mostSizes) return null;
  if (list.every((one) => one === null || isTooMany(one)) === beside) return null;
  const there = sizes.map(numberFrom).filter((_size, i) => isTooMany(list[i]));
  const signs = sizesOfCode.map((size) => (there.indexOf(size) >= 0 ? '*' : '-'));
  return signs.indexOf('*') < 0 ? null : signs.join('/');
}
