/** A remembered state that comes from outside, checked whole. */
import {
  requireBoolean,
  requireNonNegative,
  requireObject,
  requireWholeArray,
  requireWholeWithin,
} from '../../checks.ts';
import { motescaleError } from '../../errors.ts';
import { requireFigure } from '../requireNumbers.ts';
import { farthestDay, rules } from './rules.ts';
import type { ChangeState } from './types.ts';

const members = ['last', 'ring', 'since', 'settled', 'level', 'steps'];

/**
 * The state of a change detector as it was stored, or an error that names what is wrong with it.
 *
 * @throws `wrong_type`, `out_of_range`, `not_an_integer`, `unknown_option` and errors of type.
 *
 * @example
 * ```ts
 * import { resumeChange, startChange } from 'motescale/trend';
 * resumeChange(JSON.parse(JSON.stringify(startChange()))).last; // => null
 * ```
 */
export function resumeChange(state: unknown): ChangeState {
  requireObject(state, 'state', undefined, members);
  const { last, ring, since, settled, level, steps } = state as ChangeState;
  if (last !== null) requireWholeWithin(last, 'state.last', -farthestDay, farthestDay);
  if (since !== null) requireWholeWithin(since, 'state.since', -farthestDay, farthestDay);
  if (level !== null) requireFigure(level, 'state.level');
  requireBoolean(settled, 'state.settled');
  const { length } = requireWholeArray(ring, 'state.ring', 'an array of numbers and nulls');
  if (length > rules.ringDays)
    throw motescaleError('out_of_range', 'state.ring', length, `at most ${rules.ringDays} days`);
  ring.forEach((value, i) => {
    if (value !== null) requireFigure(value, `state.ring[${i}]`);
  });
  if (length > 0 && (last === null || since === null || ring[0] === null || ring[length - 1] === null)) {
    const expected = 'days that begin and end with a value, as a state keeps them';
    throw motescaleError('out_of_range', 'state.ring', 'ring', expected);
  }
  requireObject(steps, 'state.steps', undefined, ['count', 'square']);
  requireWholeWithin(steps.count, 'state.steps.count', 0, rules.jumpsRemembered);
  requireNonNegative(steps.square, 'state.steps.square');
  return { last, ring: ring.slice(), since, settled, level, steps: { count: steps.count, square: steps.square } };
}
