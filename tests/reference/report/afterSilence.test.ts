/** What is told when a silence ends: what was not announced comes first, and no alarm is called beyond its setpoint. */
import { expect, test } from 'vitest';
import { iso4406 } from '../../../src/codes/index.ts';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import { germanTexts } from '../../../src/german/index.ts';
import {
  advanceMonitor,
  type MonitorEvent,
  type MonitorInput,
  prepareMonitor,
  startMonitor,
} from '../../../src/monitor/index.ts';
import { messageOf, type Texts } from '../../../src/report/index.ts';

const hour = 3600000;
const onCode = { figure: { code: 'iso4406' }, setpoint: '18/16/13', deadband: 1 } as const;
const onWarmth = { figure: { quantity: 'celsius' }, setpoint: 60, deadband: 5 } as const;

/** Out of service from the second hour: so dirty and so warm at each hour that follows, then in service again. */
function linesAfter(
  alarm: typeof onCode | typeof onWarmth,
  latching: boolean,
  course: readonly (readonly [dirt: number, celsius: number])[],
  texts?: Texts,
): string[] {
  const codes = [{ table: iso4406, target: '17/15/12' }];
  const prepared = prepareMonitor({ codes, alarms: [{ id: 'gate', type: 'high', ...alarm, latching }] });
  const reading = ([dirt, celsius]: readonly [number, number], i: number): MonitorInput => ({
    time: i * hour,
    counts: cumulativeCounts({ 4: 8000 * dirt + 13 * i, 6: 2050 * dirt + 7 * i, 14: 150 * dirt + i }, { volumeMl: 10 }),
    celsius,
  });
  const commanded = (what: 'remove_from_service' | 'return_to_service', i: number): MonitorInput => ({
    ...{ kind: 'command', alarm: 'gate', command: what, time: i * hour },
  });
  const inputs = [
    reading([1, 40], 0),
    commanded('remove_from_service', 1),
    ...course.map((one, i) => reading(one, i + 2)),
    commanded('return_to_service', course.length + 2),
  ];
  let state = startMonitor(prepared);
  let events: MonitorEvent[] = [];
  for (const input of inputs) ({ state, events } = advanceMonitor(prepared, state, input));
  return events.map((event) => messageOf(event, texts).line);
}
const clean = [1, 40] as const;
const dirty = [8, 70] as const;

test('a latched alarm that is back within was raised, and is not beyond', () => {
  const course = [dirty, dirty, clean, clean];
  const [returned, raised, latched] = linesAfter(onCode, true, course);
  expect(returned).toBe('gate: alarm in service again. Raises not announced meanwhile: 1. It is announced again.');
  expect(raised).toBe(
    'gate: alarm was raised. Code (ISO 4406), classes within 18/16/13: 1. State: latched, not acknowledged.',
  );
  expect(latched).toMatch(/^gate: alarm latched until it is reset\. /);
  expect(linesAfter(onCode, true, course, germanTexts).slice(0, 2)).toEqual([
    'gate: Alarm wieder in Betrieb. Inzwischen nicht gemeldete Alarme: 1. Er wird wieder gemeldet.',
    'gate: Alarm war ausgelöst. Klasse (ISO 4406), Klassen unter 18/16/13: 1. Zustand: selbsthaltend, nicht quittiert.',
  ]);
  expect(linesAfter(onWarmth, true, course)[1]).toBe(
    'gate: alarm was raised. Temperature is 40 °C; the setpoint is 60 °C. State: latched, not acknowledged.',
  );
});

test('one that stands tells by how many classes, and within its deadband both figures', () => {
  expect(linesAfter(onCode, false, [dirty, dirty])[1]).toBe(
    'gate: alarm raised. Code (ISO 4406), classes beyond 18/16/13: 2. State: alarm, not acknowledged.',
  );
  expect(linesAfter(onWarmth, false, [dirty, [1, 57]])[1]).toBe(
    'gate: alarm raised. Temperature is 57 °C; the setpoint is 60 °C. State: alarm, not acknowledged.',
  );
});

test('one that does not latch tells what was not announced, though it is back to normal', () => {
  expect(linesAfter(onCode, false, [dirty, clean]).slice(0, 2)).toEqual([
    'gate: alarm in service again. Raises not announced meanwhile: 1. It is announced again.',
    'gate: back to normal. The figure is within the setpoint again. State: back to normal, not acknowledged.',
  ]);
  // of a silence without a raise the line has nothing to say
  expect(linesAfter(onCode, false, [clean])).toEqual(['gate: alarm in service again. It is announced again.']);
});

test('an alarm on a code that still stands is told by its classes', () => {
  const alarm = { id: 'gate', type: 'high', ...onCode, reAlarmAfterMs: hour } as const;
  const prepared = prepareMonitor({ codes: [{ table: iso4406 }], alarms: [alarm] });
  const counts = cumulativeCounts({ 4: 16000, 6: 4100, 14: 300 });
  const { state } = advanceMonitor(prepared, startMonitor(prepared), { time: 0, counts });
  const { events } = advanceMonitor(prepared, state, { kind: 'tick', time: hour });
  expect(events.map((event) => messageOf(event).line)).toEqual([
    'gate: alarm still stands. Code (ISO 4406), classes beyond 18/16/13: 3.',
  ]);
});

test('a unit that never sent a reading is not told to have sent one', () => {
  const prepared = prepareMonitor({ codes: [], staleAfterMs: hour });
  const { state } = advanceMonitor(prepared, startMonitor(prepared), { kind: 'tick', time: 0 });
  const { events } = advanceMonitor(prepared, state, { kind: 'tick', time: 2 * hour });
  const [event] = events as [MonitorEvent];
  expect(messageOf(event).line).toBe('No usable readings. None has come since 1970-01-01 00:00.');
  expect(messageOf(event, germanTexts).line).toBe('Keine gültigen Messungen. Seit 1970-01-01 00:00 kam keine.');
});

test('a finding that may be air says so', () => {
  const event = { time: 0, event: 'finding_came', finding: 'flat_size_distribution' } as const;
  expect(messageOf(event).subject).toBe('Found: flat size distribution (air, droplets or coarse wear)');
  expect(messageOf(event, germanTexts).subject).toContain('(Luft, Tropfen oder grober Verschleiß)');
});
