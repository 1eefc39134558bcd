/** What has to be shown of a flush or a fill, from outside: a file beside the rig, a form. */
import type * as z from 'zod/mini';
import type { AcceptanceConfig } from '../acceptance/index.ts';
import { noteAcceptance } from '../acceptance/prepare.ts';
import type { OwnTable } from '../codes/index.ts';
import { acceptanceConfigRule, examineConfiguration } from './configuration.ts';
import { type Examined, standardSchema, valueOrThrow } from './examine.ts';
import { shapeOfRule } from './fromRule.ts';
import type { StandardSchemaV1 } from './standardSchema.ts';

/** What has to be shown, before it is checked: its table may leave out what `classTable` fills in. */
export type OwnAcceptanceConfig = Omit<AcceptanceConfig, 'table' | 'tables'> & {
  readonly table: string | OwnTable;
  readonly tables?: readonly OwnTable[] | undefined;
};

/**
 * The schema of what has to be shown, for libraries that take Standard Schema. The same rules as
 * `parseAcceptanceConfig`.
 */
export const acceptanceConfigSchema: StandardSchemaV1<OwnAcceptanceConfig, AcceptanceConfig> =
  /* @__PURE__ */ standardSchema('config', examineAcceptanceConfig);

/**
 * Checks that a value says what has to be shown of a flush or a fill, fills in what its table may leave out, and
 * returns it. Whatever it accepts, `prepareAcceptance` accepts, with the table that it names by its id. Whether what it
 * asks for is enough for the machine, it does not judge.
 *
 * @throws `bad_configuration` with every problem in `problems` (see `problemsOf`), also those between members, such as
 * a target that the table cannot read.
 *
 * @example
 * ```ts
 * import { iso4406 } from 'motescale/codes';
 * import { parseAcceptanceConfig, problemsOf } from 'motescale/schema';
 * const text = JSON.stringify({ table: iso4406, target: '16/14', readings: 1, leastMs: 7200000 });
 * try {
 *   parseAcceptanceConfig(JSON.parse(text));
 * } catch (error) {
 *   problemsOf(error).map(({ path }) => path.join('.')); // => ['readings', 'target']
 * }
 * ```
 */
export function parseAcceptanceConfig(value: unknown): AcceptanceConfig {
  return valueOrThrow(examineAcceptanceConfig(value), 'config', value, 'bad_configuration');
}

let shape: z.ZodMiniType | undefined;

function examineAcceptanceConfig(value: unknown): Examined<AcceptanceConfig> {
  return examineConfiguration(value, () => (shape ??= shapeOfRule(acceptanceConfigRule())), noteAcceptance);
}
