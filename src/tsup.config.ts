/** The build: ESM, CommonJS and types for every entry of package.json, and one ES5 script file. */
import { cpSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { transform } from 'esbuild';
import type { Options } from 'tsup';
import ts from 'typescript';
import pkg from '../package.json' with { type: 'json' };

/** `./codes` in package.json's exports is built from src/codes/index.ts, `.` from src/index.ts. */
const entry = Object.fromEntries(
  Object.entries(pkg.exports)
    .filter(([, files]) => typeof files === 'object')
    .map(([path]) => (path === '.' ? ['index', 'src/index.ts'] : [path.slice(2), `src/${path.slice(2)}/index.ts`])),
);

const scriptFile = 'dist/motescale.global.js';

/**
 * Bundled as ES2020, then lowered by TypeScript (which turns `for...of` over arrays into index loops), then minified.
 * All of it stands in one function, so that a script joined to it neither turns strict nor meets TypeScript's helpers.
 */
async function lowerToEs5(): Promise<void> {
  const lowered = ts.transpileModule(readFileSync(scriptFile, 'utf8'), {
    compilerOptions: { target: ts.ScriptTarget.ES5, module: ts.ModuleKind.None, ignoreDeprecations: '6.0' },
  }).outputText;
  const enclosed = `var motescale = (function () {\n${lowered}\nreturn motescale;\n})();`;
  const minified = await transform(enclosed, { minifyWhitespace: true, minifyIdentifiers: true, target: 'es5' });
  writeFileSync(scriptFile, minified.code);
}

/** The JSON Schema files, for people outside TypeScript. */
async function copySchemas(): Promise<void> {
  const files = readdirSync('src/schema').filter((name) => name.endsWith('.schema.json'));
  for (const name of files) cpSync(`src/schema/${name}`, `dist/schemas/${name}`);
}

/** Shared chunks have no side effects: an import of one for its effects alone only makes a user's bundler warn. */
const withoutBareImports: NonNullable<Options['plugins']>[number] = {
  name: 'without-bare-imports',
  renderChunk: (code) => ({ code: code.replace(/^import ['"]\.\/chunk-\w+\.js['"];\n/gm, '') }),
};

const modules: Options = {
  entry,
  format: ['esm', 'cjs'],
  // ignoreDeprecations: tsup 8.5.1 sets baseUrl for its declarations, which TypeScript 6 refuses.
  dts: { compilerOptions: { ignoreDeprecations: '6.0' } },
  target: 'es2020',
  splitting: true,
  plugins: [withoutBareImports],
  onSuccess: copySchemas,
};

const script: Options = {
  entry: { motescale: 'src/index.ts' },
  format: ['iife'],
  globalName: 'motescale',
  target: 'es2020',
  treeshake: true,
  onSuccess: lowerToEs5,
};

const builds: Options[] = [modules, script];
export default builds;
