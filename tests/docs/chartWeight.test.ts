/** What docs/charts.md says that drawing weighs, measured. */
import { readFileSync } from 'node:fs';
import { gzipSync } from 'node:zlib';
import { build } from 'esbuild';
import { expect, test } from 'vitest';

const page = readFileSync('docs/charts.md', 'utf8').replace(/\s+/g, ' ');
const drawing =
  "import { compile } from 'vega-lite'; import { parse, View } from 'vega'; console.log(compile, parse, View)";
const making = "export { trendChart } from './src/report/index.ts'";

test.each([
  ['compiling and drawing', drawing, /(\d+) kB minified, (\d+) kB after gzip/],
  ['trendChart', making, /`trendChart` is (\d+) kB, (\d+) kB after gzip/],
])('%s', async (_name, contents, said) => {
  const options = { bundle: true, minify: true, write: false, format: 'esm', platform: 'browser' } as const;
  const { outputFiles } = await build({ stdin: { contents, resolveDir: process.cwd() }, ...options });
  const code = outputFiles[0]?.contents as Uint8Array;
  const [, minified, gzipped] = said.exec(page) as RegExpExecArray;
  // to 3 %: the page names versions of vega, and no bytes
  for (const [bytes, kB] of [
    [code.length, minified],
    [gzipSync(code, { level: 9 }).length, gzipped],
  ] as const)
    expect(Math.abs(bytes / 1000 / Number(kB) - 1)).toBeLessThan(0.03);
});
