import { describe, expect, test } from 'vitest';
import { referenceViscosities, viscosityIndex } from '../../../src/viscosity/index.ts';
import d2270 from './d2270.json' with { type: 'json' };

const rows = d2270.table.rows as [number, number, number][];

describe('ASTM D2270, Table 1', () => {
  test('has 311 rows', () => {
    expect(rows).toHaveLength(311);
  });

  test.each(rows)('%d mm2/s: an oil of viscosity L %d has index 0, of H %d 100', (at100, l, h) => {
    expect(viscosityIndex({ at40: h, at100 })).toEqual({ index: 100, reported: 100, procedure: 'A' });
    expect(viscosityIndex({ at40: l, at100 })).toEqual({ index: 0, reported: 0, procedure: 'A' });
  });
});

describe('ASTM D2270, Table X2.1', () => {
  test.each(d2270.polynomials.rows as number[][])('from %d to %d mm2/s', (...row) => {
    const [from, to, a, b, c, d, e, f] = row as [number, number, number, number, number, number, number, number];
    const within = rows.filter(([y]) => y >= from && y <= to);
    expect(within.length).toBeGreaterThan(5);
    for (const [y] of within) {
      const { l, h } = referenceViscosities(y);
      expect(Math.abs((a * y * y + b * y + c) / l - 1)).toBeLessThan(d2270.polynomials.tolerance);
      expect(Math.abs((d * y * y + e * y + f) / h - 1)).toBeLessThan(d2270.polynomials.tolerance);
    }
  });
});

test('the equations begin above 70, not at 70', () => {
  expect(referenceViscosities(70)).toEqual({ l: 4905, h: 1558 });
  expect(referenceViscosities(70.000001).l).toBeCloseTo(4903.87, 3);
  expect(referenceViscosities(70.000001).h).toBeCloseTo(1557.66, 3);
});
