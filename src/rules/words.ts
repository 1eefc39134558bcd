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

/** Words to choose from, as an error has them. */
export function oneOf(words: readonly string[]): string {
  return `one of '${words.join("', '")}'`;
}

function bare(rule: Rule): string {
  switch (rule.kind) {
    case 'number':
      return withBounds(rule);
    case 'text': {
      const { expected = 'a text', shortest = 1, longest } = rule;
      return longest === undefined ? expected : `${expected} of ${shortest} to ${longest} characters`;
    }
    case 'word': {
      const { words, expected } = rule;
      if (words.length === 1) return expected === undefined ? `'${words[0]}'` : `'${words[0]}' (${expected})`;
      return expected === undefined ? oneOf(words) : `${expected}, ${oneOf(words)}`;
    }
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
  if (least !== undefined) {
    if (most !== undefined) return `${what} from ${least} to ${most}`;
    return below === undefined ? `${what}, ${least} or more` : `${what} from ${least}, below ${below}`;
  }
  const bounds = [what];
  if (above !== undefined) bounds.push(`above ${above}`);
  if (most !== undefined) bounds.push(`up to ${most}`);
  else if (below !== undefined) bounds.push(`below ${below}`);
  return bounds.join(', ');
}
