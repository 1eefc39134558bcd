/** The calendar by arithmetic: `Date` differs between engines where a date does not exist. */

/** Days since 1970-01-01 of the first day of a month; months may run on: 13 is January of the next year. */
export function firstOfMonth(year: number, month: number): number {
  const months = year * 12 + month - 3;
  const years = Math.floor(months / 12);
  const marchMonth = months - 12 * years;
  const leaps = Math.floor(years / 4) - Math.floor(years / 100) + Math.floor(years / 400);
  return 365 * years + leaps + Math.floor((153 * marchMonth + 2) / 5) - 719468;
}

/** A time of a clock as it is written. */
export interface ClockTime {
  readonly year: number;
  readonly month: number;
  readonly day: number;
  readonly hours: number;
  readonly minutes: number;
  readonly seconds: number;
  readonly ms: number;
}

/** In ms since 1970 by that clock; null where none shows it. 24:00 is the end of the day, as `Date.parse` has it. */
export function clockMs({ year, month, day, hours, minutes, seconds, ms }: ClockTime): number | null {
  const first = firstOfMonth(year, month);
  const inDay = (hours * 60 + minutes) * 60000 + seconds * 1000 + ms;
  const isDate = month >= 1 && month <= 12 && day >= 1 && day <= firstOfMonth(year, month + 1) - first;
  return isDate && inDay <= 86400000 && minutes <= 59 && seconds <= 59 ? (first + day - 1) * 86400000 + inDay : null;
}

/** Of the digits behind a second; those beyond milliseconds are dropped. */
export function millisecondsOf(digits: string | undefined): number {
  return Number(`${digits ?? ''}000`.slice(0, 3));
}
