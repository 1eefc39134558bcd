import { Decimal } from 'decimal.js';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  type BlendMethod,
  type BlendPart,
  blendFraction,
  blendViscosity,
  refutasNumber,
} from '../../../src/viscosity/blending.ts';
import { blendLines, blendLinesFraction } from '../../../src/viscosity/blendLines.ts';
import { viscosityAt } from '../../../src/viscosity/line/alongLine.ts';
import { viscosityLine } from '../../../src/viscosity/line/viscosityLine.ts';
import { some } from '../../volume.ts';
import { anyNumber, expectSound } from '../anyNumber.ts';

const methods: BlendMethod[] = ['astm', 'refutas'];
const runs = { numRuns: some(1000) };

/** 0.21 to 2e7 mm2/s, evenly over the decades. */
const viscosity = fc.double({ min: 0, max: 1, noNaN: true }).map((u) => Math.min(0.21 * (2e7 / 0.21) ** u, 2e7));
const weights = fc.array(fc.tuple(fc.integer({ min: 1, max: 1000 }), viscosity), { minLength: 1, maxLength: 6 });
const blend = weights.map((list): BlendPart[] => {
  const sum = list.reduce((total, [weight]) => total + weight, 0);
  return list.map(([weight, mm2PerS]) => ({ fraction: weight / sum, mm2PerS }));
});

const Exact = Decimal.clone({ precision: 50 });
const exactZ = (v: Decimal) =>
  v.plus('0.7').plus(new Exact('-1.47').minus(v.times('1.84')).minus(v.times(v).times('0.51')).exp());
const exactNumber = (v: Decimal, method: BlendMethod) => (method === 'astm' ? exactZ(v) : v.plus('0.8')).ln().ln();

/**
 * The blend at 50 digits: the same equations, solved by Newton's method. The constants of the Refutas number cancel.
 */
function exactBlend(parts: readonly BlendPart[], method: BlendMethod): Decimal {
  const sum = parts.reduce((total, part) => total.plus(part.fraction), new Exact(0));
  const number = parts.reduce(
    (total, part) => total.plus(exactNumber(new Exact(part.mm2PerS), method).times(part.fraction)),
    new Exact(0),
  );
  const z = number.div(sum).exp().exp();
  if (method === 'refutas') return z.minus('0.8');
  let v = z.minus('0.7');
  for (let i = 0; i < 6; i += 1) {
    const e = new Exact('-1.47').minus(v.times('1.84')).minus(v.times(v).times('0.51')).exp();
    const slope = new Exact(1).minus(v.times('1.02').plus('1.84').times(e));
    v = v.minus(v.plus('0.7').plus(e).minus(z).div(slope));
  }
  return v;
}

describe.each(methods)('blending by %s', (method) => {
  test('agrees with 50 digits to 1e-12', () => {
    fc.assert(
      fc.property(blend, (parts) => {
        const exact = exactBlend(parts, method);
        expect(exact.div(blendViscosity(parts, method)).minus(1).abs().toNumber()).toBeLessThan(1e-12);
      }),
      runs,
    );
  });

  test('the fraction agrees with 50 digits to 1e-12', () => {
    fc.assert(
      fc.property(viscosity, viscosity, fc.double({ min: 0, max: 1, noNaN: true }), (first, second, u) => {
        fc.pre(Math.abs(Math.log(first / second)) > 0.05);
        const low = Math.min(first, second);
        const target = Math.min(Math.max(low * (Math.max(first, second) / low) ** u, low), Math.max(first, second));
        const [one, two, wanted] = [first, second, target].map((v) => exactNumber(new Exact(v), method)) as [
          Decimal,
          Decimal,
          Decimal,
        ];
        const fraction = blendFraction({ firstMm2PerS: first, secondMm2PerS: second, targetMm2PerS: target }, method);
        expect(wanted.minus(two).div(one.minus(two)).minus(fraction).abs().toNumber()).toBeLessThan(1e-12);
        expect(fraction >= 0 && fraction <= 1).toBe(true);
      }),
      runs,
    );
  });

  test('lies between the thinnest and the thickest part', () => {
    fc.assert(
      fc.property(blend, (parts) => {
        const mm2PerS = blendViscosity(parts, method);
        const all = parts.map((part) => part.mm2PerS);
        expect(mm2PerS >= Math.min(...all) && mm2PerS <= Math.max(...all)).toBe(true);
      }),
    );
  });

  test('rises with the share of the thicker part', () => {
    fc.assert(
      fc.property(viscosity, viscosity, fc.integer({ min: 0, max: 99 }), (a, b, percent) => {
        fc.pre(Math.abs(Math.log(a / b)) > 0.001);
        const at = (share: number) =>
          blendViscosity(
            [
              { fraction: share / 100, mm2PerS: Math.max(a, b) },
              { fraction: 1 - share / 100, mm2PerS: Math.min(a, b) },
            ],
            method,
          );
        expect(at(percent + 1)).toBeGreaterThan(at(percent));
      }),
    );
  });

  test('a ready mixture counts as one part', () => {
    fc.assert(
      fc.property(viscosity, viscosity, viscosity, (a, b, c) => {
        const parts = [
          { fraction: 0.25, mm2PerS: a },
          { fraction: 0.25, mm2PerS: b },
          { fraction: 0.5, mm2PerS: c },
        ];
        const half = blendViscosity(
          [
            { fraction: 0.5, mm2PerS: a },
            { fraction: 0.5, mm2PerS: b },
          ],
          method,
        );
        const both = [
          { fraction: 0.5, mm2PerS: half },
          { fraction: 0.5, mm2PerS: c },
        ];
        expect(blendViscosity(both, method) / blendViscosity(parts, method)).toBeCloseTo(1, 11);
      }),
    );
  });

  test('the fraction makes the wanted viscosity', () => {
    fc.assert(
      fc.property(viscosity, viscosity, fc.integer({ min: 1, max: 99 }), (first, second, percent) => {
        fc.pre(Math.abs(Math.log(first / second)) > 0.05);
        const ends = [
          { fraction: percent / 100, mm2PerS: first },
          { fraction: 1 - percent / 100, mm2PerS: second },
        ];
        const targetMm2PerS = blendViscosity(ends, method);
        const fraction = blendFraction({ firstMm2PerS: first, secondMm2PerS: second, targetMm2PerS }, method);
        expect(fraction).toBeCloseTo(percent / 100, 10);
      }),
    );
  });
});

test('the Refutas number agrees with 50 digits', () => {
  fc.assert(
    fc.property(viscosity, (mm2PerS) => {
      const exact = exactNumber(new Exact(mm2PerS), 'refutas').times('14.534').plus('10.975');
      expect(exact.minus(refutasNumber(mm2PerS)).abs().toNumber()).toBeLessThan(1e-12);
    }),
    runs,
  );
});

describe('blending of lines', () => {
  /** An oil of 10 to 1000 mm2/s at 40 °C and a tenth to a quarter of it at 100 °C, never below 2. */
  const oil = fc
    .tuple(fc.double({ min: 10, max: 1000, noNaN: true }), fc.double({ min: 4, max: 10, noNaN: true }))
    .map(([at40, ratio]) =>
      viscosityLine([
        { celsius: 40, mm2PerS: at40 },
        { celsius: 100, mm2PerS: Math.max(at40 / ratio, 2) },
      ]),
    );
  const celsius = fc.double({ min: 0, max: 100, noNaN: true });

  test('at equal viscosity the logarithms of temperature are averaged: at 50 digits, to 1e-12', () => {
    fc.assert(
      fc.property(oil, oil, fc.integer({ min: 1, max: 99 }), celsius, (first, second, percent, t) => {
        const f = new Exact(percent / 100);
        const rest = new Exact(1 - percent / 100);
        const x = new Exact(t).plus('273.15').log(10);
        // W = sum(f m W)/sum(f m), m = 1/b: the method written for one temperature.
        const [m1, m2] = [new Exact(1).div(first.b), new Exact(1).div(second.b)];
        const w = f
          .times(m1)
          .times(new Exact(first.a).minus(x.times(first.b)))
          .plus(rest.times(m2).times(new Exact(second.a).minus(x.times(second.b))))
          .div(f.times(m1).plus(rest.times(m2)));
        const line = blendLines([
          { fraction: percent / 100, line: first },
          { fraction: 1 - percent / 100, line: second },
        ]);
        expect(new Exact(line.a).minus(x.times(line.b)).minus(w).abs().toNumber()).toBeLessThan(1e-12);
      }),
      runs,
    );
  });

  test('lies between its parts at every temperature', () => {
    fc.assert(
      fc.property(oil, oil, fc.integer({ min: 0, max: 100 }), celsius, (first, second, percent, t) => {
        const ends = [viscosityAt(first, t), viscosityAt(second, t)];
        const line = blendLines([
          { fraction: percent / 100, line: first },
          { fraction: 1 - percent / 100, line: second },
        ]);
        const share = 1e-12;
        expect(viscosityAt(line, t)).toBeGreaterThanOrEqual(Math.min(...ends) * (1 - share));
        expect(viscosityAt(line, t)).toBeLessThanOrEqual(Math.max(...ends) * (1 + share));
      }),
    );
  });

  test('is the one-temperature method where the lines are parallel', () => {
    fc.assert(
      fc.property(oil, fc.double({ min: 0.01, max: 0.05, noNaN: true }), celsius, (line, up, t) => {
        const thicker = { ...line, a: line.a + up };
        const mixed = blendLines([
          { fraction: 0.3, line },
          { fraction: 0.7, line: thicker },
        ]);
        const thin = viscosityAt(line, t);
        fc.pre(thin > 10);
        const expected = blendViscosity([
          { fraction: 0.3, mm2PerS: thin },
          { fraction: 0.7, mm2PerS: viscosityAt(thicker, t) },
        ]);
        expect(viscosityAt(mixed, t) / expected).toBeCloseTo(1, 9);
      }),
    );
  });

  test('the fraction makes the wanted viscosity', () => {
    fc.assert(
      fc.property(oil, oil, fc.integer({ min: 1, max: 99 }), celsius, (first, second, percent, t) => {
        fc.pre(Math.abs(Math.log(viscosityAt(first, t) / viscosityAt(second, t))) > 0.05);
        const line = blendLines([
          { fraction: percent / 100, line: first },
          { fraction: 1 - percent / 100, line: second },
        ]);
        const fraction = blendLinesFraction({ first, second, celsius: t, mm2PerS: viscosityAt(line, t) });
        expect(fraction).toBeCloseTo(percent / 100, 9);
      }),
    );
  });
});

describe('whatever comes in: a finite number, or an error of the library', () => {
  const lines = (a: number, b: number, c: number, d: number) =>
    [
      { a, b, form: 'full' },
      { a: c, b: d, form: 'full' },
    ] as const;

  test.each<[string, (a: number, b: number, c: number, d: number) => number]>([
    [
      'blendViscosity',
      (a, b, c, d) =>
        blendViscosity([
          { fraction: 0.5, mm2PerS: a },
          { fraction: b, mm2PerS: c },
          { fraction: d, mm2PerS: 46 },
        ]),
    ],
    [
      'blendViscosity of two',
      (a, b) =>
        blendViscosity([
          { fraction: 0.5, mm2PerS: a },
          { fraction: 0.5, mm2PerS: b },
        ]),
    ],
    [
      'blendViscosity by mass',
      (a, b) =>
        blendViscosity(
          [
            { fraction: 0.5, mm2PerS: a },
            { fraction: 0.5, mm2PerS: b },
          ],
          'refutas',
        ),
    ],
    ['blendFraction', (a, b, c) => blendFraction({ firstMm2PerS: a, secondMm2PerS: b, targetMm2PerS: c })],
    ['refutasNumber', (a) => refutasNumber(a)],
    ['blendLines', (a, b, c, d) => blendLines(lines(a, b, c, d).map((line) => ({ fraction: 0.5, line }))).a],
    [
      'blendLinesFraction',
      (a, b, c, d) =>
        blendLinesFraction({
          first: { a: 9, b: 3.5, form: 'full' },
          second: { a, b, form: 'full' },
          celsius: c,
          mm2PerS: d,
        }),
    ],
  ])('%s', (_name, act) => {
    fc.assert(
      fc.property(anyNumber, anyNumber, anyNumber, anyNumber, (a, b, c, d) => expectSound(() => act(a, b, c, d))),
      { numRuns: some(2000) },
    );
  });
});

describe('refused', () => {
  const half = { fraction: 0.5, mm2PerS: 46 };
  const line = viscosityLine([
    { celsius: 40, mm2PerS: 46 },
    { celsius: 100, mm2PerS: 6.8 },
  ]);
  const thick = { ...line, a: line.a + 0.05 };
  const steep = { a: 1e308, b: 1e-308, form: 'full' } as const;
  const holed = <T>(list: T[]): T[] => {
    const longer: T[] = new Array(1);
    return longer.concat(list);
  };
  const fraction = (firstMm2PerS: number, secondMm2PerS: number, targetMm2PerS: number) =>
    blendFraction({ firstMm2PerS, secondMm2PerS, targetMm2PerS });
  test.each([
    ['fractions below 1', () => blendViscosity([half]), 'out_of_range', /add to 1/],
    ['fractions above 1', () => blendViscosity([half, half, half]), 'out_of_range', /add to 1/],
    ['a negative fraction', () => blendViscosity([{ ...half, fraction: -0.5 }]), 'out_of_range', /fraction/],
    ['too thin', () => blendViscosity([half, { ...half, mm2PerS: 0.2 }]), 'out_of_range', /0\.21 to 20000000.*D341/],
    ['too thick', () => blendViscosity([half, { ...half, mm2PerS: 2.1e7 }]), 'out_of_range', /D341/],
    ['no parts', () => blendViscosity([]), 'empty', /parts/],
    ['NaN', () => blendViscosity([half, { ...half, mm2PerS: NaN }]), 'not_a_number', /parts\[1\]/],
    ['no part', () => blendViscosity([half, null as never]), 'wrong_type', /parts\[1\]/],
    ['no list', () => blendViscosity({} as never), 'wrong_type', /parts/],
    ['a method unknown', () => blendViscosity([half, half], 'mean' as never), 'unknown_option', /method/],
    ['a target beyond the parts', () => fraction(32, 100, 110), 'out_of_range', /32 to 100/],
    ['two alike', () => fraction(32, 32, 32), 'no_answer', /different/],
    ['two a last digit apart', () => fraction(1e7, 1e7 + 2e-9, 1e7), 'no_answer', /different/],
    ['a blending number too low', () => refutasNumber(0.2), 'out_of_range', /0\.21/],
    [
      'lines of two forms',
      () =>
        blendLines([
          { fraction: 0.5, line },
          { fraction: 0.5, line: { ...line, form: 'short' } },
        ]),
      'not_convertible',
      /one form/,
    ],
    ['half a blend of lines', () => blendLines([{ fraction: 0.5, line }]), 'out_of_range', /add to 1/],
    ['a place left empty', () => blendLines(holed([{ fraction: 1, line }])), 'wrong_type', /parts\[0\]/],
    ['a part left empty', () => blendViscosity(holed([{ fraction: 1, mm2PerS: 46 }])), 'wrong_type', /parts\[0\]/],
    ['no line', () => blendLines([{ fraction: 1, line: null as never }]), 'wrong_type', /line/],
    ['a line beyond measure', () => blendLines([{ fraction: 1, line: steep }]), 'out_of_range', /line.b/],
    [
      'a target beyond the lines',
      () => blendLinesFraction({ first: line, second: thick, celsius: 40, mm2PerS: 30 }),
      'out_of_range',
      /between/,
    ],
    ['no lines', () => blendLinesFraction(null as never), 'wrong_type', /of/],
    [
      'absolute zero',
      () => blendLinesFraction({ first: line, second: thick, celsius: -273.15, mm2PerS: 46 }),
      'out_of_range',
      /celsius/,
    ],
    [
      'two lines alike',
      () => blendLinesFraction({ first: line, second: line, celsius: 40, mm2PerS: 46 }),
      'no_answer',
      /different/,
    ],
  ])('%s', (_name, act, code, message) => {
    let thrown: unknown;
    try {
      act();
    } catch (error) {
      thrown = error;
    }
    expect(thrown).toMatchObject({ name: 'MotescaleError', code });
    expect((thrown as Error).message).toMatch(message);
  });
});
