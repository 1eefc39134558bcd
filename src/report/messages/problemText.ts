/** One mistake of several, or one entry of what was told, in words. */
import { requireArray, requireMembers, requireObject, requireOneOf, requireText } from '../../checks.ts';
import { motescaleError, type Problem } from '../../errors.ts';
import { requireTexts } from '../texts/english.ts';
import { fill, wordIn } from '../texts/fill.ts';
import type { Texts } from '../texts/types.ts';
import { expectation, expectedText, receivedText } from './expectedText.ts';

/**
 * A mistake of `problemsOf`, or an entry of a list `told`, as sentences in the words of a language: where it is, what
 * came, and what was made of it or what was expected. Where it has a line of a file, that and the head of the column
 * say where; else its path does.
 *
 * @param problem of `problemsOf`, or of a list `told`
 * @param texts the words of another language; English where left out
 * @throws `wrong_type` for what is none.
 *
 * @example
 * ```ts
 * import { csvColumns, type Problem, parseCsv, problemText } from 'motescale/report';
 * import { germanTexts } from 'motescale/german';
 * const told: Problem[] = [];
 * const keeps = { separator: ';', keepReadable: true } as const;
 * csvColumns(parseCsv('t;4\n1;1890\n2;n/a\n', keeps), told, { keepReadable: true });
 * told.map((one) => problemText(one));
 * // => ["Line 3, column '4', is of the wrong kind: 'n/a'. Left out. Expected: a number."]
 * told.map((one) => problemText(one, germanTexts));
 * // => ["Zeile 3, Spalte „4“, ist von falscher Art: 'n/a'. Weggelassen. Erwartet: eine Zahl."]
 * ```
 */
export function problemText(problem: Problem, texts?: Texts): string {
  const words = requireTexts(texts, 'texts');
  requireMembers(requireObject(problem, 'problem', expectedProblem), 'problem', members);
  const { path, code, received, expected, line = 0, column = '' } = problem;
  requireArray(path, 'problem.path');
  const isSound = path.every(isPlace) && typeof line === 'number' && isFinite(line) && typeof column === 'string';
  if (!isSound) throw motescaleError('wrong_type', 'problem', problem, expectedProblem);
  requireOneOf(code, 'problem.code', Object.keys(words.errors));
  requireText(received, 'problem.received');
  requireText(expected, 'problem.expected');
  return mistakeText(problem, placeIn(problem, words) ?? words.problems.whole, words);
}

const isPlace = (part: unknown) => typeof part === 'string' || typeof part === 'number';
const expectedProblem = 'an entry of problemsOf or of told';
const members = ['path', 'code', 'received', 'expected', 'lost', 'line', 'column'];

/** Where a mistake is: in a file, or by its path; null where it is the whole that was handed in. */
export function placeIn({ path, line, column = '' }: Problem, { problems }: Texts): string | null {
  if (line === undefined && column === '') return path.length === 0 ? null : path.join('.');
  const form = line === undefined ? problems.column : column === '' ? problems.line : problems.cell;
  return fill(form, { number: `${line}`, column });
}

/** What a mistake says beside where it is. */
type Mistake = Pick<Problem, 'code' | 'received' | 'expected'>;

/** What came, and what was made of it or was expected. */
export function mistakeText({ code, received, expected }: Mistake, parameter: string, words: Texts): string {
  const found = /^(left out|kept|read as (.*?))(?:: (.*))?$/.exec(expected);
  const wanted = found === null ? expected : (found[3] ?? '');
  const isAbsent = received === 'undefined' && found?.[2] !== undefined;
  const template = isAbsent ? words.problems.absent : words.errors[code];
  const what = fill(template, { parameter, received: receivedText(received, words) });
  if (found?.[2] !== undefined) return `${what} ${readText(found[2], wanted, words)}`;
  const made = found === null ? '' : words.problems[found[1] === 'kept' ? 'kept' : 'leftOut'];
  return [what, made, wanted === '' ? '' : expectation(wanted, words)].filter((part) => part !== '').join(' ');
}

/** As what it was read, and why. */
function readText(read: string, reason: string, words: Texts): string {
  const value = wordIn(words.qualities, receivedText(read, words));
  const why = reason === '' ? null : expectedText(reason, words);
  return why === null ? fill(words.problems.readAs, { value }) : fill(words.problems.readBecause, { value, why });
}
