import { Decimal } from 'decimal.js';
import fc from 'fast-check';
import { unit } from 'mathjs';
import { describe, expect, test } from 'vitest';
import {
  condensationTemperature,
  dewPoint,
  freeWater,
  insulatingOil,
  mineralInsulatingOil,
  relativeSaturation,
  saturationAfterCooling,
  saturationPressure,
  saturationTemperature,
  solubilityAt,
  solubilityLine,
  waterContent,
} from '../../src/water/index.ts';
import { some } from '../volume.ts';
import { anyNumber, expectSound } from './anyNumber.ts';

const runs = { numRuns: some(1000) };
const celsius = fc.double({ min: -50, max: 150, noNaN: true });
/** Lines as oils have them: 20 to 2000 mg/kg at 20 °C, slopes of 500 to 2500 K. */
const line = fc
  .tuple(fc.double({ min: 20, max: 2000, noNaN: true }), fc.double({ min: 500, max: 2500, noNaN: true }))
  .map(([at20, b]) => ({ a: Math.log10(at20) + b / 293.15, b }));

const Exact = Decimal.clone({ precision: 50 });
const n = [
  '0.11670521452767e4',
  '-0.72421316703206e6',
  '-0.17073846940092e2',
  '0.12020824702470e5',
  '-0.32325550322333e7',
  '0.14915108613530e2',
  '-0.48232657361591e4',
  '0.40511340542057e6',
  '-0.23855557567849',
  '0.65017534844798e3',
].map((digits) => new Exact(digits)) as [
  Decimal,
  Decimal,
  Decimal,
  Decimal,
  Decimal,
  Decimal,
  Decimal,
  Decimal,
  Decimal,
  Decimal,
];

/** Equation 30 of IF97 at 50 digits, MPa. */
function exactPressure(kelvin: Decimal): Decimal {
  const theta = kelvin.plus(n[8].div(kelvin.minus(n[9])));
  const square = theta.times(theta);
  const a = square.plus(n[0].times(theta)).plus(n[1]);
  const b = n[2].times(square).plus(n[3].times(theta)).plus(n[4]);
  const c = n[5].times(square).plus(n[6].times(theta)).plus(n[7]);
  return c
    .times(2)
    .div(b.times(b).minus(a.times(c).times(4)).sqrt().minus(b))
    .pow(4);
}

describe('saturation pressure', () => {
  const hot = fc.double({ min: 0, max: 373.946, noNaN: true });

  test('agrees with 50 digits to 1e-11', () => {
    fc.assert(
      fc.property(hot, (t) => {
        const exact = exactPressure(new Exact(t).plus('273.15')).times(1000);
        expect(exact.div(saturationPressure(t)).minus(1).abs().toNumber()).toBeLessThan(1e-11);
      }),
      runs,
    );
  });

  test('rises with temperature', () => {
    fc.assert(
      fc.property(hot, hot, (s, t) => {
        fc.pre(Math.abs(s - t) > 1e-6);
        expect(saturationPressure(Math.max(s, t))).toBeGreaterThan(saturationPressure(Math.min(s, t)));
      }),
    );
  });

  test('the dew point is where the pressure of the vapour saturates, and never above the temperature', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 60, noNaN: true }), fc.double({ min: 0, max: 60, noNaN: true }), (a, b) => {
        const [dew, t] = [Math.min(a, b), Math.max(a, b)];
        const humidity = saturationPressure(dew) / saturationPressure(t);
        expect(Math.abs(dewPoint(t, humidity) - dew)).toBeLessThan(0.1);
        expect(dewPoint(t, humidity)).toBeLessThanOrEqual(t);
      }),
    );
  });

  test('the dew point is the formula backwards, in 50 digits, below 0 °C too', () => {
    const pressure = (celsius: number) =>
      Exact.exp(new Exact(17.62).times(celsius).div(new Exact(243.12).plus(celsius)));
    fc.assert(
      fc.property(
        fc.double({ min: -45, max: 60, noNaN: true }),
        fc.double({ min: 0.01, max: 1, noNaN: true }),
        (t, rh) => {
          const wanted = pressure(t).times(rh);
          if (wanted.lessThan(pressure(-45))) {
            expect(() => dewPoint(t, rh)).toThrow('a dew point of -45 °C or above');
          } else {
            expect(Math.abs(pressure(dewPoint(t, rh)).div(wanted).minus(1).toNumber())).toBeLessThan(1e-14);
          }
        },
      ),
    );
  });

  test('vapour condenses where its pressure saturates', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 373.946, noNaN: true }), (t) => {
        expect(Math.abs(condensationTemperature(saturationPressure(t)) - t)).toBeLessThan(1e-9);
      }),
    );
  });

  test('water boils just below 100 °C at one atmosphere, as a general unit library has it', () => {
    const atmosphere = unit(1, 'atm').toNumber('kPa');
    expect(saturationPressure(unit(211.9, 'degF').toNumber('degC'))).toBeLessThan(atmosphere);
    expect(saturationPressure(unit(212, 'degF').toNumber('degC'))).toBeGreaterThan(atmosphere);
  });
});

describe('solubility', () => {
  test('agrees with 50 digits to 1e-12', () => {
    fc.assert(
      fc.property(line, celsius, (oil, t) => {
        const order = new Exact(oil.a).minus(new Exact(oil.b).div(new Exact(t).plus('273.15')));
        expect(new Exact(10).pow(order).div(solubilityAt(oil, t)).minus(1).abs().toNumber()).toBeLessThan(1e-12);
      }),
      runs,
    );
  });

  test('rises with temperature', () => {
    fc.assert(
      fc.property(line, celsius, celsius, (oil, s, t) => {
        fc.pre(Math.abs(s - t) > 1e-6);
        expect(solubilityAt(oil, Math.max(s, t))).toBeGreaterThan(solubilityAt(oil, Math.min(s, t)));
      }),
    );
  });

  test('a line goes through its two points, and comes back from many of its own', () => {
    fc.assert(
      fc.property(line, celsius, celsius, celsius, (oil, r, s, t) => {
        fc.pre(Math.abs(r - s) >= 10);
        const points = [r, s, t].map((at) => ({ celsius: at, mgPerKg: solubilityAt(oil, at) }));
        const two = solubilityLine(points.slice(0, 2));
        for (const point of points.slice(0, 2)) {
          expect(solubilityAt(two, point.celsius) / point.mgPerKg).toBeCloseTo(1, 11);
        }
        const three = solubilityLine(points);
        expect(three.b / oil.b).toBeCloseTo(1, 9);
        expect(three.a).toBeCloseTo(oil.a, 8);
      }),
    );
  });

  test('least squares: no other slope or place comes nearer to the points', () => {
    const points = [
      { celsius: 20, mgPerKg: 190 },
      { celsius: 40, mgPerKg: 410 },
      { celsius: 60, mgPerKg: 720 },
    ];
    const best = solubilityLine(points);
    const squares = (a: number, b: number) =>
      points.reduce((sum, p) => sum + (a - b / (p.celsius + 273.15) - Math.log10(p.mgPerKg)) ** 2, 0);
    for (const [da, db] of [
      [0.001, 0],
      [-0.001, 0],
      [0, 1],
      [0, -1],
      [0.001, 0.3],
      [-0.001, -0.3],
    ] as const) {
      expect(squares(best.a + da, best.b + db)).toBeGreaterThan(squares(best.a, best.b));
    }
  });
});

describe('water in the oil', () => {
  const share = fc.double({ min: 0.001, max: 1, noNaN: true });

  test('saturation to content and back', () => {
    fc.assert(
      fc.property(line, share, celsius, (oil, saturation, t) => {
        const mgPerKg = waterContent(oil, saturation, t);
        expect(relativeSaturation(oil, mgPerKg, t) / saturation).toBeCloseTo(1, 14);
      }),
    );
  });

  test('at the saturation temperature the oil is just full; colder there is free water, warmer none', () => {
    fc.assert(
      fc.property(line, fc.oneof(celsius, fc.constantFrom(-50, 150)), (oil, t) => {
        const mgPerKg = solubilityAt(oil, t);
        const at = saturationTemperature(oil, mgPerKg);
        expect(Math.abs(at - t)).toBeLessThan(1e-11);
        if (at >= -49) expect(freeWater(oil, mgPerKg, at - 1)).toBeGreaterThan(0);
        if (at >= -49) expect(relativeSaturation(oil, mgPerKg, at - 1)).toBeGreaterThan(1);
        if (at <= 149) expect(freeWater(oil, mgPerKg, at + 1)).toBe(0);
      }),
      runs,
    );
  });

  test('free and dissolved water add to all of it', () => {
    fc.assert(
      fc.property(line, fc.double({ min: 0, max: 5000, noNaN: true }), celsius, (oil, mgPerKg, t) => {
        const dissolved = Math.min(mgPerKg, solubilityAt(oil, t));
        expect(freeWater(oil, mgPerKg, t) + dissolved).toBeCloseTo(mgPerKg, 8);
      }),
    );
  });

  test('cooling keeps the water: the way over mg/kg gives the same saturation, and back again', () => {
    const shareWithFree = fc.double({ min: 0.001, max: 10, noNaN: true });
    let returned = 0;
    fc.assert(
      fc.property(line, shareWithFree, celsius, celsius, (oil, saturation, fromCelsius, toCelsius) => {
        const after = saturationAfterCooling(oil, { saturation, fromCelsius, toCelsius });
        const content = waterContent(oil, saturation, fromCelsius);
        if (content <= 1e6) expect(after / relativeSaturation(oil, content, toCelsius)).toBeCloseTo(1, 11);
        if (toCelsius < fromCelsius) expect(after).toBeGreaterThanOrEqual(saturation);
        const back = { saturation: after, fromCelsius: toCelsius, toCelsius: fromCelsius };
        if (after > 10) expect(() => saturationAfterCooling(oil, back)).toThrow('from 0 to 10');
        else {
          returned += 1;
          expect(saturationAfterCooling(oil, back) / saturation).toBeCloseTo(1, 11);
        }
      }),
      runs,
    );
    expect(returned).toBeGreaterThan(some(600, 30));
  });
});

describe('whatever comes in: a finite number, or an error of the library', () => {
  test.each<[string, (a: number, b: number, c: number, d: number) => number]>([
    ['saturationPressure', (a) => saturationPressure(a)],
    ['dewPoint', (a, b) => dewPoint(a, b)],
    ['condensationTemperature', (a) => condensationTemperature(a)],
    [
      'solubilityLine, a',
      (a, b, c, d) =>
        solubilityLine([
          { celsius: a, mgPerKg: b },
          { celsius: c, mgPerKg: d },
        ]).a,
    ],
    [
      'solubilityLine, b',
      (a, b, c, d) =>
        solubilityLine([
          { celsius: a, mgPerKg: b },
          { celsius: c, mgPerKg: d },
        ]).b,
    ],
    ['solubilityAt', (a, b, c) => solubilityAt({ a, b }, c)],
    ['relativeSaturation', (a, b, c, d) => relativeSaturation({ a, b }, c, d)],
    ['waterContent', (a, b, c, d) => waterContent({ a, b }, c, d)],
    ['freeWater', (a, b, c, d) => freeWater({ a, b }, c, d)],
    ['saturationTemperature', (a, b, c) => saturationTemperature({ a, b }, c)],
    [
      'saturationAfterCooling',
      (a, b, c, d) => saturationAfterCooling({ a: 7, b: a }, { saturation: b, fromCelsius: c, toCelsius: d }),
    ],
    ['insulatingOil', (a, b) => insulatingOil({ aromaticPercent: a, mgKohPerG: b }).a],
  ])('%s', (_name, act) => {
    fc.assert(
      fc.property(anyNumber, anyNumber, anyNumber, anyNumber, (a, b, c, d) => expectSound(() => act(a, b, c, d))),
      { numRuns: some(2000) },
    );
  });
});

describe('refused', () => {
  const oil = solubilityLine([
    { celsius: 20, mgPerKg: 190 },
    { celsius: 60, mgPerKg: 720 },
  ]);
  const points = (...list: [number, number][]) =>
    solubilityLine(list.map(([at, mgPerKg]) => ({ celsius: at, mgPerKg })));
  const cool = (saturation: number, fromCelsius: number, toCelsius: number) =>
    saturationAfterCooling(oil, { saturation, fromCelsius, toCelsius });
  test.each([
    ['ice', () => saturationPressure(-0.1), 'out_of_range', /0 to 373\.946.*IF97/],
    ['above the critical point', () => saturationPressure(374), 'out_of_range', /IF97/],
    ['NaN', () => saturationPressure(NaN), 'not_a_number', /celsius/],
    ['no humidity', () => dewPoint(25, 0), 'out_of_range', /relativeHumidity/],
    ['humidity in percent', () => dewPoint(25, 60), 'out_of_range', /0\.6 for 60 %/],
    ['a dew point beyond the formula', () => dewPoint(-20, 0.01), 'out_of_range', /-45 °C or above.*WMO/],
    ['hot air', () => dewPoint(60.1, 0.5), 'out_of_range', /-45 to 60.*WMO.*condensationTemperature/],
    ['vapour that makes frost', () => condensationTemperature(0.6), 'out_of_range', /kPa.*IF97/],
    ['no points', () => points(), 'empty', /points/],
    ['one point', () => points([20, 190]), 'too_few', /two/],
    ['one temperature', () => points([20, 190], [20, 200]), 'too_few', /two or more/],
    ['a degree apart', () => points([20, 190], [21, 210]), 'too_few', /at least 10 °C apart/],
    ['not quite 10', () => points([20, 190], [29.9, 210], [25, 200]), 'too_few', /at least 10 °C apart/],
    ['solubility that falls', () => points([20, 190], [60, 180]), 'out_of_range', /rises/],
    ['points too steep', () => points([20, 19], [30, 400]), 'out_of_range', /slope/],
    ['a point without water', () => points([20, 0], [60, 180]), 'out_of_range', /points\[0\]\.mgPerKg/],
    ['no point', () => solubilityLine([null as never]), 'wrong_type', /points\[0\]/],
    ['a place left empty', () => solubilityLine(new Array(3)), 'wrong_type', /points\[0\]/],
    ['too cold', () => solubilityAt(oil, -51), 'out_of_range', /-50 to 150/],
    ['no line', () => solubilityAt(undefined as never, 20), 'wrong_type', /line/],
    ['a line that falls', () => solubilityAt({ a: 7, b: -1 }, 20), 'out_of_range', /line\.b/],
    ['a line too steep', () => solubilityAt({ a: 7, b: 1e5 }, 20), 'out_of_range', /b/],
    ['a line off the scale', () => solubilityAt({ a: 70, b: 1500 }, 20), 'out_of_range', /1000000 mg\/kg/],
    ['a content never saturating', () => saturationTemperature(oil, 90000), 'out_of_range', /-50 to 150/],
    ['a content always saturating', () => saturationTemperature(oil, 1), 'out_of_range', /-50 to 150/],
    ['a line below the content', () => saturationTemperature({ a: 1, b: 1000 }, 500), 'out_of_range', /mgPerKg/],
    ['less than no water', () => relativeSaturation(oil, -1, 20), 'out_of_range', /mgPerKg/],
    ['more water than oil', () => freeWater(oil, 2e6, 20), 'out_of_range', /mgPerKg/],
    ['saturation in percent', () => waterContent(oil, 45, 52), 'out_of_range', /0\.45 for 45 %/],
    ['cooling from percent', () => cool(45, 52, 5), 'out_of_range', /cooling\.saturation.*0 to 10/],
    ['cooling too far', () => cool(0.45, 52, -60), 'out_of_range', /cooling\.toCelsius/],
    ['no cooling', () => saturationAfterCooling(oil, null as never), 'wrong_type', /cooling/],
    ['aromatics', () => insulatingOil({ aromaticPercent: 40, mgKohPerG: 0 }), 'out_of_range', /aromaticPercent/],
    ['acidity', () => insulatingOil({ aromaticPercent: 5, mgKohPerG: -1 }), 'out_of_range', /mgKohPerG/],
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

  test('a sourced set says which fluid it is for, and where its figures are from', () => {
    expect(mineralInsulatingOil.fluid).toMatch(/insulating/);
    expect(mineralInsulatingOil.source.standing).toBe('from memory');
    expect(insulatingOil({ aromaticPercent: 5, mgKohPerG: 0.05 }).fluid).toMatch(/insulating oil with 5 % aromatics/);
  });
});

test('content and saturation undo each other with free water too, up to ten times saturation', () => {
  fc.assert(
    fc.property(
      line,
      fc.double({ min: 5, max: 60, noNaN: true }),
      fc.double({ min: 0, max: 10, noNaN: true }),
      (of, at, share) => {
        const content = waterContent(of, share, at);
        fc.pre(content <= 1e6);
        expect(Math.abs(relativeSaturation(of, content, at) - share)).toBeLessThanOrEqual(1e-14 * share);
      },
    ),
    runs,
  );
});
