/**
 * A state that was saved remembers nothing later than its last input: a delay that began after it, as one bent bit
 * makes it, would run for years, and an alarm be mute for as long.
 */
import { motescaleError } from '../errors.ts';

/**
 * The members of states that are times of inputs. The end of a shelf lies ahead, and the host has a clock of its own
 * (`receivedAt`).
 */
const names = ['before', 'countedAt', 'from', 'heard', 'modeAt', 'pending', 'read', 'realarmed', 'since', 'time', 'to'];
/** An input doubted for being ahead, and a restart of a proof, which may be of a clock that has been set back since. */
const apart = ['ahead', 'lastRestart'];

/** Throws `bad_state` for the first time in a state, or a part of one, that is later than that of the last input. */
export function requireNoneLater(part: object, path: string, last: number | undefined): void {
  // not every engine goes through members in the order they were written
  for (const name of Object.keys(part).sort()) {
    const value = (part as { readonly [name: string]: unknown })[name];
    const parameter = Array.isArray(part) ? `${path}[${name}]` : `${path}.${name}`;
    if (typeof value === 'object' && value !== null && apart.indexOf(name) < 0)
      requireNoneLater(value, parameter, last);
    if (names.indexOf(name) >= 0) requireNoLater(parameter, value, last, 'time');
  }
}

/** The same of one number, where there is one: a time, or the number of a block of time. */
export function requireNoLater(parameter: string, at: unknown, last: number | undefined, what: string): void {
  if (typeof at !== 'number' || (last !== undefined && at <= last)) return;
  throw motescaleError('bad_state', parameter, at, `a ${what} no later than state.time, as a state keeps it`);
}
