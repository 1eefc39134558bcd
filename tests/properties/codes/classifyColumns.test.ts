/** Columns are classed row by row as `classify` does it. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  as4059Cumulative,
  as4059Differential,
  type ClassTable,
  cc1246,
  classify,
  classifyColumns,
  gost17216,
  iso4406,
  nas1638,
  scaleNumbers,
} from '../../../src/codes/index.ts';
import { cumulativeCounts } from '../../../src/counts/index.ts';

const tables: readonly ClassTable[] = [iso4406, nas1638, as4059Differential, as4059Cumulative];
const usual = [4, 6, 14, 21, 38, 70];
const fine = [4.2, 4.6, 6.4, 9.8, 21.2, 38.2, 70];
/** Those of IEST-STD-CC1246. */
const finest = [4.2, 4.6, 6.4, 9.8, 13.6, 21.2, 38.2, 70];
const sized: readonly [ClassTable, readonly number[]][] = [
  ...tables.map((table) => [table, usual] as [ClassTable, number[]]),
  [gost17216, fine],
  [cc1246, finest],
];

/** Counts that fall with size, many of them on a limit of a table; some not known. */
const anyRow = fc
  .record({
    top: fc.integer({ min: 0, max: 40000000 }),
    falls: fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 7, maxLength: 7 }),
    places: fc.constantFrom(1, 100),
    holes: fc.array(fc.integer({ min: 0, max: 7 }), { maxLength: 2 }),
  })
  .map(({ top, falls, places, holes }) => {
    let count = top;
    const row = [count / places];
    for (const fall of falls) {
      count = Math.floor(count * fall);
      row.push(count / places);
    }
    return row.map((one, i) => (holes.includes(i) ? Number.NaN : one));
  });

/** What `classify` makes of a row: classes by column and the worst. */
function alone(table: ClassTable, row: readonly number[], given: readonly number[]) {
  const known = given.filter((_size, i) => row[i] === row[i]);
  const record = Object.fromEntries(known.map((size) => [size, row[given.indexOf(size)] as number]));
  const place = (name: string) => (name.startsWith('>') ? table.classes.length : table.classes.indexOf(name));
  try {
    const { evidence, worst, missing, text } = classify(table, cumulativeCounts(record));
    const countable = table.columns.filter(({ from }) => Object.keys(from).length > 0).map(({ label }) => label);
    const open = missing.some((label) => countable.includes(label));
    if (table.notation === 'single') expect(open).toBe(text.endsWith(' or dirtier'));
    return { evidence, worst: place(worst), open };
  } catch {
    return { evidence: [], worst: -1, open: true };
  }
}

describe.each(sized.map(([table, sizes]) => [table.title, table, sizes] as const))('%s', (_title, table, sizes) => {
  test.each([
    ['all sizes', sizes],
    ['three sizes', sizes.slice(0, 3)],
    ['sizes of which one is missing', sizes.filter((_size, i) => i !== 1)],
  ])('%s', (_name, given) => {
    const labels = table.columns.map(({ label }) => label);
    fc.assert(
      fc.property(fc.array(anyRow, { minLength: 1, maxLength: 20 }), (rows) => {
        const of = (size: number) => Float64Array.from(rows, (row) => row[sizes.indexOf(size)] as number);
        const found = classifyColumns(table, Object.fromEntries(given.map((size) => [size, of(size)])));
        rows.forEach((row, k) => {
          const own = given.map((size) => row[sizes.indexOf(size)] as number);
          const { evidence, worst, open } = alone(table, own, given);
          expect([found.worst[k], found.open[k] === 1]).toEqual([worst, open]);
          for (const { column, classes } of found.columns) {
            const proof = evidence.find((one) => one.column === column);
            const index = classes[k] as number;
            if (proof === undefined) expect(index).toBe(-1);
            else {
              const limit = table.limits[index]?.[labels.indexOf(column)] ?? null;
              expect(limit).toBe(proof.upTo);
            }
          }
        });
      }),
    );
  });
});

test('a column of ISO 4406 has the scale numbers of it', () => {
  fc.assert(
    fc.property(fc.array(fc.double({ min: 0, max: 1e12, noNaN: true })), (counts) => {
      const column = Float64Array.from(counts);
      expect([...(classifyColumns(iso4406, { 4: column }).columns[0]?.classes ?? [])]).toEqual([
        ...scaleNumbers(column),
      ]);
    }),
  );
});

test('without the smallest size a class of all columns is open, but where it is beyond the last', () => {
  const { open, worst } = classifyColumns(nas1638, { 14: Float64Array.of(1, 1e9), 21: Float64Array.of(0, 1) });
  expect([...open]).toEqual([1, 0]);
  expect(worst[1]).toBe(nas1638.classes.length);
});

test('every limit, and the doubles beside it', () => {
  for (const table of tables)
    for (const [i, column] of table.columns.entries()) {
      const size = column.from.iso11171;
      if (size === undefined || (table.counting === 'differential' && column.to !== undefined)) continue;
      const near = table.limits.flatMap((row) => {
        const limit = (row[i] ?? 1) / table.perVolumeMl;
        return [limit * (1 - 2 ** -52), limit, limit * (1 + 2 ** -52)];
      });
      const found = classifyColumns(table, { [size]: Float64Array.from(near) });
      near.forEach((count, k) => {
        const { evidence } = classify(table, cumulativeCounts({ [size]: count }));
        const index = found.columns[0]?.classes[k] as number;
        expect(table.limits[index]?.[i] ?? null).toBe(evidence[0]?.upTo);
      });
    }
});

const good = Float64Array.of(3, 2);
test.each<[string, string, () => unknown]>([
  ['counts_rise_with_size', 'perMl[6][1]', () => classifyColumns(iso4406, { 4: good, 6: Float64Array.of(3, 2.5) })],
  [
    'counts_rise_with_size',
    'perMl[14][1]',
    () => classifyColumns(iso4406, { 4: good, 6: Float64Array.of(1, Number.NaN), 14: Float64Array.of(1, 3) }),
  ],
  ['negative', 'perMl[4][0]', () => classifyColumns(iso4406, { 4: Float64Array.of(-1) })],
  ['infinite', 'perMl[4][1]', () => classifyColumns(iso4406, { 4: Float64Array.of(1, 1 / 0) })],
  ['out_of_range', 'perMl[4][0]', () => classifyColumns(iso4406, { 4: Float64Array.of(2e12) })],
  ['length_mismatch', 'perMl[6]', () => classifyColumns(iso4406, { 4: good, 6: Float64Array.of(1) })],
  ['wrong_type', 'perMl[4]', () => classifyColumns(iso4406, { 4: [1] as never })],
  ['wrong_type', 'perMl', () => classifyColumns(iso4406, { four: good } as never)],
  ['empty', 'perMl', () => classifyColumns(iso4406, {})],
  ['missing_size', 'perMl', () => classifyColumns(iso4406, { 5: good })],
  ['missing_size', 'perMl', () => classifyColumns(iso4406, { 4: good }, { columns: ['6'] })],
  ['unknown_sizing', 'options.sizing', () => classifyColumns(iso4406, { 4: good }, { sizing: 'mesh' as never })],
  ['sizing_not_convertible', 'options.sizing', () => classifyColumns(iso4406, { 5: good }, { sizing: 'microscope' })],
  ['unknown_option', 'options.column', () => classifyColumns(iso4406, { 4: good }, { column: ['4'] } as never)],
  ['wrong_type', 'options', () => classifyColumns(iso4406, { 4: good }, null as never)],
  ['unknown_option', 'options.columns[0]', () => classifyColumns(iso4406, { 4: good }, { columns: ['5'] })],
])('%s on %s', (code, parameter, call) => {
  expect(call).toThrowError(expect.objectContaining({ code, parameter }));
});

test('a count that rises over one not known is refused with the count it may not pass', () => {
  const columns = { 4: Float64Array.of(9, 1), 6: Float64Array.of(1, Number.NaN), 14: Float64Array.of(1, 3) };
  expect(() => classifyColumns(iso4406, columns)).toThrowError(expect.objectContaining({ expected: 'at most 1' }));
});
