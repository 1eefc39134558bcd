/** Times as text, by arithmetic: engines disagree on dates that do not exist. */
import { firstOfMonth } from '../numeric/firstOfMonth.ts';

// mujs takes nine groups and sixteen classes of characters at most
const form = /^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}(?::(\d{2})(?:\.(\d{1,9}))?)?(?:Z|([+-])(\d{2}):?(\d{2}))$/;

/**
 * Milliseconds since 1970 of an ISO 8601 time with its zone; digits beyond milliseconds are dropped. Null for any other
 * text, and for a time that does not exist. 24:00 is the end of the day, as `Date.parse` has it.
 */
export function isoTime(text: string): number | null {
  const found = form.exec(text);
  if (found === null) return null;
  const two = (from: number) => Number(text.slice(from, from + 2));
  const zone = (i: number) => Number(found[i] ?? 0);
  const [year, month, day, minutes] = [Number(text.slice(0, 4)), two(5), two(8), two(14)];
  const seconds = Number(found[1] ?? 0);
  const first = firstOfMonth(year, month);
  const days = firstOfMonth(year, month + 1) - first;
  const inDay = (two(11) * 60 + minutes) * 60000 + seconds * 1000 + Number(`${found[2] ?? ''}000`.slice(0, 3));
  const isDate = month >= 1 && month <= 12 && day >= 1 && day <= days;
  if (!isDate || inDay > 86400000 || minutes > 59 || seconds > 59 || zone(4) > 23 || zone(5) > 59) return null;
  const east = (zone(4) * 60 + zone(5)) * (found[3] === '-' ? -60000 : 60000);
  return (first + day - 1) * 86400000 + inDay - east;
}
