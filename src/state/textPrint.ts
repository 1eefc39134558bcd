/**
 * The fingerprint of a text, by which a state knows again the configuration it belongs to. It is asked of every alarm
 * at every input, and so plainer than the hash of a reading's figures, which takes twice as long; it need only tell a
 * handful of configurations apart.
 */

/**
 * A whole number below 2^32 that changes with any character. Two texts share it once in some thousand million times.
 */
export function textPrint(text: string): number {
  let print = text.length;
  // times 65599, by shifts: products of 32 bits would not be exact
  for (let i = 0; i < text.length; i += 1) print = (text.charCodeAt(i) + (print << 6) + (print << 16) - print) | 0;
  return print >>> 0;
}

/** Plain data as one text, whatever the order of its members; those that are undefined are left out, as JSON does. */
export function textOf(data: unknown): string {
  if (Array.isArray(data)) return `[${data.map(textOf).join(',')}]`;
  if (typeof data !== 'object' || data === null) return JSON.stringify(data) ?? 'null';
  const object = data as { readonly [name: string]: unknown };
  const names = Object.keys(object).filter((name) => object[name] !== undefined);
  return `{${names
    .sort()
    .map((name) => `${JSON.stringify(name)}:${textOf(object[name])}`)
    .join(',')}}`;
}
