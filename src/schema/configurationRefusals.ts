/**
 * What the library itself has against a configuration, as problems of an input.
 */
import { isBadConfiguration } from '../monitor/index.ts';
import { type InputProblem, pathOf, pathText } from './inputError.ts';

/** The problems of which a check tells; none where it passes. */
export function refusals(check: () => unknown): InputProblem[] {
  try {
    check();
    return [];
  } catch (error) {
    if (!isBadConfiguration(error)) throw error;
    return error.problems.map((problem) => ({
      ...problem,
      code: 'bad_configuration' as const,
      path: pathOf('config', problem.parameter),
    }));
  }
}

/** The same problem at another place. */
export function movedTo(problem: InputProblem, path: InputProblem['path']): InputProblem {
  return { ...problem, path, parameter: pathText('config', path) };
}
