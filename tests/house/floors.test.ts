/** The floors of the design: a folder imports only from floors below it, and dependencies only where they belong. */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { filesBelow } from '../files.ts';

/** From the ground up. Within a floor, a folder does not import its neighbours. */
const floors: readonly (readonly string[])[] = [
  ['numeric', 'rules', 'errors.ts', 'checks.ts', 'common.ts', 'source.ts', 'units.ts', 'version.ts'],
  ['counts', 'viscosity', 'water', 'trend', 'state'],
  ['codes'],
  ['sampling', 'filtration', 'reading'],
  ['alarm', 'history', 'judging'],
  ['monitor', 'acceptance'],
  ['report', 'schema', 'exact'],
  ['german'],
  ['sources.ts'],
  ['index.ts'],
];

const dependencies: Readonly<Record<string, string>> = { 'zod/mini': 'schema', 'decimal.js': 'exact' };

function floorOf(place: string): number {
  return floors.findIndex((floor) => floor.includes(place));
}

/** `src/codes/meets.ts` stands in `codes`, `src/errors.ts` is itself. */
function placeOf(path: string): string {
  return path.split('/')[1] as string;
}

function importsOf(file: string): string[] {
  const text = readFileSync(file, 'utf8').replace(/^\s*\*.*$/gm, '');
  return [...text.matchAll(/(?:from|import) '([^'\s]+)'/g)].map((match) => match[1] as string);
}

describe.each(filesBelow('src', '.ts').filter((file) => !/src\/(scripts\/|tsup\.config)/.test(file)))('%s', (file) => {
  const place = placeOf(file);

  test('stands on a floor, and imports only from below', () => {
    expect(floorOf(place), `${place} has no floor`).toBeGreaterThanOrEqual(0);
    for (const name of importsOf(file)) {
      if (!name.startsWith('.')) {
        expect(dependencies[name], `${name} imported by ${file}`).toBe(place);
        continue;
      }
      const target = placeOf(new URL(name, `file:///${file}`).pathname.slice(1));
      if (target === place) continue;
      const ground = floorOf(place) === 0 && floorOf(target) === 0;
      expect(ground || floorOf(target) < floorOf(place), `${file} imports ${name}`).toBe(true);
    }
  });
});

test('every folder and file of src has its floor', () => {
  const places = readdirSync('src').filter((name) => name !== 'scripts' && !name.startsWith('ts'));
  for (const place of places) expect(floorOf(place), place).toBeGreaterThanOrEqual(0);
});
