/**
 * The largest state there can be keeps within the bytes that are counted beforehand, and is one that `resumeMonitor`
 * takes.
 */
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { packExtreme } from '../../../src/alarm/signal.ts';
import { iso4406, nas1638, standardTables } from '../../../src/codes/index.ts';
import { keptFigures } from '../../../src/monitor/clock/aside.ts';
import { keptTrend } from '../../../src/monitor/followed/keptTrend.ts';
import { keptChange } from '../../../src/monitor/followed/means.ts';
import { type MonitorConfig, mostStateBytes, prepareMonitor, resumeMonitor } from '../../../src/monitor/index.ts';
import { idBytes } from '../../../src/state/names.ts';
import { packTime, packWhole } from '../../../src/state/packed.ts';

const time = -8640000000000000;
/** What an alarm keeps are times of inputs. */
const input = -62103974400000;
const figure = -0.0000012345678901234567;
const short = -0.000001234567;
const whole = 9007199254740991;
const bytesOf = (state: unknown) => new TextEncoder().encode(JSON.stringify(state)).length;

const high = { type: 'high', setpoint: 1 } as const;
const rise = { type: 'rise', setpoint: 1, withinMs: 86400000 } as const;
const config: MonitorConfig = {
  codes: [
    { table: iso4406 },
    { table: nas1638 },
    ...standardTables
      .filter(({ id }) => id !== 'iso4406' && id !== 'nas1638')
      .slice(0, 2)
      .map((table) => ({ table })),
  ],
  alarms: [
    ...['a', 'b', 'c', 'd', 'e'].map((id) => ({ ...high, id, figure: { quantity: 'celsius' as const } })),
    { ...high, id: 'f', figure: { other: 'acid number' } },
    { ...rise, id: 'g', figure: { continuousScaleNumberAt: 6 } },
    { ...rise, id: 'h', figure: { quantity: 'waterSaturation' } },
  ],
  follow: [4, 6, 14, 21].map((size) => ({ id: `at ${size}`, figure: { continuousScaleNumberAt: size } })),
};
const prepared = prepareMonitor(config);
const counting = prepareMonitor({ ...config, restoredAfter: 1000, maxStateBytes: 8471 });

const memory = {
  active: true,
  unacknowledged: true,
  since: input,
  shelf: { until: input, oneShot: true },
  outOfService: true,
  told: `ascb${packTime(input)}`,
  silentRaises: whole,
  value: figure,
  heard: input,
  usualMs: whole,
  raises: packTime(time).repeat(3),
  chattering: true,
};
const extremes = Array.from({ length: 25 }, (_, i) => packExtreme(24 - i, figure)).join('');
const steady = { value: figure, run: 99999, longest: 99999, repeats: 99999, readings: 99999, ago: 99999 };
const largest = {
  version: 3,
  time,
  recent: Array.from({ length: 16 }, (_, i) => [time + i, 4294967295]),
  repeats: {
    known: 99999,
    time,
    before: time,
    sizes: 68574960,
    perMl: packWhole(68574960, 4).repeat(32),
    runs: Array(32).fill(999),
    age: 999999999,
    steady: { celsius: steady, waterSaturation: steady },
    flow: { last: 0.0000012345678901234567, swing: 1.0001, swings: 9, seen: [999999999, 99999999], age: 999999999 },
    equal: '~'.repeat(11),
    level: [0.00000123, 0.00000123, 0.00000123],
    sinceDay: -200000000,
    tail: [31, 0.00000123, 0.00000123],
  },
  arrivals: { inOrder: whole, bad: whole, late: whole, tooLate: whole, repeated: whole, setAside: whole },
  heard: time,
  receivedAt: time,
  lagMs: time,
  usualMs: whole,
  stale: true,
  unused: true,
  bad: ['counts', 'mlPerMin', 'kPa', 'celsius', 'mm2PerS', 'waterSaturation', 'other acid number'],
  clock: {
    ahead: {
      ...{ time, count: 3, readings: [time, time, time] },
      last: {
        print: 4294967295,
        alarms: keptFigures(Array(8).fill(figure)),
        followed: keptFigures(Array(4).fill(figure)),
      },
    },
    behind: { time, count: 3, receivedAt: time },
  },
  // a delay runs, or the signal is stale
  alarms: prepared.alarms.map(({ plan: { id, of, type } }, i) => ({
    id,
    of,
    ...memory,
    ...(i % 2 === 0 ? { pending: input } : { stale: true }),
    ...(type === 'rise' ? { part: -200000000000000000, extremes } : {}),
  })),
  followed: prepared.follow.map(({ id, of }) => ({
    id,
    of,
    open: { block: -144000000000, mean: figure, count: whole },
    change: keptChange({
      ...{ last: -144000000000, since: -144000000000, settled: false, level: short },
      ...{ steps: { count: 150, square: -short }, ring: Array(63).fill(short) },
    }),
    trend: keptTrend({
      ...{ from: time, to: time, blocks: 40, perDay: short, low: short, high: short, p: -short },
      direction: 'not_distinguishable',
    }),
  })),
};

test('the largest state of four tables, eight alarms and four followed figures', () => {
  const state = { ...largest, followed: largest.followed.map((one) => ({ ...one, open: { ...one.open } })) };
  const late = { ...state, time: 253370678399999 };
  expect(resumeMonitor(prepared, late).kept).toHaveLength(12);
  expect(bytesOf(largest)).toBeLessThanOrEqual(prepared.stateBytes);
  expect(bytesOf(largest)).toBeGreaterThan(prepared.stateBytes - 160);
  expect(prepared.stateBytes).toBeLessThanOrEqual(mostStateBytes);
  expect(prepared.stateBytes).toBe(8191);
});

test('the largest of the same that counts readings until a figure is restored', () => {
  const restoring = largest.bad.map((name) => ({ figure: name, readings: 999 }));
  const state = { ...largest, restoring };
  expect(resumeMonitor(counting, { ...state, time: 253370678399999 }).state.restoring).toEqual(restoring);
  expect(bytesOf(state) - bytesOf(largest)).toBe(counting.stateBytes - prepared.stateBytes);
  expect(counting.stateBytes).toBe(8471);
});

test('the table in docs/upgrading.md gives the same', () => {
  const rows = readFileSync('docs/upgrading.md', 'utf8').split('\n');
  const numbersIn = (piece: string) => {
    const row = rows.find((line) => line.startsWith(`| ${piece}`)) ?? '';
    return (row.split('|')[2] ?? '').match(/\d+/g)?.map(Number) ?? [];
  };
  const [monitor = 0] = numbersIn('a monitor by itself');
  const [repeats = 0] = numbersIn('how often each count');
  const [alarm = 0, raise = 0] = numbersIn('an alarm, without');
  const [rate = 0] = numbersIn('of type `rise`');
  const [followed = 0] = numbersIn('a followed figure, without');
  const names = [...prepared.alarms.map(({ plan }) => plan), ...prepared.follow];
  const named = names.reduce((sum, { id, of }) => sum + idBytes(id) + idBytes(of), 0);
  const other = 9 + 'acid number'.length;
  const sum = monitor + repeats + 8 * (alarm + 3 * raise) + 2 * rate + 4 * followed + named + other;
  expect(sum).toBe(prepared.stateBytes);
  const [six = 0] = numbersIn('with `restoredAfter`');
  const [own = 0] = numbersIn('in it for each alarm or');
  expect(sum + six + own + 'acid number'.length).toBe(counting.stateBytes);
});
