#!/usr/bin/env node
/**
 * `npx motescale-script classify iso4406 --out lock.js`: a script in ES5 of the named parts of `motescale` and of
 * nothing else.
 */
import { mkdirSync, writeFileSync } from 'node:fs';
import { basename, dirname } from 'node:path';
import { parseArgs } from 'node:util';
import { nameHint } from '../rules/hints.ts';
import { exportsOf, readers } from './readers.ts';

/** The library beside this file in the package. */
const motescale: { readonly version: string } = await import(new URL('../index.js', import.meta.url).href);

const usage = `motescale-script NAME... [--out FILE] [--global NAME]

Writes a script in ES5 that holds the named members of motescale: functions and tables; and of motescale/schema
${readers.join(', ')}.
  --out FILE      the script; its readable twin and its source map go beside it (motescale.own.js)
  --global NAME   the name of the one global it makes (motescale)
Beside motescale it needs esbuild, terser and TypeScript 6: npm i -D esbuild terser typescript@6
Example: npx motescale-script cumulativeCounts classify iso4406 --out gate.js`;

function stop(message: string): never {
  console.error(message);
  process.exit(1);
}

function given() {
  try {
    return parseArgs({
      allowPositionals: true,
      options: {
        out: { type: 'string', default: 'motescale.own.js' },
        global: { type: 'string', default: 'motescale' },
        help: { type: 'boolean', default: false },
      },
    });
  } catch (error) {
    return stop(`${(error as Error).message}\n\n${usage}`);
  }
}

/** `class` is spelt like one and is none; `let` is one only where the script is not strict. */
function isVariable(name: string): boolean {
  try {
    new Function(`"use strict"; var ${name};`);
    return /^[A-Za-z_$][\w$]*$/.test(name);
  } catch (_error) {
    return false;
  }
}

/** Of a page alone; what engines have beside, the one that runs this has too. */
const namesOfPages = [
  ...['window', 'self', 'document', 'location', 'history', 'navigator', 'parent', 'top', 'frames', 'name', 'event'],
  ...['module', 'exports', 'require'],
];

/** Whether a page or an engine has something by that name, which the script would take the place of, or not reach. */
function isTaken(name: string): boolean {
  return name in globalThis || namesOfPages.indexOf(name) >= 0;
}

const { values, positionals } = given();
if (values.help) {
  console.log(usage);
  process.exit();
}
if (positionals.length === 0) stop(usage);
const names = [...Object.keys(motescale), ...readers];
const unknown = positionals.filter((name) => names.indexOf(name) < 0);
const meant = unknown.map((name) => nameHint(name, names)).join('');
const but = meant === '' ? '' : `, but ${meant.slice(0, -2)}`;
if (unknown.length > 0) stop(`motescale has no ${unknown.join(', ')}${but}. It has: ${names.join(' ')}`);
if (!isVariable(values.global)) stop(`--global: ${values.global} is no name of a variable`);
if (isTaken(values.global)) stop(`--global: ${values.global} is there already in pages or engines; take another name`);
if (!values.out.endsWith('.js')) stop(`--out: ${values.out} does not end in .js`);

const { makeScript } = await import('./make.ts').catch((error: Error) => stop(`${error.message}\n\n${usage}`));
const file = basename(values.out, '.js');
const { code, readable, map } = await makeScript({
  contents: exportsOf([...new Set(positionals)], 'motescale', 'motescale/schema'),
  file,
  global: values.global,
  banner: `motescale ${motescale.version}: a selection. MIT licence.`,
});
const made = mkdirSync(dirname(values.out), { recursive: true });
if (made !== undefined) console.log(`${made}: a new folder`);
const place = values.out.slice(0, -'.js'.length);
writeFileSync(values.out, code);
writeFileSync(`${place}.readable.js`, readable);
writeFileSync(`${values.out}.map`, map);
console.log(`${values.out}: ${Buffer.byteLength(code)} bytes`);
