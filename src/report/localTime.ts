/** A text that a clock on the wall has written, and the moments it can mean. */
import { motescaleError } from '../errors.ts';
import { clockMs, millisecondsOf } from '../numeric/calendar.ts';
import type { Cell } from './csv/csvFormat.ts';
import { isTime, localTime, type OffsetAt, offsetSpan } from './timeText.ts';

/** In which order the three figures of a date stand. */
export type DateOrder = 'day_month_year' | 'month_day_year' | 'year_month_day';
export const orders: readonly DateOrder[] = ['day_month_year', 'month_day_year', 'year_month_day'];

export const asked = 'a date, or a date and a time, in figures, as in 25.11.2026 08:00';
const existing = 'a date and a time that there are';
const shown = 'a time that this clock shows: it was put forward then';
const inYears = 'a time in the years 2 to 9998';

const date = /^(\d{1,4})([./-])(\d{1,2})\2(\d{1,4})(?=$|[T, ])/;
const clock = /^(?:T|,? +)(\d{1,2}):(\d{2})(?::(\d{2})(?:[.,](\d{1,9}))?)?(?:[ \u00A0\u202F]?([AaPp])[Mm])?/;
const zone = /^ ?(?:Z|UTC|(?:UTC)?([+-])(\d{2}):?(\d{2}))$/;

/** The two systems in which spreadsheets number days, by the year in which they begin. */
export type SerialDates = 'from_1900' | 'from_1904';
/** Their first days, as days before 1970. */
export const firstDays: Readonly<Record<SerialDates, number>> = { from_1900: 25569, from_1904: 24107 };

/** How cells are to be read. */
export interface CellReading {
  readonly order: DateOrder | undefined;
  readonly at: OffsetAt | undefined;
  readonly serials: SerialDates | undefined;
}

/** The moments that a cell can mean, ascending: one, or two where the hour is struck twice. Or what was expected. */
export function momentsOf(cell: Cell, { order, at, serials }: CellReading): number[] | string {
  if (typeof cell === 'number') return serials === undefined ? `${asked}${serialHint}` : numbered(cell, serials, at);
  if (typeof cell !== 'string') return asked;
  const read = written(cell, order, at);
  return read === asked ? asked + hintOf(cell) : read;
}

const serialHint = '; the option serialDates reads day numbers of spreadsheets';

/**
 * A day as a spreadsheet numbers it, its time behind the point. The system from 1900 has a 29 February 1900 as day 60,
 * which never was: its days count from the one after; in that from 1904 a number below 1 is a time without a day.
 */
function numbered(days: number, serials: SerialDates, at: OffsetAt | undefined): number[] | string {
  const least = serials === 'from_1900' ? 61 : 1;
  if (!(days >= least)) return `a day number of a spreadsheet, ${least} or more`;
  return momentsAt(Math.floor((days - firstDays[serials]) * 86400000 + 0.5), at);
}

/** What to do about a text that has a date in figures, and cannot be read. */
function hintOf(text: string): string {
  if (!/\d[./-]\d{1,2}[./-]\d/.test(text)) return '';
  const zoned = /\d ?([A-Z]{3,5})$/.exec(text);
  if (zoned !== null) return `; utcOffsetMinutes, or +01:00 in the text, in place of '${zoned[1]}'`;
  const word = /[A-Za-z\u00C0-\u024F]{2,}\.?/.exec(text);
  if (word !== null) return `; without '${word[0]}'`;
  return /[ T]\d{1,2}\.\d{2}/.test(text) ? '; with a colon between hours and minutes' : '';
}

function written(text: string, order: DateOrder | undefined, at: OffsetAt | undefined): number[] | string {
  const trimmed = text.replace(/^ +| +$/g, '');
  const dated = date.exec(trimmed);
  if (dated === null) return asked;
  const behind = trimmed.slice(dated[0].length);
  const timed = behind === '' ? [''] : clock.exec(behind);
  if (timed === null) return asked;
  const zoned = zone.exec(behind.slice((timed[0] as string).length));
  if (zoned === null && behind.length > (timed[0] as string).length) return asked;
  const ymd = yearMonthDay([dated[1], dated[3], dated[4]] as string[], order);
  const hours = ymd === null ? null : hoursOf(timed[1], timed[5]);
  if (ymd === null || hours === null) return ymd === null ? asked : existing;
  const [year, month, day] = ymd as [number, number, number];
  const [minutes, seconds] = [Number(timed[2] ?? 0), Number(timed[3] ?? 0)];
  const local = clockMs({ year, month, day, hours, minutes, seconds, ms: millisecondsOf(timed[4]) });
  if (local === null) return existing;
  return zoned === null ? momentsAt(local, at) : momentIn(local, zoned);
}

/** Null where no figure has a year's length, or two have. */
function yearMonthDay(figures: readonly string[], order: DateOrder | undefined): number[] | null {
  const yearFirst = (figures[0] as string).length === 4;
  if (order === undefined && !yearFirst)
    throw motescaleError('unknown_option', 'format.order', order, `one of ${orders.join(', ')}`);
  const places =
    yearFirst || order === 'year_month_day' ? [0, 1, 2] : order === 'day_month_year' ? [2, 1, 0] : [2, 0, 1];
  const [year, month, day] = places.map((place) => figures[place] as string) as [string, string, string];
  if ((year.length !== 4 && year.length !== 2) || day.length > 2) return null;
  return [Number(year) + (year.length === 2 ? 2000 : 0), Number(month), Number(day)];
}

/** Of a clock of 24 hours, or of 12 with AM or PM; null where it shows no such hour. */
function hoursOf(figure: string | undefined, half: string | undefined): number | null {
  const hours = Number(figure ?? 0);
  if (half === undefined) return hours;
  if (hours < 1 || hours > 12) return null;
  return (hours % 12) + (half === 'p' || half === 'P' ? 12 : 0);
}

function momentIn(
  local: number,
  [, sign, hours = '0', minutes = '0']: readonly (string | undefined)[],
): number[] | string {
  if (Number(hours) > 23 || Number(minutes) > 59) return existing;
  return within([local - (Number(hours) * 60 + Number(minutes)) * (sign === '-' ? -60000 : 60000)]);
}

/** What the clock showed at the moments it means. Its offset is asked well before and well after. */
function momentsAt(local: number, at: OffsetAt | undefined): number[] | string {
  if (at === undefined) {
    const expected = 'minutes ahead of UTC, for times without zone';
    throw motescaleError('unknown_option', 'format.utcOffsetMinutes', at, expected);
  }
  if (!isTime(local)) return inYears;
  const before = local - offsetSpan.most * 60000;
  const after = local - offsetSpan.least * 60000;
  const meant: number[] = [];
  for (const near of [before, after]) {
    const moment = local - at(near) * 60000;
    if (localTime(moment, at) === local && meant.indexOf(moment) < 0) meant.push(moment);
  }
  return meant.length === 0 ? shown : within(meant);
}

function within(moments: number[]): number[] | string {
  return moments.every(isTime) ? moments.sort((a, b) => a - b) : inYears;
}
