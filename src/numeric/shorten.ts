/** Seven significant digits of a number: what is remembered for weeks stays short as JSON. */

/** Rounded so; 0 below 1e-12, and as it came above 1e28, beyond which powers of ten are not exact. */
export function shorten(value: number): number {
  const size = Math.abs(value);
  if (size < 1e-12) return 0;
  if (size > 1e28) return value;
  let up = 1;
  while (size * up < 1e6) up *= 10;
  let down = 1;
  while (size / down >= 1e7) down *= 10;
  return up > 1 ? Math.floor(value * up + 0.5) / up : Math.floor(value / down + 0.5) * down;
}
