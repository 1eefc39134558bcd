/** Rules as data: what passes, what is refused, and where. */
import { describe, expect, test } from 'vitest';
import { type Problem, parameterAt, problemsOf, throwProblems } from '../../src/errors.ts';
import { checkRule } from '../../src/rules/check.ts';
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
] as [Rule, string][])('%j in words', (rule, text) => {
  expect(expectedOf(rule)).toBe(text);
});
