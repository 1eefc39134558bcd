/**
 * What is wrong with a value from outside: one error that holds every problem as data, so that all are put right in one go.
 */
import { type ErrorCode, isMotescaleError, type MotescaleError, motescaleError } from '../errors.ts';

/** One thing wrong with a value from outside. */
export interface InputProblem {
  readonly code: ErrorCode;
  /** Where, as a text such as `reading.counts.sizes[2]`. */
  readonly parameter: string;
  /** Where, step by step from the value handed in: `['counts', 'sizes', 2]`. */
  readonly path: readonly (string | number)[];
  /** What came, shortened; `undefined` where a member is missing. */
  readonly received: string;
  readonly expected: string;
}

/** The error of the parse functions: a `MotescaleError` with every problem in it. */
export interface InvalidInputError extends MotescaleError {
  readonly problems: readonly InputProblem[];
}

/**
 * Tells whether a thrown value is the error of a parse function, so that its `problems` can be shown.
 *
 * @example
 * ```ts
 * import { isInvalidInput, parseReading } from 'motescale/schema';
 * try {
 *   parseReading({ counts: { sizing: 'iso11171', sizes: [4, 6, 14], perMl: [1890, 'x', -33] } });
 * } catch (error) {
 *   if (isInvalidInput(error)) error.problems.map(({ parameter }) => parameter); // => ['reading.counts.perMl[1]', 'reading.counts.perMl[2]']
 * }
 * ```
 */
export function isInvalidInput(error: unknown): error is InvalidInputError {
  if (!isMotescaleError(error)) return false;
  const { problems } = error as { readonly problems?: unknown };
  return Array.isArray(problems) && problems.every((problem) => Array.isArray(problem?.path));
}

/** What an examination ends with: the value, or all that is wrong with it. */
export type Examined<T> =
  | { readonly value: T; readonly problems: null }
  | { readonly problems: readonly InputProblem[] };

/** A problem at a place; `received` is shown as in every error of the library. */
export function problemAt(
  root: string,
  path: readonly (string | number)[],
  code: ErrorCode,
  received: unknown,
  expected: string,
): InputProblem {
  const error = motescaleError(code, pathText(root, path), received, expected);
  return { code, parameter: error.parameter, path, received: error.received, expected };
}

/** One line for a problem. */
export function problemText(problem: InputProblem): string {
  return `${problem.parameter}: received ${problem.received}, expected ${problem.expected}`;
}

const mostListed = 20;

/** Returns the value, or throws the error with all problems. Where no code is given, it is that of the first problem. */
export function valueOrThrow<T>(examined: Examined<T>, root: string, input: unknown, code?: ErrorCode): T {
  if (examined.problems === null) return examined.value;
  const { problems } = examined;
  const first = problems[0] as InputProblem;
  const listed = problems.slice(0, mostListed).map(problemText).join('; ');
  const more = problems.length > mostListed ? `; and ${problems.length - mostListed} more` : '';
  const number = problems.length === 1 ? '1 problem' : `${problems.length} problems`;
  const error = motescaleError(code ?? first.code, root, input, `no problem, but found ${number}: ${listed}${more}`);
  throw Object.assign(error, { problems });
}

const longestName = 60;

/** `reading.counts.sizes[2]`; a name that is no plain word stands in quotes, shortened. */
export function pathText(root: string, path: readonly (string | number)[]): string {
  return path.reduce<string>((text, step) => {
    if (typeof step === 'number') return `${text}[${step}]`;
    if (/^\w{1,60}$/.test(step)) return `${text}.${step}`;
    return `${text}[${JSON.stringify(step.length > longestName ? `${step.slice(0, longestName)}...` : step)}]`;
  }, root);
}

/** `['alarms', 2, 'deadband']` from `config.alarms[2].deadband`: `pathText` backwards. */
export function pathOf(root: string, parameter: string): (string | number)[] {
  const steps = parameter.slice(root.length).match(/\[\d+\]|\w+/g) ?? [];
  return steps.map((step) => (step.charAt(0) === '[' ? Number(step.slice(1, -1)) : step));
}
