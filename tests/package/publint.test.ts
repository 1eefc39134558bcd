/** What a package linter says of the packed package. */
import { readFileSync, rmSync } from 'node:fs';
import { publint } from 'publint';
import { formatMessage } from 'publint/utils';
import { expect, test } from 'vitest';
import { packed } from './pack.ts';

test('publint finds nothing, suggestions included', async () => {
  const { folder, tarball } = packed();
  const { buffer, byteOffset, byteLength } = readFileSync(tarball);
  const { messages, pkg } = await publint({
    strict: true,
    pack: { tarball: buffer.slice(byteOffset, byteOffset + byteLength) as ArrayBuffer },
  });
  expect(messages.map((message) => formatMessage(message, pkg))).toEqual([]);
  rmSync(folder, { recursive: true });
});
