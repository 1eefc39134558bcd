/**
 * What has to be shown of a flush or a fill, from outside: a file beside the rig, a form.
 */

import { checkAcceptanceConfig } from '../acceptance/config.ts';
import type { AcceptanceConfig } from '../acceptance/index.ts';
import { classTable, iso4406 } from '../codes/index.ts';
import { acceptanceConfigShape, type OwnAcceptanceConfig } from './acceptanceConfigShape.ts';
import { examineClassTable } from './classTable.ts';
import { refusals } from './configurationRefusals.ts';
import { examine } from './examine.ts';
import { type Examined, type InputProblem, valueOrThrow } from './inputError.ts';
import { member } from './loose.ts';
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
 * accepts, `startAcceptance` accepts. Whether what it asks for is enough for the machine, it does not judge.
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
  const config = examined.value;
  return { value: { ...config, table: classTable(config.table) }, problems: null };
}

/** Every rule that a configuration breaks, as far as its shape allows to tell. */
function acceptanceProblems(config: unknown): InputProblem[] {
  if (typeof config !== 'object' || config === null) return [];
  const examined = examineClassTable(member(config, 'table'), 'config', ['table']);
  if (examined.problems === null)
    return refusals(() => checkAcceptanceConfig({ ...config, table: examined.value } as never, true));
  // target and columns cannot be held against a table that is not sound
  const { columns, ...others } = config as { readonly columns?: unknown };
  const rest = refusals(() => checkAcceptanceConfig({ ...others, table: iso4406, target: '18/16/13' } as never, true));
  return [...examined.problems, ...rest];
}
