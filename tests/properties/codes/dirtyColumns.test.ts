/**
 * A file as an instrument leaves it: by keepReadable one dirty cell does not cost its column, nor one line the file.
 */
import { describe, expect, test } from 'vitest';
import { classify, classifyColumns, iso4406, nas1638 } from '../../../src/codes/index.ts';
import { germanTexts } from '../../../src/german/index.ts';
import { csvColumns, errorText, isMotescaleError, type Problem, parseCsv, toCsv } from '../../../src/report/index.ts';
import { shares } from '../../chance.ts';

const keeps = { keepReadable: true } as const;
/** Where each is, in a file or in columns, and what came. */
const said = (told: readonly Problem[]) =>
  told.map(({ path, line, column, received }) =>
    [
      ...(line === undefined ? path : [line]),
      ...(line === undefined || column === undefined ? [] : [column]),
      received,
    ].join(' '),
  );

describe('parseCsv', () => {
  const text = 'time,4,6\n1,1890,402\n\n2,18\n"3\n3",1700,380\n4,5,6,7\n\n5,1500,300\n\n\n';

  test('lines of another length and blank ones are told and counted', () => {
    const told: Problem[] = [];
    expect(parseCsv(text, keeps, told)).toEqual({
      header: ['time', '4', '6'],
      rows: [
        [1, 1890, 402],
        ['3\n3', 1700, 380],
        [5, 1500, 300],
      ],
      lines: [2, 5, 9],
      leftOut: 4,
    });
    expect(said(told)).toEqual(["3 ''", "4 '2,18'", "7 '4,5,6,7'", "8 ''"]);
    expect(told[1]).toMatchObject({
      code: 'bad_csv',
      expected: 'left out: as many cells as in the header: 3, and not 2',
    });
  });

  test('without it the first refuses the file, and a whole file reads the same', () => {
    expect(() => parseCsv(text)).toThrow('text, line 3');
    const whole = 'time,4\r\n1,1890\r2,1891\n\n';
    expect(parseCsv(whole, keeps)).toEqual({ ...parseCsv(whole), lines: [2, 3], leftOut: 0 });
    expect(toCsv(parseCsv(whole, keeps))).toBe(toCsv(parseCsv(whole)));
  });

  test('what is told ends, what is counted does not', () => {
    const told: Problem[] = [];
    const { leftOut, rows } = parseCsv(`a,b\n${'1\n2,3\n'.repeat(1000)}`, keeps, told);
    expect([leftOut, rows.length, told.length]).toEqual([1000, 1000, 100]);
    expect(told[99]?.line).toBe(200);
  });

  test.each([
    ['time;4;6\n1;1890,5;402\n', ',', "1, and not 2; the header has ';'", "1, und nicht 2; der Kopf hat ';'"],
    ['time\t4\n1\t"1890",5\n', ',', "1, and not 2; the header has '\\t'", "1, und nicht 2; der Kopf hat '\\t'"],
    ['time,4,6\n1,1890;402\n', ';', "1, and not 2; the header has ','", "1, und nicht 2; der Kopf hat ','"],
  ])('a wrong separator is named, and no line is kept: %j', (wrong, separator, english, german) => {
    for (const keepReadable of [false, true]) {
      let error: unknown;
      try {
        parseCsv(wrong.replace('"1890"', '1890'), { separator: separator as ',', keepReadable });
      } catch (thrown) {
        error = thrown;
      }
      if (!isMotescaleError(error)) throw new Error('not refused');
      expect(error.expected).toBe(`as many cells as in the header: ${english}`);
      expect(errorText(error, germanTexts)).toContain(`so viele Zellen wie im Kopf: ${german}`);
    }
  });

  test('a header of one cell with a sign in it is no mistake by itself', () => {
    expect(parseCsv('a;b\n1\n').rows).toEqual([[1]]);
    expect(() => parseCsv('"a;b"\n1,2\n')).toThrow(/header: 1, and not 2; cut off a title above the header$/);
  });
});

describe('csvColumns', () => {
  const text = 'time,4,6,note\n08:00,1890,402,\n08:10,>30000,err,\n08:20\n08:30,1700,,ok\n';

  test('a text among numbers is NaN, told by line and head, and counted', () => {
    const told: Problem[] = [];
    const [time, at4, at6, note] = csvColumns(parseCsv(text, keeps), told, keeps);
    expect(time).toEqual({ head: 'time', numbers: null, cells: ['08:00', '08:10', '08:30'], leftOut: 3 });
    expect(at4).toMatchObject({ numbers: Float64Array.of(1890, Number.NaN, 1700), leftOut: 1 });
    expect(at6).toMatchObject({ numbers: Float64Array.of(402, Number.NaN, Number.NaN), leftOut: 1 });
    expect(note).toMatchObject({ numbers: null, leftOut: 1 });
    expect(said(told)).toEqual(["2 time '08:00'", "3 4 '>30000'", "3 6 'err'", "5 note 'ok'"]);
    expect(at4?.cells[1]).toBe('>30000');
  });

  test('lines are those of the file, also where some were left out', () => {
    const told: Problem[] = [];
    csvColumns(parseCsv('a,b\n1\n2,3\n4,x\n', keeps), told, keeps);
    expect(said(told)).toEqual(["4 b 'x'"]);
    const plain: Problem[] = [];
    csvColumns(parseCsv('a,b\n2,3\n4,x\n'), plain, keeps);
    expect(said(plain)).toEqual(["3 b 'x'"]);
  });

  test('without it one text leaves the column without numbers', () => {
    const [, at4] = csvColumns(parseCsv('time,4\n1,1890\n2,>30000\n'));
    expect(at4).toEqual({ head: '4', numbers: null, cells: [1890, '>30000'] });
  });

  test('what is told ends', () => {
    const told: Problem[] = [];
    const [a] = csvColumns(parseCsv(`a\n1\n${'x\n'.repeat(300)}`), told, keeps);
    expect([a?.leftOut, told.length]).toEqual([300, 100]);
  });
});

describe('classifyColumns', () => {
  const dirty = {
    4: Float64Array.of(1890, 100, -999, Number.NaN, 1890, 1890),
    6: Float64Array.of(402, 402, 33, 402, Number.NaN, 402),
    14: Float64Array.of(33, 33, 3, 33, 500, Infinity),
  };

  test('a row that rises has no class, a count that is none is not known', () => {
    const told: Problem[] = [];
    const { columns, worst, open, leftOut } = classifyColumns(iso4406, dirty, keeps, told);
    expect(columns.map(({ classes }) => [...classes])).toEqual([
      [18, -1, -1, -1, 18, 18],
      [16, -1, 12, 16, -1, 16],
      [12, -1, 9, 12, 16, -1],
    ]);
    expect([...worst]).toEqual([18, -1, 12, 16, 18, 18]);
    expect([...open]).toEqual([0, 1, 1, 1, 1, 1]);
    expect(leftOut).toEqual({ counts: 2, rows: 1 });
    expect(said(told)).toEqual(['4 2 -999', '14 5 Infinity', '6 1 402']);
    expect(told.map(({ code }) => code)).toEqual(['negative', 'infinite', 'counts_rise_with_size']);
    expect(told.map(({ expected }) => expected)).toEqual([
      'left out: particles per mL from 0 to 1000000000000',
      'left out: particles per mL from 0 to 1000000000000',
      'left out: at most 100, the count of the smaller size',
    ]);
    // what came is as it was
    expect(dirty[4][2]).toBe(-999);
  });

  test('what is told ends, what is counted does not', () => {
    const next = shares(7);
    const at4 = Float64Array.from({ length: 300 }, () => (next() < 0.5 ? -1 : 10));
    const told: Problem[] = [];
    const { leftOut } = classifyColumns(iso4406, { 4: at4, 6: at4.map(() => 20) }, keeps, told);
    const counts = at4.filter((count) => count < 0).length;
    expect(leftOut).toEqual({ counts, rows: 300 - counts });
    expect(told.length).toBe(100);
    const few: Problem[] = [];
    const rising = Float64Array.from({ length: 150 }, (_x, k) => (k < 60 ? -1 : 10));
    classifyColumns(iso4406, { 4: rising, 6: rising.map(() => 20) }, keeps, few);
    expect(few.map(({ code }) => code)).toEqual([
      ...Array<string>(60).fill('negative'),
      ...Array<string>(40).fill('counts_rise_with_size'),
    ]);
  });

  test('a rise across a hole is one', () => {
    const across = { 4: Float64Array.of(100), 6: Float64Array.of(Number.NaN), 14: Float64Array.of(500) };
    expect(() => classifyColumns(iso4406, across)).toThrow('perMl[14][0]');
    expect(classifyColumns(iso4406, across, keeps)).toMatchObject({
      worst: Int16Array.of(-1),
      open: Uint8Array.of(1),
      leftOut: { counts: 0, rows: 1 },
    });
  });

  test('without it the first of either refuses all', () => {
    expect(() => classifyColumns(iso4406, dirty)).toThrow('perMl[4][2]');
    const rising = { 4: dirty[4].slice(0, 2), 6: dirty[6].slice(0, 2), 14: dirty[14].slice(0, 2) };
    expect(() => classifyColumns(iso4406, rising)).toThrow('perMl[6][1]');
  });

  test('sound rows are as without it, beside any others', () => {
    const next = shares(20261129);
    const sizes = [6, 14, 21, 38, 70];
    const rows = Array.from({ length: 300 }, () => {
      let count = 40000 * next();
      const row = sizes.map(() => {
        count *= next() / 2;
        return Math.round(count);
      });
      const kind = next();
      if (kind < 0.2) row[2] = 1e6;
      else if (kind < 0.4) row[3] = -1;
      return { row, sound: kind >= 0.4 };
    });
    const perMl = Object.fromEntries(
      sizes.map((size, i) => [size, Float64Array.from(rows, ({ row }) => row[i] as number)]),
    );
    const { worst, leftOut } = classifyColumns(nas1638, perMl, keeps);
    const alone = rows.map(({ row, sound }, k) => {
      if (!sound) return worst[k];
      return nas1638.classes
        .concat('>12')
        .indexOf(classify(nas1638, { sizing: 'iso11171', sizes, perMl: row }).worst ?? '');
    });
    expect([...worst]).toEqual(alone);
    expect(leftOut?.rows).toBe(rows.filter(({ row }) => row[2] === 1e6).length);
    expect(leftOut?.counts).toBe(rows.filter(({ row }) => row[3] === -1).length);
  });
});

test('what told may be', () => {
  for (const told of [7, 'x', Object.freeze([])] as never[]) {
    expect(() => parseCsv('a\n1\n', {}, told)).toThrow('told');
    expect(() => csvColumns(parseCsv('a\n1\n'), told)).toThrow('told');
    expect(() => classifyColumns(iso4406, { 4: Float64Array.of(1) }, {}, told)).toThrow('told');
  }
});
