/** Runs the same calls through two libraries and lists where they end otherwise. */
import type { Face } from './adapter.ts';

/** How one call ended. */
export interface Ending {
  readonly name: string;
  readonly inputs: readonly unknown[];
  /** The result, or the error by its code and the parameter it names. */
  readonly result: unknown;
}

/** One place where two endings differ. */
export interface Difference {
  readonly name: string;
  readonly inputs: readonly unknown[];
  /** Those of today: what a library made itself, such as a state, may differ already. */
  readonly inputsAfter: readonly unknown[];
  /** From the result on: `.columns[2].lowest`; empty for the whole. */
  readonly path: string;
  readonly before: unknown;
  readonly after: unknown;
  /** The two results as a whole. */
  readonly endBefore: unknown;
  readonly endAfter: unknown;
}

/** An error, as far as it is compared: its sentence is for people. */
export interface Thrown {
  readonly error: string;
  readonly parameter: string;
}

export const isThrown = (result: unknown): result is Thrown =>
  typeof result === 'object' && result !== null && 'error' in result && 'parameter' in result;

/** What becomes of all calls that a walk makes. */
export function endings(library: Face, walk: (library: Face) => void): Ending[] {
  const all: Ending[] = [];
  const watched = Object.entries(library).map(([name, member]) => {
    if (typeof member !== 'function') return [name, member];
    const call = (...inputs: unknown[]) => {
      try {
        const result: unknown = member(...inputs);
        all.push({ name, inputs, result });
        return result;
      } catch (thrown) {
        const { code, parameter, message } = thrown as { code?: string; parameter?: string; message: string };
        all.push({ name, inputs, result: { error: code ?? message, parameter: parameter ?? 'none' } });
        return undefined;
      }
    };
    return [name, call];
  });
  walk(Object.fromEntries(watched));
  return all;
}

/** All places where two endings of the same call differ. */
export function differencesOf(before: Ending, after: Ending): Difference[] {
  const found: Difference[] = [];
  const { name, inputs } = before;
  const ends = { endBefore: before.result, endAfter: after.result, inputsAfter: after.inputs };
  const visit = (a: unknown, b: unknown, path: string): void => {
    if (Object.is(a, b)) return;
    if (typeof a === 'object' && typeof b === 'object' && a !== null && b !== null && isThrown(a) === isThrown(b)) {
      if (/\.(events|findings)$/.test(path) && Array.isArray(a) && Array.isArray(b)) {
        for (const [i, j] of aligned(a, b)) {
          const [was, is] = [i === null ? undefined : a[i], j === null ? undefined : b[j]];
          visit(was, is, was === undefined || is === undefined ? `${path}[+]` : `${path}[${i}]`);
        }
        return;
      }
      if (Array.isArray(a) === Array.isArray(b)) {
        const keys = new Set([...Object.keys(a), ...Object.keys(b)]);
        if (Array.isArray(a) && a.length !== (b as unknown[]).length) keys.add('length');
        for (const key of keys) {
          const below = Array.isArray(a) ? `[${key}]` : `.${key}`;
          visit((a as Record<string, unknown>)[key], (b as Record<string, unknown>)[key], path + below);
        }
        return;
      }
    }
    found.push({ name, inputs, path, before: a, after: b, ...ends });
  };
  visit(before.result, after.result, '');
  return found;
}

/** What an event or a finding is about: two of the same name are held against each other. */
const nameOf = (one: Readonly<Record<string, unknown>>): string =>
  [one.event ?? one.code, one.alarm, one.followed].map(String).join();

type Named = readonly Readonly<Record<string, unknown>>[];

/** The places of two lists side by side, as many of the same name as keep their order; null where one list has none. */
function aligned(a: Named, b: Named): (readonly [number | null, number | null])[] {
  const [i, j] = [a.length - 1, b.length - 1];
  if (i < 0) return b.map((_one, k) => [null, k]);
  if (j < 0) return a.map((_one, k) => [k, null]);
  const both = nameOf(a[i] as Named[0]) === nameOf(b[j] as Named[0]);
  if (both) return [...aligned(a.slice(0, -1), b.slice(0, -1)), [i, j]];
  const [without, with_] = [aligned(a.slice(0, -1), b), aligned(a, b.slice(0, -1))];
  const pairs = (list: typeof without) => list.filter(([x, y]) => x !== null && y !== null).length;
  return pairs(without) >= pairs(with_) ? [...without, [i, null]] : [...with_, [null, j]];
}
