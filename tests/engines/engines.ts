/**
 * The engines the walk is run on, how each is called, and what is known to differ there.
 */
import { execFileSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { delimiter, join, resolve } from 'node:path';
import { getQuickJS } from 'quickjs-emscripten';

export interface Engine {
  readonly name: string;
  /** A program to be found on the PATH; null where npm brings the engine. */
  readonly command: string | null;
  /** Functions that this engine cannot run at all. */
  readonly lacks?: readonly string[];
  /** Functions whose digest is known to differ, and why. Each must differ: a cured one leaves the list. */
  readonly differs?: Readonly<Record<string, string>>;
  /** The report of the walk. */
  run(program: Programs): string | Promise<string>;
}

/** The files written for a run. */
export interface Programs {
  readonly folder: string;
  /** Library and cases in one script. */
  readonly whole: string;
  /** The cases alone, for a library loaded as modules. */
  readonly cases: string;
}

export function writePrograms(whole: string, cases: string): Programs {
  const folder = mkdtempSync(join(tmpdir(), 'motescale-walk-'));
  const files = { folder, whole: join(folder, 'walk.js'), cases: join(folder, 'cases.js') };
  writeFileSync(files.whole, whole);
  writeFileSync(files.cases, cases);
  return files;
}

/** Where a program stands, or null. */
export function onPath(command: string): string | null {
  const places = (process.env.PATH ?? '').split(delimiter).map((folder) => join(folder, command));
  return places.find((place) => existsSync(place)) ?? null;
}

function output(command: string, inputs: readonly string[]): string {
  return execFileSync(command, inputs, {
    encoding: 'utf8',
    stdio: ['ignore', 'pipe', 'pipe'],
    timeout: 100_000,
  }).trim();
}

/** Runs the cases on the library as Node's own modules. */
function throughModules(programs: Programs, file: string, load: string): string {
  const script = join(programs.folder, file);
  const readCases = `eval(require('node:fs').readFileSync(${JSON.stringify(programs.cases)}, 'utf8'));`;
  writeFileSync(script, `${load}\n${readCases}\n`);
  return output(process.execPath, [script]);
}

async function inQuickJs(programs: Programs): Promise<string> {
  const context = (await getQuickJS()).newContext();
  const result = context.evalCode(`${readFileSync(programs.whole, 'utf8')}\nwalked`);
  const report = context.dump(context.unwrapResult(result));
  context.dispose();
  return report;
}

function inChromium(programs: Programs): string {
  const page = join(programs.folder, 'walk.html');
  writeFileSync(page, '<!doctype html><meta charset="utf-8"><title></title><script src="walk.js"></script>');
  const title = /<title>([^<]*)<\/title>/.exec(showPage('chromium', page, programs.folder));
  return title?.[1] ?? '';
}

/** The page as the browser has it once its scripts have run. */
export function showPage(browser: string, page: string, profile: string): string {
  const quiet = ['--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking'];
  const still = ['--disable-component-update', '--disable-sync', `--user-data-dir=${profile}/profile`];
  return output(browser, ['--headless', '--no-sandbox', ...quiet, ...still, '--dump-dom', `file://${page}`]);
}

export const engines: readonly Engine[] = [
  { name: 'Node', command: null, run: ({ whole }) => output(process.execPath, [whole]) },
  {
    name: 'Node, ES modules',
    command: null,
    run: (programs) =>
      throughModules(
        programs,
        'modules.mjs',
        `import { createRequire } from 'node:module';
         import * as motescale from ${JSON.stringify(`file://${resolve('dist/index.js')}`)};
         const require = createRequire(import.meta.url);`,
      ),
  },
  {
    name: 'Node, CommonJS',
    command: null,
    run: (programs) =>
      throughModules(
        programs,
        'modules.cjs',
        `const motescale = require(${JSON.stringify(resolve('dist/index.cjs'))});`,
      ),
  },
  { name: 'QuickJS', command: null, run: inQuickJs },
  { name: 'Duktape', command: 'duk', run: ({ whole }) => output('duk', [whole]) },
  {
    name: 'mujs',
    command: 'mujs',
    lacks: ['scaleNumbers', 'classifyColumns', 'csvColumns'],
    run: ({ whole }) => output('mujs', [whole]),
  },
  { name: 'SpiderMonkey', command: 'gjs', run: ({ whole }) => output('gjs', [whole]) },
  { name: 'Deno', command: 'deno', run: ({ whole }) => output('deno', ['run', whole]) },
  { name: 'Chromium', command: 'chromium', run: inChromium },
];
