/** Times as text, by arithmetic: engines disagree on dates that do not exist. */
import { firstOfMonth } from '../numeric/firstOfMonth.ts';

const form = /^(\d{4})-(\d\d)-(\d\d)T(\d\d):(\d\d)(?::(\d\d)(?:\.(\d{1,9}))?)?(?:Z|([+-])(\d\d):?(\d\d))$/;

/**
 * Milliseconds since 1970 of an ISO 8601 time with its zone; digits beyond milliseconds are dropped. Null for any other
 * text, and for a time that does not exist. 24:00 is the end of the day, as `Date.parse` has it.
 */
export function isoTime(text: string): number | null {
  const found = form.exec(text);
  if (found === null) return null;
  const at = (i: number) => Number(found[i] ?? 0);
  const first = firstOfMonth(at(1), at(2));
  const days = firstOfMonth(at(1), at(2) + 1) - first;
  const inDay = (at(4) * 60 + at(5)) * 60000 + at(6) * 1000 + Number(`${found[7] ?? ''}000`.slice(0, 3));
  const isDate = at(2) >= 1 && at(2) <= 12 && at(3) >= 1 && at(3) <= days;
  if (!isDate || inDay > 86400000 || at(5) > 59 || at(6) > 59 || at(9) > 23 || at(10) > 59) return null;
  const east = (at(9) * 60 + at(10)) * (found[8] === '-' ? -60000 : 60000);
  return (first + at(3) - 1) * 86400000 + inDay - east;
}
