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
        ...{ value: 320, limit: 10, sizes: [4, 6], sizing: 'iso11171' },
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

  test('counts beside it decide', () => {
    const counts = { sizing: 'iso11171', sizes: [4, 6, 14], perMl: [1890, 402, 33] } as const;
    const { findings } = assessReading({ counts, codes: { iso4406: '10/16/13' } });
    expect(findings.map(({ code }) => code)).toEqual(['code_disagrees']);
  });
});
