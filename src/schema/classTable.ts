/** Class tables from outside: a user's own standard, kept as a file. */
import type * as z from 'zod/mini';
import { type ClassTable, classTable, type OwnTable } from '../codes/index.ts';
import { tableProblems } from '../codes/ownTable/tableProblems.ts';
import { tableRule } from '../codes/ownTable/tableRule.ts';
import { type Examined, standardSchema, valueOrThrow } from './examine.ts';
import { shapeOfRule } from './fromRule.ts';
import { plainCopy } from './plainCopy.ts';
import type { StandardSchemaV1 } from './standardSchema.ts';

/** The schema of a class table, for libraries that take Standard Schema. The same rules as `parseClassTable`. */
export const classTableSchema: StandardSchemaV1<OwnTable, ClassTable> = /* @__PURE__ */ standardSchema(
  'table',
  examineClassTable,
);

/**
 * Checks that a value is a class table, fills in what may be left out, and returns it ready for every function that
 * takes a table. The rules of `classTable`.
 *
 * @throws one error with every problem in `problems` (see `problemsOf`); its code is that of the first.
 *
 * @example
 * ```ts
 * import { parseClassTable } from 'motescale/schema';
 * const gateOil = parseClassTable({
 *   id: 'gateOil', title: 'Lock gate oil', counting: 'cumulative', perVolumeMl: 1,
 *   columns: [{ label: '6', from: { iso11171: 6 } }], classes: ['run', 'filter'], limits: [[640], [2500]],
 * });
 * gateOil.notation; // => 'single'
 * ```
 */
export function parseClassTable(value: unknown): ClassTable {
  return valueOrThrow(examineClassTable(value), 'table', value);
}

let shape: z.ZodMiniType | undefined;

function examineClassTable(value: unknown): Examined<ClassTable> {
  const problems = tableProblems(value);
  shape ??= shapeOfRule(tableRule);
  const copy = problems.length === 0 ? plainCopy(shape, value, problems) : value;
  return problems.length > 0 ? { problems } : { value: classTable(copy as OwnTable), problems: null };
}
