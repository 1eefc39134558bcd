/** What a package linter says of the packed package, and what is in it. */
import { readFileSync, rmSync } from 'node:fs';
import { publint } from 'publint';
import { formatMessage } from 'publint/utils';
import { afterAll, expect, test } from 'vitest';
import { packed } from './pack.ts';

const { folder, tarball, files } = packed();
afterAll(() => rmSync(folder, { recursive: true }));

test('publint finds nothing, suggestions included', async () => {
  const { buffer, byteOffset, byteLength } = readFileSync(tarball);
  const { messages, pkg } = await publint({
    strict: true,
    pack: { tarball: buffer.slice(byteOffset, byteOffset + byteLength) as ArrayBuffer },
  });
  expect(messages.map((message) => formatMessage(message, pkg))).toEqual([]);
});

test('notebooks come without the deno.json that leads to the dist of a checkout', () => {
  const notebooks = files.filter((file) => file.startsWith('docs/notebooks/'));
  expect(notebooks).toHaveLength(5);
  expect(notebooks.filter((file) => !file.endsWith('.ipynb'))).toEqual([]);
});
