/**
 * Whether a value keeps a rule: the question asked on the way of every input. It makes no path and no text, whether the
 * value passes or not; what is wrong with one that does not, `checkRule` says. Both read the same rule, and agree on
 * every value.
 */
import { isObject } from '../checks.ts';
import { isName, keeps, keepsNumber } from './check.ts';
import type { NumberRule, ObjectRule, Rule } from './rule.ts';

/** True only where `checkRule` would find nothing. */
export function holds(rule: Rule, value: unknown): boolean {
  if (value === undefined) return rule.optional === true;
  if (value === null) return rule.nullable === true;
  switch (rule.kind) {
    case 'number':
      return keepsNumber(rule, value);
    case 'list': {
      if (!Array.isArray(value) || value.length < (rule.shortest ?? 1) || value.length > rule.longest) return false;
      if (rule.of.kind === 'number') return holdNumbers(rule.of, value);
      for (let i = 0; i < value.length; i += 1) if (!holds(rule.of, value[i])) return false;
      return true;
    }
    case 'object': {
      if (!isObject(value)) return false;
      const { members } = rule;
      let lacking = requiredIn(rule);
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
    case 'either': {
      const form = rule.choose(value);
      return form !== null && holds(form, value);
    }
    default:
      return keeps(rule, value);
  }
}

/** A member that no spread copies: a rule made of another has members of its own. */
const hidden = '~required';

/** How many members must be there: counted where first asked. */
function requiredIn(rule: ObjectRule): number {
  const known = (rule as { readonly [hidden]?: number })[hidden];
  if (known !== undefined) return known;
  let required = 0;
  for (const name in rule.members) if ((rule.members[name] as Rule).optional !== true) required += 1;
  Object.defineProperty(rule, hidden, { value: required });
  return required;
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
