/**
 * The library of today against 0.1.0: the same inputs through both, and every difference is one of `allowed.ts`, whose
 * reason stands in docs/changelog.md. All else is equal to the last bit.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import * as library from '../../src/index.ts';
import { some } from '../volume.ts';
import { type Face, faceOfThen } from './adapter.ts';
import { allowed } from './allowed.ts';
import { type Difference, differencesOf, type Ending, endings } from './compare.ts';
import { library1 as then } from './library1.ts';
import { randomWalks } from './random.ts';
import { recordedWalk } from './recorded.ts';

const folder = new URL('./0.1.0/', import.meta.url);
const now = faceOfThen(library, then);
const { walks } = (await import(new URL('walk.js', folder).href)) as {
  walks: Record<string, (library: Face) => void>;
};
const used = new Map(allowed.map(({ reason }) => [reason, 0]));

function shown(value: unknown): string {
  const text =
    JSON.stringify(value, (_key, member) =>
      typeof member === 'object' && member !== null && 'perVolumeMl' in member ? `table ${member.id}` : member,
    ) ?? String(value);
  return text.length > 300 ? `${text.slice(0, 300)}...` : text;
}

/** The differences that nothing allows, as lines. */
function unexplained(differences: readonly Difference[]): string[] {
  const lines: string[] = [];
  for (const difference of differences) {
    const rule = allowed.find(({ covers }) => covers(difference));
    if (rule !== undefined) used.set(rule.reason, (used.get(rule.reason) as number) + 1);
    else {
      const { name, path, inputs } = difference;
      lines.push(
        `${name}${path}: ${shown(difference.before)} then, ${shown(difference.after)} now, of ${shown(inputs)}`,
      );
    }
  }
  return lines;
}

function compare(walk: (face: Face) => void): string[] {
  const [before, after] = [endings(then, walk), endings(now, walk)] as const;
  expect(before.length).toBeGreaterThan(50);
  const names = (list: readonly Ending[]) => list.map(({ name }) => name).join(' ');
  expect(names(after) === names(before), 'the same calls in the same order').toBe(true);
  return unexplained(before.flatMap((ending, i) => differencesOf(ending, after[i] as Ending)));
}

/** No difference but the allowed ones; else the first of them. */
function expectNone(lines: readonly string[]): void {
  if (lines.length > 0) expect.fail(`${lines.length} differences\n${lines.slice(0, 20).join('\n')}`);
}

describe('the walk through all functions, as it was', () => {
  test.each(Object.keys(walks))('%s', (part) => expectNone(compare(walks[part] as (face: Face) => void)));
});

describe('random inputs', () => {
  test.each(Object.keys(randomWalks))('%s', (part) =>
    expectNone(compare((face) => randomWalks[part]?.(face, some(2000, 500)))),
  );
});

test('recorded readings: a month of the lock gates', () => expectNone(compare(recordedWalk)));

describe('what may differ', () => {
  const changelog = readFileSync(new URL('../../docs/changelog.md', import.meta.url), 'utf8').replace(/\s+/g, ' ');

  test.each(allowed.map(({ reason }) => reason))('%s', (reason) => {
    expect(changelog).toContain(reason);
    expect(used.get(reason), 'differs no longer: take it off the list').toBeGreaterThan(0);
  });
});

test('a difference in the last bit is found, and so is another word or a member more', () => {
  const spoilt = (change: (result: Record<string, unknown>) => unknown) =>
    ({
      ...now,
      countAt: (...inputs: unknown[]) =>
        change((now.countAt as (...all: unknown[]) => Record<string, unknown>)(...inputs)),
    }) as Face;
  const found = (face: Face) => {
    const walk = walks.counts as (face: Face) => void;
    const [before, after] = [endings(now, walk), endings(face, walk)] as const;
    return before.flatMap((ending, i) => differencesOf(ending, after[i] as Ending)).length;
  };
  expect(found(now)).toBe(0);
  expect(found(spoilt((result) => ({ ...result, perMl: (result.perMl as number) * (1 + 2 ** -52) })))).toBeGreaterThan(
    100,
  );
  expect(found(spoilt((result) => ({ ...result, zzz: null })))).toBeGreaterThan(100);
});
