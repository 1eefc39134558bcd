import { expect, test } from 'vitest';
import { mineralInsulatingOil, solubilityLine } from '../../../src/water/index.ts';
import water from './water.json' with { type: 'json' };

test('a least-squares line through the table of the mineral oil comes back to its slope', () => {
  const { b } = solubilityLine(water.mineralInsulatingOil.points);
  expect(Math.abs(b / mineralInsulatingOil.b - 1)).toBeLessThan(0.01);
});
