/** A class proved by a counter of few sizes: what was not counted is as unsure as the few particles that bound it. */
import { expect, test } from 'vitest';
import { advanceAcceptance, prepareAcceptance, startAcceptance } from '../../../src/acceptance/index.ts';
import { nas1638 } from '../../../src/codes/index.ts';
import { minute } from '../../../src/state/timeSteps.ts';
import { poissonOf, shares } from '../../chance.ts';

/** Particles in 10 mL from each size to the next: class 3 to 5 of NAS 1638 at 4, 6 and 14 µm(c). */
const between = [850, 362, 32, 6];

function proved(target: string, seed: number): boolean {
  const share = shares(seed);
  const limits = { particles: 20, leastKPa: 20, mlPerMin: { low: 20, high: 80 } };
  const prepared = prepareAcceptance({ table: nas1638, target, readings: 4, limits });
  let state = startAcceptance(prepared);
  for (let i = 0; i < 40; i += 1) {
    const counted: number[] = [];
    let beyond = 0;
    for (const mean of [...between].reverse()) {
      beyond += poissonOf(mean, share);
      counted.unshift(beyond);
    }
    const perMl = counted.map((count) => count / 10);
    const counts = { sizing: 'iso11171', sizes: [4, 6, 14, 21], perMl, counted, volumeMl: 10 } as const;
    const step = advanceAcceptance(prepared, state, { time: 10 * i * minute, kPa: 100, mlPerMin: 50, counts });
    state = step.state;
    if (step.events.some(({ event }) => event === 'accepted')) return true;
  }
  return false;
}

test('a target far dirtier than the oil is proved, one that the few particles do not show is not', () => {
  const seeds = [1, 2, 3, 4, 5];
  expect(seeds.filter((seed) => proved('11', seed))).toEqual(seeds);
  expect(seeds.filter((seed) => proved('8', seed))).toEqual([]);
});
