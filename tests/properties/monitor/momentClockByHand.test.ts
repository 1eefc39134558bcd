/** What a moment of the host's clock says of the readings' clock, by hand: how far it is taken back, what it shows. */
import { describe, expect, test } from 'vitest';
import { isDoubted } from '../../../src/monitor/clock/clock.ts';
import { judgeMoment, lagShown, onReadingsClock } from '../../../src/monitor/clock/momentClock.ts';
import { type MonitorState, prepareMonitor, startMonitor } from '../../../src/monitor/index.ts';

const minute = 60000;
const hour = 60 * minute;
const day = 24 * hour;
const begin = Date.UTC(2026, 2, 1);
const prepared = prepareMonitor({ codes: [], clockJumpMs: 2 * day });

/** A state whose last reading is of `begin`, with whatever else is known. */
const known = (more: Partial<MonitorState> = {}): MonitorState => ({
  ...startMonitor(prepared),
  time: begin,
  recent: [
    [begin - hour, 1],
    [begin, 2],
  ],
  ...more,
});

describe('the time of a moment on the clock of the readings', () => {
  const on = (state: Partial<MonitorState>, moment: number) => {
    const { time, lagMs } = onReadingsClock(known(state), begin + moment);
    return [time - begin, lagMs];
  };

  test('where the host times the readings, it is as long after the last as the host waited', () => {
    const late = { receivedAt: begin + 10 * minute };
    expect(on(late, 15 * minute)).toEqual([5 * minute, undefined]);
    expect(on({ ...late, lagMs: 10 * minute }, 15 * minute)).toEqual([5 * minute, 10 * minute]);
    // a sensor ahead of the host
    expect(on({ receivedAt: begin - 10 * minute }, -6 * minute)).toEqual([4 * minute, undefined]);
  });

  test('a clock off by a minute, or a usual interval, is as good as right', () => {
    expect(on({ receivedAt: begin + minute }, 15 * minute)).toEqual([15 * minute, undefined]);
    expect(on({ receivedAt: begin + minute + 1 }, 15 * minute)).toEqual([14 * minute - 1, undefined]);
    expect(on({ receivedAt: begin + minute, usualMs: 20000 }, 15 * minute)).toEqual([14 * minute, undefined]);
    expect(on({ receivedAt: begin + minute, usualMs: hour }, 15 * minute)).toEqual([15 * minute, undefined]);
  });

  test('unless the moment lies nearer to the time of the monitor as it stands', () => {
    const received = { receivedAt: begin + 2 * hour };
    expect(on({ ...received, time: begin + 2 * hour }, 2 * hour + minute)).toEqual([2 * hour + minute, undefined]);
    expect(on({ ...received, time: begin + hour }, 2 * hour)).toEqual([2 * hour, undefined]);
    expect(on({ ...received, time: begin + hour - 1 }, 2 * hour)).toEqual([0, undefined]);
  });

  test('and never beyond the last time that an input can have', () => {
    const [least, last] = [-62103974400000, 253370678399999];
    const state = known({ time: last, recent: [[last - hour, 1]], receivedAt: last - hour - 15 * minute });
    expect(onReadingsClock(state, last + 1 - 15 * minute).time).toBe(last);
    const first = known({ time: least, recent: [[least + hour, 1]], receivedAt: least + hour + 15 * minute });
    expect(onReadingsClock(first, least + 15 * minute - 1).time).toBe(least);
  });

  test('else what readings behind moments have shown, and no more than has passed since the last', () => {
    const behind = { lagMs: 10 * minute };
    expect(on(behind, 20 * minute)).toEqual([10 * minute, 10 * minute]);
    expect(on(behind, 3 * minute)).toEqual([0, 3 * minute]);
    expect(on(behind, minute)).toEqual([0, undefined]);
    expect(on(behind, -minute)).toEqual([-minute, undefined]);
    expect(on({ lagMs: minute }, 20 * minute)).toEqual([20 * minute, minute]);
    expect(on({ lagMs: minute + 1 }, 20 * minute)).toEqual([19 * minute - 1, minute + 1]);
    expect(on({}, 20 * minute)).toEqual([20 * minute, undefined]);
  });

  test('without a reading it is the moment itself', () => {
    const none = { recent: [], receivedAt: begin + hour, lagMs: 10 * minute };
    expect(on(none, 20 * minute)).toEqual([20 * minute, 10 * minute]);
    expect(on({ recent: [], lagMs: 10 * minute }, 20 * minute)).toEqual([20 * minute, 10 * minute]);
  });
});

describe('how far behind a reading shows its clock', () => {
  // ticks have brought the monitor on
  const gone = { time: begin + 10 * minute };
  const shown = (state: Partial<MonitorState>, time: number, isSet = false, more = {}) =>
    lagShown(known({ ...gone, ...state }), { time: begin + time, ...more }, isSet);

  test('a newer one behind a moment shows it, beside what was shown before', () => {
    expect(shown({}, 4 * minute)).toBe(6 * minute);
    expect(shown({ lagMs: 2 * minute }, 4 * minute)).toBe(8 * minute);
    expect(shown({ lagMs: -2 * minute }, 4 * minute)).toBe(6 * minute);
    expect(shown({ time: 8.64e15, lagMs: 8e15 }, 4 * minute)).toBe(8.64e15);
  });

  test('not by a minute, nor where the host has timed it, nor one in line', () => {
    expect(shown({}, 9 * minute)).toBeUndefined();
    expect(shown({}, 9 * minute - 1)).toBe(minute + 1);
    expect(shown({ lagMs: 7 }, 4 * minute, false, { receivedAt: begin })).toBeUndefined();
    expect(shown({ lagMs: 7 }, 10 * minute)).toBeUndefined();
    expect(shown({ lagMs: 7 }, 11 * minute)).toBeUndefined();
  });

  test('an older one only where the clock has been set by it', () => {
    expect(shown({}, -minute)).toBeUndefined();
    expect(shown({}, -minute, true)).toBe(11 * minute);
  });

  test('while readings behind are in doubt, nothing new', () => {
    const clock = { behind: { time: begin - hour, count: 1 } };
    expect(shown({ clock, lagMs: 7 }, 4 * minute)).toBe(7);
    expect(shown({ clock: { behind: { time: begin, count: 0 } } }, 4 * minute)).toBe(6 * minute);
  });
});

describe('what a moment shows', () => {
  const judge = (state: Partial<MonitorState>, moment: number) => {
    const judged = judgeMoment(prepared, known(state), begin + moment);
    return [judged.move, isDoubted(judged) ? judged.doubt : (judged.doubt ?? null)];
  };

  test('in line up to a jump ahead, set aside beyond', () => {
    expect(judge({}, 2 * day)).toEqual(['in_line', null]);
    expect(judge({}, 2 * day + 1)[0]).toBe('aside');
    expect(judge({}, 0)).toEqual(['in_line', null]);
    const { time: _none, ...fresh } = known();
    expect(judgeMoment(prepared, fresh, begin + 900 * day).move).toBe('in_line');
  });

  test('one in line ends the doubt of other moments, and not that of readings', () => {
    const readings = { time: begin + 9 * day, count: 1, readings: [begin + 9 * day] };
    const moments = { ...readings, readings: [] };
    expect(judge({ clock: { ahead: readings } }, minute)).toEqual(['in_line', { ahead: readings }]);
    expect(judge({ clock: { ahead: moments } }, minute)).toEqual(['in_line', null]);
    const older = { time: begin - 1, count: 2 };
    expect(judge({ clock: { behind: older } }, minute)).toEqual(['in_line', { behind: older }]);
    expect(judge({ clock: { behind: { time: begin, count: 2 } } }, minute)).toEqual(['in_line', null]);
    expect(judge({ clock: { behind: { time: begin - 1, count: 0 } } }, minute)).toEqual(['in_line', null]);
    const both = { ahead: readings, behind: older };
    expect(judge({ clock: both }, minute)).toEqual(['in_line', both]);
  });

  test('behind: the first is kept, and a clock set back is seen after three usual intervals without a reading', () => {
    const first = { behind: { time: begin - hour, count: 0 } };
    expect(judge({}, -hour)).toEqual(['behind', first]);
    const doubted = { clock: first, usualMs: 10 * minute };
    expect(judge(doubted, -hour)).toEqual(['behind', first]);
    expect(judge(doubted, -hour + 30 * minute)).toEqual(['behind', first]);
    expect(judge(doubted, -hour + 30 * minute + 1)).toEqual(['set', null]);
    // earlier still: that one is the first
    expect(judge(doubted, -hour - 1)).toEqual(['behind', { behind: { time: begin - hour - 1, count: 0 } }]);
    const ofReadings = { behind: { time: begin - hour, count: 1 } };
    expect(judge({ clock: ofReadings, usualMs: 10 * minute }, -minute)).toEqual(['behind', ofReadings]);
  });
});
