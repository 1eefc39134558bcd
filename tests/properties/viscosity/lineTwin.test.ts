/** Grades, points beside a line and blends to measure, once more in decimals of 50 digits. */
import type { Decimal } from 'decimal.js';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  blendLinesFraction,
  isoGrade,
  lineResiduals,
  type ViscosityLine,
  viscosityAt,
  viscosityLine,
} from '../../../src/viscosity/index.ts';
import { Exact } from '../../doubles.ts';
import { some } from '../../volume.ts';
import { agrees, between, d, near, short, spread, written } from '../twin.ts';

const at = <T>(list: readonly T[], i: number): T => list[i] as T;

/** Z of ASTM D341, all its terms. */
function zOf(v: Decimal): Decimal {
  const terms: [number, string, string][] = [
    [1, '-1.14883', '2.65868'],
    [-1, '-0.0038138', '12.5645'],
    [1, '5.46491', '37.6289'],
    [-1, '13.0458', '74.6851'],
    [1, '37.4619', '192.643'],
    [-1, '80.4945', '400.468'],
  ];
  return terms.reduce((z, [sign, a, b]) => z.plus(d(a).minus(d(b).times(v)).exp().times(sign)), v.plus('0.7'));
}

/** W of a line at a temperature. */
const wAt = ({ a, b }: ViscosityLine, celsius: number) =>
  d(a).minus(d(b).times(Exact.log10(d(celsius).plus('273.15'))));

/** The viscosity of W, from the thick end: each round takes off what the terms add. */
function viscosityOf(w: Decimal): Decimal {
  const z = Exact.pow(10, Exact.pow(10, w));
  let v = z.minus('0.7');
  for (let round = 0; round < 200; round += 1) {
    const next = v.plus(z.minus(zOf(v)));
    if (next.minus(v).abs().lt('1e-30')) return next;
    v = next;
  }
  return v;
}

const oil = fc.tuple(spread(6, 1500), between(0.09, 0.35)).map(([at40, share]) =>
  viscosityLine([
    { celsius: 40, mm2PerS: at40 },
    { celsius: 100, mm2PerS: Math.max(1, at40 * share) },
  ]),
);
const celsius = between(0, 100);

test('the grade: within 10 % of the middle, limits included, as decimals', () => {
  const middles = ['2.2', '3.2', '4.6', '6.8', '10', '15', '22', '32', '46', '68'];
  const grades = middles.concat(['100', '150', '220', '320', '460', '680', '1000', '1500', '2200', '3200']);
  const names = grades.map((middle) => Number(middle)).map((middle) => (middle < 10 ? Math.round(middle) : middle));
  const limits = grades.flatMap((middle) => [d(middle).times('0.9'), d(middle).times('1.1')]).map(Number);
  const anywhere = fc.oneof(short(1.98, 99, 3), short(2, 3520, 1), fc.constantFrom(...limits));
  fc.assert(
    fc.property(anywhere, (at40) => {
      const inside = (i: number) =>
        written(at40).gte(d(at(grades, i)).times('0.9')) && written(at40).lte(d(at(grades, i)).times('1.1'));
      const place = grades.findIndex((_, i) => inside(i));
      if (place >= 0) {
        expect(isoGrade(at40)).toEqual({ grade: at(names, place) });
        return;
      }
      const above = grades.findIndex((middle) => written(at40).lt(middle));
      expect(isoGrade(at40)).toEqual({ grade: null, between: [at(names, above - 1), at(names, above)] });
    }),
    { numRuns: some(3000) },
  );
});

describe('lines', () => {
  test('how far a point lies from one: 1e-12 of the viscosity', () => {
    fc.assert(
      fc.property(oil, celsius, between(0.5, 2), (line, t, times) => {
        const mm2PerS = viscosityAt(line, t) * times;
        const [found] = lineResiduals(line, [{ celsius: t, mm2PerS }]);
        const onLine = viscosityOf(wAt(line, t));
        expect([found?.celsius, found?.mm2PerS]).toEqual([t, mm2PerS]);
        agrees(found?.onLine as number, onLine, 1e-12);
        near(found?.percent as number, d(mm2PerS).div(onLine).minus(1).times(100), 1e-10 * times);
      }),
      { numRuns: some(300, 25) },
    );
  });

  test('the share of one of two oils, by the average of the logarithms of temperature: to 1e-12', () => {
    fc.assert(
      fc.property(oil, oil, celsius, between(0.01, 0.99), (first, second, t, share) => {
        const ends = [viscosityAt(first, t), viscosityAt(second, t)] as const;
        fc.pre(Math.abs(Math.log(ends[0] / ends[1])) > 0.05);
        const mm2PerS = ends[0] + share * (ends[1] - ends[0]);
        const fraction = blendLinesFraction({ first, second, celsius: t, mm2PerS });
        const w = Exact.log10(Exact.log10(zOf(d(mm2PerS))));
        const temperature = ({ a, b }: ViscosityLine) => d(a).minus(w).div(d(b));
        const [one, other] = [temperature(first), temperature(second)];
        const twin = Exact.log10(d(t).plus('273.15')).minus(other).div(one.minus(other));
        near(fraction, twin, 1e-14 / Math.abs(one.minus(other).toNumber()));
      }),
      { numRuns: some(300, 25) },
    );
  });
});
