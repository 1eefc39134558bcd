/**
 * The speed a hand asks for on a drive in steps of 4 %, told anew by listing the steps: every start, wish, slew and
 * rest of slew within two ranges of speed, all whole numbers, so that both ways are exact.
 */
import { expect, test } from 'vitest';
import { advanceFlowControl, prepareFlowControl, startFlowControl } from '../../../src/sampling/index.ts';

const step = 4;
const own = { mlPerMin: 45, gain: 1, integralSeconds: 4 };
const from0 = (count: number) => Array.from({ length: count }, (_, i) => i);
const within = (value: number, least: number, most: number) => Math.min(Math.max(value, least), most);

/** What of some speeds is nearest, the upper of two. */
const nearest = (speeds: readonly number[], to: number) =>
  speeds.reduce<number | null>(
    (best, one) => (best === null || Math.abs(one - to) <= Math.abs(best - to) ? one : best),
    null,
  );

/** `most` is what the slew allows, percent; where that is no step, the speed waits. */
function twin(least: number, highest: number, from: number, to: number, most: number): number {
  const speeds = from0(26)
    .map((i) => i * step)
    .filter((one) => one >= least && one <= highest);
  const reached = within(within(to, from - most, from + most), least, highest);
  if (speeds.indexOf(from) >= 0 && Math.abs(reached - from) < 3) return from;
  const wanted = nearest(speeds, reached) as number;
  // from outside the limits the slew does not count
  if (from < least || from > highest) return wanted;
  const isOnward = (one: number) => one === wanted || one - from > 0 === wanted - from > 0;
  return (
    nearest(
      speeds.filter((one) => Math.abs(one - from) <= most && isOnward(one)),
      reached,
    ) ?? from
  );
}

test.each([
  [9, 21],
  [8, 20],
])('from %d to %d %%: the nearest step that the slew allows, and what is left of the slew', (least, highest) => {
  const config = { ...own, leastPercent: least, mostPercent: highest, percentStep: step };
  for (const slewPerSecond of [1, 4]) {
    const prepared = prepareFlowControl({ ...config, slewPerSecond });
    for (const elapsedSeconds of [0, 1])
      for (const slewLeft of [0, 2])
        for (let from = least - 2; from <= highest + 2; from += 1)
          for (let to = 5; to <= highest + 4; to += 1) {
            const before = { ...startFlowControl(prepared, { percent: from }), slewLeft };
            const { percent, state } = advanceFlowControl(prepared, before, {
              ...{ elapsedSeconds, mlPerMin: 45, manualPercent: to },
            });
            const most = elapsedSeconds === 0 ? 0 : slewPerSecond + slewLeft;
            const found = twin(least, highest, from, to, most);
            const left = elapsedSeconds === 0 ? slewLeft : within(most - Math.abs(found - from), 0, step);
            const what = `${from} to ${to} by ${most}`;
            expect([percent, state.slewLeft ?? 0], what).toEqual([found, left]);
          }
  }
});

test('a step far below a thousandth is one too', () => {
  const percentStep = 2 ** -17;
  const config = { ...own, leastPercent: 8, mostPercent: 92, slewPerSecond: 4, percentStep };
  const prepared = prepareFlowControl(config);
  const percent = 50 + 0.4 * percentStep;
  const input = { elapsedSeconds: 1, mlPerMin: 45, manualPercent: percent };
  expect(advanceFlowControl(prepared, startFlowControl(prepared, { percent }), input).percent).toBe(50);
  const between = { leastPercent: percent, mostPercent: 50 + 0.6 * percentStep };
  expect(() => prepareFlowControl({ ...config, ...between })).toThrow('percentStep');
});

test('one speed at the highest limit is enough', () => {
  const config = { ...own, leastPercent: 9.5, mostPercent: 10, slewPerSecond: 4, percentStep: 5 };
  const prepared = prepareFlowControl(config);
  expect(advanceFlowControl(prepared, startFlowControl(prepared), { elapsedSeconds: 1, mlPerMin: 0 }).percent).toBe(10);
  expect(() => prepareFlowControl({ ...config, leastPercent: 10.5, mostPercent: 14.5 })).toThrow('percentStep');
});
