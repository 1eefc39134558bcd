/**
 * Makes a script in ES5 of the library, or of a part: one global and nothing beside it, for pages and for engines
 * without modules.
 *
 * Bundled by esbuild, lowered to ES5 by TypeScript, made small by terser. What TypeScript wrote stands beside it as the
 * readable twin, and the source map leads there.
 */
import { resolve } from 'node:path';
import { build, type Plugin } from 'esbuild';
import { minify } from 'terser';
import { helpers, inEs5 } from './lower.ts';
import { marked } from './seldom.ts';

export interface Wanted {
  /** A module whose exports become the members of the global. */
  readonly contents: string;
  /** Name of the file without ending. */
  readonly file: string;
  /** Name of the global. */
  readonly global: string;
  /** First words of the file, without the marks of a comment. */
  readonly banner: string;
  /** Files of the sources for which standIns.ts stands in: what their paths end with. */
  readonly instead?: readonly string[];
}

export interface Script {
  /** The members of the global. */
  readonly names: readonly string[];
  readonly code: string;
  readonly readable: string;
  readonly map: string;
}

function standIns(instead: readonly string[]): Plugin {
  return {
    name: 'stand-ins',
    setup({ onResolve }) {
      onResolve({ filter: /\.ts$/ }, ({ path, resolveDir }) => {
        const wanted = resolve(resolveDir, path);
        return instead.some((ending) => wanted.endsWith(ending)) ? { path: resolve('src/scripts/standIns.ts') } : null;
      });
    },
  };
}

/** `export { a, b as c };` at the end of a bundle becomes the object that is returned. */
function returning(bundle: string): { readonly text: string; readonly names: string[] } {
  const start = bundle.lastIndexOf('export {');
  const pairs = bundle.slice(start + 'export {'.length, bundle.lastIndexOf('}')).split(',');
  const members = pairs.map((pair) => {
    const [inner = '', outer = inner] = pair.trim().split(' as ');
    return { inner, outer };
  });
  const object = members.map(({ inner, outer }) => `  ${outer}: ${inner}`).join(',\n');
  return { text: `${bundle.slice(0, start)}return {\n${object}\n};\n`, names: members.map(({ outer }) => outer) };
}

export async function makeScript({ contents, file, global, banner, instead = [] }: Wanted): Promise<Script> {
  const { outputFiles } = await build({
    stdin: { contents, resolveDir: process.cwd(), loader: 'ts' },
    bundle: true,
    format: 'esm',
    // `?.` and `??` come out shorter from esbuild than from TypeScript
    target: 'es2019',
    legalComments: 'none',
    plugins: [standIns(instead)],
    write: false,
  });
  const { text, names } = returning((outputFiles[0] as { text: string }).text);
  const lowered = inEs5(text);
  // In one function, so that a script joined to it neither turns strict nor meets TypeScript's helpers.
  const readable = `/*!\n * ${banner}\n */
var ${global} = (function () {\n"use strict";${helpers}${lowered}})();
if (typeof module === 'object' && module && typeof exports === 'object') module.exports = ${global};\n`;
  const small = await minify(
    { [`${file}.readable.js`]: marked(readable) },
    {
      ecma: 5,
      compress: { passes: 2, pure_getters: true, keep_fargs: false, hoist_funs: true, lhs_constants: false },
      format: { comments: /^!/ },
      sourceMap: { filename: `${file}.js`, url: `${file}.js.map` },
    },
  );
  // the last line is a comment: joined to another script, it must not take in the first line of that one
  return { names, code: `${small.code}\n`, readable, map: small.map as string };
}
