/** How often oil that is dirty in slugs passes a proof, as docs/flush.md says it. */
import { test } from 'vitest';
import { advanceAcceptance, prepareAcceptance, startAcceptance } from '../../../src/acceptance/index.ts';
import { iso4406 } from '../../../src/codes/index.ts';
import { shares } from '../../chance.ts';
import { some } from '../../volume.ts';
import { expectStated } from './statedShare.ts';

const minute = 60000;
const day = 1440;
const runs = some(400, 30);

/** When slugs and readings come. In step, slugs come as often, at equal distances from a time by chance. */
type Mode = 'at random' | 'in step' | 'in step, read at irregular times';

/**
 * In per cent: accepted within a day. Slugs of so many minutes begin so many times in an hour; a reading within one is
 * three classes worse than the target, any other one better. Irregular times lie half to one and a half of `every`
 * apart.
 */
function accepted(
  [perHour, lasting, readings, hours, every]: readonly [number, number, number, number, number],
  mode: Mode = 'at random',
): number {
  const leastMs = hours * 60 * minute;
  const prepared = prepareAcceptance({ table: iso4406, target: '16/14/11', readings, leastMs });
  const share = shares(readings + every);
  let found = 0;
  for (let run = 0; run < runs; run += 1) {
    let state = startAcceptance(prepared);
    const pause = () => (mode === 'at random' ? -60 * Math.log(1 - share()) : 60) / perHour;
    let begins = (mode === 'at random' ? pause() : (share() * 60) / perHour) - lasting;
    let ended = -Infinity;
    const step = () => (mode === 'in step, read at irregular times' ? every * (0.5 + share()) : every);
    for (let at = 0; at < day && state.accepted === undefined; at += step()) {
      while (begins <= at) {
        ended = begins + lasting;
        begins += pause();
      }
      const iso = at < ended ? '19/17/14' : '15/13/10';
      state = advanceAcceptance(prepared, state, { time: Math.round(at * minute), codes: { iso4406: iso } }).state;
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
  expectStated(accepted([perHour, lasting, readings, hours, every]), stated, runs);
});

test.each([
  [1, 25, 4, 48, 50],
  [2, 25, 4, 54, 6],
  [3, 25, 4, 45, 1],
  [1, 49, 8, 49, 4],
  [2, 49, 8, 51, 0],
  [3, 49, 8, 45, 0],
])('%d in an hour of 5 min in step with %d readings over %d h: %d of 100, %d where these are irregular', (...cell) => {
  const [perHour, readings, hours, stated, irregular] = cell;
  const of = [perHour, 5, readings, hours, 10] as const;
  expectStated(accepted(of, 'in step'), stated, runs);
  expectStated(accepted(of, 'in step, read at irregular times'), irregular, runs);
});
