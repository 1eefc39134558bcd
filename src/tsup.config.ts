/**
 * The build: ESM, CommonJS and types for every entry of package.json, the ES5 scripts, and the command that makes one's
 * own.
 */
import { cpSync, mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Options } from 'tsup';
import pkg from '../package.json' with { type: 'json' };
import { writeDeclarations } from './scripts/declarations.ts';
import { writeScripts } from './scripts/write.ts';

/** `./codes` in package.json's exports is built from src/codes/index.ts, `.` from src/index.ts. */
const entry = Object.fromEntries(
  Object.entries(pkg.exports)
    .filter(([, files]) => typeof files === 'object' && 'import' in files)
    .map(([path]) => (path === '.' ? ['index', 'src/index.ts'] : [path.slice(2), `src/${path.slice(2)}/index.ts`])),
);

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

/**
 * The declarations of an entry are put together from those of the files: given sources, tsup 8.5.1 would read and check
 * all of them once more for each entry.
 */
function declared(): NonNullable<Options['dts']> {
  const folder = mkdtempSync(join(tmpdir(), 'motescale-types-'));
  process.once('exit', () => rmSync(folder, { recursive: true, force: true }));
  writeDeclarations(folder);
  const ofFolder = ([name, file]: [string, string]) => [name, join(folder, file.replace(/ts$/, 'd.ts'))];
  return {
    entry: Object.fromEntries(Object.entries(entry).map(ofFolder)),
    // tsup sets baseUrl for its declarations, which TypeScript 6 refuses
    compilerOptions: { ignoreDeprecations: '6.0' },
  };
}

const modules: Options = {
  entry,
  format: ['esm', 'cjs'],
  target: 'es2020',
  splitting: true,
  plugins: [withoutBareImports],
  onSuccess: copySchemas,
};

/** It loads the tools that make a script only when it is called: they are the user's own. */
const command: Options = {
  entry: { command: 'src/scripts/command.ts' },
  outDir: 'dist/scripts',
  format: ['esm'],
  target: 'es2022',
  external: ['esbuild', 'terser', 'typescript'],
  outExtension: () => ({ js: '.mjs' }),
  onSuccess: writeScripts,
};

/** With `--no-dts` the modules alone. */
const builds = ({ dts }: Options): Options[] => [dts === false ? modules : { ...modules, dts: declared() }, command];
export default builds;
