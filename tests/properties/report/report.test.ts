/**
 * Laws of reports. CSV: exact round trip, agreement with papaparse (a general CSV library), no formula let through.
 * Charts: every reading is drawn, within the scale, without a warning.
 */
import fc from 'fast-check';
import Papa from 'papaparse';
import { describe, expect, test } from 'vitest';
import { as4059Cumulative, type ClassTable, iso4406, nas1638 } from '../../../src/codes/index.ts';
import { type CumulativeCounts, cumulativeCounts } from '../../../src/counts/index.ts';
import {
  type Cell,
  type ChartSpec,
  type CsvFormat,
  type CsvTable,
  cleanUpChart,
  isMotescaleError,
  parseCsv,
  type ReportReading,
  reportRows,
  sizeChart,
  toCsv,
  trendChart,
} from '../../../src/report/index.ts';
import { drawn, rowsIn, textsIn } from '../../reference/report/drawn.ts';
import { summaryOf } from '../../reference/report/summary.ts';
import { some } from '../../volume.ts';
import { advanceMonitor, startMonitor } from '../watched.ts';

const runs = { numRuns: some(2000) };

/** Text full of what breaks CSV. */
const text = fc.oneof(
  fc.string({ unit: fc.constantFrom(...'",;\0\t\r\n\'=+-@ ae1.5\uFF1D\uFEFFµ'), maxLength: 8 }),
  fc.string({ unit: 'binary', maxLength: 8 }),
  fc.constantFrom(
    '18/16/13',
    '-/18/13',
    '10/9/7',
    '10:9:7',
    'MAR1',
    '1E5',
    "'00",
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
const number = fc.double({ noNaN: true, noDefaultInfinity: true });
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
        // a zero below zero is written as 0
        const rows = table.rows.map((row) => row.map((c) => (c === 0 ? 0 : c)));
        expect(parseCsv(toCsv(table, format), format)).toEqual({ ...table, rows });
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
          const digits = String(c);
          return plain.decimal === ',' ? digits.replace('.', ',') : digits;
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
        // a head with U+0000 is refused: a file of UTF-16 has it behind each letter
        fc.pre(!table.header.some((head) => head.includes('\u0000')));
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

/** Counts from far below the first class to far above the last, with zeros. */
const counts: fc.Arbitrary<CumulativeCounts> = fc
  .array(fc.oneof(fc.constant(0), fc.double({ min: -8, max: 18, noNaN: true }).map(Math.exp)), {
    minLength: 4,
    maxLength: 4,
  })
  .map((perMl) => ({ sizing: 'iso11171', sizes: [4, 6, 14, 21], perMl: perMl.sort((a, b) => b - a) }));
type Counted = ReportReading & { counts: CumulativeCounts };
const readings: fc.Arbitrary<Counted[]> = fc.array(
  fc.record({
    time: fc.integer({ min: 0, max: 2e12 }),
    counts,
    quality: fc.constantFrom('good' as const, 'uncertain' as const, 'bad' as const),
  }),
  { minLength: 1, maxLength: 12 },
);
const tablesDrawn = fc.constantFrom<ClassTable>(iso4406, as4059Cumulative);

/** Rows drawn lie within the scale that the specification sets. */
function expectWithinScale(spec: ChartSpec, field: string) {
  const [low, high] = JSON.parse(
    (
      /"type":"log","domain":(\[[^\]]*\]),"nice":false\},"axis":\{"title":null/.exec(
        JSON.stringify(spec),
      ) as RegExpExecArray
    )[1] as string,
  ) as [number, number];
  expect(low).toBeLessThan(high);
  for (const row of rowsIn(spec)) {
    if (!(field in row)) continue;
    expect(row[field]).toBeGreaterThanOrEqual(low);
    expect(row[field]).toBeLessThanOrEqual(high);
  }
}

describe('charts', () => {
  test('a trend draws every reading in every panel, within the scale', () => {
    fc.assert(
      fc.property(readings, tablesDrawn, (list, table) => {
        const panels = trendChart(list, { table }).vconcat.slice(0, -1);
        for (const panel of panels) {
          const layers = panel.layer as { data: { values: Record<string, unknown>[] }; mark: { type: string } }[];
          const rows = (type: string) =>
            layers
              .filter(({ mark }) => mark.type === type)
              .flatMap(({ data }) => data.values)
              .filter((row) => 'time' in row);
          const good = list.filter((r) => r.quality !== 'bad');
          // in the line every one; marks are thinned where they would lie on each other, and none is left out
          // altogether
          expect(rows('line').map(({ time }) => time)).toEqual(good.map(({ time }) => time).sort((a, b) => a - b));
          const marked = (quality: string) => rows('point').filter((row) => row.quality === quality).length;
          for (const quality of ['uncertain', 'bad']) {
            const given = list.filter((r) => r.quality === quality).length;
            const hatched = quality === 'bad' ? rows('rule').length : 0;
            expect(marked(quality) + hatched > 0).toBe(given > 0 || (quality === 'uncertain' && marked(quality) > 0));
          }
          expectWithinScale(panel, 'count');
        }
      }),
      { numRuns: some(300) },
    );
  });

  test('a size chart draws every count within the scale, and its figures are right to half a percent', () => {
    fc.assert(
      fc.property(counts, (sample) => {
        const spec = sizeChart(sample);
        expectWithinScale(spec, 'perMl');
        // the table below: size, count, class; counts are the figures with most digits to the right of the size
        const table = (spec.vconcat as ChartSpec[])[1] as ChartSpec;
        const cells = rowsIn(table) as { x: number; y: number; text: string }[];
        [4, 6, 14, 21].forEach((size, i) => {
          const head = cells.filter(({ text }) => text === `${size} µm(c)`)[0] as { x: number; y: number };
          const row = cells.filter(({ x, y }) => y === head.y && x > head.x).sort((a, b) => a.x - b.x);
          const text = row[0]?.text as string;
          const count = sample.perMl[i] as number;
          expect(text).not.toMatch(/e/);
          expect(Math.abs(Number(text.replace(/,/g, '')) - count)).toBeLessThanOrEqual(0.00501 * count);
        });
      }),
      { numRuns: some(300) },
    );
  });

  test('pictures without a warning, whatever the counts', async () => {
    await fc.assert(
      fc.asyncProperty(readings, async (list) => {
        const first = (list[0] as Counted).counts;
        const tank = { litres: 400, litresPerMin: 40, counts: first, beta: [2, 5, 75, 200] };
        const measured = list.map((reading, i) => ({ minutes: 6 * i, counts: reading.counts }));
        for (const spec of [
          trendChart(list, { target: '18/16/13', alarm: '20/18/15' }),
          sizeChart(first, { target: '18/16/13' }),
          cleanUpChart(tank, { minutes: 60, target: '18/16/13', measured }),
        ]) {
          const { svg, warnings } = await drawn(spec);
          expect(warnings).toEqual([]);
          expect(textsIn(svg).join(' ')).not.toMatch(/NaN|Infinity|undefined|null/);
        }
      }),
      { numRuns: some(15, 2) },
    );
  });

  test('a summary keeps to 72 characters and says how many of each quality', () => {
    fc.assert(
      fc.property(readings, (list) => {
        const summary = summaryOf(list, { target: '18/16/13' });
        for (const row of summary.split('\n')) expect(row.length).toBeLessThanOrEqual(72);
        const of = (quality: string) => list.filter((r) => r.quality === quality).length;
        expect(summary).toContain(`${list.length}: ${of('good')} good, ${of('uncertain')} uncertain, ${of('bad')} bad`);
      }),
      { numRuns: some(300) },
    );
  });
});

describe('a period says what it does not know', () => {
  const of = (hours: number, counts: CumulativeCounts, more: Partial<ReportReading> = {}): ReportReading => ({
    time: hours * 3600000,
    counts,
    ...more,
  });
  const lineOf = (text: string, start: string) => text.split('\n').filter((line) => line.indexOf(start) === 0)[0] ?? '';
  const few = cumulativeCounts({ 4: 189, 6: 40, 14: 3 }, { volumeMl: 0.1 });
  const many = cumulativeCounts({ 4: 18900, 6: 4020, 14: 330 }, { volumeMl: 10 });
  const partly = cumulativeCounts({ 4: 1890, 6: 402, 14: 33, 21: 4 });

  test('few counted are marked, each where it stands', () => {
    const codes = lineOf(summaryOf([of(0, few), of(1, few)]), '  ISO 4406').split(/ {2,}/);
    expect(codes.slice(2)).toEqual(['18/16/>=12', '18/16/>=12', '18/16/>=12', '18/16/>=12']);
    const mixed = lineOf(summaryOf([of(0, few), of(1, many)]), '  ISO 4406').split(/ {2,}/);
    expect(mixed.slice(2)).toEqual(['18/16/>=12', '18/16/>=12', '18/16/12', '18/16/12']);
  });

  test('long codes have a line each', () => {
    const text = summaryOf([of(0, partly)], { table: nas1638 });
    expect(text).toContain('  NAS 1638\n    lowest          8 or dirtier\n    median          8 or dirtier\n');
    expect(text).not.toContain('dirtier8');
  });

  test('a target that no reading can show is not told as missed', () => {
    const text = summaryOf([of(0, partly), of(1, partly)], { table: nas1638, target: '8' });
    const told = 'could not be judged: sizes are missing, or too few particles were counted';
    expect(text.replace(/\n +/g, ' ')).toContain(`Target     NAS 1638 8: ${told}\n`);
    const fewer = summaryOf([of(0, few)], { target: '18/16/12' });
    expect(fewer.replace(/\n +/g, ' ')).toContain(`Target     ISO 4406 18/16/12: ${told}\n`);
    // none of 38 µm, so none of 70, as a monitor has it
    const ending = cumulativeCounts({ 6: 900, 14: 20, 21: 3, 38: 0 }, { volumeMl: 100 });
    const judged = summaryOf([of(0, ending), of(1, ending)], { table: nas1638, target: '8' });
    expect(lineOf(judged, 'Target')).toBe('Target     NAS 1638 8: 2 of 2 met, all of them good');
    const lacking = cumulativeCounts({ 4: 1890, 6: 402 });
    const some = summaryOf([of(0, many), of(1, lacking)], { target: '18/16/13' });
    expect(some.replace(/\n +/g, ' ')).toContain(
      '1 of 1 met, all of them good; 1 could not be judged, the last among them',
    );
    const dirty = summaryOf([of(0, lacking)], { target: '17/16/13' });
    expect(lineOf(dirty, 'Target')).toBe('Target     ISO 4406 17/16/13: 0 of 1 met');
    expect(() => summaryOf([of(0, lacking)], { target: '-/-/-' })).toThrow();
  });

  test('columns are those of the monitor, and so is the verdict', () => {
    const columns = ['5-15', '15-25'];
    const seen = [
      cumulativeCounts({ 4: 1890, 6: 402, 14: 33, 21: 4 }),
      cumulativeCounts({ 4: 18900, 6: 14020, 14: 330, 21: 4 }),
    ];
    const watched = { codes: [{ table: nas1638, target: '8', columns }] };
    let state = startMonitor(watched);
    const verdicts = seen.map((counts, i) => {
      const step = advanceMonitor(watched, state, { time: i * 1000, counts });
      state = step.state;
      return step.verdict?.inTarget;
    });
    expect(verdicts).toEqual([true, false]);
    const text = summaryOf(
      seen.map((counts, i) => of(i, counts)),
      { table: nas1638, target: '8', columns },
    );
    expect(lineOf(text, 'Judged')).toBe('Judged     NAS 1638 at 5-15, 15-25 only');
    expect(lineOf(text, 'Target')).toBe('Target     NAS 1638 8: 1 of 2 met, all of them good');
    expect(text).toContain('\n           The last reading missed it.\n');
    expect(lineOf(text, '  NAS 1638')).not.toContain('or dirtier');
    const lacking = summaryOf([of(0, cumulativeCounts({ 4: 1890, 6: 402, 14: 33 }))], {
      table: nas1638,
      target: '8',
      columns,
    });
    expect(lineOf(lacking, 'Target')).toContain('could not be judged');
    const refused = (own: object) => () => summaryOf([of(0, seen[0] as CumulativeCounts)], { table: nas1638, ...own });
    expect(refused({ columns: ['5'] })).toThrow(
      expect.objectContaining({ code: 'unknown_option', parameter: 'options.columns[0]' }),
    );
    expect(refused({ columns: [] })).toThrow(expect.objectContaining({ code: 'empty', parameter: 'options.columns' }));
    const elsewhere = { table: iso4406, columns: ['4'], target: '-/16/13' };
    expect(refused(elsewhere)).toThrow(expect.objectContaining({ code: 'bad_code', parameter: 'options.target' }));
  });

  test('a period without a reading says so', () => {
    const week = { from: Date.UTC(2026, 10, 2), to: Date.UTC(2026, 10, 9) };
    const events = [-1, 0, 24 * 7 - 1, 24 * 7].map((hours) => ({
      time: week.from + hours * 3600000,
      text: `${hours} h`,
    }));
    const standing = `Fluid cleanliness
2026-11-02 00:00 to 2026-11-09 00:00 (UTC)

Readings   none: nothing is known of the oil

Events
  2026-11-02 00:00  0 h
  2026-11-08 23:00  167 h
`;
    expect(summaryOf([], { ...week, target: '16/13', events })).toBe(standing);
    const others = [of(0, many), { time: week.to, counts: many }];
    expect(summaryOf(others, { ...week, target: '18/16/13', events })).toBe(standing);
    expect(summaryOf([])).toBe('Fluid cleanliness\n\nReadings   none: nothing is known of the oil\n');
    expect(summaryOf([], { from: 0, utcOffsetMinutes: 60 })).toContain('\nfrom 1970-01-01 01:00 (UTC+01:00)\n');
    expect(summaryOf([], { to: 0 })).toContain('\nuntil 1970-01-01 00:00 (UTC)\n');
  });

  test('from and to bound the readings, the verdicts and the events', () => {
    const list = [0, 1, 2, 3].map((hours) => of(hours, many, { verdict: `v${hours}` }));
    const events = [0, 3].map((hours) => ({ time: hours * 3600000, text: `e${hours}` }));
    const text = summaryOf(list, { from: 3600000, to: 3 * 3600000, events });
    expect(text).toContain('1970-01-01 01:00 to 1970-01-01 03:00');
    expect(text).toContain('2: 2 good');
    expect(text).toContain('v1: 1; v2: 1');
    expect(text).toContain('Events     none begun in this period');
    const refused = (own: object) => () => summaryOf(list, own);
    expect(refused({ from: 5, to: 5 })).toThrow(
      expect.objectContaining({ code: 'out_of_range', parameter: 'options.to' }),
    );
    expect(refused({ from: 'now' })).toThrow(
      expect.objectContaining({ code: 'wrong_type', parameter: 'options.from' }),
    );
    expect(() => summaryOf([], { table: nas1638, target: '99' })).toThrow(
      expect.objectContaining({ code: 'bad_code' }),
    );
  });

  test('no line is longer than 72 characters, whatever the title', () => {
    const text = summaryOf([of(0, partly)], { title: 'lock gate '.repeat(20), table: nas1638, target: '8' });
    for (const line of text.split('\n')) expect(line.length).toBeLessThanOrEqual(72);
  });
});

describe('codes as cargo of a CSV file', () => {
  test('by default no code becomes a date, and -0 is written as 0', () => {
    const table = { header: ['code', 'figure'], rows: [['10/9/7', -0]] };
    expect(toCsv(table)).toBe("code,figure\r\n'10/9/7,0\r\n");
    expect(parseCsv(toCsv(table)).rows).toEqual([['10/9/7', 0]]);
    expect(toCsv(table, { guard: 'formulas' })).toBe('code,figure\r\n10/9/7,0\r\n');
    // what no spreadsheet shows hides no formula
    for (const blank of ['\0', '\0 ', '\t'])
      expect(toCsv({ header: ['a', 'b'], rows: [[`${blank}=1`, 0]] })).toContain(`'${blank}=1`);
  });
});
