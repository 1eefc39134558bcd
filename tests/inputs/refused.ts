/** What is refused: by which code, at which parameter, and with what among the words for what is right. */
import { expect } from 'vitest';
import { isMotescaleError } from '../../src/errors.ts';

export type Refused = readonly [code: string, parameter: string, words: string, call: () => unknown];

export function expectRefused(code: string, parameter: string, words: string, call: () => unknown): void {
  let error: unknown;
  try {
    call();
  } catch (thrown) {
    error = thrown;
  }
  if (!isMotescaleError(error)) throw new Error(`${error}`);
  expect([error.code, error.parameter]).toEqual([code, parameter]);
  expect(error.expected).toContain(words);
}
