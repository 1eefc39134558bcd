/** Blanks around numbers, and columns of a file in which nothing can be read: no column is lost untold. */
import { describe, expect, test } from 'vitest';
import { type CsvReading, csvColumns, type Problem, parseCsv, toCsv } from '../../src/report/index.ts';
import { expectRefused } from './refused.ts';

/** The columns of a file and what was told. */
function columnsOf(text: string, format: CsvReading = {}) {
  const told: Problem[] = [];
  const keeps = { ...format, keepReadable: true };
  const columns = csvColumns(parseCsv(text, keeps, told), told, { keepReadable: true });
  return { columns, told: told.map(({ line, column, received, expected }) => [line, column, received, expected]) };
}

describe('blanks around a number', () => {
  test.each<[string, CsvReading, (string | number | null)[]]>([
    ['t,4,T\n1, 1890,41.5 \n', {}, [1, 1890, 41.5]],
    ['t;4;T\n1;1890 ;\t41.5\n', { separator: ';' }, [1, 1890, 41.5]],
    ['t;4;T\n1; 1890 ; 41,5 \n', { separator: ';', decimal: ',' }, [1, 1890, 41.5]],
    ['t;4;T\n1; 12.885;\u00a01 234\u202f\n', { separator: ';', decimal: ',' }, [1, 12885, 1234]],
    ['t,4,T\n1, ," "\n', {}, [1, null, ' ']],
    ['t,4,T\n1," 1890", n.d.\n', {}, [1, ' 1890', ' n.d.']],
    ['t,4,T\n1, 007,"2"\n', {}, [1, ' 007', '2']],
  ])('%j', (text, format, row) => {
    expect(parseCsv(text, format).rows).toEqual([row]);
    expect(parseCsv(text, { ...format, cells: 'text' }).rows[0]?.every((cell) => typeof cell === 'string')).toBe(true);
  });

  test('are doubted with their points, at the line they stand in', () => {
    const words = "the option decimal, '.' or ',': these points may stand between thousands";
    expect(() => parseCsv('t;4\n1; 12.885 \n', { separator: ';' })).toThrow(
      `text, line 2: received ' 12.885 ', expected ${words}`,
    );
    expect(() => parseCsv('t;4;T\n1;12.885;1.5\n2;1.5; 41,5 \n', { separator: ';' })).toThrow(words);
  });

  test.each([' ', ' 41', '\u00a041', '\u202f', '41.5\u00a0', '\u00a01 234'])(
    'as text, %j, are written in quotes',
    (cell) => {
      const table = { header: ['a', 'b'], rows: [[cell, 1]] };
      for (const guard of ['formulas and dates', 'nothing'] as const)
        expect(parseCsv(toCsv(table, { guard }), { guard })).toEqual(table);
    },
  );

  test('a line of blanks at the end is left out as an empty one is', () => {
    expect(parseCsv('a,b\n1,2\n  \n \t \n').rows).toEqual([[1, 2]]);
    expect(() => parseCsv('a,b\n1,2\n  \n3,4\n')).toThrow('and no blank line');
  });
});

describe('a column without one number', () => {
  test.each<[string, string, number, unknown[]]>([
    ['of texts', 'time,T\n1,41.5 C\n2,42 C\n', 2, [2, 'T', "'41.5 C'", 'left out: a number; of 2 texts none is one']],
    [
      'with decimal commas',
      'time,T\n1,\n2,"41,5"\n',
      1,
      [3, 'T', "'41,5'", 'left out: a number with a decimal point; of 1 texts none is one'],
    ],
  ])('%s is told once', (_what, text, leftOut, entry) => {
    const { columns, told } = columnsOf(text);
    expect(columns[1]).toMatchObject({ numbers: null, leftOut });
    expect(told).toEqual([entry]);
  });

  test('is another thing than one that is empty', () => {
    const { columns, told } = columnsOf('time,4\n1,\n2, \n');
    expect(columns[1]).toMatchObject({ numbers: null, leftOut: 0 });
    expect(told).toEqual([]);
  });

  test('is told also where 100 texts of another were', () => {
    const rows = Array.from({ length: 150 }, (_unused, i) => `${i === 0 ? 5 : 'err'},n.d.`);
    const { columns, told } = columnsOf(`4,6\n${rows.join('\n')}\n`);
    expect(columns.map(({ leftOut }) => leftOut)).toEqual([149, 150]);
    expect(told).toHaveLength(101);
    expect(told[100]).toEqual([2, '6', "'n.d.'", 'left out: a number; of 150 texts none is one']);
  });

  test('beside numbers a decimal comma is told as one, and thousands are not', () => {
    const { told } = columnsOf('time,4\n1,5\n2,"41,5"\n3,"1,234"\n4,"1.234,5"\n');
    expect(told.map((entry) => entry[3])).toEqual([
      'left out: a number with a decimal point',
      'left out: a number',
      'left out: a number with a decimal point',
    ]);
  });
});

test('heads that differ by blanks alone are one head, and a head is a text', () => {
  const words = 'a head of its own for column 2 (B): column 1 (A) has it too';
  expectRefused('bad_csv', 'table.header[1]', words, () => csvColumns(parseCsv('4, 4\n1,2\n')));
  expectRefused('wrong_type', 'table.header[0]', 'a text', () => csvColumns({ header: [4 as never], rows: [] }));
});
