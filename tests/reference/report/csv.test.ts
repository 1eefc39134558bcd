import Papa from 'papaparse';
import { describe, expect, test } from 'vitest';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import { germanTexts } from '../../../src/german/index.ts';
import {
  type CsvFormat,
  csvColumns,
  decimalCommaFormat,
  errorText,
  isMotescaleError,
  parseCsv,
  reportRows,
  toCsv,
} from '../../../src/report/index.ts';
import rfc4180 from './rfc4180.json' with { type: 'json' };

describe('RFC 4180, section 2: the examples of its rules, recalled, and as a general CSV library reads them', () => {
  test.each(rfc4180.rules)('rule $rule', ({ text, lines }) => {
    const { header, rows } = parseCsv(text, { cells: 'text' });
    expect([header, ...rows]).toEqual(lines);
    expect(Papa.parse(text, { delimiter: ',', newline: '\r\n', skipEmptyLines: true }).data).toEqual(lines);
  });
});

describe('spreadsheets', () => {
  const table = {
    header: ['=cmd', 'perMl', 'code'],
    rows: [
      ['@home', -1.5, '10/9/7'],
      ["'quoted", 1e-7, '-/18/13'],
    ],
  };

  test('formulas are made harmless, numbers are left alone, and so are dates, unless asked not to', () => {
    expect(toCsv(table)).toBe("'=cmd,perMl,code\r\n'@home,-1.5,'10/9/7\r\n''quoted,1e-7,'-/18/13\r\n");
    expect(toCsv(table, { guard: 'formulas', lineEnd: '\n' })).toBe(
      "'=cmd,perMl,code\n'@home,-1.5,10/9/7\n''quoted,1e-7,'-/18/13\n",
    );
    expect(toCsv(table, { guard: 'nothing', lineEnd: '\n' })).toBe(
      "=cmd,perMl,code\n@home,-1.5,10/9/7\n'quoted,1e-7,-/18/13\n",
    );
  });

  test('decimal comma, semicolons, byte-order mark', () => {
    expect(toCsv(table, decimalCommaFormat)).toBe(
      "\uFEFF'=cmd;perMl;code\r\n'@home;-1,5;'10/9/7\r\n''quoted;1e-7;'-/18/13\r\n",
    );
    expect(parseCsv(toCsv(table, decimalCommaFormat), decimalCommaFormat)).toEqual(table);
  });

  test('an apostrophe that guards nothing stays', () => {
    expect(parseCsv("a,b\n'tis,'=1", {}).rows).toEqual([["'tis", '=1']]);
  });
});

describe('text of which a spreadsheet makes a date, a time or another number', () => {
  const misread = [
    ...['>28/>28/20', '18/16/>=12'],
    ...['00', '000', '007', ' 00 ', '12345678901234567890', '1234567890123456', '1E5', '1e-5', '1.5e3', '.5', '5.'],
    ...['1.50', '1,5', '1,234', '1 000', '1\u00A0000', '50%', '50 %', '(5)', '5-', '$5', '5 €', '1 1/2'],
    ...['10:9:7', '8:30', '8:30 PM', '5 pm', '5pm', '5 p', '10:9:7.5'],
    ...['10/9/7', '10-9-7', '10.9.7', '10/9', '22/18/13', '13/11/8', '10/9/7 8:30', '2026-11-25'],
    ...['MAR1', 'mar 1', '1MAR', '1-Mar-26', '1 March 2026', 'March 1, 2026', 'Sept 3', 'DEC-7'],
  ];
  const kept = [
    ...['7', '0', '123456789012345', '6B', '7B/6C/5D', '>12', '8 or dirtier', '20 16 13'],
    ...['March', 'may', 'Marker 1', 'gate 3', 'MARS 1', '4 µm(c) per mL', 'p', '5 pumps', ':', '.', ',', '%', 'e5', ''],
    ...['2026-11-25 08:00:00', '2026-11-25 08:00'],
  ];

  test.each(misread)('%j is guarded, and read back as it was', (text) => {
    const table = { header: [text], rows: [[text]] };
    expect(toCsv(table, { lineEnd: '\n' })).toContain(`'${text}`);
    expect(parseCsv(toCsv(table))).toEqual(table);
    expect(parseCsv(toCsv(table, decimalCommaFormat), decimalCommaFormat)).toEqual(table);
    expect(toCsv(table, { guard: 'formulas' })).not.toContain("'");
    expect(parseCsv(toCsv(table, { guard: 'formulas' }), { guard: 'formulas' })).toEqual(table);
  });

  test.each(kept)('%j is let be', (text) => {
    const table = { header: ['a', 'b'], rows: [[text, 1]] };
    expect(toCsv(table)).not.toContain("'");
    expect(parseCsv(toCsv(table))).toEqual(table);
  });

  test('of long text in no time', () => {
    const rows = ['1'.repeat(1e6), `${'1'.repeat(1e6)}x`, `1:${' '.repeat(1e6)}x`].map((text) => [text]);
    const written = toCsv({ header: ['a'], rows });
    expect(written.split("'1")).toHaveLength(2);
    expect(parseCsv(written).rows).toEqual(rows);
  });

  test('the times of rows stay times', () => {
    const table = reportRows([{ time: Date.UTC(2026, 10, 25, 8), counts: cumulativeCounts({ 4: 1 }) }]);
    expect(toCsv(table)).toContain('\r\n2026-11-25 08:00:00,1,');
  });
});

describe('reading', () => {
  test('numbers only where they lose nothing', () => {
    const file = 'a,b,c,d,e,f\n1.50,007,12345678901234567890,"5",,""\n';
    expect(parseCsv(file).rows).toEqual([[1.5, '007', '12345678901234567890', '5', null, '']]);
  });

  test('blank lines at the end, old line ends, no line end', () => {
    expect(parseCsv('a,b\r1,2\r\r\n\n').rows).toEqual([[1, 2]]);
    expect(parseCsv('a\n1\n\n').rows).toEqual([[1], [null]]);
    expect(parseCsv('a,b').rows).toEqual([]);
  });
});

describe('rows', () => {
  test('what a reading lacks is empty; sizes and standards are those that occur', () => {
    const time = Date.UTC(2026, 10, 25, 8);
    const table = reportRows(
      [
        { time, counts: cumulativeCounts({ 4: 1890, 14: 33 }), codes: { 'NAS 1638': '7' } },
        { time: time + 999, counts: cumulativeCounts({ 6: 402 }), codes: { 'ISO 4406': '-/16/-' }, quality: 'bad' },
      ],
      { utcOffsetMinutes: 60 },
    );
    expect(table.header).toEqual([
      'time (UTC+01:00)',
      '4 µm(c) per mL',
      '6 µm(c) per mL',
      '14 µm(c) per mL',
      'NAS 1638',
      'ISO 4406',
      'quality',
      'verdict',
    ]);
    expect(table.rows).toEqual([
      ['2026-11-25 09:00:00', 1890, null, 33, '7', null, 'good', null],
      ['2026-11-25 09:00:00', null, 402, null, null, '-/16/-', 'bad', null],
    ]);
  });
});

describe('names that every object inherits', () => {
  test.each(['constructor', 'toString', '__proto__', 'hasOwnProperty'])(
    '%s of one reading is no code of another',
    (name) => {
      const counts = cumulativeCounts({ 4: 1 });
      const codes = JSON.parse(`{"${name}":"a"}`) as Record<string, string>;
      const { header, rows } = reportRows([
        { time: 0, counts, codes },
        { time: 0, counts, codes: {} },
        { time: 0, counts },
      ]);
      expect(header[2]).toBe(name);
      expect(rows.map((row) => row[2])).toEqual(['a', null, null]);
      expect(toCsv({ header, rows })).toContain(`,a,good,`);
    },
  );
});

describe('every error', () => {
  const counts = cumulativeCounts({ 4: 1 });
  const table = { header: ['a', 'b'], rows: [['1', 2]] };

  test.each<[string, string, () => unknown]>([
    ['empty', 'table.header', () => toCsv({ header: [], rows: [] })],
    ['wrong_type', 'table.rows', () => toCsv({ header: ['a'] } as never)],
    ['wrong_type', 'table.rows[0]', () => toCsv({ header: ['a'], rows: ['b'] } as never)],
    ['length_mismatch', 'table.rows[0]', () => toCsv({ header: ['a'], rows: [['b', 'c']] })],
    ['wrong_type', 'table.rows[0][0]', () => toCsv({ header: ['a'], rows: [[true as never]] })],
    ['not_a_number', 'table.rows[0][0]', () => toCsv({ header: ['a'], rows: [[Number.NaN]] })],
    ['infinite', 'table.rows[0][0]', () => toCsv({ header: ['a'], rows: [[Infinity]] })],
    ['unknown_option', 'format.separator', () => toCsv(table, { separator: '|' } as unknown as CsvFormat)],
    ['wrong_type', 'format.byteOrderMark', () => toCsv(table, { byteOrderMark: 1 } as unknown as CsvFormat)],
    ['bad_configuration', 'format.decimal', () => toCsv(table, { decimal: ',' })],
    ['wrong_type', 'text', () => parseCsv(5 as unknown as string)],
    ['unknown_option', 'format.cells', () => parseCsv('a', { cells: 'numbers' as 'text' })],
    ['wrong_type', 'readings[0]', () => reportRows([null as never])],
    ['empty', 'readings', () => reportRows([])],
    ['out_of_range', 'readings[0].time', () => reportRows([{ time: 9e15, counts }])],
    ['unknown_option', 'readings[0].quality', () => reportRows([{ time: 0, counts, quality: 'fair' as 'good' }])],
    ['not_an_integer', 'options.utcOffsetMinutes', () => reportRows([{ time: 0, counts }], { utcOffsetMinutes: 0.5 })],
    [
      'sizing_not_convertible',
      'readings[1].counts.sizing',
      () =>
        reportRows([
          { time: 0, counts },
          { time: 0, counts: { ...counts, sizing: 'microscope' } },
        ]),
    ],
  ])('%s on %s', (code, parameter, call) => {
    expect(thrownBy(call)).toMatchObject({ code, parameter });
  });

  test('columns: numbers with NaN for what is empty, and cells as they are', () => {
    const [time, at4, none, mixed] = csvColumns(parseCsv('t,4,5,6\na,1.5,,7\nb,,,x\n'));
    expect(time).toEqual({ head: 't', numbers: null, cells: ['a', 'b'] });
    expect(at4).toEqual({ head: '4', numbers: Float64Array.of(1.5, Number.NaN), cells: [1.5, null] });
    expect([none?.numbers, mixed?.numbers]).toEqual([null, null]);
    expect(csvColumns({ header: ['4'], rows: [] })[0]?.cells).toEqual([]);
    const bad = (table: unknown) => thrownBy(() => csvColumns(table as never));
    expect(bad({ header: ['4', '4'], rows: [] })).toMatchObject({ code: 'bad_csv', parameter: 'table.header[1]' });
    expect(bad({ header: ['4'], rows: [[1, 2]] })).toMatchObject({
      code: 'length_mismatch',
      parameter: 'table.rows[0]',
    });
    expect(bad({ header: [], rows: [] })).toMatchObject({ code: 'empty', parameter: 'table.header' });
    expect(bad({ header: ['4'], rows: [1] })).toMatchObject({ code: 'wrong_type', parameter: 'table.rows[0]' });
    expect(bad({ header: ['4'] })).toMatchObject({ code: 'wrong_type', parameter: 'table.rows' });
  });

  test.each([
    ['', 0, 1, "''"],
    ['\uFEFF', 0, 1, "'\uFEFF'"],
    ['a,b\n1\n', 4, 2, "'1'"],
    ['a,b\n\n1,2', 4, 2, "''"],
    ['a,b\r\n1,2\r\n### begun\r\n', 10, 3, "'### begun'"],
    ['a,b\r1,2\r"3\r4",5\r6\r', 16, 5, "'6'"],
    ['a,b\n1,2"', 7, 2, "'\"'"],
    ['a,b\n"1"2,3', 7, 2, "'2,3'"],
    ['a,b\n1,"2\n3,4', 6, 2, "'\"2'"],
  ])('bad_csv in %j at %i, in line %i', (text, position, line, received) => {
    const error = thrownBy(() => parseCsv(text)) as Error;
    expect(error).toMatchObject({ code: 'bad_csv', parameter: 'text', position, line, received });
    expect(error.message).toContain(`text, line ${line}: received ${received}, expected `);
    expect(errorText(error)).toContain(`text, line ${line}, cannot be read as separated values: ${received}.`);
    const told = errorText(error, germanTexts);
    expect(told).toContain(
      `text, Zeile ${line}, lässt sich nicht als Tabelle mit Trennzeichen lesen: ${received}. Erwartet: `,
    );
  });
});

function thrownBy(call: () => unknown): unknown {
  try {
    call();
  } catch (error) {
    expect(isMotescaleError(error)).toBe(true);
    return error;
  }
  return undefined;
}
