/**
 * Tables are data: nobody can change the exported ones, what a function needs of a table is checked, and a new one
 * needs nothing but itself.
 */
import { build } from 'esbuild';
import { describe, expect, test } from 'vitest';
import * as codes from '../../../src/codes/index.ts';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import { isMotescaleError } from '../../../src/errors.ts';
import { advanceMonitor, prepareMonitor, startMonitor } from '../../../src/monitor/index.ts';
import { reportReading } from '../../../src/report/index.ts';
import reference from '../../reference/classes/tables.json' with { type: 'json' };

const { classify, iso4406, nas1638, standardTables } = codes;
const counts = cumulativeCounts({ 4: 18900, 6: 4020, 14: 330, 21: 60, 38: 8, 70: 1 }, { volumeMl: 10 });

function isTable(value: unknown): value is codes.ClassTable {
  return typeof value === 'object' && value !== null && 'limits' in value && 'classes' in value;
}

describe('standardTables', () => {
  test('are all tables that the entry exports, each with a standard, an id of its own and reference figures', () => {
    const exported = Object.entries(codes).filter(([, value]) => isTable(value));
    expect(new Set(standardTables)).toEqual(new Set(exported.map(([, table]) => table)));
    expect(standardTables).toHaveLength(exported.length);
    for (const [name, table] of exported as [string, codes.ClassTable][]) {
      expect(table.id).toBe(name);
      expect(table.standard).toMatch(/./);
      if (name !== 'cc1246') expect(reference).toHaveProperty(name);
    }
  });

  test('nobody can change them, nor a checked table of one’s own', () => {
    const changes: ((table: codes.ClassTable) => unknown)[] = [
      ({ limits }) => ((limits as number[][])[0] as number[]).splice(0, 1, 1e9),
      ({ limits }) => (limits as number[][]).pop(),
      ({ classes }) => (classes as string[]).push('x'),
      ({ columns }) => Object.assign(columns[0] as object, { label: 'x' }),
      ({ columns }) => Object.assign((columns[0] as codes.ClassColumn).from, { iso11171: 5 }),
      ({ source }) => Object.assign(source, { standing: 'published!' }),
      (table) => Object.assign(table, { perVolumeMl: 1000 }),
    ];
    const own = codes.classTable({ ...nas1638, id: 'own', notes: ['a'], wording: { '0': { '5-15': 'few' } } });
    for (const table of [...standardTables, own])
      for (const change of changes) expect(() => change(table)).toThrow(TypeError);
    expect(() => Object.assign(own.wording as object, { x: {} })).toThrow(TypeError);
    expect(() => (own.notes as string[]).push('b')).toThrow(TypeError);
    expect(() => (standardTables as unknown[]).pop()).toThrow(TypeError);
  });

  test('a bundle with one table carries no other', async () => {
    const contents = `import { classify, iso4406 } from './src/codes/index.ts';
      console.log(classify(iso4406, globalThis.counts));`;
    const options = {
      stdin: { contents, resolveDir: process.cwd() },
      bundle: true,
      minify: true,
      write: false,
    } as const;
    const text = (await build({ ...options, format: 'esm' })).outputFiles[0]?.text ?? '';
    expect(text).toContain('ISO 4406');
    expect(text).not.toMatch(/NAS 1638|AS4059|GOST|CC1246|SAE 749D|Navy/);
  });
});

describe('what a function needs of a table', () => {
  const row = nas1638.limits[0] as number[];
  const withLimit = (limit: unknown) => ({
    ...nas1638,
    limits: [[limit, ...row.slice(1)], ...nas1638.limits.slice(1)],
  });
  const withColumn = (column: object) => ({
    ...nas1638,
    columns: [{ ...nas1638.columns[0], ...column }, ...nas1638.columns.slice(1)],
  });
  const broken: [string, object][] = [
    ...[undefined, Number.NaN, 10, 10n, Symbol('x'), '100', null].flatMap((value): [string, object][] => [
      [`perVolumeMl ${String(value)}`, { ...nas1638, perVolumeMl: value }],
    ]),
    ...[undefined, Number.NaN, Infinity, -1, 10n, Symbol('x'), '100'].flatMap((value): [string, object][] => [
      [`a limit ${String(value)}`, withLimit(value)],
      [`a size ${String(value)}`, withColumn({ from: { iso11171: value === undefined ? 0 : value } })],
    ]),
    ...[undefined, null, 5, 10n, Symbol('x')].flatMap((value): [string, object][] => [
      [`id ${String(value)}`, { ...nas1638, id: value }],
      [`title ${String(value)}`, { ...nas1638, title: value }],
      [`a class ${String(value)}`, { ...nas1638, classes: [value, ...nas1638.classes.slice(1)] }],
      [`a label ${String(value)}`, withColumn({ label: value })],
      [`columns ${String(value)}`, { ...nas1638, columns: value }],
      [`limits ${String(value)}`, { ...nas1638, limits: value }],
    ]),
    ...[5n, Symbol('x'), '20'].map((value): [string, object] => [
      `fewCounted ${String(value)}`,
      { ...nas1638, fewCounted: value },
    ]),
    ...[5, Symbol('x')].map((value): [string, object] => [
      `elsewhere ${String(value)}`,
      { ...nas1638, elsewhere: value },
    ]),
    ...[5, Symbol('x'), 'words'].map((value): [string, object] => [
      `notation ${String(value)}`,
      { ...nas1638, notation: value },
    ]),
  ];

  test.each(broken)('%s is refused', (_what, table) => {
    const given = table as codes.ClassTable;
    const refused: (() => unknown)[] = [
      () => classify(given, counts),
      () => codes.possibleClasses(given, counts),
      () => codes.likelyClasses(given, counts),
      () => codes.codeInterval(given, counts),
      () => codes.meets(given, '00', counts),
      () => codes.guaranteeingCode(given, '00'),
      () => codes.limitsOf(given, '00'),
    ];
    for (const [i, run] of refused.entries()) {
      let thrown: unknown;
      try {
        run();
      } catch (error) {
        thrown = error;
      }
      expect(isMotescaleError(thrown), `${i}: ${String(thrown)}`).toBe(true);
    }
  });

  test('a table that is none, with columns named', () => {
    for (const table of [undefined, null, 5, {}]) {
      const judged = () => codes.meets(table as never, '6', counts, { columns: ['5-15'] });
      expect(judged).toThrow(expect.objectContaining({ code: 'wrong_type', parameter: 'table' }));
    }
  });
});

test('a new table is one piece of data: it is read, written, compared, watched and reported like the others', () => {
  const gate: codes.ClassTable = {
    id: 'gateOil',
    standard: 'Lock gate oil 7',
    title: 'Lock gate oil, sheet 7',
    source: { document: 'Lock gate oil', edition: '7', place: 'sheet 7', standing: 'common practice' },
    counting: 'differential',
    perVolumeMl: 100,
    columns: [
      { label: '6-14', from: { iso11171: 6 }, to: { iso11171: 14 } },
      { label: '>14', from: { iso11171: 14 } },
    ],
    classes: ['clean', 'run', 'filter'],
    limits: [
      [1000, 100],
      [40000, 8000],
      [400000, 40000],
    ],
  };
  const table = codes.classTable(gate);
  expect(classify(table, counts).text).toBe('run');
  expect(codes.formatCode(table, codes.parseCode(table, 'filter'))).toBe('filter');
  expect(codes.possibleClasses(table, codes.limitsOf(iso4406, '18/16/13'))).toMatchObject({
    lowest: 'run',
    highest: 'filter',
  });
  expect(codes.likelyClasses(table, counts)).toMatchObject({ lowest: 'run', highest: 'run' });
  expect(codes.guaranteeingCode(table, 'run').code.text).toBe('-/15/13');
  const prepared = prepareMonitor({ codes: [{ table, target: 'run' }] });
  const reading = { time: 5, counts };
  const { verdict } = advanceMonitor(prepared, startMonitor(prepared), reading);
  expect(reportReading(reading, verdict as NonNullable<typeof verdict>).codes).toEqual({ 'Lock gate oil 7': 'run' });
});

describe('classTable refuses ranges that do not meet', () => {
  const [first, second, ...rest] = nas1638.columns as [codes.ClassColumn, codes.ClassColumn, ...codes.ClassColumn[]];
  test.each<[string, string, object]>([
    ['a gap', 'own.columns[0].to.iso11171', { ...first, to: { ...first.to, iso11171: 13 } }],
    ['an overlap', 'own.columns[0].to.microscope', { ...first, to: { ...first.to, microscope: 16 } }],
    ['an open range before the last', 'own.columns[0].to', { label: '5-15', from: first.from }],
  ])('%s', (_what, parameter, column) => {
    const own = () => codes.classTable({ ...nas1638, columns: [column as codes.ClassColumn, second, ...rest] });
    expect(own).toThrow(expect.objectContaining({ code: 'bad_table', parameter }));
  });

  test('members of another name', () => {
    const own = (columns: object) => () =>
      codes.classTable({ ...nas1638, columns: [{ ...first, ...columns }, second, ...rest] as never });
    expect(own({ size: 5 })).toThrow(
      expect.objectContaining({ code: 'unknown_option', parameter: 'own.columns[0].size' }),
    );
    expect(own({ to: { ...first.to, iso11171b: 9 } })).toThrow(
      expect.objectContaining({ code: 'unknown_option', parameter: 'own.columns[0].to.iso11171b' }),
    );
  });
});
