/** What an engine needs: how long the script takes to load, how long a reading takes, how much memory. */
import { execFileSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { type Engine, type Programs, runLimit } from './engines.ts';
import { ending } from './program.ts';

const examples = 'docs/examples/gateways';
const wholeFile = 'dist/scripts/motescale.global.js';
export const scriptFile = 'dist/scripts/motescale.unit.global.js';

/** The library with the gateway of the page and its days, then some code of one's own that sets `walked`. */
export function gatewayProgram(code: string, changed: (gateway: string) => string = (text) => text): string {
  const [gateway, days] = ['gateway', 'days'].map((name) => readFileSync(`${examples}/${name}.js`, 'utf8'));
  const parts = [readFileSync(scriptFile, 'utf8'), changed(gateway as string), days, code, ending];
  return `var walked;\n${parts.join('\n')}`;
}

/** The same with a figure followed, which the script of all of motescale can. */
export function followingProgram(code: string): string {
  const follow = "follow: [{ id: 'wear', figure: { continuousScaleNumberAt: 4 } }], staleAfterMs";
  const program = gatewayProgram(code, (text) => text.replace('staleAfterMs', follow));
  return program.replace(readFileSync(scriptFile, 'utf8'), () => readFileSync(wholeFile, 'utf8'));
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
 * The most memory, KiB, that an engine's process holds for a day of the gateway above what it holds for no script at
 * all; null where it runs in another process.
 */
export function memoryOf(engine: Engine, gateway: Programs, nothing: Programs): number | null {
  const { argv } = engine;
  if (argv === undefined || !existsSync(timeCommand)) return null;
  const most = (file: string) => {
    const kept = ['-f', '%M', '-o', `${file}.memory`];
    execFileSync(timeCommand, [...kept, ...argv(file)], { timeout: runLimit, stdio: 'ignore' });
    return Number(readFileSync(`${file}.memory`, 'utf8').trim());
  };
  return most(gateway.whole) - most(nothing.whole);
}
