/** Codes and counts at their edges: tables nobody checked, engines without typed arrays, sums that leave the range. */
import { describe, expect, test } from 'vitest';
import * as codes from '../../src/codes/index.ts';
import { isSound, riseWithSize } from '../../src/counts/checkCounts.ts';
import { cumulativeCounts, type DifferentialCounts, fromDifferential } from '../../src/counts/index.ts';
import { blendLines } from '../../src/viscosity/index.ts';
import { expectRefused, type Refused } from './refused.ts';

const { iso4406, nas1638 } = codes;
const any = (value: unknown) => value as never;
const raw = cumulativeCounts({ 4: 4500, 6: 240, 14: 6 }, { volumeMl: 10 });
const ranges = (list: DifferentialCounts['ranges']) => fromDifferential({ sizing: 'iso11171', ranges: list });
const line = { a: 9, b: 3.5, form: 'short' as const };

/** One cumulative column of which the two dirtiest classes set no limit. */
const open = codes.classTable({
  id: 'open',
  title: 'Open',
  counting: 'cumulative',
  perVolumeMl: 1,
  notation: 'scale_numbers',
  columns: [{ label: '6', from: { iso11171: 6 } }],
  classes: ['a', 'b', 'c', 'd'],
  limits: [[10], [10], [null], [null]],
});
const fibres = codes.classTable({ ...open, id: 'fibres', columns: [{ label: 'fibres', from: {} }] });
const many = {
  ...open,
  classes: Array.from({ length: 32001 }, (_, i) => `c${i}`),
  limits: Array.from({ length: 32001 }, (_, i) => [i]),
};

const refused: readonly Refused[] = [
  [
    'missing_size',
    'counts.sizes',
    'in µm(c): 4 (4), 6 (6), 14 (14); microscope and ISO 4402 counts need sizing; likely',
    () => codes.codeInterval(iso4406, { ...raw, sizes: [5, 7, 15] }),
  ],
  [
    'wrong_type',
    'known.bands',
    'an array of bands',
    () => codes.possibleClasses(nas1638, any({ sizing: 'iso11171', bands: 5 })),
  ],
  ['wrong_type', 'into', 'a Uint8Array', () => codes.scaleNumbers(Float64Array.of(1), any([0]))],
  ['length_mismatch', 'into', 'at least 2 bytes', () => codes.scaleNumbers(Float64Array.of(1, 2), new Uint8Array(1))],
  ['sizing_not_convertible', 'sizing', 'the sizings of Open', () => codes.limitsOf(fibres, 'a')],
  [
    'out_of_range',
    'table.classes',
    'at most 32000 classes',
    () => codes.classifyColumns(many, { 6: Float64Array.of(1) }),
  ],
  [
    'sizes_out_of_order',
    'counts.ranges[1].from',
    'a size above 14',
    () =>
      ranges([
        { from: 14, to: 6, perMl: 1 },
        { from: 6, to: null, perMl: 1 },
      ]),
  ],
  [
    'out_of_range',
    'counts.ranges[0].perMl',
    '1000000000000',
    () =>
      ranges([
        { from: 6, to: 14, perMl: 6e11 },
        { from: 14, to: null, perMl: 6e11 },
      ]),
  ],
  [
    'out_of_range',
    'parts',
    'lines as viscosityLine makes them',
    () => blendLines([{ fraction: 1, line: { ...line, a: 1e300, b: 1e-50 } }]),
  ],
];

test.each(refused)('%s of %s: %s', expectRefused);

test.each([
  ['scaleNumbers', 'scaleNumber works on all', () => codes.scaleNumbers(any([1]))],
  ['classifyColumns', 'classify works on all', () => codes.classifyColumns(iso4406, any({ 4: [1] }))],
])('on an engine without typed arrays %s says what works there', (_name, words, call) => {
  const own = globalThis.Float64Array;
  globalThis.Float64Array = any(undefined);
  try {
    expectRefused('wrong_type', 'perMl', `an engine with typed arrays; ${words}`, call);
  } finally {
    globalThis.Float64Array = own;
  }
});

test('as many classes as an Int16Array can number are taken', () => {
  const most = { ...many, classes: many.classes.slice(1), limits: many.limits.slice(1) };
  expect(codes.classifyColumns(most, { 6: Float64Array.of(3, 31999.5, 32001) }).worst).toEqual(
    Int16Array.of(2, 31999, 32000),
  );
});

test('a table that nobody checked, without a notation, is written as one worst class', () => {
  const { notation, ...plain } = nas1638;
  const counts = cumulativeCounts({ 6: 402, 14: 33, 21: 5, 38: 0.5, 70: 0 });
  expect(notation).toBe('single');
  expect(codes.classify(plain, counts)).toEqual(codes.classify(nas1638, counts));
});

test('a code of which nothing is known is written -', () => {
  for (const table of [nas1638, codes.as4059Cumulative]) {
    const parts = table.columns.map(({ label: column }) => ({ column, class: null, mark: 'not_counted' as const }));
    expect(codes.formatCode(table, { table: table.id, parts, text: '' })).toBe('-');
  }
});

test('limits of classes that share one, or that set none', () => {
  const bandOf = (code: string) => codes.limitsOf(open, code).bands[0];
  expect(bandOf('a')).toEqual({ from: 6, to: null, above: 0, upTo: 10 });
  expect(bandOf('b')).toEqual({ from: 6, to: null, above: 0, upTo: 10 });
  expect(bandOf('c')).toEqual({ from: 6, to: null, above: 10, upTo: null });
  // the class before takes every count
  expect(bandOf('d')).toEqual({ from: 6, to: null, above: 0, upTo: null });
});

test('a limit too small for a double of particles is met with no chance, and with a number', () => {
  const tiny = codes.classTable({ ...open, id: 'tiny', limits: [[5e-324], [10], [20], [30]] });
  for (const counted of [0, 5, 2000]) {
    const counts = cumulativeCounts({ 6: counted }, { volumeMl: 0.01 });
    expect(codes.targetProbability(tiny, 'a', counts).probability).toBe(0);
    const [column] = codes.codeUncertainty(tiny, counts).columns;
    expect(column?.probabilities.reduce((sum, { probability }) => sum + probability, 0)).toBeCloseTo(1, 12);
  }
});

test('a target beyond the last class sets no limit, and is not missed', () => {
  const found = codes.targetProbability(iso4406, '>28/16/13', raw);
  expect(found.columns.map(({ column }) => column)).toEqual(['6', '14']);
  expect(found.missing).toEqual([]);
});

test('raw counts that rise where counts per mL are too near to tell', () => {
  expect(riseWithSize({ ...raw, perMl: [9, 9, 8], counted: [2e9, 2e9 + 1, 8] })).toBe(true);
  expect(riseWithSize({ ...raw, perMl: [9, 9, 8], counted: [9, 9, 8] })).toBe(false);
});

test('an error of the caller passes through the check of counts', () => {
  const own = new Proxy(raw, {
    get: () => {
      throw new RangeError('own');
    },
  });
  expect(() => isSound(own, false)).toThrow(RangeError);
  expect([isSound(raw, false), isSound({ ...raw, perMl: [1, 2, 3] }, false)]).toEqual([true, false]);
});

describe('a table that nobody checked', () => {
  const plain = JSON.parse(JSON.stringify({ ...open, elsewhere: 'there', fewCounted: 5 }));
  const column = plain.columns[0];
  const counts = cumulativeCounts({ 6: 7 });

  test.each<[string, object]>([
    ['an id that is no text', { id: 5 }],
    ['a title that is no text', { title: null }],
    ['a place elsewhere that is no text', { elsewhere: 5 }],
    ['another volume', { perVolumeMl: 10 }],
    ['another notation', { notation: 'roman' }],
    ['half a particle', { fewCounted: 0.5 }],
    ['fewer than none', { fewCounted: -1 }],
    ['no columns', { columns: [] }],
    ['columns that are none', { columns: 'ab' }],
    ['a column that is none', { columns: [null] }],
    ['a hole for a column', { columns: new Array(1) }],
    ['a label that is no text', { columns: [{ ...column, label: 6 }] }],
    ['sizes that are none', { columns: [{ ...column, from: 6 }] }],
    ['a size that is none', { columns: [{ ...column, from: { iso11171: 0 } }] }],
    ['an upper end that is none', { columns: [{ ...column, to: { iso11171: '9' } }] }],
    ['no classes', { classes: [], limits: [] }],
    ['a class that is no text', { classes: ['a', 'b', 'c', 4] }],
    ['a row too few', { limits: plain.limits.slice(1) }],
    ['a row too many', { limits: [[1], ...plain.limits] }],
    ['a limit too many', { limits: plain.limits.map((row: number[]) => [...row, 1]) }],
    ['a row that is none', { limits: [10, 10, null, null] }],
    ['a limit below 0', { limits: [[-1], [10], [null], [null]] }],
    ['a limit that is no number', { limits: [[Number.NaN], [10], [null], [null]] }],
    ['a limit as text', { limits: [['1'], [10], [null], [null]] }],
    ['a limit without end', { limits: [[1], [Infinity], [null], [null]] }],
    ['a limit left out', { limits: [[1], [undefined], [null], [null]] }],
  ])('is refused for %s', (_name, change) => {
    expectRefused('wrong_type', 'table', 'a class table from classTable', () =>
      codes.classify({ ...plain, ...change }, counts),
    );
  });

  test.each<[string, object]>([
    ['as it is', {}],
    ['without a place elsewhere', { elsewhere: undefined }],
    ['with no count few', { fewCounted: 0 }],
    ['with a limit of 0', { limits: [[0], [10], [null], [null]] }],
    ['of 100 mL', { perVolumeMl: 100 }],
    ['with an upper end', { columns: [{ ...column, to: { iso4402: 9 } }] }],
  ])('is taken %s', (_name, change) => {
    const found = () => codes.possibleClasses({ ...plain, ...change }, counts);
    expect(found).not.toThrow();
  });

  test('changes nothing of a checked one: what it was made of is copied', () => {
    const words = { a: { '6': 'few' } };
    const made = { ...plain, notes: ['first'], wording: words, source: { ...open.source } };
    const table = codes.classTable(made);
    const before = JSON.stringify(table);
    made.notes.push('second');
    words.a['6'] = 'many';
    made.source.document = 'another';
    made.columns[0].label = 'x';
    made.columns[0].from.iso11171 = 1;
    made.classes[0] = 'x';
    made.limits[0][0] = 1;
    expect(JSON.stringify(table)).toBe(before);
    expect(table.notes).toEqual(['first']);
    expect(table.wording).toEqual({ a: { '6': 'few' } });
  });
});

test('more sizes than a counter has are refused with their number', () => {
  const many = Object.fromEntries(Array.from({ length: 1001 }, (_, i) => [i + 1, 1]));
  expect(() => cumulativeCounts(many)).toThrow(expect.objectContaining({ received: '1001' }));
});
