/**
 * A misspelt member is refused, everywhere: for each public function that takes an object one valid call, and a member
 * `zzz` added to every object in its inputs, one after the other.
 *
 * Left alone are class tables, for which `classTable` answers, states and results handed back whole, and records whose
 * keys are the caller's own.
 */
import { describe, expect, test } from 'vitest';
import * as exact from '../../src/exact/index.ts';
import * as motescale from '../../src/index.ts';
import * as schema from '../../src/schema/index.ts';
import { calls, handedBack } from './misspelt/calls.ts';
import { withoutObjects } from './misspelt/withoutObjects.ts';

/** Members whose keys are the caller's own: sizes, and names of standards. */
const ownKeys = ['at', 'codes', 'from'];

/** All objects in an input but tables and states, by their paths; arrays are walked through. */
function objectsIn(value: unknown, path: string): string[] {
  if (typeof value !== 'object' || value === null || handedBack.includes(value)) return [];
  if (Array.isArray(value)) return value.flatMap((element, i) => objectsIn(element, `${path}[${i}]`));
  if (('perVolumeMl' in value && 'source' in value) || 'version' in value) return [];
  const below = Object.entries(value).flatMap(([key, member]) =>
    ownKeys.includes(key) && !Array.isArray(member) ? [] : objectsIn(member, `${path}.${key}`),
  );
  return [path, ...below];
}

/** A copy with one member more at the path. */
function withMember(value: unknown, path: string, at: string): unknown {
  if (at === path) return { ...(value as object), zzz: 1 };
  if (typeof value !== 'object' || value === null || !path.startsWith(at)) return value;
  if (Array.isArray(value)) return value.map((element, i) => withMember(element, path, `${at}[${i}]`));
  return Object.fromEntries(Object.entries(value).map(([key, of]) => [key, withMember(of, path, `${at}.${key}`)]));
}

/**
 * How a call ends: refused for the member `zzz`, or for a state that is none; another error; none. `advanceUnit`
 * refuses a payload by an event, which names the member.
 */
function outcome(call: () => unknown): string {
  try {
    const { outcome: end, events } = Object(call());
    return end === 'rejected' && /\bzzz$/.test(events[0].parameter) ? 'refused' : 'accepted';
  } catch (error) {
    if (!motescale.isMotescaleError(error)) return `another error: ${error}`;
    const { code, parameter, received, message } = error;
    const problems = JSON.stringify((error as { problems?: unknown }).problems ?? []);
    // a member of the caller's own input is named with the input it stands in
    if (parameter.endsWith('.zzz') && !/^[a-z]\w*[.[]/i.test(parameter)) return `named without its input: ${parameter}`;
    if (code === 'bad_state' || [parameter, received, problems].some((text) => text.includes('zzz'))) return 'refused';
    return `${code}: ${message}`;
  }
}

describe.each(calls)('$0', (name, call, inputs) => {
  const paths = inputs.flatMap((input, i) => objectsIn(input, `${name}(${i})`));

  test('the call itself is a valid one', () => {
    expect(paths.length, 'no object in the inputs').toBeGreaterThan(0);
    expect(outcome(() => (call as (...all: unknown[]) => unknown)(...inputs))).toBe('accepted');
  });

  test.each(paths)('%s', (path) => {
    const spoilt = inputs.map((input, i) => withMember(input, path, `${name}(${i})`));
    expect(outcome(() => (call as (...all: unknown[]) => unknown)(...spoilt))).toBe('refused');
  });
});

test('every public function is called here, or takes no object of its own', () => {
  const functions = [motescale, exact, schema].flatMap((entry) =>
    Object.entries(entry).flatMap(([name, value]) => (typeof value === 'function' ? [name] : [])),
  );
  const known = [...calls.map(([name]) => name), ...withoutObjects];
  expect(
    functions.filter((name) => !known.includes(name)),
    'give each a call in misspelt/calls.ts',
  ).toEqual([]);
  expect(known.filter((name) => !functions.includes(name))).toEqual([]);
});
