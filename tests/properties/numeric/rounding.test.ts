/** Rounding for certificates: what is left at zero, and what cannot be asked. */
import { expect, test } from 'vitest';
import { roundHalfEven } from '../../../src/exact/index.ts';

test.each([
  ['-0.2', { decimals: 0 }, '0'],
  ['-0.5', { decimals: 0 }, '0'],
  ['-0.004', { decimals: 2 }, '0.00'],
  [-0, { decimals: 1 }, '0.0'],
  ['-0', { significant: 3 }, '0.00'],
  ['-0.6', { decimals: 0 }, '-1'],
  ['-10', { decimals: 0 }, '-10'],
  ['-0.006', { decimals: 2 }, '-0.01'],
] as const)('%s to %j: %s', (value, to, text) => {
  expect(roundHalfEven(value, to)).toBe(text);
});

test('a text has at most 400 characters', () => {
  const digits = `0.${'3'.repeat(398)}`;
  expect(roundHalfEven(digits, { decimals: 2 })).toBe('0.33');
  expect(() => roundHalfEven(`${digits}3`, { decimals: 2 })).toThrowError(
    expect.objectContaining({ code: 'not_a_number', parameter: 'value' }),
  );
});

test('decimals and significant digits at once are refused', () => {
  const both = { decimals: 1, significant: 2 } as { decimals: number };
  expect(() => roundHalfEven(1, both)).toThrowError(
    expect.objectContaining({ code: 'unknown_option', parameter: 'to.significant' }),
  );
  expect(roundHalfEven(1.25, { decimals: 1, significant: undefined } as { decimals: number })).toBe('1.2');
  expect(roundHalfEven(1.25, { decimals: undefined, significant: 2 } as { significant: number })).toBe('1.2');
});
