/**
 * A configuration is checked as a whole: one error names every mistake in it, so that it is put right in one go.
 */
import { isMotescaleError, type MotescaleError, motescaleError } from '../errors.ts';

/** One mistake in a configuration. */
export interface ConfigurationProblem {
  /** Where, as a path such as `config.alarms[2].deadband`. */
  readonly parameter: string;
  readonly received: string;
  readonly expected: string;
}

/** The error of a bad configuration: `code` is `bad_configuration`, and `problems` holds every mistake in order. */
export interface BadConfigurationError extends Omit<MotescaleError, 'problems'> {
  readonly code: 'bad_configuration';
  readonly problems: readonly ConfigurationProblem[];
}

/** Tells whether a thrown value is the error of a bad configuration, so that its `problems` can be shown. */
export function isBadConfiguration(error: unknown): error is BadConfigurationError {
  if (!isMotescaleError(error) || error.code !== 'bad_configuration') return false;
  return Array.isArray((error as { problems?: unknown }).problems);
}

/** Runs one check; what it throws is noted, and the next check can follow. */
export function note(problems: ConfigurationProblem[], check: () => unknown): void {
  try {
    check();
  } catch (error) {
    if (!isMotescaleError(error)) throw error;
    if (isBadConfiguration(error)) {
      for (const problem of error.problems) problems.push(problem);
    } else {
      problems.push({ parameter: error.parameter, received: error.received, expected: error.expected });
    }
  }
}

/** Notes every member that has no place in an object: a misspelt name would otherwise be a setting that is silently not made. */
export function noteUnknownMembers(
  problems: ConfigurationProblem[],
  object: object,
  parameter: string,
  known: readonly string[],
): void {
  for (const key of Object.keys(object)) {
    if (known.indexOf(key) < 0) {
      problems.push({
        parameter: `${parameter}.${key}`,
        received: `'${key}'`,
        expected: `one of the members ${known.join(', ')}`,
      });
    }
  }
}

/** Throws one error for all the mistakes; returns if there are none. */
export function throwProblems(problems: readonly ConfigurationProblem[], parameter: string, config: unknown): void {
  if (problems.length === 0) return;
  const list = problems.map((p) => `${p.parameter}: received ${p.received}, expected ${p.expected}`).join('; ');
  const mistakes = problems.length === 1 ? '1 mistake' : `${problems.length} mistakes`;
  const error = motescaleError('bad_configuration', parameter, config, `no mistake, but found ${mistakes}: ${list}`);
  (error as unknown as { problems: readonly ConfigurationProblem[] }).problems = problems;
  throw error;
}
