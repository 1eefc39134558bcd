/**
 * Sums without rounding. A number is held as a list of doubles, none overlapping another, smallest first; the list adds
 * up exactly.
 *
 * Sources: T. J. Dekker, A floating-point technique for extending the available precision, Numer. Math. 18 (1971) 224
 * (product); J. R. Shewchuk, Adaptive precision floating-point arithmetic, Discrete Comput. Geom. 18 (1997) 305,
 * section 2 (sums). Holds while no intermediate value leaves the normal range of a double; callers keep to magnitudes
 * of 1e-100 to 1e100.
 */

const splitter = 134217729;

/** What rounding took from the double sum a + b. */
export function sumError(a: number, b: number): number {
  const sum = a + b;
  const part = sum - a;
  return a - (sum - part) + (b - part);
}

/** What rounding took from the double product a * b. */
export function productError(a: number, b: number): number {
  const product = a * b;
  const aHigh = upperHalf(a);
  const bHigh = upperHalf(b);
  const aLow = a - aHigh;
  const bLow = b - bHigh;
  return aLow * bLow - (product - aHigh * bHigh - aLow * bHigh - aHigh * bLow);
}

function upperHalf(x: number): number {
  const c = splitter * x;
  return c - (c - x);
}

/** The list with one more double added, exactly. */
export function addExactly(parts: readonly number[], x: number): number[] {
  const result: number[] = [];
  let carried = x;
  for (const part of parts) {
    const error = sumError(carried, part);
    carried += part;
    if (error !== 0) result.push(error);
  }
  if (carried !== 0) result.push(carried);
  return result;
}

/** The double nearest to the sum of the list. */
export function roundedSum(parts: readonly number[]): number {
  let i = parts.length - 1;
  if (i < 0) return 0;
  let high = parts[i] as number;
  let low = 0;
  while (i > 0 && low === 0) {
    i -= 1;
    const part = parts[i] as number;
    low = sumError(high, part);
    high += part;
  }
  // exactly half way, as far as seen: the next part decides which way
  const next = i > 0 ? (parts[i - 1] as number) : 0;
  if ((low < 0 && next < 0) || (low > 0 && next > 0)) {
    const candidate = high + 2 * low;
    if (candidate - high === 2 * low) return candidate;
  }
  return high;
}

/** The double nearest to the sum of any doubles. */
export function exactSumOf(list: readonly number[]): number {
  let parts: number[] = [];
  for (const term of list) parts = addExactly(parts, term);
  return roundedSum(parts);
}

/**
 * The one list for its sum: each part the nearest double to what is left. Equal sums give equal lists, however they
 * were added up.
 */
export function canonicalSum(parts: readonly number[]): number[] {
  const result: number[] = [];
  let rest = parts.slice();
  while (rest.length > 0) {
    const part = roundedSum(rest);
    result.unshift(part);
    rest = addExactly(rest, -part);
  }
  return result;
}
