/**
 * What an error expects, in the words of a language: the English of the error is recognized, its places are read, and
 * the other language is filled with them.
 */
import { englishExpectedTexts } from '../texts/englishExpected.ts';
import { fill, localized } from '../texts/fill.ts';
import type { Texts } from '../texts/types.ts';

type ExpectedName = keyof typeof englishExpectedTexts;

/** What may stand at a place; `what` and `also` are what an error can expect again. No English sentence passes. */
const places: Readonly<Record<string, string>> = {
  number: '-?\\d[\\d.e+-]*',
  low: '-?(?:\\d[\\d.e+-]*|Infinity)|NaN',
  high: '-?\\d[\\d.e+-]*',
  epoch: '[\\d:TZ-]+(?: UTC)?',
  size: '[\\d.]+ µm(?:\\([bc]\\))?',
  sizes: '[^ ]+',
  token: '[^ ]+',
  standard: '[A-Z][^:,;]*',
  classes: '[^ ,]+(?:, [^ ,]+)*',
  members: '\\w+(?:, \\w+)*',
  words: "'[^']*'(?:, '[^']*')*",
  before: "'[^']*'",
  braces: '\\{ (?:(?!\\}, (?:or|an?) |\\} or ).)* \\}',
  typed: '\\w+Array',
  columns: '[^;]+',
  function: '[a-z]+[A-Z]\\w*',
  version: '[\\w.-]+',
  first: '0|0, null',
  // columns of a file: 28 (AB)
  spot: '\\d+ \\([A-Z]+\\)',
  twin: '\\d+ \\([A-Z]+\\)',
  // of one or two letters, or with a sign in it
  unit: '(?:\\d+ )?(?![^ ]*[a-z]{4})[^ ,{}]+',
  // standards and units; a word of English is none
  note: '(?!.*(?:^|[ (])[a-z]{2,}(?:[ ,:;)]|$)).+',
  // what a language says in one word, or not at all
  thing: '[^{}():;,]+',
  rest: '(?:[ ,:].*)?',
  // English from a table of classes: a language leaves it out
  hint: '.+',
  what: '.+',
  also: '.+',
};

/** Null for what the language has no words for; English always has those of the error. */
export function expectedText(expected: string, texts: Texts): string | null {
  return isEnglish(texts) ? expected : translated(expected, texts);
}

/** What came: told by its kind, `an object`, or a number in the signs of the language; text as it came, in quotes. */
export function receivedText(received: string, texts: Texts): string {
  if (isEnglish(texts)) return received;
  if (plainNumber.test(received)) return localized(received, texts);
  return (/^an? /.test(received) ? translated(received, texts) : null) ?? received;
}

/** Digits without a power of ten. */
const plainNumber = /^-?\d+(\.\d+)?$/;

/** An error has its English itself. */
function isEnglish({ language }: Texts): boolean {
  return language.split('-')[0] === 'en';
}

/** `Expected: ...` as a sentence of its own; nothing where the language has no words for it. */
export function expectation(expected: string, texts: Texts): string {
  const told = expectedText(expected, texts);
  return told === null ? '' : fill(texts.expectation, { expected: told });
}

function translated(expected: string, texts: Texts): string | null {
  for (const name of Object.keys(englishExpectedTexts) as ExpectedName[]) {
    const found = placesIn(englishExpectedTexts[name], expected, texts);
    if (found !== null) return fill(texts.expected[name], found);
  }
  return null;
}

/** What stands at the places of a template; null where the text is another, or `what` has no words. */
function placesIn(template: string, text: string, texts: Texts): { readonly [name: string]: string } | null {
  if (template.indexOf('{') < 0) return template === text ? {} : null;
  const parts = template.split(/\{(\w+)\}/);
  const pattern = parts.map((part, i) =>
    i % 2 === 1 ? `(${places[part]})` : part.replace(/[.*+?^${}()|[\]\\]/g, '\\$&'),
  );
  const match = new RegExp(`^${pattern.join('')}$`).exec(text);
  if (match === null) return null;
  const found: { [name: string]: string } = {};
  for (let i = 1; i < parts.length; i += 2) {
    const name = parts[i] as string;
    const part = match[(i + 1) / 2] as string;
    const told = name === 'what' || name === 'also' ? translated(part, texts) : part;
    if (told === null) return null;
    found[name] = plainNumber.test(told) ? localized(told, texts) : told;
  }
  return found;
}
