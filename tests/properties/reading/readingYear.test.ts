/**
 * A simulated year of healthy units (of those with a reading every five minutes one month, all of it with
 * MOTESCALE_FULL): at most one false finding a unit. And each fault, begun on a healthy unit, is found within ten
 * readings. Other random cases with MOTESCALE_SEED.
 */
import { describe, expect, test } from 'vitest';
import { assess } from '../../../src/reading/assessReading.ts';
import type { FindingCode, OwnReadingLimits, Reading } from '../../../src/reading/index.ts';
import { wholeLimits } from '../../../src/reading/ownLimits.ts';
import { advanceRepeats, noRepeats, type Repeats } from '../../../src/reading/remembered/repeats.ts';
import { viscosityAt, viscosityLine } from '../../../src/viscosity/index.ts';
import { normalOf, poissonOf, shares } from '../../chance.ts';
import { some } from '../../volume.ts';

const minute = 60000;
const day = 1440 * minute;
const line = viscosityLine([
  { celsius: 40, mm2PerS: 46 },
  { celsius: 100, mm2PerS: 6.8 },
]);
const own: OwnReadingLimits = {
  mlPerMin: { low: 20, high: 90 },
  leastKPa: 10,
  mostKPa: 400,
  celsius: { low: 0, high: 80 },
  mostMm2PerS: 400,
  coincidencePerMl: 60000,
  countedShare: 0.5,
  viscosityLine: line,
  settleMs: 3 * minute,
  calibrationMs: 400 * day,
  particles: null,
};
const limits = wholeLimits(own);

const seed = Number(process.env.MOTESCALE_SEED ?? 4406);

const sizes = [4, 6, 10, 14, 21, 38];
/** As medium test dust falls off, about. */
const shape = [1, 0.4, 0.12, 0.045, 0.012, 0.0012];
type Show = (counted: readonly number[], volumeMl: number) => NonNullable<Reading['counts']>;
const twoDigits = (x: number) => (x === 0 ? 0 : Number(x.toPrecision(2)));
const shows: Readonly<Record<string, Show>> = {
  'raw counts': (counted, volumeMl) => ({
    ...{ sizing: 'iso11171', sizes, counted, volumeMl },
    perMl: counted.map((n) => n / volumeMl),
  }),
  'two digits': (counted, volumeMl) => ({
    ...{ sizing: 'iso11171', sizes, volumeMl },
    perMl: counted.map((n) => twoDigits(n / volumeMl)),
  }),
  'two digits of a volume not told': (counted, volumeMl) => ({
    ...{ sizing: 'iso11171', sizes },
    perMl: counted.map((n) => twoDigits(n / volumeMl)),
  }),
};

/** One healthy reading: temperature by day and work, flow and viscosity with it, particles by the law of Poisson. */
function healthy(i: number, every: number, perMl: number, show: Show, next: () => number): Reading {
  const time = 1.8e12 + i * every;
  const celsius = Math.round((45 + 6 * Math.sin((2 * Math.PI * time) / day) + 0.3 * normalOf(next)) * 10) / 10;
  const mlPerMin = Math.round((50 + 0.1 * (celsius - 45) + 0.8 * normalOf(next)) * 10) / 10;
  const level = perMl * Math.exp(0.3 * Math.sin((2 * Math.PI * i) / 500));
  const volumeMl = 25;
  let sum = 0;
  const counted = shape
    .map((share, k) => poissonOf(level * (share - (shape[k + 1] ?? 0)) * volumeMl, next))
    .reverse()
    .map((n) => {
      sum += n;
      return sum;
    })
    .reverse();
  return {
    ...{ time, receivedAt: time + 2000, celsius, mlPerMin, measuringSeconds: 60, calibratedAt: 1.8e12 - 20 * day },
    counts: show(counted, volumeMl),
    kPa: Math.round(60 + 5 * normalOf(next)),
    mm2PerS: Math.round(viscosityAt(line, celsius) * (1 + 0.02 * normalOf(next)) * 10) / 10,
    waterSaturation: Math.round((0.3 - 0.004 * (celsius - 45) + 0.003 * normalOf(next)) * 1000) / 1000,
  };
}

const intervals = { '5 minutes': 5 * minute, hour: 60 * minute, day, week: 7 * day };
const readingsOf = (every: number) => {
  const year = (365 * day) / every;
  return some(year, every < 60 * minute ? year / 36 : year / 3);
};
const levels = { clean: 3, usual: 400, dirty: 30000 };

describe('a healthy year has at most one false finding', () => {
  for (const [often, every] of Object.entries(intervals))
    for (const [how, show] of Object.entries(shows))
      test(`a reading every ${often}, ${how}`, { timeout: 180000 }, () => {
        const readings = readingsOf(every);
        for (const [name, perMl] of Object.entries(levels)) {
          const next = shares(seed + every + perMl);
          let repeats: Repeats = noRepeats;
          const episodes: string[] = [];
          let before: readonly string[] = [];
          for (let i = 0; i < readings; i += 1) {
            const reading = healthy(i, every, perMl, show, next);
            repeats = advanceRepeats(repeats, reading);
            const found = assess(limits, reading, repeats).findings.map(({ code, affects }) => `${code} ${affects[0]}`);
            for (const one of found) if (!before.includes(one)) episodes.push(`${i} ${one}`);
            before = found;
          }
          expect(episodes.length, `${name}: ${episodes.slice(0, 4).join(', ')}`).toBeLessThanOrEqual(1);
        }
      });
});

type Fault = readonly [FindingCode, string, (reading: Reading, n: number, frozen: Reading) => Partial<Reading>];
type Counts = NonNullable<Reading['counts']>;
const withCounts = (counts: Counts, change: (n: number, i: number) => number): { counts: Counts } => {
  const { counted = [], volumeMl = 1, ...rest } = counts;
  const changed = counted.map(change);
  return { counts: { ...rest, counted: changed, volumeMl, perMl: changed.map((n) => n / volumeMl) } };
};
const faults: readonly Fault[] = [
  ['values_stuck', 'all counts frozen', (_r, _n, frozen) => ({ counts: frozen.counts as Counts })],
  [
    'channels_stuck',
    'two of six channels frozen',
    ({ counts }, _n, frozen) =>
      withCounts(counts as Counts, (n, i) => (i === 2 || i === 3 ? (frozen.counts?.counted?.[i] as number) : n)),
  ],
  ['values_stuck', 'thermometer frozen', (_r, _n, frozen) => ({ celsius: frozen.celsius as number })],
  ['values_stuck', 'water sensor frozen', (_r, _n, { waterSaturation = 0 }) => ({ waterSaturation })],
  [
    'channels_equal',
    'a channel shows its neighbour',
    ({ counts }) => withCounts(counts as Counts, (n, i) => (i === 2 ? (counts?.counted?.[1] as number) : n)),
  ],
  ['no_particles', 'a counter that has died to zero', ({ counts }) => withCounts(counts as Counts, () => 0)],
  ['no_flow', 'no flow', () => ({ mlPerMin: 0 })],
  ['flow_low', 'little flow', () => ({ mlPerMin: 12 })],
  ['flow_pulsating', 'pulsating flow', (_r, n) => ({ mlPerMin: n % 2 === 0 ? 35 : 65 })],
  ['volume_disagrees', 'flow meter reads half', ({ mlPerMin = 0 }) => ({ mlPerMin: mlPerMin / 2 })],
  ['pressure_high', 'over-pressure', () => ({ kPa: 450 })],
  ['viscosity_off_line', 'another fluid', ({ mm2PerS = 0 }) => ({ mm2PerS: mm2PerS * 1.5 })],
  ['viscosity_off_line', 'thermometer 12 °C off', ({ celsius = 0 }) => ({ celsius: celsius + 12 })],
  ['start_up', 'started two minutes ago', (_r, n) => ({ mlPerMin: n === 0 ? 0 : 50 })],
  ['calibration_overdue', 'calibrated long ago', () => ({ calibratedAt: 1.8e12 - 500 * day })],
  ['clock_ahead', 'clock an hour ahead', ({ time = 0 }) => ({ receivedAt: time - 60 * minute })],
  [
    'flat_size_distribution',
    'air as large bubbles',
    ({ counts }) => withCounts(counts as Counts, (n) => Math.round(n + 200 * 25)),
  ],
  [
    'flat_size_distribution',
    'weak air in dirty oil',
    ({ counts }) => withCounts(counts as Counts, (n) => Math.round(40 * n + 80 * 25)),
  ],
];

describe('a fault is found within ten readings', () => {
  const units = some(20, 4);
  test.each(faults)('%s: %s', (code, name, fault) => {
    const every = code === 'start_up' || code === 'flow_pulsating' ? minute : 60 * minute;
    let found = 0;
    for (let run = 0; run < units; run += 1) {
      const next = shares(seed + run * 977 + name.length);
      let repeats: Repeats = noRepeats;
      let frozen: Reading = {};
      for (let i = 0; i < 200; i += 1) {
        frozen = healthy(i, every, 400, shows['raw counts'] as Show, next);
        repeats = advanceRepeats(repeats, frozen);
      }
      for (let n = 0; n < 10; n += 1) {
        const good = healthy(200 + n, every, 400, shows['raw counts'] as Show, next);
        const reading = { ...good, ...fault(good, n, frozen) };
        repeats = advanceRepeats(repeats, reading);
        if (!assess(limits, reading, repeats).findings.some((one) => one.code === code)) continue;
        found += 1;
        break;
      }
    }
    expect(found).toBe(units);
  });
});
