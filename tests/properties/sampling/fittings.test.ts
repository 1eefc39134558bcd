/** Fittings in laminar flow, and the mark where only their turbulent part was given. */
import { describe, expect, test } from 'vitest';
import {
  flowForPressure,
  lineFlow,
  smallestBore,
  suctionByTemperature,
  suctionLift,
  suctionLimits,
} from '../../../src/sampling/index.ts';
import { inchHgToKPa, psiToKPa } from '../../../src/units.ts';
import { viscosityLine } from '../../../src/viscosity/index.ts';

const oil = { mm2PerS: 300, kgPerM3: 872 };
const thin = { mm2PerS: 2, kgPerM3: 850 };
const valve = { metres: 1, boreMm: 4 };
const at = (segment: object, mlPerMin: number, fluid = oil) =>
  lineFlow({ segments: [{ ...valve, ...segment }], mlPerMin, fluid });

describe('the mark', () => {
  test.each<[string, object, number, typeof oil, boolean]>([
    ['a k alone, laminar', { k: 2 }, 100, oil, true],
    ['a k alone, critical', { k: 2 }, 1200, thin, true],
    ['a k alone, turbulent', { k: 2 }, 3000, thin, false],
    ['a k alone, no flow', { k: 2 }, 0, oil, false],
    ['both parts', { k: 2, k1: 1500 }, 100, oil, false],
    ['a velocity head, said to hold', { k: 2, k1: 0 }, 100, oil, false],
    ['no fittings', {}, 100, oil, false],
    ['a k of 0', { k: 0 }, 100, oil, false],
  ])('%s', (_name, segment, mlPerMin, fluid, marked) => {
    const line = at(segment, mlPerMin, fluid);
    expect(line.fittingsTooLow).toBe(marked);
    expect(line.segments[0]?.fittingsTooLow).toBe(marked);
  });

  test('one segment marks the line', () => {
    const line = lineFlow({ segments: [{ ...valve, k: 2 }, valve], mlPerMin: 100, fluid: oil });
    expect([line, ...line.segments].map((one) => one.fittingsTooLow)).toEqual([true, true, false]);
  });

  test.each([true, false])('goes through all that rests on a line: %s', (marked) => {
    const segments = [{ metres: 2, boreMm: 6, ...(marked ? { k: 2 } : { k: 2, k1: 1500 }) }];
    const suction = { segments, mlPerMin: 60, inletLimitKPa: 80 };
    const { mm2PerS: _mm2PerS, ...density } = oil;
    const viscosity = viscosityLine([
      { celsius: 40, mm2PerS: 46 },
      { celsius: 100, mm2PerS: 6.8 },
    ]);
    const winter = suctionByTemperature({ ...suction, viscosity, ...density, celsius: [40, 8] });
    expect(suctionLift({ segments, mlPerMin: 60, fluid: oil }).fittingsTooLow).toBe(marked);
    expect(suctionLimits({ ...suction, fluid: oil }).fittingsTooLow).toBe(marked);
    expect(flowForPressure({ segments, kPa: 20, fluid: oil }).fittingsTooLow).toBe(marked);
    expect(winter.rows.map((row) => row.fittingsTooLow)).toEqual([marked, marked]);
    expect(winter.fittingsTooLow).toBe(marked);
  });

  test('an answer in laminar flow is marked though the oil given flows in eddies', () => {
    const segments = [{ metres: 2, boreMm: 6, k: 2 }];
    const limits = suctionLimits({ segments, mlPerMin: 3000, inletLimitKPa: 30, fluid: thin });
    expect(suctionLift({ segments, mlPerMin: 3000, fluid: thin }).fittingsTooLow).toBe(false);
    expect(limits.fittingsTooLow).toBe(true);
  });

  test('cold oil is marked though the temperatures asked for are not', () => {
    const viscosity = viscosityLine([
      { celsius: 40, mm2PerS: 4 },
      { celsius: 100, mm2PerS: 1.5 },
    ]);
    const segments = [{ metres: 2, boreMm: 8, k: 2 }];
    const line = { segments, mlPerMin: 10000, viscosity, kgPerM3: 850, celsius: [100, 40], inletLimitKPa: 30 };
    const found = suctionByTemperature(line);
    expect(found.rows.map((row) => row.fittingsTooLow)).toEqual([false, false]);
    expect(found.beyondAsked).toBe(true);
    expect(found.fittingsTooLow).toBe(true);
    // where the warmest breaks its limit no lower temperature is told, and the rows alone mark the answer
    const strict = (celsius: number[]) => suctionByTemperature({ ...line, celsius, inletLimitKPa: 102 });
    const [warm, mixed] = [strict([100, 40]), strict([100, -20])];
    expect([warm.lowestCelsius, warm.fittingsTooLow]).toEqual([null, false]);
    expect(mixed.rows.map((row) => row.fittingsTooLow)).toEqual([false, true]);
    expect([mixed.lowestCelsius, mixed.fittingsTooLow]).toEqual([null, true]);
  });
});

describe('fittings in laminar flow', () => {
  test('are as long as k1 / 64 bores of tube', () => {
    const [fitting, tube] = [at({ k1: 1500, metres: 0 }, 100), at({ metres: (1500 / 64) * 0.004 }, 100)];
    expect(fitting.kPa / tube.kPa).toBeCloseTo(1, 12);
  });

  test('hold a flow back without any length, and no bore is found too narrow for them', () => {
    const segments = [{ metres: 0, boreMm: 4, k1: 1500 }];
    const { kPa } = lineFlow({ segments, mlPerMin: 100, fluid: oil });
    expect(flowForPressure({ segments, kPa, fluid: oil }).mlPerMin).toBeCloseTo(100, 8);
    const boreMm = smallestBore({ metres: 1, k: 2, k1: 1500, mlPerMin: 100, kPa: 20, fluid: oil });
    expect(at({ boreMm, k: 2, k1: 1500 }, 100).kPa).toBeCloseTo(20, 9);
    expect(boreMm).toBeGreaterThan(smallestBore({ metres: 1, k: 2, mlPerMin: 100, kPa: 20, fluid: oil }));
  });

  test('cost the inlet of a pump its pressure, and the pump some of the cold it stands', () => {
    const tube = { metres: 5, boreMm: 6, riseMetres: -0.6 };
    const limits = (fitting: object) =>
      suctionLimits({ segments: [{ ...tube, ...fitting }], mlPerMin: 60, inletLimitKPa: 80, fluid: oil });
    const [bare, alone, whole] = [limits({}), limits({ k: 14 }), limits({ k: 14, k1: 3900 })];
    expect(bare.marginKPa - alone.marginKPa).toBeLessThan(0.01);
    expect(alone.marginKPa - whole.marginKPa).toBeGreaterThan(2.9);
    expect((whole.mm2PerS ?? 0) / (alone.mm2PerS ?? 1)).toBeLessThan(0.95);
  });
});

describe('a strainer', () => {
  const sheet = { kPa: 8, mlPerMin: 60, mm2PerS: 46 };
  const drop = (mlPerMin: number, mm2PerS: number, kgPerM3 = 870, strainer: object | null = sheet) => {
    const segments = [{ metres: 5, boreMm: 6, ...(strainer === null ? {} : { strainer }) }];
    return lineFlow({ segments: segments as never, mlPerMin, fluid: { mm2PerS, kgPerM3 } }).fittingsKPa;
  };

  // common practice: the drop of a clean element is proportional to flow and viscosity
  test('takes what its data sheet says, in proportion to flow and viscosity, whatever the density', () => {
    expect(drop(60, 46)).toBeCloseTo(8, 12);
    expect(drop(180, 46)).toBeCloseTo(24, 12);
    expect(drop(60, 460)).toBeCloseTo(80, 12);
    expect(drop(60, 46, 1100)).toBe(drop(60, 46));
    expect(drop(0, 46)).toBe(0);
    expect(drop(60, 46, 870, null)).toBe(0);
    expect(drop(60, 46, 870, { ...sheet, kPa: 0 })).toBe(0);
  });

  test('counts in every function of a line, and holds a flow back alone', () => {
    const segments = [{ metres: 0, boreMm: 6, strainer: sheet }];
    const fluid = { mm2PerS: 46, kgPerM3: 870 };
    const line = { segments, mlPerMin: 120, fluid };
    expect(suctionLift(line).inletKPa).toBeCloseTo(101.325 - 16, 12);
    const limits = suctionLimits({ ...line, inletLimitKPa: 80 });
    expect(limits.mm2PerS).toBeCloseTo((46 * 21.325) / 16, 9);
    expect(flowForPressure({ segments, kPa: 4, fluid }).mlPerMin).toBeCloseTo(30, 9);
    // Hagen-Poiseuille takes the 2 kPa that the strainer leaves of 10
    const bore = smallestBore({ metres: 5, mlPerMin: 60, kPa: 10, fluid, strainer: sheet });
    expect(bore).toBeCloseTo(smallestBore({ metres: 5, mlPerMin: 60, kPa: 2, fluid }), 9);
    expect(() => smallestBore({ metres: 5, mlPerMin: 60, kPa: 7, fluid, strainer: sheet })).toThrow(
      /rise and strainer alone/,
    );
  });

  test.each([
    [{ kPa: 8, mlPerMin: 60 }, 'wrong_type', 'line.segments[0].strainer.mm2PerS'],
    [{ kPa: 8, mm2PerS: 46 }, 'wrong_type', 'line.segments[0].strainer.mlPerMin'],
    [{ mlPerMin: 60, mm2PerS: 46 }, 'wrong_type', 'line.segments[0].strainer.kPa'],
    [{ ...sheet, mlPerMin: 0 }, 'out_of_range', 'line.segments[0].strainer.mlPerMin'],
    [{ ...sheet, bar: 1 }, 'unknown_option', 'line.segments[0].strainer.bar'],
    [8, 'wrong_type', 'line.segments[0].strainer'],
  ])('of which half is given, or more than all: %j', (strainer, code, parameter) => {
    expect(() => drop(60, 46, 870, strainer as never)).toThrow(expect.objectContaining({ code, parameter }));
  });
});

describe('the smallest bore', () => {
  const given = { mlPerMin: 60, kPa: 10, fluid: { mm2PerS: 46, kgPerM3: 870 } };
  test('of no length and no fittings is any: refused', () => {
    for (const none of [{ metres: 0 }, { metres: 0, k: 0, k1: 0 }])
      expect(() => smallestBore({ ...given, ...none })).toThrow(
        expect.objectContaining({ code: 'out_of_range', parameter: 'tube.metres' }),
      );
    expect(smallestBore({ ...given, metres: 0, k1: 1500 })).toBeGreaterThan(0.05);
  });
});

describe('an absolute pressure', () => {
  const line = { segments: [{ metres: 3, boreMm: 8, riseMetres: 1 }], mlPerMin: 500, fluid: oil };
  const winter = { segments: line.segments, mlPerMin: 500, kgPerM3: 870, celsius: [40] };
  const viscosity = viscosityLine([
    { celsius: 40, mm2PerS: 46 },
    { celsius: 100, mm2PerS: 6.8 },
  ]);
  // 0.8 bar absolute, -0.2 bar and -20 kPa by the gauge (common practice of data sheets), and vacuum
  test.each([0.8, -0.2, -20, 0, 9.99])('of %d is told what unit it is', (kPa) => {
    const words = /kPa absolute: 0\.8 bar absolute is 80, -0\.2 bar gauge is 81/;
    const atInlet = /kPa absolute: 0\.8 bar or 11\.6 psi is 80, a vacuum of 20 kPa/;
    expect(() => suctionLimits({ ...line, inletLimitKPa: kPa })).toThrow(atInlet);
    expect(() => suctionByTemperature({ ...winter, viscosity, inletLimitKPa: kPa })).toThrow(atInlet);
    expect(() => suctionLift({ ...line, atmosphereKPa: kPa })).toThrow(/kPa absolute: 0\.95 bar/);
    expect(() => flowForPressure({ segments: line.segments, kPa: 50, fluid: oil, startKPa: kPa })).toThrow(words);
  });

  // the air at 500 m by a barometer, 1 bar in mmHg, in inches of mercury and psi; just beyond a tank and a mountain
  test.each([950, 760, 28.1, 13.8, 300.1, 29.9])('on the oil, of %d: hPa, mmHg and psi are named', (atmosphereKPa) => {
    const words = 'from 30 to 300 (kPa absolute: 0.95 bar, 950 hPa or mbar, 713 mmHg and 13.8 psi are 95)';
    expect(() => suctionLift({ ...line, atmosphereKPa })).toThrow(words);
    expect(() => suctionLimits({ ...line, atmosphereKPa, inletLimitKPa: 80 })).toThrow(words);
    expect(() => suctionByTemperature({ ...winter, viscosity, atmosphereKPa, inletLimitKPa: 80 })).toThrow(words);
  });

  // 80 kPa in psi and in inches of mercury, as a vacuum in kPa and in inches
  test.each([11.6, 23.6, 20, 6, 29.9])('a pump stands, of %d: psi and vacuums are named', (inletLimitKPa) => {
    const words = '(kPa absolute: 0.8 bar or 11.6 psi is 80, a vacuum of 20 kPa or 6 inHg is 81)';
    expect(() => suctionLimits({ ...line, inletLimitKPa })).toThrow(words);
    expect(() => suctionByTemperature({ ...winter, viscosity, inletLimitKPa })).toThrow(words);
  });

  test('at its ends is taken, and the units named are right', () => {
    const still = { ...line, mlPerMin: 0 };
    for (const atmosphereKPa of [30, 300]) expect(suctionLift({ ...still, atmosphereKPa }).inletKPa).toBeLessThan(300);
    expect(suctionLimits({ ...still, inletLimitKPa: 30 }).marginKPa).toBeGreaterThan(0);
    expect(psiToKPa(13.8)).toBeCloseTo(95, 0);
    expect(psiToKPa(11.6)).toBeCloseTo(80, 0);
    expect(101.325 - inchHgToKPa(6)).toBeCloseTo(81, 0);
    // conventional millimetre of mercury, 133.3224 Pa: NIST SP 811, appendix B.8
    expect(713 * 0.1333224).toBeCloseTo(95, 0);
  });
});
