/**
 * Reading a number from text, exactly.
 */
import { Decimal } from 'decimal.js';
import { motescaleError } from '../errors.ts';

/** Its own constructor: a host application's settings of decimal.js are not touched, and do not reach here. */
function context(): typeof Decimal {
  return Decimal.clone({ precision: 200, toExpNeg: -1000, toExpPos: 1000 });
}

const longestText = 100;

/** A decimal of 0 or more, written with digits and at most one point. */
export function readDecimal(text: unknown, parameter: string): Decimal {
  if (typeof text !== 'string') {
    throw motescaleError('wrong_type', parameter, text, "a decimal number as text, such as '0.64'");
  }
  const trimmed = text.trim();
  if (trimmed === '') throw motescaleError('empty', parameter, text, "a decimal number as text, such as '0.64'");
  if (/^-\d/.test(trimmed)) throw motescaleError('negative', parameter, text, 'a decimal number of 0 or more');
  if (trimmed.length > longestText || !/^(\d+\.?\d*|\.\d+)$/.test(trimmed)) {
    throw motescaleError('not_a_number', parameter, text, "digits with at most one point, such as '0.64'");
  }
  return new (context())(trimmed);
}
