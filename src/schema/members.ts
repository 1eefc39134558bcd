/** Members of objects from outside, by the library of ES5: one may have any name, `__proto__` too. */

export type Raw = { readonly [name: string]: unknown };

/** A copy with what is made of each member; those of which undefined is made are left out. */
export function mapped(object: Raw, made: (value: unknown, name: string) => unknown): { [name: string]: unknown } {
  const copy: { [name: string]: unknown } = {};
  for (const name of Object.keys(object)) {
    const value = made(object[name], name);
    if (value === undefined) continue;
    Object.defineProperty(copy, name, { value, enumerable: true, writable: true, configurable: true });
  }
  return copy;
}
