/** A rule in words: what an error says would be right. */
import type { Members, NumberRule, Rule } from './rule.ts';

/** What a rule expects, with its bounds. */
export function expectedOf(rule: Rule): string {
  const orNull = rule.nullable === true ? ', or null' : '';
  return `${bare(rule)}${orNull}`;
}

/** The names an object may have. */
export function namesText(members: Members): string {
  return `one of the members ${Object.keys(members).sort().join(', ')}`;
}

function bare(rule: Rule): string {
  switch (rule.kind) {
    case 'number':
      return withBounds(rule);
    case 'text':
      return rule.longest === undefined
        ? (rule.expected ?? 'a text')
        : `${rule.expected ?? 'a text'} of ${rule.shortest ?? 1} to ${rule.longest} characters`;
    case 'word':
      return rule.words.length === 1
        ? `'${rule.words[0]}'${rule.expected === undefined ? '' : ` (${rule.expected})`}`
        : `${rule.expected === undefined ? '' : `${rule.expected}, `}one of '${rule.words.join("', '")}'`;
    case 'flag':
      return 'true or false';
    case 'list':
      return `${rule.expected ?? 'an array'}, ${rule.shortest ?? 1} to ${rule.longest} of them`;
    case 'record':
      return `${rule.expected ?? 'an object'}, at most ${rule.longest} of them`;
    case 'object':
      return rule.expected ?? `an object { ${Object.keys(rule.members).join(', ')} }`;
    default:
      return rule.expected;
  }
}

function withBounds(rule: NumberRule): string {
  const { least, above, most, below, whole, among } = rule;
  const what = rule.expected ?? (whole === true ? 'a whole number' : 'a finite number');
  if (least !== undefined && least === most) return rule.expected === undefined ? `${least}` : `${what}: ${least}`;
  if (among !== undefined) return among.length === 1 ? `${what}: ${among[0]}` : `${what}, one of ${among.join(', ')}`;
  const low = least !== undefined ? `from ${least}` : above !== undefined ? `above ${above}` : '';
  const high =
    most !== undefined
      ? `${least !== undefined ? 'to' : 'up to'} ${most}`
      : below !== undefined
        ? `below ${below}`
        : '';
  if (least !== undefined && most === undefined && below === undefined) return `${what}, ${least} or more`;
  const bounds = [low, high].filter((part) => part !== '').join(least !== undefined && most !== undefined ? ' ' : ', ');
  return bounds === '' ? what : `${what}${least !== undefined ? ' ' : ', '}${bounds}`;
}
