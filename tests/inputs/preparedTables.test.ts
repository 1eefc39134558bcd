/** A table handed in as an object is looked through where a configuration is prepared, and the place is told. */
import { expect, test } from 'vitest';
import { prepareAcceptance } from '../../src/acceptance/index.ts';
import { classTable, iso4406, standardTables } from '../../src/codes/index.ts';
import { problemsOf } from '../../src/errors.ts';
import { prepareMonitor } from '../../src/monitor/index.ts';
import { parseMonitorConfig } from '../../src/schema/index.ts';

const own = {
  id: 'own',
  title: 'Own',
  counting: 'cumulative',
  perVolumeMl: 1,
  columns: [
    { label: '6', from: { iso11171: 6 } },
    { label: '14', from: { iso11171: 14 } },
  ],
  classes: ['A', 'B', 'C'],
  limits: [
    [100, 10],
    [1000, 50],
    [10000, 500],
  ],
};
const [first, second] = own.columns;

const damaged: readonly (readonly [string, object, string])[] = [
  [
    'a limit that falls',
    {
      limits: [
        [100, 10],
        [10, 50],
        [10000, 500],
      ],
    },
    'limits.1.0',
  ],
  [
    'a limit that is none',
    {
      limits: [
        [100, 10],
        [1000, -1],
        [10000, 500],
      ],
    },
    'limits.1.1',
  ],
  ['a way of counting that nobody knows', { counting: 'differentail' }, 'counting'],
  ['a member that is misspelt', { perVolumeML: 100 }, 'perVolumeML'],
  ['a class that stands twice', { classes: ['A', 'B', 'A'] }, 'classes.2'],
  ['a class that no code can hold', { classes: ['A', 'B/C', 'D'] }, 'classes.1'],
  ['sizes that fall', { columns: [second, first] }, 'columns.1.from.iso11171'],
  ['a sizing that nobody knows', { columns: [{ label: '6', from: { iso1171: 6 } }, second] }, 'columns.0.from.iso1171'],
];

function placesOf(run: () => unknown): string[] {
  try {
    run();
  } catch (error) {
    return problemsOf(error).map(({ path }) => path.join('.'));
  }
  return [];
}

test.each(damaged)('%s is refused at its place by all that prepare', (_what, change, place) => {
  const table = { ...own, ...change } as never;
  expect(placesOf(() => prepareMonitor({ codes: [{ table, target: 'B' }] }))).toEqual([`codes.0.table.${place}`]);
  expect(placesOf(() => prepareMonitor({ codes: [{ table: 'own' }], tables: [table] }))).toContain(`tables.0.${place}`);
  expect(placesOf(() => prepareMonitor({ codes: [{ table: 'own' }] }, { tables: [table] }))).toEqual([`0.${place}`]);
  const wanted = { target: 'B', readings: 2 };
  expect(placesOf(() => prepareAcceptance({ ...wanted, table }))).toEqual([`table.${place}`]);
  expect(placesOf(() => prepareAcceptance({ ...wanted, table: 'own' }, { tables: [table] }))).toEqual([`0.${place}`]);
  // at the same place a configuration from outside is refused
  expect(placesOf(() => parseMonitorConfig({ codes: [{ table, target: 'B' }] }))).toEqual([`codes.0.table.${place}`]);
});

test('sound tables pass as they are: from classTable, from a standard, and as JSON of these', () => {
  const tables = [...standardTables, classTable(own as never)];
  for (const table of [...tables, ...(JSON.parse(JSON.stringify(tables)) as typeof tables), own as never])
    expect(placesOf(() => prepareMonitor({ codes: [{ table }] }))).toEqual([]);
});

test('a member that looks like the mark of a checked table makes none of it', () => {
  for (const mark of [null, 7, {}]) {
    const table = { ...iso4406, '~limitAt': mark, perVolumeMl: 10 } as never;
    expect(placesOf(() => prepareMonitor({ codes: [{ table }] })).sort()).toEqual([
      'codes.0.table.perVolumeMl',
      'codes.0.table.~limitAt',
    ]);
  }
});
