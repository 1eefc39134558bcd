/** A number in few significant digits: what is remembered for weeks stays short as JSON. */

/**
 * Rounded to seven significant digits; 0 below 1e-12, and as it came above 1e28, beyond which powers of ten are not
 * exact.
 */
export function shorten(value: number): number {
  const size = Math.abs(value);
  if (size < 1e-12) return 0;
  if (size > 1e28) return value;
  return toDigits(value, 1e6);
}

/** Rounded to as many digits as `least` has, which stands before the decimal point while it is rounded. */
export function toDigits(value: number, least: number): number {
  const size = Math.abs(value);
  let up = 1;
  while (size * up < least) up *= 10;
  let down = 1;
  while (size / down >= 10 * least) down *= 10;
  return up > 1 ? Math.floor(value * up + 0.5) / up : Math.floor(value / down + 0.5) * down;
}
