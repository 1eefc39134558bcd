/**
 * Looking into a value that may be anything.
 */

/** A member of an object or an element of an array; undefined where there is none. */
export function member(holder: unknown, name: string | number): unknown {
  if (typeof holder !== 'object' || holder === null) return undefined;
  return Object.hasOwn(holder, name) ? (holder as Record<string | number, unknown>)[name] : undefined;
}

/** The elements of an array; none of anything else. */
export function elements(value: unknown): readonly unknown[] {
  return Array.isArray(value) ? value : [];
}
