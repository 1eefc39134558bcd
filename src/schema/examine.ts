/**
 * A value from outside, examined: the value, or all that is wrong with it. What may be wrong, the rules and checks of
 * the library say.
 */
import * as z from 'zod/mini';
import { type ErrorCode, noteProblem, type Problem, problemText, throwMistakes, throwProblems } from '../errors.ts';
import { valueAt } from '../rules/require.ts';
import type { StandardSchemaV1 } from './standardSchema.ts';

/** What an examination ends with. */
export type Examined<T> = { readonly value: T; readonly problems: null } | { readonly problems: readonly Problem[] };

/** Returns the value, or throws one error with all problems. Where no code is given, it is that of the first. */
export function valueOrThrow<T>(examined: Examined<T>, root: string, input: unknown, code?: ErrorCode): T {
  const { problems } = examined;
  if (problems !== null) {
    if (code === undefined) throwMistakes(root, input, problems);
    else throwProblems(code, root, input, problems);
  }
  return (examined as { readonly value: T }).value;
}

/** An examination as Standard Schema has it: the value, or an issue for each problem. */
export function standardSchema<Input, Output>(
  root: string,
  examine: (value: unknown) => Examined<Output>,
): StandardSchemaV1<Input, Output> {
  const validate = (value: unknown) => {
    const examined = examine(value);
    if (examined.problems === null) return { value: examined.value };
    return {
      issues: examined.problems.map((problem) => ({ message: problemText(root, problem), path: problem.path })),
    };
  };
  return { '~standard': { version: 1, vendor: 'motescale', validate } };
}

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

/** A copy without the members that are `undefined`: they count as left out, and JSON has none. */
export function withoutUndefined<T>(data: T): T {
  if (Array.isArray(data)) return data.map(withoutUndefined) as T;
  if (typeof data !== 'object' || data === null) return data;
  const kept = Object.entries(data).filter(([, member]) => member !== undefined);
  return Object.fromEntries(kept.map(([name, member]) => [name, withoutUndefined(member)])) as T;
}
