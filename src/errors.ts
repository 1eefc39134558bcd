/**
 * Errors are data: a plain `Error` named `MotescaleError` that says which parameter was wrong, what came, and what
 * would be right.
 */

/** Stable names of what can be wrong with an input. */
export type ErrorCode =
  | 'wrong_type'
  | 'not_a_number'
  | 'infinite'
  | 'negative'
  | 'not_an_integer'
  | 'out_of_range'
  | 'empty'
  | 'too_few'
  | 'length_mismatch'
  | 'unknown_option'
  | 'unknown_sizing'
  | 'sizing_not_convertible'
  | 'sizes_out_of_order'
  | 'counts_rise_with_size'
  | 'missing_size'
  | 'missing_volume'
  | 'bad_table'
  | 'bad_code'
  | 'wrong_table'
  | 'not_convertible'
  | 'bad_state'
  | 'bad_configuration'
  | 'not_prepared'
  | 'bad_csv'
  | 'no_answer';

/** What every function of the library throws on bad input. */
export interface MotescaleError extends Error {
  readonly name: 'MotescaleError';
  /** Stable and snake_case: the part to test for. */
  readonly code: ErrorCode;
  /** The parameter that was wrong, as a path such as `counts.sizes[2]`. */
  readonly parameter: string;
  /** What came, shortened. */
  readonly received: string;
  /** What would have been right. */
  readonly expected: string;
  /** Where in a text the trouble starts, from 0; only on errors about a text. */
  readonly position?: number;
  /** The line of a file, from 1; only on errors about a file. */
  readonly line?: number;
  /** Every mistake, where several were looked for; the members above are then those of the whole input. */
  readonly problems?: readonly Problem[];
}

/** An error while it is made. */
type Writable = Error & { -readonly [Key in keyof MotescaleError]: MotescaleError[Key] };

/** The way to a value from what was handed in, step by step: `['alarms', 2, 'setpoint']`. */
export type Path = readonly (string | number)[];

/** Where in a file something stands, as its user counts. */
export interface FilePlace {
  /** The line, from 1. */
  readonly line?: number;
  /** The head of the column; of a column of counts its size, `6 µm`. */
  readonly column?: string;
}

/** One mistake among several in one input. */
export interface Problem extends FilePlace {
  /** From what was handed in to the value; empty for the whole. */
  readonly path: Path;
  readonly code: ErrorCode;
  /** What came, as text, shortened; `undefined` where a member is missing. */
  readonly received: string;
  readonly expected: string;
  /**
   * True in an entry of `told` where something that came is not in what was read. Without it that was only read in
   * another way, or what is left out was not measured (`null`).
   */
  readonly lost?: true;
}

/**
 * Tells a MotescaleError from any other thrown value. It looks at the data, not at a class, so it works across copies
 * of the library.
 *
 * @example
 * ```ts
 * import { cumulativeCounts, isMotescaleError } from 'motescale';
 * try {
 *   cumulativeCounts({ 4: -1 });
 * } catch (error) {
 *   if (isMotescaleError(error)) error.code; // => 'negative'
 * }
 * ```
 */
export function isMotescaleError(error: unknown): error is MotescaleError {
  if (typeof error !== 'object' || error === null) return false;
  const candidate = error as { name?: unknown; code?: unknown };
  return candidate.name === 'MotescaleError' && typeof candidate.code === 'string';
}

/** What was caught, where it is an error of the library; any other goes on. */
export function caught(error: unknown): MotescaleError {
  if (!isMotescaleError(error)) throw error;
  return error;
}

/** Makes the error; the caller throws it, so that the compiler sees where control ends. */
export function motescaleError(
  code: ErrorCode,
  parameter: string,
  received: unknown,
  expected: string,
): MotescaleError {
  const shown = show(received);
  const error = new Error(`${parameter}: received ${shown}, expected ${expected}`) as Writable;
  error.name = 'MotescaleError';
  error.code = code;
  error.parameter = parameter;
  error.received = shown;
  error.expected = expected;
  return error;
}

/** The same for a text in which the trouble starts at a position, from 0. */
export function errorAt(
  position: number,
  code: ErrorCode,
  parameter: string,
  received: unknown,
  expected: string,
): MotescaleError {
  const error = motescaleError(code, parameter, received, expected);
  error.message = `${parameter} at position ${position}: received ${error.received}, expected ${expected}`;
  (error as Writable).position = position;
  return error;
}

/** The same error, of a line of a file; as it is where none is known. */
export function atLine(error: MotescaleError, { line }: FilePlace): MotescaleError {
  if (line === undefined) return error;
  const { parameter, received, expected } = error;
  error.message = `${parameter}, line ${line}: received ${received}, expected ${expected}`;
  (error as Writable).line = line;
  return error;
}

/**
 * The mistakes an error names; empty where it names only itself.
 *
 * @example
 * ```ts
 * import { problemsOf } from 'motescale';
 * import { parseReading } from 'motescale/schema';
 * try {
 *   parseReading({ counts: { sizing: 'iso11171', sizes: [4, 6], perMl: [1890, 'x'] }, celcius: 41 });
 * } catch (error) {
 *   problemsOf(error).map(({ path }) => path.join('.')); // => ['celcius', 'counts.perMl.1']
 * }
 * ```
 */
export function problemsOf(error: unknown): readonly Problem[] {
  if (!isMotescaleError(error)) return [];
  return Array.isArray(error.problems) ? error.problems : [];
}

export function noteProblem(
  problems: Problem[],
  path: Path,
  code: ErrorCode,
  received: unknown,
  expected: string,
  more: FilePlace & Pick<Problem, 'lost'> = {},
): void {
  problems.push({ path, code, received: show(received), expected, ...more });
}

/** Tells what came and was left out, beside what would have been read. */
export function noteLost(
  told: Problem[],
  path: Path,
  code: ErrorCode,
  received: unknown,
  expected: string,
  place: FilePlace = {},
): void {
  noteProblem(told, path, code, received, `left out: ${expected}`, { lost: true, ...place });
}

/** Of what a whole file leaves out, so many are told one by one; a figure says how many there were in all. */
export const mostTold = 100;

/** A list that gets what was left out or read in another way. */
export function requireTold(told: Problem[]): void {
  if (!Array.isArray(told) || !Object.isExtensible(told))
    throw motescaleError('wrong_type', 'told', told, 'a list that is written to');
}

/** The way to a value as people write it: `config.alarms[2].setpoint`. */
export function parameterAt(root: string, path: Path): string {
  let text = root;
  for (const step of path) text += typeof step === 'number' ? `[${step}]` : `.${step}`;
  return text;
}

/** Throws one error for all the mistakes in an input; returns where there are none. */
export function throwProblems(code: ErrorCode, root: string, received: unknown, problems: readonly Problem[]): void {
  const { length } = problems;
  if (length === 0) return;
  const lines = problems.slice(0, 20).map((problem) => problemLine(root, problem));
  if (length > 20) lines.push(`and ${length - 20} more`);
  const mistakes = length === 1 ? '1 mistake' : `${length} mistakes`;
  const without = length === 1 ? 'this mistake' : `these ${mistakes}`;
  const error: Writable = motescaleError(code, root, received, `an input without ${without}: ${lines.join('; ')}`);
  error.message = `${mistakes}: ${lines.join('; ')}`;
  error.problems = problems;
  throw error;
}

/**
 * Throws what is wrong with an input: one mistake by its parameter, several as one error with the code of the first;
 * returns where there is none.
 */
export function throwMistakes(root: string, received: unknown, problems: readonly Problem[]): void {
  const [first] = problems;
  if (first === undefined) return;
  if (problems.length > 1) throwProblems(first.code, root, received, problems);
  const error: Writable = motescaleError(first.code, parameterAt(root, first.path), received, first.expected);
  error.message = problemLine(root, first);
  error.received = first.received;
  error.problems = problems;
  throw error;
}

export function problemLine(root: string, { path, received, expected }: Problem): string {
  return readable(`${parameterAt(root, path)}: received ${received}, expected ${expected}`);
}

/** Text that stays one line in a log: controls of lines, terminals and directions, and halves of pairs, as `\u001b`. */
export function readable(text: string): string {
  return text.replace(unreadable, (found) => {
    return found.length > 1 ? found : `\\u${(0x10000 + found.charCodeAt(0)).toString(16).slice(1)}`;
  });
}

/** Pairs that are whole, to be left, and all that is not. */
const unreadable =
  /[\ud800-\udbff][\udc00-\udfff]|[^ -~\xa0-\u061b\u061d-\u200d\u2010-\u2027\u202f-\u2065\u206a-\ud7ff\ue000-\uffff]/g;

/** A value in a few words, for an error. */
export function show(value: unknown): string {
  const longestShown = 60;
  if (typeof value === 'string') {
    return `'${value.length > longestShown ? `${value.slice(0, longestShown)}...` : value}'`;
  }
  if (typeof value === 'function') return 'a function';
  if (typeof value === 'bigint') return `${value}n`;
  if (typeof value !== 'object' || value === null) return String(value);
  if (Array.isArray(value)) return showArray(value);
  return 'getTime' in value ? 'a Date' : 'an object';
}

/** Short lists of numbers are shown whole. */
function showArray(value: readonly unknown[]): string {
  const short = value.length > 0 && value.length < 10 && value.every((element) => typeof element === 'number');
  return short ? value.join(', ') : `an array of ${value.length}`;
}
