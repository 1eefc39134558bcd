/** Forecasts, averages and sums: what they must say, and how often they may be wrong. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { normalQuantile } from '../../../src/numeric/normal.ts';
import { autocorrelatedTrend } from '../../../src/trend/autocorrelatedTrend.ts';
import { cusum } from '../../../src/trend/cusum.ts';
import { ewma } from '../../../src/trend/ewma.ts';
import { forecastCrossing } from '../../../src/trend/forecastCrossing.ts';
import { some } from '../../volume.ts';

/** How many series a rate is read from, and how many may be wrong; a hundred where sources are changed on purpose. */
const runs = some(1000, 250);
const risk = Math.max(runs / 20, 9);
const hours = Array.from({ length: 60 }, (_x, i) => i);

/** Normal scatter from a seed. */
function scatter(seed: number): () => number {
  let state = (seed * 2654435761 + 99991) % 4294967296;
  return () => {
    state = (state * 1664525 + 1013904223) % 4294967296;
    return normalQuantile((state + 0.5) / 4294967296);
  };
}

describe('forecast', () => {
  test('of a straight line: the crossing itself, with no room for doubt', () => {
    const line = forecastCrossing(
      hours,
      hours.map((hour) => 15 + hour / 64),
      { level: 17 },
    );
    expect(line).toMatchObject({ outcome: 'expected', time: 128, earliest: 128, latest: 128, slope: 1 / 64 });
  });

  test('reached, never, not_distinguishable', () => {
    const rising = hours.map((hour) => 15 + hour / 64);
    expect(forecastCrossing(hours, rising, { level: 15.5 }).outcome).toBe('reached');
    expect(forecastCrossing(hours, rising, { level: 12, direction: 'falling' }).outcome).toBe('never');
    expect(
      forecastCrossing(
        hours,
        hours.map(() => 15),
        { level: 17 },
      ).outcome,
    ).toBe('never');
    const noise = scatter(5);
    const level = forecastCrossing(
      hours,
      hours.map(() => 15 + noise()),
      { level: 19 },
    );
    expect(level).toMatchObject({ outcome: 'not_distinguishable', time: null, latest: null });
    expect(level.earliest).toBeGreaterThan(59);
  });

  test('slope and limits are those of the trend that knows memory', () => {
    const noise = scatter(8);
    const values = hours.map((hour) => 15 + hour / 50 + 0.3 * noise());
    const { slope, low, high, effectiveN } = autocorrelatedTrend(values, { confidence: 0.9 });
    expect(forecastCrossing(hours, values, { level: 18, confidence: 0.9 })).toMatchObject({
      slope,
      low,
      high,
      effectiveN,
    });
  });

  test('a perfect line of awkward decimals: both ends at the crossing, nothing curved', () => {
    for (let n = 10; n < 110; n += 1) {
      const times = Array.from({ length: n }, (_x, i) => i);
      const level = 1 + 0.1 * (n + 4);
      const line = forecastCrossing(
        times,
        times.map((i) => 1 + 0.1 * i),
        { level },
      );
      const { earliest, time, latest } = line as { earliest: number; time: number; latest: number };
      expect(Math.abs(time - (level - 1) / 0.1)).toBeLessThan(1e-9 * time);
      expect(Math.abs(earliest - time) + Math.abs(latest - time)).toBeLessThan(1e-9 * time);
      expect(earliest <= time && time <= latest).toBe(true);
      expect(line.flags).toEqual(['season_untold']);
    }
  });

  test('a level already passed is reached, whatever the scatter, with no times', () => {
    for (let seed = 0; seed < 100; seed += 1) {
      const noise = scatter(seed);
      const passed = forecastCrossing(
        hours,
        hours.map((hour) => 15 + hour / 10 + noise()),
        { level: 17 },
      );
      expect(passed).toMatchObject({ outcome: 'reached', time: null, earliest: null, latest: null });
    }
  });

  test('a constant series never reaches a level, and says nothing of its end', () => {
    const constant = forecastCrossing(
      hours,
      hours.map(() => 16.1),
      { level: 17 },
    );
    expect(constant).toMatchObject({ outcome: 'never', slope: 0, low: 0, high: 0, latest: null, earliest: null });
  });

  test('the same in days and in milliseconds', () => {
    const noise = scatter(4);
    const values = hours.map((hour) => 15 + hour / 20 + 0.2 * noise());
    const inDays = forecastCrossing(hours, values, { level: 19, season: 0.2 });
    const ms = forecastCrossing(
      hours.map((day) => day * 86400000),
      values,
      { level: 19, season: 0.2, unitsPerDay: 86400000 },
    );
    expect(ms.flags).toEqual(inDays.flags);
    expect((ms.time as number) / 86400000).toBeCloseTo(inDays.time as number, 6);
    expect((ms.latest as number) / 86400000).toBeCloseTo(inDays.latest as number, 6);
    expect(ms.yearlyWouldNeed).toBeCloseTo(inDays.yearlyWouldNeed as number, 9);
  });

  test('flags: curved, late rise, season untold, far beyond', () => {
    const noise = scatter(9);
    const days = Array.from({ length: 90 }, (_x, i) => i);
    const flagsOf = (shape: (day: number) => number, options: { level: number; season?: number }, every = 1) =>
      forecastCrossing(
        days.map((day) => day * every),
        days.map((day) => 15 + shape(day) + 0.2 * noise()),
        options,
      ).flags;
    expect(flagsOf((day) => day / 30, { level: 19 })).toEqual(['season_untold']);
    expect(flagsOf((day) => day / 30, { level: 19, season: 0.1 })).toEqual([]);
    expect(flagsOf((day) => day / 30, { level: 19 }, 5)).toEqual([]);
    expect(flagsOf((day) => day / 30, { level: 22, season: 0 })).toEqual(['far_beyond']);
    expect(flagsOf((day) => (day * day) / 1500, { level: 22, season: 0 })).toContain('curved');
    expect(flagsOf((day) => Math.max(0, day - 68) / 5, { level: 30, season: 0 })).toContain('late_rise');
    expect(flagsOf((day) => -Math.max(0, day - 68) / 5, { level: 30, season: 0 })).toContain('late_fall');
  });

  test('a season told widens the limits; what a year would need is the half-swing that gives the slope', () => {
    const noise = scatter(14);
    const days = Array.from({ length: 120 }, (_x, i) => i);
    const rising = days.map((day) => 15 + day / 40 + 0.1 * noise());
    const plain = forecastCrossing(days, rising, { level: 19 });
    const told = forecastCrossing(days, rising, { level: 19, season: 0.3 });
    expect(told.earliest).toBeLessThan(plain.earliest as number);
    expect(told.latest ?? Infinity).toBeGreaterThan(plain.latest as number);
    const swing = days.map((day) => 15 + 0.5 * Math.sin((2 * Math.PI * (day - 59.5)) / 365.25));
    const { slope } = forecastCrossing(days, swing, { level: 19 });
    const need = forecastCrossing(days, swing, { level: 19 }).yearlyWouldNeed as number;
    expect(slope).toBeGreaterThan(0);
    expect(Math.abs(need / 0.5 - 1)).toBeLessThan(0.05);
  });

  test('fewer than ten readings do not tell how alike neighbours are', () => {
    const eight = [15, 15.1, 15.3, 15.2, 15.4, 15.5, 15.7, 15.6];
    const times = eight.map((_value, i) => i);
    expect(forecastCrossing(times, eight, { level: 17 })).toMatchObject({
      outcome: 'not_distinguishable',
      earliest: null,
      low: null,
      effectiveN: null,
    });
  });

  test('whole scale numbers that hide a slow trend are not called level', () => {
    const steps = hours.map((hour) => (hour > 50 ? 17 : 16));
    expect(forecastCrossing(hours, steps, { level: 18 })).toMatchObject({ outcome: 'not_distinguishable', slope: 0 });
  });

  test('turned upside down it says the same', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: -50, max: 50 }), { minLength: 8, maxLength: 40 }),
        fc.integer({ min: -80, max: 80 }),
        (values, level) => {
          const times = values.map((_value, i) => i);
          const up = forecastCrossing(times, values, { level });
          const down = forecastCrossing(
            times,
            values.map((value) => -value),
            { level: -level, direction: 'falling' },
          );
          expect(down.outcome).toBe(up.outcome);
          const reached = (forecast: typeof up) => [forecast.time, forecast.earliest, forecast.latest];
          reached(down).forEach((time, i) => {
            const other = reached(up)[i] as number | null;
            if (time === null || other === null) expect(time).toBe(other);
            else expect(Math.abs(time - other)).toBeLessThanOrEqual(1e-12 * Math.abs(time));
          });
          expect(down.now).toBeCloseTo(-up.now, 12);
          if (up.outcome === 'expected') {
            const { earliest, time, latest } = up as { earliest: number; time: number; latest: number | null };
            expect(earliest <= time && time <= (latest ?? time) && earliest >= times.length - 1).toBe(true);
          }
        },
      ),
    );
  });

  test('the true crossing lies within the interval at least as often as promised', () => {
    // series around 15 + hour / 50, which reaches 18 at 150: where a crossing is expected, the interval holds it;
    // where none is, the truth is not denied ("never", "reached")
    let wrong = 0;
    for (let seed = 0; seed < runs; seed += 1) {
      const noise = scatter(seed);
      const forecast = forecastCrossing(
        hours,
        hours.map((hour) => 15 + hour / 50 + 0.5 * noise()),
        { level: 18 },
      );
      const { outcome, earliest, latest } = forecast;
      const holds = earliest !== null && earliest <= 150 && (latest === null || latest >= 150);
      if (outcome === 'never' || outcome === 'reached' || !holds) wrong += 1;
    }
    expect(wrong).toBeLessThanOrEqual(risk);
  });

  test('without a trend, one is claimed no more often than the risk', () => {
    let claimed = 0;
    for (let seed = 0; seed < runs; seed += 1) {
      const noise = scatter(seed + 5000);
      const { outcome } = forecastCrossing(
        hours,
        hours.map(() => 15 + noise()),
        { level: 25 },
      );
      if (outcome !== 'not_distinguishable') claimed += 1;
    }
    expect(claimed).toBeLessThanOrEqual(risk);
  });
});

describe('EWMA', () => {
  const figures = fc.array(fc.double({ min: -1e6, max: 1e6, noNaN: true }), { minLength: 1, maxLength: 50 });
  const lambda = fc.double({ min: 0.01, max: 1, noNaN: true });

  test('stays within its values, and goes on from where it stood', () => {
    fc.assert(
      fc.property(figures, lambda, fc.nat(), (values, weight, cut) => {
        const start = values[0] as number;
        const whole = ewma(values, { lambda: weight, start }).values;
        const reach = 1e-9 * Math.max(...values.map(Math.abs));
        for (const average of whole) {
          expect(average).toBeLessThanOrEqual(Math.max(...values) + reach);
          expect(average).toBeGreaterThanOrEqual(Math.min(...values) - reach);
        }
        const first = values.slice(0, (cut % values.length) + 1);
        const rest = values.slice(first.length);
        if (rest.length === 0) return;
        const head = ewma(first, { lambda: weight, start }).values;
        const tail = ewma(rest, { lambda: weight, start: head[head.length - 1] as number }).values;
        expect([...head, ...tail]).toEqual(whole);
      }),
    );
  });

  test('growing limits begin at width lambda sigma and end at the steady ones', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.05, max: 1, noNaN: true }), (weight) => {
        const of = (limits: 'steady' | 'growing') =>
          ewma(Array<number>(400).fill(0), { lambda: weight, start: 0, sigma: 1, width: 3, limits });
        const growing = of('growing').high as number[];
        expect(growing[0]).toBeCloseTo(3 * weight, 12);
        expect(growing[399]).toBeCloseTo(of('steady').high?.[399] as number, 12);
        growing.forEach((limit, i) => {
          if (i > 0) expect(limit).toBeGreaterThanOrEqual(growing[i - 1] as number);
        });
      }),
    );
  });

  test('a lasting shift is signalled', () => {
    const shifted = [...Array<number>(10).fill(17), ...Array<number>(10).fill(18)];
    expect(ewma(shifted, { lambda: 0.2, start: 17, sigma: 0.5 }).signals).toEqual([13, 14, 15, 16, 17, 18, 19]);
  });
});

describe('CUSUM', () => {
  const figures = fc.array(fc.double({ min: -1e3, max: 1e3, noNaN: true }), { minLength: 2, maxLength: 60 });
  const options = { target: 17, slack: 0.5, decision: 4 };

  test('is the largest sum over any last stretch of values, and never below 0', () => {
    fc.assert(
      fc.property(figures, (values) => {
        const { high, low } = cusum(values, options);
        const largest = (step: (x: number) => number, end: number) => {
          let [sum, most] = [0, 0];
          for (let i = end; i >= 0; i -= 1) {
            sum += step(values[i] as number);
            most = Math.max(most, sum);
          }
          return most;
        };
        values.forEach((_value, i) => {
          expect(high[i]).toBeCloseTo(
            largest((x) => x - 17.5, i),
            6,
          );
          expect(low[i]).toBeCloseTo(
            largest((x) => 16.5 - x, i),
            6,
          );
        });
      }),
    );
  });

  test('goes on from where it stood', () => {
    fc.assert(
      fc.property(figures, fc.nat(), (values, cut) => {
        const place = 1 + (cut % (values.length - 1));
        const whole = cusum(values, options);
        const head = cusum(values.slice(0, place), options);
        const from = { high: head.high[place - 1] as number, low: head.low[place - 1] as number };
        const tail = cusum(values.slice(place), { ...options, from });
        expect([...head.high, ...tail.high]).toEqual(whole.high);
        expect([...head.signals, ...tail.signals.map((i) => i + place)]).toEqual(whole.signals);
      }),
    );
  });

  test('tells about when a shift began, upwards or downwards', () => {
    const shifted = [17, 17, 17, 17, 19, 19, 19, 19];
    expect(cusum(shifted, options)).toMatchObject({ signals: [6, 7], began: 4 });
    expect(
      cusum(
        shifted.map((x) => 34 - x),
        options,
      ),
    ).toMatchObject({ signals: [6, 7], began: 4 });
    expect(cusum([17, 17], options).began).toBeNull();
  });
});
