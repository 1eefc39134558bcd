import { expect, test } from 'vitest';
import { convertViscosity } from '../../../src/viscosity/index.ts';
import d2161 from './d2161.json' with { type: 'json' };

test('1 mm2/s, which the handbook converts, is below the range of ASTM D2161', () => {
  expect(() => convertViscosity(d2161.rejected.mm2PerS, 'mm2/s', 'SUS')).toThrow('ASTM D2161');
});

test.each(d2161.furolHandbook.points)('$mm2PerS mm2/s: 3 to 4 % above the $seconds SFS of the handbook', (point) => {
  const above = convertViscosity(point.mm2PerS, 'mm2/s', 'SFS') / point.seconds - 1;
  expect(above).toBeGreaterThan(0.029);
  expect(above).toBeLessThan(0.04);
});
