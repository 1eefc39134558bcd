/** Days written out one by one, and what the change detector must tell of each. */
import { expect, test } from 'vitest';
import { advanceChange, prepareChange, startChange } from '../../../src/trend/change/advance.ts';
import type { Change, ChangeState } from '../../../src/trend/change/types.ts';

/** A level of 17 that scatters by a tenth, always in the same way. */
const calm = (day: number) => 17 + ([0, 0.1, -0.1, 0.05, -0.05][(day * 3) % 5] as number);

function changesOf(valueOn: (day: number) => number, days: number): (Change & { readonly day: number })[] {
  const prepared = prepareChange();
  const told: (Change & { readonly day: number })[] = [];
  let state: ChangeState = startChange();
  for (let day = 0; day < days; day += 1) {
    const next = advanceChange(prepared, state, { day, value: valueOn(day) });
    state = next.state;
    if (next.change !== null) told.push({ day, ...next.change });
  }
  return told;
}

test('where a wild day is remembered, a step as large takes three days; without one it takes two', () => {
  for (const sign of [1, -1]) {
    const step = (day: number) => calm(day) + (day >= 60 ? 2 * sign : 0);
    const wild = (day: number) => step(day) + (day === 40 ? 2 * sign : 0);
    const direction = sign > 0 ? 'up' : 'down';
    expect(changesOf(step, 70)).toMatchObject([{ kind: 'step', direction, day: 61, since: 60 }]);
    expect(changesOf(wild, 70)).toMatchObject([{ kind: 'step', direction, day: 62 }]);
    // one to the other side, or one much farther off, says nothing of this step
    expect(changesOf((day) => step(day) - (day === 40 ? 2 * sign : 0), 70)).toMatchObject([{ day: 61 }]);
    expect(changesOf((day) => step(day) + (day === 40 ? 6 * sign : 0), 70)).toMatchObject([{ day: 61 }]);
  }
});

test('two wild days together are no step where one like them is remembered', () => {
  const days = (day: number) => calm(day) + (day === 40 || day === 60 || day === 61 ? 2 : 0);
  expect(changesOf(days, 75)).toEqual([]);
  expect(changesOf((day) => days(day) - (day === 40 ? 2 : 0), 75)[0]).toMatchObject({ kind: 'step', day: 61 });
});

test('a state without the day its level began, as none is made, begins on its last day', () => {
  const prepared = prepareChange();
  let state: ChangeState = startChange();
  for (let day = 0; day < 30; day += 1) state = advanceChange(prepared, state, { day, value: calm(day) }).state;
  const on = (since: number | null) => {
    const { state: _state, ...told } = advanceChange(prepared, { ...state, since }, { day: 30, value: 17 });
    return told;
  };
  expect(on(null)).toEqual(on(30));
  expect(on(null)).not.toEqual(on(0));
});
