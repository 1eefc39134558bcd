/** Columns of counts as they come, with what is none, or cannot be, taken for not known. */
import { isWithin, outOfRange } from '../checks.ts';
import { perMlRule } from '../counts/ranges.ts';
import { type FilePlace, mostTold, noteLost, type Problem } from '../errors.ts';

/**
 * Copies of the columns in which a count that is none is NaN, and all counts of a row that rises with size are. What
 * was left out is told by size, row and line.
 */
export function readableRows(
  sizes: readonly number[],
  given: readonly Float64Array[],
  told: Problem[],
  lineAt: (row: number) => FilePlace,
): { readonly columns: Float64Array[]; readonly leftOut: { readonly counts: number; readonly rows: number } } {
  const columns = given.map((column) => Float64Array.from(column));
  let counts = 0;
  let rows = 0;
  const placeOf = (i: number, k: number) => ({ ...lineAt(k), column: `${sizes[i]} µm` });
  columns.forEach((column, i) => {
    for (let k = 0; k < column.length; k += 1) {
      const count = column[k] as number;
      if (count !== count || isWithin(count, perMlRule)) continue;
      counts += 1;
      const { code, expected } = outOfRange(count, 'count', perMlRule);
      if (counts + rows <= mostTold) noteLost(told, [sizes[i] as number, k], code, count, expected, placeOf(i, k));
      column[k] = 0 / 0;
    }
  });
  const length = columns[0]?.length ?? 0;
  for (let k = 0; k < length; k += 1) {
    let before = Infinity;
    for (let i = 0; i < columns.length; i += 1) {
      const count = (columns[i] as Float64Array)[k] as number;
      if (count > before) {
        rows += 1;
        const expected = `at most ${before}, the count of the smaller size`;
        const path = [sizes[i] as number, k];
        if (counts + rows <= mostTold) noteLost(told, path, 'counts_rise_with_size', count, expected, placeOf(i, k));
        for (const column of columns) column[k] = 0 / 0;
        break;
      }
      if (count === count) before = count;
    }
  }
  return { columns, leftOut: { counts, rows } };
}
