/** Configurations of a monitor from outside: a file beside the gateway, a form. */
import type * as z from 'zod/mini';
import type { OwnTable } from '../codes/index.ts';
import type { MonitorCode, MonitorConfig } from '../monitor/index.ts';
import { noteMonitor } from '../monitor/prepare.ts';
import { examineConfiguration, monitorConfigRule } from './configuration.ts';
import { type Examined, standardSchema, valueOrThrow } from './examine.ts';
import { shapeOfRule } from './fromRule.ts';
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

let shape: z.ZodMiniType | undefined;

function examineMonitorConfig(value: unknown): Examined<MonitorConfig> {
  return examineConfiguration(value, () => (shape ??= shapeOfRule(monitorConfigRule())), noteMonitor);
}
