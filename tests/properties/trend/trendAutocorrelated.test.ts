/** The honest trend: what must not change it, how seldom it may cry, and when it says that it cannot tell. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { autocorrelatedTrend } from '../../../src/trend/autocorrelatedTrend.ts';
import { some } from '../../volume.ts';
import { draws, withMemory } from './trendCorrelated.ts';

type Values = (number | null)[];

/** Sixteenths, so that shifting and doubling are exact; every fifth or so missing; or whole codes, full of ties. */
const series = fc
  .oneof(
    fc.array(
      fc.option(
        fc.integer({ min: 200, max: 330 }).map((x) => x / 16),
        { freq: 5 },
      ),
      { minLength: 12, maxLength: 90 },
    ),
    fc.array(fc.option(fc.integer({ min: 15, max: 18 }), { freq: 5 }), { minLength: 12, maxLength: 90 }),
  )
  .filter((values) => values.filter((value) => value !== null).length >= 2);
const each = (values: Values, change: (value: number) => number): Values =>
  values.map((value) => (value === null ? null : change(value)));
const untouched = ['n', 'p', 'tau', 's', 'correlation', 'effectiveN', 'dependence', 'spacing'] as const;

describe('what must change nothing', () => {
  test('shifting and doubling, to the last bit', () => {
    fc.assert(
      fc.property(series, fc.integer({ min: -64, max: 64 }), (values, shift) => {
        const plain = autocorrelatedTrend(values);
        expect(autocorrelatedTrend(each(values, (value) => value + shift))).toEqual(plain);
        const scaled = (value: number | null) => (value === null ? null : value * 8);
        expect(autocorrelatedTrend(each(values, (value) => value * 8))).toEqual({
          ...plain,
          slope: plain.slope * 8,
          low: scaled(plain.low),
          high: scaled(plain.high),
        });
      }),
    );
  });

  test('reading backwards and upside down, to the last bit', () => {
    const turned = { rising: 'falling', falling: 'rising', not_distinguishable: 'not_distinguishable' } as const;
    const minus = (value: number | null) => (value === null ? null : 0 - value);
    fc.assert(
      fc.property(series, (values) => {
        const plain = autocorrelatedTrend(values);
        for (const other of [values.slice().reverse(), each(values, (value) => -value)]) {
          const mirrored = autocorrelatedTrend(other);
          for (const name of untouched) {
            const wanted = name === 's' || name === 'tau' ? minus(plain[name]) : plain[name];
            expect(mirrored[name], name).toEqual(wanted);
          }
          expect(mirrored.slope).toBe(0 - plain.slope);
          expect([mirrored.low, mirrored.high]).toEqual([minus(plain.high), minus(plain.low)]);
          expect(mirrored.verdict).toBe(turned[plain.verdict]);
        }
      }),
    );
  });

  test('scaling by any factor: the same verdict, p to twelve digits, ties of whole codes too', () => {
    fc.assert(
      fc.property(series, fc.double({ min: 0.001, max: 1000, noNaN: true }), (values, factor) => {
        const plain = autocorrelatedTrend(values);
        const scaled = autocorrelatedTrend(each(values, (value) => value * factor));
        expect(scaled.dependence).toBe(plain.dependence);
        if (plain.p === null || scaled.p === null) return;
        expect(Math.abs(scaled.p - plain.p)).toBeLessThanOrEqual(1e-9);
        expect(scaled.s).toBe(plain.s);
      }),
    );
  });
});

describe('how often it is wrong', () => {
  const rate = (
    n: number,
    correlation: number,
    rise: number,
    change: (value: number, share: number) => number | null,
  ) => {
    const { normal, share } = draws(4711 + n);
    let told = 0;
    for (let run = 0; run < 120; run += 1) {
      const values = withMemory(normal, n, correlation).map((value, i) => change(value + (rise * i) / n, share()));
      if (autocorrelatedTrend(values).verdict !== 'not_distinguishable') told += 1;
    }
    return told / 120;
  };

  // 9 % promised, and three standard errors of 120 series
  test.each([
    [30, 0.5],
    [60, 0.9],
    [120, 0.95],
  ])('n %d, correlation %d: no trend called where there is none, gaps or not', (n, correlation) => {
    expect(rate(n, correlation, 0, (value) => value)).toBeLessThanOrEqual(0.09 + 0.08);
    expect(rate(n, correlation, 0, (value, share) => (share < 0.2 ? null : value))).toBeLessThanOrEqual(0.09 + 0.08);
  });

  /** As many told of so many series without a trend, with scatter of this share upon a memory of 0.95. */
  const underScatter = (n: number, share: number, count: number, change: (values: number[]) => number[]) => {
    const { normal } = draws(31 + n);
    let told = 0;
    for (let run = 0; run < count; run += 1) {
      const wander = withMemory(normal, n, 0.95);
      const values = wander.map((value) => Math.sqrt(1 - share) * value + Math.sqrt(share) * normal());
      if (autocorrelatedTrend(change(values)).verdict !== 'not_distinguishable') told += 1;
    }
    return told / count;
  };
  const asTheyAre = (values: number[]) => values;
  const weeks = (values: number[]) =>
    Array.from({ length: values.length / 7 }, (_x, week) => meanOf(values.slice(7 * week, 7 * week + 7)));
  const meanOf = (list: number[]) => list.reduce((sum, value) => sum + value, 0) / list.length;

  // the figures of docs/rates.md, and three standard errors of 200 series either way
  const cells = [
    [40, 0.05, 0.07, 0.24],
    [40, 0.5, 0.12, 0.31],
    [60, 0.5, 0.1, 0.28],
    [120, 0.05, 0.03, 0.17],
    [120, 0.5, 0.03, 0.17],
    [400, 0.05, 0.02, 0.13],
    [400, 0.5, 0, 0.08],
  ] as const;
  test.each(cells.slice(0, some(7, 5)))(
    'n %d, a share of %d scatter on a long memory: as many false trends as stated',
    (n, share, low, high) => {
      const rate = underScatter(n, share, some(1000, 200), asTheyAre);
      expect(rate).toBeGreaterThan(low);
      expect(rate).toBeLessThan(high);
    },
  );

  test('looked at every day over the last 40, half scatter on a long memory: on a fifth of quiet days', () => {
    const { normal } = draws(91);
    const years = some(40, 4);
    let shown = 0;
    for (let year = 0; year < years; year += 1) {
      const wander = withMemory(normal, 405, 0.95);
      const values = wander.map((value) => Math.sqrt(0.5) * (value + normal()));
      for (let day = 0; day < 365; day += 5) {
        if (autocorrelatedTrend(values.slice(day, day + 40)).verdict !== 'not_distinguishable') shown += 5;
      }
    }
    expect(shown / (365 * years)).toBeGreaterThan(0.14);
    expect(shown / (365 * years)).toBeLessThan(0.28);
  });

  test('means of 26 weeks keep to 9 %, whatever the scatter', () => {
    for (const share of [0.05, 0.2, 0.5, 0.85]) {
      expect(underScatter(182, share, some(1000, 100), weeks), `${share}`).toBeLessThanOrEqual(0.09 + 0.065);
    }
  });

  test('a rise of four standard deviations is told where memory is short', () => {
    expect(rate(60, 0, 4, (value) => value)).toBeGreaterThanOrEqual(0.95);
    expect(rate(120, 0.5, 4, (value) => value)).toBeGreaterThanOrEqual(0.95);
  });

  test('every second block only, with a correlation of 0.9: read from the neighbours that exist', () => {
    expect(rate(60, 0.9, 0, (value) => value)).toBeLessThan(0.17);
    const { normal } = draws(5);
    let told = 0;
    for (let run = 0; run < 120; run += 1) {
      const values = withMemory(normal, 120, 0.9).map((value, i) => (i % 2 === 0 ? value : null));
      const trend = autocorrelatedTrend(values);
      expect(trend.spacing).toBe(2);
      if (trend.verdict !== 'not_distinguishable') told += 1;
    }
    expect(told / 120).toBeLessThanOrEqual(0.17);
  });
});

describe('what it says of itself', () => {
  test('where the data cannot tell the dependence, it says so', () => {
    const few = autocorrelatedTrend([1, 2, 3, null, 5, 6, 7, 8, 9, 10]);
    expect(few).toMatchObject({ dependence: 'not_told', verdict: 'not_distinguishable', p: null, low: null, slope: 1 });
    const scattered: Values = Array<null>(400).fill(null);
    [0, 1, 2, 3, 100, 101, 102, 103, 250, 251, 252, 253, 399].forEach((block) => {
      scattered[block] = block;
    });
    expect(autocorrelatedTrend(scattered).dependence).toBe('not_told');
    // enough values, but hardly two of them as far apart as neighbours usually are: 1 or 5 blocks, and once 3
    const uneven: Values = [15];
    for (let i = 0; i < 20; i += 1) uneven.push(...Array<null>(i === 11 ? 2 : i % 2 === 0 ? 4 : 0).fill(null), 15 + i);
    expect(autocorrelatedTrend(uneven)).toMatchObject({ n: 21, spacing: 3, dependence: 'not_told', effectiveN: null });
  });

  test('a perfect line and a constant series', () => {
    const line = Array.from({ length: 40 }, (_x, i) => 1 + 0.1 * i);
    expect(autocorrelatedTrend(line)).toMatchObject({ verdict: 'rising', flags: [] });
    expect(autocorrelatedTrend(line).slope).toBeCloseTo(0.1, 12);
    expect(autocorrelatedTrend(line.map((value) => -value)).verdict).toBe('falling');
    const level = autocorrelatedTrend(line.map(() => 17.3));
    expect(level).toMatchObject({ slope: 0, low: 0, high: 0, p: 1, verdict: 'not_distinguishable', flags: [] });
  });

  test('limits and p agree, and a known correlation only widens them', () => {
    const { normal } = draws(12);
    for (let run = 0; run < 40; run += 1) {
      const values = withMemory(normal, 60, 0.6).map((value, i) => value + i / 25);
      const trend = autocorrelatedTrend(values);
      const { low, high, p } = trend as { low: number; high: number; p: number };
      expect(low > 0 || high < 0).toBe(p < 0.05);
      const least = autocorrelatedTrend(values, { leastCorrelation: 0.95 });
      expect(least.effectiveN).toBeLessThanOrEqual(trend.effectiveN as number);
      const wide = autocorrelatedTrend(values, { confidence: 0.99 });
      expect(wide.high).toBeGreaterThan(high);
    }
  });

  test('a rise in the last third is flagged, not denied', () => {
    const { normal } = draws(3);
    let flagged = 0;
    for (let run = 0; run < 50; run += 1) {
      const values = withMemory(normal, 60, 0.3).map((value, i) => value + Math.max(0, (i - 42) / 18) * 8);
      const { flags, verdict } = autocorrelatedTrend(values);
      if (verdict === 'rising' || flags.indexOf('late_rise') >= 0) flagged += 1;
    }
    expect(flagged).toBeGreaterThanOrEqual(45);
  });

  test('a bend is flagged as curved, and a fall begun late as such', () => {
    const { normal } = draws(8);
    const noise = withMemory(normal, 80, 0.2);
    expect(autocorrelatedTrend(noise.map((value, i) => value + (i * i) / 400)).flags).toContain('curved');
    expect(autocorrelatedTrend(noise.map((value, i) => value - Math.max(0, i - 60) / 2)).flags).toContain('late_fall');
  });

  test('wild readings hardly move it', () => {
    const { normal } = draws(21);
    const calm = withMemory(normal, 80, 0.4).map((value, i) => value / 4 + i / 40);
    const wild = calm.map((value, i) => (i % 23 === 7 ? value + 9 : value));
    const [a, b] = [autocorrelatedTrend(calm), autocorrelatedTrend(wild)];
    expect(b.verdict).toBe('rising');
    expect(Math.abs(b.slope / a.slope - 1)).toBeLessThan(0.25);
  });
});
