/** The statistics of alarms, against a count of every single moment. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type AlarmEvent, type AlarmFigures, alarmStatistics } from '../../../src/alarm/index.ts';
import { expectRefused } from '../../inputs/refused.ts';

/** Six of them are the ten minutes of a flood. */
const step = 100000;

const events: fc.Arbitrary<AlarmEvent[]> = fc
  .array(
    fc.record({
      after: fc.constantFrom(0, 1, 1, 2, 5, 6),
      alarm: fc.constantFrom('a', 'b', 'c'),
      event: fc.constantFrom(
        ...(['raised', 'raised', 're_alarmed', 'returned', 'dropped', 'shelved', 'unshelved', 'acknowledged'] as const),
      ),
      more: fc.constantFrom({}, {}, { standing: true as const }, { silentRaises: 3 }, { times: 4 }),
    }),
    { maxLength: 40 },
  )
  .map((list) => {
    let time = -20 * step;
    return list.map(({ after, alarm, event, more }) => {
      time += after * step;
      return { time, alarm, event, ...more } as AlarmEvent;
    });
  });

/** Whether a thing that begins and ends with these events is on in the step of time that begins there. */
function isOn(own: readonly AlarmEvent[], time: number, begins: string, ends: readonly string[]): boolean {
  const said = own.filter((one) => one.time <= time && (one.event === begins || ends.includes(one.event)));
  return said[said.length - 1]?.event === begins;
}

function figuresByStep(all: readonly AlarmEvent[], alarm: string, from: number, to: number): AlarmFigures {
  const own = all.filter((one) => one.alarm === alarm);
  const inside = own.filter(({ time }) => time >= from && time < to);
  let [standingMs, shelvedMs] = [0, 0];
  for (let time = from; time < to; time += step) {
    if (isOn(own, time, 'raised', ['returned', 'dropped'])) standingMs += step;
    if (isOn(own, time, 'shelved', ['unshelved', 'dropped'])) shelvedMs += step;
  }
  return {
    alarm,
    raises: inside.filter(({ event, standing }) => event === 'raised' && !standing).length,
    reAlarms: inside.reduce((sum, { event, times = 1 }) => sum + (event === 're_alarmed' ? times : 0), 0),
    silentRaises: inside.reduce((sum, { silentRaises = 0 }) => sum + silentRaises, 0),
    standingMs,
    shelvedMs,
  };
}

test('each figure is what a look at every moment counts, and the sums are those of the alarms', () => {
  fc.assert(
    fc.property(events, fc.integer({ min: -25, max: 30 }), fc.nat({ max: 60 }), (list, begin, span) => {
      const [from, to] = [begin * step, (begin + span) * step];
      const { alarms, worst, flood, ...sums } = alarmStatistics(list, { from, to });
      const names = [...new Set(list.map(({ alarm }) => alarm))];
      const counted = names.map((name) => figuresByStep(list, name, from, to));
      expect([...alarms].sort((a, b) => (a.alarm < b.alarm ? -1 : 1))).toEqual(
        counted.sort((a, b) => (a.alarm < b.alarm ? -1 : 1)),
      );
      for (const [i, one] of alarms.slice(1).entries()) {
        const before = alarms[i] as AlarmFigures;
        const order = [
          before.raises - one.raises,
          before.standingMs - one.standingMs,
          before.alarm < one.alarm ? 1 : -1,
        ];
        expect(order.find((part) => part !== 0)).toBeGreaterThan(0);
      }
      const sum = (name: Exclude<keyof AlarmFigures, 'alarm'>) => counted.reduce((all, one) => all + one[name], 0);
      expect(sums).toEqual({
        ...{ from, to, raises: sum('raises'), reAlarms: sum('reAlarms'), silentRaises: sum('silentRaises') },
        ...{ standingMs: sum('standingMs'), shelvedMs: sum('shelvedMs') },
      });
      expect(worst).toEqual(alarms.filter(({ raises }) => raises > 0).map(({ alarm }) => alarm));
      const told = list.filter(
        ({ time, event, standing }) =>
          time >= from && time < to && (event === 're_alarmed' || (event === 'raised' && !standing)),
      );
      // of the moments after which most were told, the first
      const until = told.map(
        ({ time }) => told.filter((one) => one.time <= time && one.time >= time - 6 * step).length,
      );
      const most = Math.max(0, ...until);
      expect(flood).toEqual(most === 0 ? null : { raises: most, to: told[until.indexOf(most)]?.time });
    }),
  );
});

test('shelved twice and standing once, counted by hand', () => {
  const at = (time: number, event: AlarmEvent['event'], more: object = {}) =>
    ({ time, alarm: 'hot', event, ...more }) as AlarmEvent;
  const events = [
    at(10, 'shelved'),
    at(30, 'unshelved', { silentRaises: 2 }),
    at(30, 'raised', { standing: true }),
    at(45, 'returned'),
    at(50, 'shelved'),
    at(90, 'raised'),
    at(95, 'unshelved', { silentRaises: 1 }),
  ];
  const [hot] = alarmStatistics(events, { from: 20, to: 100 }).alarms;
  // shelved from 20 to 30 and from 50 to 95, standing from 30 to 45 and from 90 to 100; what stood at 30 was no raise
  expect(hot).toMatchObject({ shelvedMs: 55, standingMs: 25, raises: 1, silentRaises: 3 });
  expect(alarmStatistics(events, { from: 20, to: 100 }).flood).toEqual({ raises: 1, to: 90 });
  const apart = [0, 700000, 1400000, 1400001].map((time) => at(time, 'raised'));
  expect(alarmStatistics(apart, { from: 0, to: 2e6 }).flood).toEqual({ raises: 2, to: 1400001 });
});

test('the leap of a clock that was set is no time, and a time that it showed twice counts once', () => {
  const minute = 60000;
  const set = (from: number, to: number) => ({ time: to, event: 'clock_set', from, to });
  const at = (time: number, event: AlarmEvent['event'], more: object = {}): AlarmEvent =>
    ({ time, alarm: 'hot', event, ...more }) as AlarmEvent;
  // a gateway begins at 1970: five minutes before its clock is set, and five after
  const now = 1.7e12;
  const begun = [at(0, 'raised'), set(5 * minute, now), at(now + 5 * minute, 'returned')];
  expect(alarmStatistics(begun, { from: 0, to: now + 6 * minute }).standingMs).toBe(10 * minute);
  const twice = [at(100, 'raised'), at(200, 'returned'), set(201, 100), at(100, 'raised'), at(150, 'returned')];
  expect(alarmStatistics(twice, { from: 100, to: 200 }).standingMs).toBe(100);
  // a shelf keeps the time it has left
  const shelf = [at(0, 'shelved', { until: 300 }), set(100, 5000)];
  expect(alarmStatistics(shelf, { from: 0, to: 9000 }).shelvedMs).toBe(300);
});

test('what a clock set back dates years ago stands in the period in which it was told, and in none before', () => {
  const day = 86400000;
  const [june, july, august] = [5, 6, 7].map((month) => Date.UTC(2026, month, 1)) as [number, number, number];
  const wrong = Date.UTC(2000, 0, 1);
  const at = (time: number, event: AlarmEvent['event'], more: object = {}): AlarmEvent =>
    ({ time, alarm: 'dirt', event, ...more }) as AlarmEvent;
  const set = (from: number, to: number) => ({ time: to, event: 'clock_set', from, to });
  const came = [at(june + 9 * day, 'raised'), at(june + 10 * day, 'returned'), set(july + 21 * day, wrong)];
  const days = (events: Parameters<typeof alarmStatistics>[0]) =>
    [june, july, august].map((from) => {
      const { standingMs, shelvedMs, raises } = alarmStatistics(events, { from, to: from + 30 * day });
      return [raises, standingMs / day, shelvedMs / day];
    });
  // no more is known of the raise than that it came after the clock was set
  const raised = [...came, at(wrong + 3 * day, 'raised')];
  expect(days(raised)).toEqual([
    [1, 1, 0],
    [1, 9, 0],
    [0, 30, 0],
  ]);
  const right = [...raised, set(wrong + 9 * day, july + 30 * day), at(august + day, 'returned')];
  expect(days(right)).toEqual([
    [1, 1, 0],
    [1, 9, 0],
    [0, 1, 0],
  ]);
  const over = [...raised, at(wrong + 4 * day, 'returned')];
  expect(days(over)).toEqual([
    [1, 1, 0],
    [1, 0, 0],
    [0, 0, 0],
  ]);
  // a shelf keeps its length
  const shelf = [at(july, 'acknowledged'), ...came, at(wrong + day, 'shelved', { until: wrong + 2 * day })];
  expect(days(shelf)[1]).toEqual([0, 0, 1]);
  // ten years ahead from 22 to 30 July
  const ahead = [
    set(july + 21 * day, 2 * july),
    at(2 * july + day, 'raised'),
    set(2 * july + 8 * day, july + 29 * day),
  ];
  expect(days([at(july + day, 'acknowledged'), ...ahead, at(august + day, 'returned')])).toEqual([
    [0, 0, 0],
    [1, 9, 0],
    [0, 1, 0],
  ]);
});

test('an event of a reading that a tick had gone ahead of counts as of when that was taken', () => {
  const at = (time: number, event: AlarmEvent['event'], taken: number): AlarmEvent =>
    ({ time, alarm: 'dirt', event, taken }) as AlarmEvent;
  const events = [at(900, 'raised', 300), at(900, 'returned', 360)];
  const of = (from: number, to: number) => alarmStatistics(events, { from, to });
  expect(of(0, 800)).toMatchObject({ raises: 1, standingMs: 60, flood: { raises: 1, to: 300 } });
  expect(of(800, 1000)).toMatchObject({ raises: 0, standingMs: 0, flood: null });
  expect(alarmStatistics(events.slice(0, 1), { from: 350, to: 800 })).toMatchObject({ raises: 0, standingMs: 450 });
});

test('a shelf ends at `until` or where the alarm is dropped; what fell due unheard of counts', () => {
  const period = { from: 0, to: 1000 };
  const shelved: AlarmEvent = { time: 0, alarm: 'a', event: 'shelved', until: 300 };
  const dropped: AlarmEvent = { time: 100, alarm: 'a', event: 'dropped', state: 'shelved' };
  expect(alarmStatistics([shelved], period).shelvedMs).toBe(300);
  expect(alarmStatistics([shelved, dropped], period).shelvedMs).toBe(100);
  const anew = { time: 500, alarm: 'a', event: 're_alarmed', times: 72 };
  const found = alarmStatistics([{ time: 0, alarm: 'a', event: 'raised' }, anew], period);
  expect([found.reAlarms, found.flood?.raises]).toEqual([72, 2]);
});

describe('what is handed in', () => {
  const raised = (alarm: string, time: number) => ({ time, alarm, event: 'raised' }) as const;

  test('the worst are ten at most, and events that name no alarm are passed over', () => {
    const many = Array.from({ length: 12 }, (_, i) => raised(`alarm ${i}`, 1000 * i));
    const monitors = [{ time: 0, event: 'clock_kept' }, { event: 'x' } as never];
    const found = alarmStatistics([...monitors, ...many], { from: 0, to: 20000 });
    expect(found.alarms.map(({ alarm }) => alarm)).toEqual(many.map(({ alarm }) => alarm));
    expect(found.worst).toEqual(many.slice(0, 10).map(({ alarm }) => alarm));
  });

  test('a flood is of ten minutes, both ends counted, whatever the order of the events', () => {
    const within = [raised('b', 600000), raised('a', 0)];
    expect(alarmStatistics(within, { from: 0, to: 1e6 }).flood).toEqual({ raises: 2, to: 600000 });
    const beyond = [raised('b', 600001), raised('a', 0)];
    expect(alarmStatistics(beyond, { from: 0, to: 1e6 }).flood).toEqual({ raises: 1, to: 0 });
  });

  test('a flood begins anew after ten quiet minutes; what stood when a silence ended was not raised then', () => {
    const hour = 3600000;
    const list = [raised('a', 0), raised('b', hour), raised('c', hour + 60000)];
    expect(alarmStatistics(list, { from: 0, to: 2 * hour }).flood).toEqual({ raises: 2, to: hour + 60000 });
    const standing = [{ ...raised('a', 5), standing: true as const }];
    expect(alarmStatistics(standing, { from: 0, to: 9 })).toMatchObject({ raises: 0, standingMs: 4, flood: null });
    const shelf = [
      { time: 2, alarm: 'a', event: 'shelved' },
      { time: 5, alarm: 'a', event: 'unshelved' },
    ];
    expect(alarmStatistics(shelf, { from: 0, to: 9 }).shelvedMs).toBe(3);
  });

  test.each([
    ['wrong_type', 'events', 'an array of events', {}, { from: 0, to: 1 }],
    ['wrong_type', 'period', '{ from, to }', [], 5],
    ['unknown_option', 'period.until', 'from, to', [], { from: 0, until: 1 }],
    ['not_an_integer', 'period.from', 'whole milliseconds', [], { from: 0.5, to: 1 }],
    ['out_of_range', 'period.from', 'whole milliseconds', [], { from: -8.64e15 - 2, to: 1 }],
    ['out_of_range', 'period.to', 'whole milliseconds', [], { from: 0, to: 8.64e15 + 2 }],
    ['out_of_range', 'period.to', 'at least 5', [], { from: 5, to: 4 }],
    ['wrong_type', 'events[1]', 'an event { time, alarm, event }', [raised('a', 0), null], { from: 0, to: 1 }],
    ['unknown_option', 'events[0].valeu', 'value', [{ ...raised('a', 0), valeu: 1 }], { from: 0, to: 1 }],
    ['negative', 'events[0].silentRaises', '0 or more', [{ ...raised('a', 0), silentRaises: -4 }], { from: 0, to: 1 }],
    ['out_of_range', 'events[0].times', '1 or more', [{ ...raised('a', 0), times: 0 }], { from: 0, to: 1 }],
    ['wrong_type', 'events[1].from', 'whole', [raised('a', 0), { time: 0, event: 'clock_set' }], { from: 0, to: 1 }],
    ['infinite', 'events[0].time', 'whole milliseconds', [raised('a', Infinity)], { from: 0, to: 1 }],
  ])('%s at %s', (code, parameter, words, list, period) => {
    expectRefused(code, parameter, words, () => alarmStatistics(list as never, period as never));
  });

  test('a period of no length, and the ends of time, are fine', () => {
    expect(alarmStatistics([raised('a', 5)], { from: 5, to: 5 })).toMatchObject({
      raises: 0,
      standingMs: 0,
      flood: null,
    });
    expect(alarmStatistics([], { from: -8.64e15, to: 8.64e15 })).toMatchObject({ alarms: [], worst: [], flood: null });
  });
});
