/**
 * Configurations from outside, of a monitor and of a proof: a file beside the gateway or the rig, a form. Each class
 * table in them goes by its own rules, the rest by those of what takes the configuration.
 */
import type * as z from 'zod/mini';
import type { AcceptanceConfig } from '../acceptance/index.ts';
import { noteAcceptance } from '../acceptance/prepare.ts';
import { acceptanceRule } from '../acceptance/rules.ts';
import { classTable, type OwnTable } from '../codes/index.ts';
import { noteTable } from '../codes/ownTable/tableProblems.ts';
import { tableRule } from '../codes/ownTable/tableRule.ts';
import type { Problem } from '../errors.ts';
import { type KnownTables, withTables } from '../judging/codePlans.ts';
import { followRule } from '../monitor/followed/plan.ts';
import type { MonitorCode, MonitorConfig } from '../monitor/index.ts';
import { noteMonitor } from '../monitor/prepare.ts';
import { monitorRule } from '../monitor/rules.ts';
import { limitsRule } from '../reading/limitsRule.ts';
import type { ObjectRule } from '../rules/rule.ts';
import { type Examined, standardSchema, valueOrThrow } from './examine.ts';
import { shapeOfRule } from './fromRule.ts';
import { plainCopy } from './plainCopy.ts';
import type { StandardSchemaV1 } from './standardSchema.ts';

/** A configuration before it is checked: its tables may leave out what `classTable` fills in. */
export type OwnMonitorConfig = Omit<MonitorConfig, 'codes' | 'tables'> & {
  readonly tables?: readonly OwnTable[] | undefined;
  readonly codes: readonly (Omit<MonitorCode, 'table'> & { readonly table: string | OwnTable })[];
};

/**
 * The schema of a monitor's configuration, for libraries that take Standard Schema. The same rules as
 * `parseMonitorConfig`.
 */
export const monitorConfigSchema: StandardSchemaV1<OwnMonitorConfig, MonitorConfig> = /* @__PURE__ */ standardSchema(
  'config',
  examineMonitorConfig,
);

/**
 * Checks that a value is the configuration of a monitor, fills in what its tables may leave out, and returns it.
 * Whatever it accepts, `prepareMonitor` accepts, with the tables that it names by their ids.
 *
 * @throws `bad_configuration` with every problem in `problems` (see `problemsOf`), also those between members, such as
 * a target that its table cannot read.
 *
 * @example
 * ```ts
 * import { iso4406 } from 'motescale/codes';
 * import { parseMonitorConfig, problemsOf } from 'motescale/schema';
 * const text = JSON.stringify({ codes: [{ table: iso4406, target: '18/16/13' }], staleAfterMs: -5, alarm: [] });
 * try {
 *   parseMonitorConfig(JSON.parse(text));
 * } catch (error) {
 *   problemsOf(error).map(({ path }) => path.join('.')); // => ['alarm', 'staleAfterMs']
 * }
 * ```
 */
export function parseMonitorConfig(value: unknown): MonitorConfig {
  return valueOrThrow(examineMonitorConfig(value), 'config', value, 'bad_configuration');
}

let monitorShape: z.ZodMiniType | undefined;

function examineMonitorConfig(value: unknown): Examined<MonitorConfig> {
  return examineConfiguration(value, () => (monitorShape ??= shapeOfRule(monitorConfigRule())), noteMonitor);
}

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

let acceptanceShape: z.ZodMiniType | undefined;

function examineAcceptanceConfig(value: unknown): Examined<AcceptanceConfig> {
  return examineConfiguration(value, () => (acceptanceShape ??= shapeOfRule(acceptanceConfigRule())), noteAcceptance);
}

/** The whole rule of a monitor's configuration. */
export function monitorConfigRule(): ObjectRule {
  return monitorRule(tableRule, limitsRule(), followRule());
}

/** The whole rule of what has to be shown of a flush or a fill. */
export function acceptanceConfigRule(): ObjectRule {
  return acceptanceRule(tableRule, limitsRule());
}

/** A table named by its id may be handed in when the configuration is prepared. */
const anyTables: KnownTables = { tables: [], open: true };

/** `note` adds what is wrong with a configuration, its tables apart: one of which nothing is noted is whole. */
function examineConfiguration<T>(
  value: unknown,
  shape: () => z.ZodMiniType,
  note: (config: unknown, known: KnownTables, problems: Problem[]) => void,
): Examined<T> {
  const problems: Problem[] = [];
  const checked = withTables(value, (table, path) => (noteTable(table, path, problems) ? classTable(table) : table));
  note(checked, anyTables, problems);
  const copy = problems.length === 0 ? plainCopy(shape(), value, problems) : value;
  if (problems.length > 0) return { problems };
  return { value: withTables(copy, (table) => classTable(table as OwnTable)) as T, problems: null };
}
