/** Things of an alarm that fall due at one moment, and figures that stand. */
import { expect, test } from 'vitest';
import {
  type AlarmConfig,
  type AlarmEvent,
  type AlarmInput,
  advanceAlarm,
  alarmStateName,
  prepareAlarm,
  resumeAlarm,
  startAlarm,
} from '../../../src/alarm/index.ts';
import { planOf } from '../../../src/alarm/plan.ts';
import { extremeChars } from '../../../src/alarm/rules.ts';
import { isBeyondSetpoint } from '../../../src/alarm/signal.ts';
import { stepAlarm } from '../../../src/alarm/step.ts';
import { germanTexts as german } from '../../../src/german/index.ts';
import { messageOf } from '../../../src/report/index.ts';

function run(config: AlarmConfig, inputs: readonly AlarmInput[]) {
  const prepared = prepareAlarm(config);
  let state = startAlarm(prepared);
  const events: AlarmEvent[] = [];
  for (const input of inputs) {
    const step = advanceAlarm(prepared, state, input);
    state = step.state;
    events.push(...step.events);
  }
  const told = events.map(({ time, event, standing, times }) =>
    [time, event, ...(standing === true ? ['standing'] : []), ...(times === undefined ? [] : [times])].join(' '),
  );
  return { state, told };
}
const of: AlarmConfig = { id: 'x', type: 'high', setpoint: 4, reAlarmAfterMs: 10 };
const shelve = (time: number, forMs: number): AlarmInput => ({ kind: 'command', command: 'shelve', time, forMs });
const tick = (time: number): AlarmInput => ({ kind: 'tick', time });

test('a shelf ends before the re-alarm of that moment, which is not counted with those before it', () => {
  const inputs = [{ time: 0, value: 9 }, shelve(0, 30)];
  const begun = ['0 raised', '0 shelved'];
  const end = [...begun, '30 unshelved', '30 raised standing', '30 re_alarmed'];
  expect(run(of, [...inputs, tick(30)]).told).toEqual(end);
  expect(run(of, [...inputs, tick(29), tick(30)]).told).toEqual(end);
  // one millisecond later it is told with all that came after the shelf
  expect(run(of, [...inputs, tick(29)]).told).toEqual(begun);
  expect(run(of, [...inputs, tick(55)]).told).toEqual([...end.slice(0, -1), '50 re_alarmed 3']);
  expect(run(of, [{ time: 0, value: 9 }, shelve(0, 31), tick(40)]).told.slice(2)).toEqual([
    ...['31 unshelved', '31 raised standing', '40 re_alarmed'],
  ]);
});

test('a re-alarm that new settings would have made due before the last time is reckoned from there', () => {
  const { reAlarmAfterMs: _none, ...never } = of;
  const { state } = run(never, [{ time: 0, value: 9 }, tick(95)]);
  const now = prepareAlarm(of);
  const then = (time: number) => advanceAlarm(now, resumeAlarm(now, state).state, tick(time)).events;
  expect(then(104)).toEqual([]);
  expect(then(105)).toMatchObject([{ time: 105, event: 're_alarmed' }]);
  expect(then(105)[0]).not.toHaveProperty('times');
});

test('a signal is stale, and chattering over, only after their moment; an alarm is raised anew at it', () => {
  const config = { ...of, staleAfterMs: 20, chattering: { raises: 2, withinMs: 20 } };
  const twice = [9, 1, 9].map((value, time) => ({ time, value }));
  const begun = ['0 raised', '1 returned', '2 raised', '2 chattering'];
  expect(run(config, [...twice, tick(12)]).told).toEqual([...begun, '12 re_alarmed']);
  expect(run(config, [...twice, tick(22)]).told).toEqual([...begun, '22 re_alarmed 2']);
  expect(run(config, [...twice, tick(23)]).told).toEqual([
    ...[...begun, '22 re_alarmed 2', '22 signal_stale', '22 chattering_ended'],
  ]);
  expect(run(config, [...twice, tick(22), tick(23)]).told).toEqual(run(config, [...twice, tick(23)]).told);
});

test('of a figure that stands one extreme is kept, of one that goes the wanted way one for each part', () => {
  const extremes = (value: (i: number) => number, n: number, type: 'rise' | 'fall' = 'rise') => {
    const config: AlarmConfig = { id: 'x', type, setpoint: 1e6, withinMs: 24 };
    const { state } = run(
      config,
      Array.from({ length: n }, (_, i) => ({ time: i, value: value(i) })),
    );
    return (state.extremes as string).length / extremeChars;
  };
  expect(extremes(() => 7, 30)).toBe(1);
  expect(extremes((i) => -i, 30)).toBe(1);
  expect(extremes((i) => i, 10)).toBe(10);
  expect(extremes((i) => i, 99)).toBe(25);
  expect(extremes((i) => -i, 99, 'fall')).toBe(25);
  expect(extremes((i) => i % 2, 30)).toBe(2);
});

test('a state that knows no figure tells none', () => {
  const prepared = prepareAlarm(of);
  const stands = { ...startAlarm(prepared), time: 0, active: true as const, since: 0, heard: 0 };
  const anew = advanceAlarm(prepared, stands, tick(10)).events;
  expect(anew).toStrictEqual([{ time: 10, alarm: 'x', event: 're_alarmed', setpoint: 4, priority: 'medium' }]);
  const shelved = advanceAlarm(prepared, stands, shelve(1, 2)).state;
  const shown = advanceAlarm(prepared, shelved, tick(3)).events[1];
  const details = { state: 'acknowledged_alarm', setpoint: 4, priority: 'medium' };
  expect(shown).toStrictEqual({ time: 3, alarm: 'x', event: 'raised', standing: true, ...details });
});

test('an alarm of a figure says which: of a signal that is stale or bad too', () => {
  const settings = { id: 'x', staleAfterMs: 20 };
  const plan = planOf(settings, { type: 'high', setpoint: 4, figure: 'celsius' });
  const events: AlarmEvent[] = [];
  const heard = stepAlarm(plan, {}, 0, 0, { value: 1 }, events, {});
  const stale = stepAlarm(plan, heard, 0, 21, {}, events, {});
  stepAlarm(plan, stale, 21, 22, { value: null, tellBad: true }, events, {});
  expect(events).toStrictEqual([
    { time: 20, alarm: 'x', event: 'signal_stale', since: 0, figure: 'celsius' },
    { time: 22, alarm: 'x', event: 'signal_bad', figure: 'celsius' },
  ]);
});

test('a figure by itself is beyond no change', () => {
  const beyond = (type: 'high' | 'low' | 'rise' | 'fall', figure: number) =>
    isBeyondSetpoint(planOf({ id: 'x' }, { type, setpoint: 4, withinMs: 9 }), figure);
  expect([beyond('high', 5), beyond('high', 4), beyond('low', 3), beyond('low', 4)]).toEqual([
    true,
    false,
    true,
    false,
  ]);
  expect([-9, 9].flatMap((figure) => [beyond('rise', figure), beyond('fall', figure)])).toEqual(Array(4).fill(false));
});

test('what was told before a silence, and has ended meanwhile, is told when it ends', () => {
  const prepared = prepareAlarm(of);
  const ended = (told: string) => {
    const silent = { ...startAlarm(prepared), time: 0, heard: 0, outOfService: true as const, told };
    const back = { kind: 'command', command: 'return_to_service', time: 5 } as const;
    return advanceAlarm(prepared, silent, back).events.map(({ event }) => event);
  };
  const said = { a: 'returned', s: 'signal_restored', c: 'chattering_ended', b: 'signal_good' };
  for (const [letter, event] of Object.entries(said)) expect(ended(letter)).toEqual(['returned_to_service', event]);
});

test('after a silence the events say whether someone still has to acknowledge', () => {
  const config: AlarmConfig = { id: 'x', type: 'high', setpoint: 4 };
  const after = (values: readonly number[], first = 9) => {
    const acknowledge = { kind: 'command', command: 'acknowledge', time: 10 } as const;
    const inputs: AlarmInput[] = [{ time: 0, value: first }, shelve(1, 60)];
    values.forEach((value, i) => {
      if (i === 2) inputs.push(acknowledge);
      inputs.push({ time: (i < 2 ? 5 : 13) + i, value });
    });
    const prepared = prepareAlarm(config);
    let state = startAlarm(prepared);
    const events: AlarmEvent[] = [];
    for (const input of [...inputs, tick(70)]) {
      const step = advanceAlarm(prepared, state, input);
      state = step.state;
      events.push(...step.events);
    }
    return { name: alarmStateName(state), told: events.filter(({ standing }) => standing === true) };
  };
  // raised anew before and after it was acknowledged
  const seen = after([1, 9, 9, 9]);
  const open = after([9, 9, 1, 9]);
  expect([seen.name, open.name]).toEqual(['acknowledged_alarm', 'unacknowledged_alarm']);
  expect([seen, open].map(({ told }) => told[0]?.state)).toEqual([seen.name, open.name]);
  // raised and returned within the silence, and nobody has seen it
  const gone = after([9, 1], 1);
  const state = 'returned_to_normal_unacknowledged';
  expect(gone).toEqual({
    name: state,
    told: [{ time: 61, alarm: 'x', event: 'returned', standing: true, state, value: 1 }],
  });
  const [event] = gone.told as [AlarmEvent];
  expect(messageOf(event).line).toBe(
    'x: back to normal. The figure is within the setpoint again. State: back to normal, not acknowledged.',
  );
  expect(messageOf(event, german).paragraph).toContain('Zustand: wieder normal, nicht quittiert.');
});

test('a shelf is not begun anew before it has ended: no alarm is silent for longer than the longest', () => {
  const config: AlarmConfig = { id: 'x', type: 'high', setpoint: 4, longestShelfMs: 80 };
  const shelving = Array.from({ length: 6 }, (_, i) => shelve(1 + 70 * i, 80));
  const { told } = run(config, [{ time: 0, value: 9 }, ...shelving]);
  const shelf = (from: number) => [`${from} shelved`, `${from + 70} refused`, `${from + 80} unshelved`];
  const standing = (at: number) => `${at} raised standing`;
  expect(told).toEqual([
    '0 raised',
    ...shelf(1),
    standing(81),
    ...shelf(141),
    standing(221),
    '281 shelved',
    '351 refused',
  ]);
  // whoever wants it shelved on hears how things stand
  const unshelve: AlarmInput = { kind: 'command', command: 'unshelve', time: 70 };
  expect(run(config, [{ time: 0, value: 9 }, shelve(1, 80), unshelve, shelve(71, 80)]).told).toEqual([
    ...['0 raised', '1 shelved', '70 unshelved', '70 raised standing', '71 shelved'],
  ]);
  const prepared = prepareAlarm(config);
  const { state } = advanceAlarm(prepared, startAlarm(prepared), shelve(1, 80));
  const [refused] = advanceAlarm(prepared, state, shelve(2, 900)).events as [AlarmEvent];
  expect(refused).toEqual({ time: 2, alarm: 'x', event: 'refused', reason: 'already_shelved' });
  expect(messageOf(refused).line).toBe('x: refused. The command or reading did nothing: the alarm is shelved already.');
});
