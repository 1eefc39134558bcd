/**
 * A moment as text, in Coordinated Universal Time or at a fixed distance from it. No clock, no time zone rules. Source:
 * the Gregorian calendar; years and seconds written as in ISO 8601.
 */
import { requireFinite, requireWithin } from '../checks.ts';
import { motescaleError } from '../errors.ts';
import { firstOfMonth } from '../numeric/calendar.ts';
import { earliestWritten, latestWritten } from '../rules/bounds.ts';
import type { NumberRule } from '../rules/rule.ts';
import { toRight } from './textLayout.ts';

/** A moment that can be written. */
export const writtenTimeRule: NumberRule = { kind: 'number', least: earliestWritten, most: latestWritten };

/** Minutes ahead of UTC, no more than clocks anywhere are. */
export const offsetSpan = { least: -720, most: 840 } as const;

/** `2026-11-25 08:30:00`; seconds are cut, not rounded. Years 1 to 9999. */
export function dateTimeText(time: number, utcOffsetMinutes: number): string {
  const seconds = Math.floor((time + utcOffsetMinutes * 60000) / 1000);
  const days = Math.floor(seconds / 86400);
  const rest = seconds - days * 86400;
  const clock = [rest / 3600, (rest % 3600) / 60, rest % 60].map((part) => padded(Math.floor(part), 2)).join(':');
  return `${dateOf(days)} ${clock}`;
}

/** `2026-11-25 08:30`. */
export function minuteText(time: number, utcOffsetMinutes: number): string {
  return dateTimeText(time, utcOffsetMinutes).slice(0, 16);
}

/** `2026-11-25 08:30`, with ` UTC+01:00` on a page that has times of several offsets. */
export function momentText(time: number, utcOffsetMinutes: number, zoned: boolean): string {
  const text = minuteText(time, utcOffsetMinutes);
  return zoned ? `${text} ${zoneText(utcOffsetMinutes)}` : text;
}

/** Whether the times of a page have several offsets, so that each is to carry its own. */
export function haveSeveral(offsets: readonly number[]): boolean {
  return offsets.some((minutes) => minutes !== offsets[0]);
}

/** `2026-11-25`. */
export function dateText(time: number): string {
  return dateTimeText(time, 0).slice(0, 10);
}

/** `UTC`, `UTC+02:00`. */
export function zoneText(utcOffsetMinutes: number): string {
  if (utcOffsetMinutes === 0) return 'UTC';
  const minutes = Math.abs(utcOffsetMinutes);
  const sign = utcOffsetMinutes < 0 ? '-' : '+';
  return `UTC${sign}${padded(Math.floor(minutes / 60), 2)}:${padded(minutes % 60, 2)}`;
}

/** Whether it is a moment that can be written. */
export function isTime(value: unknown): value is number {
  return typeof value === 'number' && value >= earliestWritten && value <= latestWritten;
}

export function requireTime(value: unknown, parameter: string): number {
  const expected = 'ms since 1970-01-01T00:00:00Z, in the years 2 to 9998';
  const time = requireFinite(value, parameter, expected);
  if (!isTime(time)) throw motescaleError('out_of_range', parameter, value, expected);
  return time;
}

/**
 * Minutes ahead of UTC: one figure, or, where clocks are put forward and back, a function of the time in ms that gives
 * them.
 */
export type UtcOffset = number | ((time: number) => number);

/** The same as a function. */
export type OffsetAt = (time: number) => number;

/** The offset as a function, which refuses what no clock has. */
export function offsetAt(
  { utcOffsetMinutes: offset }: { readonly utcOffsetMinutes?: UtcOffset | undefined },
  parameter = 'options.utcOffsetMinutes',
): OffsetAt {
  if (typeof offset === 'function') return (time) => requireMinutes(offset(time), `${parameter}(${time})`);
  const minutes = requireMinutes(offset ?? 0, parameter);
  return () => minutes;
}

/** `UTC`, `UTC+02:00`; `UTC+01:00, UTC+02:00` where the moments have several. */
export function zonesOf(times: readonly number[], at: OffsetAt): string {
  const zones: string[] = [];
  let before: number | undefined;
  for (const time of times) {
    const minutes = at(time);
    if (minutes === before) continue;
    before = minutes;
    const zone = zoneText(minutes);
    if (zones.indexOf(zone) < 0) zones.push(zone);
  }
  return zones.length === 0 ? zoneText(at(0)) : zones.join(', ');
}

/** What the local clock shows at a moment, in ms as if it were UTC. */
export function localTime(time: number, at: OffsetAt): number {
  return time + at(time) * 60000;
}

/** Whole minutes within that span. */
function requireMinutes(value: unknown, parameter: string): number {
  const minutes = requireWithin(value, parameter, offsetSpan.least, offsetSpan.most);
  if (minutes !== Math.floor(minutes)) throw motescaleError('not_an_integer', parameter, value, 'whole minutes');
  return minutes;
}

/** Days since 1970-01-01 as a date. */
function dateOf(days: number): string {
  // a year too late at most
  let year = 1970 + Math.ceil(days / 365.2425);
  while (firstOfMonth(year, 1) > days) year -= 1;
  let month = 12;
  while (firstOfMonth(year, month) > days) month -= 1;
  return `${padded(year, 4)}-${padded(month, 2)}-${padded(days - firstOfMonth(year, month) + 1, 2)}`;
}

function padded(whole: number, width: number): string {
  return toRight(String(whole), width, '0');
}
