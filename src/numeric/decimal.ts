/**
 * Arithmetic on doubles that stand for short decimals, such as 0.45 per mL. Adding or scaling them as doubles leaves a
 * remainder (0.45 - 0.23 is not the double 0.22); as whole numbers over a power of ten the result is the nearest double
 * to the true one.
 */
import { largestWhole } from '../rules/bounds.ts';

/** The least power of ten, up to `most` (nine places), that makes `x` a whole number; 0 where there is none. */
export function decimalScale(x: number, most = 1e9): number {
  // two roundings take less
  const nearest = 1e-15;
  for (let scale = 1; scale <= most; scale *= 10) {
    const scaled = x * scale;
    const whole = Math.floor(scaled + 0.5);
    if (Math.abs(whole) > largestWhole) return 0;
    // a whole number that far off cannot give x back: the division is spared
    if (Math.abs(whole - scaled) <= Math.abs(scaled) * nearest && whole / scale === x) return scale;
  }
  return 0;
}

/** 10^places; below 0 the power above it, turned over. */
export function powerOfTen(places: number): number {
  let scale = 1;
  for (let i = Math.abs(places); i > 0; i -= 1) scale *= 10;
  return places < 0 ? 1 / scale : scale;
}

/**
 * a - b: the nearest double to the true difference of the decimals, where both are written with 15 digits at most from
 * the first of the greater to the last decimal place of the finer; beyond that the difference of the doubles.
 */
export function subtractDecimals(a: number, b: number): number {
  // the greatest power of ten that a double holds exactly
  const mostExact = 1e22;
  // 2^50: up to it, a number times a power of ten is off by less than a half
  const largestScaled = 1125899906842624;
  const scaleA = decimalScale(a, mostExact);
  const scaleB = scaleA && decimalScale(b, mostExact);
  const scale = Math.max(scaleA, scaleB);
  if (scaleB === 0 || Math.max(Math.abs(a), Math.abs(b)) * scale > largestScaled) return a - b;
  return (Math.floor(a * scale + 0.5) - Math.floor(b * scale + 0.5)) / scale;
}

/** a * factor / divisor for whole factor and divisor; the double nearest to the truth where `a` is a short decimal. */
export function scaleDecimal(a: number, factor: number, divisor: number): number {
  const scale = decimalScale(a);
  const whole = Math.floor(a * scale + 0.5) * factor;
  return scale > 0 && whole <= largestWhole ? whole / (scale * divisor) : (a * factor) / divisor;
}

/** a + b, exact where both are short decimals. */
export function addDecimals(a: number, b: number): number {
  return subtractDecimals(a, -b);
}

/** a * b / c for numbers that are short decimals: the nearest double to the true value while whole numbers hold it. */
export function proportion(a: number, b: number, c: number): number {
  const scaleB = decimalScale(b);
  const scaleC = decimalScale(c);
  if (scaleB * scaleC === 0) return (a * b) / c;
  return scaleDecimal(a, Math.floor(b * scaleB + 0.5) * scaleC, Math.floor(c * scaleC + 0.5) * scaleB);
}
