/** Bad input to codes/: each its own error code, with the parameter, what came, and what would be right. */
import { describe, expect, test } from 'vitest';
import * as codes from '../../src/codes/index.ts';
import { cumulativeCounts, isMotescaleError } from '../../src/counts/index.ts';
import { problemsOf } from '../../src/errors.ts';
import { classifyExact } from '../../src/exact/index.ts';
import { ownTable as own } from './ownTable.ts';
import { expectRefused } from './refused.ts';

const good = cumulativeCounts({ 4: 1890, 6: 402, 14: 33 });
const any = (value: unknown) => value as never;
const parsed = codes.parseCode(codes.iso4406, '18/16/13');
const letters = [
  { label: 'A', from: { iso11171: 6 } },
  { label: 'B', from: { iso11171: 14 } },
];
const table = (change: object) => () => codes.classTable({ ...own, ...change });

const cases: readonly [string, string, () => unknown][] = [
  ['wrong_type', 'table', () => codes.classify(any(undefined), good)],
  ['wrong_type', 'table', () => codes.classify({ ...codes.nas1638, notation: any(0) }, good)],
  ['wrong_type', 'table', () => codes.classify(any('iso4406'), good)],
  ['wrong_type', 'counts', () => codes.classify(codes.iso4406, any(undefined))],
  ['counts_rise_with_size', 'counts.perMl[1]', () => codes.classify(codes.iso4406, { ...good, perMl: [1, 2, 3] })],
  ['sizing_not_convertible', 'counts.sizing', () => codes.classify(codes.iso4406, { ...good, sizing: 'microscope' })],
  ['sizing_not_convertible', 'counts.sizing', () => codes.classify(codes.iso4406, { ...good, sizing: 'iso11171b' })],
  ['missing_size', 'counts.sizes', () => codes.classify(codes.iso4406, cumulativeCounts({ 5: 10 }))],
  ['missing_size', 'counts.sizes', () => codes.classify(codes.as4059Cumulative, good, { columns: ['D'] })],
  ['unknown_option', 'options.columns[0]', () => codes.classify(codes.as4059Cumulative, good, { columns: ['G'] })],
  ['wrong_type', 'text', () => codes.parseCode(codes.iso4406, any(18))],
  ['bad_code', 'text', () => codes.parseCode(codes.iso4406, '18/16')],
  ['wrong_table', 'code.table', () => codes.formatCode(codes.nas1638, codes.parseCode(codes.iso4406, '18/16/13'))],
  ['length_mismatch', 'code.parts', () => codes.formatCode(codes.iso4406, { table: 'iso4406', parts: [], text: '' })],
  ['wrong_type', 'code', () => codes.formatCode(codes.iso4406, any(null))],
  ['bad_code', 'code', () => codes.limitsOf(codes.iso4406, 'x')],
  ['bad_code', 'target', () => codes.meets(codes.iso4406, '18/16', good)],
  ['bad_code', 'target', () => codes.meets(codes.iso4406, '-/-/-', good)],
  ['bad_code', 'target', () => codes.meets(codes.iso4406, '18/*/13', good)],
  ['bad_code', 'actual', () => codes.meets(codes.iso4406, '18/16/13', '18/16')],
  [
    'bad_code',
    'code.parts[0].class',
    () =>
      codes.formatCode(codes.iso4406, { ...parsed, parts: [{ column: '4', class: '99' }, ...parsed.parts.slice(1)] }),
  ],
  [
    'bad_code',
    'code.parts[0].column',
    () => codes.formatCode(codes.iso4406, { ...parsed, parts: [...parsed.parts].reverse() }),
  ],
  [
    'wrong_type',
    'code.parts[1]',
    () => codes.limitsOf(codes.iso4406, { ...parsed, parts: [parsed.parts[0], null, null] as never }),
  ],
  ['no_answer', 'known', () => codes.likelyClasses(codes.nas1638, codes.limitsOf(codes.iso4406, '10/16/13'))],
  ['wrong_type', 'options', () => codes.classify(codes.iso4406, good, any(null))],
  ['wrong_type', 'options.columns', () => codes.classify(codes.iso4406, good, any({ columns: 5 }))],
  ['wrong_type', 'table', () => codes.codeInterval(any({}), good)],
  ['wrong_type', 'table', () => codes.classify(any({ ...codes.nas1638, columns: [null] }), good)],
  ['wrong_type', 'table', () => codes.classify(any({ ...codes.nas1638, limits: [] }), good)],
  [
    'wrong_type',
    'table',
    () => codes.classify({ ...codes.nas1638, limits: codes.nas1638.limits.map(() => [1]) }, good),
  ],
  [
    'wrong_type',
    'table',
    () => codes.classify(any({ ...codes.nas1638, limits: codes.nas1638.limits.map(() => '12345') }), good),
  ],
  ['sizing_not_convertible', 'sizing', () => codes.limitsOf(codes.iso4406, '18/16/13', 'microscope')],
  ['unknown_sizing', 'sizing', () => codes.limitsOf(codes.iso4406, '18/16/13', any('sieve'))],
  ['wrong_table', 'actual.table', () => codes.meets(codes.iso4406, '18/16/13', codes.parseCode(codes.nas1638, '6'))],
  ['wrong_type', 'actual', () => codes.meets(codes.iso4406, '18/16/13', any(7))],
  ['wrong_type', 'known', () => codes.possibleClasses(codes.nas1638, any(null))],
  [
    'sizing_not_convertible',
    'known.sizing',
    () => codes.possibleClasses(codes.iso4406, codes.limitsOf(codes.iso4406Microscope, '18/13')),
  ],
  ['no_answer', 'known', () => codes.possibleClasses(codes.nas1638, codes.limitsOf(codes.iso4406, '10/16/13'))],
  [
    'out_of_range',
    'known.bands[0].upTo',
    () =>
      codes.possibleClasses(codes.nas1638, { sizing: 'iso11171', bands: [{ from: 4, to: null, above: 5, upTo: 1 }] }),
  ],
  [
    'sizes_out_of_order',
    'known.bands[0].to',
    () => codes.likelyClasses(codes.nas1638, { sizing: 'iso11171', bands: [{ from: 4, to: 3, above: 5, upTo: 9 }] }),
  ],
  ['bad_code', 'target', () => codes.guaranteeingCode(codes.nas1638, '13')],
  ['sizing_not_convertible', 'table', () => codes.guaranteeingCode(codes.iso4406Microscope, '13')],
  ['missing_volume', 'counts.volumeMl', () => codes.codeInterval(codes.iso4406, good)],
  ['wrong_type', 'counts', () => codes.codeInterval(codes.iso4406, any(null))],
  ['wrong_type', 'options', () => codes.codeInterval(codes.iso4406, good, any(null))],
  ['unknown_option', 'options.level', () => codes.codeInterval(codes.iso4406, good, any({ level: 0.9 }))],
  ['wrong_type', 'options', () => codes.meets(codes.iso4406, '18/16/13', good, any(null))],
  ['unknown_option', 'options.colums', () => codes.classify(codes.iso4406, good, any({ colums: ['4'] }))],
  ['unknown_option', 'options.columns[0]', () => codes.meets(codes.iso4406, '18/16/13', good, { columns: ['5'] })],
  ['unknown_option', 'own.fewcounted', table({ fewcounted: 20 })],
  ['not_an_integer', 'own.fewCounted', table({ fewCounted: 1.5 })],
  ['wrong_type', 'own.limits', table({ limits: null })],
  ['negative', 'perMl', () => codes.scaleNumber(-1)],
  ['not_a_number', 'perMl', () => codes.continuousScaleNumber(Number.NaN)],
  ['infinite', 'perMl', () => codes.continuousScaleNumber(Infinity)],
  ['out_of_range', 'level', () => codes.cc1246Count(2000, 5)],
  ['out_of_range', 'size', () => codes.cc1246Level(5, 0.5)],
  ['wrong_type', 'own', () => codes.classTable(any(null))],
  ['empty', 'own.id', table({ id: '' })],
  ['wrong_type', 'own.title', table({ title: 5 })],
  ['unknown_option', 'own.counting', table({ counting: 'both' })],
  ['unknown_option', 'own.perVolumeMl', table({ perVolumeMl: 10 })],
  ['unknown_option', 'own.notation', table({ notation: 'roman' })],
  ['empty', 'own.columns', table({ columns: [] })],
  ['bad_table', 'own.columns[1].label', table({ columns: [own.columns[0], { ...own.columns[1], label: '6' }] })],
  ['sizes_out_of_order', 'own.columns[1].from.iso11171', table({ columns: [own.columns[1], own.columns[0]] })],
  [
    'sizes_out_of_order',
    'own.columns[2].from.iso11171',
    table({
      columns: [
        { label: '6', from: { iso11171: 6 } },
        { label: 'x', from: {} },
        { label: '5', from: { iso11171: 5 } },
      ],
      limits: [
        [1, null, 1],
        [2, null, 2],
      ],
    }),
  ],
  [
    'unknown_option',
    'own.columns[0].from.mesh',
    table({ columns: [{ label: '6', from: { mesh: 6 } }, own.columns[1]] }),
  ],
  ['bad_table', 'own.columns[0].to', table({ columns: [{ ...own.columns[0], to: { iso11171: 14 } }, own.columns[1]] })],
  [
    'sizes_out_of_order',
    'own.columns[0].to.iso11171',
    table({ counting: 'differential', columns: [{ ...own.columns[0], to: { iso11171: 5 } }, own.columns[1]] }),
  ],
  ['bad_table', 'own.classes[1]', table({ classes: ['a', 'a'] })],
  ['bad_table', 'own.classes[0]', table({ classes: ['a/b', 'c'] })],
  ['bad_table', 'own.classes[0]', table({ notation: 'lettered', classes: ['a', '1'], columns: letters })],
  [
    'bad_table',
    'own.columns[0].label',
    table({ notation: 'lettered', classes: ['1', '2'], columns: [own.columns[0], letters[1]] }),
  ],
  ['length_mismatch', 'own.limits', table({ limits: [[10, 1]] })],
  ['length_mismatch', 'own.limits[1]', table({ limits: [[10, 1], [20]] })],
  [
    'bad_table',
    'own.limits[1][0]',
    table({
      limits: [
        [10, 1],
        [9, 2],
      ],
    }),
  ],
  [
    'bad_table',
    'own.limits[1][1]',
    table({
      limits: [
        [10, null],
        [20, 2],
      ],
    }),
  ],
  [
    'negative',
    'own.limits[0][0]',
    table({
      limits: [
        [-1, 1],
        [20, 2],
      ],
    }),
  ],
];

describe('codes/', () => {
  test.each(cases)('%s: %s', (code, parameter, call) => {
    let thrown: unknown;
    try {
      call();
    } catch (error) {
      thrown = error;
    }
    expect(isMotescaleError(thrown), String(thrown)).toBe(true);
    expect(thrown).toMatchObject({ name: 'MotescaleError', code, parameter });
  });
});

describe('messages that lead on', () => {
  const messageOf = (call: () => unknown): string => {
    try {
      call();
    } catch (error) {
      if (isMotescaleError(error)) return error.message;
    }
    return 'nothing thrown';
  };

  test('sizes of no column: those that came, and those of the table in their sizing', () => {
    const message = messageOf(() => codes.classify(codes.gost17216, good));
    expect(message).toContain('received 4, 6, 14, expected');
    expect(message).toContain('sizes by iso11171: 1-2 (4.2-4.6), 2-5 (4.6-6.4), 5-10 (6.4-9.8), 10-25');
    const exact = () => classifyExact(codes.nas1638, { at: { 10: '3' }, sizing: 'iso4402' });
    expect(messageOf(exact)).toContain('received 10, expected sizes by iso4402: 5-15 (5-15), 15-25 (15-25)');
  });

  test('sizes of 5 and 15 µm taken for µm(c): the sizing was forgotten', () => {
    const sheet = { 5: 16000, 15: 2850, 25: 506, 50: 90, 100: 16 };
    const of = (table: typeof codes.iso4406, sizing?: 'iso4402') =>
      messageOf(() => codes.classify(table, cumulativeCounts(sheet, { per: '100mL', ...(sizing && { sizing }) })));
    const forgotten = '; microscope and ISO 4402 need sizing';
    for (const table of [codes.iso4406, codes.nas1638, codes.as4059Differential])
      expect(of(table)).toContain(forgotten);
    expect(of(codes.nas1638)).toContain(
      'by iso11171: 5-15 (6-14), 15-25 (14-21), 25-50 (21-38), 50-100 (38-70), >100 (70);',
    );
    expect(of(codes.nas1638, 'iso4402')).toBe('nothing thrown');
    // 7 and 10 are no sizes of an earlier sizing, and a sizing that was given was not forgotten
    expect(messageOf(() => codes.classify(codes.nas1638, cumulativeCounts({ 7: 30, 10: 3 })))).not.toContain('sizing');
    const ten = cumulativeCounts({ 5: 3 }, { sizing: 'iso4402' });
    expect(messageOf(() => codes.classify(codes.nas1638, ten))).toMatch(/> ?100 \(100\); or likelyClasses$/);
  });

  test('a two-part code where three parts are asked for: the table that reads it', () => {
    expect(messageOf(() => codes.parseCode(codes.iso4406, '18/13'))).toContain('iso4406Microscope');
  });
});

describe('the edges that work', () => {
  test('raw counts whose volume is not known are marked where few', () => {
    const counts = { ...good, counted: [1890, 402, 19] };
    expect(codes.classify(codes.iso4406, counts).parts[2]).toMatchObject({ mark: 'few_counted' });
  });

  test('a blank after the sign for beyond', () => {
    expect(codes.parseCode(codes.iso4406, '> 28/22/13').text).toBe('>28/22/13');
    expect(codes.parseCode(codes.nas1638, '> 12').text).toBe('>12');
    expect(codes.parseCode(codes.as4059Cumulative, '> 12 B').text).toBe('>12B');
  });

  test('a size the counts lack is written - and listed', () => {
    const found = codes.classify(codes.iso4406, cumulativeCounts({ 6: 402, 14: 33 }));
    expect(found).toMatchObject({ text: '-/16/12', missing: ['4'], worst: '16' });
    // also where it could not be the highest number: each size of the code stands for itself
    const small = codes.classify(codes.iso4406, cumulativeCounts({ 4: 1890, 6: 402 }));
    expect(small).toMatchObject({ text: '18/16/-', missing: ['14'], worst: '18' });
  });

  test('one class for all, with a range missing: or dirtier; with none missing: plain', () => {
    expect(codes.classify(codes.nas1638, cumulativeCounts({ 6: 402, 14: 33 }))).toMatchObject({
      text: '8 or dirtier',
      worst: '8',
      missing: ['25-50', '50-100', '>100'],
    });
    const none = cumulativeCounts({ 6: 402, 14: 33, 21: 0 });
    expect(codes.classify(codes.nas1638, none)).toMatchObject({ text: '8', missing: [] });
    const few = cumulativeCounts({ 6: 402, 14: 33, 21: 0.5 });
    expect(codes.classify(codes.nas1638, few)).toMatchObject({ text: '8', missing: [] });
    const more = cumulativeCounts({ 6: 402, 14: 33, 21: 0.7 });
    expect(codes.classify(codes.nas1638, more)).toMatchObject({ text: '8 or dirtier', missing: ['>100'] });
    const asked = codes.classify(codes.nas1638, cumulativeCounts({ 6: 402, 14: 33 }), { columns: ['5-15'] });
    expect(asked).toMatchObject({ text: '8', missing: [] });
    const all = cumulativeCounts({ 6: 402, 14: 33, 21: 5, 38: 0.5, 70: 0 });
    expect(codes.classify(codes.nas1638, all)).toMatchObject({ text: '8', missing: [] });
  });

  test('GOST 17216: a range that the class does not norm is not missed; fibres and mass always are', () => {
    const counts = cumulativeCounts({ 5: 200, 10: 60, 25: 4, 50: 0.2, 100: 0.01, 200: 0 }, { sizing: 'microscope' });
    expect(codes.classify(codes.gost17216, counts)).toMatchObject({ text: '10', missing: ['fibres', 'mass %'] });
  });

  test('beyond the last class over several sizes: one of them is, which is not said, and no size is bounded', () => {
    for (const [table, code] of [
      [codes.nas1638, '>12'],
      [codes.as4059Cumulative, '>12B-F'],
    ] as const) {
      expect(codes.parseCode(table, code).text).toBe(code);
      expect(codes.parseCode(table, code).parts.at(-1)).toMatchObject({ class: '>12', mark: 'at_most' });
      expect(codes.limitsOf(table, code).bands).toEqual([]);
    }
    // few small particles and a great many large ones
    const counts = cumulativeCounts({ 4: 300, 6: 60, 14: 30, 21: 25, 38: 20, 70: 15 });
    const written = codes.classify(codes.nas1638, counts).text;
    expect(written).toBe('>12');
    const span = codes.possibleClasses(codes.iso4406, codes.limitsOf(codes.nas1638, written));
    expect(span.unseen).toEqual(['4', '6', '14']);
    // size by size it is known of which the class is beyond
    const known = codes.limitsOf(codes.nas1638, codes.classify(codes.nas1638, counts));
    expect(known.bands.at(-1)).toEqual({ from: 70, to: null, above: 10.24, upTo: null });
    const alone = codes.classTable({
      ...codes.nas1638,
      id: 'one',
      columns: codes.nas1638.columns.slice(4),
      limits: codes.nas1638.limits.map((row) => row.slice(4)),
    });
    expect(codes.limitsOf(alone, '>12').bands).toEqual(known.bands.slice(-1));
  });

  test('beyond the last class, and in the first', () => {
    const dirty = cumulativeCounts({ 6: 20000, 14: 100, 21: 5, 38: 0.5, 70: 0 });
    expect(codes.classify(codes.nas1638, dirty)).toMatchObject({ text: '>12', worst: '>12', worstColumns: ['5-15'] });
    const clean = codes.classify(
      codes.as4059Cumulative,
      cumulativeCounts({ 4: 0.3, 6: 0.1, 14: 0, 21: 0, 38: 0, 70: 0 }),
    );
    expect(clean.text).toBe('000A/000B/000C/000D/000E/000F');
    expect(clean.evidence.map(({ end }) => end)).toEqual(Array(6).fill('first_class'));
  });

  test('a Code survives JSON and is as good as before', () => {
    const code = codes.parseCode(codes.as4059Cumulative, '6B-F');
    expect(codes.meets(codes.as4059Cumulative, JSON.parse(JSON.stringify(code)), code).met).toBe(true);
  });

  test.each([
    [codes.iso4406, 'ISO 18/16/13', "'18/16/13', without 'ISO'"],
    [codes.iso4406, 'ISO 4406: 18/16/>=7', "'18/16/>=7', without 'ISO 4406:'"],
    [codes.iso4406, 'ISO 4406:18/16/13', "'18/16/13', without 'ISO 4406:'"],
    [codes.nas1638, 'NAS 6', "'6', without 'NAS'"],
    [codes.nas1638, 'NAS 1638 class 6', "'6', without 'NAS 1638 class'"],
    [codes.nas1638, 'NAS 1638 8 or dirtier', "'8 or dirtier', without 'NAS 1638'"],
    [codes.as4059Cumulative, 'AS4059 7B/6C', "'7B/6C', without 'AS4059'"],
    [codes.iso4406Microscope, 'ISO 16/13', "'16/13', without 'ISO'"],
  ])('%s: the words before a code are named', (table, text, words) => {
    expectRefused('bad_code', 'text', `the code alone: ${words}`, () => codes.parseCode(table, text));
  });

  test.each(['18-16-13', '18:16:13', '18 16 13', '18  16  13', '18_16_13', '18.16.13'])('%s: slashes', (text) => {
    expectRefused('bad_code', 'text', '4/6/14 µm with slashes between the numbers', () =>
      codes.parseCode(codes.iso4406, text),
    );
  });

  test('text that is no code with words before it is refused as it was, and a name of the text must be a text', () => {
    expectRefused('bad_code', 'text', 'a class of NAS 1638', () => codes.parseCode(codes.nas1638, 'NAS 1638'));
    expectRefused('bad_code', 'text', 'a class and a size letter', () =>
      codes.parseCode(codes.as4059Cumulative, '7B 6C'),
    );
    expectRefused('bad_code', 'text', 'a scale number', () => codes.parseCode(codes.iso4406, 'ISO 18/16/x'));
    expectRefused('wrong_type', 'parameter', 'a text', () =>
      codes.parseCode(codes.iso4406, '18/16/13', Symbol() as never),
    );
  });

  test('a target over some columns only', () => {
    const counts = cumulativeCounts({ 6: 402, 14: 33, 21: 5 });
    expect(codes.meets(codes.nas1638, '8', counts)).toMatchObject({ met: null, missing: ['50-100', '>100'] });
    expect(codes.meets(codes.nas1638, '8', counts, { columns: ['5-15', '15-25'] })).toMatchObject({
      met: true,
      missing: [],
    });
  });

  test('how sure a class between sizes is', () => {
    const counts = cumulativeCounts({ 6: 400, 14: 30, 21: 5, 38: 1, 70: 0 }, { volumeMl: 10 });
    const { low, high } = codes.codeInterval(codes.nas1638, counts);
    expect([low.text, codes.classify(codes.nas1638, counts).text, high.text]).toEqual(['4', '4', '8']);
  });

  test('raw counts that name no dilution are undiluted', () => {
    const { dilution, ...raw } = cumulativeCounts({ 4: 4500, 6: 240, 14: 6 }, { volumeMl: 10 });
    expect(codes.codeInterval(codes.iso4406, raw)).toEqual(codes.codeInterval(codes.iso4406, { ...raw, dilution: 1 }));
  });

  test('the smallest size counted bounds the larger ones', () => {
    const gate = codes.classTable(own);
    expect(codes.classify(gate, cumulativeCounts({ 6: 1 }))).toMatchObject({ text: 'a', missing: [] });
    expect(codes.classify(gate, cumulativeCounts({ 6: 1.1 }))).toMatchObject({ text: 'a or dirtier', missing: ['14'] });
  });

  test('a user table is first-class everywhere', () => {
    const gate = codes.classTable(own);
    const counts = cumulativeCounts({ 4: 90, 6: 12, 14: 1 });
    expect(codes.classify(gate, counts).text).toBe('b');
    expect(codes.meets(gate, 'a', counts).margins).toEqual([
      { column: '6', classes: -1 },
      { column: '14', classes: 0 },
    ]);
    expect(codes.possibleClasses(gate, codes.limitsOf(codes.iso4406, '14/11/7'))).toMatchObject({
      lowest: 'b',
      highest: 'b',
    });
    expect(codes.guaranteeingCode(gate, 'b').code.text).toBe('-/11/7');
    expect(codes.likelyClasses(gate, counts).basis[0]?.basis).toBe('measured');
  });
});

test('classTable names every mistake at once; its code is that of the first', () => {
  const bad = {
    ...own,
    id: '',
    perVolumeMl: 10,
    classes: ['a', 'a'],
    limits: [
      [10, 1],
      [9, 2],
      [20, 3],
    ],
  };
  let thrown: unknown;
  try {
    codes.classTable(bad as never);
  } catch (error) {
    thrown = error;
  }
  expect(thrown).toMatchObject({ code: 'empty', parameter: 'own' });
  expect(problemsOf(thrown).map(({ path, code }) => [code, ...path])).toEqual([
    ['empty', 'id'],
    ['unknown_option', 'perVolumeMl'],
    ['bad_table', 'classes', 1],
    ['length_mismatch', 'limits'],
    ['bad_table', 'limits', 1, 0],
  ]);
});
