/**
 * An error in words.
 */
import { requireObject } from '../../checks.ts';
import { isMotescaleError, motescaleError } from '../../errors.ts';
import { fill } from '../texts/fill.ts';
import { requireTexts } from '../texts/requireTexts.ts';
import type { Texts } from '../texts/types.ts';

/**
 * What is wrong with an input, as a sentence in the words of a language, by the code of the error. Each of several
 * mistakes has a line.
 *
 * `expected` of an error is English and full of figures; English texts have it, and other languages may leave it out.
 *
 * @param error what a function of the library threw
 * @param texts the words of another language; English where left out
 * @throws `wrong_type` for what is no error of the library.
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
  requireObject(error, 'error', 'an error of the library');
  if (!isMotescaleError(error)) throw motescaleError('wrong_type', 'error', error, 'an error of the library');
  const { problems } = error;
  if (problems !== undefined && problems.length > 0) {
    return problems
      .map(({ path, code, received, expected }) =>
        fill(words.errors[code], { parameter: path.join('.'), received, expected }),
      )
      .join('\n');
  }
  const { code, parameter, received, expected } = error;
  return fill(words.errors[code], { parameter, received, expected });
}
