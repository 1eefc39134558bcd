/** The questions every function asks of its input before it computes: is it a number, is it finite, is it in range. */
import { type ErrorCode, type FilePlace, type MotescaleError, motescaleError } from './errors.ts';
import { largestFigure, largestWhole, smallestFigure } from './rules/bounds.ts';

/** A finite number, or an error that says which of the three ways it failed: no number at all, NaN, or infinite. */
export function requireFinite(value: unknown, parameter: string, expected = 'a finite number'): number {
  if (typeof value === 'number' && isFinite(value)) return value;
  const code = typeof value !== 'number' ? 'wrong_type' : value === value ? 'infinite' : 'not_a_number';
  throw motescaleError(code, parameter, value, expected);
}

/** A finite number of zero or more, up to 1e60. */
export function requireNonNegative(value: unknown, parameter: string, expected = 'a number of 0 or more'): number {
  const number = requireUnsigned(value, parameter, expected);
  if (number > largestFigure) throw motescaleError('out_of_range', parameter, value, `${expected}, up to 1e60`);
  return number;
}

/** A finite number above zero, from 1e-60 to 1e60. */
export function requirePositive(value: unknown, parameter: string, expected = 'a number above 0'): number {
  const number = requireNonNegative(value, parameter, expected);
  if (number < smallestFigure) throw motescaleError('out_of_range', parameter, value, expected);
  return number;
}

/** A finite number of zero or more, however large or small. */
export function requireUnsigned(value: unknown, parameter: string, expected = 'a number of 0 or more'): number {
  const number = requireFinite(value, parameter, expected);
  if (number < 0) throw motescaleError('negative', parameter, value, expected);
  return number;
}

/** A number within closed limits; the message names them. `source` says which standard or model sets them. */
export function requireWithin(value: unknown, parameter: string, low: number, high: number, source = ''): number {
  const expected = `a number from ${low} to ${high}${source === '' ? '' : ` (${source})`}`;
  const number = requireFinite(value, parameter, expected);
  if (number < low || number > high) throw motescaleError('out_of_range', parameter, value, expected);
  return number;
}

/** What a quantity that is never negative may be: both limits are allowed; `expected` names it with its unit. */
export interface Measure {
  readonly expected: string;
  readonly least: number;
  readonly most: number;
  readonly whole?: true;
}

export function requireBoolean(value: unknown, parameter: string): boolean {
  if (typeof value !== 'boolean') throw motescaleError('wrong_type', parameter, value, 'true or false');
  return value;
}

export function isFiniteNumber(value: unknown): value is number {
  return typeof value === 'number' && isFinite(value);
}

export function isWithin(value: unknown, { least, most, whole }: Measure): value is number {
  return typeof value === 'number' && value >= least && value <= most && (!whole || value === Math.floor(value));
}

/** The error for what does not keep the rule, in the rule's words; its code says which way it failed. */
export function outOfRange(value: unknown, parameter: string, rule: Measure): MotescaleError {
  const { expected, least, most, whole } = rule;
  let code: ErrorCode = 'out_of_range';
  if (typeof value !== 'number') code = 'wrong_type';
  else if (value !== value) code = 'not_a_number';
  else if (value - value !== 0) code = 'infinite';
  else if (value < 0) code = 'negative';
  else if (whole && value !== Math.floor(value)) code = 'not_an_integer';
  return motescaleError(code, parameter, value, `${expected} from ${least} to ${most}`);
}

export function requireRange(value: unknown, parameter: string, rule: Measure): number {
  if (isWithin(value, rule)) return value;
  throw outOfRange(value, parameter, rule);
}

/** The same for limits that stand in no rule. */
export function requireMeasure(
  value: unknown,
  parameter: string,
  least: number,
  most: number,
  expected: string,
): number {
  return requireRange(value, parameter, { expected, least, most });
}

/** A share strictly between 0 and 1, such as a confidence. */
export function requireShare(value: unknown, parameter: string): number {
  const expected = 'a number above 0 and below 1';
  const number = requireFinite(value, parameter, expected);
  if (number <= 0 || number >= 1) throw motescaleError('out_of_range', parameter, value, expected);
  return number;
}

/** A confidence where nothing else is said. */
export const usualConfidence = 0.95;

/** The confidence of options that say nothing else, above 0 and below 1. */
export function confidenceOf(options: { readonly confidence?: number | undefined }): number {
  requireObject(options, 'options', undefined, ['confidence']);
  return requireShare(options.confidence ?? usualConfidence, 'options.confidence');
}

/** A confidence of 0.5 to 0.9999, the usual one where left out. */
export function requireConfidence(value: unknown): number {
  return requireWithin(value ?? usualConfidence, 'options.confidence', 0.5, 0.9999);
}

/** The error for what is none of a few words. */
export function noneOf(
  words: readonly string[],
  code: ErrorCode,
  parameter: string,
  received: unknown,
  more = '',
): MotescaleError {
  return motescaleError(code, parameter, received, `one of '${words.join("', '")}'${more}`);
}

export function requireOneOf<Word extends string>(value: unknown, parameter: string, words: readonly Word[]): Word {
  if (words.indexOf(value as Word) < 0)
    throw noneOf(words, typeof value === 'string' ? 'unknown_option' : 'wrong_type', parameter, value);
  return value as Word;
}

/** A plain object and no array, so that reading a member of it cannot fail; with `members` it may have no others. */
export function requireObject(
  value: unknown,
  parameter: string,
  expected?: string,
  members?: readonly string[],
): object {
  if (!isObject(value)) throw motescaleError('wrong_type', parameter, value, expected ?? 'an object');
  if (members !== undefined) requireMembers(value, parameter, members, expected);
  return value;
}

export function isObject(value: unknown): value is { readonly [name: string]: unknown } {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/** Refuses members of another name, so that a misspelt option cannot pass for one left out. */
export function requireMembers(value: object, parameter: string, names: readonly string[], of?: string): void {
  for (const name of Object.keys(value)) {
    if (names.indexOf(name) < 0) {
      const whole = of === undefined ? '' : `, the members of ${of}`;
      throw noneOf(names, 'unknown_option', `${parameter}.${name}`, name, whole);
    }
  }
}

/** An array, empty or not; who walks it by index finds its holes. */
export function requireArray(
  value: unknown,
  parameter: string,
  expected = 'an array',
): asserts value is readonly unknown[] {
  if (!Array.isArray(value)) throw motescaleError('wrong_type', parameter, value, expected);
}

/** An array with at least one element; who walks it by index finds its holes. */
export function requireFilled(value: unknown, parameter: string, expected: string): readonly unknown[] {
  if (!Array.isArray(value)) throw motescaleError('wrong_type', parameter, value, expected);
  if (value.length === 0) throw motescaleError('empty', parameter, value, `${expected} with at least one element`);
  return value;
}

/** The same, and none missing: map and forEach would walk past a hole. */
export function requireFilledArray(value: unknown, parameter: string, expected = 'an array'): readonly unknown[] {
  const list = requireFilled(value, parameter, expected);
  for (let i = 0; i < list.length; i += 1)
    if (!(i in list)) throw motescaleError('wrong_type', `${parameter}[${i}]`, undefined, `${expected} without a hole`);
  return list;
}

/** The same, or an empty one. */
export function requireWholeArray(value: unknown, parameter: string, expected?: string): readonly unknown[] {
  return Array.isArray(value) && value.length === 0 ? value : requireFilledArray(value, parameter, expected);
}

/** The line of a file in which each value of a list stood, where lines were given. */
export function linesOf(
  lines: unknown,
  { length }: { readonly length: number },
  parameter: string,
): (i: number) => FilePlace {
  if (lines === undefined) return () => ({});
  requireArray(lines, parameter, 'an array of lines');
  if (lines.length !== length)
    throw motescaleError('length_mismatch', parameter, lines, `an array of ${length}, one for each row`);
  return (i) => {
    requireWholeWithin(lines[i], `${parameter}[${i}]`, 1, largestWhole);
    return { line: lines[i] as number };
  };
}

const isOwn = Object.prototype.hasOwnProperty;

/** Whether a member is the object's own, whatever its name is. */
export function hasOwn(object: object, name: string): boolean {
  return isOwn.call(object, name);
}

export function requireText(value: unknown, parameter: string, expected = 'a text'): string {
  if (typeof value !== 'string') throw motescaleError('wrong_type', parameter, value, expected);
  return value;
}

export function requireWholeWithin(value: unknown, parameter: string, low: number, high: number): void {
  const expected = `a whole number from ${low} to ${high}`;
  const number = requireFinite(value, parameter, expected);
  if (number !== Math.floor(number)) throw motescaleError('not_an_integer', parameter, value, expected);
  if (number < low || number > high) throw motescaleError('out_of_range', parameter, value, expected);
}

/** Points far enough apart, °C, for a slope. */
export function requireApart(points: readonly { readonly celsius: number }[], least: number): void {
  let [coldest, hottest] = [Infinity, -Infinity];
  for (const { celsius } of points) [coldest, hottest] = [Math.min(coldest, celsius), Math.max(hottest, celsius)];
  if (hottest - coldest >= least) return;
  const expected = `points at two or more temperatures, at least ${least} °C apart`;
  throw motescaleError('too_few', 'points', points, expected);
}

/** A density in kg/m³, 500 to 2000, of a liquid: g/cm3 and lb/ft3 lie below. */
export function requireDensity(kgPerM3: unknown, parameter: string): number {
  return requireWithin(kgPerM3, parameter, 500, 2000, 'kg/m3 of a liquid; not in g/cm3 or lb/ft3');
}
