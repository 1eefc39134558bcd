/** Clocks that are wrong, step by step and by hand: what is set aside, what decides, and what goes on from where. */
import { describe, expect, test } from 'vitest';
import { iso4406 } from '../../../src/codes/index.ts';
import {
  advanceMonitor,
  type MonitorConfig,
  type MonitorInput,
  prepareMonitor,
  startMonitor,
} from '../../../src/monitor/index.ts';

const minute = 60000;
const hour = 3600000;
const day = 24 * hour;
const hot = { id: 'hot', type: 'high', figure: { quantity: 'celsius' }, setpoint: 65 } as const;
const watched: MonitorConfig = { codes: [], alarms: [hot] };

function run(inputs: readonly MonitorInput[], config: MonitorConfig = watched) {
  const prepared = prepareMonitor(config);
  let state = startMonitor(prepared);
  const events = [];
  for (const input of inputs) {
    const step = advanceMonitor(prepared, state, input);
    state = step.state;
    events.push(...step.events);
  }
  return { state, events, words: events.map(({ event }) => event) };
}

const at = (time: number, more: object = {}): MonitorInput => ({ time, celsius: 40, ...more });
const tick = (time: number): MonitorInput => ({ kind: 'tick', time });
const hourly = (n: number, more: (i: number) => object = () => ({})) =>
  Array.from({ length: n }, (_, i) => at(i * hour, more(i)));
const timed = hourly(4, (i) => ({ receivedAt: i * hour }));

test('a first reading leaves no doubt of the clock', () => {
  expect(run([at(0)]).state.clock).toBeUndefined();
});

describe('far ahead', () => {
  test('two agree that lie a jump apart, and no more', () => {
    const ahead = (apart: number) =>
      run([...hourly(3), at(400 * day), at(400 * day + apart)], { ...watched, clockJumpMs: day }).words;
    expect([ahead(day), ahead(day + 1)]).toEqual([
      ['set_aside', 'clock_set'],
      ['set_aside', 'set_aside'],
    ]);
  });

  test('a tick far ahead is still doubted after a reading in line, and the next one that agrees is believed', () => {
    const once = run([...hourly(3), tick(400 * day), at(3 * hour)]);
    expect(once.words).not.toContain('clock_set');
    expect(once.state.clock?.ahead).toEqual({ time: 400 * day, count: 1, readings: [] });
    expect(run([...hourly(3), tick(400 * day), at(3 * hour), tick(400 * day + hour)]).words).toContain('clock_set');
  });

  test('one that the host has timed decides by how late it came: up to a jump more or less than known', () => {
    const leap = (before: readonly MonitorInput[], late: number) =>
      run([...before, at(400 * day, { receivedAt: 400 * day + late })]).words.filter((word) => /set/.test(word));
    // nobody knows how late they came before
    expect([leap(hourly(3), day), leap(hourly(3), day + 1)]).toEqual([[], ['set_aside']]);
    expect([leap(hourly(3), -day), leap(hourly(3), -day - 1)]).toEqual([[], ['clock_set']]);
    // they came ten days late, and one whose lag is not known between
    const late = [...hourly(3, (i) => ({ receivedAt: 10 * day + i * hour })), at(3 * hour)];
    expect([leap(late, 9 * day), leap(late, 9 * day - 1)]).toEqual([[], ['clock_set']]);
  });

  test('the third of three that disagree is believed, and what was set aside far from it is lost', () => {
    const before = [...hourly(3), at(400 * day, { celsius: 70 }), at(900 * day, { celsius: 70 })];
    const two = run(before);
    expect(two.words).toEqual(['set_aside', 'set_aside']);
    expect(two.state.clock?.ahead).toMatchObject({ count: 2, readings: [400 * day, 900 * day] });
    const { events, state } = run([...before, at(1500 * day)]);
    expect(events.slice(2)).toEqual([
      { time: 1500 * day, event: 'clock_set', from: 2 * hour, to: 1500 * day, lost: [400 * day, 900 * day] },
    ]);
    expect(state.time).toBe(1500 * day);
  });

  test('a figure that is bad raises nothing when the reading is judged', () => {
    const ahead = at(400 * day, { celsius: 70, qualities: { celsius: 'bad' } });
    expect(run([...hourly(3), ahead, tick(400 * day + 1)]).words).not.toContain('raised');
    expect(run([...hourly(3), at(400 * day, { celsius: 70 }), tick(400 * day + 1)]).words).toContain('raised');
  });

  test('a reading set aside is kept though a tick is set aside after it, and judged where the clock is kept', () => {
    const { events } = run([...hourly(3), at(400 * day, { celsius: 70 }), tick(900 * day), at(3 * hour)]);
    expect(events.filter(({ event }) => event === 'clock_kept')).toEqual([
      { time: 2 * hour, event: 'clock_kept', judged: [400 * day] },
    ]);
    expect(events.filter(({ event }) => event === 'raised')).toMatchObject([
      { alarm: 'hot', time: 2 * hour, value: 70 },
    ]);
  });

  test('a reading that came as late as it lies ahead decides nothing where no lag is known', () => {
    expect(run([...hourly(3), at(400 * day, { receivedAt: 800 * day })]).words).toEqual(['set_aside']);
    expect(run([...hourly(3), at(400 * day, { receivedAt: 400 * day + hour })]).words).not.toContain('set_aside');
  });

  test('what is usual outlasts a clock set forward, and one set back to seven days', () => {
    const slow = [0, 1, 2].map((i) => at(i * 10 * day));
    expect(run(slow).state.usualMs).toBe(10 * day);
    expect(run([...slow, tick(900 * day), tick(900 * day + 1)]).state.usualMs).toBe(10 * day);
    const back = [-11, 0, 11].map((i) => tick(i * day));
    expect(run([...slow, ...back]).state.usualMs).toBe(7 * day);
  });
});

test('over a leap of the clock the first interval teaches seven days at most', () => {
  const leap = [at(0), tick(400 * day), tick(400 * day + 1), at(400 * day + hour)];
  expect(run(leap, { ...watched, clockJumpMs: day }).state.usualMs).toBe(7 * day);
  expect(run([at(0), at(39 * day)], { ...watched, clockJumpMs: 39 * day }).state.usualMs).toBe(39 * day);
});

describe('ahead by less than a jump, by the host', () => {
  const isSet = (inputs: readonly MonitorInput[], limits: object = {}) =>
    run(inputs, { ...watched, limits }).words.includes('clock_set');
  const next = (time: number, receivedAt: number) => [...timed, at(time, { receivedAt })];

  test('more than the limit of clocks ahead, which is five minutes where it is off', () => {
    const leap = (minutes: number, limits?: object) => isSet(next(4 * hour + minutes * minute, 4 * hour), limits);
    expect([5, 6].map((minutes) => leap(minutes))).toEqual([false, true]);
    expect([30, 31].map((minutes) => leap(minutes, { clockAheadMs: 30 * minute }))).toEqual([false, true]);
    expect([5, 6].map((minutes) => leap(minutes, { clockAheadMs: null }))).toEqual([false, true]);
  });

  test('after half of the usual wait, not sooner', () => {
    expect(isSet(next(4 * hour, 3.5 * hour))).toBe(true);
    expect(isSet(next(4 * hour - 1, 3.5 * hour - 1))).toBe(false);
  });

  test('over a long wait more than a fiftieth of it', () => {
    const over = (leap: number) => isSet(next(23 * hour + leap, 23 * hour), { clockAheadMs: minute });
    expect([over(24 * minute), over(24 * minute + 1)]).toEqual([false, true]);
  });

  test('one that comes in time after one that was held back has a clock as right as before', () => {
    const held = hourly(4, (i) => ({ receivedAt: (i === 3 ? 3.5 : i) * hour }));
    const then = (ahead: number) => isSet([...held, at(4 * hour + ahead, { receivedAt: 4 * hour })]);
    expect([then(0), then(5 * minute), then(5 * minute + 1)]).toEqual([false, false, true]);
  });
});

describe('behind', () => {
  test('readings one after the other show it, not such as go further back', () => {
    const words = (...more: readonly MonitorInput[]) => run([...hourly(6), ...more]).words;
    expect(words(at(0.5 * hour), at(1.5 * hour), at(2.5 * hour))).toEqual(['late', 'late', 'clock_set']);
    expect(words(at(2.5 * hour), at(1.5 * hour), at(0.5 * hour))).toEqual(['late', 'late', 'late']);
    // one more of the same time is no order, and ends none
    const twice = [at(0.5 * hour), at(1.5 * hour), at(1.5 * hour, { celsius: 41 })];
    expect(words(...twice)).toEqual(['late', 'late', 'contradicted']);
    expect(words(...twice, at(2.5 * hour))).toEqual(['late', 'late', 'contradicted', 'clock_set']);
    // a tick before the first of them is none, nor are readings that are there already
    expect(words(tick(0.5 * hour), at(0.5 * hour), at(1.5 * hour), at(2.5 * hour)).pop()).toBe('clock_set');
    expect(words(...hourly(5), at(4.5 * hour))).toEqual([...Array(5).fill('repeated'), 'late']);
    // their pace is not known where the host has timed one of two
    const once = at(0.5 * hour, { receivedAt: 5.1 * hour });
    expect(words(once, at(1.5 * hour), at(2.5 * hour))).toEqual(['late', 'late', 'clock_set']);
  });

  test('one where none is missing shows it: in no gap half as wide again as the least, after half the wait', () => {
    const words = (minutes: readonly number[], time: number, received: number) => {
      const before = minutes.map((i) => at(i * minute, { receivedAt: i * minute }));
      return run([...before, at(time * minute, { receivedAt: received * minute })]).words;
    };
    const usual = [0, 60, 120, 180];
    expect([words(usual, 150, 210), words(usual, 150, 209.9)]).toEqual([['clock_set'], ['late']]);
    // a gap of 60 and of 59 minutes, where the least is 40
    expect([words([0, 60, 120, 160], 30, 220), words([0, 59, 118, 158], 30, 220)]).toEqual([['late'], ['clock_set']]);
  });

  test("it is shown where the monitor's time is ahead of the host beyond the limit, and the reading is not", () => {
    const isSet = (sent: number, time: number, received: number) => {
      const before = hourly(4, (i) => ({ receivedAt: i * hour - sent * minute }));
      return run([...before, at(time * minute, { receivedAt: received * minute })]).words.includes('clock_set');
    };
    expect([isSet(6, 150, 175), isSet(6, 150, 174.9)]).toEqual([false, true]);
    expect([isSet(10, 177, 172), isSet(10, 177.1, 172)]).toEqual([true, false]);
  });

  test('ticks set the clock back, to the last of them, where no reading comes for three usual intervals', () => {
    const ticks = [-60, 0, 118, 126].map((i) => tick(i * minute));
    const [three, four] = [run([...hourly(4), ...ticks.slice(0, 3)]), run([...hourly(4), ...ticks])];
    expect([three.state.time, three.words]).toEqual([3 * hour, []]);
    const { state, words } = four;
    expect([state.time, words]).toEqual([126 * minute, ['clock_set']]);
    // what had the times that are yet to come is forgotten
    expect(state.recent?.map(([time]) => time)).toEqual([0, hour, 2 * hour]);
    expect(state.alarms[0]).toMatchObject({ id: 'hot', of: 'high celsius' });
    // a reading shows that the sensor's clock is ahead, and one further back begins anew
    expect(run([...hourly(4), ...ticks.slice(0, 3), at(4 * hour), tick(130 * minute)]).words).toEqual([]);
    expect(run([...hourly(4), ...ticks.slice(0, 2), tick(-2 * hour), tick(2 * hour)]).words).toEqual(['clock_set']);
    expect(run([...hourly(4), ...ticks.slice(0, 2), tick(-2 * hour), tick(hour)]).words).toEqual([]);
  });

  test('the same time again and again is no order', () => {
    const { state, words } = run([...hourly(4), ...[1, 1, 1, 1, 1].map((i) => tick(i * hour))]);
    expect([state.time, words]).toEqual([3 * hour, []]);
    expect(state.clock?.behind).toEqual({ time: hour, count: 0 });
    expect(Object.keys(state.clock?.behind ?? {})).toEqual(['time', 'count']);
  });

  test('three show it only at the pace they were taken where the host has timed them', () => {
    const words = (...come: readonly number[]) =>
      run([...hourly(6), ...come.map((received, i) => at((1.5 + i) * hour, { receivedAt: received * hour }))]).words;
    expect(words(5.1, 6.1)).toEqual(['late', 'late']);
    expect(words(5.1, 6.1, 7.1)).toEqual(['late', 'late', 'clock_set']);
    expect(words(5.1, 5.6, 6.1)).toEqual(['late', 'late', 'clock_set']);
    expect(words(5.1, 5.5, 5.9)).toEqual(['late', 'late', 'late']);
  });

  test('a reading that the host has not timed shows nothing by its place', () => {
    expect(run([...timed, at(2.5 * hour)]).words).toEqual(['late']);
    expect(run([...timed, at(2.5 * hour, { receivedAt: 4 * hour })]).words).toEqual(['clock_set']);
  });

  test('a sensor ahead of the host that delivers what was missing has set no clock', () => {
    const ahead = (i: number, received: number) => at(5 * day + i * hour, { receivedAt: received * hour });
    const { words } = run([ahead(0, 0), ahead(1, 1), ahead(2, 2), ahead(4, 4), ahead(3, 5)]);
    expect(words.filter((word) => word !== 'quality_bad')).toEqual(['late']);
  });

  test('a target is heard of from as long ago as before', () => {
    const prepared = prepareMonitor({ codes: [{ table: iso4406, target: '18/16/13' }] });
    let state = startMonitor(prepared);
    const codes = { iso4406: '17/15/12' };
    for (const input of [0, 1, 2, 3].map((i) => ({ time: i * hour, codes })))
      state = advanceMonitor(prepared, state, input).state;
    for (const i of [-2, 0, 1.5]) state = advanceMonitor(prepared, state, tick(i * hour)).state;
    expect(state.time).toBe(1.5 * hour);
    expect(state.targets).toMatchObject([{ id: 'iso4406', heard: 1.5 * hour }]);
  });
});

test('what the host said last outlives a tick', () => {
  const { state } = run([...timed, tick(3.5 * hour)]);
  expect([state.receivedAt, state.lagMs]).toEqual([3 * hour, 0]);
});

describe('what can be relied on is heard of', () => {
  const bad = { celsius: undefined, qualities: {} };

  test.each<[string, object, boolean]>([
    ['a good figure', {}, false],
    ['a bad one alone', { qualities: { celsius: 'bad' } }, true],
    ['none', bad, true],
    ['one by name', { ...bad, others: { x: 1 } }, false],
    ['one by name that is bad', { ...bad, others: { x: { value: 1, quality: 'bad' } } }, true],
    ['one by name that is uncertain', { ...bad, others: { x: { value: 1, quality: 'uncertain' } } }, false],
  ])('%s', (_what, more, stale) => {
    const given = Object.fromEntries(Object.entries(more).filter(([, value]) => value !== undefined));
    const readings = hourly(20).map((reading, i) => {
      const { celsius, ...rest } = reading as { time: number; celsius: number };
      return i < 4 ? reading : { ...rest, ...('celsius' in more ? {} : { celsius }), ...given };
    });
    expect(
      run(readings as MonitorInput[], { codes: [], staleAfterMs: 6 * hour }).words.includes('readings_stale'),
    ).toBe(stale);
  });
});
