/**
 * What has to be shown of a flush or a fill, from outside: a file beside the rig, a form.
 */

import { type AcceptanceConfig, prepareAcceptance } from '../acceptance/index.ts';
import { type ClassTable, classTable, iso4406 } from '../codes/index.ts';
import { acceptanceConfigShape, type OwnAcceptanceConfig } from './acceptanceConfigShape.ts';
import { examineClassTable } from './classTable.ts';
import { refusals } from './configurationRefusals.ts';
import { examine } from './examine.ts';
import { type Examined, type InputProblem, valueOrThrow } from './inputError.ts';
import { elements, member } from './loose.ts';
import type { ShapeOf } from './shapes.ts';
import { standardResult } from './standardResult.ts';
import type { StandardSchemaV1 } from './standardSchema.ts';

/** The schema of what has to be shown, for libraries that take Standard Schema. The same rules as `parseAcceptanceConfig`. */
export const acceptanceConfigSchema: StandardSchemaV1<OwnAcceptanceConfig, AcceptanceConfig> = {
  '~standard': {
    version: 1,
    vendor: 'motescale',
    validate: (value) => standardResult(examineAcceptanceConfig(value)),
  },
};

/**
 * Checks that a value says what has to be shown of a flush or a fill, fills in what its table may leave out, and returns it. Whatever it
 * accepts, `prepareAcceptance` accepts, with the table that it names by its id. Whether what it asks for is enough for the machine, it does not judge.
 *
 * @throws `bad_configuration` with every problem in `problems` (see `isInvalidInput`), also those between members, such as a target
 * that the table cannot read.
 *
 * @example
 * ```ts
 * import { iso4406 } from 'motescale/codes';
 * import { isInvalidInput, parseAcceptanceConfig } from 'motescale/schema';
 * const text = JSON.stringify({ table: iso4406, target: '16/14', readings: 1, leastMs: 7200000 });
 * try {
 *   parseAcceptanceConfig(JSON.parse(text));
 * } catch (error) {
 *   if (isInvalidInput(error)) error.problems.map(({ parameter }) => parameter); // => ['config.readings', 'config.target']
 * }
 * ```
 */
export function parseAcceptanceConfig(value: unknown): AcceptanceConfig {
  return valueOrThrow(examineAcceptanceConfig(value), 'config', value, 'bad_configuration');
}

let shape: ShapeOf<OwnAcceptanceConfig> | undefined;

function examineAcceptanceConfig(value: unknown): Examined<AcceptanceConfig> {
  shape ??= acceptanceConfigShape();
  const examined = examine('config', shape, value, acceptanceProblems);
  if (examined.problems !== null) return examined;
  const { table, tables, ...rest } = examined.value;
  const own = tables === undefined ? {} : { tables: tables.map((one) => classTable(one)) };
  return { value: { ...rest, ...own, table: typeof table === 'string' ? table : classTable(table) }, problems: null };
}

/** Every rule that a configuration breaks, as far as its shape allows to tell. */
function acceptanceProblems(config: unknown): InputProblem[] {
  if (typeof config !== 'object' || config === null) return [];
  const problems: InputProblem[] = [];
  const own: ClassTable[] = [];
  elements(member(config, 'tables')).forEach((table, i) => {
    const examined = examineClassTable(table, 'config', ['tables', i]);
    if (examined.problems === null) own.push(examined.value);
    else problems.push(...examined.problems);
  });
  const { table, columns: _columns, ...others } = config as { readonly table?: unknown; readonly columns?: unknown };
  const named = own.filter(({ id }) => id === table)[0];
  const examined = typeof table === 'string' ? null : examineClassTable(table, 'config', ['table']);
  if (examined !== null && examined.problems !== null) problems.push(...examined.problems);
  const known = named ?? (examined?.problems === null ? examined.value : null);
  // target and columns cannot be held against a table that is not sound, or not known here
  const checked =
    known === null
      ? { ...others, table: iso4406, target: '18/16/13', tables: undefined }
      : { ...config, table: known, tables: undefined };
  return [...problems, ...refusals(() => prepareAcceptance(checked as never))];
}
