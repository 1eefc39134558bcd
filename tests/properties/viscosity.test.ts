import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  compareGrades,
  convertViscosity,
  type EffluxScaleName,
  gradesOfOil,
  iso3448Table,
  isoGradeLimits,
  lineResiduals,
  temperatureAt,
  ubbelohdeWaltherM,
  type ViscosityLine,
  type ViscosityPoint,
  type ViscosityScale,
  viscosityAt,
  viscosityAt40OfIndex,
  viscosityAt100OfIndex,
  viscosityIndex,
  viscosityLine,
  viscosityLineOfGrade,
} from '../../src/viscosity/index.ts';

const logUniform = (low: number, high: number) =>
  fc.double({ min: Math.log(low), max: Math.log(high), noNaN: true }).map((x) => Math.exp(x));
const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });

const points = fc
  .record({ cold: between(-20, 60), warmer: between(20, 100), thin: logUniform(0.3, 1000), ratio: logUniform(1.2, 40) })
  .map(({ cold, warmer, thin, ratio }): [ViscosityPoint, ViscosityPoint] => [
    { celsius: cold, mm2PerS: thin * ratio },
    { celsius: cold + warmer, mm2PerS: thin },
  ]);
const form = fc.constantFrom('full' as const, 'short' as const);

/** A temperature on the part of the line within its limits: between the points and a little beyond. */
const onLine = fc.tuple(points, form, between(0, 1), between(0.001, 1)).map(([pair, used, a, b]) => {
  const span = pair[1].celsius - pair[0].celsius;
  const low = pair[0].celsius + a * span * (1 - b);
  return { pair, form: used, low, high: low + b * span * (1 - a * (1 - b)) };
});

describe('a line', () => {
  test('falls with temperature, in both forms', () => {
    fc.assert(
      fc.property(onLine, ({ pair, form: used, low, high }) => {
        const line = viscosityLine(pair, { form: used });
        expect(viscosityAt(line, low)).toBeGreaterThan(viscosityAt(line, high));
      }),
      { numRuns: 1000 },
    );
  });

  test('goes through its two points, and has no residuals there', () => {
    fc.assert(
      fc.property(points, (pair) => {
        const line = viscosityLine(pair);
        for (const { celsius, mm2PerS } of pair) expect(viscosityAt(line, celsius) / mm2PerS).toBeCloseTo(1, 11);
        for (const { percent } of lineResiduals(line, pair)) expect(Math.abs(percent)).toBeLessThan(1e-9);
      }),
    );
  });

  test('gives the temperature back; the short form within the 0.03 % of its printed inverse', () => {
    fc.assert(
      fc.property(onLine, ({ pair, low }) => {
        const full = viscosityLine(pair);
        expect(temperatureAt(full, viscosityAt(full, low))).toBeCloseTo(low, 9);
        const short = viscosityLine(pair, { form: 'short' });
        const v = viscosityAt(short, low);
        const again = viscosityAt(short, temperatureAt(short, v));
        expect(Math.abs(again / v - 1)).toBeLessThan(0.0003);
      }),
      { numRuns: 1000 },
    );
  });

  test('gives back every viscosity from 0.21 to 30, where the corrections of Z fade into rounding', () => {
    const line = viscosityLine([
      { celsius: -40, mm2PerS: 40 },
      { celsius: 60, mm2PerS: 0.25 },
    ]);
    for (let v = 0.21; v < 30; v *= 1.0007) {
      expect(viscosityAt(line, temperatureAt(line, v)) / v).toBeCloseTo(1, 12);
    }
  });

  test('is the same in both forms for thick oil', () => {
    fc.assert(
      fc.property(points, (pair) => {
        fc.pre(pair[1].mm2PerS > 20);
        expect(viscosityLine(pair, { form: 'short' })).toEqual({ ...viscosityLine(pair), form: 'short' });
      }),
    );
  });

  test('of many points leaves the least sum of squares', () => {
    const measured = fc.tuple(
      points.filter((pair) => pair[1].mm2PerS > 20),
      fc.array(fc.record({ share: between(0, 1), error: between(-0.02, 0.02) }), { minLength: 3, maxLength: 12 }),
      between(-0.003, 0.003),
      between(-0.001, 0.001),
    );
    const w = (v: number) => Math.log10(Math.log10(v + 0.7));
    const squares = (line: { a: number; b: number }, list: ViscosityPoint[]) =>
      list.reduce((sum, p) => sum + (w(p.mm2PerS) - line.a + line.b * Math.log10(p.celsius + 273.15)) ** 2, 0);
    fc.assert(
      fc.property(measured, ([pair, errors, da, db]) => {
        fc.pre(pair[0].mm2PerS / pair[1].mm2PerS > 1.5);
        const exact = viscosityLine(pair);
        const list = [...errors, { share: 0, error: 0.01 }, { share: 1, error: -0.01 }].map(({ share, error }) => {
          const celsius = pair[0].celsius + share * (pair[1].celsius - pair[0].celsius);
          return { celsius, mm2PerS: viscosityAt(exact, celsius) * (1 + error) };
        });
        const fitted = viscosityLine(list);
        const least = squares(fitted, list);
        expect(squares({ a: fitted.a + da, b: fitted.b + db }, list)).toBeGreaterThanOrEqual(least * (1 - 1e-9));
        expect(squares({ a: fitted.a + da / 100, b: fitted.b }, list)).toBeGreaterThanOrEqual(least * (1 - 1e-9));
        const reversed = viscosityLine([...list].reverse());
        expect(reversed.b / fitted.b).toBeCloseTo(1, 9);
        const residuals = lineResiduals(fitted, list);
        expect(residuals.map((r) => r.mm2PerS)).toEqual(list.map((p) => p.mm2PerS));
        for (const r of residuals)
          expect(r.percent).toBeCloseTo((r.mm2PerS / viscosityAt(fitted, r.celsius) - 1) * 100, 9);
      }),
    );
  });

  test('survives JSON', () => {
    const line = viscosityLineOfGrade(46, 102);
    expect(JSON.parse(JSON.stringify(line)) as ViscosityLine).toEqual(line);
  });

  test('has the slope m of DIN 51563: the defining equation holds with 0.8', () => {
    fc.assert(
      fc.property(points, (pair) => {
        const [p, q] = pair;
        const w = (v: number) => Math.log(Math.log(v + 0.8));
        const m = (w(p.mm2PerS) - w(q.mm2PerS)) / Math.log((q.celsius + 273.15) / (p.celsius + 273.15));
        expect(ubbelohdeWaltherM(pair) / m).toBeCloseTo(1, 9);
      }),
    );
  });
});

describe('the viscosity index', () => {
  const grades = iso3448Table.filter(({ grade }) => grade >= 10).map(({ grade }) => grade);

  test('of a line of any grade round-trips', () => {
    fc.assert(
      fc.property(fc.constantFrom(...grades), between(-50, 400), (grade, index) => {
        const line = viscosityLineOfGrade(grade, index);
        const at40 = viscosityAt(line, 40);
        expect(at40 / isoGradeLimits(grade).middle).toBeCloseTo(1, 11);
        expect(viscosityIndex({ at40, at100: viscosityAt(line, 100) }).index).toBeCloseTo(index, 7);
      }),
      { numRuns: 500 },
    );
  });

  test('read backwards and forwards is the same, both ways', () => {
    fc.assert(
      fc.property(logUniform(9, 5000), between(-50, 400), (at40, index) => {
        const at100 = viscosityAt100OfIndex(at40, index);
        expect(viscosityIndex({ at40, at100 }).index).toBeCloseTo(index, 8);
        expect(viscosityAt40OfIndex(at100, index) / at40).toBeCloseTo(1, 9);
      }),
      { numRuns: 1000 },
    );
  });

  test('rises with the viscosity at 100 °C and falls with that at 40 °C, save for the step above 70', () => {
    const oil = fc.record({ at100: logUniform(2, 500), ratio: logUniform(2, 30), more: logUniform(1.0001, 1.3) });
    fc.assert(
      fc.property(oil, ({ at100, ratio, more }) => {
        const at40 = at100 * ratio;
        const { index } = viscosityIndex({ at40, at100 });
        fc.pre(index < 1000);
        expect(viscosityIndex({ at40: at40 * more, at100 }).index).toBeLessThan(index);
        if (at100 <= 70 === at100 * more <= 70) {
          expect(viscosityIndex({ at40, at100: at100 * more }).index).toBeGreaterThan(index);
        }
      }),
      { numRuns: 2000 },
    );
  });

  test('takes the smaller viscosity where table and equations both give the index', () => {
    const at40 = 1000;
    const atEnd = viscosityIndex({ at40, at100: 70 }).index;
    const justAbove = viscosityIndex({ at40, at100: 70.0001 }).index;
    expect(justAbove).toBeLessThan(atEnd);
    expect(viscosityAt100OfIndex(at40, (atEnd + justAbove) / 2)).toBeLessThan(70);
    expect(viscosityAt100OfIndex(at40, atEnd + 0.01)).toBeGreaterThan(70);
  });
});

describe('grades compared', () => {
  test('an oil inside a span is called by that grade', () => {
    fc.assert(
      fc.property(logUniform(12, 3400), between(60, 180), (at40, index) => {
        const oil = gradesOfOil(at40, index);
        const chart = compareGrades(index);
        const named = (system: string, at: 'at40' | 'at100', upper: (v: number, end: number) => boolean) =>
          chart
            .filter((row) => row.system === system && (row.at40.least ?? Infinity) !== Infinity)
            .filter((row) => oil[at] >= (row[at].least ?? Infinity) && upper(oil[at], row[at].most ?? Infinity))
            .map((row) => row.grade);
        expect(oil.iso).toEqual(named('ISO 3448', 'at40', (v, end) => v <= end));
        expect(oil.saeEngine).toEqual(named('SAE J300', 'at100', (v, end) => v < end));
        expect(oil.saeGear).toEqual(named('SAE J306', 'at100', (v, end) => v < end));
      }),
      { numRuns: 200 },
    );
  });

  test('the computed end of every span has the index asked for', () => {
    let checked = 0;
    for (const index of [60, 95, 150]) {
      for (const row of compareGrades(index)) {
        for (const end of ['least', 'most'] as const) {
          const [at40, at100] = [row.at40[end], row.at100[end]];
          if (at40 === null || at100 === null) continue;
          checked += 1;
          expect(viscosityIndex({ at40, at100 }).index).toBeCloseTo(index, 7);
        }
      }
    }
    expect(checked).toBeGreaterThan(250);
  });

  test('a higher index narrows a grade of 100 °C at 40 °C, and thickens a grade of 40 °C at 100 °C', () => {
    const [low, high] = [compareGrades(95), compareGrades(150)];
    low.forEach((row, i) => {
      const other = high[i] as (typeof low)[0];
      expect(other.grade).toBe(row.grade);
      if (row.printedAt === 100) expect(other.at40.least).toBeLessThan(row.at40.least as number);
      else if (row.at100.least !== null) expect(other.at100.least).toBeGreaterThan(row.at100.least);
    });
  });
});

test('two points lie on their line to within 1e-12, as its documentation says', () => {
  const onIt = (line: ViscosityLine, given: readonly ViscosityPoint[]) => {
    for (const { celsius, mm2PerS } of given)
      expect(Math.abs(viscosityAt(line, celsius) / mm2PerS - 1)).toBeLessThan(1e-12);
  };
  fc.assert(
    fc.property(points, (given) => onIt(viscosityLine(given), given)),
    { numRuns: 5000 },
  );
  for (const { grade } of iso3448Table.filter((each) => each.grade >= 10)) {
    onIt(viscosityLineOfGrade(grade, 102), [{ celsius: 40, mm2PerS: isoGradeLimits(grade).middle }]);
  }
});

test('each efflux scale has a name that can be written as a type', () => {
  const name: EffluxScaleName = 'redwood1';
  const scale: ViscosityScale = name;
  expect(convertViscosity(100, scale, 'mm2/s', { celsius: 60 })).toBeGreaterThan(20);
});
