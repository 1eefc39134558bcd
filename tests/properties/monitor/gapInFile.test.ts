/**
 * A plain file with days missing: nothing tells a gap from a clock that was set. Events and summary then give one date
 * for one event, the event that tells of it names both, and no reading is lost to the alarms.
 */
import { describe, expect, test } from 'vitest';
import { germanTexts } from '../../../src/german/index.ts';
import {
  advanceMonitor,
  alarmSummary,
  type MonitorConfig,
  prepareMonitor,
  startMonitor,
} from '../../../src/monitor/index.ts';
import { messageOf } from '../../../src/report/index.ts';

const hour = 3600000;
const begin = Date.UTC(2026, 0, 1);
const hot = { id: 'hot', type: 'high', figure: { quantity: 'celsius' }, setpoint: 65 } as const;

/** Hourly, 40 °C, from the tenth hour on 70; four days missing after the second. */
function read(alarm: object, hostKnown: boolean, celsiusAfter: readonly number[] = [70, 71, 70, 71]) {
  const config = { codes: [], alarms: [{ ...hot, ...alarm }], staleAfterMs: 4 * hour };
  const prepared = prepareMonitor(config as MonitorConfig);
  let state = startMonitor(prepared);
  const events: { time: number; event: string }[] = [];
  const take = (hours: number, celsius: number) => {
    const time = begin + hours * hour;
    const step = advanceMonitor(prepared, state, { time, celsius, ...(hostKnown ? { receivedAt: time } : {}) });
    state = step.state;
    events.push(...step.events);
  };
  for (let i = 0; i < 48; i += 1) take(i, i < 10 ? 40 : 70 + (i % 3));
  celsiusAfter.forEach((celsius, i) => {
    take(144 + i, celsius);
  });
  const at = (name: string) => events.filter(({ event }) => event === name).map(({ time }) => (time - begin) / hour);
  return { at, events, summary: alarmSummary(prepared, state).alarms[0] };
}

describe('a standing alarm and four days without a reading', () => {
  test.each([false, true])('the host clock known: %s; it stands since it was told as raised', (hostKnown) => {
    const { at, summary } = read({}, hostKnown);
    expect(at('raised')).toEqual([10]);
    expect(summary).toMatchObject({ state: 'unacknowledged_alarm', since: begin + 10 * hour });
    expect(at('clock_set')).toEqual(hostKnown ? [] : [144]);
    expect(at('readings_stale')).toEqual(hostKnown ? [51] : []);
  });

  test('the event names both: the clock was set, or none came', () => {
    const [told] = read({}, false).events.filter(({ event }) => event === 'clock_set');
    expect(told).toMatchObject({ judged: [begin + 144 * hour] });
    expect(messageOf(told as never).paragraph).toMatch(/the clock was set forward, or none came in between\./);
    expect(messageOf(told as never, germanTexts).paragraph).toMatch(/vorgestellt, oder .* keine/);
  });

  test('the reading set aside is judged by the alarms all the same', () => {
    // one cold reading after the gap, the first
    const { at } = read({}, false, [40, 70]);
    expect(at('returned')).toEqual([144]);
    expect(at('raised')).toEqual([10, 145]);
  });

  test('a re-alarm falls due as long after the gap as it would have without', () => {
    const { at, summary } = read({ reAlarmAfterMs: 40 * hour }, false);
    // 37 hours have passed when the gap begins
    expect(at('re_alarmed')).toEqual([147]);
    expect(summary?.since).toBe(begin + 10 * hour);
  });
});
