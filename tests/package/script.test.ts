/** The ES5 script as a page or a small engine loads it: one global, and nothing changed for the script after it. */
import { readFileSync } from 'node:fs';
import { createContext, runInContext } from 'node:vm';
import { expect, test } from 'vitest';
import pkg from '../../package.json' with { type: 'json' };

const file = 'dist/motescale.global.js';
const script = readFileSync(file, 'utf8');

test('is found by its name', () => {
  expect(pkg.exports['./motescale.global.js']).toBe(`./${file}`);
});

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

test('scaleNumbers says what an engine without typed arrays lacks', () => {
  const engine = createContext({});
  runInContext(`Float64Array = undefined;\n${script}`, engine);
  const found = runInContext('try { motescale.scaleNumbers([1]); } catch (error) { error.message; }', engine);
  expect(found).toContain('an engine with typed arrays; scaleNumber works on all');
});
