import { expect, test } from 'vitest';
import { blendViscosity, refutasNumber } from '../../../src/viscosity/blending.ts';
import blending from './blending.json' with { type: 'json' };

const relative = (actual: number, expected: number) => Math.abs(actual / expected - 1);

test.each(blending.identities.points)('$fractions of $mm2PerS is that oil', ({ mm2PerS, fractions }) => {
  const parts = fractions.map((fraction) => ({ fraction, mm2PerS }));
  for (const method of ['astm', 'refutas'] as const) {
    expect(relative(blendViscosity(parts, method), mm2PerS)).toBeLessThan(blending.identities.relativeTolerance);
  }
  const number = refutasNumber(mm2PerS);
  const back = Math.exp(Math.exp((number - 10.975) / 14.534)) - 0.8;
  expect(relative(back, mm2PerS)).toBeLessThan(blending.identities.relativeTolerance);
});
