/** No file of src imports itself by way of others, types included. */
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { filesBelow } from '../files.ts';

/** The files that a file imports or exports from, types included. */
function importsOf(file: string): string[] {
  const text = readFileSync(file, 'utf8').replace(/^\s*(\*|\/\/).*$/gm, '');
  return [...text.matchAll(/(?:from|import) '(\.[^']+)'|import\('(\.[^']+)'\)/g)].map(([, plain, inType]) =>
    new URL((plain ?? inType) as string, `file:///${file}`).pathname.slice(1),
  );
}

/** The first circle found from a file on, as the way round it; files that lead into none are left in `clear`. */
function circleFrom(
  file: string,
  imports: ReadonlyMap<string, readonly string[]>,
  way: readonly string[],
  clear: Set<string>,
): readonly string[] | null {
  if (way.includes(file)) return [...way.slice(way.indexOf(file)), file];
  if (clear.has(file)) return null;
  for (const next of imports.get(file) ?? []) {
    const circle = circleFrom(next, imports, [...way, file], clear);
    if (circle !== null) return circle;
  }
  clear.add(file);
  return null;
}

function circlesIn(imports: ReadonlyMap<string, readonly string[]>): string[] {
  const clear = new Set<string>();
  const found = new Map<string, string>();
  for (const file of imports.keys()) {
    const circle = circleFrom(file, imports, [], clear);
    // the same circle from another file on is the same
    if (circle !== null && !found.has([...circle.slice(1)].sort().join())) {
      found.set([...circle.slice(1)].sort().join(), circle.join(' -> '));
    }
  }
  return [...found.values()];
}

test('no circle of imports', () => {
  const imports = new Map(
    filesBelow('src', '.ts')
      .filter((file) => !/src\/(scripts\/|tsup\.config)/.test(file))
      .map((file) => [file, importsOf(file)]),
  );
  expect([...imports.values()].flat().length).toBeGreaterThan(500);
  for (const target of new Set([...imports.values()].flat()))
    expect(imports.has(target) || target.endsWith('.json'), target).toBe(true);
  expect(circlesIn(imports)).toEqual([]);
});

test('a circle is found, and told as the way round', () => {
  const imports = new Map([
    ['a', ['b', 'd']],
    ['b', ['c']],
    ['c', ['b']],
    ['d', []],
  ]);
  expect(circlesIn(imports)).toEqual(['b -> c -> b']);
  expect(circlesIn(new Map([['a', ['a']]]))).toEqual(['a -> a']);
});
