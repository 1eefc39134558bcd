/** A class of one standard against a code of another: what it proves, and what it must not. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  as4059Cumulative,
  as4059Differential,
  type ClassTable,
  classify,
  compareCodes,
  formatCode,
  iso4406,
  iso4406Microscope,
  nas1638,
} from '../../../src/codes/index.ts';
import { stream } from '../../doubles.ts';
import { partly, randomSample, sizesOf } from '../samples.ts';

const micro = { table: iso4406Microscope, code: '-/18/13' };
const nas = (code: string) => compareCodes({ table: nas1638, code }, micro);

test('one sample never contradicts itself, though sizes are missing from the class and from the code', () => {
  const sizes = sizesOf(nas1638, 'iso11171')
    .concat(4)
    .sort((a, b) => a - b);
  const tables: readonly ClassTable[] = [nas1638, as4059Differential, iso4406];
  fc.assert(
    fc.property(
      fc.nat(),
      fc.constantFrom(...tables),
      fc.constantFrom(...tables),
      fc.boolean(),
      (seed, a, b, asText) => {
        const random = stream(seed);
        const whole = randomSample(random, sizes, 'iso11171');
        let codes: { table: ClassTable; code: ReturnType<typeof classify> }[];
        try {
          codes = [a, b].map((table) => ({ table, code: classify(table, partly(random, whole)) }));
        } catch {
          return; // none of the sizes kept is one of the table
        }
        const [first, second] = codes.map(({ table, code }) => ({
          table,
          code: asText ? formatCode(table, code) : code,
        }));
        expect(compareCodes(first as typeof micro, second as typeof micro).possible).toBe(true);
      },
    ),
    { numRuns: 300 },
  );
});

describe('`8 or dirtier`, read from text', () => {
  test.each([
    // 5 to 15 µm must be 9 or 10: a sample of which that range was not counted can have 8 at the others
    ['8', false],
    ['8 or dirtier', true],
    ['12 or dirtier', true],
    ['>12', true],
  ])('%s against -/18/13: %s', (code, possible) => {
    expect(nas(code).possible).toBe(possible);
  });

  test('says nothing of a column, so none is cleaner or dirtier', () => {
    expect(nas('12 or dirtier').columns.map(({ outcome }) => outcome)).toEqual(Array(5).fill('possible'));
  });

  test('is impossible where the code allows no class so dirty', () => {
    const clean = { table: nas1638, code: '6' };
    const of = (code: string) => compareCodes({ table: nas1638, code }, clean).possible;
    expect([of('6 or dirtier'), of('7 or dirtier'), of('>12')]).toEqual([true, false, false]);
  });
});

test('a size the first code does not speak of is left out of the comparison', () => {
  const found = compareCodes({ table: iso4406, code: '18/-/13' }, { table: iso4406, code: '18/16/13' });
  expect(found.columns.map(({ column }) => column)).toEqual(['4', '14']);
  expect(found.possible).toBe(true);
});

test('a first code that contradicts itself is possible size by size, and not as a whole', () => {
  const found = compareCodes({ table: iso4406, code: '11/12/10' }, { table: iso4406, code: '-/-/10' });
  expect(found.columns.map(({ outcome }) => outcome)).toEqual(['possible', 'possible', 'possible']);
  expect(found.possible).toBe(false);
  expect(compareCodes({ table: iso4406, code: '12/12/10' }, { table: iso4406, code: '-/-/10' }).possible).toBe(true);
});

test('a class of the dirtiest range proves as much second as first', () => {
  const clean = { table: iso4406, code: '5/4/3' };
  const dirty = { table: nas1638, code: '8' };
  // one range is above class 7, so at least 32 per 100 mL are of 6 µm(c) and larger; scale number 4 allows 16
  expect([compareCodes(clean, dirty).possible, compareCodes(dirty, clean).possible]).toEqual([false, false]);
  const scarce = { table: as4059Differential, code: '3' };
  expect([compareCodes(scarce, dirty).possible, compareCodes(dirty, scarce).possible]).toEqual([false, false]);
});

test('whether two codes can be those of one sample does not depend on which is first', () => {
  const classOf = fc.constantFrom<ClassTable>(nas1638, as4059Differential).chain((table) =>
    fc.record({
      table: fc.constant(table),
      code: fc.constantFrom(...table.classes).chain((name) => fc.constantFrom(name, `${name} or dirtier`)),
    }),
  );
  const scale = fc.tuple(fc.nat({ max: 16 }), fc.nat({ max: 6 }), fc.nat({ max: 6 }));
  const codeOf = fc.record({
    table: fc.constant<ClassTable>(iso4406),
    code: scale.map(([last, more, most]) => `${last + more + most}/${last + more}/${last}`),
  });
  let impossible = 0;
  let tried = 0;
  fc.assert(
    fc.property(fc.oneof(classOf, codeOf), fc.oneof(classOf, codeOf), (first, second) => {
      const { possible } = compareCodes(first, second);
      expect(compareCodes(second, first).possible).toBe(possible);
      tried += 1;
      if (!possible) impossible += 1;
    }),
    { numRuns: 300 },
  );
  expect(impossible / tried).toBeGreaterThan(0.2);
  expect(impossible / tried).toBeLessThan(0.9);
});

test('the worst class of several sizes together never contradicts the code of its sample', () => {
  const sizes = [4, 6, 14, 21, 38, 70];
  fc.assert(
    fc.property(fc.nat(), fc.integer({ min: 1, max: 4 }), (seed, first) => {
      const whole = randomSample(stream(seed), sizes, 'iso11171');
      const { classes } = as4059Cumulative;
      const parts = classify(as4059Cumulative, whole).parts.slice(first);
      const places = parts.map((part) => classes.indexOf(part.class as string));
      if (places.some((place) => place < 0)) return; // beyond the last class
      const together = {
        table: as4059Cumulative,
        code: `${classes[Math.max(...places)]}${'ABCDEF'[first]}-F`,
      };
      const code = { table: iso4406, code: classify(iso4406, whole).text };
      const found = compareCodes(together, code);
      expect(found.columns.map(({ outcome }) => outcome)).toEqual(found.columns.map(() => 'possible'));
      expect([found.possible, compareCodes(code, together).possible]).toEqual([true, true]);
    }),
    { numRuns: 200 },
  );
});
