/** How a code is written. Reading what is written gives the same code again. */
import type { ClassTable, Code } from '../types.ts';
import { requireCodeOf } from './code.ts';
import { formatAnyParts } from './formatParts.ts';

/**
 * The code in the notation of its table: `18/16/13`, `-/16/13`, `7B/6C/5D`, `6B-F`, `6`.
 *
 * @throws `wrong_table` if the code belongs to another table, `length_mismatch` if it lacks a column.
 *
 * @example
 * ```ts
 * import { as4059Cumulative, formatCode, parseCode } from 'motescale/codes';
 * formatCode(as4059Cumulative, parseCode(as4059Cumulative, ' 7b / 6c / 5d ')); // => '7B/6C/5D'
 * ```
 */
export function formatCode(table: ClassTable, code: Code): string {
  requireCodeOf(table, code, 'code');
  return formatAnyParts(table, code.parts);
}
