import { describe, expect, test } from 'vitest';
import { referenceViscosities, viscosityIndex } from '../../../src/viscosity/index.ts';
import d2270 from './d2270.json' with { type: 'json' };

const rows = d2270.table.rows as [number, number, number][];

describe(d2270.table.source, () => {
  test('has 311 rows', () => {
    expect(rows).toHaveLength(311);
  });

  test.each(rows)('%d mm2/s: L %d, H %d', (at100, l, h) => {
    expect(referenceViscosities(at100)).toEqual({ l, h });
    expect(viscosityIndex({ at40: h, at100 })).toEqual({ index: 100, reported: 100, procedure: 'A' });
    expect(viscosityIndex({ at40: l, at100 })).toEqual({ index: 0, reported: 0, procedure: 'A' });
  });
});

describe(d2270.polynomials.source, () => {
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

describe(d2270.equations.source, () => {
  test.each(d2270.equations.points)('$at100 mm2/s: L $l, H $h', ({ at100, l, h }) => {
    expect(referenceViscosities(at100).l).toBeCloseTo(l, 9);
    expect(referenceViscosities(at100).h).toBeCloseTo(h, 9);
  });

  test('begin above 70, not at 70', () => {
    expect(referenceViscosities(70)).toEqual({ l: 4905, h: 1558 });
    expect(referenceViscosities(70.000001).l).toBeCloseTo(4903.87, 3);
    expect(referenceViscosities(70.000001).h).toBeCloseTo(1557.66, 3);
  });
});

describe(d2270.examples.source, () => {
  test.each(d2270.examples.points)('$at40 and $at100 mm2/s: $reported', (point) => {
    const { l, h } = referenceViscosities(point.at100);
    expect(l).toBeCloseTo(point.l, 9);
    expect(h).toBeCloseTo(point.h, 9);
    const actual = viscosityIndex({ at40: point.at40, at100: point.at100 });
    expect(Math.abs(actual.index - point.index)).toBeLessThanOrEqual(point.tolerance);
    expect(actual.reported).toBe(point.reported);
    expect(actual.procedure).toBe(point.procedure);
  });
});

describe(d2270.computed.source, () => {
  test.each(d2270.computed.points)('$at40 and $at100 mm2/s: $reported', (point) => {
    const actual = viscosityIndex({ at40: point.at40, at100: point.at100 });
    expect(Math.abs(actual.index - point.index)).toBeLessThanOrEqual(point.tolerance);
    expect(actual.reported).toBe(point.reported);
  });
});
