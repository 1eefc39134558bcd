/**
 * Configurations with class tables in them: each table by its own rules, the rest by those of what takes the
 * configuration.
 */
import type * as z from 'zod/mini';
import { acceptanceRule } from '../acceptance/rules.ts';
import { classTable, type OwnTable } from '../codes/index.ts';
import { noteTable } from '../codes/ownTable/tableProblems.ts';
import { tableRule } from '../codes/ownTable/tableRule.ts';
import type { Problem } from '../errors.ts';
import { type KnownTables, withTables } from '../judging/codePlans.ts';
import { followRule } from '../monitor/followed/plan.ts';
import { monitorRule } from '../monitor/rules.ts';
import { limitsRule } from '../reading/limitsRule.ts';
import type { ObjectRule } from '../rules/rule.ts';
import { type Examined, plainCopy } from './examine.ts';

/** The whole rule of a monitor's configuration. */
export function monitorConfigRule(): ObjectRule {
  return monitorRule(tableRule, limitsRule, followRule());
}

/** The whole rule of what has to be shown of a flush or a fill. */
export function acceptanceConfigRule(): ObjectRule {
  return acceptanceRule(tableRule, limitsRule);
}

/** A table named by its id may be handed in when the configuration is prepared. */
const anyTables: KnownTables = { tables: [], open: true };

/**
 * Examines a configuration. `note` adds what is wrong with it, its tables apart, which it takes as whole where nothing
 * is noted of them.
 */
export function examineConfiguration<T>(
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
