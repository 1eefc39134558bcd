/** Bounds that add up exactly: against whole numbers of any length. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Bound, isSharper, leavesRoom, minus, none, plus } from '../../../src/codes/comparison/bound.ts';
import { limitUnit } from '../../../src/codes/comparison/limitUnit.ts';
import { standardTables } from '../../../src/codes/index.ts';
import { some } from '../../volume.ts';

/** In ten-millionths. */
const total = ({ value, rest }: Bound) => BigInt(value) * 10000000n + BigInt(rest);
const rest = fc.oneof(fc.integer({ min: 0, max: 9999999 }), fc.constantFrom(0, 1, 5000000, 9999999));
const bound = fc.record({ value: fc.integer({ min: -3, max: 3 }), rest, strict: fc.nat(2) });
const runs = { numRuns: some(5000) };

describe('bounds', () => {
  const whole = (one: Bound) => {
    expect(one.rest).toBeGreaterThanOrEqual(0);
    expect(one.rest).toBeLessThan(1e7);
    expect(Object.is(one.value, -0)).toBe(false);
    return total(one);
  };

  test('added and turned round', () => {
    fc.assert(
      fc.property(bound, bound, (a, b) => {
        expect(whole(plus(a, b))).toBe(total(a) + total(b));
        expect(plus(a, b).strict).toBe(a.strict + b.strict);
        expect(whole(minus(a))).toBe(-total(a));
        expect(minus(a).strict).toBe(0);
      }),
      runs,
    );
    expect(plus({ value: 0, rest: 4000000, strict: 0 }, { value: 1, rest: 6000000, strict: 1 })).toEqual({
      ...{ value: 2, rest: 0, strict: 1 },
    });
  });

  test('the lesser is sharper, of equal ones that with more strict parts; room is left by 0, but not below it', () => {
    const near = fc.record({ value: fc.constantFrom(-1, 0), rest: fc.constantFrom(0, 1, 9999999), strict: fc.nat(2) });
    fc.assert(
      fc.property(near, near, (a, b) => {
        const sharper = total(a) < total(b) || (total(a) === total(b) && a.strict > b.strict);
        expect(isSharper(a, b)).toBe(sharper);
        expect(leavesRoom(a)).toBe(total(a) > 0n || (total(a) === 0n && a.strict === 0));
      }),
      runs,
    );
    expect(leavesRoom(none)).toBe(true);
    expect(none).toEqual({ value: 0, rest: 0, strict: 0 });
  });
});

/** A table of one column; of one per 1 mL or 100 mL only the limits matter. */
const tableOf = (perVolumeMl: 1 | 100, limits: readonly (number | null)[]) =>
  ({ ...standardTables[0], perVolumeMl, limits: limits.map((limit) => [limit]) }) as (typeof standardTables)[0];

describe('limits in one unit', () => {
  test('keep their proportions exactly, per 1 mL and per 100 mL', () => {
    const decimal = fc.record({ digits: fc.integer({ min: 1, max: 9999 }), exponent: fc.integer({ min: -9, max: 5 }) });
    const volume = fc.constantFrom<1 | 100>(1, 100);
    fc.assert(
      fc.property(decimal, decimal, volume, volume, (a, b, inA, inB) => {
        const number = ({ digits, exponent }: typeof a) => Number(`${digits}e${exponent}`);
        const tables = [tableOf(inA, [number(a), null]), tableOf(inB, [number(b)])] as const;
        const { most, least } = limitUnit(tables, 8);
        // times 1e11, a whole number per mL
        const perMl = ({ digits, exponent }: typeof a, volumeMl: number) =>
          (BigInt(digits) * 10n ** BigInt(exponent + 11)) / BigInt(volumeMl);
        const [one, other] = [most(tables[0], number(a)), most(tables[1], number(b))];
        expect(total(one) * perMl(b, inB)).toBe(total(other) * perMl(a, inA));
        expect(total(one) > 0n && one.rest < 1e7 && one.strict === 0).toBe(true);
        expect(total(least(tables[0], number(a)))).toBe(-total(one));
        // in units of a ten-millionth of a particle per 100 mL, or of the finest digit
        const scale = Math.max(0, -a.exponent, -b.exponent) + 2;
        expect(total(one)).toBeLessThanOrEqual((perMl(a, inA) * 10n ** BigInt(scale)) / 10n ** 11n);
      }),
      runs,
    );
  });

  test('by hand: finest is 1 per 100 mL', () => {
    const [per1, per100] = [tableOf(1, [10]), tableOf(100, [250])];
    const { most } = limitUnit([per1, per100], 4);
    expect([most(per1, 10), most(per100, 250), most(per100, 3)].map(total)).toEqual([1000n, 250n, 3n]);
    // in millions and in billionths
    const far = [tableOf(1, [2.5e6]), tableOf(1, [4e-9])] as const;
    const unit = limitUnit(far, 4);
    expect([unit.most(far[0], 2.5e6), unit.most(far[1], 4e-9)]).toEqual([
      { value: 250000000, rest: 0, strict: 0 },
      { value: 0, rest: 4, strict: 0 },
    ]);
    expect(unit.least(far[1], 4e-9)).toEqual({ value: -1, rest: 9999996, strict: 0 });
  });

  test('a little wider where they have too many digits for that', () => {
    for (const inVolume of [1, 100] as const) {
      const table = tableOf(inVolume, [1e-20, 3e40]);
      const { most, least } = limitUnit([table], 4);
      for (const limit of [1e-20, 7, 3e40]) {
        const perMl = limit / inVolume;
        const [upper, lower] = [most(table, limit), least(table, limit)];
        expect([upper.rest, upper.strict, lower.rest, lower.strict]).toEqual([0, 0, 0, 0]);
        // wider by more than the rounding of a sum, and by no more than a class could tell
        for (const width of [upper.value - perMl, lower.value + perMl]) {
          expect(width).toBeGreaterThan(perMl * 5e-14);
          expect(width).toBeLessThan(perMl * 2e-13);
        }
      }
    }
    // a hundredth of it has more digits than a power of ten can shift exactly, in whichever place it stands
    for (const limits of [[5, 1e-21], [1e-21, 5], [1e-21]]) {
      const table = tableOf(100, limits);
      expect(limitUnit([table], 4).most(table, 1e-21).value).toBeCloseTo(1e-23, 30);
      expect(limitUnit([table], 4).most(table, 1e-21).value).toBeGreaterThan(1e-23);
    }
    expect(limitUnit([tableOf(100, [1e-20])], 4).most(tableOf(100, [1e-20]), 1e-20)).toEqual({
      ...{ value: 0, rest: 1, strict: 0 },
    });
    // 45035996 of a hundred millions are below 2^52 = 4503599627370496, 45035997 are not
    const per100 = tableOf(100, [1e15]);
    const sumOf = (terms: number) => limitUnit([per100], terms).most(per100, 1e15).value;
    expect(sumOf(45035996)).toBe(1e8);
    expect(sumOf(45035997)).toBeGreaterThan(1e13);
    // 2^42 times 2^10 is 2^52
    const edge = tableOf(100, [2 ** 10 * 1e7]);
    const edgeOf = (terms: number) => limitUnit([edge], terms).most(edge, 2 ** 10 * 1e7).value;
    expect([edgeOf(2 ** 42 - 1), edgeOf(2 ** 42) > 1e8]).toEqual([2 ** 10, true]);
  });
});
