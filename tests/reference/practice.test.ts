/** Figures of common practice against the functions: none of them is a default or an example. */
import { describe, expect, test } from 'vitest';
import { scaleNumber } from '../../src/codes/index.ts';
import { assessReading, defaultReadingLimits } from '../../src/reading/index.ts';
import { countingConfidence, speedForViscosity, suctionLift } from '../../src/sampling/index.ts';
import { feetToMetres, psiToKPa } from '../../src/units.ts';
import practice from './practice.json' with { type: 'json' };

describe('common practice', () => {
  test('each figure says so', () => {
    const { about, standing, ...entries } = practice;
    expect(standing).toBe('common practice');
    for (const entry of Object.values(entries)) expect(entry.standing).toBe('common practice');
  });

  test('the lift and the viscosity leave enough at the inlet of an 8 mm line at 100 mL/min', () => {
    const { feet, mm2PerS, leastInletKPa } = practice.suction;
    const segments = [{ metres: 3, boreMm: 8, riseMetres: feetToMetres(feet) }];
    const inlet = suctionLift({ segments, mlPerMin: 100, fluid: { mm2PerS, kgPerM3: 880 } });
    expect(inlet.inletKPa).toBeGreaterThan(leastInletKPa);
  });

  test('the speeds are met, and held beyond them', () => {
    const { curve } = practice.speeds;
    for (const { mm2PerS, percent } of curve) {
      expect(speedForViscosity(curve, mm2PerS)).toEqual({ percent, outside: false });
    }
    const [low, high] = curve as [(typeof curve)[0], (typeof curve)[0]];
    expect(speedForViscosity(curve, low.mm2PerS - 0.1)).toEqual({ percent: low.percent, outside: true });
    expect(speedForViscosity(curve, high.mm2PerS + 0.1)).toEqual({ percent: high.percent, outside: true });
  });

  test('the pressure is a limit only where it is set', () => {
    const { leastPsi, leastKPa } = practice.pressure;
    expect(psiToKPa(leastPsi)).toBeCloseTo(leastKPa, -1);
    const counts = { sizing: 'iso11171', sizes: [4, 6, 14], perMl: [1890, 402, 33] } as const;
    const codes = (own: object) => assessReading({ counts, kPa: leastKPa - 1 }, own).findings.map(({ code }) => code);
    expect(codes({ leastKPa })).toEqual(['pressure_low']);
    expect(codes({})).toEqual([]);
    expect(defaultReadingLimits.mostMm2PerS).toBeNull();
  });

  test('the measuring times span these scale numbers in a clean oil', () => {
    const { seconds, mlPerMin, perMl, scaleNumbers } = practice.measuring;
    const spans = seconds.map((time) => {
      const { low, high } = countingConfidence({ perMl, mlPerMin, seconds: time });
      return [scaleNumber(low), scaleNumber(high)];
    });
    expect(spans).toEqual(scaleNumbers);
  });
});
