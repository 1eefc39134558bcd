/**
 * Makes the walk: one ES5 script of the library's script file and the cases, that runs unchanged in every engine and
 * leaves its report in the global `walked`.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { build } from 'esbuild';
import ts from 'typescript';
import { full } from '../volume.ts';
import { all } from './engines.ts';

const folder = import.meta.dirname;
const cases = readdirSync(`${folder}/cases`).sort();

/** Every odd input to each place where all engines are run, else one in four: another at the next place. */
const oneIn = all || full ? 1 : 8;

/** A case file walks one folder of the sources; a new file takes part by being there. */
const entryOf = (files: readonly string[]) =>
  [
    "import { record } from './recorder.ts';",
    ...files.map((file, i) => `import { walk as walk${i} } from './cases/${file}';`),
    'const recorder = record(motescale);',
    ...files.map((_file, i) => `walk${i}(recorder.motescale);`),
    'walked = recorder.report();',
  ].join('\n');

/** Prints where the engine has a way to print; of a page, whose `print` goes to paper, the global is read. */
export const ending = `
if (typeof document === 'object');
else if (typeof print === 'function') print(walked);
else if (typeof console === 'object') console.log(walked);
`;

/** The cases alone, those of all files or of some: they expect the global `motescale`. */
export async function casesScript(files: readonly string[] = cases): Promise<string> {
  const bundled = await build({
    stdin: { contents: entryOf(files), resolveDir: folder, loader: 'ts' },
    bundle: true,
    format: 'iife',
    target: 'es2020',
    define: { oneIn: `${oneIn}` },
    write: false,
  });
  const lowered = ts.transpileModule((bundled.outputFiles[0] as { text: string }).text, {
    compilerOptions: { target: ts.ScriptTarget.ES5, module: ts.ModuleKind.None, ignoreDeprecations: '6.0' },
  });
  return `var walked;\n${lowered.outputText}${ending}`;
}

/** The whole program. */
export async function walkProgram(): Promise<string> {
  return `${readFileSync('dist/scripts/motescale.global.js', 'utf8')}\n${await casesScript()}`;
}
