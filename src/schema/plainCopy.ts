/** Plain data of one's own, as zod copies it. */
import * as z from 'zod/mini';
import { noteProblem, type Problem } from '../errors.ts';
import { valueAt } from '../rules/require.ts';
import { withoutUndefined } from './examine.ts';

/**
 * A plain copy of a value that keeps its rules, made by the shape of its rule. What such a copy would lose is noted:
 * members that are inherited, and objects that are more than plain data.
 */
export function plainCopy(shape: z.ZodMiniType, value: unknown, problems: Problem[]): unknown {
  const result = z.safeParse(shape, value);
  if (result.success) return withoutUndefined(result.data);
  for (const { path } of result.error.issues as readonly { readonly path: Problem['path'] }[])
    noteProblem(problems, path, 'wrong_type', valueAt(value, path), 'plain data, as JSON has it');
  return value;
}
