/** Signs between thousands are read where the decimal sign was given, and nowhere else. */
import { describe, expect, test } from 'vitest';
import { csvColumns, type Problem, parseCsv, toCsv } from '../../src/report/index.ts';

type Sign = '.' | ',';
const read = (cell: string, decimal: Sign, separator: ';' | '\t' = ';') =>
  parseCsv(`a${separator}b\n${cell}${separator}1\n`, { separator, decimal }).rows[0]?.[0];

describe('where decimal is given', () => {
  test.each<[string, Sign, number]>([
    ['1.234,5', ',', 1234.5],
    ['1.234', ',', 1234],
    ['-1.234.567,25', ',', -1234567.25],
    ['1 234,5', ',', 1234.5],
    ['1\u00A0234', ',', 1234],
    ['1\u202F234\u202F567', ',', 1234567],
    ["1'234,5", ',', 1234.5],
    ['1,234.5', '.', 1234.5],
    ['1,234', '.', 1234],
    ['12 885', '.', 12885],
    ["12'885.5", '.', 12885.5],
    ['12\u2019885', '.', 12885],
  ])('%j with %s is %d', (cell, decimal, number) => {
    expect([read(cell, decimal), read(cell, decimal, '\t')]).toEqual([number, number]);
  });

  test.each<[string, Sign]>([
    ['1.23', ','],
    ['0.125', ','],
    ['1234.567', ','],
    ['1.234.56', ','],
    ['1.2345', ','],
    ['1.234,5,6', ','],
    ['1.234,', ','],
    ['1.234.', ','],
    ['1,234.567', ','],
    ['1.234 567', ','],
    ["1 234'567", ','],
    ['01.234', ','],
    ['.234', ','],
    ['1.234 mL', ','],
    ['<1.234', ','],
    ['1.234E3', ','],
    ['9.007.199.254.740.993', ','],
    ['41,5', '.'],
    ['1,234,5', '.'],
    ['1  234', '.'],
    ['18/16/13', '.'],
    ['"1.234"', ','],
    ['"1 234"', '.'],
    ['"1,234"', '.'],
  ])('%j with %s stays text', (cell, decimal) => {
    expect(read(cell, decimal)).toBe(cell.replace(/"/g, ''));
  });

  test('a column where the sign stands otherwise too has none of thousands; others do', () => {
    const file = 't;4;T\n1;1.234;1.234\n2;1.23;2.345\n3;1 234;12\n';
    expect(parseCsv(file, { separator: ';', decimal: ',' }).rows).toEqual([
      [1, '1.234', 1234],
      [2, '1.23', 2345],
      [3, 1234, 12],
    ]);
    const both = parseCsv('t;4\n1;1.234\n2;1,234.5\n', { separator: ';', decimal: ',' });
    expect(both.rows).toEqual([
      [1, '1.234'],
      [2, '1,234.5'],
    ]);
    expect(parseCsv('4;t\n1,234;1\n41,5;2\n1 234;3\n', { separator: ';', decimal: '.' }).rows).toEqual([
      ['1,234', 1],
      ['41,5', 2],
      [1234, 3],
    ]);
    const mixed = parseCsv('t;4\n1;1,234\n2;41,5\n3;12\n', { separator: ';', decimal: '.', keepReadable: true });
    const told: Problem[] = [];
    csvColumns(mixed, told, { keepReadable: true });
    expect(told.map(({ line, column, received }) => `${line} ${column} ${received}`)).toEqual([
      "2 4 '1,234'",
      "3 4 '41,5'",
    ]);
  });

  test('between commas the quotes that thousands need make no text of them, unless the guard is turned down', () => {
    const file = 't,4\n1,"12,885"\n2,"1,234.5"\n3,"7"\n4,900\n';
    const numbers = [
      [1, 12885],
      [2, 1234.5],
      [3, '7'],
      [4, 900],
    ];
    expect(parseCsv(file, { decimal: '.' }).rows).toEqual(numbers);
    expect(parseCsv(file, { decimal: '.', guard: 'nothing' }).rows[0]).toEqual([1, '12,885']);
    expect(parseCsv(file).rows[0]).toEqual([1, '12,885']);
    expect(parseCsv('t,4\n1,"12 885"\n2,12 885\n', { decimal: '.' }).rows).toEqual([
      [1, '12 885'],
      [2, 12885],
    ]);
    expect(parseCsv(file, { decimal: '.', cells: 'text' }).rows[0]).toEqual(['1', '12,885']);
    expect(parseCsv(`${file}5,"41,5"\n`, { decimal: '.' }).rows[0]).toEqual([1, '12,885']);
  });
});

test('where it is not, they stay text', () => {
  expect(parseCsv("a;b;c\n1,234;1 234;1'234\n", { separator: ';' }).rows).toEqual([['1,234', '1 234', "1'234"]]);
  expect(parseCsv("a,b\n1 234,1'234\n").rows).toEqual([['1 234', "1'234"]]);
});

test('text of that form is written so that it is text again', () => {
  const texts = ['1.234', '1,234', '1 234', "1'234", '1.234,5', '1,234.5', '-1.234', '1.234.567', '1\u202F234'];
  const table = { header: ['a'], rows: texts.map((text) => [text]) };
  for (const separator of [',', ';', '\t'] as const)
    for (const decimal of ['.', ',', undefined] as const)
      for (const guard of ['nothing', 'formulas', 'formulas and dates'] as const) {
        if (separator === decimal) continue;
        const format = { separator, guard, ...(decimal === undefined ? {} : { decimal }) };
        expect(parseCsv(toCsv(table, format), format)).toEqual(table);
      }
});
