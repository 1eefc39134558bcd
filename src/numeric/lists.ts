/**
 * Lists of numbers of fixed length: typed arrays, which hold a year of readings in little memory, and plain arrays on
 * engines without them.
 */

/** What both kinds have in common. */
export interface NumberList {
  readonly length: number;
  [index: number]: number;
}

/** So many zeros, to hold any numbers. */
export function doubles(length: number): NumberList {
  return typeof Float64Array === 'undefined' ? zeros(length) : new Float64Array(length);
}

/** So many zeros, to hold whole numbers below two to the power of 31. */
export function integers(length: number): NumberList {
  return typeof Int32Array === 'undefined' ? zeros(length) : new Int32Array(length);
}

/** The same whole numbers again. */
export function copyOfIntegers(list: NumberList): NumberList {
  const copy = integers(list.length);
  for (let i = 0; i < list.length; i += 1) copy[i] = list[i] as number;
  return copy;
}

export function meanOf(values: readonly number[]): number {
  let sum = 0;
  for (const value of values) sum += value;
  return sum / values.length;
}

function zeros(length: number): number[] {
  const list: number[] = [];
  for (let i = 0; i < length; i += 1) list.push(0);
  return list;
}
