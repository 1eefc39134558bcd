/**
 * All that an input may be told to be has German: each `expected` recorded in refusals/ is said by `germanTexts`, and
 * no word of English is left in it.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { germanTexts } from '../../src/german/index.ts';
import { englishTexts } from '../../src/report/index.ts';
import { expectedText } from '../../src/report/messages/expectedText.ts';
import { filesBelow } from '../files.ts';
import { englishIn, wordsOfEnglish } from './englishIn.ts';

const codes = Object.keys(englishTexts.errors).join('|');

/** What a line of the record expects, of each of several mistakes: `  null: wrong_type codes.0: a class table`. */
function expectedIn(line: string): string[] {
  const found = new RegExp(`^ {2}.*?: (?:${codes}) (?=.*: )(.*)$`).exec(line);
  const mistakes = found === null ? [] : (found[1] as string).split(new RegExp(`; (?:${codes}) `));
  return mistakes.map((mistake) => mistake.slice(mistake.indexOf(': ') + 2));
}

test('what is English is found', () => {
  expect(wordsOfEnglish.size).toBeGreaterThan(200);
  expect(englishIn('eine Zahl von 0 bis 10 (a share of water)')).toEqual(['share', 'of', 'water']);
  expect(expectedIn('  null: wrong_type codes.0: a class table; empty codes.0.id: a text')).toEqual([
    'a class table',
    'a text',
  ]);
  expect(expectedIn('  NaN: wrong_type, the same')).toEqual([]);
});

describe.each(filesBelow('tests/inputs/refusals', '.txt'))('%s', (file) => {
  const all = new Set(readFileSync(file, 'utf8').split('\n').flatMap(expectedIn));

  test('each has German, and that alone', () => {
    expect(all.size).toBeGreaterThan(10);
    const missing: string[] = [];
    const mixed: string[] = [];
    for (const expected of all) {
      const told = expectedText(expected, germanTexts);
      if (told === null) missing.push(expected);
      else if (englishIn(told).length > 0) mixed.push(`${expected} => ${told}`);
    }
    expect(missing).toEqual([]);
    expect(mixed).toEqual([]);
  });
});
