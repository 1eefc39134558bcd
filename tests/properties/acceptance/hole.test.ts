/** A reading that lacks a size of the target, after one that has it, and before. */
import { expect, test } from 'vitest';
import {
  advanceAcceptance,
  prepareAcceptance,
  resumeAcceptance,
  startAcceptance,
} from '../../../src/acceptance/index.ts';
import { type ClassTable, iso4406, nas1638 } from '../../../src/codes/index.ts';
import { cumulativeCounts } from '../../../src/counts/index.ts';

const minutes = 60000;
const whole = { 4: 15000, 6: 4000, 14: 800 };

function proof(table: ClassTable, target: string, samples: readonly Readonly<Record<number, number>>[]) {
  const prepared = prepareAcceptance({ table, target, readings: 3 });
  let state = startAcceptance(prepared);
  const events = samples.map((sample, i) => {
    const counts = cumulativeCounts(sample, { volumeMl: 100 });
    const step = advanceAcceptance(prepared, state, { time: i * 10 * minutes, counts });
    state = resumeAcceptance(prepared, JSON.parse(JSON.stringify(step.state))).state;
    expect(state).toEqual(step.state);
    return step.events.map(({ event, ...rest }) => ('why' in rest ? `${event} ${rest.why}` : event)).join();
  });
  return { state, events };
}

test.each([[{ 4: 15100, 6: 801 }], [{ 4: 15100, 14: 810 }], [{ 6: 4010, 14: 810 }]])(
  'of a code of three numbers %j says nothing',
  (hole) => {
    const { state, events } = proof(iso4406, '16/14/11', [whole, hole, { ...whole, 4: 15001 }, hole]);
    expect(events).toEqual(['counted', 'not_counted not_known', 'counted', 'not_counted not_known']);
    expect(state.run?.readings).toBe(2);
    expect(state.run?.margins.map(({ column }) => column)).toEqual(['4', '6', '14']);
  },
);

test('of a class for all sizes the record tells the least margin there can be at a size not counted', () => {
  const all = { 6: 120000, 14: 20000, 21: 4500, 38: 900, 70: 200 };
  // of 4500 from 21 µm(c) on 4300 lie below 70, on either side of 38
  const { 38: _left, ...hole } = all;
  const { state, events } = proof(nas1638, '12', [all, { ...hole, 6: 120001 }, { ...all, 6: 120002 }]);
  expect(events).toEqual(['counted', 'counted', 'accepted']);
  // 100000, 15500, 3600 or 4300, 700 or 4300, 200: classes 9, 9, 10, 12 and 10 (NAS 1638, January 1964, table I)
  expect(state.accepted?.run.margins).toEqual(
    [3, 3, 2, 0, 2].map((classes, i) => ({ column: nas1638.columns[i]?.label, classes })),
  );
});
