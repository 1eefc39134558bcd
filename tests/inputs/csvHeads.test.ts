/** Files whose heads, lines or signs are not as a table has them: refused or told in words that help. */
import { describe, expect, test } from 'vitest';
import { classifyColumns, iso4406 } from '../../src/codes/index.ts';
import { germanTexts } from '../../src/german/index.ts';
import { csvColumns, errorText, type Problem, parseCsv, problemText, toCsv } from '../../src/report/index.ts';

const format = { separator: ';', decimal: ',' } as const;

/** What is said of a file that is refused. */
function said(file: string, keepReadable = false): string {
  try {
    csvColumns(parseCsv(file, { ...format, keepReadable }));
    return '';
  } catch (error) {
    return errorText(error, germanTexts);
  }
}

const titled =
  'ein Titel über dem Kopf und leere Spalten sind wegzulassen, aus einem Kopf von zwei Zeilen ist eine zu machen.';

describe('heads', () => {
  test.each([
    [
      'a title with separators',
      'Bericht Schleuse 3;;\nZeit;4;6\n1;2;3\n',
      'Spalte 3 (C): Auch Spalte 2 (B) hat keinen',
    ],
    ['two empty columns at the end', 'Zeit;4;;\n1;2;;\n', 'Spalte 4 (D): Auch Spalte 3 (C) hat keinen'],
    ['a head of two lines', 'Zeit;Partikel;;\n;4;6;14\n1;2;3;4\n', 'Spalte 4 (D): Auch Spalte 3 (C) hat keinen'],
  ])('%s', (_what, file, where) => {
    for (const keeps of [false, true])
      expect(said(file, keeps)).toContain(`Erwartet: ein Kopf für ${where}; ${titled}`);
  });

  test('beyond column Z', () => {
    const heads = Array.from({ length: 53 }, (_, i) => `h${i}`);
    expect(said([...heads, 'h26'].join(';'))).toContain('Spalte 54 (BB): Spalte 27 (AA) hat ihn auch');
    expect(said([...heads, 'h51'].join(';'))).toContain('Spalte 54 (BB): Spalte 52 (AZ) hat ihn auch');
  });
});

describe('a file of which no line is kept', () => {
  test('as where each line ends with a separator', () => {
    const file = 'Zeit;4;6\n1;2,5;3,5;\n2;2,5;3,5;\n';
    const why = 'so viele Zellen wie im Kopf: 3, und nicht 4; die Zeile endet mit einem Trennzeichen, der Kopf nicht.';
    for (const keeps of [false, true]) expect(said(file, keeps)).toContain(`text, Zeile 2, lässt sich nicht`);
    for (const keeps of [false, true]) expect(said(file, keeps)).toContain(`'1;2,5;3,5;'. Erwartet: ${why}`);
  });

  test.each(['a;b\n"1;2\n', 'a\n"1\n', 'a;b\n1\n'])('%j', (file) => {
    expect(said(file, true)).toContain('text, Zeile 2, ');
  });

  test('but one line that is kept is a file, and so is none at all', () => {
    expect(parseCsv('a;b\n1\n1;2\n', { ...format, keepReadable: true }).rows).toEqual([[1, 2]]);
    expect(parseCsv('a;b\n\n', { ...format, keepReadable: true }).rows).toEqual([]);
  });
});

describe('a file that quotes every cell', () => {
  const read = (file: string, more = {}) => parseCsv(file, { ...format, quotedNumbers: true, ...more }).rows;

  test('has numbers, empty cells and texts', () => {
    const file = '"t";"4"\n"a";"1.890,5"\n"";" -2,5 "\n"1""2";"007"\n';
    expect(read(file)).toEqual([
      ['a', 1890.5],
      [null, -2.5],
      ['1"2', '007'],
    ]);
    expect(read(file, { quotedNumbers: false })[0]).toEqual(['a', '1.890,5']);
  });

  test('in whose points there is doubt, is refused at the cell', () => {
    const file = '"t";"4"\n"1";"12.885"\n';
    expect(() => read(file, { decimal: undefined })).toThrow(
      expect.objectContaining({ code: 'bad_csv', line: 2, received: "'12.885\"'" }),
    );
  });

  test('a separator within quotes is still none', () => {
    expect(read('a;b\n"1;2";"3"\n')).toEqual([['1;2', 3]]);
  });
});

describe('signs', () => {
  test.each([
    ['+5', 5],
    ['\u22123,5', -3.5],
    [' +1.234,5 ', 1234.5],
    ['\u22121.234', -1234],
    ['+1,5E+3', 1500],
    ['+', '+'],
    ['+-5', '+-5'],
    ['\u2212', '\u2212'],
    ['5\u2212', '5\u2212'],
  ])('%j is %j', (cell, value) => {
    expect(parseCsv(`a;b\n${cell};1\n`, format).rows[0]?.[0]).toBe(value);
  });

  test.each(['+5', '\u22123,5', '+1.234'])('text like %s comes back as text', (text) => {
    for (const guard of ['nothing', 'formulas and dates'] as const) {
      const own = { ...format, guard };
      expect(parseCsv(toCsv({ header: ['a', 'b'], rows: [[text, 1]] }, own), own).rows).toEqual([[text, 1]]);
    }
  });
});

test.each([
  ['t;4 \uFFFDm\n1;2\n', 1, "'t;4 \uFFFDm'"],
  ['t;4\r1;2\rgr\uFFFDn;\uFFFD\r', 3, "'gr\uFFFDn;\uFFFD'"],
])('signs that were lost are told once: %j', (file, line, received) => {
  const told: Problem[] = [];
  expect(parseCsv(file, format, told).rows[0]).toEqual([1, 2]);
  expect(told).toEqual([
    {
      path: [],
      line,
      code: 'bad_csv',
      received,
      expected: 'kept: text that was read in its encoding: U+FFFD stands for signs that were lost',
    },
  ]);
  expect(problemText(told[0] as Problem, germanTexts)).toBe(
    `Zeile ${line} lässt sich nicht als Tabelle mit Trennzeichen lesen: ${received}. Behalten. ` +
      'Erwartet: Text, der in seiner Kodierung gelesen wurde: U+FFFD steht für Zeichen, die verloren gingen.',
  );
});

test('a column that is null is refused by its name, and what it comes from is said', () => {
  const [, at4] = csvColumns(parseCsv('t;4\n1;2\n2;n/a\n', format));
  let words = '';
  try {
    classifyColumns(iso4406, { 4: at4?.numbers as never });
  } catch (error) {
    words = errorText(error, germanTexts);
  }
  expect(words).toBe(
    'perMl[4] ist von falscher Art: null. Erwartet: ein Float64Array; null ist eine Spalte von csvColumns, in der ' +
      'eine Zelle Text ist oder alle leer sind: keepReadable macht NaN aus Text.',
  );
});

test('a separator and a decimal sign may come from a form, as any text', () => {
  const chosen: string = ';';
  const decimal: string = ',';
  expect(parseCsv('a;b\n1,5;2\n', { separator: chosen, decimal }).rows).toEqual([[1.5, 2]]);
  expect(() => parseCsv('a|b\n', { separator: '|' })).toThrow(expect.objectContaining({ code: 'unknown_option' }));
});
