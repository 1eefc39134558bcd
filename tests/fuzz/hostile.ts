/** Values nobody means to hand over, and a copy of an input with some of them put in its places. */
import fc from 'fast-check';

const round: unknown[] = [];
round.push(round);

const values: readonly unknown[] = [
  ...[undefined, null, true, false, 0, -0, 1, -1, 0.5, 5e-324, 1e-300, 1e300, 1.7976931348623157e308, 2 ** 53],
  ...[Number.NaN, Infinity, -Infinity, 10n, Symbol('s'), () => 1, new Date(Number.NaN), /x/, new Map([[1, 2]])],
  ...['', ' ', 'x', '1e9', '18/16/13', '-/18/13', '__proto__', 'constructor', 'toString', '\0', '\ud800', '٣'],
  ...[
    [],
    {},
    [null],
    Array(3),
    round,
    Object.create(null),
    Object.create({ perMl: 1 }),
    Float64Array.of(1, Number.NaN),
  ],
  ...[JSON.parse('{"__proto__":{"x":1}}'), { constructor: 1 }, { toString: 1 }, { length: 3 }, { toJSON: 1, code: 1 }],
];

/** What is done at which place, counted from the first. */
const change: fc.Arbitrary<Change> = fc.record({
  place: fc.nat(),
  how: fc.constantFrom('replace', 'remove', 'repeat', 'add'),
  by: fc.oneof(fc.constantFrom(...values), fc.double(), fc.integer(), fc.string({ maxLength: 12 })),
});

export interface Change {
  readonly place: number;
  readonly how: string;
  readonly by: unknown;
}

export const changes: fc.Arbitrary<Change[]> = fc.array(change, { minLength: 1, maxLength: 3 });

type Holder = Record<string, unknown>;

/** Whether it is walked through: an object or list of the input, not one that stands whole. */
const open = (value: unknown, whole: readonly unknown[]): value is Holder =>
  typeof value === 'object' &&
  value !== null &&
  !whole.includes(value) &&
  (Array.isArray(value) || Object.getPrototypeOf(value) === Object.prototype);

function copy(value: unknown, whole: readonly unknown[]): unknown {
  if (!open(value, whole)) return value;
  if (Array.isArray(value)) return value.map((one) => copy(one, whole));
  return Object.fromEntries(Object.entries(value).map(([name, one]) => [name, copy(one, whole)]));
}

function places(holder: Holder, whole: readonly unknown[]): [Holder, string][] {
  return Object.entries(holder).flatMap(([name, value]) => [
    [holder, name] as [Holder, string],
    ...(open(value, whole) ? places(value, whole) : []),
  ]);
}

/** A copy of the input, changed. What is in `whole` is left alone. */
export function hostile(input: readonly unknown[], made: readonly Change[], whole: readonly unknown[]): unknown[] {
  const root = copy([...input], whole) as Holder & unknown[];
  const all = places(root, whole);
  for (const { place, how, by } of made) {
    const [holder, name] = all[place % all.length] as [Holder, string];
    const value = holder[name];
    if (how === 'remove' && Array.isArray(holder) && holder !== root) holder.splice(Number(name), 1);
    else if (how === 'remove' && holder !== root) delete holder[name];
    else if (how === 'repeat' && Array.isArray(holder) && holder !== root) holder.push(value);
    else if (how === 'add' && open(value, [...whole, ...values]) && !Array.isArray(value)) value.extra = by;
    else holder[name] = by;
  }
  return root;
}
