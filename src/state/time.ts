/**
 * Times are whole milliseconds since 1970-01-01 UTC, as a computer's clock gives them; the library itself has no clock.
 */
import { requireFinite } from '../checks.ts';
import { motescaleError } from '../errors.ts';
import { farthest } from '../rules/bounds.ts';

const expected = 'whole milliseconds since 1970-01-01 UTC';

export function requireTime(value: unknown, parameter: string): number {
  const number = requireFinite(value, parameter, expected);
  if (number !== Math.floor(number)) throw motescaleError('not_an_integer', parameter, value, expected);
  if (Math.abs(number) > farthest) throw motescaleError('out_of_range', parameter, value, expected);
  return number;
}

/** The later of the last time known, if there is one, and another. */
export function laterOf(last: number | null, time: number): number {
  return last === null ? time : Math.max(last, time);
}
