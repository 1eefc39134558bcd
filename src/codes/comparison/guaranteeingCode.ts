/** The way back: which ISO 4406 code, if met, guarantees a class. */
import { motescaleError } from '../../errors.ts';
import { limitAt, limitPerMl } from '../classIndex.ts';
import { columnSizes, requireSizingOf } from '../columnSizes.ts';
import { requireTarget } from '../meets.ts';
import { requireTable } from '../requireTable.ts';
import { iso4406 } from '../tables/iso4406.ts';
import { type Wanted, wantedOf } from '../targetOutcome.ts';
import type { ClassTable, Code, CodePart } from '../types.ts';
import { formatAnyParts } from '../written/formatParts.ts';

/**
 * The ISO 4406 code that, if met (each number kept or bettered), guarantees that a class of another table is kept too,
 * in every column that starts within the sizes of the code, 4 to 14 µm(c). Columns that start above are `unseen`: no
 * code of three sizes can guarantee them short of absurd ones. A part that no column needs is `-`. No number of the
 * code can be raised by one without losing the guarantee, except where a smaller size already holds the larger one down
 * (one class at all sizes, as within ISO 4406 itself).
 *
 * It holds by arithmetic alone: a column that starts at a size of the code holds no more particles than there are of
 * that size and larger; one that starts between two sizes of the code no more than there are of the smaller.
 *
 * @param target a class (`6`), or a code of the table: `6B/6C/6D`, `6B-F`, and `18/16/13` of ISO 4406
 * @throws `bad_code` for what is neither, `wrong_table`; `no_answer` if no code could guarantee it.
 *
 * @example
 * ```ts
 * import { as4059Cumulative, guaranteeingCode, nas1638 } from 'motescale/codes';
 * const { code, unseen } = guaranteeingCode(nas1638, '6');
 * code.text; // => '-/14/11'
 * unseen; // => ['25-50', '50-100', '>100']
 * guaranteeingCode(as4059Cumulative, '6B/6C/6D').code.text; // => '-/14/11'
 * ```
 */
export function guaranteeingCode(table: ClassTable, target: string | Code): { code: Code; unseen: string[] } {
  requireTable(table);
  requireSizingOf(table, 'iso11171', 'table');
  const asked = askedOf(table, target);
  const sizes = iso4406.columns.map((column) => column.from.iso11171 as number);
  const largest = sizes[sizes.length - 1] as number;
  const allowed: (number | null)[] = sizes.map(() => null);
  const unseen: string[] = [];
  table.columns.forEach((column, i) => {
    const from = columnSizes(column, 'iso11171')?.from;
    const place = asked[i] as number | null;
    const limit = place === null ? null : limitAt(table, place, i);
    if (limit === null) return;
    if (from === undefined || from < (sizes[0] as number) || from > largest) {
      unseen.push(column.label);
      return;
    }
    let size = 0;
    while (size + 1 < sizes.length && (sizes[size + 1] as number) <= from) size += 1;
    const perMl = limitPerMl(table, limit) as number;
    allowed[size] = Math.min(allowed[size] ?? perMl, perMl);
  });
  if (allowed.every((perMl) => perMl === null))
    throw motescaleError('no_answer', 'table', table.id, 'a table with a limit between 4 and 14 µm(c) in this class');
  const parts = allowed.map((perMl, place) => partWithin(perMl, place, target));
  return { code: { table: iso4406.id, parts, text: formatAnyParts(iso4406, parts) }, unseen };
}

/** By column the place of the class asked for: of a class alone in all of them. */
function askedOf(table: ClassTable, target: string | Code): Wanted {
  const index = table.classes.indexOf(target as string);
  if (index >= 0) return table.columns.map(() => index);
  return wantedOf(table, requireTarget(table, target), null);
}

/** The highest scale number whose upper limit stays within the count allowed. */
function partWithin(perMl: number | null, place: number, target: string | Code): CodePart {
  const { label } = iso4406.columns[place] as ClassTable['columns'][number];
  if (perMl === null) return { column: label, class: null, mark: 'not_counted' };
  let number = iso4406.classes.length - 1;
  while (number >= 0 && (limitAt(iso4406, number, place) as number) > perMl) number -= 1;
  if (number < 0) {
    const expected = `a class that allows 0.01 or more particles per mL at ${label} µm(c)`;
    throw motescaleError('no_answer', 'target', target, expected);
  }
  return { column: label, class: iso4406.classes[number] as string };
}
