/**
 * From the issues of a shape to problems: a code of the library, where, what came, what was expected.
 */
import type * as z from 'zod/mini';
import type { ErrorCode } from '../errors.ts';
import { type InputProblem, problemAt } from './inputError.ts';
import { member } from './loose.ts';

type Issue = z.core.$ZodIssue;

/** A problem for each issue of a value, in the form it comes nearest to where there are several. */
export function problemsOf(
  root: string,
  above: InputProblem['path'],
  issues: readonly Issue[],
  value: unknown,
): InputProblem[] {
  const problems: InputProblem[] = [];
  for (const issue of issues) note(problems, root, above, issue, value);
  return problems;
}

function note(
  problems: InputProblem[],
  root: string,
  above: readonly (string | number)[],
  issue: Issue,
  holder: unknown,
): void {
  const path = [...above, ...(issue.path as (string | number)[])];
  const received = (issue.path as (string | number)[]).reduce<unknown>(member, holder);
  if (issue.code === 'unrecognized_keys') {
    for (const key of issue.keys) problems.push(problemAt(root, [...path, key], 'unknown_option', key, issue.message));
    return;
  }
  const option = issue.code === 'invalid_union' ? likeliest(issue) : null;
  if (option !== null) {
    for (const inner of option) note(problems, root, path, inner, received);
    return;
  }
  const problem = problemAt(root, path, codeOf(issue, received), received, issue.message);
  // several checks of one piece share a text: the first to fail says it
  const last = problems[problems.length - 1];
  if (last?.parameter !== problem.parameter || last.expected !== problem.expected) problems.push(problem);
}

/**
 * Of the forms a value may take, the one it comes nearest to, with what is wrong with it in that form. Null where several are as near and
 * the union has a text of its own, which then says it better.
 */
function likeliest(issue: z.core.$ZodIssueInvalidUnion): readonly Issue[] | null {
  const options = issue.errors;
  const weights = options.map(weigh);
  const least = Math.min(...weights);
  const tied = weights.filter((weight) => weight === least).length > 1;
  if (tied && issue.message !== '') return null;
  return options[weights.indexOf(least)] ?? null;
}

/** How far a value is from a form: one for each thing wrong, a little more where an object within it fits no form. */
function weigh(issues: readonly Issue[]): number {
  return issues.reduce((sum, issue) => {
    if (issue.code === 'unrecognized_keys') return sum + issue.keys.length;
    if (issue.code !== 'invalid_union') return sum + 1;
    const option = likeliest(issue);
    if (option !== null) return sum + weigh(option);
    const noObject = issue.errors.every((inner) => inner[0]?.path.length === 0 && inner[0].code === 'invalid_type');
    return sum + (noObject ? 1 : 1.5);
  }, 0);
}

function codeOf(issue: Issue, received: unknown): ErrorCode {
  if (issue.code === 'invalid_value') return typeof received === 'string' ? 'unknown_option' : 'wrong_type';
  if (issue.code === 'too_big') return 'out_of_range';
  if (issue.code === 'too_small') {
    if (typeof received !== 'number') return (received as { length: number }).length === 0 ? 'empty' : 'too_few';
    return received < 0 && issue.minimum === 0 ? 'negative' : 'out_of_range';
  }
  if (issue.code === 'invalid_union')
    return typeof received === 'object' && received !== null ? 'unknown_option' : 'wrong_type';
  if (typeof received !== 'number' || issue.code !== 'invalid_type' || issue.expected === 'string') return 'wrong_type';
  if (received !== received) return 'not_a_number';
  if (received === Infinity || received === -Infinity) return 'infinite';
  return issue.expected === 'int' ? 'not_an_integer' : 'wrong_type';
}
