/** An alarm of a code clears by what the sizes that a reading lacks may hold, not by those it has. */
import { expect, test } from 'vitest';
import { type ClassTable, iso4406, nas1638 } from '../../../src/codes/index.ts';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import { advanceMonitor, prepareMonitor, startMonitor } from '../../../src/monitor/index.ts';

type Sample = Readonly<Record<number, number>>;

function told(table: ClassTable, setpoint: string, deadband: number, samples: readonly Sample[]) {
  const figure = { code: table.id };
  const alarms = [{ id: 'dirty', type: 'high', figure, setpoint, deadband } as const];
  const prepared = prepareMonitor({ codes: [{ table }], alarms });
  let state = startMonitor(prepared);
  return samples.map((sample, time) => {
    const step = advanceMonitor(prepared, state, { time, counts: cumulativeCounts(sample, { per: '100mL' }) });
    state = step.state;
    const of = step.events.filter((event) => 'alarm' in event).map((event) => event.event);
    return [step.verdict?.alarms[0]?.judged, of.join()];
  });
}

test('ISO 4406: a size not counted neither raises nor clears', () => {
  const dirty = { 4: 1890000, 6: 402000, 14: 33000 };
  const samples = [dirty, { 4: 5000, 6: 2000 }, { 4: 5000, 6: 2000, 14: 1900 }, { 4: 5000, 6: 2000, 14: 0 }];
  // 13/11/11 is two classes cleaner than 18/16/13, 13/11/0 five (ISO 4406:2021, Table 1)
  expect(told(iso4406, '18/16/13', 3, samples)).toEqual([
    [true, 'raised'],
    [false, ''],
    [true, ''],
    [true, 'returned'],
  ]);
});

test('NAS 1638: a deadband is kept by the most that a size not counted may hold', () => {
  const dirty = { 6: 400000, 14: 20000, 21: 4000, 38: 700, 70: 200 };
  // 90 of 38 µm(c) may all be above 70: class 9 allows 128, class 8 has 64 (NAS 1638, January 1964, table I)
  const open = { 6: 900, 14: 300, 21: 100, 38: 90 };
  const clean = { 6: 900, 14: 300, 21: 100, 38: 2, 70: 1 };
  const at = (deadband: number) => told(nas1638, '9', deadband, [dirty, open, clean]).map(([, events]) => events);
  expect([at(0), at(1), at(4)]).toEqual([
    ['raised', 'returned', ''],
    ['raised', '', 'returned'],
    ['raised', '', 'returned'],
  ]);
});
