/** Files in UTF-16, and quotes where none should be: told for what they are, and no more is lost than has to be. */
import { Buffer } from 'node:buffer';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Problem, parseCsv, toCsv } from '../../src/report/index.ts';
import { some } from '../volume.ts';
import { expectRefused } from './refused.ts';

const keeps = { keepReadable: true };

describe('UTF-16', () => {
  test.each(['\uFEFFtime;4\n1;2\n3;4', 'time;4\r\n1;2\r\n', '\uFEFF4\n1\n'])('%j read as UTF-8 is named', (text) => {
    const read = Buffer.from(text, 'utf16le').toString('utf8');
    for (const format of [{}, keeps, { cells: 'text' as const }])
      expectRefused('bad_csv', 'text', 'this looks like UTF-16', () => parseCsv(read, { ...format, separator: ';' }));
  });

  test('what toCsv writes comes back, and a degree sign that was lost refuses nothing', () => {
    const table = { header: ['a\0', '\0'], rows: [['\0', 1]] };
    expect(parseCsv(toCsv(table))).toEqual(table);
    expect(parseCsv('oil \uFFFDC,4\n41,1\n').rows).toEqual([[41, 1]]);
  });
});

describe('a stray quote', () => {
  test.each<[string, string, unknown[][], unknown[][]]>([
    ['within a cell', '2,3,5" pipe', [], [[3, 'quotes only around a whole cell, doubled within']]],
    ['never closed', '2,3,"5', [], [[3, 'a closing quote']]],
    ['with more behind it', '2,3,"5"6', [], [[3, 'a separator or the end of the line']]],
    ['closed by the start of another', '2,3,"5\n2,4,"ok"', [[2, 4, 'ok']], [[3, 'a separator or the end of the line']]],
    [
      'closed by the end of another',
      '2,3,"5\n2,4,ok\n2,"',
      [[2, 4, 'ok']],
      [
        [3, 'as many cells as in the header: 3, and not 4'],
        [5, 'as many cells as in the header: 3, and not 2'],
      ],
    ],
  ])('%s costs its line', (what, line, kept, entries) => {
    const end = what.endsWith('end of another') ? ',1\n3,4,ok\n' : '\n3,4,ok\n';
    const text = `time,4,note\n1,2,ok\n${line}${end}`;
    const told: Problem[] = [];
    const { rows, leftOut } = parseCsv(text, keeps, told);
    expect(rows[0]).toEqual([1, 2, 'ok']);
    expect(rows[rows.length - 1]).toEqual([3, 4, 'ok']);
    if (!what.endsWith('end of another')) {
      expect(rows.slice(1, -1)).toEqual(kept);
      expect(told.map(({ line, expected }) => [line, expected])).toEqual(
        entries.map(([at, expected]) => [at, `left out: ${expected}`]),
      );
    } else expect(rows).toContainEqual([2, 4, 'ok']);
    expect(leftOut).toBe(told.length);
    expect(() => parseCsv(text)).toThrow();
  });

  test('anywhere: every line without a quote is kept, and each other line kept or told', () => {
    const line = fc.constantFrom('1,2', '1,x"y', '1,"x', '"1",2', '1,"x"y', '1', '1,2,3', '1,3');
    fc.assert(
      fc.property(fc.array(line, { maxLength: 8 }), (all) => {
        const told: Problem[] = [];
        const file = ['a,b', '1,2', ...all];
        const { rows, leftOut, lines } = parseCsv(file.map((one) => `${one}\n`).join(''), keeps, told);
        expect(leftOut).toBe(told.length);
        const seen = [...(lines ?? []), ...told.map(({ line }) => line as number)];
        expect(new Set(seen).size).toBe(seen.length);
        expect(rows.length).toBe(lines?.length);
        if (!all.some((one) => one === '1,"x' || one === '1,"x"y')) expect(seen.length).toBe(1 + all.length);
      }),
      { numRuns: some(2000) },
    );
  });
});
