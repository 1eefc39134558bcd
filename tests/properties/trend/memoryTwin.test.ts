/** Trends and forecasts of values that remember, against a plain second implementation (memoryTwin.ts). */
import betaQuantile from '@stdlib/stats-base-dists-beta-quantile';
import { describe, expect, test } from 'vitest';
import { autocorrelatedTrend, forecastCrossing } from '../../../src/trend/index.ts';
import { some } from '../../volume.ts';
import { flagsTwin, type LineTwin, lineTwin, type MemoryTwin, studentTwin } from './memoryTwin.ts';
import { draws, withMemory } from './trendCorrelated.ts';

const close = (found: number | null, twin: number, size: number) => {
  expect(found).not.toBeNull();
  expect(Math.abs((found as number) - twin)).toBeLessThanOrEqual(1e-11 * size);
};

/** Series of all kinds: short and long, with and without memory, scatter, trend, gaps, whole codes, wild values. */
function* series(seeds: number): Generator<(number | null)[]> {
  for (let seed = 1; seed <= seeds; seed += 1) {
    const { share, normal } = draws(seed);
    const n = 10 + Math.floor(share() * 50) + (seed % 6 === 5 ? 110 : 0);
    const memory = [0, 0.3, 0.6, 0.9][seed % 4] as number;
    const [noise, rise] = [seed % 3 === 0 ? 1 : seed % 6 === 5 ? 0.3 : 0, (seed % 5) * share()];
    const gaps = seed % 2 === 0 ? 0 : 0.25;
    yield withMemory(normal, n, memory).map((value, i) => {
      if (share() < gaps && i > 0) return null;
      const wild = share() < 0.03 ? 6 : 0;
      const whole = 16 + 0.5 * (value + noise * normal() + wild) + (rise * i) / n;
      return seed % 7 === 0 ? Math.round(whole) : whole;
    });
  }
}

const pointsOf = (values: readonly (number | null)[]) => {
  const places = values.map((_, i) => i).filter((i) => values[i] !== null);
  return { places, present: places.map((i) => values[i] as number) };
};

test('the trend: slope, memory, effective number, limits, p and flags to 1e-11', () => {
  const seen: Record<string, number> = {};
  for (const values of series(some(300, 20))) {
    const { places, present } = pointsOf(values);
    if (present.length < 2) continue;
    const leastCorrelation = present.length % 5 === 0 ? 0.7 : 0;
    const line = lineTwin(places, present, leastCorrelation);
    const found = autocorrelatedTrend(values, { leastCorrelation });
    const memory = line.plain;
    expect([found.n, found.s]).toEqual([line.n, line.s]);
    close(found.slope, line.slope, Math.abs(line.slope) + 1e-6);
    expect(found.tau).toBeCloseTo(line.s / ((line.n * (line.n - 1)) / 2), 12);
    expect(found.spacing).toBe(line.times.spacing);
    const name = memory === null ? 'not_told' : memory.share === 1 ? 'ar1' : 'ar1_with_noise';
    seen[name] = (seen[name] ?? 0) + 1;
    expect(found.dependence).toBe(name);
    if (memory === null) {
      expect([found.low, found.high, found.p, found.correlation, found.effectiveN]).toEqual(Array(5).fill(null));
      continue;
    }
    close(found.correlation, memory.memory * memory.share, 1);
    close(found.effectiveN, memory.effective, line.n);
    const error = Math.sqrt(memory.slopeVariance);
    const half = studentTwin(0.05, memory.freedom) * error;
    close(found.low, line.slope - half, half);
    close(found.high, line.slope + half, half);
    // p is the chance of which the slope is the limit
    const p = found.p as number;
    const t = line.slope / error;
    if (p > 1e-6) close(betaQuantile(p, memory.freedom / 2, 0.5), memory.freedom / (memory.freedom + t * t), 10);
    expect(found.verdict === 'not_distinguishable').toBe(p >= 0.05);
    const { flags, isClose } = flagsTwin(line);
    if (!isClose) expect(found.flags).toEqual(flags);
    for (const flag of flags) seen[flag] = (seen[flag] ?? 0) + 1;
  }
  expect(Object.keys(seen).sort()).toEqual(expect.arrayContaining(['ar1', 'ar1_with_noise', 'not_told']));
});

/** Where a function that rises through 0 does so, from a place where it is below. */
function rootFrom(f: (u: number) => number, from: number): number | null {
  let [low, high] = [from, from + 1];
  while (f(high) < 0) {
    high = from + 2 * (high - from);
    if (high > 1e12) return null;
  }
  for (let round = 0; round < 200; round += 1) {
    const middle = (low + high) / 2;
    if (f(middle) < 0) low = middle;
    else high = middle;
  }
  return high;
}

/** What a yearly swing of 1 does at most to the slope and the mean over a span of days: Simpson's rule. */
function swingOver(span: number): { slope: number; mean: number } {
  const [h, w, parts] = [span / 2, (2 * Math.PI) / 365.25, 2000];
  let [slope, mean] = [0, 0];
  for (let i = 0; i <= parts; i += 1) {
    const t = -h + (span * i) / parts;
    const weight = ((i === 0 || i === parts ? 1 : i % 2 === 1 ? 4 : 2) * span) / parts / 3;
    slope += weight * t * Math.sin(w * t);
    mean += weight * Math.cos(w * t);
  }
  return { slope: slope / ((2 * h ** 3) / 3), mean: mean / span };
}

describe('the forecast', () => {
  /** From when on the upper limit of the line is at the level, and from when on the lower one. From the mean time. */
  function fan(line: LineTwin, memory: MemoryTwin, level: number, season: number, reach: number) {
    const { fromMean, span, spacing } = line.times;
    const last = fromMean[fromMean.length - 1] as number;
    const swing = swingOver(span * spacing);
    const half = (season * season) / 2;
    const slopeVariance = memory.slopeVariance + half * swing.slope ** 2;
    const centreVariance = memory.centreVariance + half * (1 + swing.mean ** 2);
    const width = (u: number) => reach * Math.sqrt(centreVariance + u * u * slopeVariance);
    const above = (u: number) => line.centre + line.slope * u - level;
    const edge = reach * Math.sqrt(slopeVariance);
    const upper = (u: number) => above(u) + width(u);
    const earliest = upper(last) >= 0 ? last : line.slope + edge > 0 ? rootFrom(upper, last) : null;
    const lower = (u: number) => above(u) - width(u);
    const latest = line.slope - edge <= 0 ? null : lower(last) >= 0 ? last : rootFrom(lower, last);
    return { earliest, latest, edge };
  }

  test('outcome, time and both ends: 1e-11, from the fan of limits by bisection', () => {
    const seen: Record<string, number> = {};
    let seed = 0;
    for (const values of series(some(300, 25))) {
      seed += 1;
      const { places, present } = pointsOf(values);
      if (present.length < 8) continue;
      const line = lineTwin(places, present);
      const level = line.centre + ([0.4, 1, 2.5, -0.5][seed % 4] as number) + Math.max(0, line.slope) * line.n;
      const season = seed % 3 === 0 ? 0.05 : 0;
      const found = forecastCrossing(places, present, season > 0 ? { level, season } : { level });
      const { fromMean, mean, span, spacing } = line.times;
      const last = fromMean[fromMean.length - 1] as number;
      const now = line.centre + line.slope * last;
      close(found.now, now, Math.abs(now));
      close(found.yearlyWouldNeed, Math.abs(line.slope / swingOver(span * spacing).slope), found.yearlyWouldNeed ?? 0);
      expect(found.flags.includes('season_untold')).toBe(season === 0);
      seen[found.outcome] = (seen[found.outcome] ?? 0) + 1;
      const memory = line.plain;
      if (memory === null) {
        expect(found).toMatchObject({ outcome: now >= level ? 'reached' : 'not_distinguishable', effectiveN: null });
        continue;
      }
      const plain = fan(line, memory, level, season, studentTwin(0.05, memory.freedom));
      close(found.effectiveN, memory.effective, line.n);
      close(found.low, line.slope - plain.edge, plain.edge);
      close(found.high, line.slope + plain.edge, plain.edge);
      if (now >= level) {
        expect(found).toMatchObject({ outcome: 'reached', time: null, earliest: null, latest: null });
        continue;
      }
      if (line.slope + plain.edge < 0) {
        expect(found).toMatchObject({ outcome: 'never', time: null, earliest: null, latest: null });
        continue;
      }
      const same = (time: number | null, u: number | null) => {
        if (u === null) expect(time).toBeNull();
        else close(time, mean + u, 10 * (Math.abs(u) + mean));
      };
      if (plain.latest === null) {
        expect(found).toMatchObject({ outcome: 'not_distinguishable', time: null, latest: null });
        same(found.earliest, plain.earliest);
        continue;
      }
      expect(found.outcome).toBe('expected');
      const crossing = (level - line.centre) / line.slope;
      same(found.time, crossing);
      expect(found.flags.includes('far_beyond')).toBe(crossing - last > span);
      const longest = line.longest as MemoryTwin;
      const carried = 4 * longest.room;
      const risk = (0.05 * (1 + carried)) / (1 + 0.05 * carried);
      // the longest memory, with the degrees of freedom of the readings
      const wide = fan(line, longest, level, season, studentTwin(risk, memory.freedom));
      seen[wide.latest === null ? 'no end' : 'end'] = (seen[wide.latest === null ? 'no end' : 'end'] ?? 0) + 1;
      if (wide.latest === null) {
        expect(found.latest).toBeNull();
        same(found.earliest, plain.earliest);
      } else {
        same(found.latest, Math.max(plain.latest, wide.latest));
        same(found.earliest, Math.min(plain.earliest as number, wide.earliest as number));
      }
    }
    const all = ['end', 'expected', 'no end', 'not_distinguishable', 'reached'];
    expect(Object.keys(seen)).toEqual(expect.arrayContaining(all));
  });
});
