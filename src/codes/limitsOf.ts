/**
 * A code read backwards: the counts it allows.
 */
import { requireSizing } from '../counts/checkCounts.ts';
import type { Sizing } from '../counts/types.ts';
import { motescaleError } from '../errors.ts';
import { scaleDecimal } from '../numeric/decimal.ts';
import { limitAt } from './classIndex.ts';
import { columnSizes, requireSizingOf } from './columnCount.ts';
import { requireCodeOf } from './formatCode.ts';
import { parseCode } from './parseCode.ts';
import { requireTable } from './requireTable.ts';
import type { ClassTable, Code, CodePart, CountBand, CountBands } from './types.ts';

/**
 * The counts per mL that a code allows: one band for each column it speaks of, more than `above`, up to and including `upTo`.
 *
 * A class given size by size (`18/16/13`, `7B/6C/5D`) lies between two limits. A class for several sizes together (`6B-F`, NAS 1638 `6`)
 * only sets upper limits, since one column alone may have decided it: there `above` is 0. Beyond the last class `upTo` is null. Of `-` and
 * `*` nothing is known: no band. `>=7` gives the band of 7, as counted; its true number may be higher.
 *
 * @param sizing the sizing of the sizes; where left out, `iso11171` if the table has it, else `microscope`
 * @throws `bad_code`, `sizing_not_convertible`.
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
    if (sizes !== null && part.class !== null) bands.push({ ...sizes, ...bandOf(table, column, part) });
  });
  return { sizing: chosen, bands };
}

/** A code handed in as text or as data, checked against the table. */
export function asCode(table: ClassTable, code: string | Code, parameter: string): Code {
  requireTable(table);
  if (typeof code === 'string') return parseCode(table, code);
  requireCodeOf(table, code, parameter);
  return code;
}

/** The index of a part's class; the number of classes for beyond. */
export function partIndex(table: ClassTable, part: CodePart, parameter: string): number {
  if (part.mark === 'beyond') return table.classes.length;
  const index = table.classes.indexOf(part.class as string);
  if (index < 0) throw motescaleError('bad_code', `${parameter}.parts`, part.class, `a class of ${table.title}`);
  return index;
}

function bandOf(table: ClassTable, column: number, part: CodePart): { above: number; upTo: number | null } {
  const index = partIndex(table, part, 'code');
  const perMl = (limit: number | null) => (limit === null ? null : scaleDecimal(limit, 1, table.perVolumeMl));
  return {
    above: index === 0 || part.mark === 'at most' ? 0 : (perMl(limitAt(table, index - 1, column)) ?? 0),
    upTo: index === table.classes.length ? null : perMl(limitAt(table, index, column)),
  };
}

function usualSizing(table: ClassTable): Sizing {
  return table.columns.some((column) => column.from.iso11171 !== undefined) ? 'iso11171' : 'microscope';
}
