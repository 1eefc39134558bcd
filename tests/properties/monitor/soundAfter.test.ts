/** Sound plants and operators after clocks that were wrong, and of few particles in volumes that vary. */
import { describe, expect, test } from 'vitest';
import { iso4406 } from '../../../src/codes/index.ts';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import {
  advanceMonitor,
  type MonitorConfig,
  type MonitorInput,
  prepareMonitor,
  resumeMonitor,
  startMonitor,
} from '../../../src/monitor/index.ts';
import { poissonOf, shares } from '../../chance.ts';
import { some } from '../../volume.ts';

const minute = 60000;
const hour = 60 * minute;
const day = 24 * hour;
const noon = Math.floor(1795593600000 / day) * day + 12 * hour;

/** All that is told, the state saved and resumed after each input. */
function run(config: MonitorConfig, inputs: readonly MonitorInput[]) {
  const prepared = prepareMonitor(config);
  let state = startMonitor(prepared);
  const told: string[] = [];
  let blocks: number | null = null;
  for (const input of inputs) {
    const step = advanceMonitor(prepared, state, input);
    state = resumeMonitor(prepared, JSON.parse(JSON.stringify(step.state))).state;
    told.push(...step.events.map((event) => event.event));
    blocks = step.verdict?.trends?.[0]?.trend?.blocks ?? blocks;
  }
  return { state, told, blocks };
}
const times = (count: number, from: number, every: number) =>
  Array.from({ length: count }, (_x, i) => from + i * every);
const tick = (time: number, more: object = {}): MonitorInput => ({ kind: 'tick', time, ...more }) as MonitorInput;

describe('a tick ahead that readings undo leaves a state that goes on', () => {
  test('with the mode it brought', () => {
    const figure = { quantity: 'mlPerMin' } as const;
    const stopped = { id: 'low flow', type: 'low', figure, setpoint: 30, suppressedInModes: ['stop'] } as const;
    const { told } = run({ codes: [], alarms: [stopped] }, [
      ...times(20, noon, 10 * minute).map((time) => ({ time, mlPerMin: 60 })),
      tick(noon + 190 * minute + 2 * hour, { mode: 'stop' }),
      ...times(3, noon + 200 * minute, 10 * minute).map((time) => ({ time, mlPerMin: 0 })),
    ]);
    expect(told).toEqual(expect.arrayContaining(['suppressed', 'clock_set']));
  });

  test('with the days that it closed, and after another leap', () => {
    const follow = [{ id: 'wear', figure: { quantity: 'celsius' }, blockMs: day, least: 5 }] as const;
    const late = noon + 11 * hour;
    const { state } = run({ codes: [], follow }, [
      ...times(66, noon, 10 * minute).map((time) => ({ time, celsius: 50 })),
      tick(late + 80 * minute),
      ...times(3, late + 10 * minute, 10 * minute).map((time) => ({ time, celsius: 50 })),
      ...[0, 10].map((more) => tick(late + 30 * minute + 3 * day + more * minute)),
      ...times(3, late + 35 * minute, 5 * minute).map((time) => ({ time, celsius: 50 })),
    ]);
    expect(state.time).toBe(late + 45 * minute);
  });

  test('and moves nothing of the blocks that were there', () => {
    const follow = [{ id: 'wear', figure: { quantity: 'celsius' }, blockMs: hour, least: 5 }] as const;
    const hours = (count: number, from: number) =>
      times(6 * count, from, 10 * minute).map((time, i) => ({ time, celsius: 50 + (i % 7) / 10 }));
    const even = run({ codes: [], follow }, hours(33, noon));
    const ahead = run({ codes: [], follow }, [
      ...hours(30, noon),
      tick(noon + 29 * hour + 50 * minute + 20 * hour),
      ...hours(3, noon + 30 * hour),
    ]);
    expect(ahead.told).toContain('clock_set');
    expect(ahead.blocks).toBeGreaterThanOrEqual((even.blocks as number) - 1);
  });
});

describe('an operator', () => {
  const alarms = [{ id: 'hot', type: 'high', figure: { quantity: 'celsius' }, setpoint: 65 }] as const;
  const command = (name: string, time: number, more: object = {}): MonitorInput =>
    ({ kind: 'command', command: name, alarm: 'hot', time, ...more }) as MonitorInput;

  test('may silence an alarm at once when a clock ten days ahead has been set right', () => {
    const ahead = times(20, noon + 10 * day, 10 * minute).map((time) => ({ time, celsius: 50 }));
    const right = times(6, noon + 200 * minute, 10 * minute).map((time) => ({ time, celsius: 50 }));
    const { told } = run({ codes: [], alarms }, [
      ...ahead,
      command('shelve', noon + 10 * day + 190 * minute + 1000, { forMs: hour }),
      command('unshelve', noon + 10 * day + 191 * minute),
      ...right,
      command('remove_from_service', noon + 251 * minute),
    ]);
    expect(told.slice(-1)).toEqual(['removed_from_service']);
  });

  test('has no longer a shelf for two ticks ten days ahead', () => {
    const readings = (from: number, count: number) =>
      times(count, noon + from * minute, 10 * minute).map((time) => ({ time, celsius: 50 }));
    const shelved = { id: 'hot', type: 'high', figure: { quantity: 'celsius' }, setpoint: 65 } as const;
    const { state, told } = run({ codes: [], alarms: [{ ...shelved, longestShelfMs: 100 * day }] }, [
      ...readings(0, 20),
      command('shelve', noon + 191 * minute, { forMs: 30 * day }),
      ...[0, 10].map((more) => tick(noon + 10 * day + (200 + more) * minute)),
      ...readings(200, 4),
    ]);
    expect(told.filter((event) => event === 'clock_set')).toHaveLength(2);
    expect(state.alarms[0]?.shelf?.until).toBe(noon + 191 * minute + 30 * day);
  });

  test.each([0, 2000, 120000])('whose command comes twice where the sensor lags by %d ms is not heard twice', (lag) => {
    const reading = (i: number, celsius: number) => ({
      time: noon + i * minute,
      celsius,
      receivedAt: noon + i * minute + lag,
    });
    const shelve = command('shelve', noon + 3.5 * minute + lag, { forMs: hour, oneShot: true });
    const { told } = run({ codes: [], alarms }, [
      ...[0, 1, 2].map((i) => reading(i, 50)),
      reading(3, 80),
      shelve,
      reading(4, 80),
      reading(5, 50),
      shelve,
      reading(6, 80),
    ]);
    expect(told).toEqual(['raised', 'shelved', 'unshelved', 'returned', 'refused', 'raised']);
  });
});

test('what nothing reads is told once, in turn with what is read, and where some of it is bad', () => {
  const counts = (sizing: 'iso11171' | 'iso4402', i: number) => ({
    ...cumulativeCounts({ 4: 20000 + 7 * i, 6: 5000 + i, 14: 600 + i }, { volumeMl: 10 }),
    sizing,
  });
  const config: MonitorConfig = { codes: [{ table: iso4406 }] };
  const turn = times(40, noon, minute).map((time, i) =>
    i % 2 === 0 ? { time, counts: counts('iso11171', i) } : { time, codes: { nas1638: '7' } },
  );
  expect(run(config, turn).told.filter((event) => /unused/.test(event))).toEqual(['code_unused']);
  const other = times(40, noon, minute).map((time, i) => ({
    time,
    counts: counts('iso4402', i),
    qualities: { counts: i % 2 === 0 ? ('good' as const) : ('bad' as const) },
  }));
  expect(run(config, other).told.filter((event) => /unused/.test(event))).toEqual(['counts_unused']);
  // both kinds, each once; and anew when they had been read in between
  const both = times(40, noon, minute).map((time, i) =>
    i % 2 === 0
      ? { time, counts: counts(i < 20 || i > 30 ? 'iso4402' : 'iso11171', i) }
      : { time, codes: { nas1638: '7' } },
  );
  expect(run(config, both).told.filter((event) => /unused/.test(event))).toEqual([
    'counts_unused',
    'code_unused',
    'counts_unused',
  ]);
});

test.each([
  ['rise', 1, 2, 60],
  ['fall', 1, 2, 60],
  ['fall', 1, 2, 100],
  ['rise', 2, 5, 20],
  ['fall', 2, 5, 20],
] as const)('no %s of %d classes where the volume varies 1 to %d about %d particles', (type, setpoint, ratio, mean) => {
  const figure = { continuousScaleNumberAt: 6 } as const;
  const delays = { onDelayMs: 30 * minute, deadband: 0.5, withinMs: day };
  const prepared = prepareMonitor({ codes: [], alarms: [{ id: 'change', type, figure, setpoint, ...delays }] });
  const share = shares(11);
  let state = startMonitor(prepared);
  let raised = 0;
  for (let i = 0; i < some(4320, 1008); i += 1) {
    // on cold mornings less is counted in the same time
    const volumeMl = i % 144 < 36 ? 10 / ratio : 10;
    const six = poissonOf((mean * volumeMl) / 10, share);
    const counts = cumulativeCounts({ 4: six + poissonOf(30 * volumeMl, share), 6: six }, { volumeMl });
    const step = advanceMonitor(prepared, state, { time: noon + i * 10 * minute, counts });
    state = step.state;
    raised += step.events.filter(({ event }) => event === 'raised').length;
  }
  expect(raised).toBe(0);
});
