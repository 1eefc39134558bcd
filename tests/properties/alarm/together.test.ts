/** Things of an alarm that fall due at one moment, and figures that stand. */
import { expect, test } from 'vitest';
import {
  type AlarmConfig,
  type AlarmEvent,
  type AlarmInput,
  advanceAlarm,
  prepareAlarm,
  startAlarm,
} from '../../../src/alarm/index.ts';
import { extremeChars } from '../../../src/alarm/rules.ts';

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
