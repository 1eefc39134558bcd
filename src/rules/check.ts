/** Holds a value against a rule. Every mistake is noted, with the path to it; a value that passes costs no text. */
import { isObject } from '../checks.ts';
import { noteProblem, type Path, type Problem } from '../errors.ts';
import { largestFigure, longestName, smallestFigure } from './bounds.ts';
import { nameHint, numberHint } from './hints.ts';
import type { EitherRule, ListRule, NumberRule, ObjectRule, RecordRule, Rule } from './rule.ts';
import { expectedOf, namesText, oneOf } from './words.ts';

/** Notes all that is wrong with a value, and says whether nothing is. */
export function checkRule(rule: Rule, value: unknown, path: Path, problems: Problem[]): boolean {
  if (value === null && rule.nullable === true) return true;
  if (value === undefined && rule.optional === true) return true;
  switch (rule.kind) {
    case 'list':
      return checkList(rule, value, path, problems);
    case 'object':
      return checkObject(rule, value, path, problems);
    case 'record':
      return checkRecord(rule, value, path, problems);
    case 'either': {
      const form = rule.choose(value);
      return form === null
        ? refuse(problems, path, isObject(value) ? 'unknown_option' : 'wrong_type', value, rule)
        : checkRule(form, value, path, problems);
    }
    default:
      return keeps(rule, value) || refuse(problems, path, codeOf(rule, value), value, rule);
  }
}

function refuse(problems: Problem[], path: Path, code: Problem['code'], value: unknown, rule: Rule): false {
  const hint = rule.kind === 'number' ? numberHint(value) : '';
  noteProblem(problems, path, code, value, `${expectedOf(rule)}${hint}`);
  return false;
}

/** A rule of a value that has nothing within. */
type PlainRule = Exclude<Rule, ListRule | ObjectRule | RecordRule | EitherRule>;

/** Whether a value keeps such a rule: asked here, and on the way of every input. */
export function keeps(rule: PlainRule, value: unknown): boolean {
  switch (rule.kind) {
    case 'number':
      return keepsNumber(rule, value);
    case 'text': {
      const { shortest = 1, longest = Infinity } = rule;
      return typeof value === 'string' && value.length >= shortest && value.length <= longest;
    }
    case 'word':
      return rule.words.indexOf(value as string) >= 0;
    default:
      return typeof value === 'boolean';
  }
}

export function keepsNumber(rule: NumberRule, value: unknown): boolean {
  const { least = -Infinity, above = -Infinity, most, below = Infinity, whole, among } = rule;
  return (
    typeof value === 'number' &&
    value >= least &&
    value > above &&
    value <= (most ?? Infinity) &&
    value < below &&
    value > -Infinity &&
    value < Infinity &&
    !(among !== undefined && among.indexOf(value) < 0) &&
    !(whole === true && value !== Math.floor(value)) &&
    !(above === 0 && value < smallestFigure) &&
    !(most === undefined && value > largestFigure && isUnsigned(rule))
  );
}

/** Which way a value fails that does not keep its rule. */
function codeOf(rule: PlainRule, value: unknown): Problem['code'] {
  if (rule.kind !== 'number') {
    if (typeof value !== 'string' || rule.kind === 'flag') return 'wrong_type';
    if (rule.kind === 'word') return 'unknown_option';
    return value === '' ? 'empty' : 'out_of_range';
  }
  if (typeof value !== 'number') return 'wrong_type';
  if (value !== value) return 'not_a_number';
  if (!isFinite(value)) return 'infinite';
  if (rule.among !== undefined && rule.among.indexOf(value) < 0) return 'unknown_option';
  if (value < 0 && isUnsigned(rule)) return 'negative';
  return rule.whole === true && value !== Math.floor(value) ? 'not_an_integer' : 'out_of_range';
}

/**
 * Whether 0 is its lower end: then it is a figure of this trade, of which none is beyond 1e60 or, above 0, below 1e-60.
 */
export function isUnsigned({ least, above }: NumberRule): boolean {
  return least === 0 || above === 0;
}

function checkList(rule: ListRule, value: unknown, path: Path, problems: Problem[]): boolean {
  if (!Array.isArray(value)) return refuse(problems, path, 'wrong_type', value, rule);
  const { shortest = 1, longest } = rule;
  if (value.length === 0 && shortest > 0) return refuse(problems, path, 'empty', value, rule);
  if (value.length < shortest) return refuse(problems, path, 'too_few', value, rule);
  // refused as it stands: its elements are not looked at, however many they are
  if (value.length > longest) return refuse(problems, path, 'out_of_range', value, rule);
  let sound = true;
  for (let i = 0; i < value.length; i += 1) {
    if (!checkRule(rule.of, value[i], [...path, i], problems)) sound = false;
    if (problems.length > mostProblems) return false;
  }
  return sound;
}

function checkObject(rule: ObjectRule, value: unknown, path: Path, problems: Problem[]): boolean {
  if (!isObject(value)) return refuse(problems, path, 'wrong_type', value, rule);
  const { members } = rule;
  const known = Object.keys(members);
  let sound = true;
  for (const name of Object.keys(value)) {
    if (known.indexOf(name) >= 0) continue;
    const meant = nameHint(name, known, rule.hints);
    noteProblem(problems, [...path, shortened(name)], 'unknown_option', name, `${meant}${namesText(members)}`);
    sound = false;
    if (problems.length > mostProblems) return false;
  }
  for (const name of known) {
    const member = value[name];
    // no path is made for what passes at a glance
    if (member === undefined && (members[name] as Rule).optional === true) continue;
    if (!checkRule(members[name] as Rule, member, [...path, name], problems)) sound = false;
  }
  return sound;
}

function checkRecord(rule: RecordRule, value: unknown, path: Path, problems: Problem[]): boolean {
  if (!isObject(value)) return refuse(problems, path, 'wrong_type', value, rule);
  const names = Object.keys(value);
  if (names.length > rule.longest) return refuse(problems, path, 'out_of_range', value, rule);
  let sound = true;
  for (const name of names) {
    if (rule.names !== undefined ? rule.names.indexOf(name) < 0 : !isName(name)) {
      const named = `a name of 1 to ${longestName} characters, other than '__proto__'`;
      const expected = rule.names === undefined ? named : oneOf(rule.names);
      noteProblem(problems, [...path, shortened(name)], 'unknown_option', name, expected);
      sound = false;
      if (problems.length > mostProblems) return false;
    } else if (!checkRule(rule.of, value[name], [...path, name], problems)) sound = false;
  }
  return sound;
}

/** More mistakes than these help no one, and a broken file could bring a million. */
const mostProblems = 1000;

/** A name as a path holds it: a broken one could be of any length. */
function shortened(name: string): string {
  return name.length > longestName ? `${name.slice(0, longestName - 4)}...` : name;
}

/** A name that a person may choose: what an object inherits under `__proto__` is no member of its own. */
export function isName(name: string): boolean {
  return name.length > 0 && name.length <= longestName && name !== '__proto__';
}
