/** Every printed cell of the class tables, their heads, worked codes, and printed correspondence. */
import * as codes from '../../../src/codes/index.ts';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import { type Cited, type Row, rowsOf, type Value, value } from '../ledger.ts';
import as4059Examples from './as4059-examples.json' with { type: 'json' };
import cc1246 from './cc1246.json' with { type: 'json' };
import correspondence from './correspondence.json' with { type: 'json' };
import gostSecond from './gost-second-transcription.json' with { type: 'json' };
import isoExamples from './iso4406-examples.json' with { type: 'json' };
import { printedTables as standards } from './printedTables.ts';
import reference from './tables.json' with { type: 'json' };

const tables: Readonly<Record<string, codes.ClassTable>> = standards;

/** Tables that print the limits of another document again. ISO 4406 prints one column of limits for all sizes. */
const reprints: Readonly<Record<string, (column: number) => boolean>> = {
  iso4406: (column) => column > 0,
  iso4406Microscope: () => true,
  as4059Differential: () => true, // the limits of NAS 1638
  navair: () => true, // the limits of SAE 749D
};

interface PrintedTable extends Cited {
  readonly columns: readonly string[];
  readonly classes: readonly string[];
  readonly limits: readonly (readonly (number | null)[])[];
  readonly sizes: Readonly<Record<string, Pick<Cited, 'source'> & { readonly fromTo: (number | null)[][] }>>;
}

function cells(name: string, printed: PrintedTable): Row[] {
  return printed.classes.flatMap((className, i) =>
    printed.columns.flatMap((column, j) => {
      const standing = reprints[name]?.(j) ? 'reprint' : printed.standing;
      const limit = printed.limits[i]?.[j] as number;
      return rowsOf({ source: printed.source, standing }, [
        value(name, { class: className, column }, limit, 0, () => tables[name]?.limits[i]?.[j]),
      ]);
    }),
  );
}

/** The sizes that the document itself prints at the heads of its columns. */
function heads(name: string, printed: PrintedTable): Row[] {
  return Object.entries(printed.sizes)
    .filter(([sizing, { source }]) => source.document === printed.source.document && sizing !== 'iso4402')
    .flatMap(([sizing, { source, fromTo }]) =>
      rowsOf(
        { source, standing: name === 'navair' ? 'reprint' : printed.standing },
        fromTo.map(([from], i) =>
          value(
            name,
            { sizing, column: printed.columns[i] },
            from as number,
            0,
            () => tables[name]?.columns[i]?.from[sizing as 'microscope'],
          ),
        ),
      ),
    );
}

function gost(): Row[] {
  const { classes, columns, limits } = codes.gost17216;
  const printed: Readonly<Record<string, Readonly<Record<string, number>>>> = gostSecond.limits.rows;
  return rowsOf(
    gostSecond.limits,
    Object.entries(printed).flatMap(([className, row]) =>
      Object.entries(row).map(([column, limit]) =>
        value('gost17216', { class: className, column }, limit, 0, () => {
          const j = columns.findIndex(({ label }) => label === column);
          return limits[classes.indexOf(className)]?.[j];
        }),
      ),
    ),
  );
}

/** Counts by the level formula: whole numbers as printed, and worked out apart from the library. */
function levels(): Row[] {
  const { published, computed, slope, level: definition } = cc1246;
  const order = (size: number) => Math.log10(size) * Math.log10(size);
  const totals = reference.navair.printedTotals.map((total, i) =>
    value('navair', { class: codes.navair.classes[i], column: 'total' }, total, 0, () =>
      (codes.navair.limits[i] as number[]).reduce((a, b) => a + b),
    ),
  );
  return [
    ...rowsOf(reference.navair, totals),
    ...rowsOf(
      published,
      Object.entries(published.counts).map(([size, count]) =>
        value('cc1246Count', { level: published.level, size }, count, 0.5, () =>
          codes.cc1246Count(published.level, Number(size)),
        ),
      ),
    ),
    ...rowsOf(slope, [
      value('cc1246Count', 'slope', slope.slope, 0.0005, () => {
        const [many, few] = [codes.cc1246Count(200, 5), codes.cc1246Count(200, 50)];
        return Math.log10(many / few) / (order(50) - order(5));
      }),
    ]),
    ...rowsOf(
      definition,
      definition.levels.map((level) =>
        value('cc1246Count', { level }, 1, 1e-12, () => codes.cc1246Count(level, level)),
      ),
    ),
    ...rowsOf(
      computed,
      Object.entries(computed.levels).flatMap(([level, row]) =>
        Object.entries(row as Record<string, number>).map(([size, count]) =>
          value('cc1246Count', { level, size }, count, 0.0005001, () => codes.cc1246Count(Number(level), Number(size))),
        ),
      ),
    ),
  ];
}

interface Example extends Cited {
  readonly code: string;
  readonly written?: string;
  readonly printed?: string;
  readonly table: string;
  readonly bandsPerMl?: Readonly<Record<string, readonly number[]>>;
  readonly countsPerMl?: Readonly<Record<string, number>>;
  readonly countsPer100Ml?: Readonly<Record<string, number>>;
}

function worked(example: Example): Row[] {
  const table = example.table === 'iso4406' ? codes.iso4406 : codes.iso4406Microscope;
  const sizing = example.table === 'iso4406' ? 'iso11171' : 'microscope';
  const { bandsPerMl, countsPerMl, countsPer100Ml, printed, code } = example;
  const given = countsPerMl ?? countsPer100Ml;
  const fromCounts: Value[] =
    given === undefined || printed !== undefined
      ? []
      : [
          value('classify', given, code, 0, () => {
            const per = countsPerMl ? 'mL' : '100mL';
            return codes.classify(table, cumulativeCounts(given, { sizing, per })).text;
          }),
        ];
  const bands = Object.entries(bandsPerMl ?? {}).flatMap(([size, limits]) =>
    (['above', 'upTo'] as const).map((end, i) =>
      value('limitsOf', { code, size, end }, limits[i] as number, 0, () => {
        return codes.limitsOf(table, code).bands.find(({ from }) => from === Number(size))?.[end];
      }),
    ),
  );
  // the limits of an example are those of the table, printed there
  return [...rowsOf(example, fromCounts), ...rowsOf({ ...example, standing: 'reprint' }, bands)];
}

function as4059Codes(): Row[] {
  const sizes: Readonly<Record<string, number>> = { B: 5, C: 15, D: 25, E: 50, F: 100 };
  return as4059Examples.flatMap(({ code, upToPer100Ml, ...cited }) =>
    rowsOf(
      { ...cited, standing: 'reprint' },
      Object.entries(upToPer100Ml as Record<string, number>).map(([letter, limit]) =>
        value('limitsOf', { code, column: letter }, limit / 100, 0, () => {
          const { bands } = codes.limitsOf(codes.as4059Cumulative, code, 'microscope');
          return bands.find(({ from }) => from === sizes[letter])?.upTo ?? undefined;
        }),
      ),
    ),
  );
}

/** A class printed beside a code: within one class of those that the library calls likely. */
function corresponding(): Row[] {
  return Object.values(correspondence).flatMap(({ to, rows: printed, ...cited }) => {
    const table = (codes as unknown as Readonly<Record<string, codes.ClassTable>>)[to] as codes.ClassTable;
    const index = (name: string) => (name.startsWith('>') ? table.classes.length : table.classes.indexOf(name));
    return rowsOf(
      cited,
      (printed as [string, string][]).map(([code, className]) =>
        value('likelyClasses', { code, to, class: className }, index(className), 1, () => {
          const known = codes.limitsOf(code.split('/').length === 3 ? codes.iso4406 : codes.iso4406Microscope, code);
          const { lowest, highest } = codes.likelyClasses(table, known);
          return Math.min(Math.max(index(className), index(lowest)), index(highest));
        }),
      ),
    );
  });
}

const printedTables = Object.keys(tables).map((name): [string, PrintedTable] => [
  name,
  reference[name as keyof typeof reference] as unknown as PrintedTable,
]);

export const rows: readonly Row[] = [
  ...printedTables.flatMap(([name, printed]) => [...cells(name, printed), ...heads(name, printed)]),
  ...gost(),
  ...levels(),
  ...(isoExamples as readonly Example[]).flatMap(worked),
  ...as4059Codes(),
  ...corresponding(),
];
