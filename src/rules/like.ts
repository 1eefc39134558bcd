/**
 * A table of texts from outside: all that the English one has, or an error that names what is missing. Members beyond
 * those are let be: a language may have tables of its own.
 */
import { requireObject } from '../checks.ts';
import { motescaleError } from '../errors.ts';

/** Throws unless each text of the model is there. */
export function requireLike(given: unknown, model: unknown, parameter: string): void {
  if (given === model) return;
  if (typeof model === 'string') {
    if (typeof given !== 'string') throw motescaleError('wrong_type', parameter, given, 'a text');
    return;
  }
  const members = requireObject(given, parameter, 'a table of texts') as { readonly [name: string]: unknown };
  const models = model as { readonly [name: string]: unknown };
  for (const name of Object.keys(models)) requireLike(members[name], models[name], `${parameter}.${name}`);
}
