/**
 * Targets that no sample can have. Of cumulative counts a larger size never has more particles than a smaller one, so
 * that a code of ISO 4406 is that of some sample exactly where no number is above one before it (ISO 4406:2021, Table
 * 1: each class begins where the one below it ends).
 */
import { expect, test } from 'vitest';
import { prepareAcceptance } from '../../../src/acceptance/index.ts';
import { type ClassTable, iso4406, nas1638 } from '../../../src/codes/index.ts';
import { problemsOf } from '../../../src/index.ts';

const numbers = ['0', '1', '2', '13', '14', '27', '28'];
const asked = [...numbers, '-'];

function refused(target: string, table: ClassTable = iso4406, columns?: readonly string[]): string {
  try {
    prepareAcceptance({ table, target, readings: 3, ...(columns === undefined ? {} : { columns }) });
  } catch (error) {
    const problems = problemsOf(error).map(({ code, path, expected }) => `${code} ${path.join('.')}: ${expected}`);
    return problems.join('; ') || String(error);
  }
  return '';
}
const impossible = 'bad_code target: a code that some sample can have';

test('of all codes of three numbers those that rise are refused, once each, whatever lies between', () => {
  for (const one of asked)
    for (const two of asked)
      for (const three of asked) {
        const target = `${one}/${two}/${three}`;
        const known = [one, two, three].filter((part) => part !== '-').map(Number);
        if (known.length === 0) continue;
        const rises = known.some((part, i) => i > 0 && part > (known[i - 1] as number));
        expect(refused(target), target).toBe(rises ? impossible : '');
      }
});

test('sizes that are not judged are not asked, and counts between two sizes may rise', () => {
  expect(refused('13/16/18', iso4406, ['14'])).toBe('');
  expect(refused('13/16/14', iso4406, ['4', '14'])).toBe(impossible);
  expect(refused('12', nas1638)).toBe('');
});

test('a class that has no limit at a size allows any count there', () => {
  const own: ClassTable = {
    ...iso4406,
    ...{ id: 'own', classes: ['0', '1', '2'] },
    limits: [
      [10, 10, 10],
      [null, 20, 20],
      [null, 40, 40],
    ],
  };
  expect(['1/2/2', '0/2/1', '2/1/2', '1/0/1', '0/1/1'].map((target) => refused(target, own))).toEqual([
    ...['', impossible, impossible, impossible, impossible],
  ]);
});

test('a size in another sizing than the usual one of the table is not compared, nor what lies between two', () => {
  const [first, , last] = iso4406.columns;
  const columns = [first, { label: '5', from: { iso4402: 5 } }, last] as ClassTable['columns'];
  const mixed: ClassTable = { ...iso4406, id: 'mixed', columns };
  expect(['13/16/13', '16/13/14', '13/16/14'].map((target) => refused(target, mixed))).toEqual(['', '', impossible]);
  const between: ClassTable = {
    ...{ ...iso4406, id: 'between', counting: 'differential' },
    columns: [4, 6, 14].map((from, i) => ({
      ...{ label: `${from}`, from: { iso11171: from } },
      ...(i < 2 ? { to: { iso11171: [6, 14][i] as number } } : {}),
    })),
  };
  expect(refused('13/16/18', between)).toBe('');
});
