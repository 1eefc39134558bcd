/** Bounds that add up exactly, in steps too fine for one double: a large part, a rest below it, and strictness. */

/**
 * `value` and, in units of a ten-millionth of its own, `rest`; and by how many strict inequalities it came about:
 * `{ value: 20, rest: 0, strict: 1 }` is "less than 20". Kept as a count so that bounds add up exactly.
 */
export interface Bound {
  readonly value: number;
  readonly rest: number;
  readonly strict: number;
}

/** So many of the rest make one of the value. */
export const restsPerValue = 1e7;
/** A difference of nothing. */
export const none: Bound = { value: 0, rest: 0, strict: 0 };

/** Both together; `rest` stays from 0 up to a whole value. */
export function plus(a: Bound, b: Bound): Bound {
  const rest = a.rest + b.rest;
  const carried = rest >= restsPerValue ? 1 : 0;
  return { value: a.value + b.value + carried, rest: rest - carried * restsPerValue, strict: a.strict + b.strict };
}

/** The same downwards, not strict. */
export function minus({ value, rest }: Bound): Bound {
  return rest === 0
    ? { value: 0 - value, rest, strict: 0 }
    : { value: -value - 1, rest: restsPerValue - rest, strict: 0 };
}

/** Whether the first bounds more sharply. */
export function isSharper(a: Bound, b: Bound): boolean {
  if (a.value !== b.value) return a.value < b.value;
  return a.rest === b.rest ? a.strict > b.strict : a.rest < b.rest;
}

/** Whether a difference of so much at most leaves room for 0. */
export function leavesRoom(bound: Bound): boolean {
  return !isSharper(bound, none);
}
