/** A flow for a Reynolds number, and a pump's flow: by hand from the definitions. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { flowForReynolds, lineFlow, pumpFlow, pumpSpeed } from '../../../src/sampling/index.ts';

describe('the flow for a Reynolds number', () => {
  // 4000 x 32e-6 m²/s x pi x 0.025 m / 4 = 0.00251327 m³/s
  test.each([
    [{ reynolds: 4000, boreMm: 25, mm2PerS: 32 }, 150796.4],
    // 2000 x 46e-6 x pi x 0.004 / 4 = 2.89027e-4 m³/s
    [{ reynolds: 2000, boreMm: 4, mm2PerS: 46 }, 17341.6],
  ])('%j', (pipe, mlPerMin) => {
    expect(flowForReynolds(pipe)).toBeCloseTo(mlPerMin, 1);
  });

  test('is what lineFlow finds it to be', () => {
    const decade = (low: number, high: number) => fc.double({ min: low, max: high, noNaN: true });
    fc.assert(
      fc.property(decade(1, 1e5), decade(1, 100), decade(1, 1000), (reynolds, boreMm, mm2PerS) => {
        const mlPerMin = flowForReynolds({ reynolds, boreMm, mm2PerS });
        fc.pre(mlPerMin <= 1e9);
        const line = lineFlow({ segments: [{ metres: 1, boreMm }], mlPerMin, fluid: { mm2PerS, kgPerM3: 870 } });
        expect(line.reynolds / reynolds).toBeCloseTo(1, 13);
      }),
    );
  });
});

describe('the flow of a pump', () => {
  // 16 cm³ x 1450 / min x 0.92 = 21344 cm³ / min
  test('is displacement times speed times efficiency, and back', () => {
    const pump = { mlPerRevolution: 16, volumetricEfficiency: 0.92 };
    expect(pumpFlow({ ...pump, revolutionsPerMin: 1450 })).toBeCloseTo(21344, 9);
    expect(pumpSpeed({ ...pump, mlPerMin: 21344 })).toBeCloseTo(1450, 9);
    expect(pumpFlow({ ...pump, revolutionsPerMin: 0 })).toBe(0);
  });
});

const size = { mlPerRevolution: 16, volumetricEfficiency: 0.92 };
const pump = { ...size, revolutionsPerMin: 1450 };
test.each<[string, string, () => unknown]>([
  ['wrong_type', 'pipe', () => flowForReynolds(undefined as never)],
  ['unknown_option', 'pipe.bore', () => flowForReynolds({ reynolds: 1, bore: 2 } as never)],
  ['out_of_range', 'pipe.reynolds', () => flowForReynolds({ reynolds: 0, boreMm: 25, mm2PerS: 32 })],
  ['out_of_range', 'pump.volumetricEfficiency', () => pumpFlow({ ...pump, volumetricEfficiency: 92 })],
  ['wrong_type', 'pump.volumetricEfficiency', () => pumpFlow({ mlPerRevolution: 16, revolutionsPerMin: 1 } as never)],
  ['negative', 'pump.revolutionsPerMin', () => pumpFlow({ ...pump, revolutionsPerMin: -1 })],
  ['out_of_range', 'pump.mlPerMin', () => pumpSpeed({ ...size, mlPerMin: 1e10 })],
  ['unknown_option', 'pump.revolutionsPerMin', () => pumpSpeed({ ...pump, mlPerMin: 1000 } as never)],
])('%s at %s', (code, parameter, call) => {
  expect(call).toThrow(expect.objectContaining({ name: 'MotescaleError', code, parameter }));
});
