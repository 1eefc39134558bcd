/** A table as a plain object: what decides a class, edge by edge, refused at its place where classTable refuses it. */
import { expect, test } from 'vitest';
import { classTable, iso4406 } from '../../src/codes/index.ts';
import { noteUnsound } from '../../src/codes/ownTable/noteUnsound.ts';
import { isMotescaleError, type Problem } from '../../src/errors.ts';

type Made = { [name: string]: unknown };

/** Two columns of sizes and larger, two classes. */
const cumulative = (): Made => ({
  id: 'own',
  title: 'Own',
  counting: 'cumulative',
  perVolumeMl: 1,
  columns: [
    { label: 'A', from: { iso11171: 6 } },
    { label: 'B', from: { iso11171: 14 } },
  ],
  classes: ['1', '2'],
  limits: [
    [10, 1],
    [20, 2],
  ],
});
/** Two ranges. */
const differential = (): Made => ({
  ...cumulative(),
  counting: 'differential',
  columns: [range('A', 6, 14), range('B', 14, 21)],
});
const range = (label: string, from: number, to: number | undefined) => ({
  label,
  from: { iso11171: from },
  ...(to === undefined ? {} : { to: { iso11171: to } }),
});
const sized = (label: string, from: Made, rest: Made = {}) => ({ label, from, ...rest });
/** One column. */
const one = (column: unknown, limits: unknown[] = [[10], [20]]) => ({ ...cumulative(), columns: [column], limits });

/** Where it is refused. */
function placesOf(table: unknown): string[] {
  const problems: Problem[] = [];
  const isSound = noteUnsound(table, ['t'], problems);
  expect(isSound).toBe(problems.length === 0);
  let refused = false;
  try {
    classTable(table as never);
  } catch (error) {
    if (!isMotescaleError(error)) throw error;
    refused = true;
  }
  expect(refused).toBe(!isSound);
  return problems.map(({ path }) => path.slice(1).join('.'));
}

const long = 'x'.repeat(64);
const nine = (least: number) => Array.from({ length: 10000 }, (_unused, i) => least + i);

test.each<[string, unknown]>([
  ['cumulative', cumulative()],
  ['differential', differential()],
  ['a name of 64 characters', { ...cumulative(), id: long, classes: [long, '2'] }],
  ['a title of one character', { ...cumulative(), title: 'x', standard: 'x' }],
  ['a longer title', { ...cumulative(), title: long + long, standard: long + long }],
  ['per 100 mL', { ...cumulative(), perVolumeMl: 100 }],
  ['letters and digits', { ...cumulative(), notation: 'lettered' }],
  ['no particle counted is few', { ...cumulative(), fewCounted: 0, elsewhere: '' }],
  [
    '10000 classes',
    { ...one(sized('A', { iso11171: 6 })), classes: nine(0).map(String), limits: nine(0).map((i) => [i]) },
  ],
  [
    'limits of 0 and of 1e60, equal ones',
    { ...one(sized('A', { iso11171: 6 }), [[0], [0], [1e60], [1e60]]), classes: ['1', '2', '3', '4'] },
  ],
  [
    'no limit in the dirtier classes',
    {
      ...cumulative(),
      limits: [
        [10, 1],
        [20, null],
      ],
    },
  ],
  ['no limit at all in a class', one(sized('A', { iso11171: 6 }), [[10], [null]])],
  [
    'a size of 0.001 and one of 100000',
    { ...cumulative(), columns: [sized('A', { iso11171: 0.001 }), sized('B', { iso11171: 100000 })] },
  ],
  [
    'two sizings',
    {
      ...cumulative(),
      columns: [sized('A', { iso11171: 6, microscope: 5 }), sized('B', { iso11171: 14, microscope: 15 })],
    },
  ],
  [
    'a sizing that only one column has',
    { ...cumulative(), columns: [sized('A', { iso11171: 6 }), sized('B', { microscope: 5 })] },
  ],
  ['a last range without an end', { ...differential(), columns: [range('A', 6, 14), range('B', 14, undefined)] }],
  [
    'a column that no counter fills, whose limits are free',
    {
      ...cumulative(),
      columns: [sized('A', { iso11171: 6 }), sized('F', {})],
      limits: [
        [10, null],
        [20, 1],
      ],
    },
  ],
  [
    'limits of such a column that fall',
    {
      ...cumulative(),
      columns: [sized('A', { iso11171: 6 }), sized('F', {})],
      limits: [
        [10, 2],
        [20, 1],
      ],
    },
  ],
  ['a class named as what every object has', { ...cumulative(), classes: ['constructor', 'toString'] }],
])('sound: %s', (_name, table) => {
  expect(placesOf(table)).toEqual([]);
});

test.each<[string, unknown, string[]]>([
  ['no object', 7, ['']],
  ['null', null, ['']],
  ['a list', [], ['']],
  ['an empty name', { ...cumulative(), id: '' }, ['id']],
  ['a name of 65 characters', { ...cumulative(), id: `${long}x`, classes: [`${long}x`, '2'] }, ['id']],
  ['an empty title', { ...cumulative(), title: '', standard: '' }, ['standard', 'title']],
  ['a title that is no text', { ...cumulative(), title: 7, standard: ['x'] }, ['standard', 'title']],
  ['per 10 mL', { ...cumulative(), perVolumeMl: 10 }, ['perVolumeMl']],
  ['a notation that nobody knows', { ...cumulative(), notation: 'letters' }, ['notation']],
  ['few particles that are no number of them', { ...cumulative(), fewCounted: -1 }, ['fewCounted']],
  ['half a particle', { ...cumulative(), fewCounted: 0.5 }, ['fewCounted']],
  ['a hint that is no text', { ...cumulative(), elsewhere: 7 }, ['elsewhere']],
  ['nothing listed', { ...cumulative(), columns: [], classes: [], limits: [] }, ['columns', 'classes', 'limits']],
  ['no lists', { ...cumulative(), columns: { length: 2 }, classes: '12', limits: 7 }, ['columns', 'classes', 'limits']],
  ['10001 classes', { ...one(sized('A', { iso11171: 6 })), classes: nine(0).concat(10000).map(String) }, ['classes']],
  ['members that are missing', { id: 'x' }, ['title', 'counting', 'perVolumeMl', 'columns', 'classes', 'limits']],
  ['a column that is none', one(7), ['columns.0']],
  [
    'a column without a label, with a member that none has',
    one({ from: { iso11171: 6 }, upTo: {} }),
    ['columns.0.label', 'columns.0.upTo'],
  ],
  ['sizes that are no object', one({ label: 'A', from: 6, to: 14 }), ['columns.0.from', 'columns.0.to']],
  ['both of two columns', { ...cumulative(), columns: [7, { label: '', from: {} }] }, ['columns.0', 'columns.1.label']],
  [
    'a label twice',
    { ...cumulative(), columns: [sized('A', { iso11171: 6 }), sized('A', { iso11171: 14 })] },
    ['columns.1.label'],
  ],
  [
    'a size that is no letter',
    { ...cumulative(), notation: 'lettered', columns: [sized('A', { iso11171: 6 }), sized('14', { iso11171: 14 })] },
    ['columns.1.label'],
  ],
  [
    'a class that is no digit beside letters',
    { ...cumulative(), notation: 'lettered', classes: ['1', 'x'] },
    ['classes.1'],
  ],
  ['a class twice', { ...cumulative(), classes: ['1', '1'] }, ['classes.1']],
  ['a class of 65 characters', { ...cumulative(), classes: ['1', `${long}x`] }, ['classes.1']],
  ['a class that is a number', { ...cumulative(), classes: ['1', 2] }, ['classes.1']],
  ['an end of a size and larger', one(range('A', 6, 14)), ['columns.0.to']],
  ['a size that is too small', one(sized('A', { iso11171: 0.0009 })), ['columns.0.from.iso11171']],
  ['a size that is no number', one(sized('A', { iso11171: '6' })), ['columns.0.from.iso11171']],
  ['a sizing that nobody knows', one(sized('A', { iso11172: 6 })), ['columns.0.from.iso11172']],
  [
    'two columns of one size',
    { ...cumulative(), columns: [sized('A', { iso11171: 6 }), sized('B', { iso11171: 6 })] },
    ['columns.1.from.iso11171'],
  ],
  [
    'a size below the one before it, of one sizing',
    {
      ...cumulative(),
      columns: [sized('A', { iso11171: 6, microscope: 5 }), sized('B', { iso11171: 14, microscope: 5 })],
    },
    ['columns.1.from.microscope'],
  ],
  [
    'a range that ends where it begins',
    { ...differential(), ...{ columns: [range('A', 6, 6)], limits: [[1], [2]] } },
    ['columns.0.to.iso11171'],
  ],
  [
    'a range that ends too far',
    { ...differential(), ...{ columns: [range('A', 6, 100001)], limits: [[1], [2]] } },
    ['columns.0.to.iso11171'],
  ],
  [
    'a range without a beginning in a sizing',
    {
      ...differential(),
      ...{ columns: [{ label: 'A', from: { iso11171: 6 }, to: { iso11171: 14, microscope: 15 } }], limits: [[1], [2]] },
    },
    ['columns.0.from.microscope', 'columns.0.to.microscope'],
  ],
  [
    'a range without an end in one of its sizings',
    {
      ...differential(),
      ...{ columns: [{ label: 'A', from: { iso11171: 6, microscope: 5 }, to: { iso11171: 14 } }], limits: [[1], [2]] },
    },
    ['columns.0.to.microscope'],
  ],
  [
    'a gap between ranges',
    { ...differential(), columns: [range('A', 6, 14), range('B', 15, 21)] },
    ['columns.1.from.iso11171'],
  ],
  [
    'ranges that overlap',
    { ...differential(), columns: [range('A', 6, 14), range('B', 13, 21)] },
    ['columns.1.from.iso11171'],
  ],
  [
    'a range after one without an end',
    { ...differential(), columns: [range('A', 6, undefined), range('B', 14, 21)] },
    ['columns.1.from.iso11171'],
  ],
  ['fewer rows than classes', { ...cumulative(), limits: [[10, 1]] }, ['limits']],
  [
    'more rows than classes',
    {
      ...cumulative(),
      limits: [
        [10, 1],
        [20, 2],
        [30, 3],
      ],
    },
    ['limits'],
  ],
  ['a row that is too short', { ...cumulative(), limits: [[10, 1], [20]] }, ['limits.1']],
  ['a row that is none', { ...cumulative(), limits: [[10, 1], { length: 2 }] }, ['limits.1']],
  [
    'a limit that falls',
    {
      ...cumulative(),
      limits: [
        [10, 1],
        [9, 2],
      ],
    },
    ['limits.1.0'],
  ],
  [
    'a limit below 0',
    {
      ...cumulative(),
      limits: [
        [10, -1],
        [20, 2],
      ],
    },
    ['limits.0.1'],
  ],
  [
    'limits that are no numbers',
    {
      ...cumulative(),
      limits: [
        ['10', 1],
        [20, Number.NaN],
      ],
    },
    ['limits.0.0', 'limits.1.0', 'limits.1.1'],
  ],
  [
    'a limit beyond all figures',
    {
      ...cumulative(),
      limits: [
        [10, 1],
        [20, 2e60],
      ],
    },
    ['limits.1.1'],
  ],
  [
    'a limit after none',
    {
      ...cumulative(),
      limits: [
        [10, null],
        [20, 2],
      ],
    },
    ['limits.1.1'],
  ],
  ['a limit below 0 where limits are free', one(sized('F', {}), [[1], [-1]]), ['limits.1.0']],
  [
    'a column, of which the limits are not looked at',
    {
      ...cumulative(),
      columns: [sized('A', { iso11171: 6 }), sized('A', { iso11171: 14 })],
      limits: [
        [10, 1],
        [9, 2],
      ],
    },
    ['columns.1.label'],
  ],
])('refused: %s', (_name, table, places) => {
  expect(placesOf(table)).toEqual(places);
});

test('the first twenty places are told, as the same kind of mistake, after what others found', () => {
  const problems: Problem[] = [{ path: [], code: 'out_of_range', received: 1, expected: 'x' } as never];
  const many = Object.fromEntries(
    nine(0)
      .slice(0, 30)
      .map((i) => [`m${i}`, i]),
  );
  expect(noteUnsound({ ...cumulative(), ...many }, [], problems)).toBe(false);
  expect(problems.slice(1).map(({ path }) => path[0])).toEqual(Object.keys(many).slice(0, 20));
  expect(problems[1]).toMatchObject({ code: 'bad_table', received: '0', expected: 'what classTable takes there' });
  expect(noteUnsound(cumulative(), [], problems)).toBe(true);
  expect(noteUnsound(iso4406, [], problems)).toBe(true);
  const none: Problem[] = [];
  noteUnsound('own', ['table'], none);
  expect(none).toMatchObject([{ code: 'wrong_type', expected: 'a class table from classTable' }]);
});
