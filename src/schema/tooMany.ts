/** Counts that are all more than the counter can count, `'>30000'`: of some `codeOfFullCounts` makes the code. */
import { isObject } from '../checks.ts';
import { isTooMany } from '../reading/fullCounts.ts';
import { numberFrom, sizingLeftOut } from '../reading/parseCounts.ts';

/** The sizes of the code, in µm(c). */
const sizesOfCode = [4, 6, 14];

/** Their code: `*` at each size that came so, `-` at one that did not; null if anything else came, or no size of it. */
export function codeOfTooMany(counts: unknown): string | null {
  if (!isObject(counts)) return null;
  const { sizing, sizes, counted, perMl } = counts;
  const list: unknown = counted ?? perMl;
  if ((sizing ?? sizingLeftOut) !== sizingLeftOut || !Array.isArray(sizes) || !Array.isArray(list)) return null;
  if (list.length !== sizes.length || !list.every((one) => one === null || isTooMany(one))) return null;
  const there = sizes.map(numberFrom).filter((_size, i) => list[i] !== null);
  const signs = sizesOfCode.map((size) => (there.indexOf(size) >= 0 ? '*' : '-'));
  return signs.indexOf('*') < 0 ? null : signs.join('/');
}
