/** An error in words. */
import { isObject } from '../../checks.ts';
import { isMotescaleError, problemsOf, show } from '../../errors.ts';
import { requireTexts } from '../texts/english.ts';
import { fill } from '../texts/fill.ts';
import type { Texts } from '../texts/types.ts';
import { mistakeText, placeIn } from './problemText.ts';

/**
 * What is wrong with an input, as a sentence in the words of a language, by the code of the error, with the line where
 * it has one. Each of several mistakes has a line.
 *
 * What was expected follows as a sentence of its own. The error has it in English; another language says it by
 * `texts.expected`, and leaves out the little that it has no words for: what only a developer meets.
 *
 * Of any other error, also one of the library that `structuredClone` has made a plain `Error` of on its way from a
 * worker, it is the message, in the language that has: no error is lost for another.
 *
 * @param error what was caught
 * @param texts the words of another language; English where left out
 *
 * @example
 * ```ts
 * import { cumulativeCounts, errorText } from 'motescale';
 * try {
 *   cumulativeCounts({ 4: -1 });
 * } catch (error) {
 *   errorText(error).slice(0, 26); // => 'counts[4] is negative: -1.'
 * }
 * ```
 */
export function errorText(error: unknown, texts?: Texts): string {
  const words = requireTexts(texts, 'texts');
  if (!isMotescaleError(error)) {
    const message = isObject(error) ? error.message : error;
    return typeof message === 'string' ? message : show(error);
  }
  const { parameter, line } = error;
  const problems = problemsOf(error);
  if (problems.length > 0)
    return problems.map((problem) => mistakeText(problem, placeIn(problem, words) ?? parameter, words)).join('\n');
  const place = line === undefined ? parameter : fill(words.errorLine, { parameter, number: `${line}` });
  return mistakeText(error, place, words);
}
