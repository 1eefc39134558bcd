/** Numbers as short text, so that a state stays small: 91 plain characters, none of which JSON escapes. */
import { scaleBinary, splitWords } from '../numeric/powersOfTwo.ts';

const base = 91;
const two20 = 1048576;
const two32 = 4294967296;
/** The characters of an exact figure, and of each of its two words. */
export const figureChars = 10;
const wordChars = 5;

/** A whole number of 0 or more in so many characters; it must be less than 91^chars. */
export function packWhole(whole: number, chars: number): string {
  let text = '';
  let left = whole;
  for (let i = 0; i < chars; i += 1) {
    const rest = Math.floor(left / base);
    text = String.fromCharCode(codeOf(left - rest * base)) + text;
    left = rest;
  }
  return text;
}

/** No backslash, which JSON escapes. */
function codeOf(digit: number): number {
  return digit < 57 ? digit + 35 : digit + 36;
}

/** The same in four characters, at once. */
export function packInFour(whole: number): string {
  const third = Math.floor(whole / base);
  const second = Math.floor(third / base);
  const first = Math.floor(second / base);
  return String.fromCharCode(
    codeOf(first),
    codeOf(second - first * base),
    codeOf(third - second * base),
    codeOf(whole - third * base),
  );
}

/** The whole number that stands at a place in so many characters. */
export function wholeAt(text: string, from: number, chars: number): number {
  let whole = 0;
  for (let i = from; i < from + chars; i += 1) {
    const code = text.charCodeAt(i);
    whole = whole * base + (code > 92 ? code - 36 : code - 35);
  }
  return whole;
}

/** Whether packed text holds another from a place on: asked at every reading, so no piece is cut out. */
export function standsAt(text: string, piece: string, from: number): boolean {
  for (let i = 0; i < piece.length; i += 1) if (text.charCodeAt(from + i) !== piece.charCodeAt(i)) return false;
  return true;
}

/** A figure, exactly: sign, exponent and the upper 20 bits; the lower 32. Below 2^-1022 it is 0. */
export function packFigure(figure: number): string {
  const size = Math.abs(figure);
  if (size < 1e-300) return packWhole(0, figureChars);
  const { exponent, upper, lower } = splitWords(size);
  const sign = figure < 0 ? 2048 : 0;
  return packWhole((exponent + 1023 + sign) * two20 + upper, wordChars) + packWhole(lower, wordChars);
}

/** The figure that stands at a place. */
export function figureAt(text: string, from: number): number {
  const first = wholeAt(text, from, wordChars);
  const high = Math.floor(first / two20);
  if (high === 0) return 0;
  const upper = first - high * two20;
  const lower = wholeAt(text, from + wordChars, wordChars);
  const size = scaleBinary(1 + (upper + lower / two32) / two20, (high % 2048) - 1023);
  return high < 2048 ? size : 0 - size;
}

/** Whether a value is such text of whole pieces of so many characters. */
export function isPacked(value: unknown, chars: number, most: number): value is string {
  return (
    typeof value === 'string' && value.length % chars === 0 && value.length <= most * chars && !/[^#-[\]-~]/.test(value)
  );
}

/** The characters of a time, and 91 to the power of all but the first. */
export const timeChars = 9;
const timeUnit = 4702525276151521;

/** A time, exactly: also one that lies twice as far from 1970 as any. */
export function packTime(time: number): string {
  let high = Math.floor(time / timeUnit);
  // the quotient may have been rounded up to a whole number
  if (time - high * timeUnit < 0) high -= 1;
  return packWhole(high + base / 2 - 0.5, 1) + packWhole(time - high * timeUnit, timeChars - 1);
}

/** The time that stands at a place. */
export function timeAt(text: string, from: number): number {
  const high = wholeAt(text, from, 1) - (base / 2 - 0.5);
  return high * timeUnit + wholeAt(text, from + 1, timeChars - 1);
}

/** A row of packed times, each of them changed. */
export function eachTime(text: string, changed: (time: number) => number): string {
  let times = '';
  for (let i = 0; i < text.length; i += timeChars) times += packTime(changed(timeAt(text, i)));
  return times;
}

/** What no figure is written as. */
const noFigure: string = /* @__PURE__ */ packWhole(1, figureChars);

/** A figure, or null. */
export function packFigureOrNull(figure: number | null): string {
  return figure === null ? noFigure : packFigure(figure);
}

/** The figure, or null, that stands at a place. */
export function figureOrNullAt(text: string, from: number): number | null {
  return text.slice(from, from + figureChars) === noFigure ? null : figureAt(text, from);
}
