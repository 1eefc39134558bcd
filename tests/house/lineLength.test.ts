/** No line over 120 characters, comments included. Rows of a table and links on a page stay as long as they are. */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { filesBelow } from '../files.ts';

const most = 120;
const frozen = /tests\/differential\/0\.1\.0\//;
const files = [
  ...['README.md', 'DEVELOPERS.md'],
  ...['src', 'tests', 'docs', 'bench'].flatMap((folder) =>
    ['.ts', '.md', '.mjs'].flatMap((ending) => filesBelow(folder, ending)),
  ),
].filter((file) => !frozen.test(file));

describe('lines', () => {
  test.each(files)('%s', (file) => {
    const page = file.endsWith('.md');
    const long = readFileSync(file, 'utf8')
      .split('\n')
      .flatMap((line, i) => {
        const free = page && (/^\s*\|/.test(line) || /\]\([^)]+\)|https?:\/\//.test(line));
        return [...line].length > most && !free ? [`${file}:${i + 1} has ${[...line].length}`] : [];
      });
    expect(long).toEqual([]);
  });
});
