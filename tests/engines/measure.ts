/** What an engine needs: how long the script takes to load, how long a reading takes, how much memory. */
import { execFileSync, spawnSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { type Engine, type Programs, runLimit } from './engines.ts';
import { ending } from './program.ts';

const examples = 'docs/examples/gateways';
export const wholeFile = 'dist/scripts/motescale.global.js';
export const scriptFile = 'dist/scripts/motescale.unit.global.js';

/** The library with the gateway of the page and its days, then some code of one's own that sets `walked`. */
export function gatewayProgram(code: string, changed: (gateway: string) => string = (text) => text): string {
  const [gateway, days] = ['gateway', 'days'].map((name) => readFileSync(`${examples}/${name}.js`, 'utf8'));
  const parts = [readFileSync(scriptFile, 'utf8'), changed(gateway as string), days, code, ending];
  return `var walked;\n${parts.join('\n')}`;
}

/** The same with a figure followed, which the script of all of motescale can, or one of one's own. */
export function followingProgram(code: string, library: string = wholeFile): string {
  const follow = "follow: [{ id: 'wear', figure: { continuousScaleNumberAt: 4 } }], staleAfterMs";
  const program = gatewayProgram(code, (text) => text.replace('staleAfterMs', follow));
  return program.replace(readFileSync(scriptFile, 'utf8'), () => readFileSync(library, 'utf8'));
}

export interface Measured {
  /** From text to a library that can be called, ms. */
  readonly loadMs: number;
  /** A reading from registers to events, ms. */
  readonly readingMs: number;
}

/** The best of several, since a busy machine only ever makes it longer. */
export function measureProgram(): string {
  const library = JSON.stringify(readFileSync(scriptFile, 'utf8'));
  return gatewayProgram(`
    var text = ${library.replace(/</g, '\\u003c')};
    var load = 1e9, reading = 1e9, began, n;
    for (n = 0; n < 5; n += 1) {
      began = Date.now();
      new Function(text + '\\n//' + n)();
      load = Math.min(load, Date.now() - began);
    }
    for (n = 0; n < 20; n += 2) {
      began = Date.now();
      runDays(n, n + 2);
      reading = Math.min(reading, (Date.now() - began) / 288);
    }
    walked = JSON.stringify({ loadMs: load, readingMs: reading });`);
}

const timeCommand = '/usr/bin/time';

/**
 * The most memory, KiB, that an engine's process holds for a script, with its own rules when to collect; where there is
 * no process of its own, what the engine says of itself; null where it says nothing.
 */
export async function memoryOf(engine: Engine, programs: Programs): Promise<number | null> {
  const { argv, held } = engine;
  if (held !== undefined) return held(programs);
  if (argv === undefined || !existsSync(timeCommand)) return null;
  const account = `${programs.whole}.memory`;
  execFileSync(timeCommand, ['-f', '%M', '-o', account, ...argv(programs.whole)], {
    timeout: runLimit,
    stdio: 'ignore',
  });
  return Number(readFileSync(account, 'utf8').trim());
}

/** How a heap is limited, in steps of so many KiB. */
const limited: Readonly<Record<string, readonly [number, (kib: number, ...files: string[]) => readonly string[]]>> = {
  Node: [1024, (kib, file = '') => [process.execPath, `--max-old-space-size=${kib / 1024}`, file]],
  Deno: [1024, (kib, file = '') => ['deno', 'run', `--v8-flags=--max-old-space-size=${kib / 1024}`, file]],
  Duktape: [16, (kib, file = '', ...more) => [inC('duktape', file), String(kib), file, ...more]],
  mujs: [16, (kib, file = '') => [inC('mujs', file), String(kib), file]],
};

/** An engine with an allocator that refuses what is above a limit. */
function inC(name: string, beside: string): string {
  const built = join(dirname(beside), `${name}Heap`);
  if (!existsSync(built)) execFileSync('cc', ['-O1', '-o', built, `tests/engines/${name}Heap.c`, `-l${name}`, '-lm']);
  return built;
}

/**
 * The smallest limit of the heap, KiB, with which a script runs to its end, in Duktape several, one after the other;
 * null where the engine keeps to none.
 */
export function leastHeap(engine: Pick<Engine, 'name'>, ...files: readonly string[]): number | null {
  const [step, argv] = limited[engine.name] ?? [];
  if (step === undefined || argv === undefined) return null;
  const runs = (steps: number) => {
    const [command, ...inputs] = argv(steps * step, ...files) as [string, ...string[]];
    return spawnSync(command, inputs, { timeout: runLimit, stdio: 'ignore' }).status === 0;
  };
  let [fails, enough] = [0, 16384 / step];
  if (!runs(enough)) throw new Error(`${engine.name} needs a heap of more than 16 MiB`);
  while (enough - fails > 1) {
    const middle = Math.floor((fails + enough) / 2);
    [fails, enough] = runs(middle) ? [fails, middle] : [middle, enough];
  }
  return enough * step;
}
