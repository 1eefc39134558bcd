/**
 * A state that was saved remembers nothing later than its last input: a delay that began after it, as one bent bit
 * makes it, would run for years, and an alarm be mute for as long.
 */
import { motescaleError } from '../errors.ts';

/** Throws `bad_state` for a time, or the number of a block of time, later than `last`, that of the last input. */
export function requireNoLater(
  parameter: string,
  time: number | null | undefined,
  last: number | undefined,
  what = 'time',
): void {
  if (time === undefined || time === null || (last !== undefined && time <= last)) return;
  throw motescaleError('bad_state', parameter, time, `a ${what} no later than state.time, as a state keeps it`);
}
