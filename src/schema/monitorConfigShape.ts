/**
 * The shape of a monitor's configuration: what each member may be. What they ask of each other `prepareMonitor` knows.
 */
import * as z from 'zod/mini';
import type { OwnTable } from '../codes/index.ts';
import type { MonitorConfig } from '../monitor/index.ts';
import { monitorRule } from '../monitor/rules.ts';
import type { ObjectRule, Rule } from '../rules/rule.ts';
import { alarmShape } from './alarmShape.ts';
import { classTableShape } from './classTableShape.ts';
import { shapeOfRule } from './fromRule.ts';
import { limitsShape } from './limitsShape.ts';
import type { ShapeOf } from './shapes.ts';

/** A configuration before it is checked: its tables may leave out what `classTable` fills in. */
export type OwnMonitorConfig = Omit<MonitorConfig, 'codes' | 'tables'> & {
  readonly tables?: readonly OwnTable[];
  readonly codes: readonly {
    readonly table: string | OwnTable;
    readonly target?: string;
    readonly columns?: readonly string[];
  }[];
};

/** The shape of a monitor's configuration. */
export function monitorConfigShape(): ShapeOf<OwnMonitorConfig> {
  const nothing: Rule = { kind: 'object', members: {} };
  const { members } = monitorRule(nothing, nothing);
  const { tables, codes, limits: _limits, alarms: _alarms, ...rest } = members;
  const shapes: Record<string, z.ZodMiniType> = {};
  for (const [name, rule] of Object.entries(rest)) shapes[name] = shapeOfRule(rule);
  const table = z.union([z.string('the id of a table').check(z.minLength(1)), classTableShape()], { error: () => '' });
  const { target, columns } = ((codes as { readonly of: ObjectRule }).of as ObjectRule).members as Record<string, Rule>;
  const entry = z.strictObject(
    { table, target: shapeOfRule(target as Rule), columns: shapeOfRule(columns as Rule) },
    { error: () => '{ table, target, columns }' },
  );
  const most = (list: Rule | undefined) => (list as { readonly longest: number }).longest;
  return z.strictObject(
    {
      tables: z.optional(z.array(classTableShape(), 'an array of class tables').check(z.maxLength(most(tables)))),
      codes: z.array(entry, 'an array of { table, target, columns }').check(z.maxLength(most(codes))),
      limits: z.optional(limitsShape()),
      alarms: z.optional(z.array(alarmShape(), 'an array of alarms').check(z.maxLength(most(members.alarms)))),
      ...shapes,
    },
    { error: () => 'a configuration { codes, alarms, ... }' },
  ) as unknown as ShapeOf<OwnMonitorConfig>;
}
