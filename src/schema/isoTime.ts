/** Times as text, by arithmetic: engines disagree on dates that do not exist. */
import { clockMs, millisecondsOf } from '../numeric/calendar.ts';

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
  const date = { year: Number(text.slice(0, 4)), month: two(5), day: two(8) };
  const clock = { hours: two(11), minutes: two(14), seconds: Number(found[1] ?? 0), ms: millisecondsOf(found[2]) };
  const ms = clockMs({ ...date, ...clock });
  if (ms === null || zone(4) > 23 || zone(5) > 59) return null;
  return ms - (zone(4) * 60 + zone(5)) * (found[3] === '-' ? -60000 : 60000);
}
