/** What scripts have of `motescale/schema` beside all of `motescale`: it needs no zod. */
export const readers = ['parseAcceptanceReading', 'parseMonitorReading', 'parseReading'] as const;

const isReader = (name: string) => (readers as readonly string[]).indexOf(name) >= 0;

/** A line of `export { ... } from` for each entry of the package, `motescale` and `motescale/schema`, that has some. */
export function exportsOf(names: readonly string[], library: string, schema: string): string {
  const line = (some: readonly string[], entry: string) =>
    some.length === 0 ? '' : `export { ${some.join(', ')} } from '${entry}';\n`;
  const others = names.filter((name) => !isReader(name));
  return line(others, library) + line(names.filter(isReader), schema);
}
