/** Series as long as a year of days or of hours, with memory, season, steps, gaps and ties: the walk through trend/. */
import { type Next, numbersFrom } from '../../engines/inputs.ts';
import type { Library } from '../../engines/recorder.ts';

const dayMs = 86400000;

/** Values with so much memory, a slope, a step, a swing over the year; some missing where there are gaps. */
interface Kind {
  readonly n: number;
  readonly memory: number;
  readonly slope: number;
  readonly step: number;
  readonly swing: number;
  readonly gaps: number;
  /** Shown in steps of so much; 0: as they come. */
  readonly shown: number;
}

const kinds: readonly Kind[] = [
  { n: 10, memory: 0, slope: 0.05, step: 0, swing: 0, gaps: 0, shown: 0 },
  { n: 24, memory: 0.3, slope: 0, step: 1, swing: 0, gaps: 3, shown: 0 },
  { n: 40, memory: -0.5, slope: 0.02, step: 0, swing: 0, gaps: 2, shown: 0 },
  { n: 60, memory: 0.6, slope: 0.01, step: 0, swing: 0.4, gaps: 0, shown: 0.25 },
  { n: 120, memory: 0.8, slope: -0.004, step: 0.8, swing: 0, gaps: 10, shown: 0 },
  { n: 365, memory: 0.5, slope: 0.002, step: 0, swing: 0.5, gaps: 20, shown: 1 },
  { n: 365, memory: 0.9, slope: 0, step: 2, swing: 0, gaps: 0, shown: 0 },
  { n: 800, memory: 0.2, slope: 0.0005, step: 0, swing: 0.3, gaps: 40, shown: 0.1 },
];

export function walk(motescale: Library): void {
  const next = numbersFrom(1901);
  for (const kind of kinds) walkSeries(motescale, next, kind);
  walkVeryLong(motescale, next);
}

function walkSeries(motescale: Library, next: Next, kind: Kind): void {
  const values = seriesOf(next, kind);
  const days = values.map((_value, i) => i);
  const known = days.filter((i) => values[i] !== null);
  const there = known.map((i) => values[i] as number);
  const times = known.map((i) => i * dayMs);
  motescale.autocorrelatedTrend(values);
  motescale.autocorrelatedTrend(values, { confidence: 0.8 });
  motescale.mannKendall(there);
  motescale.mannKendall(there, { times, method: 'normal' });
  motescale.senSlope(known, there);
  motescale.senSlope(known, there, { confidence: 0.99 });
  motescale.seasonalKendall(times, there);
  motescale.leastSquaresLine(known, there);
  for (const level of [14, 18]) {
    motescale.forecastCrossing(known, there, { level });
    motescale.forecastCrossing(known, there, { level, season: 0.3 });
    motescale.forecastCrossing(times, there, { level, direction: 'falling', unitsPerDay: dayMs });
  }
  for (const settings of kind.n > 400 ? [] : [{}, { least: 0.3 }, { least: 1, season: 0.4, resolution: 1 }]) {
    const prepared = motescale.prepareChange(settings);
    let state = motescale.startChange();
    values.forEach((value, day) => {
      if (value === null) return;
      const relearn = day === 200 ? { relearn: true } : {};
      const step = motescale.advanceChange(prepared, state, { day, value, ...relearn });
      if (step !== undefined) state = step.state;
    });
    motescale.resumeChange(state);
  }
  motescale.cusum(there, { target: 16, slack: 0.5, decision: 4 });
  motescale.ewma(there, { lambda: 0.2, start: 16, sigma: 0.6 });
}

/** Beyond some 1,400 points the slope is searched for, not counted out. */
function walkVeryLong(motescale: Library, next: Next): void {
  for (const shown of [0, 0.5]) {
    const values = seriesOf(next, { n: 1500, memory: 0.4, slope: 0.0003, step: 0, swing: 0.2, gaps: 0, shown });
    const times = values.map((_value, i) => i + next(4) / 8);
    motescale.senSlope(times, values as number[]);
    motescale.mannKendall(values as number[], { times });
    motescale.forecastCrossing(times, values as number[], { level: 19 });
  }
}

function seriesOf(next: Next, { n, memory, slope, step, swing, gaps, shown }: Kind): (number | null)[] {
  const at = next(n);
  const missing: number[] = [];
  for (let i = 0; i < gaps; i += 1) missing.push(next(n));
  const values: (number | null)[] = [];
  let rest = 0;
  for (let i = 0; i < n; i += 1) {
    rest = memory * rest + (next(1001) + next(1001) + next(1001) - 1500) / 1000;
    // a swing of straight lines, the same bits everywhere
    const phase = (i % 365) / 365;
    const season = swing * (phase < 0.5 ? 4 * phase - 1 : 3 - 4 * phase);
    const value = 16 + rest + slope * i + season + (i >= at ? step : 0);
    values.push(missing.indexOf(i) >= 0 ? null : shown === 0 ? value : Math.floor(value / shown + 0.5) * shown);
  }
  return values;
}
