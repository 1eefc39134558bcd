/** Stands in the unit script for the states of 0.1.0: a gateway goes on from what it saved itself. */
import { motescaleError } from '../errors.ts';

/** Throws `bad_state`, as for a version that nobody knows. */
export function stateOf1(): never {
  const expected = '3: this script reads no state of 0.1.0; motescale.global.js does';
  throw motescaleError('bad_state', 'state.version', 1, expected);
}
