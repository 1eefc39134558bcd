/**
 * Nothing that another reading makes a number 1000 times as large or as small passes in silence: tables as German and
 * English files have them are read right or refused.
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { csvColumns, isMotescaleError, parseCsv } from '../../../src/report/index.ts';
import { some } from '../../volume.ts';

const runs = { numRuns: some(2000) };

/** As it is written with a sign between thousands and another before decimals. */
function written(value: number, thousands: string, decimal: string): string {
  const [whole, part] = String(value).split('.') as [string, string?];
  const grouped = whole.replace(/\B(?=(\d{3})+$)/g, thousands);
  return part === undefined ? grouped : grouped + decimal + part;
}

/** A count, or what a laboratory writes where there is none. */
const noCount = fc.constantFrom('', 'n.d.', 'n. d.', '<0.5', '<0,5', '<1.000', '>30.000', '-', '0', 'err');
const count = fc.oneof(
  fc.integer({ min: 0, max: 999 }),
  fc.integer({ min: 1000, max: 99999 }),
  fc.integer({ min: 0, max: 99 }).map((n) => n * 1000),
  fc.integer({ min: 1000000, max: 99999999 }),
);
type Given = number | string;
const cell: fc.Arbitrary<Given> = fc.oneof({ weight: 3, arbitrary: count }, { weight: 1, arbitrary: noCount });
const table = (of: fc.Arbitrary<Given>) =>
  fc.array(fc.tuple(of, of, of), { minLength: 1, maxLength: 6 }).map((rows) => rows.map((row) => [...row]));
const separators = fc.constantFrom(';' as const, '\t' as const);

function fileOf(rows: readonly (readonly Given[])[], separator: string, thousands: string, decimal: string): string {
  const lines = rows.map((row, i) => [
    `gate ${i}`,
    ...row.map((c) => (typeof c === 'number' ? written(c, thousands, decimal) : c)),
  ]);
  return [['unit', '4', '6', '14'], ...lines].map((line) => `${line.join(separator)}\n`).join('');
}

/** Reads it; null where it is refused for its points. */
function readOrRefused(text: string, format: Parameters<typeof parseCsv>[1]) {
  try {
    return parseCsv(text, format);
  } catch (error) {
    if (!isMotescaleError(error)) throw error;
    expect(error.code).toBe('bad_csv');
    expect(error.expected).toContain("the option decimal, '.' or ','");
    return null;
  }
}

/** Every number that was read is the one that was written; texts are no numbers, so a column tells them. */
function expectRight(read: ReturnType<typeof parseCsv>, rows: readonly (readonly Given[])[]): void {
  read.rows.forEach((row, i) => {
    row.slice(1).forEach((came, j) => {
      if (typeof came === 'number') expect(came).toBe(Number((rows[i] as Given[])[j]));
    });
  });
}

describe('counts with signs between thousands', () => {
  test.each(['.', ',', ' ', "'", '\u00A0'])('%j, decimal not given: right or refused', (thousands) => {
    fc.assert(
      fc.property(table(cell), separators, fc.boolean(), (rows, separator, keepReadable) => {
        const read = readOrRefused(fileOf(rows, separator, thousands, ','), { separator, keepReadable });
        if (read !== null) expectRight(read, rows);
        const some1000 = rows.some((row) => row.some((c) => typeof c === 'number' && c >= 1000));
        if (thousands === '.') expect(read === null).toBe(some1000);
      }),
      runs,
    );
  });

  test('decimal given: every count is read', () => {
    const signs = fc.constantFrom(['.', ','], [',', '.'], [' ', ','], [' ', '.'], ["'", '.'], ['\u202F', ',']);
    fc.assert(
      fc.property(table(cell), separators, signs, (rows, separator, [thousands, decimal]) => {
        const file = fileOf(rows, separator, thousands as string, decimal as string);
        const read = parseCsv(file, { separator, decimal: decimal as '.' });
        expectRight(read, rows);
        rows.forEach((row, i) => {
          row.forEach((c, j) => {
            if (typeof c === 'number') expect(read.rows[i]?.[j + 1]).toBe(c);
          });
        });
      }),
      runs,
    );
  });

  test('with decimals in the file as well: right or refused, and right with decimal', () => {
    const measured = fc.integer({ min: 0, max: 99999999 }).map((n) => n / 10);
    const mixed = table(fc.oneof(cell, measured));
    fc.assert(
      fc.property(mixed, separators, (rows, separator) => {
        const file = fileOf(rows, separator, '.', ',');
        const read = readOrRefused(file, { separator });
        if (read !== null) expectRight(read, rows);
        expectRight(parseCsv(file, { separator, decimal: ',' }), rows);
      }),
      runs,
    );
  });
});

test('decimals to three places with a point: right or refused, and right with decimal', () => {
  const figure = fc.integer({ min: 0, max: 999999 }).map((n) => n / 1000);
  fc.assert(
    fc.property(
      table(fc.oneof({ weight: 3, arbitrary: figure }, { weight: 1, arbitrary: noCount })),
      separators,
      (rows, separator) => {
        const lines = rows.map((row) => row.map((c) => (typeof c === 'number' ? c.toFixed(3) : c)).join(separator));
        const file = ['4', '6', '14'].join(separator) + lines.map((line) => `\n${line}`).join('');
        const read = readOrRefused(file, { separator });
        const all = [read, parseCsv(file, { separator, decimal: '.' })];
        for (const { rows: came } of all.filter((one) => one !== null))
          came.forEach((row, i) => {
            row.forEach((c, j) => {
              if (typeof c === 'number') expect(c).toBe(Number((rows[i] as Given[])[j]));
            });
          });
      },
    ),
    runs,
  );
});

test('any cells: what passes has no number that may be thousands in a column without other decimals', () => {
  const any = fc.oneof(
    fc.constantFrom('12.885', '1.230', '1.234.567', '-4.791', '0.125', '1.5', '12', 'n.d.', '41,5', '1,234', '', '1E3'),
    fc.string({ unit: fc.constantFrom(...'0123456789.,-'), maxLength: 8 }),
  );
  const three = /^-?[1-9]\d{0,2}\.\d{3}$/;
  fc.assert(
    fc.property(fc.array(fc.tuple(any, any), { minLength: 1, maxLength: 5 }), separators, (rows, separator) => {
      const file = `a${separator}b\n${rows.map((row) => `${row.join(separator)}\n`).join('')}`;
      const read = readOrRefused(file, { separator });
      if (read === null) return;
      const [a, b] = csvColumns(read);
      [a, b].forEach((column, j) => {
        const texts = rows.map((row) => row[j] as string);
        if (!texts.some((text) => three.test(text))) return;
        expect(texts.some((text) => /^-?[\d,]+\.\d+$/.test(text) && !three.test(text))).toBe(true);
        expect(rows.some((row) => row.some((text) => /^-?\d+,\d{1,2}$/.test(text) && !/^-?0\d/.test(text)))).toBe(
          false,
        );
        expect(column?.cells).toHaveLength(read.rows.length);
      });
    }),
    runs,
  );
});
