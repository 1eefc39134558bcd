/** What a value that is refused was meant for, where it can be known. */
import { hasOwn } from '../checks.ts';
import type { Hints } from './rule.ts';

/** Nothing longer is looked at. */
const longestLooked = 40;

/**
 * What a name of no member may have been meant for: what `hints` say of it, one that differs in a letter, or counts by
 * size; else nothing.
 */
export function nameHint(name: string, names: readonly string[], hints: Hints = {}): string {
  if (hasOwn(hints, name)) return `${hints[name]}; `;
  if (name.length > longestLooked) return '';
  if (/^\d+(\.\d+)?$/.test(name)) return 'cumulativeCounts({ 4: 1890, 6: 402 }) around counts by size, else ';
  for (const known of names) if (isNear(name.toLowerCase(), known.toLowerCase())) return `'${known}', `;
  return '';
}

/** Whether two names are one but for a letter. */
function isNear(a: string, b: string): boolean {
  const longest = Math.max(a.length, b.length);
  const least = Math.min(a.length, b.length);
  let [before, behind] = [0, 0];
  while (before < least && a.charAt(before) === b.charAt(before)) before += 1;
  while (behind < least - before && a.charAt(a.length - 1 - behind) === b.charAt(b.length - 1 - behind)) behind += 1;
  return longest > 2 && longest - before - behind <= 1;
}

/** What a value that is no number was meant for, and how it becomes one; else nothing. */
export function numberHint(value: unknown): string {
  if (Object.prototype.toString.call(value) === '[object Date]') return '; getTime() of a Date gives it';
  if (typeof value !== 'string' || value.length > longestLooked) return '';
  if (/^\s*[-+]?\d+,\d+\s*$/.test(value)) return '; as a number, with a decimal point';
  if (/^\d{4}-\d\d-\d\dT/.test(value)) {
    return /(Z|[+-]\d\d:?\d\d)$/.test(value)
      ? '; Date.parse gives it, if there is such a time'
      : '; with its zone, as in 2026-11-25T08:00:00Z or +01:00';
  }
  return /^\s*[-+]?\.?\d[\d.]*\s*$/.test(value) ? '; as a number, not as text' : '';
}

/** The id that the name of a standard was meant for, with its edition or without: `ISO 4406:2021`; else nothing. */
export function idHint(name: string, ids: readonly string[]): string {
  const letters = name.toLowerCase().replace(/[^a-z\d]/g, '');
  for (const id of ids) if (letters.indexOf(id.toLowerCase()) === 0) return `'${id}', `;
  return '';
}
