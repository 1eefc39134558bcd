/**
 * Data that nobody can change: a limit overwritten in one place would change a class in the whole process.
 */

/** Freezes a value and all it holds, and returns it. */
export function frozen<Data>(data: Data): Data {
  if (typeof data === 'object' && data !== null) {
    for (const name of Object.keys(data)) frozen((data as { readonly [name: string]: unknown })[name]);
    Object.freeze(data);
  }
  return data;
}
