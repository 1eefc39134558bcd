import { Decimal } from 'decimal.js';
import fc from 'fast-check';
import { type Unit, unit } from 'mathjs';
import { describe, expect, test } from 'vitest';
import {
  apiOfDensity,
  apiOfRelativeDensity,
  densityOfApi,
  relativeDensityOfApi,
} from '../../../src/viscosity/apiGravity.ts';
import { densityAt, densityAt15, dynamicViscosity, kinematicViscosity } from '../../../src/viscosity/density.ts';
import { some } from '../../volume.ts';
import { anyNumber, expectSound } from '../anyNumber.ts';

const runs = { numRuns: some(1000) };
const celsius = fc.double({ min: -50, max: 150, noNaN: true });

const Exact = Decimal.clone({ precision: 50 });
const scale = ['-0.148759', '-0.267408', '1.08076', '1.269056', '-4.089591', '-1.871251', '7.438081', '-3.536296'].map(
  (digits) => new Exact(digits),
);

/** CTL of a lubricating oil at 50 digits, with all terms of the standard's formula. */
function exactFactor(at60F: Decimal, t: Decimal): Decimal {
  const [k0, k1, k2] = [new Exact(0), new Exact('0.34878'), new Exact(0)];
  const d60 = new Exact('0.01374979547');
  const a = d60.div(2).times(k0.div(at60F).plus(k1).div(at60F).plus(k2));
  const b = k0
    .times(2)
    .plus(k1.times(at60F))
    .div(k0.plus(k1.plus(k2.times(at60F)).times(at60F)));
  const top = a.times(a.times('0.8').plus(1)).exp().minus(1);
  const star = at60F.times(top.div(a.times('1.6').plus(1).times(a).times(b).plus(1)).plus(1));
  const alpha = k0.div(star.times(star)).plus(k1.div(star)).plus(k2);
  const tau = t.div(630);
  const difference = scale.reduce((sum, term, i) => sum.plus(tau.pow(i + 1).times(term)), new Exact(0));
  const step = t.minus(difference).times('1.8').plus(32).minus('60.0068749');
  return alpha
    .neg()
    .times(step)
    .times(alpha.times('0.8').times(step.plus(d60)).plus(1))
    .exp();
}

/** Each round leaves at most 1/200 of the error. */
function exactAt60F(observed: number, t: number): Decimal {
  const at = new Exact(t);
  let at60F = new Exact(observed);
  for (let i = 0; i < 8; i += 1) at60F = at60F.plus(new Exact(observed).minus(at60F.times(exactFactor(at60F, at))));
  return at60F;
}

/**
 * The group of lubricating oils as the standard has it, by density at 60 °F, with its two ends; from there, by the
 * twin, at any temperature.
 */
const group60F = fc.oneof(
  { weight: 9, arbitrary: fc.double({ min: 800.9, max: 1163.5, noNaN: true }) },
  { weight: 1, arbitrary: fc.constantFrom(800.9, 1163.5) },
);
const at = (at60F: number, t: number) => new Exact(at60F).times(exactFactor(new Exact(at60F), new Exact(t))).toNumber();
const kgPerM3 = group60F.map((at60F) => at(at60F, 15));

describe('density over temperature', () => {
  test('agrees with 50 digits to 1e-12', () => {
    fc.assert(
      fc.property(kgPerM3, celsius, (at15, t) => {
        const at60F = exactAt60F(at15, 15);
        const exact = at60F.times(exactFactor(at60F, new Exact(t)));
        expect(exact.div(densityAt(at15, t)).minus(1).abs().toNumber()).toBeLessThan(1e-12);
      }),
      runs,
    );
  });

  test('the way back agrees with 50 digits to 1e-12', () => {
    fc.assert(
      fc.property(group60F, celsius, (drawn, t) => {
        const observed = at(drawn, t);
        const at60F = exactAt60F(observed, t);
        const exact = at60F.times(exactFactor(at60F, new Exact(15)));
        expect(exact.div(densityAt15(observed, t)).minus(1).abs().toNumber()).toBeLessThan(1e-12);
      }),
      runs,
    );
  });

  test('the range at 15 °C is the one documented, and at its ends rounding refuses nothing', () => {
    expect([at(800.9, 15), at(1163.5, 15)].map((end) => end.toFixed(4))).toEqual(['801.2488', '1163.8488']);
    for (const inside of [801.25, 1163.84]) expect(densityAt(inside, 15)).toBeCloseTo(inside, 9);
    for (const outside of [801.24, 1163.85]) expect(() => densityAt(outside, 15)).toThrow('801.25 to 1163.84');
    for (const end of [800.9, 1163.5]) {
      for (let t = -50; t <= 150; t += 0.5) expect(densityAt15(at(end, t), t) / at(end, 15)).toBeCloseTo(1, 12);
    }
  });

  test('falls as temperature rises, and rises with the density at 15 °C', () => {
    fc.assert(
      fc.property(kgPerM3, kgPerM3, celsius, celsius, (a, b, s, t) => {
        fc.pre(Math.abs(a - b) > 1e-6 && Math.abs(s - t) > 1e-6);
        expect(densityAt(a, Math.max(s, t))).toBeLessThan(densityAt(a, Math.min(s, t)));
        expect(densityAt(Math.max(a, b), t)).toBeGreaterThan(densityAt(Math.min(a, b), t));
      }),
    );
  });

  test('there and back', () => {
    fc.assert(
      fc.property(kgPerM3, celsius, (at15, t) => {
        expect(densityAt15(densityAt(at15, t), t) / at15).toBeCloseTo(1, 12);
        expect(densityAt(at15, 15) / at15).toBeCloseTo(1, 13);
      }),
    );
  });
});

describe('API gravity', () => {
  test('there and back, and at 50 digits', () => {
    fc.assert(
      fc.property(fc.double({ min: -10, max: 100, noNaN: true }), (api) => {
        const exact = new Exact('141.5').div(new Exact('131.5').plus(api));
        expect(exact.div(relativeDensityOfApi(api)).minus(1).abs().toNumber()).toBeLessThan(1e-12);
        const between = Math.min(Math.max(relativeDensityOfApi(api), 141.5 / 231.5), 141.5 / 121.5);
        expect(apiOfRelativeDensity(between)).toBeCloseTo(api, 11);
      }),
      runs,
    );
  });

  test('density at 15 °C there and back, and at 50 digits', () => {
    fc.assert(
      fc.property(fc.double({ min: -10, max: 45, noNaN: true }), (api) => {
        const at60F = new Exact('141.5').div(new Exact('131.5').plus(api)).times('999.016');
        const exact = at60F.times(exactFactor(at60F, new Exact(15)));
        expect(exact.div(densityOfApi(api)).minus(1).abs().toNumber()).toBeLessThan(1e-12);
        expect(apiOfDensity(densityOfApi(api))).toBeCloseTo(api, 10);
      }),
      runs,
    );
  });
});

describe('a general unit library agrees', () => {
  test('on the product of viscosity and density', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.2, max: 1e6, noNaN: true }),
        fc.double({ min: 500, max: 2000, noNaN: true }),
        (v, rho) => {
          const product = unit(v, 'mm^2/s').multiply(unit(rho, 'kg/m^3'));
          expect(dynamicViscosity(v, rho) / product.toNumber('mPa s')).toBeCloseTo(1, 12);
        },
      ),
    );
  });

  test('on the quotient', () => {
    const quotient = unit(40, 'mPa s').divide(unit(0.87, 'g/cm^3')) as Unit;
    expect(kinematicViscosity(40, 870) / quotient.toNumber('mm^2/s')).toBeCloseTo(1, 12);
  });

  test('that 60 °F is where the correction ends', () => {
    const base = unit(60, 'degF').toNumber('degC');
    const at60F = densityAt(870, base);
    expect(apiOfDensity(870)).toBeCloseTo(141.5 / (at60F / 999.016) - 131.5, 9);
  });

  test('kinematic and dynamic there and back', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.2, max: 1e6, noNaN: true }), kgPerM3, (v, rho) => {
        expect(kinematicViscosity(dynamicViscosity(v, rho), rho) / v).toBeCloseTo(1, 14);
      }),
    );
  });
});

describe('whatever comes in: a finite number, or an error of the library', () => {
  test.each<[string, (a: number, b: number, c: number, d: number) => number]>([
    ['densityAt', (a, b) => densityAt(a, b)],
    ['densityAt15', (a, b) => densityAt15(a, b)],
    ['dynamicViscosity', (a, b) => dynamicViscosity(a, b)],
    ['kinematicViscosity', (a, b) => kinematicViscosity(a, b)],
    ['densityOfApi', (a) => densityOfApi(a)],
    ['apiOfDensity', (a) => apiOfDensity(a)],
    ['relativeDensityOfApi', (a) => relativeDensityOfApi(a)],
    ['apiOfRelativeDensity', (a) => apiOfRelativeDensity(a)],
  ])('%s', (_name, act) => {
    fc.assert(
      fc.property(anyNumber, anyNumber, anyNumber, anyNumber, (a, b, c, d) => expectSound(() => act(a, b, c, d))),
      { numRuns: some(2000) },
    );
  });
});

describe('refused', () => {
  test.each([
    ['g/cm3 at 15 °C', () => densityAt(0.87, 40), 'out_of_range', /801\.25 to 1163\.84.*API MPMS 11\.1-2004/],
    ['an oil too light', () => densityAt(801.2, 40), 'out_of_range', /kgPerM3At15/],
    ['an oil too heavy', () => densityAt(1164, 40), 'out_of_range', /kgPerM3At15/],
    ['too cold', () => densityAt(870, -50.1), 'out_of_range', /-50 to 150.*API MPMS 11\.1-2004/],
    ['too hot', () => densityAt(870, 150.1), 'out_of_range', /celsius/],
    ['too hot a sample', () => densityAt15(850, 151), 'out_of_range', /celsius/],
    ['too light a sample', () => densityAt15(780, 40), 'out_of_range', /at 40 °C/],
    ['NaN', () => densityAt(NaN, 40), 'not_a_number', /kgPerM3At15/],
    ['text', () => densityAt('870' as never, 40), 'wrong_type', /kgPerM3At15/],
    ['an infinite temperature', () => densityAt(870, Infinity), 'infinite', /celsius/],
    ['API gravity beyond all oils', () => relativeDensityOfApi(101), 'out_of_range', /-10 to 100/],
    ['API gravity beyond lubricating oils', () => densityOfApi(46), 'out_of_range', /-10 to 45.*lubricating/],
    ['kg/m3 for a relative density', () => apiOfRelativeDensity(870), 'out_of_range', /relativeDensity/],
    ['a density no lubricating oil has', () => apiOfDensity(790), 'out_of_range', /kgPerM3At15/],
    ['g/cm3 for viscosity', () => dynamicViscosity(46, 0.87), 'out_of_range', /not in g\/cm3/],
    ['no viscosity', () => dynamicViscosity(0, 870), 'out_of_range', /mm2PerS/],
    ['no dynamic viscosity', () => kinematicViscosity(0, 870), 'out_of_range', /mPaS/],
    [
      'Pa s for mPa s',
      () => kinematicViscosity(0.04, 870),
      'out_of_range',
      /1 Pa·s is 1000 of them.* 0\.2 mm2\/s or more/,
    ],
    ['thinner than any oil', () => dynamicViscosity(0.19, 870), 'out_of_range', /from 0\.2 to/],
    ['lb/ft3 for viscosity', () => dynamicViscosity(46, 54.4), 'out_of_range', /lb\/ft3/],
    ['no density', () => kinematicViscosity(40, 0), 'out_of_range', /kgPerM3/],
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
