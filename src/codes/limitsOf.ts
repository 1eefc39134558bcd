/** A code read backwards: the counts it allows. */
import { requireSizing } from '../counts/checkCounts.ts';
import type { Sizing } from '../counts/types.ts';
import { limitAt, limitPerMl, placeOf } from './classIndex.ts';
import { columnSizes, requireSizingOf, usualSizing } from './columnSizes.ts';
import type { ClassTable, Code, CodePart, CountBand, CountBands } from './types.ts';
import { asCode } from './written/code.ts';

/**
 * The counts per mL that a code allows: one band for each column it speaks of, more than `above`, up to and including
 * `upTo`.
 *
 * A class given size by size (`18/16/13`, `7B/6C/5D`) lies between two limits. A class for several sizes together
 * (`6B-F`, NAS 1638 `6`) only sets upper limits, since one column alone may have decided it: there `above` is 0. Beyond
 * the last class (`>28`, `>12B`) `upTo` is null. Of `-`, `*` and `8 or dirtier` nothing is known, nor of a class beyond
 * the last for several sizes together (`>12B-F`, NAS 1638 `>12`): one of them is beyond, and any other may be clean.
 * There is no band then. `>=7` gives the band of 7, as counted; its true number may be higher.
 *
 * @param sizing the sizing of the sizes; where left out, the first the table has of `iso11171`, `microscope`,
 *   `iso4402`, `iso11171b`
 * @throws `bad_code`, `wrong_table`, `unknown_sizing`, `sizing_not_convertible`.
 *
 * @example
 * ```ts
 * import { iso4406, limitsOf } from 'motescale/codes';
 * limitsOf(iso4406, '18/16/13').bands[2]; // => { from: 14, to: null, above: 40, upTo: 80 }
 * ```
 */
export function limitsOf(table: ClassTable, code: string | Code, sizing?: Sizing): CountBands {
  const { parts } = asCode(table, code, 'code');
  const chosen = sizing === undefined ? usualSizing(table) : requireSizing(sizing, 'sizing');
  requireSizingOf(table, chosen, 'sizing');
  const bands: CountBand[] = [];
  parts.forEach((part, column) => {
    const sizes = columnSizes(table.columns[column] as ClassTable['columns'][number], chosen);
    const band = part.class === null ? null : bandOf(table, column, part);
    if (sizes !== null && band !== null) bands.push({ ...sizes, ...band });
  });
  return { sizing: chosen, bands };
}

/** Null where the part bounds nothing. */
function bandOf(table: ClassTable, column: number, part: CodePart): { above: number; upTo: number | null } | null {
  const index = placeOf(table, part.class);
  if (part.mark === 'or_dirtier' || (part.mark === 'at_most' && index === table.classes.length)) return null;
  const upTo = index === table.classes.length ? null : limitPerMl(table, limitAt(table, index, column));
  // the next cleaner class that allows less: neighbours may share a limit
  let cleaner = part.mark === 'at_most' ? -1 : index - 1;
  while (cleaner >= 0 && upTo !== null && limitPerMl(table, limitAt(table, cleaner, column)) === upTo) cleaner -= 1;
  return { above: cleaner < 0 ? 0 : (limitPerMl(table, limitAt(table, cleaner, column)) ?? 0), upTo };
}
