/**
 * How long a function takes over 100 kB of what nobody means to hand over: `npm run large`. Every place of one valid
 * call of each public function is replaced by a long text, a long list and an object of many members, and the quickest
 * of three calls counts. Left out is the statistics of a series, where 100 kB are 20,000 valid values and their time is
 * in bench/RESULTS.md. Ends with an error where one takes more than 50 ms. A command and no test: how long a call
 * takes depends on what else the machine does.
 */
import * as trend from '../../src/trend/index.ts';
import { calls, handedBack } from '../house/misspelt/calls.ts';

const limit = 50;
const bytes = 100_000;

const repeated = (text: string) => text.repeat(Math.ceil(bytes / text.length)).slice(0, bytes);
const list = (length: number, of: (i: number) => unknown) => Array.from({ length }, (_none, i) => of(i));
const members = (length: number, name: (i: number) => string) =>
  Object.fromEntries(list(length, (i) => [name(i), i]) as [string, unknown][]);

/** Each about 100 kB as text. */
const large: Readonly<Record<string, unknown>> = {
  'one letter': repeated('a'),
  digits: repeated('9'),
  spaces: repeated(' '),
  slashes: repeated('18/'),
  codes: repeated('18/16/13 '),
  signs: repeated('>=-<*'),
  numbers: list(20_000, (i) => i),
  nothing: list(25_000, () => null),
  objects: list(8_000, (i) => ({ time: i })),
  members: members(8_000, (i) => `m${i}`),
  sizes: members(8_000, (i) => `${i + 1}`),
};

type Holder = Record<string, unknown>;
const open = (value: unknown): value is Holder =>
  typeof value === 'object' && value !== null && !handedBack.includes(value) && !('perVolumeMl' in value);

/** The places of an input, as paths, down to the fourth level. */
function placesIn(value: unknown, path: readonly string[] = []): string[][] {
  if (!open(value) || path.length === 4) return [];
  return Object.entries(value)
    .slice(0, 12)
    .flatMap(([name, member]) => [[...path, name], ...placesIn(member, [...path, name])]);
}

function replaced(value: unknown, [name, ...rest]: readonly string[], by: unknown): unknown {
  if (name === undefined) return by;
  const copy = (Array.isArray(value) ? [...value] : { ...(value as Holder) }) as Holder;
  copy[name] = replaced(copy[name], rest, by);
  return copy;
}

function milliseconds(run: () => void): number {
  let least = Infinity;
  for (let i = 0; i < 3 && least > 1; i += 1) {
    const began = performance.now();
    run();
    least = Math.min(least, performance.now() - began);
  }
  return least;
}

const taken: { readonly name: string; readonly ms: number; readonly where: string }[] = [];
const isStatistics = (name: string) => name in trend && !/^(advance|resume|prepare|start)/.test(name);
const tried = calls.filter(([name]) => !isStatistics(name));
for (const [name, call, inputs] of tried) {
  for (const place of placesIn(inputs)) {
    for (const [kind, value] of Object.entries(large)) {
      const hostile = replaced([...inputs], place, value) as unknown[];
      const ms = milliseconds(() => {
        try {
          (call as (...all: unknown[]) => unknown)(...hostile);
        } catch {
          // refused, as it should be; how long that took is what counts
        }
      });
      taken.push({ name, ms, where: `${kind} at ${place.join('.')}` });
    }
  }
}

taken.sort((a, b) => b.ms - a.ms);
console.log(`${taken.length} calls of ${tried.length} functions with ${bytes} bytes in one place; the slowest:`);
for (const { name, ms, where } of taken.slice(0, 10)) console.log(`${ms.toFixed(1)} ms  ${name}: ${where}`);
const slow = taken.filter(({ ms }) => ms > limit);
console.log(`${slow.length} took more than ${limit} ms`);
process.exit(slow.length === 0 ? 0 : 1);
