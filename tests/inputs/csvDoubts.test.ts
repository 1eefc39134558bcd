/** What spreadsheets make of CSV files: points between thousands, a line for the separator, codes taken for dates. */
import { describe, expect, test } from 'vitest';
import { parseCsv, toCsv } from '../../src/report/index.ts';
import { expectRefused } from './refused.ts';

const semicolons = { separator: ';' } as const;

describe('points that may stand between thousands', () => {
  test.each([
    ['4;6;14\r\n12.000;4.000;1.000\r\n', '12.000;4.000;1.000', 2],
    ['unit;perMl\ngate 3;\ngate 4;1.891\ngate 5;1.890\n', '1.891', 3],
    ['time;4\n08:00;1.234.567\n08:10;1.234.560\n', '1.234.567', 2],
  ])('%j is refused until decimal is given', (text, received, line) => {
    const words = 'the option decimal: these points may stand between thousands';
    expectRefused('bad_csv', 'text', words, () => parseCsv(text, semicolons));
    expect(() => parseCsv(text, semicolons)).toThrow(`text, line ${line}: received '${received}'`);
    expect(() => parseCsv(text, { ...semicolons, decimal: '.' })).not.toThrow();
    expect(() => parseCsv(text, { ...semicolons, cells: 'text' })).not.toThrow();
    expect(() => parseCsv(text.split(';').join('\t'), { separator: '\t' })).toThrow(words);
  });

  test('1.500 is read as it is meant where decimal is given', () => {
    expect(parseCsv('a;b\n1.500;2.250\n', { ...semicolons, decimal: '.' }).rows).toEqual([[1.5, 2.25]]);
    expect(parseCsv('a,b\n1.500,2.250\n').rows).toEqual([[1.5, 2.25]]);
  });

  test.each(['0.500', '1.5', '12', '1.23E3', '"12.000"', 'n/a'])('a column with %s is in no doubt', (cell) => {
    expect(() => parseCsv(`a;b\n12.000;1\n${cell};2\n`, semicolons)).not.toThrow();
  });

  test('what toCsv writes is read back by the same format', () => {
    const table = {
      header: ['a', 'b'],
      rows: [
        [12.125, '12.000'],
        [1.891, '4.500'],
        [null, '1.000'],
      ],
    };
    for (const guard of ['nothing', 'formulas', 'formulas and dates'] as const)
      expect(parseCsv(toCsv(table, { ...semicolons, guard }), { ...semicolons, guard })).toEqual(table);
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
