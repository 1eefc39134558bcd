/**
 * Whether a value keeps a rule: the question asked on the way of every input. It makes no path and no text, whether the
 * value passes or not; what is wrong with one that does not, `checkRule` says. Both read the same rule, and agree on
 * every value.
 */
import { isObject } from '../checks.ts';
import { largestFigure, smallestFigure } from './bounds.ts';
import { isName, isUnsigned } from './check.ts';
import type { NumberRule, Rule } from './rule.ts';

/** True only where `checkRule` would find nothing. */
export function holds(rule: Rule, value: unknown): boolean {
  if (value === undefined) return rule.optional === true;
  if (value === null) return rule.nullable === true;
  switch (rule.kind) {
    case 'number':
      return holdsNumber(rule, value);
    case 'text':
      return (
        typeof value === 'string' &&
        value.length >= (rule.shortest ?? 1) &&
        !(rule.longest !== undefined && value.length > rule.longest)
      );
    case 'word':
      return typeof value === 'string' && rule.words.indexOf(value) >= 0;
    case 'flag':
      return typeof value === 'boolean';
    case 'list': {
      if (!Array.isArray(value) || value.length < (rule.shortest ?? 1) || value.length > rule.longest) return false;
      if (rule.of.kind === 'number') return holdNumbers(rule.of, value);
      for (let i = 0; i < value.length; i += 1) if (!holds(rule.of, value[i])) return false;
      return true;
    }
    case 'object': {
      if (!isObject(value)) return false;
      const { members } = rule;
      let lacking = 0;
      for (const name in members) if ((members[name] as Rule).optional !== true) lacking += 1;
      // what is inherited is looked at too, and then checkRule decides
      for (const name in value) {
        const member = ownRule(members, name);
        if (member === null || !holds(member, value[name])) return false;
        if (member.optional !== true) lacking -= 1;
      }
      return lacking === 0;
    }
    case 'record': {
      if (!isObject(value)) return false;
      const names = Object.keys(value);
      if (names.length > rule.longest) return false;
      for (const name of names) {
        const known = rule.names === undefined ? isName(name) : rule.names.indexOf(name) >= 0;
        if (!known || !holds(rule.of, value[name])) return false;
      }
      return true;
    }
    default: {
      const form = rule.choose(value);
      return form !== null && holds(form, value);
    }
  }
}

function holdsNumber(rule: NumberRule, value: unknown): boolean {
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

/** Whether each is one: a list of plain bounds is looked through with these in hand. */
function holdNumbers(rule: NumberRule, values: readonly unknown[]): boolean {
  const { least, above, most, below, whole = false, among } = rule;
  const plain = least !== undefined && most !== undefined && most < Infinity && above === undefined;
  if (!plain || below !== undefined || among !== undefined) {
    for (let i = 0; i < values.length; i += 1) if (!holds(rule, values[i])) return false;
    return true;
  }
  for (let i = 0; i < values.length; i += 1) {
    const value = values[i];
    const within = typeof value === 'number' && value >= least && value <= most;
    if (!(within && !(whole && value !== Math.floor(value))) && !holds(rule, value)) return false;
  }
  return true;
}

/** What every object inherits, such as `constructor`, is no member of a rule: it has no kind. */
function ownRule(members: { readonly [name: string]: Rule }, name: string): Rule | null {
  const member = members[name];
  return typeof member === 'object' && member.kind !== undefined ? member : null;
}
