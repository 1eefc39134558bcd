/**
 * Inputs for the walk: the same on every engine, since they are whole numbers, short literals and exact ratios of
 * those.
 */

/**
 * Whole numbers from 0 up to, not including, `end`, in a fixed order: Park and Miller's generator, Communications of
 * the ACM 31 (1988) 1192.
 */
export type Next = (end: number) => number;

export function numbersFrom(seed: number): Next {
  let state = seed;
  return (end) => {
    state = (state * 16807) % 2147483647;
    return state % end;
  };
}

/** A function whose text is the same on every engine. */
const aFunction = () => 1;
aFunction.toString = () => 'a function';

/** Put in where the walk is made into a program: of the odd inputs to a place one in so many is tried. */
declare const oneIn: number | undefined;
const skips = typeof oneIn === 'undefined' ? 1 : oneIn;
let places = 0;

/** What careless callers hand in. */
const odd: readonly unknown[] = [
  undefined,
  null,
  0 / 0,
  1 / 0,
  -1 / 0,
  -1,
  -0,
  0.5,
  3,
  '',
  '7',
  'seven',
  true,
  [],
  [1],
  [null],
  {},
  { sizes: 4 },
  aFunction,
];

function tryOdd(call: (value: unknown) => void): void {
  places += 1;
  odd.forEach((value, i) => {
    if ((i + places) % skips === 0) call(value);
  });
}

/**
 * Calls with one input after the other replaced by odd ones, and with members of records replaced too. A standard's
 * table is only replaced whole: it is `classTable` that answers for the members of a table. So is what `prepareX` made,
 * which answers for it.
 */
export function spoil(call: (...inputs: never[]) => unknown, inputs: readonly unknown[]): void {
  inputs.forEach((good, i) => {
    const callWith = (value: unknown) => {
      const spoilt = inputs.slice();
      spoilt[i] = value;
      call.apply(null, spoilt as never[]);
    };
    tryOdd(callWith);
    if (typeof good !== 'object' || good === null || Array.isArray(good)) return;
    if ('source' in good || 'prepared' in good) return;
    // sorted: engines keep the members of a record in orders of their own
    for (const key of Object.keys(good).sort()) {
      tryOdd((value) => callWith({ ...good, [key]: value }));
    }
  });
}
