/** How often oil that is dirty in slugs passes a proof, as docs/flush.md says it. */
import { expect, test } from 'vitest';
import { advanceAcceptance, prepareAcceptance, startAcceptance } from '../../../src/acceptance/index.ts';
import { iso4406 } from '../../../src/codes/index.ts';
import { shares } from '../../chance.ts';
import { some } from '../../volume.ts';

const minute = 60000;
const day = 1440;
const runs = some(400, 30);

/**
 * In per cent: accepted within a day. Slugs of so many minutes begin at random, so many in an hour; a reading within
 * one is three classes worse than the target, any other one better.
 */
function accepted(perHour: number, lasting: number, readings: number, hours: number, every: number): number {
  const leastMs = hours * 60 * minute;
  const prepared = prepareAcceptance({ table: iso4406, target: '16/14/11', readings, leastMs });
  const share = shares(readings + every);
  let found = 0;
  for (let run = 0; run < runs; run += 1) {
    let state = startAcceptance(prepared);
    const pause = () => (-60 * Math.log(1 - share())) / perHour;
    let begins = pause() - lasting;
    let ended = -Infinity;
    for (let at = 0; at < day && state.accepted === undefined; at += every) {
      while (begins <= at) {
        ended = begins + lasting;
        begins += pause();
      }
      const iso = at < ended ? '19/17/14' : '15/13/10';
      state = advanceAcceptance(prepared, state, { time: at * minute, codes: { iso4406: iso } }).state;
    }
    if (state.accepted !== undefined) found += 1;
  }
  return (100 * found) / runs;
}

test.each([
  [1, 5, 25, 4, 10, 86],
  [2, 5, 25, 4, 10, 23],
  [2, 15, 5, 4, 60, 56],
  [1, 15, 49, 8, 10, 0],
])('%d in an hour of %d min; %d readings over %d h, every %d min: %d of 100', (...cell) => {
  const [perHour, lasting, readings, hours, every, stated] = cell;
  // four standard errors, and a little for none
  const room = 3 + 400 * Math.sqrt(((stated / 100) * (1 - stated / 100)) / runs);
  expect(Math.abs(accepted(perHour, lasting, readings, hours, every) - stated)).toBeLessThan(room);
});
