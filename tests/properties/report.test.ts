/** Laws of the CSV writer and reader: exact round trip, agreement with papaparse (a general CSV library), no formula let through. */
import fc from 'fast-check';
import Papa from 'papaparse';
import { describe, expect, test } from 'vitest';
import { cumulativeCounts } from '../../src/counts/index.ts';
import {
  type Cell,
  type CsvFormat,
  type CsvTable,
  isMotescaleError,
  parseCsv,
  reportRows,
  toCsv,
} from '../../src/report/index.ts';

const runs = { numRuns: 3000 };

/** Text full of what breaks CSV. */
const text = fc.oneof(
  fc.string({ unit: fc.constantFrom(...'",;\t\r\n\'=+-@ ae1.5\uFF1D\uFEFFµ'), maxLength: 8 }),
  fc.string({ unit: 'binary', maxLength: 8 }),
  fc.constantFrom(
    '18/16/13',
    '-/18/13',
    '10/9/7',
    '007',
    '1.5',
    '1,5',
    '',
    ' ',
    "'",
    "'=1",
    '=1+1',
    '9007199254740993',
  ),
);
const number = fc.double({ noNaN: true, noDefaultInfinity: true }).map((x) => (x === 0 ? 0 : x));
const cell: fc.Arbitrary<Cell> = fc.oneof(text, number, fc.integer(), fc.constant(null));

const tables: fc.Arbitrary<CsvTable> = fc.integer({ min: 1, max: 5 }).chain((columns) => {
  const row = <T>(of: fc.Arbitrary<T>) => fc.array(of, { minLength: columns, maxLength: columns });
  // a row without any cell filled is a blank line at the end, which a reader may leave out
  const filled = row(cell).map((cells) => (columns > 1 && cells.every((c) => c === null) ? cells.map(() => 0) : cells));
  return fc.record({ header: row(text), rows: fc.array(filled, { maxLength: 6 }) });
});

const formats: fc.Arbitrary<CsvFormat> = fc
  .record({
    separator: fc.constantFrom(',' as const, ';' as const, '\t' as const),
    decimal: fc.constantFrom('.' as const, ',' as const),
    byteOrderMark: fc.boolean(),
    lineEnd: fc.constantFrom('\r\n' as const, '\n' as const),
    guard: fc.constantFrom('formulas' as const, 'formulas and dates' as const, 'nothing' as const),
  })
  .filter(({ separator, decimal }) => separator !== decimal);

describe('CSV', () => {
  test('what is written is read back the same: text, numbers to the last bit, empty cells', () => {
    fc.assert(
      fc.property(tables, formats, (table, format) => {
        expect(parseCsv(toCsv(table, format), format)).toEqual(table);
      }),
      runs,
    );
  });

  test('papaparse reads what is written here, cell by cell', () => {
    fc.assert(
      fc.property(tables, formats, (table, format) => {
        const plain: CsvFormat = { ...format, guard: 'nothing', byteOrderMark: false };
        const written = toCsv(table, plain);
        const read = Papa.parse<string[]>(written, {
          delimiter: plain.separator as string,
          newline: plain.lineEnd as '\n',
        });
        expect(read.errors).toEqual([]);
        const asText = (c: Cell) => {
          if (typeof c !== 'number') return c ?? '';
          return plain.decimal === ',' ? String(c).replace('.', ',') : String(c);
        };
        // papaparse takes the end of the last line for one more, empty line
        expect(read.data.slice(0, -1)).toEqual([table.header, ...table.rows].map((row) => row.map(asText)));
        expect(read.data.slice(-1)).toEqual([['']]);
      }),
      runs,
    );
  });

  test('what papaparse writes is read here, cell by cell', () => {
    fc.assert(
      fc.property(tables, formats, (table, { separator, lineEnd }) => {
        const rows = [table.header, ...table.rows.map((row) => row.map((c) => (c === null ? '' : String(c))))];
        fc.pre((rows[0] as string[]).length > 1 || rows.every((row) => row[0] !== ''));
        // a byte-order mark that belongs to the first cell cannot be told from one of the file
        fc.pre((rows[0]?.[0] ?? '').charAt(0) !== '\uFEFF');
        fc.pre(rows.every((row, i) => i === 0 || row.length === 1 || row.some((c) => c !== '')));
        const written = Papa.unparse(rows, { delimiter: separator as string, newline: lineEnd as string });
        const decimal = separator === ',' ? '.' : ',';
        const read = parseCsv(written, { separator: separator as ',', decimal, guard: 'nothing', cells: 'text' });
        expect([read.header, ...read.rows]).toEqual(rows);
      }),
      runs,
    );
  });

  test('no cell of text starts with what a spreadsheet runs, whatever the text', () => {
    fc.assert(
      fc.property(tables, formats, (table, format) => {
        fc.pre(format.guard !== 'nothing');
        const read = parseCsv(toCsv(table, format), { ...format, guard: 'nothing' });
        for (const row of [read.header, ...read.rows]) {
          for (const c of row)
            if (typeof c === 'string') expect(c.trimStart()).not.toMatch(/^[=+\-@\uFF1D\uFF0B\uFF0D\uFF20]/);
        }
      }),
      runs,
    );
  });

  test('any text is read, or refused with a position in it', () => {
    fc.assert(
      fc.property(text, fc.array(text), formats, (first, more, format) => {
        const file = [first, ...more].join('');
        try {
          const { header, rows } = parseCsv(file, format);
          for (const row of rows) expect(row).toHaveLength(header.length);
        } catch (error) {
          expect(isMotescaleError(error)).toBe(true);
          const { code, position } = error as { code: string; position: number };
          expect(code).toBe('bad_csv');
          expect(position).toBeGreaterThanOrEqual(0);
          expect(position).toBeLessThanOrEqual(file.length);
        }
      }),
      runs,
    );
  });
});

describe('rows', () => {
  test('times are those of the Gregorian calendar', () => {
    const counts = cumulativeCounts({ 4: 1 });
    fc.assert(
      fc.property(fc.integer({ min: -6e13, max: 2.5e14 }), fc.integer({ min: -720, max: 840 }), (time, minutes) => {
        const { rows } = reportRows([{ time, counts }], { utcOffsetMinutes: minutes });
        const expected = new Date(time + minutes * 60000).toISOString().slice(0, 19).replace('T', ' ');
        expect(rows[0]?.[0]).toBe(expected);
      }),
      runs,
    );
  });
});
