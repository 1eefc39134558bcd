/**
 * The engines the walk is run on, how each is called, and what is known to differ there.
 */
import { execFileSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { delimiter, join, resolve } from 'node:path';
import puppeteer, { type Page } from 'puppeteer-core';
import { getQuickJS } from 'quickjs-emscripten';
import { readers } from '../../src/scripts/readers.ts';

export interface Engine {
  readonly name: string;
  /** A program to be found on the PATH; null where npm brings the engine. */
  readonly command: string | null;
  /** Functions that this engine cannot run at all. */
  readonly lacks?: readonly string[];
  /** Functions whose digest is known to differ, and why. Each must differ: a cured one leaves the list. */
  readonly differs?: Readonly<Record<string, string>>;
  /** The library comes as modules: no other script can be run this way. */
  readonly modules?: true;
  /** The command and what it is given, where it runs a script in a process of its own. */
  readonly argv?: (file: string) => readonly string[];
  /** Memory that a run holds, KiB, by the engine's own account: where it has no process of its own to be watched. */
  readonly held?: (program: Programs) => Promise<number>;
  version(): string;
  /** What the script `whole` leaves in the global `walked`. */
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

/** With MOTESCALE_ALL_ENGINES=1, as .ci/run sets it, every engine is run, and one that is not there is a failure. */
export const all: boolean = process.env.MOTESCALE_ALL_ENGINES === '1';

/** Whether an engine is run: without the variable only those that `npm ci` brings. */
export function isRun({ command }: Engine): boolean {
  return all || command === null;
}

/** Where a program stands, or null. */
export function onPath(command: string): string | null {
  const places = (process.env.PATH ?? '').split(delimiter).map((folder) => join(folder, command));
  return places.find((place) => existsSync(place)) ?? null;
}

/**
 * How long a run may take, in ms. The walk takes the slowest engine about 10 s of a core to itself; on a machine that
 * does much else, many times that. The limit only ends what hangs.
 */
export const runLimit = 400_000;

export function output(command: string, inputs: readonly string[]): string {
  return execFileSync(command, inputs, {
    encoding: 'utf8',
    stdio: ['ignore', 'pipe', 'pipe'],
    timeout: runLimit,
    maxBuffer: 64 * 1024 * 1024,
  }).trim();
}

/** An engine with a command that runs a script and prints. */
function onCommand(
  name: string,
  argv: (file: string) => readonly string[],
  more: Omit<Engine, 'name' | 'command' | 'run'>,
): Engine {
  const command = argv('')[0] as string;
  const run = ({ whole }: Programs) => output(command, argv(whole).slice(1));
  return { name, command: command === process.execPath ? null : command, argv, run, ...more };
}

/** The version of Debian's package. */
function ofPackage(name: string): () => string {
  return () => output('dpkg-query', ['-s', name]).replace(/^[\s\S]*\nVersion: ([^-\n]*)[\s\S]*$/, '$1');
}

/** The first number with dots that the command prints of itself. */
function ofCommand(command: string): () => string {
  return () => /\d+(\.\d+)+/.exec(output(command, ['--version']))?.[0] ?? '';
}

/** Runs the cases on the library as Node's own modules. */
function throughModules(programs: Programs, file: string, load: string): string {
  const script = join(programs.folder, file);
  const readCases = `eval(require('node:fs').readFileSync(${JSON.stringify(programs.cases)}, 'utf8'));`;
  writeFileSync(script, `${load}\n${readCases}\n`);
  return output(process.execPath, [script]);
}

/** What the program leaves, and the bytes in use then, all of the engine's own included. */
async function inQuickJs(programs: Programs): Promise<{ walked: string; bytes: number }> {
  const context = (await getQuickJS()).newContext();
  const result = context.evalCode(`${readFileSync(programs.whole, 'utf8')}\nwalked`);
  const walked = context.dump(context.unwrapResult(result));
  const usage = context.runtime.computeMemoryUsage();
  const { memory_used_size: bytes } = context.dump(usage);
  usage.dispose();
  context.dispose();
  return { walked, bytes };
}

/** The most a process held is in its own status: the command may be a wrapper, whose memory is not the engine's. */
async function heldByDeno({ whole }: Programs): Promise<number> {
  const status = '/proc/self/status';
  const ask = `console.log('held ' + /VmHWM:\\s+(\\d+)/.exec(Deno.readTextFileSync('${status}'))[1]);`;
  writeFileSync(`${whole}.held.js`, `${readFileSync(whole, 'utf8')}\n${ask}`);
  return Number(/held (\d+)$/.exec(output('deno', ['run', '--allow-all', `${whole}.held.js`]))?.[1]);
}

/** The page as the browser has it once its scripts have run. */
export function showPage(browser: string, page: string, profile: string): string {
  const quiet = ['--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking'];
  const still = ['--disable-component-update', '--disable-sync', `--user-data-dir=${profile}/profile`];
  return output(browser, ['--headless', '--no-sandbox', ...quiet, ...still, '--dump-dom', `file://${page}`]);
}

async function inBrowser<T>(
  browser: 'chrome' | 'firefox',
  command: string,
  programs: Programs,
  ask: (tab: Page) => Promise<T>,
): Promise<T> {
  const page = join(programs.folder, 'page.html');
  writeFileSync(page, `<!doctype html><meta charset="utf-8"><script src="${programs.whole}"></script>`);
  const executablePath = onPath(command) as string;
  const args = browser === 'chrome' ? ['--no-sandbox', '--disable-gpu'] : [];
  const times = { timeout: runLimit, protocolTimeout: runLimit };
  const opened = await puppeteer.launch({ browser, executablePath, args, ...times });
  try {
    const tab = await opened.newPage();
    await tab.goto(`file://${page}`, { timeout: runLimit });
    return await ask(tab);
  } finally {
    await opened.close();
  }
}

function browser(name: string, kind: 'chrome' | 'firefox', command: string): Engine {
  const walked = (tab: Page) => tab.evaluate('walked') as Promise<string>;
  const run = (programs: Programs) => inBrowser(kind, command, programs, walked);
  return { name, command, version: ofCommand(command), run };
}

/** The heap of a page; Firefox does not tell. */
async function heldByChromium(programs: Programs): Promise<number> {
  return inBrowser(
    'chrome',
    'chromium',
    programs,
    async (tab) => ((await tab.metrics()).JSHeapUsedSize as number) / 1024,
  );
}

const nodeVersion = () => process.version.slice(1);

export const engines: readonly Engine[] = [
  onCommand('Node', (file) => [process.execPath, file], { version: nodeVersion }),
  {
    name: 'Node, ES modules',
    command: null,
    modules: true,
    version: nodeVersion,
    run: (programs) =>
      throughModules(
        programs,
        'modules.mjs',
        `import { createRequire } from 'node:module';
         import * as library from ${JSON.stringify(`file://${resolve('dist/index.js')}`)};
         import { ${readers.join(', ')} } from ${JSON.stringify(`file://${resolve('dist/schema.js')}`)};
         const motescale = { ...library, ${readers.join(', ')} };
         const require = createRequire(import.meta.url);`,
      ),
  },
  {
    name: 'Node, CommonJS',
    command: null,
    modules: true,
    version: nodeVersion,
    run: (programs) =>
      throughModules(
        programs,
        'modules.cjs',
        `const { ${readers.join(', ')} } = require(${JSON.stringify(resolve('dist/schema.cjs'))});
         const motescale = { ...require(${JSON.stringify(resolve('dist/index.cjs'))}), ${readers.join(', ')} };`,
      ),
  },
  {
    ...{ name: 'Deno', command: 'deno', version: ofCommand('deno'), held: heldByDeno },
    run: ({ whole }) => output('deno', ['run', whole]),
  },
  { ...browser('Chromium', 'chrome', 'chromium'), held: heldByChromium },
  browser('Firefox', 'firefox', 'firefox-esr'),
  onCommand('SpiderMonkey (gjs)', (file) => ['gjs', file], { version: ofCommand('gjs') }),
  onCommand('JavaScriptCore (jsc)', (file) => ['jsc', file], { version: ofPackage('libjavascriptcoregtk-4.0-bin') }),
  onCommand('Hermes', (file) => ['hermes', file], { version: () => '0.12.0' }),
  {
    name: 'QuickJS',
    command: null,
    version: () => `in quickjs-emscripten ${createRequire(import.meta.url)('quickjs-emscripten/package.json').version}`,
    run: async (programs) => (await inQuickJs(programs)).walked,
    held: async (programs) => (await inQuickJs(programs)).bytes / 1024,
  },
  onCommand('Duktape', (file) => ['duk', file], { version: ofPackage('duktape') }),
  onCommand('mujs', (file) => ['mujs', file], {
    version: ofPackage('mujs'),
    lacks: ['scaleNumbers', 'classifyColumns', 'csvColumns'],
  }),
];
