/** The calendar by arithmetic: `Date` differs between engines where a date does not exist. */

/** Days since 1970-01-01 of the first day of a month; months may run on: 13 is January of the next year. */
export function firstOfMonth(year: number, month: number): number {
  const months = year * 12 + month - 3;
  const years = Math.floor(months / 12);
  const marchMonth = months - 12 * years;
  const leaps = Math.floor(years / 4) - Math.floor(years / 100) + Math.floor(years / 400);
  return 365 * years + leaps + Math.floor((153 * marchMonth + 2) / 5) - 719468;
}
