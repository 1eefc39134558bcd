/** Reading a number from text, exactly. */
import { Decimal } from 'decimal.js';
import { motescaleError } from '../errors.ts';

/** Reads a decimal of 0 or more, written with digits and at most one point. */
export type DecimalReader = (text: unknown, parameter: string) => Decimal;

/** A reader with a constructor of its own: an application's settings of decimal.js stay, and do not reach here. */
export function decimalReader(): DecimalReader {
  const Exact = Decimal.clone({ defaults: true, precision: 400 });
  return (text, parameter) => new Exact(digitsOf(text, parameter));
}

const longestText = 100;

function digitsOf(text: unknown, parameter: string): string {
  const expected = "a decimal number as text, such as '0.64'";
  if (typeof text !== 'string') throw motescaleError('wrong_type', parameter, text, expected);
  const trimmed = text.trim();
  if (trimmed === '') throw motescaleError('empty', parameter, text, expected);
  if (/^-\d/.test(trimmed)) throw motescaleError('negative', parameter, text, 'a decimal number of 0 or more');
  if (trimmed.length > longestText || !/^(\d+\.?\d*|\.\d+)$/.test(trimmed))
    throw motescaleError('not_a_number', parameter, text, "digits with at most one point, such as '0.64'");
  return trimmed;
}
