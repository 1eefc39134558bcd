/** Few particles raise no alarm on a rise or a fall by chance alone, and a rise that more of them show is raised. */
import { describe, expect, test } from 'vitest';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import { advanceMonitor, type MonitorAlarm, prepareMonitor, startMonitor } from '../../../src/monitor/index.ts';
import { poissonOf, shares } from '../../chance.ts';
import { some } from '../../volume.ts';

const minute = 60000;
const day = 1440 * minute;
const continuous = { continuousScaleNumberAt: 6 } as const;
const whole = { scaleNumberAt: 6 } as const;

/** How often an alarm on a change within a day is raised over readings of so many particles in 1 mL. */
function raises(alarm: Partial<MonitorAlarm>, readings: readonly number[], everyMs = 10 * minute, volumeMl?: number) {
  const one = { id: 'change', type: 'rise', figure: continuous, setpoint: 2, withinMs: day, ...alarm } as MonitorAlarm;
  const prepared = prepareMonitor({ codes: [], alarms: [one] });
  let state = startMonitor(prepared);
  let count = 0;
  readings.forEach((particles, i) => {
    const given = { 4: 40 * particles + 400, 6: particles };
    const counts = volumeMl === 0 ? cumulativeCounts(given) : cumulativeCounts(given, { volumeMl: volumeMl ?? 1 });
    const step = advanceMonitor(prepared, state, { time: i * everyMs, counts });
    state = step.state;
    count += step.events.filter(({ event }) => event === 'raised').length;
  });
  return count;
}

function steady(mean: number, days: number, seed: number): number[] {
  const share = shares(seed);
  return Array.from({ length: days * 144 }, () => poissonOf(mean, share));
}

describe('steady oil, counts by chance alone', () => {
  test.each([
    [2, 8],
    [2, 20],
    [2, 40],
    [1, 20],
    [1, 60],
    [1, 120],
  ])('no rise or fall of %d among means of %d particles', (setpoint, mean) => {
    const readings = steady(mean, some(60, 4), 100 * setpoint + mean);
    expect(raises({ setpoint }, readings)).toBe(0);
    expect(raises({ type: 'fall', setpoint }, readings)).toBe(0);
    expect(raises({ figure: whole, setpoint: setpoint + 1 }, readings)).toBe(0);
  });

  test('it would be raised without end where nobody says how many were counted', () => {
    expect(raises({}, steady(8, some(60, 4), 7), 10 * minute, 0)).toBeGreaterThan(some(600, 40));
  });
});

describe('a true rise', () => {
  const before = Array(20).fill(10);

  test('raises from four times 27.8 particles on, however few there were', () => {
    expect(raises({}, [...before, 111])).toBe(0);
    expect(raises({}, [...before, 112])).toBe(1);
    expect(raises({ type: 'fall' }, [112, 0])).toBe(1);
    expect(raises({ type: 'fall' }, [110, 0])).toBe(0);
  });

  test('of more particles raises as ever', () => {
    expect(raises({}, [60, 239])).toBe(0);
    expect(raises({}, [60, 241])).toBe(1);
    expect(raises({ figure: { perMlAt: 6 }, setpoint: 20 }, [5, 25])).toBe(1);
    expect(raises({ figure: whole, setpoint: 1 }, [5, 6])).toBe(1);
  });

  test('of a larger volume needs fewer per mL', () => {
    expect(raises({}, [100, 120], minute, 10)).toBe(0);
    expect(raises({}, [30, 130], minute, 10)).toBe(1);
  });
});
