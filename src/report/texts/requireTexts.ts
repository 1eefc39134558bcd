/**
 * A table of texts from outside: all of it, or an error that names what is missing.
 */
import { requireObject } from '../../checks.ts';
import { motescaleError } from '../../errors.ts';
import { englishTexts } from './english.ts';
import type { Texts } from './types.ts';

/**
 * The texts given, English where left out. Members beyond those of English are let be: a language may have tables of
 * its own.
 */
export function requireTexts(texts: Texts | undefined, parameter: string): Texts {
  if (texts === undefined || texts === englishTexts) return englishTexts;
  requireLike(texts, englishTexts, parameter);
  return texts;
}

function requireLike(given: unknown, model: unknown, parameter: string): void {
  if (typeof model === 'string') {
    if (typeof given !== 'string') throw motescaleError('wrong_type', parameter, given, 'a text');
    return;
  }
  const members = requireObject(given, parameter, 'a table of texts') as { readonly [name: string]: unknown };
  const models = model as { readonly [name: string]: unknown };
  for (const name of Object.keys(models)) requireLike(members[name], models[name], `${parameter}.${name}`);
}
