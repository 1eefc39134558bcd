/** What spreadsheets make of CSV files: points between thousands, a line for the separator, codes taken for dates. */
import { describe, expect, test } from 'vitest';
import { parseCsv, toCsv } from '../../src/report/index.ts';
import { expectRefused } from './refused.ts';

const semicolons = { separator: ';' } as const;

describe('points that may stand between thousands', () => {
  const words = "the option decimal, '.' or ',': these points may stand between thousands";

  test.each([
    ['4;6;14\r\n12.000;4.000;1.000\r\n', '12.000;4.000;1.000', 2],
    ['unit;perMl\ngate 3;\ngate 4;1.891\ngate 5;1.890\n', '1.891', 3],
    ['time;4\n08:00;1.234.567\n08:10;1.234.560\n', '1.234.567', 2],
    ['t;4\n1;12.885\n2;13.114\n', '12.885', 2],
    ['t;4;T\n1;1.230;41,5\n2;900,5;41,5\n', '1.230;41,5', 2],
    ['d;4;6;14;T\n1;12.885;4.791;1.325;41,5\n2;13.114;4.902;1.411;40,5\n', '12.885;4.791;1.325;41,5', 2],
    ['t;offset\n1;-12.885\n', '-12.885', 2],
  ])('%j is refused until decimal is given', (text, received, line) => {
    expectRefused('bad_csv', 'text', words, () => parseCsv(text, semicolons));
    expect(() => parseCsv(text, semicolons)).toThrow(`text, line ${line}: received '${received}'`);
    expectRefused('bad_csv', 'text', words, () => parseCsv(text, { ...semicolons, keepReadable: true }));
    expect(() => parseCsv(text, { ...semicolons, decimal: '.' })).not.toThrow();
    expect(() => parseCsv(text, { ...semicolons, decimal: ',' })).not.toThrow();
    expect(() => parseCsv(text, { ...semicolons, cells: 'text' })).not.toThrow();
    expect(() => parseCsv(text.split(';').join('\t'), { separator: '\t' })).toThrow(words);
  });

  test('1.500 is read as it is meant where decimal is given', () => {
    expect(parseCsv('a;b\n1.500;2.250\n', { ...semicolons, decimal: '.' }).rows).toEqual([[1.5, 2.25]]);
    expect(parseCsv('a;b\n1.500;2.250\n', { ...semicolons, decimal: ',' }).rows).toEqual([[1500, 2250]]);
    expect(parseCsv('a,b\n1.500,2.250\n').rows).toEqual([[1.5, 2.25]]);
  });

  const decimals = ['0.500', '1.5', '1234.567', '1.23E3', '12.8850', '-0.125', '1,234.567'];
  test.each(decimals)('a column with %s is in no doubt', (cell) => {
    expect(() => parseCsv(`a;b\n12.885;1\n${cell};2\n`, semicolons)).not.toThrow();
  });

  const silent = [
    '12',
    '"12.000"',
    '"1.5"',
    'n/a',
    'n.d.',
    '<0.5',
    '<12.885',
    '>30.000',
    '0',
    '0,5',
    '',
    '1,234',
    '007.5',
  ];
  test.each(silent)('a column with %s is as doubtful as without', (cell) => {
    expect(() => parseCsv(`a;b\n12.885;1\n${cell};2\n`, semicolons)).toThrow(words);
  });

  test.each(['41,5', '"41,5"', '0,125', '1234,567', '1.234,5', '1 234,567', '-1,5'])(
    'with %s in the file no point stands before decimals, whatever else is in its column',
    (cell) => {
      expect(() => parseCsv(`a;b\n12.885;1\n1.5;${cell}\n`, semicolons)).toThrow(words);
      expect(() => parseCsv(`a;b\n12.885;1\n1.5;\n`, semicolons)).not.toThrow();
    },
  );

  test.each(['4,6 µm', '1,234', '"1,234"', '1,234,567', '4,6,14', 'a,5', ''])('%s is no decimal comma', (cell) => {
    expect(() => parseCsv(`a;b\n12.885;1\n1.5;${cell}\n`, semicolons)).not.toThrow();
  });

  test('between commas a number with a decimal comma makes the doubt, unless the guard is turned down', () => {
    expect(() => parseCsv('t,4,T\n1,12.885,"41,5"\n')).toThrow(words);
    expect(() => parseCsv('t,4,T\n1,12.885,"41,5"\n2,1.5,\n')).not.toThrow();
    expect(parseCsv('t,4,T\n1,12.885,"1,234"\n').rows).toEqual([[1, 12.885, '1,234']]);
    const table = { header: ['4', 'note'], rows: [[12.885, '41,5']] };
    for (const guard of ['nothing', 'formulas', 'formulas and dates'] as const)
      expect(parseCsv(toCsv(table, { guard }), { guard })).toEqual(table);
  });

  test('what toCsv writes is read back by the same format', () => {
    const table = {
      header: ['a', 'b', '1.234.567'],
      rows: [
        [12.125, '12.000', '1.234.567'],
        [-1.891, '4.500', '41,5'],
        [null, '1.000', '1 234'],
      ],
    };
    for (const guard of ['nothing', 'formulas', 'formulas and dates'] as const)
      expect(parseCsv(toCsv(table, { ...semicolons, guard }), { ...semicolons, guard })).toEqual(table);
    const numbers = { header: ['4'], rows: [[12.125], [-1.891], [0.125], [1234.567], [12.5], [7]] };
    const lines = '"4"\r\n12.1250\r\n-1.8910\r\n0.125\r\n1234.567\r\n12.5\r\n7\r\n';
    expect(toCsv(numbers, semicolons)).toBe(lines);
    expect(toCsv(numbers, { separator: '\t' })).toBe(lines);
    expect(toCsv(numbers, { ...semicolons, decimal: '.' })).toContain('\r\n12.125\r\n-1.891\r\n');
    expect(toCsv(numbers)).toContain('\r\n12.125\r\n-1.891\r\n');
  });
});

describe('a line that tells the separator', () => {
  test.each(['sep=;\r\n', '\uFEFFsep=;\n', 'SEP=;\n'])('%j is taken off', (first) => {
    expect(parseCsv(`${first}unit;4\ngate 3;12\n`, semicolons)).toEqual({
      header: ['unit', '4'],
      rows: [['gate 3', 12]],
    });
  });

  test('of another separator it is refused, and alone it is no header', () => {
    expectRefused('bad_csv', 'text', 'the separator of the format', () => parseCsv('sep=;\nunit;4\n'));
    expectRefused('bad_csv', 'text', 'a header line', () => parseCsv('sep=;', semicolons));
  });

  test('a column of that name is read back', () => {
    const table = { header: ['sep=;'], rows: [[1]] };
    for (const separator of [',', ';', '\t'] as const)
      expect(parseCsv(toCsv(table, { separator }), { separator })).toEqual(table);
  });
});

test('codes of several sizes are all guarded, so that a column holds one kind', () => {
  const codes = ['18/16/13', '18/16/>=11', '18/16/-', '*/18/14', '>28/20/15', '-/16/13', '<9/7/4', '*/*/*', '18/16'];
  const table = { header: ['code'], rows: codes.map((code) => [code]) };
  const text = toCsv(table, { guard: 'formulas and dates' });
  expect(text.split('\r\n').slice(1, -1)).toEqual(codes.map((code) => `'${code}`));
  expect(parseCsv(text)).toEqual(table);
  // as before: these no spreadsheet takes for something else
  expect(toCsv({ header: ['code'], rows: [['7B/6C/5D'], ['6B-F'], ['7']] })).not.toContain("'");
});
