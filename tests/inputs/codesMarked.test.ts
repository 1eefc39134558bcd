/** What is said of columns without a count, of tables that are none, and of codes that bound nothing. */
import { describe, expect, test } from 'vitest';
import {
  type ClassTable,
  classify,
  classifyColumns,
  classTable,
  compareCodes,
  guaranteeingCode,
  iso4406,
  iso4406Microscope,
  limitsOf,
  nas1638,
  parseCode,
  possibleClasses,
  subtractBlank,
  targetProbability,
} from '../../src/codes/index.ts';
import { cumulativeCounts } from '../../src/counts/index.ts';
import { expectRefused } from './refused.ts';

test('a column that is not counted, in a code of scale numbers and in one class for all', () => {
  const small = cumulativeCounts({ 4: 1890, 6: 402 });
  expect(classify(iso4406, small).parts.map(({ mark }) => mark)).toEqual([undefined, undefined, 'not_counted']);
  const { parts } = classify(nas1638, cumulativeCounts({ 6: 402, 14: 33 }));
  // 33 per mL from 14 µm on are too few to make the next column worse, and enough for the three beyond
  expect(parts.map(({ mark }) => mark)).toEqual([undefined, 'no_dirtier', 'or_dirtier', 'or_dirtier', 'or_dirtier']);
  // of no particle from 14 µm on, none larger need be counted
  const none = classify(nas1638, cumulativeCounts({ 6: 402, 14: 0 }));
  expect(none.parts.map(({ mark }) => mark)).toEqual([
    undefined,
    'no_dirtier',
    'no_dirtier',
    'no_dirtier',
    'no_dirtier',
  ]);
});

test('a column that nobody asked for is not counted, whatever the others say', () => {
  const { parts } = classify(nas1638, cumulativeCounts({ 6: 402, 14: 0 }), { columns: ['5-15'] });
  expect(parts.slice(1).map(({ mark }) => mark)).toEqual(Array(4).fill('not_counted'));
});

test('a table of which one size of several is none', () => {
  const own = { ...nas1638, columns: nas1638.columns.map((column) => ({ ...column, from: { ...column.from } })) };
  expect(classify(own, cumulativeCounts({ 6: 402, 14: 33, 21: 5, 38: 1, 70: 0 })).worst).toBe('8');
  Object.assign(own.columns[0]?.from as object, { iso4402: Number.NaN });
  expectRefused('wrong_type', 'table', 'a class table', () => classify(own, cumulativeCounts({ 6: 402 })));
});

test('a class beyond the last, with blanks in between', () => {
  for (const text of ['>12', '> 12', '>   12'])
    expect(parseCode(nas1638, text).parts[0]).toMatchObject({ class: '>12' });
});

test('columns of other lengths are named', () => {
  const perMl = { 4: Float64Array.of(1890, 1890), 6: Float64Array.of(402) };
  expectRefused('length_mismatch', 'perMl[6]', '2 counts, as the others', () => classifyColumns(iso4406, perMl));
});

test('a sizing that a table lacks, with and without a hint where it is', () => {
  const microscope = cumulativeCounts({ 5: 402, 15: 33 }, { sizing: 'iso4402' });
  const refuse = (table: ClassTable, words: string) =>
    expectRefused('sizing_not_convertible', 'counts.sizing', words, () => classify(table, microscope));
  refuse(iso4406, `one of 'iso11171', the sizings of ${iso4406.title}; ${iso4406.elsewhere}`);
  const { elsewhere: _elsewhere, ...plain } = iso4406;
  refuse(classTable({ ...plain, id: 'own', title: 'own table' }), "one of 'iso11171', the sizings of own table");
});

test('no code guarantees a class that limits nothing between 4 and 14 µm(c)', () => {
  const large = classTable({
    id: 'large',
    title: 'large particles',
    counting: 'cumulative',
    perVolumeMl: 100,
    columns: [{ label: '25', from: { iso11171: 25 } }],
    classes: ['1', '2'],
    limits: [[10], [20]],
    source: nas1638.source,
  });
  expectRefused('no_answer', 'table', 'a limit between 4 and 14', () => guaranteeingCode(large, '1'));
});

describe('bands', () => {
  test('a part that bounds nothing has none', () => {
    expect(limitsOf(iso4406, '18/16/-').bands.map(({ from }) => from)).toEqual([4, 6]);
    expect(limitsOf(nas1638, '>12').bands).toEqual([]);
  });

  test('a class over all columns is one of a column', () => {
    const compared = compareCodes({ table: nas1638, code: '2' }, { table: iso4406Microscope, code: '-/7/1' });
    expect(compared.possible).toBe(false);
  });
});

test('counts beside a volume have no other members', () => {
  const count = { counted: 40, volumeMl: 10, dilution: 2 };
  const sample = { counted: 400, volumeMl: 10 };
  expect(() => subtractBlank(sample, count)).toThrow(/^blank\.dilution: .*one of 'counted', 'volumeMl'$/);
});

test('how likely a target is met that asks nothing of the column judged', () => {
  const counts = cumulativeCounts({ 4: 18900, 6: 4020, 14: 330 }, { volumeMl: 10 });
  const told = targetProbability(iso4406, '18/-/-', counts, {}, { columns: ['6'] });
  expect(told).toEqual({ probability: null, atLeast: 0, atMost: 1, columns: [], missing: [] });
});

test('a volume with raw counts that are not there bounds as counts per mL do', () => {
  const counts = cumulativeCounts({ 4: 1890, 6: 402, 14: 33 });
  const odd = { ...counts, counted: undefined, volumeMl: 10 } as never;
  expect(possibleClasses(nas1638, odd)).toEqual(possibleClasses(nas1638, counts));
});
