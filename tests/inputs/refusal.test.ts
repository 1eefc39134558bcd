/** What is caught of a call: a refusal of the library, or an error of another kind. */
import { expect, test } from 'vitest';
import { caught, motescaleError } from '../../src/errors.ts';

test('a refusal is handed over; any other error goes on', () => {
  const refusal = motescaleError('empty', 'values', [], 'an array with at least one element');
  expect(caught(refusal)).toBe(refusal);
  const other = new RangeError('out of stack');
  expect(() => caught(other)).toThrow(other);
});
