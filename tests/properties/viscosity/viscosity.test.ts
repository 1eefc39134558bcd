import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  blendLinesFraction,
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
} from '../../../src/viscosity/index.ts';
import { some } from '../../volume.ts';

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
      { numRuns: some(1000) },
    );
  });

  test('goes through its two points, and has no residuals there', () => {
    fc.assert(
      fc.property(points, form, (pair, used) => {
        const line = viscosityLine(pair, { form: used });
        const most = 1e-13 * (1 + line.b);
        for (const { celsius, mm2PerS } of pair) {
          expect(Math.abs(viscosityAt(line, celsius) / mm2PerS - 1)).toBeLessThan(most);
        }
        for (const { percent } of lineResiduals(line, pair)) expect(Math.abs(percent)).toBeLessThan(100 * most);
      }),
      { numRuns: some(5000) },
    );
  });

  test('gives the temperature back, in both forms', () => {
    fc.assert(
      fc.property(onLine, ({ pair, form: used, low }) => {
        const line = viscosityLine(pair, { form: used });
        expect(temperatureAt(line, viscosityAt(line, low))).toBeCloseTo(low, 9);
      }),
      { numRuns: some(1000) },
    );
  });

  test.each(['full', 'short'] as const)(
    'gives back every viscosity from 0.21 to 30, where the corrections of Z fade into rounding: %s',
    (used) => {
      const ends = [
        { celsius: -40, mm2PerS: 40 },
        { celsius: 60, mm2PerS: 0.25 },
      ];
      const line = viscosityLine(ends, { form: used });
      for (let v = 0.21; v < 30; v *= 1.0007) {
        expect(viscosityAt(line, temperatureAt(line, v)) / v).toBeCloseTo(1, 12);
      }
    },
  );

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
  /**
   * The greatest whole index of an oil that thins: at 100 °C just thinner than at 40 °C, or at the end of the table.
   */
  const greatestOf = (at40: number) => {
    const almost = viscosityIndex({ at40, at100: at40 * (1 - 1e-12) }).index;
    const atEnd = at40 > 70 ? viscosityIndex({ at40, at100: 70 }).index : 0;
    return Math.min(1000, Math.floor(Math.max(almost, atEnd)));
  };

  test.each([
    [10, 1000],
    [15, 949],
    [22, 852],
    [32, 787],
    [46, 744],
    [68, 713],
    [100, 696],
    [150, 690],
    [220, 693],
    [460, 715],
    [1000, 750],
    [3200, 806],
  ])('of VG %d ends at %d', (grade, greatest) => {
    expect(greatestOf(grade)).toBe(greatest);
    const line = viscosityLineOfGrade(grade, greatest);
    expect(viscosityIndex({ at40: grade, at100: viscosityAt(line, 100) }).index).toBeCloseTo(greatest, 7);
    expect(gradesOfOil(grade, greatest).at100).toBeLessThan(grade);
    if (greatest === 1000) return;
    for (const act of [
      () => viscosityLineOfGrade(grade, greatest + 1),
      () => viscosityAt100OfIndex(grade, greatest + 1),
      () => gradesOfOil(grade, greatest + 1),
    ]) {
      expect(act).toThrow(`to ${greatest} (for ${grade} mm2/s`);
    }
  });

  test('is least, at its end, for 150 mm2/s', () => {
    fc.assert(
      fc.property(logUniform(10, 20000), (at40) => {
        expect(greatestOf(at40)).toBeGreaterThanOrEqual(690);
        expect(viscosityAt100OfIndex(at40, 690)).toBeLessThan(at40);
      }),
    );
  });

  test('of a line of any grade round-trips', () => {
    fc.assert(
      fc.property(fc.constantFrom(...grades), between(0, 1), (grade, share) => {
        const index = -50 + share * (greatestOf(grade) + 50);
        const line = viscosityLineOfGrade(grade, index);
        const at40 = viscosityAt(line, 40);
        expect(at40 / isoGradeLimits(grade).middle).toBeCloseTo(1, 11);
        expect(viscosityIndex({ at40, at100: viscosityAt(line, 100) }).index).toBeCloseTo(index, 7);
      }),
      { numRuns: some(500) },
    );
  });

  test('read backwards and forwards is the same, both ways', () => {
    fc.assert(
      fc.property(logUniform(9, 5000), between(0, 1), (at40, share) => {
        const index = -50 + share * (greatestOf(at40) + 50);
        const at100 = viscosityAt100OfIndex(at40, index);
        expect(viscosityIndex({ at40, at100 }).index).toBeCloseTo(index, 8);
        expect(viscosityAt40OfIndex(at100, index) / at40).toBeCloseTo(1, 9);
      }),
      { numRuns: some(1000) },
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
      { numRuns: some(2000) },
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
    expect(checked).toBeGreaterThan(some(250, 12));
  });

  test('the ends go missing above 690: no such oil thins', () => {
    const missing = (index: number) =>
      compareGrades(index).filter(({ system, at100 }) => system === 'ISO 3448' && at100.least === null).length;
    const [none, some, most] = [missing(690), missing(720), missing(950)];
    // VG 2 and 3 have no index at all
    expect(none).toBe(2);
    expect(some).toBeGreaterThan(none);
    expect(most).toBeGreaterThan(some);
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

/** From 0.21 mm2/s, where all terms weigh, to the thickest, from 10 °C apart to 200. */
const anyTwo = fc
  .record({
    celsius: between(-60, 140),
    apart: logUniform(10.001, 200),
    thin: logUniform(0.21, 6e4),
    ratio: logUniform(1.01, 100),
    form,
  })
  .map(({ celsius, apart, thin, ratio, form: used }) => ({
    form: used,
    pair: [
      { celsius, mm2PerS: thin * ratio },
      { celsius: Math.min(celsius + apart, 250), mm2PerS: thin },
    ],
  }));

test('two points lie on their line to within 1e-13 (1 + b), as its documentation says', () => {
  const onIt = (line: ViscosityLine, given: readonly ViscosityPoint[]) => {
    const most = 1e-13 * (1 + line.b);
    for (const { celsius, mm2PerS } of given) {
      expect(Math.abs(viscosityAt(line, celsius) / mm2PerS - 1)).toBeLessThan(most);
    }
  };
  fc.assert(
    fc.property(anyTwo, ({ pair, form: used }) => onIt(viscosityLine(pair, { form: used }), pair)),
    { numRuns: some(5000) },
  );
  for (const { grade } of iso3448Table.filter((each) => each.grade >= 10)) {
    onIt(viscosityLineOfGrade(grade, 102), [{ celsius: 40, mm2PerS: isoGradeLimits(grade).middle }]);
  }
});

test('the part itself is all of a blend that has its viscosity, in both forms and for thin parts', () => {
  fc.assert(
    fc.property(anyTwo, between(1.05, 3), ({ pair, form: used }, thicker) => {
      const first = viscosityLine(pair, { form: used });
      const second = viscosityLine(
        pair.map(({ celsius, mm2PerS }) => ({ celsius, mm2PerS: mm2PerS * thicker })),
        { form: used },
      );
      const celsius = (pair[1] as ViscosityPoint).celsius;
      const of = (line: ViscosityLine) =>
        blendLinesFraction({ first, second, celsius, mm2PerS: viscosityAt(line, celsius) });
      const most = 1e-11 * (1 + first.b);
      expect(Math.abs(of(first) - 1)).toBeLessThan(most);
      expect(Math.abs(of(second))).toBeLessThan(most);
    }),
    { numRuns: some(2000) },
  );
});

test('each efflux scale has a name that can be written as a type', () => {
  const name: EffluxScaleName = 'redwood1';
  const scale: ViscosityScale = name;
  expect(convertViscosity(100, scale, 'mm2/s', { celsius: 60 })).toBeGreaterThan(20);
});
