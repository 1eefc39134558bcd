/**
 * Which events are of a period, and what stood at its beginning: by the order in which they came, also where a clock
 * was set between; and by when a reading was taken that a tick had gone ahead of.
 */
import { describe, expect, test } from 'vitest';
import { iso4406 } from '../../../src/codes/index.ts';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import {
  advanceMonitor,
  alarmStatistics,
  alarmSummary,
  type MonitorEvent,
  type MonitorInput,
  messageOf,
  type PeriodEvent,
  periodFigures,
  prepareMonitor,
  startMonitor,
} from '../../../src/index.ts';
import { some } from '../../volume.ts';

const hour = 3600000;
const day = 24 * hour;
const [june, july, august, september] = [5, 6, 7, 8].map((month) => Date.UTC(2026, month, 1)) as [
  number,
  number,
  number,
  number,
];
const prepared = prepareMonitor({
  codes: [{ table: iso4406, target: '17/15/12' }],
  staleAfterMs: 4 * hour,
  alarms: [
    { id: 'dirt', type: 'high', figure: { code: 'iso4406' }, setpoint: '18/16/13', deadband: 1, onDelayMs: 2.5 * hour },
  ],
});

function run(inputs: readonly MonitorInput[]) {
  let state = startMonitor(prepared);
  const events: MonitorEvent[] = [];
  for (const input of inputs) {
    const step = advanceMonitor(prepared, state, input);
    state = step.state;
    events.push(...step.events);
  }
  return { events, standing: alarmSummary(prepared, state).alarms.map((alarm) => alarm.state) };
}

const reading = (time: number, receivedAt: number, dirty: boolean): MonitorInput => {
  const [by, n] = [dirty ? 8 : 1, (Math.round(time / hour) * 37) % 97];
  const counts = cumulativeCounts({ 4: 800 * by + n, 6: 205 * by + n / 7, 14: 15 * by + (n % 11) / 10 });
  return { time, receivedAt, counts };
};

/** Members of an event as docs/texts.md hands them in. */
const asWritten = (event: MonitorEvent): PeriodEvent => ({
  time: event.time,
  taken: 'taken' in event ? event.taken : undefined,
  event: event.event,
  alarm: 'alarm' in event ? event.alarm : undefined,
  latched: 'latched' in event ? event.latched : undefined,
  from: event.event === 'clock_set' ? event.from : undefined,
  text: messageOf(event).line,
});

function pageOf(events: readonly PeriodEvent[], from: number, to: number) {
  const { standing = [], events: during } = periodFigures([], { from, to, events });
  const words = (list: readonly { readonly text: string }[] | null) =>
    (list ?? []).map(({ text }) => text.split('.')[0]);
  return { standing: words(standing), during: words(during), times: (during ?? []).map(({ time }) => time) };
}

const raised = 'dirt: alarm raised';

describe('a gateway whose clock leaps on 22 July, with receivedAt; dirt on 10 June and from 25 July on', () => {
  /** Hourly from June to the end of August; the clock right again from `fixed` on. */
  const story = (wrong: number, fixed: number, cleanFrom = Infinity) => {
    const inputs: MonitorInput[] = [];
    const strike = july + 21 * day;
    for (let at = june; at < september; at += hour) {
      const dirty = (at >= june + 9 * day && at < june + 10 * day) || (at >= july + 24 * day && at < cleanFrom);
      const time = at >= strike && at < fixed ? wrong + at - strike : at;
      inputs.push(reading(time, at, dirty), { kind: 'tick', time: at + hour / 2 });
    }
    return run(inputs);
  };
  const all = [
    [Date.UTC(2000, 0, 1), Infinity],
    [Date.UTC(2000, 0, 1), july + 30 * day],
    [july - 3 * day, july + 30 * day],
    [Date.UTC(2036, 0, 1), july + 30 * day],
  ] as const;

  test.each(all.slice(0, some(4, 2)))('to %d, right again from %d', (wrong, fixed) => {
    const { events, standing } = story(wrong, fixed);
    expect(standing).toEqual(['unacknowledged_alarm']);
    const written = events.map(asWritten);
    for (const list of [written, written.slice().reverse()]) {
      const [ofJune, ofJuly, ofAugust] = [
        [june, july],
        [july, august],
        [august, september],
      ].map(([from, to]) => pageOf(list, from as number, to as number)) as [
        ReturnType<typeof pageOf>,
        ReturnType<typeof pageOf>,
        ReturnType<typeof pageOf>,
      ];
      expect(ofJune.standing).toEqual([]);
      expect(ofJune.during.filter((one) => one === raised)).toHaveLength(1);
      expect(ofJuly.standing).toEqual([]);
      expect(ofJuly.during.filter((one) => one === raised)).toHaveLength(1);
      expect(ofAugust.standing).toContain(raised);
      expect(ofAugust.standing).not.toContain('No usable readings');
    }
  });

  test('what has returned by the wrong clock does not stand in August', () => {
    const { events, standing } = story(Date.UTC(2000, 0, 1), Infinity, july + 27 * day);
    expect(standing).toEqual(['returned_to_normal_unacknowledged']);
    expect(pageOf(events.map(asWritten), august, september)).toMatchObject({ standing: [], during: [] });
  });
});

describe('a gateway that stores for 45 days and sends all at once, ticks going on; dirt for twelve hours', () => {
  const [down, up] = [july + 10 * day, july + 55 * day];
  const dirt = [july + 20 * day, july + 20.5 * day] as const;
  const inputs: { at: number; input: MonitorInput }[] = [];
  for (let at = june; at < up + 3 * day; at += hour) {
    const came = at >= down && at < up ? up : at;
    inputs.push({ at: came, input: reading(at, came, at >= dirt[0] && at < dirt[1]) });
    inputs.push({ at: at + hour / 2, input: { kind: 'tick', time: at + hour / 2 } });
  }
  const { events } = run(inputs.sort((a, b) => a.at - b.at).map(({ input }) => input));

  test('the page and the statistics of its month have it', () => {
    const written = events.map(asWritten);
    const ofJuly = pageOf(written, july, august);
    const place = ofJuly.during.indexOf(raised);
    expect(ofJuly.times[place]).toBe(dirt[0] + 3 * hour);
    expect(ofJuly.during).toContain('dirt: back to normal');
    expect(ofJuly.times).toEqual([...ofJuly.times].sort((a, b) => a - b));
    const ofAugust = pageOf(written, august, september);
    expect(ofAugust.during).not.toContain(raised);
    expect(ofAugust.standing).not.toContain(raised);
    expect(alarmStatistics(events, { from: july, to: august })).toMatchObject({ raises: 1, standingMs: 12 * hour });
    expect(alarmStatistics(events, { from: august, to: september })).toMatchObject({ raises: 0, standingMs: 0 });
    const told = events.filter(({ event }) => event === 'raised')[0] as MonitorEvent;
    expect(messageOf(told).paragraph).toContain('2026-07-21 03:00');
  });

  test('an alarm that it shows to stand stands on the next page, though it was told later', () => {
    const soFar = events.filter(({ event }) => event !== 'returned').map(asWritten);
    expect(pageOf(soFar, august, september).standing).toContain(raised);
    // a reset of a latch of before that was given before the block came ends none that came with it
    const at = (time: number, event: PeriodEvent['event'], more: object = {}): PeriodEvent =>
      ({ time, alarm: 'dirt', event, text: `${event}`, ...more }) as PeriodEvent;
    const latch = { taken: july + 2 * day, latched: true };
    const list = [at(july + 5 * day, 'reset'), at(july + 6 * day, 'returned', latch)];
    expect(pageOf(list, august, september).standing).toEqual(['returned']);
  });

  test('nothing is said of when it was taken where no tick had gone ahead', () => {
    const { events: live } = run(inputs.filter(({ input }) => input.kind !== 'tick').map(({ input }) => input));
    expect(live.some((event) => event.event === 'raised')).toBe(true);
    expect(live.filter((event) => 'taken' in event)).toEqual([]);
  });
});

test('a clock that showed five months ahead for a day in May hides no alarm of September', () => {
  const at = (month: number, date: number) => Date.UTC(2026, month - 1, date);
  const set = (time: number, from: number) => ({ time, event: 'clock_set' as const, from, to: time });
  const dirt = (event: 'raised' | 'returned', time: number) => ({ time, event, alarm: 'dirt' });
  const events = [
    set(at(10, 5), at(5, 10)),
    set(at(5, 11), at(10, 5) + day),
    dirt('raised', at(9, 20)),
    dirt('returned', at(9, 22)),
  ];
  const period = { from: at(9, 1), to: at(10, 1) };
  const told = events.map(({ time, event, ...more }) => ({
    ...{ time, event, text: event },
    ...('alarm' in more ? { alarm: more.alarm } : { from: more.from }),
  }));
  expect(periodFigures([], { ...period, events: told }).events?.map(({ text }) => text)).toEqual([
    'raised',
    'returned',
  ]);
  expect(alarmStatistics(events, period).alarms).toMatchObject([{ raises: 1, standingMs: 2 * day }]);
  expect(alarmStatistics(events.slice(0, 3), period).alarms).toMatchObject([{ raises: 1, standingMs: 11 * day }]);
});
