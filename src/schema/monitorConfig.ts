/**
 * Configurations of a monitor from outside: a file beside the gateway, a form.
 */
import { classTable } from '../codes/index.ts';
import type { MonitorConfig } from '../monitor/index.ts';
import { examine } from './examine.ts';
import { type Examined, valueOrThrow } from './inputError.ts';
import { configProblems } from './monitorConfigRules.ts';
import { monitorConfigShape, type OwnMonitorConfig } from './monitorConfigShape.ts';
import type { ShapeOf } from './shapes.ts';
import { standardResult } from './standardResult.ts';
import type { StandardSchemaV1 } from './standardSchema.ts';

/** The schema of a monitor's configuration, for libraries that take Standard Schema. The same rules as `parseMonitorConfig`. */
export const monitorConfigSchema: StandardSchemaV1<OwnMonitorConfig, MonitorConfig> = {
  '~standard': {
    version: 1,
    vendor: 'motescale',
    validate: (value) => standardResult(examineMonitorConfig(value)),
  },
};

/**
 * Checks that a value is the configuration of a monitor, fills in what its tables may leave out, and returns it. Whatever it accepts,
 * `prepareMonitor` accepts, with the tables that it names by their ids.
 *
 * @throws `bad_configuration` with every problem in `problems` (see `isInvalidInput`), also those between members, such as a target
 * that its table cannot read.
 *
 * @example
 * ```ts
 * import { iso4406 } from 'motescale/codes';
 * import { isInvalidInput, parseMonitorConfig } from 'motescale/schema';
 * const text = JSON.stringify({ codes: [{ table: iso4406, target: '18/16/13' }], staleAfterMs: -5, alarm: [] });
 * try {
 *   parseMonitorConfig(JSON.parse(text));
 * } catch (error) {
 *   if (isInvalidInput(error)) error.problems.map(({ parameter }) => parameter); // => ['config.staleAfterMs', 'config.alarm']
 * }
 * ```
 */
export function parseMonitorConfig(value: unknown): MonitorConfig {
  return valueOrThrow(examineMonitorConfig(value), 'config', value, 'bad_configuration');
}

let shape: ShapeOf<OwnMonitorConfig> | undefined;

function examineMonitorConfig(value: unknown): Examined<MonitorConfig> {
  shape ??= monitorConfigShape();
  const examined = examine('config', shape, value, configProblems);
  if (examined.problems !== null) return examined;
  const { tables, codes, ...rest } = examined.value;
  const whole = codes.map((entry) => {
    const { table } = entry;
    return { ...entry, table: typeof table === 'string' ? table : classTable(table) };
  });
  const own = tables === undefined ? {} : { tables: tables.map((table) => classTable(table)) };
  return {
    value: { ...rest, ...own, codes: whole },
    problems: null,
  };
}
