/**
 * What the library itself has against a configuration, as problems of an input.
 */
import { isMotescaleError, type Problem } from '../errors.ts';
import { type InputProblem, pathOf, pathText } from './inputError.ts';

/** The problems of which a check tells; none where it passes. */
export function refusals(check: () => unknown): InputProblem[] {
  try {
    check();
    return [];
  } catch (error) {
    if (!isMotescaleError(error) || error.code !== 'bad_configuration') throw error;
    const problems = (error.problems ?? []) as readonly (Problem & { readonly parameter?: string })[];
    return problems.map(({ path, parameter, received, expected }) => {
      const way = parameter === undefined ? path : pathOf('config', parameter);
      const place = pathText('config', way);
      return { code: 'bad_configuration' as const, path: way, parameter: place, received, expected };
    });
  }
}

/** The same problem at another place. */
export function movedTo(problem: InputProblem, path: InputProblem['path']): InputProblem {
  return { ...problem, path, parameter: pathText('config', path) };
}
