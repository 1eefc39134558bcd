/**
 * What each input may be, and what each function says where it may not: of one valid call of every function, each
 * member in turn is left out and replaced by values of other kinds, and of each number the bounds are searched, to the
 * last double that is accepted. What is found is compared, word by word, with the files of refusals/.
 *
 * MOTESCALE_WRITE=1 writes those files anew, to be read before they are committed.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import * as acceptance from '../../src/acceptance/index.ts';
import * as alarm from '../../src/alarm/index.ts';
import * as codes from '../../src/codes/index.ts';
import * as counts from '../../src/counts/index.ts';
import { isMotescaleError, problemsOf } from '../../src/errors.ts';
import * as exact from '../../src/exact/index.ts';
import * as filtration from '../../src/filtration/index.ts';
import * as history from '../../src/history/index.ts';
import * as monitor from '../../src/monitor/index.ts';
import * as reading from '../../src/reading/index.ts';
import * as sampling from '../../src/sampling/index.ts';
import * as trend from '../../src/trend/index.ts';
import { version } from '../../src/version.ts';
import * as viscosity from '../../src/viscosity/index.ts';
import * as water from '../../src/water/index.ts';
import { type Call, calls, handedBack } from '../house/misspelt/calls.ts';
import { plainCalls } from './refusals/plainCalls.ts';

const folders: Readonly<Record<string, object>> = {
  acceptance,
  alarm,
  codes,
  counts,
  exact,
  filtration,
  history,
  monitor,
  reading,
  sampling,
  trend,
  viscosity,
  water,
};
/** Where a call takes milliseconds, its numbers are not searched for their bounds: those are held by others. */
const slow = ['prepareMonitor', 'advanceMonitor', 'advanceUnit'];
/** What each entry holds. */
const common: readonly unknown[] = [isMotescaleError, problemsOf];
const writes = process.env.MOTESCALE_WRITE === '1';

/** Stands for a member that is left out. */
const absent = Symbol('left out');
const otherKinds: readonly (readonly [string, unknown])[] = [
  ['left out', absent],
  ['null', null],
  ['true', true],
  ['NaN', Number.NaN],
  ['Infinity', Infinity],
  ['5n', 5n],
  ["''", ''],
  ["'x'", 'x'],
  ['[]', []],
  ['{}', {}],
];

type Step = string | number;

/**
 * The ways to all values in an input but those in tables, in what was prepared and in states, unless `states` are what
 * a function takes from outside; of a long list the first two.
 */
function pathsIn(value: unknown, path: readonly Step[], states: boolean): (readonly Step[])[] {
  if (typeof value !== 'object' || value === null || handedBack.includes(value) || ArrayBuffer.isView(value))
    return [path];
  if (('perVolumeMl' in value && 'source' in value) || 'prepared' in value || ('version' in value && !states))
    return [path];
  const keys: Step[] = Array.isArray(value) ? [0, 1].filter((i) => i in value) : Object.keys(value);
  return [path, ...keys.flatMap((key) => pathsIn((value as Record<Step, unknown>)[key], [...path, key], states))];
}

function valueAt(value: unknown, path: readonly Step[]): unknown {
  return path.reduce((within, key) => (within as Record<Step, unknown>)[key], value);
}

/** A copy with another value at the end of the path. */
function replaced(value: unknown, [key, ...rest]: readonly Step[], by: unknown): unknown {
  if (key === undefined) return by;
  const copy: Record<Step, unknown> = Array.isArray(value) ? Object.assign([], value) : Object.assign({}, value);
  const next = replaced(copy[key], rest, by);
  if (next === absent && Array.isArray(value)) copy[key] = undefined;
  else if (next === absent) delete copy[key];
  else copy[key] = next;
  return copy;
}

/** How a call ends, in words. */
function outcomeOf([, call, inputs]: Call, path: readonly Step[], value: unknown): string {
  const all = replaced(inputs, path, value) as unknown[];
  try {
    (call as (...given: unknown[]) => unknown)(...all.map((one) => (one === absent ? undefined : one)));
    return 'accepted';
  } catch (error) {
    if (!isMotescaleError(error)) return `not ours: ${error}`;
    const { code, parameter, expected, position, problems } = error;
    const at = position === undefined ? '' : ` at position ${position}`;
    const each = (problems ?? []).map((one) => `; ${one.code} ${one.path.join('.')}: ${one.expected}`).join('');
    return `${code} ${parameter}${at}: ${expected}${each}`.replace(version, 'x.y.z');
  }
}

const view = new DataView(new ArrayBuffer(8));
/** Doubles in their order, as whole numbers one apart. */
function placeOf(value: number): bigint {
  view.setFloat64(0, value);
  const bits = view.getBigInt64(0);
  return bits < 0n ? -(bits & 0x7fffffffffffffffn) : bits;
}
function doubleAt(place: bigint): number {
  view.setBigInt64(0, place < 0n ? -place | -0x8000000000000000n : place);
  return view.getFloat64(0);
}

/** The last double accepted on the way from one that is to the end of all, and what is said of the next. */
function boundOf(call: Call, path: readonly Step[], from: number, end: number): [bound: string, outcome: string] {
  const outcome = (value: number) => outcomeOf(call, path, value);
  const whole = outcome(from + 0.5).startsWith('not_an_integer');
  const [last, valueFrom, place] = whole ? [end / 1e290, Number, BigInt] : [end, doubleAt, placeOf];
  const said = outcome(last);
  if (said === 'accepted') return ['any number', ''];
  const step = end < 0 ? -1n : 1n;
  const ends = (good: bigint) => {
    const beyond = outcome(valueFrom(good + step));
    return beyond !== 'accepted' && outcome(valueFrom(good)) === 'accepted' ? beyond : null;
  };
  // most bounds are told
  for (const told of said.match(/-?\d[\d.]*(e[+-]?\d+)?/g) ?? []) {
    if (whole && !Number.isInteger(Number(told))) continue;
    const beyond = ends(place(Number(told)));
    if (beyond !== null) return [told, beyond];
  }
  let [good, bad] = [place(from), place(last)];
  while (bad - good !== step) {
    const middle = (good + bad) / 2n;
    if (outcome(valueFrom(middle)) === 'accepted') good = middle;
    else bad = middle;
  }
  return [`${valueFrom(good)}`, outcome(valueFrom(bad))];
}

/** All that is said of the inputs of a call. */
function linesOf(call: Call): string[] {
  const [name, , inputs] = call;
  const lines = [`## ${name}`];
  const states = name.startsWith('resume');
  for (const path of inputs.flatMap((input, i) => pathsIn(input, [i], states))) {
    const said = new Map<string, string[]>();
    for (const [word, value] of otherKinds) {
      const outcome = outcomeOf(call, path, value);
      said.set(outcome, [...(said.get(outcome) ?? []), word]);
    }
    lines.push(path.join('.'));
    let before = '';
    const say = (what: string, outcome: string) => {
      const [code, ...words] = outcome.split(' ');
      const told = words.join(' ');
      lines.push(`  ${what}: ${told !== '' && told === before ? `${code}, the same` : outcome}`);
      before = told || before;
    };
    for (const [outcome, words] of said) say(words.join(', '), outcome);
    const value = valueAt(inputs, path);
    if (typeof value !== 'number' || slow.includes(name)) continue;
    for (const [way, end] of [
      ['from', -1e306],
      ['to', 1e306],
    ] as const) {
      const [bound, outcome] = boundOf(call, path, value, end);
      if (outcome === '') lines.push(`  ${way} ${bound}`);
      else say(`${way} ${bound}, beyond`, outcome);
    }
  }
  return lines;
}

describe.each(Object.keys(folders))('%s', (folder) => {
  const file = `tests/inputs/refusals/${folder}.txt`;
  const members = Object.values(folders[folder] as object);
  const own = [...calls, ...plainCalls].filter(([, call]) => members.includes(call));
  const stored = (writes ? '' : readFileSync(file, 'utf8')).split(/\n(?=## )/);
  const found: string[] = [];

  test.each(own.map((call, i) => [call[0], call, i] as const))('%s', (_name, call, i) => {
    expect(outcomeOf(call, [], call[2])).toBe('accepted');
    const text = linesOf(call).join('\n');
    expect(text).not.toContain('not ours');
    found.push(text);
    if (!writes) expect(`${text}\n`.split('\n')).toEqual(`${stored[i]?.trimEnd()}\n`.split('\n'));
  });

  test('each function has a call, and each call is one of a function', () => {
    const called = own.map(([, call]) => call);
    const functions = members.filter((member) => typeof member === 'function' && !common.includes(member));
    expect(functions.filter((member) => !called.includes(member))).toEqual([]);
    if (writes) writeFileSync(file, `${found.join('\n')}\n`);
    else expect(stored.length).toBe(own.length);
  });
});
