/**
 * Arithmetic on doubles that stand for short decimals, such as 0.45 per mL. Adding or scaling them as doubles leaves a
 * remainder (0.45 - 0.23 is not the double 0.22); as whole numbers over a power of ten the result is the nearest double
 * to the true one.
 */
import { largestWhole } from '../rules/bounds.ts';

const mostPlaces = 9;
/** The greatest power of ten that a double holds exactly. */
const mostExactPlaces = 22;
/** 2^50: up to it, a number times a power of ten is off by less than a half. */
const largestScaled = 1125899906842624;
/** Two roundings take less. */
const nearest = 1e-15;

/** How many decimal places it takes to write `x` exactly, or -1 where it is no decimal of up to so many places. */
export function decimalPlaces(x: number, most: number = mostPlaces): number {
  let scale = 1;
  for (let places = 0; places <= most; places += 1) {
    const scaled = x * scale;
    const whole = Math.floor(scaled + 0.5);
    if (Math.abs(whole) > largestWhole) return -1;
    // a whole number that far off cannot give x back: the division is spared
    if (Math.abs(whole - scaled) <= Math.abs(scaled) * nearest && whole / scale === x) return places;
    scale *= 10;
  }
  return -1;
}

/** 10^places. */
export function powerOfTen(places: number): number {
  let scale = 1;
  for (let i = 0; i < places; i += 1) scale *= 10;
  return scale;
}

/**
 * a - b: the nearest double to the true difference of the decimals, where both are written with 15 digits at most from
 * the first of the greater to the last decimal place of the finer; beyond that the difference of the doubles.
 */
export function subtractDecimals(a: number, b: number): number {
  const placesA = decimalPlaces(a, mostExactPlaces);
  if (placesA < 0) return a - b;
  const placesB = decimalPlaces(b, mostExactPlaces);
  if (placesB < 0) return a - b;
  const scale = powerOfTen(Math.max(placesA, placesB));
  const scaledA = a * scale;
  const scaledB = b * scale;
  if (Math.abs(scaledA) > largestScaled || Math.abs(scaledB) > largestScaled) return a - b;
  return (Math.floor(scaledA + 0.5) - Math.floor(scaledB + 0.5)) / scale;
}

/**
 * a * factor / divisor for whole factor and divisor; the nearest double to the true value where `a` is a short decimal.
 */
export function scaleDecimal(a: number, factor: number, divisor: number): number {
  const places = decimalPlaces(a);
  if (places < 0) return (a * factor) / divisor;
  const scale = powerOfTen(places);
  const whole = Math.floor(a * scale + 0.5) * factor;
  return whole <= largestWhole ? whole / (scale * divisor) : (a * factor) / divisor;
}

/** a + b, exact where both are short decimals. */
export function addDecimals(a: number, b: number): number {
  return subtractDecimals(a, -b);
}

/** a * b / c for numbers that are short decimals: the nearest double to the true value while whole numbers hold it. */
export function proportion(a: number, b: number, c: number): number {
  const placesB = decimalPlaces(b);
  const placesC = decimalPlaces(c);
  if (placesB < 0 || placesC < 0) return (a * b) / c;
  const wholeB = Math.floor(b * powerOfTen(placesB) + 0.5);
  const wholeC = Math.floor(c * powerOfTen(placesC) + 0.5);
  return scaleDecimal(a, wholeB * powerOfTen(placesC), wholeC * powerOfTen(placesB));
}
