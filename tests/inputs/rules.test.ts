/** Rules as data: what passes, what is refused, and where. */
import { describe, expect, test } from 'vitest';
import { type Problem, parameterAt, problemsOf, throwProblems } from '../../src/errors.ts';
import { checkRule } from '../../src/rules/check.ts';
import { holds } from '../../src/rules/holds.ts';
import type { Rule } from '../../src/rules/rule.ts';
import { expectedOf } from '../../src/rules/words.ts';

const pump: Rule = {
  kind: 'object',
  members: {
    id: { kind: 'text', longest: 64, expected: 'a name' },
    litresPerMin: { kind: 'number', above: 0, most: 1e6, expected: 'a flow in L/min' },
    kind: { kind: 'word', words: ['gear', 'screw'] },
    stages: { kind: 'number', whole: true, least: 1, most: 9, optional: true },
    duty: { kind: 'flag', nullable: true },
    sizes: { kind: 'list', of: { kind: 'number', least: 0 }, longest: 3, optional: true },
    others: { kind: 'record', of: { kind: 'number' }, longest: 2, optional: true },
  },
};
const sound = { id: 'lower gate', litresPerMin: 40, kind: 'gear', duty: null };

function problemsIn(value: unknown): Problem[] {
  const problems: Problem[] = [];
  expect(checkRule(pump, value, [], problems)).toBe(problems.length === 0);
  return problems;
}

test.each([[sound], [{ ...sound, stages: undefined, sizes: [0, 1], others: { litres: 3 } }]])('%j passes', (value) => {
  expect(problemsIn(value)).toEqual([]);
});

describe.each([
  ['no object', 7, [], 'wrong_type'],
  ['a list', [], [], 'wrong_type'],
  ['a missing member', { ...sound, id: undefined }, ['id'], 'wrong_type'],
  ['an empty text', { ...sound, id: '' }, ['id'], 'empty'],
  ['a long text', { ...sound, id: 'x'.repeat(65) }, ['id'], 'out_of_range'],
  ['a misspelt member', { ...sound, stagse: 1 }, ['stagse'], 'unknown_option'],
  ['a member of what an object inherits', { ...sound, constructor: 1 }, ['constructor'], 'unknown_option'],
  ['NaN', { ...sound, litresPerMin: Number.NaN }, ['litresPerMin'], 'not_a_number'],
  ['an endless number', { ...sound, litresPerMin: Infinity }, ['litresPerMin'], 'infinite'],
  ['a negative number', { ...sound, litresPerMin: -1 }, ['litresPerMin'], 'negative'],
  ['a number on an open bound', { ...sound, litresPerMin: 0 }, ['litresPerMin'], 'out_of_range'],
  ['a number above', { ...sound, litresPerMin: 2e6 }, ['litresPerMin'], 'out_of_range'],
  ['part of a whole', { ...sound, stages: 1.5 }, ['stages'], 'not_an_integer'],
  ['a number as text', { ...sound, stages: '1' }, ['stages'], 'wrong_type'],
  ['another word', { ...sound, kind: 'vane' }, ['kind'], 'unknown_option'],
  ['no flag', { ...sound, duty: 1 }, ['duty'], 'wrong_type'],
  ['an element', { ...sound, sizes: [1, -1] }, ['sizes', 1], 'negative'],
  ['a hole', { ...sound, sizes: new Array(2) }, ['sizes', 0], 'wrong_type'],
  ['an empty list', { ...sound, sizes: [] }, ['sizes'], 'empty'],
  ['a long list', { ...sound, sizes: new Array(1e6) }, ['sizes'], 'out_of_range'],
  ['a wide record', { ...sound, others: { a: 1, b: 2, c: 3 } }, ['others'], 'out_of_range'],
  ['a record under __proto__', JSON.parse('{"others":{"__proto__":1}}'), ['others', '__proto__'], 'unknown_option'],
])('%s', (_what, value, path, code) => {
  test(`is ${code}`, () => {
    expect(problemsIn(value)).toContainEqual(expect.objectContaining({ path, code }));
  });
});

test('all mistakes are named at once', () => {
  const problems = problemsIn({ id: 7, litresPerMin: -1, kind: 'vane', duty: 'yes', more: 1 });
  expect(problems.map(({ path }) => parameterAt('pump', path))).toEqual([
    'pump.more',
    'pump.id',
    'pump.litresPerMin',
    'pump.kind',
    'pump.duty',
  ]);
  expect(() => throwProblems('bad_configuration', 'pump', {}, problems)).toThrow(/^5 mistakes: pump\.more: received/);
  try {
    throwProblems('bad_configuration', 'pump', {}, problems);
  } catch (error) {
    expect(problemsOf(error)).toBe(problems);
  }
  expect(problemsOf(new Error('other'))).toEqual([]);
});

test.each([
  [{ kind: 'number', least: 0, most: 2, expected: 'a share' }, 'a share from 0 to 2'],
  [{ kind: 'number', above: 0 }, 'a finite number, above 0'],
  [{ kind: 'number', above: 0, most: 5 }, 'a finite number, above 0, up to 5'],
  [{ kind: 'number', whole: true, least: 1, nullable: true }, 'a whole number, 1 or more, or null'],
  [{ kind: 'text', longest: 64, expected: 'a name' }, 'a name of 1 to 64 characters'],
  [{ kind: 'word', words: ['high', 'low'] }, "one of 'high', 'low'"],
  [{ kind: 'word', words: ['high'] }, "'high'"],
  [{ kind: 'word', words: ['high'], expected: 'the only kind' }, "'high' (the only kind)"],
  [{ kind: 'word', words: ['high', 'low'], expected: 'a kind' }, "a kind, one of 'high', 'low'"],
  [{ kind: 'number', least: 2, most: 2 }, '2'],
  [{ kind: 'number', least: 2, most: 2, expected: 'the version' }, 'the version: 2'],
  [{ kind: 'number', among: [1, 2], expected: 'a version' }, 'a version, one of 1, 2'],
  [{ kind: 'number', least: 0, below: 1 }, 'a finite number from 0, below 1'],
  [{ kind: 'number', most: 5 }, 'a finite number, up to 5'],
  [{ kind: 'number', below: 5 }, 'a finite number, below 5'],
  [{ kind: 'number' }, 'a finite number'],
  [{ kind: 'text' }, 'a text'],
  [{ kind: 'text', shortest: 0, longest: 9 }, 'a text of 0 to 9 characters'],
  [{ kind: 'flag', nullable: true }, 'true or false, or null'],
  [{ kind: 'list', of: { kind: 'flag' }, longest: 3 }, 'an array, 1 to 3 of them'],
  [{ kind: 'list', of: { kind: 'flag' }, shortest: 0, longest: 3, expected: 'flags' }, 'flags, 0 to 3 of them'],
  [{ kind: 'record', of: { kind: 'flag' }, longest: 3 }, 'an object, at most 3 of them'],
  [{ kind: 'object', members: { a: { kind: 'flag' }, b: { kind: 'flag' } } }, 'an object { a, b }'],
] as [Rule, string][])('%j in words', (rule, text) => {
  expect(expectedOf(rule)).toBe(text);
});

test('a member that may be left out may be undefined in a record too', () => {
  const rule: Rule = { kind: 'record', of: { kind: 'flag', optional: true }, longest: 2 };
  const problems: Problem[] = [];
  expect(checkRule(rule, { a: undefined, b: 1 }, [], problems)).toBe(false);
  expect(problems.map(({ path }) => path)).toEqual([['b']]);
});

describe('of very many mistakes the first thousand and one are told', () => {
  const many = Array.from({ length: 3000 }, (_x, i) => `n${i}`);
  const named = Object.fromEntries(many.map((name) => [name, 'no number']));
  const number: Rule = { kind: 'number' };

  test.each<[string, Rule, unknown]>([
    ['in a list', { kind: 'list', of: number, longest: 5000 }, many],
    ['in names of no member', { kind: 'object', members: { id: number } }, named],
    ['in names of a record', { kind: 'record', of: number, longest: 5000, names: ['id'] }, named],
  ])('%s', (_where, rule, value) => {
    const problems: Problem[] = [];
    expect(checkRule(rule, value, [], problems)).toBe(false);
    expect(problems).toHaveLength(1001);
  });
});

test('of a member, nothing is guessed from a name that no one types', () => {
  const problems: Problem[] = [];
  const name = `stagesstages${'s'.repeat(29)}`;
  const rule: Rule = { kind: 'object', members: { [name]: { kind: 'flag', optional: true } } };
  checkRule(rule, { [name.slice(0, -1)]: true, [`${name}s`]: true }, [], problems);
  expect(problems.map(({ expected }) => expected.slice(0, 20))).toEqual([
    `'${name.slice(0, 19)}`,
    'one of the members s',
  ]);
});

test('a rule made of one that has been asked has its own members', () => {
  const number = { kind: 'number' } as const;
  const narrow = { kind: 'object', members: { a: number } } as const;
  expect(holds(narrow, { a: 1 })).toBe(true);
  const wide = { ...narrow, members: { a: number, b: number } };
  expect(holds(wide, { a: 1 })).toBe(false);
  expect(holds(wide, { a: 1, b: 2 })).toBe(true);
  expect(holds({ ...wide, members: { a: number } }, { a: 1 })).toBe(true);
});
