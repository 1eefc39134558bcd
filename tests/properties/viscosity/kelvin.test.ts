/** Temperatures that no oil has, kelvin above all, are refused wherever one is asked for. */
import { describe, expect, test } from 'vitest';
import { suctionByTemperature } from '../../../src/sampling/index.ts';
import {
  blendLinesFraction,
  convertViscosity,
  densityAt,
  lineResiduals,
  temperatureAt,
  ubbelohdeWaltherM,
  type ViscosityPoint,
  viscosityAt,
  viscosityLine,
  viscosityLineOfGrade,
} from '../../../src/viscosity/index.ts';
import { mineralInsulatingOil, solubilityAt } from '../../../src/water/index.ts';

describe('kelvin taken for °C', () => {
  const inKelvin = (list: readonly ViscosityPoint[]) =>
    list.map(({ celsius, mm2PerS }) => ({ celsius: celsius + 273.15, mm2PerS }));
  const grades = [5, 7, 10, 15, 22, 32, 46, 68, 100, 150, 220, 320, 460, 680, 1000, 1500] as const;

  test('is refused for any oil of any index, in one point or in both', () => {
    let tried = 0;
    for (const grade of grades)
      for (const index of [0, 50, 100, 152, 220, 250, 400]) {
        if (grade < 10 && index < (grade === 7 ? 75 : 378)) continue;
        const line = viscosityLineOfGrade(grade, index);
        const own = [40, 100].map((celsius) => ({ celsius, mm2PerS: viscosityAt(line, celsius) }));
        const [cold, warm] = inKelvin(own) as [ViscosityPoint, ViscosityPoint];
        for (const points of [
          [cold, warm],
          [own[0], warm],
          [cold, own[1]],
        ] as ViscosityPoint[][])
          for (const take of [viscosityLine, ubbelohdeWaltherM, (list: ViscosityPoint[]) => lineResiduals(line, list)])
            expect(() => take(points), `VG ${grade}, ${index}`).toThrow(/from -80 to 250 .*not in kelvin/);
        tried += 1;
      }
    expect(tried).toBeGreaterThan(90);
  });

  test('is refused wherever the temperature of an oil is asked for', () => {
    const line = viscosityLineOfGrade(46, 102);
    const second = viscosityLineOfGrade(100, 95);
    for (const celsius of [251, 273.15, 281.15, 313.15, 850, -80.1, -273.15]) {
      for (const ask of [
        () => viscosityAt(line, celsius),
        () => blendLinesFraction({ first: line, second, celsius, mm2PerS: 60 }),
        () => convertViscosity(46, 'mm2/s', 'engler', { celsius }),
      ])
        expect(ask, `${celsius}`).toThrow(/elsius: received .*, expected a number from -80 to 250 \(°C of an oil/);
      expect(() => densityAt(870, celsius)).toThrow(/a number from -50 to 150/);
      expect(() => solubilityAt(mineralInsulatingOil, celsius)).toThrow(
        /from -50 to 150 \(°C of an oil; not in kelvin/,
      );
    }
  });

  test('a pump is not called safe by it', () => {
    const line = {
      segments: [{ metres: 5, boreMm: 6, riseMetres: -0.6 }],
      mlPerMin: 60,
      viscosity: viscosityLineOfGrade(46, 102),
      kgPerM3: 872,
      inletLimitKPa: 80,
    };
    const allowed = (celsius: number[]) => suctionByTemperature({ ...line, celsius }).rows.map((row) => row.allowed);
    expect(allowed([40, 20, 8])).toEqual([true, true, false]);
    for (const celsius of [[313.15, 293.15, 281.15], [281.15], [40, 255]])
      expect(() => allowed(celsius)).toThrow(/^line.celsius\[\d\]: .*not in kelvin/);
  });

  test('the ends themselves are taken, and come back', () => {
    const flat = { a: 3, b: 1.1, form: 'full' } as const;
    for (const celsius of [-80, 250]) expect(temperatureAt(flat, viscosityAt(flat, celsius))).toBeCloseTo(celsius, 9);
    const beyond = [viscosityAt(flat, -80) * 1.001, viscosityAt(flat, 250) * 0.999];
    for (const mm2PerS of beyond)
      expect(() => temperatureAt(flat, mm2PerS)).toThrow(
        expect.objectContaining({ code: 'no_answer', expected: 'a viscosity the line reaches between -80 and 250 °C' }),
      );
  });

  test('°F, or one of the two in °F, shows in the slope', () => {
    const slope = (cold: number, warm: number) =>
      viscosityLine([
        { celsius: cold, mm2PerS: 46 },
        { celsius: warm, mm2PerS: 6.8 },
      ]).b;
    expect(slope(40, 100)).toBeCloseTo(3.69, 1);
    expect(slope(40, 212)).toBeCloseTo(1.48, 2);
    const all = grades.slice(2).flatMap((grade) => [0, 100, 200].map((index) => viscosityLineOfGrade(grade, index).b));
    expect(Math.min(...all)).toBeGreaterThan(2.2);
    expect(Math.max(...all)).toBeLessThan(4.4);
  });
});
