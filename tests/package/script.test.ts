/** The ES5 script as a page or a small engine loads it: one global, and nothing changed for the script after it. */
import { readFileSync } from 'node:fs';
import { createContext, runInContext } from 'node:vm';
import { expect, test } from 'vitest';

const script = readFileSync('dist/motescale.global.js', 'utf8');

test('leaves one global', () => {
  const page = createContext({});
  runInContext(script, page);
  expect(Object.keys(page)).toEqual(['motescale']);
});

test('a script joined to it is not made strict', () => {
  const page = createContext({});
  runInContext(`${script}\nstrict = (function () { return this === undefined; })();`, page);
  expect(page.strict).toBe(false);
});
