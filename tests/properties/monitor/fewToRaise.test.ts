/** Fewer than 20 particles raise an alarm only where the lower limit of their number lies beyond the setpoint. */
import { describe, expect, test } from 'vitest';
import { iso4406 } from '../../../src/codes/index.ts';
import { countInterval, cumulativeCounts } from '../../../src/counts/index.ts';
import { advanceMonitor, type MonitorAlarm, prepareMonitor, startMonitor } from '../../../src/monitor/index.ts';
import { answersOf } from './fewByChance.ts';

const minute = 60000;

/** The minutes of the events of readings of so many particles at 14 µm in 1 mL, and the last `judged`. */
function told(alarm: object, particles: readonly number[]) {
  const one = { id: 'dirty', type: 'high', ...alarm } as MonitorAlarm;
  const prepared = prepareMonitor({ codes: [{ table: iso4406 }], alarms: [one] });
  let state = startMonitor(prepared);
  const events: string[] = [];
  let judged: boolean | undefined;
  particles.forEach((n, i) => {
    const counts = cumulativeCounts({ 4: 2000 + 7 * i + n, 6: 400 + 3 * i + n, 14: n }, { volumeMl: 1 });
    const step = advanceMonitor(prepared, state, { time: i * minute, counts });
    state = step.state;
    judged = step.verdict?.alarms[0]?.judged;
    events.push(...step.events.filter((event) => 'alarm' in event).map(({ event }) => `${i} ${event}`));
  });
  return { events, judged };
}

const onCode = { figure: { code: 'iso4406' }, setpoint: '-/-/9' } as const;
const atFourteen = { figure: { scaleNumberAt: 14 }, setpoint: 9 } as const;

test.each([1.25, 2, 5, 8, 10, 12, 16])('at a limit of %d particles', (limit) => {
  for (let n = 0; n < 40; n += 1) {
    const proven = n < 20 ? countInterval(n).low > limit : n > limit;
    expect([n, answersOf(n, limit).raises]).toEqual([n, proven]);
  }
});

describe.each([onCode, atFourteen])('a limit of 5 particles, %j', (alarm) => {
  test('what is beyond as counted, and not proven, is not judged', () => {
    expect(told(alarm, [6])).toEqual({ events: [], judged: false });
    expect(told(alarm, [10])).toEqual({ events: [], judged: false });
    expect(told(alarm, [11])).toEqual({ events: ['0 raised'], judged: true });
  });

  test('a delay goes on over it, and ends with what is proven', () => {
    const delayed = { ...alarm, onDelayMs: 3 * minute };
    expect(told(delayed, [6, 7, 9, 8, 7, 12]).events).toEqual(['5 raised']);
    expect(told(delayed, [6, 7, 2, 8, 7, 12, 12, 12]).events).toEqual(['6 raised']);
    expect(told(delayed, [12, 13, 11, 12]).events).toEqual(['3 raised']);
  });

  test('it does not lengthen the standing of an alarm, and ends an off-delay as before', () => {
    const delayed = { ...alarm, offDelayMs: 3 * minute };
    expect(told(delayed, [12, 1, 1, 7, 1, 1, 1]).events).toEqual(['0 raised']);
    expect(told(delayed, [12, 1, 2, 1, 2]).events).toEqual(['0 raised', '4 returned']);
  });
});

test('an alarm of type low has nothing of it', () => {
  expect(told({ type: 'low', figure: { scaleNumberAt: 14 }, setpoint: 9 }, [7]).judged).toBe(true);
});
