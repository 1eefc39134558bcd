/** States that version 0.1.0 left go on: what stood stands, and what cannot go on is told. */
import { describe, expect, test } from 'vitest';
import { type AlarmConfig, advanceAlarm, alarmStateName, prepareAlarm, resumeAlarm } from '../../../src/alarm/index.ts';
import { standardTables } from '../../../src/codes/index.ts';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import { openTrend } from '../../../src/monitor/followed/keptTrend.ts';
import { openChange } from '../../../src/monitor/followed/means.ts';
import {
  advanceMonitor,
  type MonitorConfig,
  prepareMonitor,
  resumeMonitor,
  startMonitor,
} from '../../../src/monitor/index.ts';
import left from './0.1.0.json' with { type: 'json' };

const hour = 3600000;
type Followed = { trend: { from: number } };
type Left = { config: AlarmConfig; state: { time: number | null; read: number | null; heard: number | null } };

describe('an alarm of 0.1.0', () => {
  const names: Record<string, string> = {
    fresh: 'normal',
    active: 'unacknowledged_alarm',
    acknowledged: 'acknowledged_alarm',
    latched: 'latched_unacknowledged',
    shelved: 'shelved',
    shelvedThenRaised: 'shelved',
    outOfService: 'out_of_service',
    pending: 'normal',
    stale: 'normal',
    chattering: 'unacknowledged_alarm',
    rise: 'unacknowledged_alarm',
  };

  test('all of those on record are tried', () => {
    expect(Object.keys(left.alarms)).toEqual(Object.keys(names));
  });

  test.each(Object.keys(names))('%s: goes on in the same state', (name) => {
    const { config, state } = left.alarms[name as keyof typeof left.alarms] as unknown as Left;
    const resumed = resumeAlarm(prepareAlarm(config), state);
    expect(alarmStateName(resumed.state)).toBe(names[name]);
    expect([resumed.kept, resumed.dropped, resumed.added, resumed.events]).toEqual([[config.id], [], [], []]);
    // and once it is of this version, nothing changes
    expect(resumeAlarm(prepareAlarm(config), JSON.parse(JSON.stringify(resumed.state))).state).toEqual(resumed.state);
    expect(resumed.state.time ?? null).toBe(state.time);
    expect(resumed.state.read ?? null).toBe(state.read);
    expect(resumed.state.heard ?? null).toBe(state.heard);
  });

  const goneOn = (name: keyof typeof left.alarms, ms: number, value: number) => {
    const { config, state } = left.alarms[name] as unknown as Left;
    const prepared = prepareAlarm(config);
    const time = (state.time ?? 0) + ms;
    return advanceAlarm(prepared, resumeAlarm(prepared, state).state, { time, value }).events.map(
      ({ event, standing }) => `${event}${standing === true ? ' standing' : ''}`,
    );
  };

  test('a shelf ends when it would have, and tells what stands', () => {
    expect(goneOn('shelvedThenRaised', hour, 70)).toEqual(['unshelved', 'raised standing']);
    // this one had been told to be raised before it was shelved
    expect(goneOn('shelved', hour, 72)).toEqual(['unshelved', 'raised standing']);
    expect(goneOn('shelved', 60000, 50)).toEqual(['unshelved', 'returned standing']);
  });

  test('a delay runs on, a stale signal is restored, chattering ends, a rise is measured from the same lows', () => {
    expect(goneOn('pending', 3 * 60000, 70)).toEqual([]);
    expect(goneOn('pending', 4 * 60000, 70)).toEqual(['raised']);
    expect(goneOn('stale', 1000, 60)).toEqual(['signal_restored']);
    expect(goneOn('chattering', hour + 1, 70)).toEqual(['chattering_ended']);
    expect(goneOn('rise', hour, 18.5)).toEqual([]);
    expect(goneOn('rise', 12 * hour, 18.5)).toEqual([]);
    expect(goneOn('rise', 22 * hour, 18.5)).toEqual(['returned']);
  });
});

describe('a monitor of 0.1.0', () => {
  const { config, state, events } = left.monitors.full;
  // what a CUSUM was told is no part of a configuration now
  const follow = config.follow.map(({ learn: _learn, ...rest }) => rest);
  const now = { ...config, follow } as unknown as MonitorConfig;
  const prepared = prepareMonitor(now, { tables: standardTables });
  const resumed = () => resumeMonitor(prepared, state);

  test('alarms, arrivals, open blocks, means and trends go on; the levels of the CUSUM do not, and are named', () => {
    expect(resumed().kept).toEqual(['code', 'hot', 'rise', 'wet', 'acid', '6 µm', 'water']);
    expect(resumed().dropped).toEqual(['6 µm.change', 'water.change']);
    expect([resumed().added, resumed().events]).toEqual([[], []]);
    expect(resumed().state.arrivals).toEqual({ ...state.counted, setAside: 0 });
    expect([resumed().state.time, resumed().state.heard]).toEqual([state.time, state.heard]);
    expect(resumed().state.alarms.map(({ id, active, latched, shelf }) => [id, active, latched, shelf?.until])).toEqual(
      state.alarms.map(({ id, state: one }) => [
        id,
        one.active || undefined,
        one.latched || undefined,
        one.shelf?.until,
      ]),
    );
    const [hourly, halfDays] = resumed().state.followed;
    expect(hourly?.open).toEqual(state.followed[0]?.open);
    // seven digits of the largest mean
    expect(openChange(hourly?.change as string)).toMatchObject({
      last: state.followed[0]?.last,
      ring: state.followed[0]?.means.map((mean) => (mean === null ? null : expect.closeTo(mean, 4))),
    });
    // the half days that 0.1.0 had where nothing was said are now days
    const { last, means, open } = state.followed[1] as (typeof state.followed)[number];
    expect(openChange(halfDays?.change as string)).toMatchObject({
      last: Math.floor(last / 2),
      ring: [expect.closeTo(((means[0] as number) + (means[1] as number)) / 2, 6)],
    });
    expect(halfDays?.open).toEqual({ ...open, block: Math.floor((open?.block as number) / 2) });
    expect(resumeMonitor(prepared, JSON.parse(JSON.stringify(resumed().state))).state).toEqual(resumed().state);
  });

  test('a reading that came before the update is known again, and the alarms know what they have told', () => {
    const time = state.time as number;
    const counts = cumulativeCounts({ 4: 18900, 6: 4020, 14: 330 }, { volumeMl: 10 });
    const again = advanceMonitor(prepared, resumed().state, { time: state.recent[3]?.[0] as number, counts });
    expect(again.events.map(({ event }) => event)).toEqual(['repeated']);
    const next = advanceMonitor(prepared, resumed().state, {
      time: time + 60000,
      counts: counts,
      waterSaturation: 0.3,
    });
    const told = next.events.filter((event) => 'alarm' in event);
    // the code is on target again, but not by the deadband
    expect(told).toEqual([]);
    expect(events.some(({ event }) => event === 'raised')).toBe(true);
  });

  test('one that has heard nothing is one that begins', () => {
    const { state: fresh } = left.monitors.fresh;
    expect(resumeMonitor(prepared, fresh).state).toEqual(startMonitor(prepared));
    expect(resumeMonitor(prepared, fresh).events).toEqual([]);
  });

  const [hourly, halfDays] = state.followed as unknown as [Followed, Followed];
  const goneOn = (...followed: object[]) => resumeMonitor(prepared, { ...state, followed });
  const openedOf = (one: { change?: string } | undefined) => openChange(one?.change as string);

  test('stale readings stay so, and are restored', () => {
    const stale = resumeMonitor(prepared, { ...state, stale: true }).state;
    const next = advanceMonitor(prepared, stale, { time: (state.time as number) + 60000, celsius: 40 });
    expect(next.events.map(({ event }) => event)).toContain('readings_restored');
    const restored = advanceMonitor(prepared, resumed().state, { time: (state.time as number) + 60000, celsius: 40 });
    expect(restored.events.map(({ event }) => event)).not.toContain('readings_restored');
  });

  test('half days make days: a first half goes into the open day, a pair into one that is over', () => {
    const day = { block: 41157, mean: 0.4, count: 8 };
    const [, half] = goneOn(hourly, { ...halfDays, open: day, last: 41156, means: [0.2, null, 0.3] }).state.followed;
    expect(half?.open).toEqual({ block: 20578, mean: 0.35, count: 16 });
    expect(openedOf(half)).toMatchObject({ last: 20577, ring: [expect.closeTo(0.2, 9)] });
    const [, pair] = goneOn(hourly, { ...halfDays, open: null, last: 41155, means: [0.2, 0.4] }).state.followed;
    expect(pair).not.toHaveProperty('open');
    expect(openedOf(pair)).toMatchObject({ last: 20577, ring: [expect.closeTo(0.3, 9)] });
    const [, none] = goneOn(hourly, { ...halfDays, open: null, means: [] }).state.followed;
    expect(none).toEqual({ id: 'water', of: resumed().state.followed[1]?.of });
  });

  test.each([
    ['rising', 'rising'],
    ['falling', 'falling'],
    ['not distinguishable', 'not_distinguishable'],
  ])('a trend %s is %s', (direction, now) => {
    const [trended] = goneOn({ ...hourly, trend: { ...hourly.trend, direction } }, halfDays).state.followed;
    expect(openTrend(trended?.trend as string)).toEqual({ ...hourly.trend, direction: now });
    const [without] = goneOn({ ...hourly, trend: null }, halfDays).state.followed;
    expect(without).not.toHaveProperty('trend');
  });

  test('a trend without limits has none now', () => {
    const unsure = { ...hourly.trend, p: null, low: null, high: null };
    const [trended] = goneOn({ ...hourly, trend: unsure }, halfDays).state.followed;
    expect(openTrend(trended?.trend as string)).toMatchObject({ p: null, low: null, high: null });
  });

  test('what meant something else begins anew', () => {
    const { dropped, added, kept } = goneOn({ ...hourly, print: 5 }, halfDays);
    expect([dropped, added]).toEqual([['6 µm.change', 'water.change', '6 µm'], ['6 µm']]);
    expect(kept).toEqual(['code', 'hot', 'rise', 'wet', 'acid', 'water']);
    const alarms = state.alarms.map((one) => (one.id === 'rise' ? { ...one, print: 5 } : one));
    const other = resumeMonitor(prepared, { ...state, alarms });
    expect([other.added, other.state.alarms[2]]).toEqual([['rise'], startMonitor(prepared).alarms[2]]);
  });

  test('half days go into days alone', () => {
    const other = follow.map((one) => (one.id === 'water' ? { ...one, blockMs: 2 * hour } : one));
    const { kept, dropped, added } = resumeMonitor(
      prepareMonitor({ ...now, follow: other } as MonitorConfig, { tables: standardTables }),
      state,
    );
    expect([kept.includes('water'), dropped.includes('water'), added]).toEqual([false, true, ['water']]);
  });

  test('an alarm that stood and is configured no longer is told', () => {
    const { alarms, ...rest } = now;
    const fewer = prepareMonitor({ ...rest, alarms: (alarms ?? []).slice(1) }, { tables: standardTables });
    const { events: told, dropped } = resumeMonitor(fewer, state);
    expect(told).toEqual([{ time: state.time, alarm: 'code', event: 'dropped', state: 'acknowledged_alarm' }]);
    expect(dropped).toContain('code');
  });
});
