/**
 * A code without counts that no sample can have is bad; every code that a sample has is not.
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import * as codes from '../../../src/codes/index.ts';
import { assessReading } from '../../../src/reading/index.ts';
import { some } from '../../volume.ts';
import { advanceMonitor, startMonitor } from '../watched.ts';

const found = (given: Record<string, string>) =>
  assessReading({ codes: given }).findings.filter(({ code }) => code === 'code_rises_with_size');

describe('a code that rises with size', () => {
  test('is one where a larger size has a higher scale number, and no other (ISO 4406:2021: sizes and larger)', () => {
    const part = fc.integer({ min: 0, max: 28 });
    fc.assert(
      fc.property(part, part, part, (at4, at6, at14) => {
        const rises = at6 > at4 || at14 > Math.min(at4, at6);
        expect(found({ iso4406: `${at4}/${at6}/${at14}` }).length).toBe(rises ? 1 : 0);
      }),
      { numRuns: some(5000) },
    );
  });

  test('is told with what it says at both sizes, and is bad', () => {
    expect(found({ iso4406: '10/16/13' })).toEqual([
      {
        ...{ code: 'code_rises_with_size', quality: 'bad', affects: ['counts'] },
        ...{ value: 320, limit: 10, sizes: [4, 6], sizing: 'iso11171', received: '10/16/13' },
      },
    ]);
    const { verdict } = advanceMonitor(
      { codes: [{ table: codes.iso4406, target: '18/16/13' }] },
      startMonitor({ codes: [{ table: codes.iso4406, target: '18/16/13' }] }),
      { time: 0, codes: { iso4406: '10/16/13' } },
    );
    expect(verdict?.quality).toBe('bad');
    expect(verdict?.inTarget).toBe(null);
  });

  test.each([
    ['>=5/8/-', 'the smaller size may have more'],
    ['>28/28/28', 'nothing is too many above the last class'],
    ['*/16/13', 'too many to count'],
    ['-/16/13', 'a size that was not counted'],
    ['ERR', 'what is no code has its own finding'],
  ])('%s does not: %s', (text) => {
    expect(found({ iso4406: text })).toEqual([]);
  });

  test.each([['16/>28/13'], ['5/>=8/-'], ['18/-/19']])('%s does', (text) => {
    expect(found({ iso4406: text }).length).toBe(1);
  });

  test('no sample has such a code, in any cumulative table', () => {
    const tables = codes.standardTables.filter(({ counting }) => counting === 'cumulative');
    expect(tables.length).toBeGreaterThan(2);
    fc.assert(
      fc.property(
        fc.constantFrom(...tables),
        fc.array(fc.double({ min: -3, max: 7, noNaN: true }), { minLength: 8, maxLength: 8 }),
        (table, exponents) => {
          const sizing = table.columns[0]?.from.iso11171 === undefined ? 'microscope' : 'iso11171';
          const sizes = table.columns.flatMap(({ from }) => from[sizing] ?? []);
          const perMl = exponents.map((each) => 10 ** each).sort((a, b) => b - a);
          const counts = { sizing, sizes, perMl: perMl.slice(0, sizes.length) } as const;
          const config = { codes: [{ table }] };
          const reading = { time: 0, codes: { [table.id]: codes.classify(table, counts).text } };
          const { verdict } = advanceMonitor(config, startMonitor(config), reading);
          expect(verdict?.findings).toEqual([]);
        },
      ),
      { numRuns: some(1000) },
    );
    const config = { codes: [{ table: codes.as4059Cumulative }] };
    const risen = { time: 0, codes: { [codes.as4059Cumulative.id]: '2A/9B/3C/3D/3E/3F' } };
    const { verdict } = advanceMonitor(config, startMonitor(config), risen);
    expect(verdict?.findings.map(({ code }) => code)).toEqual(['code_rises_with_size']);
  });

  /** What a monitor finds in a code by one table. */
  const foundBy = (table: codes.ClassTable, text: string) => {
    const config = { codes: [{ table }] };
    const { verdict } = advanceMonitor(config, startMonitor(config), { time: 0, codes: { [table.id]: text } });
    return (verdict?.findings ?? []).map(({ code, sizes, sizing, value, limit }) => ({
      ...{ code, sizes, sizing, value, limit },
    }));
  };
  const risen = (sizes: readonly number[], value: number, limit: number, sizing = 'iso11171') => [
    { code: 'code_rises_with_size', sizes, sizing, value, limit },
  ];

  test('by the fewest of all that smaller sizes allow (SAE AS4059 Table 2, revision E)', () => {
    // per 100 mL: A 0 at most 780; B 2 more than 609, up to 1217; C 5 more than 864
    expect(foundBy(codes.as4059Cumulative, '0A/2B/5C')).toEqual(risen([4, 14], 8.64, 7.8));
    expect(foundBy(codes.as4059Cumulative, '0A/2B/4C')).toEqual([]);
    // one of B to F has class 9, but not each
    expect(foundBy(codes.as4059Cumulative, '2A/9B-F')).toEqual([]);
    expect(foundBy(codes.as4059Cumulative, '2A/9B')).toHaveLength(1);
  });

  test('of sizes that allow as much, by the smallest', () => {
    expect(found({ iso4406: '10/10/16' })).toMatchObject(risen([4, 14], 320, 10));
  });

  test('by a microscope in its own sizes', () => {
    expect(found({ iso4406Microscope: '-/12/14' })).toMatchObject(risen([5, 15], 80, 40, 'microscope'));
  });

  test('a range says nothing of the others', () => {
    const { counting: _counting, ...rest } = codes.as4059Cumulative;
    const columns = [
      { label: 'A', from: { iso11171: 4 }, to: { iso11171: 6 } },
      { label: 'B', from: { iso11171: 6 }, to: { iso11171: 14 } },
    ];
    const limits = [10, 100, 1000].map((limit) => [limit, limit]);
    const ranges = { ...rest, id: 'own', counting: 'differential', columns, classes: ['1', '2', '3'], limits } as const;
    expect(foundBy(codes.classTable(ranges), '1A/3B')).toEqual([]);
  });

  describe('of a table of one’s own', () => {
    type Columns = readonly codes.ClassTable['columns'][number]['from'][];
    const own = (columns: Columns, limits = [10, 100, 1000].map((limit) => [limit, limit]), rest = {}) =>
      ({
        ...{ id: 'own', title: 'Own', counting: 'cumulative', perVolumeMl: 1, notation: 'lettered' },
        ...{ columns: columns.map((from, i) => ({ label: 'AB'[i], from })), limits },
        ...{ classes: limits.map((_row, i) => `${i + 1}`), ...rest },
      }) as unknown as codes.ClassTable;

    test('sizes of one sizing are compared, which need not be that of ISO 11171', () => {
      expect(foundBy(own([{ iso11171: 6 }, { iso11171: 14 }]), '1A/3B')).toEqual(risen([6, 14], 100, 10));
      expect(foundBy(own([{ iso4402: 5 }, { iso4402: 15 }]), '1A/3B')).toEqual(risen([5, 15], 100, 10, 'iso4402'));
      // 14 µm(c) is larger than 5 µm by microscope
      expect(foundBy(own([{ iso11171: 14 }, { microscope: 5 }]), '1A/3B')).toEqual([]);
    });

    test('what no counter sees is no size', () => {
      expect(foundBy(own([{ iso11171: 6 }, {}]), '1A/3B')).toEqual([]);
    });

    test('the first class has no fewest, and beyond the last class there is no most', () => {
      const sized = [{ iso11171: 6 }, { iso11171: 14 }];
      expect(foundBy(own(sized), '1A/1B')).toEqual([]);
      expect(foundBy(own(sized), '>3A/3B')).toEqual([]);
      expect(foundBy(own(sized), '3A/>3B')).toEqual(risen([6, 14], 1000, 1000));
      const none = [
        [0, 0],
        [10, 10],
      ];
      // none at the smallest size are few
      const few = [{ code: 'few_particles', value: 19, limit: 20, sizes: [6, 14], sizing: 'iso11171' }];
      expect(foundBy(own(sized, none), '1A/1B')).toEqual(few);
      expect(foundBy(own(sized, none), '1A/2B')).toEqual([...few, ...risen([6, 14], 0, 0)]);
    });

    test('one class or dirtier of all says of no size that it is kept', () => {
      const rising = [
        [10, 100],
        [20, 200],
      ];
      const single = own([{ iso11171: 6 }, { iso11171: 14 }], rising, { notation: 'single' });
      expect(foundBy(single, '2 or dirtier')).toEqual([]);
      expect(foundBy(single, '2')).toEqual([]);
    });
  });

  test('counts beside it decide', () => {
    const counts = { sizing: 'iso11171', sizes: [4, 6, 14], perMl: [1890, 402, 33] } as const;
    const { findings } = assessReading({ counts, codes: { iso4406: '10/16/13' } });
    expect(findings.map(({ code }) => code)).toEqual(['code_disagrees']);
  });
});
