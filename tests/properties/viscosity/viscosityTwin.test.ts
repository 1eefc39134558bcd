/**
 * A second implementation at 50 digits, written from the standards in another way, against the library over thousands
 * of random points. The twin takes the same doubles as input, so what remains is the library's own rounding.
 */
import { Decimal } from 'decimal.js';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  convertViscosity,
  temperatureAt,
  viscosityAt,
  viscosityAt40OfIndex,
  viscosityAt100OfIndex,
  viscosityIndex,
  viscosityLine,
  viscosityLineOfGrade,
} from '../../../src/viscosity/index.ts';
import d2270 from '../../reference/viscosity/d2270.json' with { type: 'json' };
import { some } from '../../volume.ts';

const D = Decimal.clone({ precision: 50 });
const runs = { numRuns: some(1100, 60), seed: 341 };
const d = (x: number | string) => new D(x);

/** |actual - exact| / max(|exact|, floor), as a double. */
function off(actual: number, exact: Decimal, floor = 0): number {
  return d(actual).minus(exact).abs().div(D.max(exact.abs(), floor)).toNumber();
}

const logUniform = (low: number, high: number) =>
  fc.double({ min: Math.log(low), max: Math.log(high), noNaN: true }).map((x) => Math.exp(x));

// ---- ASTM D341 ----

const terms: [number, string, string][] = [
  [1, '-1.14883', '2.65868'],
  [-1, '-0.0038138', '12.5645'],
  [1, '5.46491', '37.6289'],
  [-1, '13.0458', '74.6851'],
  [1, '37.4619', '192.643'],
  [-1, '80.4945', '400.468'],
];

type Form = 'full' | 'short';

/** Z and its slope. */
function zAndSlope(v: Decimal, form: Form = 'full'): [Decimal, Decimal] {
  if (form === 'short') {
    const term = d('-1.47').minus(v.times('1.84')).minus(v.times(v).times('0.51')).exp();
    return [v.plus('0.7').plus(term), d(1).minus(v.times('1.02').plus('1.84').times(term))];
  }
  let z = v.plus('0.7');
  let slope = d(1);
  for (const [sign, a, b] of terms) {
    const exponent = d(a).minus(d(b).times(v));
    if (exponent.lt(-120)) continue;
    const term = exponent.exp().times(sign);
    z = z.plus(term);
    slope = slope.minus(term.times(b));
  }
  return [z, slope];
}

/** Newton's method on Z, halving towards the ends where it overshoots. */
function viscosityOfZ(z: Decimal, form: Form): Decimal {
  let low = d('0.2');
  let high = z.minus('0.7');
  let v = high;
  for (let round = 0; round < 200; round += 1) {
    const [reached, slope] = zAndSlope(v, form);
    const rest = reached.minus(z);
    if (rest.isZero()) break;
    if (rest.gt(0)) high = v;
    else low = v;
    let next = v.minus(rest.div(slope));
    if (next.lte(low) || next.gte(high)) next = low.plus(high).div(2);
    if (next.minus(v).abs().lt('1e-25')) return next;
    v = next;
  }
  return v;
}

/** The line is straight in natural logarithms too; they are quicker here. */
const logLog = (v: Decimal, form: Form) => zAndSlope(v, form)[0].ln().ln();
const kelvins = (celsius: number) => d(celsius).plus('273.15');

/** Two points at least 20 °C apart, from thin fuel, where all terms of Z weigh, to thick gear oil. */
const twoPoints = fc
  .record({
    cold: fc.double({ min: -20, max: 60, noNaN: true }),
    warmer: fc.double({ min: 20, max: 100, noNaN: true }),
    thin: fc.oneof(logUniform(0.21, 0.4), logUniform(0.3, 1000), logUniform(2, 1000)),
    ratio: logUniform(1.2, 40),
  })
  .map(({ cold, warmer, thin, ratio }) => [
    { celsius: cold, mm2PerS: thin * ratio },
    { celsius: cold + warmer, mm2PerS: thin },
  ]) as fc.Arbitrary<[{ celsius: number; mm2PerS: number }, { celsius: number; mm2PerS: number }]>;

describe.each(['full', 'short'] as const)('ASTM D341 at 50 digits, %s', (form) => {
  const exactLine = (points: { celsius: number; mm2PerS: number }[]) => {
    const [p, q] = points.map((point) => ({
      x: kelvins(point.celsius).ln(),
      w: logLog(d(point.mm2PerS), form),
    })) as [{ x: Decimal; w: Decimal }, { x: Decimal; w: Decimal }];
    const b = p.w.minus(q.w).div(q.x.minus(p.x));
    return { a: p.w.plus(b.times(p.x)), b };
  };

  test('viscosity at a temperature: 1e-12 relative', () => {
    let worst = 0;
    let compared = 0;
    fc.assert(
      fc.property(twoPoints, fc.double({ min: -0.5, max: 1.5, noNaN: true }), (points, share) => {
        const celsius = points[0].celsius + share * (points[1].celsius - points[0].celsius);
        const exact = exactLine(points);
        const w = exact.a.minus(exact.b.times(kelvins(celsius).ln()));
        const z = w.exp().exp();
        if (z.lt(zAndSlope(d('0.21'), form)[0]) || z.gt(20000000)) return;
        compared += 1;
        worst = Math.max(worst, off(viscosityAt(viscosityLine(points, { form }), celsius), viscosityOfZ(z, form)));
      }),
      runs,
    );
    expect(compared).toBeGreaterThan(some(1000, 30));
    expect(worst).toBeLessThan(1e-12);
  });

  test('temperature for a viscosity: 1e-12 of the absolute temperature', () => {
    let worst = 0;
    fc.assert(
      fc.property(twoPoints, fc.double({ min: -0.2, max: 1.2, noNaN: true }), (points, share) => {
        const [cold, warm] = points;
        const wanted = Math.max(0.21, Math.exp(Math.log(cold.mm2PerS) * (1 - share) + Math.log(warm.mm2PerS) * share));
        const exact = exactLine(points);
        const kelvin = exact.a
          .minus(logLog(d(wanted), form))
          .div(exact.b)
          .exp();
        const celsius = temperatureAt(viscosityLine(points, { form }), wanted);
        worst = Math.max(worst, kelvins(celsius).minus(kelvin).div(kelvin).abs().toNumber());
      }),
      runs,
    );
    expect(worst).toBeLessThan(1e-12);
  });
});

// ---- ASTM D2270 ----

const ln10 = d(10).ln();
const rows = d2270.table.rows as [number, number, number][];

function referenceOils(y: Decimal): [Decimal, Decimal] {
  if (y.gt(70)) {
    return [
      d('0.8353').times(y).times(y).plus(d('14.67').times(y)).minus(216),
      d('0.1684').times(y).times(y).plus(d('11.85').times(y)).minus(97),
    ];
  }
  const next = rows.findIndex((row) => y.lte(row[0]));
  const [y1, l1, h1] = rows[Math.max(next, 1)] as [number, number, number];
  const [y0, l0, h0] = rows[Math.max(next, 1) - 1] as [number, number, number];
  const line = (from: number, to: number) =>
    d(from)
      .times(d(y1).minus(y))
      .plus(d(to).times(y.minus(y0)))
      .div(d(y1).minus(y0));
  return [line(l0, l1), line(h0, h1)];
}

function exactIndex(at40: Decimal, at100: Decimal): Decimal {
  const [l, h] = referenceOils(at100);
  if (at40.gte(h)) return l.minus(at40).times(100).div(l.minus(h));
  const n = h.div(at40).ln().div(at100.ln());
  return n.times(ln10).exp().minus(1).div('0.00715').plus(100);
}

/** To the nearest whole number as decimals, halves to even. */
const exactReport = (index: Decimal) => index.toDecimalPlaces(0, Decimal.ROUND_HALF_EVEN).toNumber();

const oils = fc
  .record({ at100: logUniform(2, 200), ratio: logUniform(1.05, 40) })
  .map(({ at100, ratio }) => ({ at40: at100 * ratio, at100 }));

describe('ASTM D2270 at 50 digits', () => {
  test('the index: 1e-12 of it, or of 1 where it is smaller', () => {
    let worst = 0;
    fc.assert(
      fc.property(oils, ({ at40, at100 }) => {
        worst = Math.max(worst, off(viscosityIndex({ at40, at100 }).index, exactIndex(d(at40), d(at100)), 1));
      }),
      { ...runs, numRuns: some(2000, 100) },
    );
    expect(worst).toBeLessThan(1e-12);
  });

  test('the reported index of viscosities as laboratories print them', () => {
    const printed = fc
      .record({ at100: fc.integer({ min: 2000, max: 99999 }), ratio: fc.double({ min: 1.5, max: 20, noNaN: true }) })
      .map(({ at100, ratio }) => ({ at100: at100 / 1000, at40: Math.round((at100 / 1000) * ratio * 100) / 100 }));
    fc.assert(
      fc.property(printed, ({ at40, at100 }) => {
        const exact = exactReport(exactIndex(d(`${at40}`), d(`${at100}`)));
        expect(viscosityIndex({ at40, at100 }).reported).toBe(exact === 0 ? 0 : exact);
      }),
      { ...runs, numRuns: some(2500, 120) },
    );
  });

  test('an exact half goes to the even number, above and below zero', () => {
    const half = fc.record({ row: fc.constantFrom(...rows), below: fc.integer({ min: -60, max: 99 }) });
    let upward = 0;
    fc.assert(
      fc.property(half, ({ row: [y, l, h], below }) => {
        const at40 = d(l)
          .minus(d(l).minus(h).times(d(below).plus('0.5')).div(100))
          .toNumber();
        const even = below % 2 === 0 ? below : below + 1;
        upward += even - below;
        expect(viscosityIndex({ at40, at100: y }).reported).toBe(even === 0 ? 0 : even);
      }),
      { ...runs, numRuns: some(2000, 100) },
    );
    expect(upward).toBeGreaterThan(some(500, 12));
  });

  test('the inverse at 40 °C: 1e-12 relative; the inverse at 100 °C gives the index back to 1e-11', () => {
    const wanted = fc.record({ at100: logUniform(3, 200), index: fc.double({ min: -50, max: 300, noNaN: true }) });
    let worst = 0;
    fc.assert(
      fc.property(wanted, ({ at100, index }) => {
        const [l, h] = referenceOils(d(at100));
        const exact =
          index <= 100
            ? l.minus(l.minus(h).times(index).div(100))
            : h.div(d(index).minus(100).times('0.00715').plus(1).ln().div(ln10).times(d(at100).ln()).exp());
        const at40 = viscosityAt40OfIndex(at100, index);
        worst = Math.max(worst, off(at40, exact));
        const back = exactIndex(d(at40), d(viscosityAt100OfIndex(at40, index)));
        expect(back.minus(index).abs().toNumber()).toBeLessThan(1e-11 * Math.max(1, Math.abs(index)));
      }),
      runs,
    );
    expect(worst).toBeLessThan(1e-12);
  });

  test('the line of a grade goes through its middle at 40 °C, and at 100 °C where its index is: 1e-10', () => {
    const middles = [10, 15, 22, 32, 46, 68, 100, 150, 220, 320, 460, 680, 1000, 1500, 2200, 3200];
    fc.assert(
      fc.property(fc.constantFrom(...middles), fc.integer({ min: -30, max: 300 }), (grade, index) => {
        const { a, b, form } = viscosityLineOfGrade(grade, index);
        const at = (celsius: number) => {
          const w = d(a).minus(d(b).times(kelvins(celsius).ln().div(ln10)));
          return viscosityOfZ(w.times(ln10).exp().times(ln10).exp(), form);
        };
        expect(off(at(40).toNumber(), d(grade))).toBeLessThan(1e-12);
        expect(off(index, exactIndex(d(grade), at(100)), 1)).toBeLessThan(1e-10);
      }),
      runs,
    );
  });
});

// ---- ASTM D2161 ----

describe('ASTM D2161 at 50 digits', () => {
  /** Numerator and denominator of the curved part of equation 5. */
  const curved = (v: Decimal): [Decimal, Decimal] => [
    d('0.03264').times(v).plus(1).times(100000),
    d('1.646')
      .times(v.pow(3))
      .plus(d('23.97').times(v.pow(2)))
      .plus(d('262.7').times(v))
      .plus('3930.2'),
  ];
  const factor = (celsius: number) => d(celsius).times(9).div(5).plus(32).minus(100).times('0.000061').plus(1);
  const universal = (v: Decimal, celsius: number) => {
    const [over, under] = curved(v);
    return d('4.6324').times(v).plus(over.div(under)).times(factor(celsius));
  };
  const cases = fc.record({ v: logUniform(1.82, 1e6), celsius: fc.double({ min: -17, max: 176, noNaN: true }) });

  test('mm2/s to SUS and back: 1e-12 relative', () => {
    let there = 0;
    let back = 0;
    fc.assert(
      fc.property(cases, ({ v, celsius }) => {
        const seconds = convertViscosity(v, 'mm2/s', 'SUS', { celsius });
        there = Math.max(there, off(seconds, universal(d(v), celsius)));
        // the exact v of the double `seconds`, by bisection of the exact equation
        let [low, high] = [d(v).times('0.999999'), d(v).times('1.000001')];
        for (let round = 0; round < 70; round += 1) {
          const middle = low.plus(high).div(2);
          if (universal(middle, celsius).gt(seconds)) high = middle;
          else low = middle;
        }
        back = Math.max(back, off(convertViscosity(seconds, 'SUS', 'mm2/s', { celsius }), low));
      }),
      runs,
    );
    expect(there).toBeLessThan(1e-12);
    expect(back).toBeLessThan(1e-12);
  });

  test.each([
    [50, '0.4717', (v: Decimal) => d(13924).div(v.pow(2).minus(d('72.59').times(v)).plus(6816))],
    [98.9, '0.4792', (v: Decimal) => d(5610).div(v.pow(2).plus(2130))],
  ] as [number, string, (v: Decimal) => Decimal][])('mm2/s to SFS at %d °C: 1e-12 relative', (celsius, slope, rest) => {
    let worst = 0;
    fc.assert(
      fc.property(logUniform(50.1, 1e6), (v) => {
        const exact = d(slope)
          .times(v)
          .plus(rest(d(v)));
        worst = Math.max(worst, off(convertViscosity(v, 'mm2/s', 'SFS', { celsius }), exact));
      }),
      runs,
    );
    expect(worst).toBeLessThan(1e-12);
  });
});
