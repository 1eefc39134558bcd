/** Sizes of what users bundle, and that no dependency slips in. */
import { readFileSync } from 'node:fs';
import { gzipSync } from 'node:zlib';
import { build } from 'esbuild';
import { describe, expect, test } from 'vitest';
import { sources } from '../../src/sources.ts';
import { version } from '../../src/version.ts';
import { budgets, dependencies } from './budgets.ts';
import { entries } from './pack.ts';

/** As a user's bundler would: the package by its name, minified. */
async function bundle(contents: string): Promise<{ text: string; packages: string[] }> {
  const { outputFiles, metafile } = await build({
    stdin: { contents, resolveDir: process.cwd() },
    bundle: true,
    minify: true,
    format: 'esm',
    target: 'es2020',
    write: false,
    metafile: true,
  });
  const found = Object.keys(metafile.inputs).flatMap((path) => /node_modules\/([^/]+)/.exec(path)?.[1] ?? []);
  return { text: (outputFiles[0] as { text: string }).text, packages: [...new Set(found)] };
}

describe('size after gzip', () => {
  test.each(Object.entries(budgets))('%s: at most %i bytes', async (what, bytes) => {
    const content = what.startsWith('export') ? (await bundle(what)).text : readFileSync(what);
    expect(gzipSync(content, { level: 9 }).length).toBeLessThanOrEqual(bytes);
  });

  test('docs/scripts.md says of each script no less than it weighs', () => {
    const page = readFileSync('docs/scripts.md', 'utf8');
    const stated = [...page.matchAll(/^\| `(motescale.*?\.js)` \| [^|]* \| (\d+) \|$/gm)];
    expect(stated.map(([, name]) => `dist/scripts/${name}`).sort()).toEqual(
      Object.keys(budgets)
        .filter((what) => what.startsWith('dist/scripts/'))
        .sort(),
    );
    for (const [, name, kB] of stated) {
      const weight = gzipSync(readFileSync(`dist/scripts/${name}`), { level: 9 }).length;
      expect(weight, name).toBeLessThanOrEqual(1000 * Number(kB));
    }
  });

  test('every entry has a budget', () => {
    const whole = entries.map((entry) => `export * from '${entry}'`);
    expect(whole.filter((what) => budgets[what] === undefined)).toEqual([]);
  });
});

/** Words that stand in a package's code and survive minifying. */
const signs = { 'decimal.js': /DecimalError/, zod: /Zod(Error|Type)/ };

describe('dependencies in the bundle', () => {
  const parts = Object.keys(budgets).filter((what) => what.startsWith('export'));

  test.each(parts)('%s', async (what) => {
    const { text, packages } = await bundle(what);
    expect(packages).toEqual(dependencies[/'(.*)'/.exec(what)?.[1] as string] ?? []);
    for (const [name, sign] of Object.entries(signs)) {
      expect(sign.test(text), `words of ${name}`).toBe(packages.includes(name));
    }
  });
});

describe('sources and version', () => {
  const all = Object.values(sources).flatMap((entry) => Object.values(entry));
  const inside = (text: string) => text.match(/,standing:"/g)?.length ?? 0;

  // the scale numbers are read from the table of ISO 4406, which carries its source; a monitor holds a given code
  // against counts by the table for the microscope as well
  test.each([
    ["export { scaleNumber } from 'motescale'", 1],
    ["export { convertViscosity, convertCounts, cleanUp } from 'motescale'", 0],
    ["export { rollUp } from 'motescale/history'", 0],
    ["export { startMonitor, advanceMonitor } from 'motescale/monitor'", 2],
  ])('cost nothing where they are not imported: %s', async (what, ofTables) => {
    const { text } = await bundle(what);
    expect(inside(text)).toBe(ofTables);
    // what lives on is marked with the version that prepared it
    if (!what.includes('Monitor')) expect(text).not.toContain(version);
  });

  test('are there where they are imported', async () => {
    const { text } = await bundle("export { sources, version } from 'motescale'");
    expect(inside(text)).toBe(new Set(all).size);
    expect(text).toContain(version);
  });
});
