/** What a code leaves open, case by case, worked out by hand for small tables of one's own. */
import { describe, expect, test } from 'vitest';
import { type ClassTable, compareCodes, iso4406 } from '../../../src/codes/index.ts';
import { expectRefused } from '../../inputs/refused.ts';

const ranges = [
  { label: 'A', from: { iso11171: 6 }, to: { iso11171: 14 } },
  { label: 'B', from: { iso11171: 14 } },
];
const { source } = iso4406;
const own = (limits: readonly (readonly (number | null)[])[], rest: Partial<ClassTable>): ClassTable => ({
  ...{ id: 'own', title: 'Own', counting: 'differential', perVolumeMl: 1, columns: ranges, limits, source },
  ...{ classes: limits.map((_row, i) => `${i + 1}`), ...rest },
});
const same = (limits: readonly number[]) => limits.map((limit) => [limit, limit]);
/** Each range with a class of its own. */
const fine = own(same([5, 10, 50, 100]), { id: 'fine', notation: 'lettered' });
/** One class for both. */
const coarse = own(same([10, 100, 1000]), { id: 'coarse', notation: 'single' });
const against = (code: string, second: string) => compareCodes({ table: fine, code }, { table: coarse, code: second });

describe('a class for two ranges', () => {
  test('both keep it, and one or the other has it', () => {
    // A above 10 up to 100 and B up to 100, or the other way round
    expect(against('3A/1B', '2')).toEqual({
      ...{ sizing: 'iso11171', possible: true, lowest: '3', highest: '4', unseen: [] },
      columns: [
        { column: 'A', lowest: '1', highest: '4', given: '3', outcome: 'possible' },
        { column: 'B', lowest: '1', highest: '4', given: '1', outcome: 'possible' },
      ],
    });
    expect(against('1A/4B', '2').possible).toBe(true);
    // each is possible by itself, both together are not
    expect(against('2A/2B', '2').possible).toBe(false);
    expect(against('>4A/1B', '2').columns[0]?.outcome).toBe('dirtier');
  });

  test('or dirtier: one has it, of the other nothing is said', () => {
    const { columns, ...rest } = against('3A/3B', '2 or dirtier');
    expect(rest).toEqual({ sizing: 'iso11171', possible: true, lowest: '3', highest: '>4', unseen: ['A', 'B'] });
    expect(columns.map(({ lowest, highest }) => [lowest, highest])).toEqual([
      ['1', '>4'],
      ['1', '>4'],
    ]);
    expect(against('>4A/3B', '2 or dirtier').possible).toBe(true);
    expect(against('2A/2B', '2 or dirtier').possible).toBe(false);
    expect(against('>4A/>4B', '2 or dirtier').possible).toBe(false);
  });

  test('the cleanest of all has no fewest', () => {
    expect(against('1A/1B', '1').possible).toBe(true);
    expect(against('3A/1B', '1').possible).toBe(false);
    expect(compareCodes({ table: coarse, code: '1' }, { table: fine, code: '1A/2B' }).possible).toBe(true);
  });
});

test('of classes that share a limit any may be written; beyond a class without a limit is none', () => {
  const shared = own(
    [
      [10, 1],
      [10, 2],
      [20, null],
    ],
    { notation: 'lettered' },
  );
  const meets = (code: string, fineCode: string) =>
    compareCodes({ table: shared, code }, { table: fine, code: fineCode }).possible;
  expect([meets('2A', '1A'), meets('1A', '1A'), meets('3A', '1A'), meets('3A', '3A')]).toEqual([
    true,
    true,
    false,
    true,
  ]);
  expect([meets('3B', '>4B'), meets('2B', '>4B')]).toEqual([true, false]);
  expect(meets('>3B', '>4B')).toBe(false);
  expectRefused('no_answer', 'second.code', 'some sample', () =>
    compareCodes({ table: fine, code: '1A' }, { table: shared, code: '>3B' }),
  );
});

describe('what no counter sees', () => {
  const mixed = (limits: readonly (readonly number[])[]) =>
    own(limits, {
      notation: 'single',
      columns: [
        { label: 'A', from: { iso11171: 6 } },
        { label: 'F', from: {} },
      ],
    });
  const seen = own([[10], [100], [1000]], {
    id: 'seen',
    counting: 'cumulative',
    notation: 'lettered',
    columns: [{ label: 'A', from: { iso11171: 6 } }],
  });
  const table = mixed([
    [10, 0],
    [100, 1],
    [1000, 2],
  ]);
  test('may have decided the class, which the rest keeps', () => {
    const meets = (code: string, other: string) => compareCodes({ table: seen, code }, { table, code: other }).possible;
    expect(['1A', '2A', '3A'].map((code) => meets(code, '2'))).toEqual([true, true, false]);
    expect(['1A', '2A', '3A'].map((code) => meets(code, '1'))).toEqual([true, false, false]);
    const { columns } = compareCodes({ table: seen, code: '1A' }, { table, code: '2' });
    expect(columns).toEqual([{ column: 'A', lowest: '1', highest: '2', given: '1', outcome: 'possible' }]);
  });

  test('decides where the counts cannot have, and what else is not counted is kept', () => {
    // classes 1 and 2 allow as many particles: class 2 is one by F or M, 3 then none
    const three = { columns: ['A', 'F', 'M'].map((label) => ({ label, from: label === 'A' ? { iso11171: 6 } : {} })) };
    const limits = [
      [10, 0, 0],
      [10, 1, 1],
      [1000, 2, 2],
    ];
    const single = own(limits, { ...three, notation: 'single' });
    const meets = (code: string, other: string) =>
      compareCodes({ table: single, code }, { table: single, code: other }).possible;
    expect([meets('2', '2'), meets('3', '2'), meets('2', '3')]).toEqual([true, false, false]);
    const lettered = own(limits, { ...three, counting: 'cumulative', notation: 'lettered' });
    expect(compareCodes({ table: seen, code: '1A' }, { table: lettered, code: '2F/1M' }).possible).toBe(true);
  });
});

describe('of sizes and larger', () => {
  const sizes = (columns: ClassTable['columns'], limits: readonly (readonly number[])[], id = 'own') =>
    own(limits, { id, counting: 'cumulative', notation: 'lettered', columns });
  const at6 = sizes([{ label: 'A', from: { iso11171: 6 } }], [[10], [100], [1000]], 'at6');

  test('a size without one in this sizing is larger where another sizing says so', () => {
    const columns = [
      { label: 'A', from: { iso11171: 6, microscope: 5 } },
      { label: 'B', from: { microscope: 100 } },
    ];
    const table = sizes(columns, same([10, 100, 1000]));
    const meets = (code: string) =>
      compareCodes({ table: at6, code }, { table, code: '3B' }, { sizing: 'iso11171' }).possible;
    expect(['1A', '2A', '3A'].map(meets)).toEqual([false, false, true]);
  });

  test('the cleanest class may be that of no particle', () => {
    const table = sizes([{ label: 'A', from: { iso11171: 6 } }], [[0], [10]]);
    expect(compareCodes({ table: at6, code: '1A' }, { table, code: '1A' }).possible).toBe(true);
  });
});
