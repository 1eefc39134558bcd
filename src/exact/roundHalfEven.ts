/** Rounding for certificates: half to even, from the decimal as written. */
import { Decimal } from 'decimal.js';
import { requireObject } from '../checks.ts';
import { motescaleError } from '../errors.ts';

/**
 * A number rounded to decimals or to significant digits, as text with just that many, a half going to the even digit. A
 * number is taken at its shortest decimal text: 2.675 is rounded as two point six seven five, not as the double beneath
 * it.
 *
 * What is rounded to zero loses its sign.
 *
 * Sources: ASTM E29-22, 6.4 (rounding method); ISO 80000-1:2009, annex B, rule A.
 *
 * @throws `not_a_number`, `infinite`, `wrong_type`; `out_of_range` for places beyond 0 to 100 (significant digits: 1 to
 * 100); `unknown_option` for both decimals and significant digits.
 *
 * @example
 * ```ts
 * import { roundHalfEven } from 'motescale/exact';
 * roundHalfEven('2.675', { decimals: 2 }); // => '2.68'
 * roundHalfEven(2.665, { decimals: 2 }); // => '2.66'
 * roundHalfEven('1250', { significant: 2 }); // => '1200'
 * ```
 */
export function roundHalfEven(
  value: string | number,
  to: { readonly decimals: number } | { readonly significant: number },
): string {
  const number = readSigned(value);
  requireObject(to, 'to', '{ decimals }, or { significant }', ['decimals', 'significant']);
  const { decimals, significant: digits } = to as { decimals?: unknown; significant?: unknown };
  if (decimals !== undefined && digits !== undefined)
    throw motescaleError('unknown_option', 'to.significant', digits, 'either decimals or significant, not both');
  if (decimals !== undefined) {
    return unsignedZero(number.toFixed(requirePlaces(decimals, 'to.decimals', 0), Decimal.ROUND_HALF_EVEN));
  }
  const significant = requirePlaces(digits, 'to.significant', 1);
  const rounded = number.toSignificantDigits(significant, Decimal.ROUND_HALF_EVEN);
  const shown = Math.max(significant - 1 - rounded.e, 0);
  return unsignedZero(rounded.toFixed(rounded.isZero() ? significant - 1 : shown));
}

/** Where no digit is left, nothing is negative. */
function unsignedZero(text: string): string {
  return /[1-9]/.test(text) ? text : text.replace('-', '');
}

function readSigned(value: string | number): Decimal {
  if (typeof value === 'number') {
    if (Number.isNaN(value)) throw motescaleError('not_a_number', 'value', value, 'a finite number');
    if (!Number.isFinite(value)) throw motescaleError('infinite', 'value', value, 'a finite number');
  } else if (typeof value !== 'string') {
    throw motescaleError('wrong_type', 'value', value, 'a number, or a decimal number as text');
  } else if (value.length > 400 || !/^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d{1,3})?$/i.test(value.trim())) {
    throw motescaleError('not_a_number', 'value', value, "a decimal number as text, such as '2.675'");
  }
  const Exact = Decimal.clone({ defaults: true });
  return new Exact(typeof value === 'string' ? value.trim() : value);
}

/** How many decimals, or significant digits. */
export function requirePlaces(value: unknown, parameter: string, least: number): number {
  if (typeof value !== 'number' || value !== Math.floor(value) || value < least || value > 100)
    throw motescaleError('out_of_range', parameter, value, `a whole number from ${least} to 100`);
  return value;
}
