/**
 * Errors are data: a plain `Error` named `MotescaleError` that says which parameter was wrong, what came, and what would be right.
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
}

/**
 * Tells a MotescaleError from any other thrown value. It looks at the data, not at a class, so it works across copies of the library.
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

/** Makes the error; the caller throws it, so that the compiler sees where control ends. */
export function motescaleError(
  code: ErrorCode,
  parameter: string,
  received: unknown,
  expected: string,
  position?: number,
): MotescaleError {
  const shown = show(received);
  const place = position === undefined ? '' : ` at position ${position}`;
  const error = new Error(`${parameter}${place}: received ${shown}, expected ${expected}`) as Error & {
    -readonly [Key in keyof MotescaleError]: MotescaleError[Key];
  };
  error.name = 'MotescaleError';
  error.code = code;
  error.parameter = parameter;
  error.received = shown;
  error.expected = expected;
  if (position !== undefined) error.position = position;
  return error;
}

const longestShown = 60;

function show(value: unknown): string {
  if (typeof value === 'string') {
    return value.length > longestShown ? `'${value.slice(0, longestShown)}...'` : `'${value}'`;
  }
  if (typeof value === 'function') return 'a function';
  if (typeof value === 'bigint') return `${value}n`;
  if (typeof value !== 'object' || value === null) return String(value);
  return Array.isArray(value) ? showArray(value) : 'an object';
}

/** Short lists of numbers are shown whole. */
function showArray(value: readonly unknown[]): string {
  const short = value.length > 0 && value.length < 10 && value.every((element) => typeof element === 'number');
  return short ? value.join(', ') : `an array of ${value.length}`;
}
