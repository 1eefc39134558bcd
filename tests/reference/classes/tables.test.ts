import { describe, expect, test } from 'vitest';
import * as codes from '../../../src/codes/index.ts';
import { cumulativeCounts, type Sizing } from '../../../src/counts/index.ts';
import { nextDown, nextUp } from '../../doubles.ts';
import calibration from '../counts/calibration.json' with { type: 'json' };
import cc1246Reference from './cc1246.json' with { type: 'json' };
import { printedTables as tables } from './printedTables.ts';
import reference from './tables.json' with { type: 'json' };

describe.each(Object.entries(tables))('%s', (name, table) => {
  const printed = reference[name as keyof typeof tables];

  test('has the columns and classes as printed', () => {
    expect(table.columns.map((column) => column.label)).toEqual(printed.columns);
    expect(table.classes).toEqual(printed.classes);
    expect(table.perVolumeMl).toBe(printed.perVolumeMl);
  });

  test('is a table that classTable accepts', () => {
    expect(codes.classTable(table)).toEqual(table);
  });

  test('at every limit: the limit itself, the next double below and above', () => {
    table.limits.forEach((row, index) => {
      row.forEach((limit, column) => {
        const expected = (count: number) => table.limits.findIndex((limits) => count <= (limits[column] as number));
        for (const count of [limit as number, nextUp(limit as number), ...(limit ? [nextDown(limit)] : [])]) {
          const found = classOf(table, column, count);
          expect(found, `${table.classes[index]} ${printed.columns[column]} ${count}`).toBe(
            expected(count) < 0 ? `>${table.classes.at(-1)}` : table.classes[expected(count)],
          );
        }
      });
    });
  });
});

/** The class of a count in the table's own volume, in one column, with nothing in the columns of larger particles. */
function classOf(table: codes.ClassTable, column: number, count: number): string | null | undefined {
  const sizing = table.columns[0]?.from.microscope === undefined ? 'iso11171' : 'microscope';
  const { label, from, to } = table.columns[column] as codes.ClassColumn;
  const at = { [from[sizing] as number]: count, ...(to ? { [to[sizing] as number]: 0 } : {}) };
  // a table per 100 mL is asked per 100 mL, so that the double compared is the one named
  const perVolume = codes.classTable({ ...table, perVolumeMl: 1 });
  return codes.classify(perVolume, cumulativeCounts(at, { sizing }), { columns: [label] }).parts[column]?.class;
}

/** What a reference file says of the sizes of a table: by sizing, from and to of each column. */
type Sizes = Readonly<
  Record<string, { readonly source: object; readonly fromTo: readonly (readonly (number | null)[])[] }>
>;

/** The same of a table of the library. */
function sizesOf({ columns }: codes.ClassTable): Record<string, (number | null)[][]> {
  const sizings = [...new Set(columns.flatMap(({ from }) => Object.keys(from)))] as Sizing[];
  const found = sizings.map((sizing) => [
    sizing,
    columns.map(({ from, to }) => [from[sizing] ?? null, to?.[sizing] ?? null]),
  ]);
  return Object.fromEntries(found);
}

/** All copies of a table with one edge of one column changed by 2 %. */
function withOneEdgeChanged(table: codes.ClassTable): codes.ClassTable[] {
  return table.columns.flatMap((column, at) =>
    (['from', 'to'] as const).flatMap((end) =>
      Object.entries(column[end] ?? {}).map(([sizing, size]) => ({
        ...table,
        columns: table.columns.map((one, i) =>
          i === at ? { ...one, [end]: { ...one[end], [sizing]: size * 1.02 } } : one,
        ),
      })),
    ),
  );
}

const withSizes: [string, codes.ClassTable, Sizes][] = [
  ...Object.entries(tables).map(([name, table]): [string, codes.ClassTable, Sizes] => [
    name,
    table,
    reference[name as keyof typeof tables].sizes as Sizes,
  ]),
  ['gost17216', codes.gost17216, reference.gost17216.sizes],
  ['cc1246', codes.cc1246, cc1246Reference.sizes],
];

test('every table of a standard is here with its sizes', () => {
  expect(withSizes.map(([, table]) => table.id).sort()).toEqual(codes.standardTables.map(({ id }) => id).sort());
});

describe.each(withSizes)('the sizes of %s', (_name, table, printed) => {
  const known = Object.fromEntries(Object.entries(printed).map(([sizing, { fromTo }]) => [sizing, fromTo]));

  test('stand as their source has them, in each sizing and no other', () => {
    expect(sizesOf(table)).toEqual(known);
  });

  test('one edge changed by 2 % is noticed, whichever it is', () => {
    const changed = withOneEdgeChanged(table);
    expect(changed.length).toBeGreaterThan(0);
    for (const other of changed) expect(sizesOf(other)).not.toEqual(known);
  });

  test('that come from the table of corresponding sizes are its pairs', () => {
    const { source, fromTo } = printed.iso11171 ?? {};
    if (source === undefined || !JSON.stringify(source).includes('"ISO 11171"')) return;
    const pairs = new Map(calibration.pairs.map(([of4402, of11171]) => [of11171, of4402]));
    const paired = (size: number | null | undefined) => (typeof size === 'number' ? pairs.get(size) : null);
    (fromTo as readonly (readonly (number | null)[])[]).forEach(([from, to], i) => {
      if (from === null) return;
      expect([paired(from), paired(to)]).toEqual(printed.iso4402?.fromTo[i]);
    });
  });

  test('that one source alone has are told as such by the table', () => {
    const unconfirmed = 'unconfirmed' in (printed.iso11171 ?? {});
    expect((table.notes ?? []).some((note) => /one reproduction only/.test(note))).toBe(unconfirmed);
  });
});

test('GOST 17216: every cell, with the words apart', () => {
  const { gost17216 } = codes;
  const { cells, classes, columns, symbols } = reference.gost17216;
  expect(gost17216.classes).toEqual(classes);
  expect(gost17216.columns.map((column) => column.label)).toEqual(columns);
  cells.forEach((row, i) => {
    row.forEach((cell, j) => {
      const limit = gost17216.limits[i]?.[j];
      const wording = gost17216.wording?.[classes[i] as string]?.[columns[j] as string];
      if (typeof cell === 'number') expect([limit, wording]).toEqual([cell, undefined]);
      else if (cell === null) expect([limit, wording]).toEqual([null, 'blank']);
      else expect([limit, wording]).toEqual([cell === 'nn' ? null : 0, symbols[cell as keyof typeof symbols]]);
    });
  });
  expect(codes.classTable(gost17216)).toEqual(gost17216);
});

test('NAS 1638 running sums from the largest range down equal AS4059 Table 2 columns B to F', () => {
  codes.nas1638.classes.forEach((name, i) => {
    let sum = 0;
    const sums = [...(codes.nas1638.limits[i] as number[])].reverse().map((limit) => (sum += limit));
    const row = codes.as4059Cumulative.limits[codes.as4059Cumulative.classes.indexOf(name)];
    expect(sums.reverse(), name).toEqual(row?.slice(1));
  });
});

test('NAS 1638 and AS4059 Table 1 set the same limits; SAE 749D and the Navy classes too', () => {
  expect(codes.nas1638.limits).toEqual(codes.as4059Differential.limits);
  expect(codes.sae749d.limits).toEqual(codes.navair.limits);
});

describe('IEST-STD-CC1246', () => {
  const { published } = cc1246Reference;

  test('every cell of the table is the formula, rounded as printed', () => {
    const printed = (count: number) =>
      count >= 10 ? Math.round(count) : count >= 1 ? Math.round(count * 10) / 10 : Number(count.toPrecision(3));
    codes.cc1246.limits.forEach((row, i) => {
      row.forEach((limit, j) => {
        const formula = codes.cc1246Count(Number(codes.cc1246.classes[i]), Number(codes.cc1246.columns[j]?.label));
        expect(limit, `level ${i} size ${j}`).toBe(printed(formula));
      });
    });
    expect(codes.classTable(codes.cc1246)).toEqual(codes.cc1246);
  });

  test('the published row of level 100 is level 100', () => {
    const at = { ...published.counts, 100: 1 };
    const counts = cumulativeCounts(at, { sizing: 'microscope', per: '100mL' });
    expect(codes.classify(codes.cc1246, counts, { columns: ['5', '15', '25', '50', '100'] }).text).toBe('100');
  });

  test('the level of a count returns to the count', () => {
    for (const level of [1, 3.7, 25, 100, 640, 1000]) {
      const size = Math.min(level, 15);
      expect(codes.cc1246Level(codes.cc1246Count(level, size), size)).toBeCloseTo(level, 9);
    }
    expect(codes.cc1246Level(0, 5)).toBeNull();
  });

  test('from end to end of the range, a level allows one particle of its own size: log10 1 is 0', () => {
    for (const level of [1, 1000]) {
      expect(codes.cc1246Count(level, level)).toBe(1);
      expect(codes.cc1246Level(1, level)).toBeCloseTo(level, 9);
    }
  });
});
