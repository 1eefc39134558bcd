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

/** The name under which an object has what it inherits from: a member of that name, which JSON may hold, is lost in copying. */
export const inherited = '__proto__';
export const anotherName = 'another name';

/** Whether an object has a member of that name itself. */
export function hasMember(holder: unknown, name: string): boolean {
  return typeof holder === 'object' && holder !== null && Object.hasOwn(holder, name);
}
