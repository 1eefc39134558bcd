/** The map in DEVELOPERS.md leads somewhere: each path on it is there, and each folder of src is on it. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';

const page = readFileSync('DEVELOPERS.md', 'utf8');
/** But docs/site, which `npm run docs` makes. */
const paths = [...page.matchAll(/\b(?:src|tests|docs(?!\/site)|bench)\/[\w./-]*\w\/?/g)].map(([path]) => path);

test('every path is there', () => {
  expect(paths.length).toBeGreaterThan(50);
  expect(paths.filter((path) => !existsSync(path))).toEqual([]);
});

test('every folder of src and tests is named', () => {
  const folders = ['src', 'tests'].flatMap((root) =>
    readdirSync(root, { withFileTypes: true }).flatMap((one) => (one.isDirectory() ? [`${root}/${one.name}/`] : [])),
  );
  expect(folders.filter((folder) => !paths.includes(folder))).toEqual([]);
});

test('each line of the map is one entry', () => {
  const lines = page.split('\n').filter((line) => /^ {4}(src|tests)\//.test(line));
  expect(lines.length).toBeGreaterThan(25);
});
