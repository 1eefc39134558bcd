/** What is said of a code that cannot be read, word for word and at which place; and what is said of a table. */
import { expect, test } from 'vitest';
import * as codes from '../../src/codes/index.ts';
import { isMotescaleError, problemsOf } from '../../src/errors.ts';
import { ownTable as own } from './ownTable.ts';

const { as4059Cumulative, iso4406, iso4406Microscope, nas1638, parseCode } = codes;
const any = (value: unknown) => value as never;

function thrownBy(call: () => unknown): unknown {
  try {
    call();
  } catch (error) {
    if (isMotescaleError(error)) return error;
    throw error;
  }
  return expect.fail('nothing thrown');
}

const three = `3 numbers, at 4/6/14 µm; ${iso4406.elsewhere}`;
const slashes = '3 numbers, at 4/6/14 µm with slashes between the numbers';
const number = "a scale number from 0 to 28, '>28', '>=' and a number, '-' or '*'";
const letters = "a class and a size letter, such as '6B', '7B/6C/5D' or '6B-F'";
const alone = `${letters} (a class without a size letter is Table 1, or size B in old revisions)`;
const single = `a class of NAS 1638: ${nas1638.classes.join(', ')}`;

const refused: [codes.ClassTable, string, number, string][] = [
  [iso4406, '', 0, three],
  [iso4406, '18/16', 5, three],
  [iso4406, '18/16 ', 6, three],
  [iso4406, '18/16/13/10', 8, three],
  [iso4406, '18/16/13/', 8, three],
  [iso4406, '18/16/13 / 10', 10, three],
  [iso4406, '18', 2, three],
  [iso4406, '18 16 13', 8, slashes],
  ...['-', '.', ',', ';', '\\', '|', '\u2010', '–', '\u2015', '\u2212'].map(
    (sign): [codes.ClassTable, string, number, string] => [iso4406, `18 ${sign}16${sign}13`, 9, slashes],
  ),
  [iso4406, 'x18-16-13', 9, three],
  [iso4406, '18/x/13', 3, number],
  [iso4406, ' 29/16/13', 1, number],
  [iso4406, '18/ >29/13', 4, number],
  [iso4406, '18/16/>=>28', 6, number],
  [iso4406, '18/16/>=', 6, number],
  [iso4406, '18/16/ ≥', 7, number],
  [iso4406, '18/16/≥ >28', 6, number],
  [iso4406, '18/16/>7', 6, number],
  [iso4406, '18//13', 3, number],
  [iso4406, '18/16/1 3', 6, number],
  [iso4406Microscope, '18/16/13', 0, "'-' in the first place, or a two-part code"],
  [iso4406Microscope, ' * /16/13', 1, "'-' in the first place, or a two-part code"],
  [iso4406Microscope, '-/16/x', 5, number],
  [as4059Cumulative, '6', 0, alone],
  [as4059Cumulative, '6B/ > 12', 4, alone],
  [as4059Cumulative, '', 0, letters],
  [as4059Cumulative, 'x6B', 0, letters],
  [as4059Cumulative, '6BC', 0, letters],
  [as4059Cumulative, '13B', 0, letters],
  [as4059Cumulative, '6B/7G', 3, 'size letters A, B, C, D, E, F, the smaller size first'],
  [as4059Cumulative, '6F-B', 0, 'size letters A, B, C, D, E, F, the smaller size first'],
  [as4059Cumulative, '6B-G', 0, 'size letters A, B, C, D, E, F, the smaller size first'],
  [as4059Cumulative, '6B/7B', 3, 'each size once; B stands before'],
  [as4059Cumulative, '6D/5B-F', 3, 'each size once; D stands before'],
  [nas1638, ' x', 1, single],
  [nas1638, '8/9', 0, single],
  [nas1638, '8 or dirtier please', 0, single],
  [nas1638, 'or dirtier', 0, single],
  [nas1638, 'x or dirtier', 0, single],
  [nas1638, '>11', 0, single],
];

test.each(refused.map(([table, ...rest]) => [table.id, ...rest, table] as const))(
  '%s: %o',
  (_id, text, position, expected, table) => {
    expect(thrownBy(() => parseCode(table, text, 'name'))).toMatchObject({
      code: 'bad_code',
      parameter: 'name',
      position,
      expected,
    });
  },
);

const read: [codes.ClassTable, string, string][] = [
  [iso4406, ' 18 / 16\t/ 13 ', '18/16/13'],
  [iso4406, '18/16/≥ 7', '18/16/>=7'],
  [iso4406, '18/16/>= 7', '18/16/>=7'],
  [iso4406, '>28/> 28/>=28', '>28/>28/>=28'],
  [iso4406, '*/-/0', '*/-/0'],
  [iso4406Microscope, '16/13', '-/16/13'],
  [iso4406Microscope, ' - /*/13', '-/*/13'],
  [as4059Cumulative, '6b - f', '6B-F'],
  [as4059Cumulative, '6 B-B', '6B-B'],
  [as4059Cumulative, '000a/ 12 B/>12c', '000A/12B/>12C'],
  [as4059Cumulative, '5C/6B', '6B/5C'],
  [as4059Cumulative, '6B-C/6D-E', '6B-E'],
  [as4059Cumulative, '6B-C/5D-E', '6B-C/5D-E'],
  [nas1638, ' 8 ', '8'],
  [nas1638, '8  OR  Dirtier', '8 or dirtier'],
  [nas1638, '> 12', '>12'],
];

test.each(read.map(([table, ...rest]) => [table.id, ...rest, table] as const))(
  '%s: %o is %o',
  (_id, text, expected, table) => {
    expect(parseCode(table, text).text).toBe(expected);
  },
);

test('a text of 200 characters is read, one of 201 is not', () => {
  const long = (length: number) => `18/16/${' '.repeat(length - 8)}13`;
  expect(parseCode(iso4406, long(200)).text).toBe('18/16/13');
  expect(thrownBy(() => parseCode(iso4406, long(201)))).toMatchObject({
    position: 200,
    expected: 'a code of at most 200 characters',
  });
});

const range = (label: string, from: number, to?: number) => ({
  label,
  from: { iso11171: from, iso4402: from },
  ...(to === undefined ? {} : { to: { iso11171: to, iso4402: to } }),
});
const ranges = (...columns: object[]) => ({ counting: 'differential', columns });

test.each<[object, ...string[]]>([
  [ranges(range('a', 6, 14), range('b', 14, 21))],
  [ranges(range('a', 6, 14), range('b', 14))],
  [
    ranges(range('a', 6, 14), range('b', 15)),
    ...['iso4402', 'iso11171'].map((of) => `bad_table columns.0.to.${of}: 15, where the next range starts`),
  ],
  [
    ranges(range('a', 6, 14), range('b', 13)),
    ...['iso4402', 'iso11171'].map((of) => `bad_table columns.0.to.${of}: 13, where the next range starts`),
  ],
  [ranges(range('a', 6), range('b', 14)), 'bad_table columns.0.to: 14, where the next range starts'],
  [
    ranges({ label: 'a', from: { iso11171: 6 }, to: { iso11171: 14, microscope: 15 } }, range('b', 14)),
    "unknown_option columns.0.to.microscope: one of 'iso11171'",
  ],
  [
    ranges({ label: 'a', from: { iso11171: 6, iso4402: 7 }, to: { iso11171: 14 } }, range('b', 14)),
    'wrong_type columns.0.to.iso4402: a size above 7 µm',
  ],
  [
    ranges(range('a', 14, 14), range('b', 14)),
    'sizes_out_of_order columns.0.to.iso11171: a size above 14 µm',
    'sizes_out_of_order columns.0.to.iso4402: a size above 14 µm',
    'sizes_out_of_order columns.1.from.iso11171: a size above 14 µm',
    'sizes_out_of_order columns.1.from.iso4402: a size above 14 µm',
  ],
  [
    { columns: [own.columns[0], { label: '14', from: { iso11171: 6 } }] },
    'sizes_out_of_order columns.1.from.iso11171: a size above 6 µm',
  ],
  [
    { columns: [own.columns[0], { ...own.columns[1], to: { iso11171: 20 } }] },
    'bad_table columns.1.to: no upper end in a cumulative table',
  ],
  [{ columns: [own.columns[0], { ...own.columns[1], label: '6' }] }, 'bad_table columns.1.label: each name once'],
  [{ classes: ['a', 'a'] }, 'bad_table classes.1: each name once'],
  [{ classes: ['toString', 'constructor'] }],
  ...['a/b', '>12', '=2', '≥2', '*', '-1', ' a', 'a ', 'a/'].map((name): [object, string] => [
    { classes: ['a', name] },
    "bad_table classes.1: a name without '/', that starts with a letter or digit",
  ]),
  ...['b', 'b c', 'b-c', 'b>', '0', 'é'].map((name): [object] => [{ classes: ['a', name] }]),
  [
    { notation: 'lettered', classes: ['1', '2a'], columns: [own.columns[0], { ...own.columns[1], label: 'B' }] },
    'bad_table columns.0.label: one capital letter',
    'bad_table classes.1: digits',
  ],
  [
    {
      notation: 'lettered',
      classes: ['1', '2'],
      columns: ['AB', 'b'].map((label, i) => ({ ...own.columns[i], label })),
    },
    'bad_table columns.0.label: one capital letter',
    'bad_table columns.1.label: one capital letter',
  ],
  [{ limits: [[10, 1]] }, 'length_mismatch limits: 2 rows, one for each class'],
  [{ limits: [[10, 1], [20]] }, 'length_mismatch limits.1: 2 limits, one for each column'],
  [
    {
      limits: [
        [10, 1],
        [9, 1],
      ],
    },
    'bad_table limits.1.0: at least 10, the limit of the cleaner class',
  ],
  [
    {
      limits: [
        [10, null],
        [10, 5],
      ],
    },
    'bad_table limits.1.1: null: as in the cleaner class',
  ],
  [
    {
      limits: [
        [10, 1],
        [null, 1],
      ],
    },
  ],
  [
    {
      columns: [own.columns[0], { label: 'mass', from: {} }],
      limits: [
        [10, 5],
        [20, 1],
      ],
    },
  ],
])('a table changed by %j: %j', (change, ...expected) => {
  let problems: string[] = [];
  try {
    codes.classTable(any({ ...own, ...change }));
  } catch (error) {
    const told = problemsOf(error);
    problems = told.map(({ path, code, expected: words }) => `${code} ${path.join('.')}: ${words}`);
  }
  expect(problems).toEqual(expected);
});
