/**
 * Class tables from outside: a user's own standard, kept as a file.
 */
import { type ClassTable, classTable, type OwnTable } from '../codes/index.ts';
import { tableProblems } from './classTableRules.ts';
import { classTableShape } from './classTableShape.ts';
import { examine } from './examine.ts';
import { type Examined, valueOrThrow } from './inputError.ts';
import type { ShapeOf } from './shapes.ts';
import { standardResult } from './standardResult.ts';
import type { StandardSchemaV1 } from './standardSchema.ts';

/** The schema of a class table, for libraries that take Standard Schema. The same rules as `parseClassTable`. */
export const classTableSchema: StandardSchemaV1<OwnTable, ClassTable> = {
  '~standard': {
    version: 1,
    vendor: 'motescale',
    validate: (value) => standardResult(examineClassTable(value)),
  },
};

/**
 * Checks that a value is a class table, fills in what may be left out, and returns it ready for every function that takes a table. The
 * rules of `classTable`, and no members of another name.
 *
 * @throws one error with every problem in `problems` (see `isInvalidInput`); its code is that of the first.
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

let shape: ShapeOf<OwnTable> | undefined;

/** Examines a table, which stands at a place in what was handed in. */
export function examineClassTable(
  value: unknown,
  root = 'table',
  above: readonly (string | number)[] = [],
): Examined<ClassTable> {
  shape ??= classTableShape();
  const examined = examine(root, shape, value, (table) => tableProblems(root, above, table), above);
  return examined.problems === null ? { value: classTable(examined.value), problems: null } : examined;
}
