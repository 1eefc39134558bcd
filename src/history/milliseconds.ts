/** Times of a roll-up: whole milliseconds, so that no difference is rounded. */
import { requireFinite } from '../checks.ts';
import { motescaleError } from '../errors.ts';

const farthest = 4e15;

/** Whole ms, within 4e15 of 0 (some 126,000 years), so that no difference is rounded. */
export function requireMs(value: unknown, parameter: string, least: number = -farthest): number {
  // asked first, so that no words are made for a time that passes
  if (typeof value === 'number' && value === Math.floor(value) && value >= least && value <= farthest) return value + 0;
  const expected = `whole ms from ${least} to ${farthest}`;
  const ms = requireFinite(value, parameter, expected);
  throw motescaleError(ms === Math.floor(ms) ? 'out_of_range' : 'not_an_integer', parameter, value, expected);
}
