/** A file read with the wrong separator, and one with a title above its header, are not taken for a table. */
import { describe, expect, test } from 'vitest';
import { germanTexts } from '../../src/german/index.ts';
import type { CsvReading } from '../../src/report/csv/parseCsv.ts';
import { errorText, isMotescaleError, type MotescaleError, parseCsv } from '../../src/report/index.ts';

function refused(text: string, format: CsvReading): MotescaleError {
  try {
    parseCsv(text, format);
  } catch (error) {
    if (isMotescaleError(error)) return error;
  }
  throw new Error(`not refused: ${text}`);
}

describe('whole numbers with the wrong separator', () => {
  test.each([
    ['t;4;6\n1;2;3\n', ',', "';'"],
    ['t\t4\n1\t2\n', ',', "'\\t'"],
    ['t,4,6\n1,2,3\n', ';', "','"],
    ['t\t4\n1\t2\n', ';', "'\\t'"],
    ['t;4;6\n1;2;3\n', '\t', "';'"],
    ['t,4\n\n1,2\n', '\t', "','"],
    ['time (d, UTC);4\n1;2\n', '\t', "';'"],
    ['t;4\n3\n1;2\n', ',', "';'"],
    // the first column of a table with an index has no head
    [';4\n0;1890\n', ',', "';'"],
  ] as const)('%j read with %j', (text, separator, sign) => {
    for (const keepReadable of [false, true]) {
      const error = refused(text, { separator, keepReadable });
      expect(error).toMatchObject({ code: 'bad_csv', parameter: 'text', line: 1, position: 0 });
      expect(error.received).toBe(`'${text.split('\n')[0]}'`);
      expect(error.expected).toBe(`the option separator: header and lines have ${sign}`);
      expect(errorText(error, germanTexts)).toContain(`Erwartet: die Angabe separator: Kopf und Zeilen haben ${sign}.`);
    }
    expect(parseCsv(text, { separator, cells: 'text' }).header).toHaveLength(1);
  });

  test.each([
    ['t;4;T, °C\n1;1890;41,5\n2;402;40,5\n', ',', "';'"],
    ['t;4 µm(c), per mL\n1;12,5\n', ',', "';'"],
    ['t\t4;6\n1\t2;3\n', ';', "'\\t'"],
  ] as const)('also in cells that commas make: %j read with %j', (text, separator, sign) => {
    for (const keepReadable of [false, true])
      expect(refused(text, { separator, keepReadable }).expected).toBe(
        `the option separator: header and lines have ${sign}`,
      );
    expect(parseCsv(text, { separator, cells: 'text' }).header).toHaveLength(2);
  });

  test('a sign that is no separator in some line, and decimal commas below a comma, are let be', () => {
    const noted = 't,note; remark\n1,late; dirty\n2,\n';
    expect(parseCsv(noted).rows[1]).toEqual([2, null]);
    expect(parseCsv('t,"note; remark"\n1,late; dirty\n').rows).toEqual([[1, 'late; dirty']]);
    const comma = { separator: ';', decimal: ',' } as const;
    expect(parseCsv('4 µm(c), per mL\n12,5\n3,5\n', comma).rows).toEqual([[12.5], [3.5]]);
    expect(parseCsv('4, per mL;6, per mL\n12,5;3,5\n', comma).rows).toEqual([[12.5, 3.5]]);
    expect(parseCsv('4, per mL;6, per mL\n12,5;3,5\n', { separator: ';' }).rows).toEqual([['12,5', '3,5']]);
  });

  test.each(['"t;4"\n1;2\n', 't;4\n"1;2"\n', 't;4\n1\n', 't\n1;2\n', 't;4\n'])('%j has one column', (text) => {
    expect(parseCsv(text).header).toHaveLength(1);
  });
});

test('a header of several cells has its separator, whatever sign stands in one of them', () => {
  const text = 'note; remark,4\n1,2\n3,4,5\n';
  expect(parseCsv(text, { keepReadable: true })).toMatchObject({ rows: [[1, 2]], leftOut: 1 });
  expect(refused(text, {}).expected).toBe('as many cells as in the header: 2, and not 3');
  // `sep=` tells the separator at the very beginning alone
  expect(parseCsv('t,sep=;\n1,2\n')).toEqual({ header: ['t', 'sep=;'], rows: [[1, 2]] });
});

describe('a title above the header', () => {
  const file = 'Gate 3\nt;4;6\n1;2;3\n2;3;4\n';
  const expected = 'as many cells as in the header: 1, and not 3; cut off a title above the header';

  test('the error says that it is to be cut off, also with keepReadable', () => {
    for (const keepReadable of [false, true]) {
      const error = refused(file, { separator: ';', keepReadable });
      expect(error).toMatchObject({ code: 'bad_csv', line: 2, received: "'t;4;6'", expected });
      expect(errorText(error, germanTexts)).toContain(
        'so viele Zellen wie im Kopf: 1, und nicht 3; ein Titel über dem Kopf ist wegzulassen.',
      );
    }
    expect(refused(`Gate 3\n\nmade by night\n${file}`, { separator: ';', keepReadable: true }).expected).toBe(expected);
    expect(parseCsv(file.slice(file.indexOf('\n') + 1), { separator: ';' }).rows).toHaveLength(2);
  });

  test('one column of which few lines have more cells keeps the others', () => {
    const few = parseCsv('4\n1\n2\n3;4\n5\n', { separator: ';', keepReadable: true });
    expect(few).toEqual({ header: ['4'], rows: [[1], [2], [5]], lines: [2, 3, 5], leftOut: 1 });
  });
});

test('a separator at the beginning of the header is named too', () => {
  expect(refused(';4;6\n0;1890,5;402\n', {}).expected).toBe(
    "as many cells as in the header: 1, and not 2; the header has ';'",
  );
});

test('a blank line is named as one', () => {
  const error = refused('a;b\n1;2\n\n3;4\n', { separator: ';' });
  expect(error).toMatchObject({ line: 3, expected: 'as many cells as in the header: 2, and no blank line' });
  expect(errorText(error, germanTexts)).toBe(
    "text, Zeile 3, lässt sich nicht als Tabelle mit Trennzeichen lesen: ''. " +
      'Erwartet: so viele Zellen wie im Kopf: 2, und keine leere Zeile.',
  );
});
