/** The table of texts of a report. */
import { requireLike } from '../../rules/like.ts';
import { englishTexts } from './english.ts';
import type { Texts } from './types.ts';

/** The texts given, English where left out. */
export function requireTexts(given: Texts | undefined, parameter: string): Texts {
  const texts = given ?? englishTexts;
  requireLike(texts, englishTexts, parameter);
  return texts;
}
