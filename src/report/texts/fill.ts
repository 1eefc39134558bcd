/** Templates filled, and numbers, shares and durations written as a language writes them. */
import { hasOwn } from '../../checks.ts';
import { shown } from '../../numeric/shown.ts';
import { durationOf, percentOf } from '../figures.ts';
import type { Texts } from './types.ts';

/** What stands at the named places. */
export type Places = Readonly<Record<string, string>>;

/** `{name}` for each named place; a place without a name given stays as it is. */
export function fill(template: string, places: Places): string {
  return template.replace(/\{(\w+)\}/g, (place, name: string) =>
    hasOwn(places, name) ? (places[name] as string) : place,
  );
}

/** A word in the words of a language; one that it does not know stands for itself. */
export function wordIn(words: Readonly<Record<string, string>>, word: string): string {
  return hasOwn(words, word) ? (words[word] as string) : word;
}

/** The signs of a language in which numbers are written. */
type Signs = Pick<Texts, 'decimalSign' | 'groupSign'>;

/** Digits as English has them without groups, in the signs of the language: `12345.6` as `12,345.6`. */
export function localized(digits: string, { decimalSign, groupSign }: Signs): string {
  const [whole = '', part] = digits.split('.');
  let grouped = whole;
  for (let cut = whole.length - 3; cut > (whole.charAt(0) === '-' ? 1 : 0); cut -= 3) {
    grouped = grouped.slice(0, cut) + groupSign + grouped.slice(cut);
  }
  return part === undefined ? grouped : grouped + decimalSign + part;
}

/** A figure to three digits. */
export function figure(value: number, signs: Signs): string {
  return localized(shown(value), signs);
}

/** A whole number, such as a number of readings. */
export function whole(value: number, signs: Signs): string {
  return localized(String(value), signs);
}

/** Whether a code is one class for all sizes, and none of a class for each. */
export function isOneClass(code: string): boolean {
  return code.indexOf('/') < 0;
}

/** A code as it is written, with the words in it in those of the language: `6 or dirtier`. */
export function codeIn(text: string, { orDirtier }: Pick<Texts, 'orDirtier'>): string {
  return text.split(/ or dirtier(?![a-z])/).join(` ${orDirtier}`);
}

/** A share as a percentage with one decimal. Never 100 or 0 unless it is all or nothing. */
export function percentText(share: number, texts: Texts): string {
  const { sign, digits } = percentOf(share);
  return fill(texts.percent, { number: sign + localized(digits, texts) });
}

/** A probability as a percentage: nothing measured is certain, so it is never 100 or 0. */
export function probabilityText(probability: number, texts: Texts): string {
  return percentText(Math.min(Math.max(probability, 1e-9), 1 - 1e-9), texts);
}

/** A time as minutes, hours or days: rounded up, so that a plan is not too short; `down` for the end of what holds. */
export function durationText(minutes: number, texts: Texts, towards: 'up' | 'down' = 'up'): string {
  const { unit, digits } = durationOf(minutes, towards);
  return fill(texts.durations[unit], { number: localized(digits, texts) });
}
