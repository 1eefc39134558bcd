/**
 * Counts of which some are more than the counter can count, `'>30000'`. Counts have no form for that; ISO 4406 has one:
 * `*`, too many to count (ISO 4406:2021, from memory). `>=` would say something else there: that few were counted.
 */
import { classify } from '../codes/classify.ts';
import { iso4406 } from '../codes/tables/iso4406.ts';
import { numberFrom, parseCounts, type RawCounts, sizingLeftOut } from './parseCounts.ts';

/**
 * The code of ISO 4406 of counts in µm(c) of which one at least, at 4, 6 or 14, came as more than the counter can
 * count: `'>30000'`, also with blanks or a full-width sign. Such a size is `*`, one that did not come or cannot be read
 * is `-`, the others have their scale number. Null where no size of the code came so, or sizes are not in µm(c): the
 * counts then say more than a code. Hand it over as `codes: { iso4406: code }` in place of the counts: a reading with
 * the counts alone is not judged at that size, and dirty oil there neither misses its target nor raises its alarm.
 *
 * What is not so much as `>` and a number, `'>=30000'`, `'TNTC'`, `'OVER'`, is not taken for too many: where an
 * instrument writes so, write `'>30000'` for it.
 *
 * @throws as `parseCounts`
 *
 * @example
 * ```ts
 * import { codeOfFullCounts } from 'motescale/reading';
 * codeOfFullCounts({ sizes: [4, 6, 14], perMl: ['>30000', 8100, 510] })?.split('/'); // => ['*', '20', '16']
 * codeOfFullCounts({ sizes: [4, 6, 14], perMl: [1890, 402, 33] }); // => null
 * ```
 */
export function codeOfFullCounts(raw: RawCounts): string | null {
  const { counts } = parseCounts(raw);
  if ((raw.sizing ?? sizingLeftOut) !== sizingLeftOut) return null;
  const list = (raw.counted ?? raw.perMl) as readonly unknown[];
  const full = raw.sizes.filter((_size, i) => isTooMany(list[i])).map(numberFrom);
  const columns = iso4406.columns.map(({ label }) => label);
  if (!columns.some((label) => full.indexOf(Number(label)) >= 0)) return null;
  const known = counts === null ? [] : classify(iso4406, counts).parts;
  const signs = columns.map((column, i) => {
    if (full.indexOf(Number(column)) >= 0) return '*';
    const { class: name, mark } = known[i] ?? { class: null };
    return name === null ? '-' : `${mark === 'few_counted' ? '>=' : ''}${name}`;
  });
  return signs.join('/');
}

/** Whether a count is a text that says more than so many. */
export function isTooMany(count: unknown): boolean {
  return typeof count === 'string' && /^\s*[>\uFF1E]\s*\d+(\.\d+)?\s*$/.test(count);
}
