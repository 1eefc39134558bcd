/**
 * The outcome of an examination, as Standard Schema has it.
 */
import { type Examined, problemText } from './inputError.ts';
import type { StandardResult } from './standardSchema.ts';

/** The value, or an issue for each problem. */
export function standardResult<T>(examined: Examined<T>): StandardResult<T> {
  if (examined.problems === null) return { value: examined.value };
  return { issues: examined.problems.map((problem) => ({ message: problemText(problem), path: problem.path })) };
}
