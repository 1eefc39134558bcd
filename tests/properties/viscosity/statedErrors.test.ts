/** What the functions say of errors carried on, and the ranges that their errors print: measured. */
import { describe, expect, test } from 'vitest';
import { fahrenheitToCelsius } from '../../../src/units.ts';
import {
  blendLines,
  blendViscosity,
  convertViscosity,
  isoGradeLimits,
  type ViscosityPoint,
  type ViscosityScale,
  viscosityAt,
  viscosityAt100OfIndex,
  viscosityIndex,
  viscosityLine,
  viscosityLineOfGrade,
} from '../../../src/viscosity/index.ts';
import { effluxScales } from '../../../src/viscosity/scales/effluxScales.ts';
import {
  condensationTemperature,
  saturationTemperature,
  solubilityAt,
  solubilityLine,
} from '../../../src/water/index.ts';

test.each([
  [[46, 6.8], [68, 8.7], 40, 0.2],
  [[32, 5.4], [100, 11.4], 40, 1.9],
  [[32, 5.4], [220, 19], 40, 5],
  [[10, 2.6], [220, 19], 40, 11.6],
  [[10, 2.6], [220, 19], -20, 22.3],
] as const)('blendLines is above blendViscosity: %j and %j at %d °C by %d %', (one, other, celsius, percent) => {
  const lines = [one, other].map(([at40, at100]) =>
    viscosityLine([
      { celsius: 40, mm2PerS: at40 },
      { celsius: 100, mm2PerS: at100 },
    ]),
  );
  const byTwo = viscosityAt(blendLines(lines.map((line) => ({ fraction: 0.5, line }))), celsius);
  const byOne = blendViscosity(lines.map((line) => ({ fraction: 0.5, mm2PerS: viscosityAt(line, celsius) })));
  expect((byTwo / byOne - 1) * 100).toBeCloseTo(percent, 1);
});

test('blends of parts with one slope are alike by both methods', () => {
  const lines = [8.9, 9.4].map((a) => ({ a, b: 3.5, form: 'short' as const }));
  const byTwo = viscosityAt(blendLines(lines.map((line) => ({ fraction: 0.5, line }))), 40);
  const byOne = blendViscosity(lines.map((line) => ({ fraction: 0.5, mm2PerS: viscosityAt(line, 40) })));
  expect(byTwo / byOne).toBeCloseTo(1, 10);
});

describe('an error of the points', () => {
  test('of 5 % in a solubility: 18 % at -15 °C, 12 % at 0 °C, 10 % at 80 °C', () => {
    const line = (cold: number, warm: number) =>
      solubilityLine([
        { celsius: 20, mgPerKg: 190 * cold },
        { celsius: 60, mgPerKg: 720 * warm },
      ]);
    const worst = (celsius: number) =>
      Math.max(
        ...[0.95, 1.05].flatMap((cold) =>
          [0.95, 1.05].map((warm) =>
            Math.abs(solubilityAt(line(cold, warm), celsius) / solubilityAt(line(1, 1), celsius) - 1),
          ),
        ),
      );
    expect(worst(-15)).toBeCloseTo(0.176, 3);
    expect(worst(0)).toBeCloseTo(0.116, 3);
    expect(worst(80)).toBeCloseTo(0.095, 3);
  });

  test.each([
    [46, 102, 3.1, 3.8],
    [32, 95, 3.2, 3.9],
    [150, 95, 3.1, 3.7],
    [46, 152, 2.7, 3.5],
    [46, 220, 2.3, 3.2],
    [320, 220, 2, 3],
  ] as const)('of 1 % in a viscosity at 40 or 100 °C shows at -10 °C: VG %d, %d', (grade, index, least, most) => {
    const at40 = isoGradeLimits(grade).middle;
    const at100 = viscosityAt100OfIndex(at40, index);
    const cold = (a: number, b: number) =>
      viscosityAt(
        viscosityLine([
          { celsius: 40, mm2PerS: at40 * a },
          { celsius: 100, mm2PerS: at100 * b },
        ]),
        -10,
      );
    for (const [a, b] of [
      [1.01, 1],
      [0.99, 1],
      [1, 1.01],
      [1, 0.99],
    ] as const) {
      const percent = Math.abs(cold(a, b) / cold(1, 1) - 1) * 100;
      expect(percent).toBeGreaterThan(least);
      expect(percent).toBeLessThan(most);
    }
  });

  test.each([
    [50, 9],
    [100, 3],
  ])('of 0.5 %% in viscosities at 40 and %d °C, opposite ways, shows at 0 °C: at most %d %%', (warm, percent) => {
    const oil = viscosityLineOfGrade(46, 102);
    const measured = (celsius: number, by: number) => ({ celsius, mm2PerS: viscosityAt(oil, celsius) * by });
    const off = [
      [0.995, 1.005],
      [1.005, 0.995],
    ].map(([cold, hot]) => {
      const line = viscosityLine([measured(40, cold as number), measured(warm, hot as number)]);
      return Math.abs(viscosityAt(line, 0) / viscosityAt(oil, 0) - 1) * 100;
    });
    expect(Math.round(Math.max(...off))).toBe(percent);
  });

  test.each([
    [10, 0.1],
    [46, 0.2],
    [1500, 0.6],
  ])('of half a unit of the index in VG %d is %d %% at 100 °C', (at40, percent) => {
    const half = (viscosityAt100OfIndex(at40, 95.5) / viscosityAt100OfIndex(at40, 95) - 1) * 100;
    expect(Math.round(half * 10) / 10).toBe(percent);
  });

  test('of 100 and 210 °F entered as 40 and 100 °C is 11 of the index; by the line of the two it is as it was', () => {
    const oil = viscosityLineOfGrade(46, 102);
    const old = [100, 210].map((fahrenheit) => {
      const celsius = fahrenheitToCelsius(fahrenheit);
      return { celsius, mm2PerS: viscosityAt(oil, celsius) };
    }) as [ViscosityPoint, ViscosityPoint];
    expect(viscosityIndex({ at40: old[0].mm2PerS, at100: old[1].mm2PerS }).reported).toBe(91);
    const line = viscosityLine(old);
    const [at40, at100] = [viscosityAt(line, 40), viscosityAt(line, 100)];
    expect(viscosityIndex({ at40, at100 }).index).toBeCloseTo(102, 9);
  });

  test('of a point shows in no refusal of the index', () => {
    expect(viscosityIndex({ at40: 46000, at100: 6.8 }).index).toBeCloseTo(-169847, 0);
    expect(viscosityIndex({ at40: 46, at100: 40 }).reported).toBe(692);
    expect(() => viscosityIndex({ at40: 6.8, at100: 46 })).toThrow(/kv.at40/);
  });
});

describe('a range that an error prints', () => {
  const scales = ['SUS', 'SFS', ...Object.keys(effluxScales)] as ViscosityScale[];

  test.each(scales)('of %s is short, and let in', (scale) => {
    let message = '';
    try {
      convertViscosity(1e-3, 'mm2/s', scale);
    } catch (error) {
      message = (error as Error).message;
    }
    const [, least, most, from, to] =
      /in mm2\/s from ([\d.]+) to ([\d.]+), which is ([\d.]+) to ([\d.]+) /.exec(message) ?? [];
    for (const end of [least, from]) expect(String(end).replace('.', '').length, message).toBeLessThan(6);
    for (const end of [least, most]) expect(() => convertViscosity(Number(end), 'mm2/s', scale)).not.toThrow();
    for (const end of [from, to]) expect(() => convertViscosity(Number(end), scale, 'mm2/s')).not.toThrow();
  });

  test('as the scale prints its own end', () => {
    expect(() => convertViscosity(1, 'mm2/s', 'redwood2')).toThrow(/which is 32\.5 to/);
    expect(() => condensationTemperature(0.1)).toThrow(/in kPa from 0\.6113 to 22064/);
    for (const kPa of [0.6113, 22064]) expect(condensationTemperature(kPa)).toBeGreaterThan(0);
  });

  test('says what a name of the trade is here', () => {
    const as = (scale: string) => () => convertViscosity(46, scale as never, 'SUS');
    expect(as('cP')).toThrow(/; cP is dynamic: kinematicViscosity makes mm2\/s of it/);
    expect(as('SSU')).toThrow(/; SUS is the same as SSU/);
    expect(as('toString')).toThrow(/expected one of [^;]*$/);
  });

  test('and whether an oil is too dry or too wet', () => {
    const line = { a: 7.0895, b: 1567 };
    expect(() => saturationTemperature(line, 0.1)).toThrow(/this one does at none down to -50 °C/);
    expect(() => saturationTemperature(line, 1e6)).toThrow(/this one does at none up to 150 °C/);
  });
});
