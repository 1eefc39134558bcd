/**
 * A value from outside, examined: the value, or all that is wrong with it. What may be wrong, the rules and checks of
 * the library say.
 */
import { type ErrorCode, type Problem, problemLine, throwMistakes, throwProblems } from '../errors.ts';
import { mapped, type Raw } from './members.ts';
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
      issues: examined.problems.map((problem) => ({ message: problemLine(root, problem), path: problem.path })),
    };
  };
  return { '~standard': { version: 1, vendor: 'motescale', validate } };
}

/** A copy without the members that are `undefined`: they count as left out, and JSON has none. */
export function withoutUndefined<T>(data: T): T {
  if (Array.isArray(data)) return data.map(withoutUndefined) as T;
  if (typeof data !== 'object' || data === null) return data;
  return mapped(data as Raw, withoutUndefined) as T;
}
