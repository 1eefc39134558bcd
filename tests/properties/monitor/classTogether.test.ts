/** A class for several sizes together, given as a code alone: it leaves the target open, and is taken as it stands. */
import { expect, test } from 'vitest';
import { advanceAcceptance, prepareAcceptance, startAcceptance } from '../../../src/acceptance/index.ts';
import { as4059Cumulative, type ClassTable, nas1638, parseCode } from '../../../src/codes/index.ts';
import { meets } from '../../../src/codes/meets.ts';
import { advanceMonitor, prepareMonitor, startMonitor } from '../../../src/monitor/index.ts';
import { hour, minute } from '../../../src/state/timeSteps.ts';

const cases: readonly (readonly [ClassTable, string[], string, string, string])[] = [
  [nas1638, ['5-15', '15-25'], '8', '6', '11'],
  [as4059Cumulative, ['B', 'C', 'D'], '7B/7C/7D', '6B-F', '11B-F'],
];

test.each(cases)('$id: an alarm on it is raised at once', (table, columns, target, clean, dirty) => {
  const alarm = { id: 'dirty', type: 'high', figure: { code: table.id }, setpoint: target } as const;
  const prepared = prepareMonitor({ codes: [{ table, columns, target }], alarms: [alarm] });
  let state = startMonitor(prepared);
  const told: string[] = [];
  for (const [i, code] of [clean, clean, dirty, dirty].entries()) {
    const step = advanceMonitor(prepared, state, { time: i * hour, codes: { [table.id]: code } });
    state = step.state;
    for (const { event } of step.events) told.push(`${i} ${event}`);
  }
  expect(told).toEqual(['2 raised']);
  expect(meets(table, target, parseCode(table, dirty), { columns }).met).toBe(null);
});

test.each(cases)('$id: it ends the run of a proof', (table, columns, target, clean, dirty) => {
  const prepared = prepareAcceptance({ table, columns, target, readings: 3 });
  let state = startAcceptance(prepared);
  const told: string[] = [];
  for (const [i, code] of [clean, clean, dirty, clean].entries()) {
    const step = advanceAcceptance(prepared, state, { time: i * minute, codes: { [table.id]: code } });
    state = step.state;
    for (const { event } of step.events) told.push(event);
  }
  expect(told).toContain('restarted');
  expect(told).not.toContain('accepted');
});
