/** What docs/sure.md says of sampling told from few bottles, measured. */
import { expect, test } from 'vitest';
import { codeUncertainty, indexOfDispersion, iso4406 } from '../../../src/codes/index.ts';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import { normalOf, poissonOf, shares } from '../../chance.ts';
import { some } from '../../volume.ts';

const runs = some(4000, 1000);
/** Per bottle of 10 mL, and how far bottles of one oil lie apart. */
const particles = 14500;
const apart = 0.06;

/** Whether limits made with this sampling hold the truth, where no other error is. */
function holds(counted: number, sampling: number): boolean {
  const counts = cumulativeCounts({ 4: counted }, { volumeMl: 10 });
  const column = codeUncertainty(iso4406, counts, { volume: 0, sizing: 0, sampling }).columns[0];
  if (column === undefined) throw new Error('no column');
  return column.low <= particles / 10 && particles / 10 <= column.high;
}

/** In per cent: how often limits of one more bottle hold, after so many with so many counts each. */
function held(bottles: number, countsOfEach: number, factor: number): number {
  const share = shares(bottles);
  let within = 0;
  for (let run = 0; run < runs; run += 1) {
    const bottle = () => particles * Math.exp(apart * normalOf(share));
    const repeats: number[] = [];
    for (let i = 0; i < bottles; i += 1) {
      const mean = bottle();
      for (let k = 0; k < countsOfEach; k += 1) repeats.push(poissonOf(mean, share));
    }
    if (holds(poissonOf(bottle(), share), factor * indexOfDispersion(repeats).excess)) within += 1;
  }
  return (100 * within) / runs;
}

/** Four standard errors of a share near 90 %. */
const room = 400 * Math.sqrt(0.09 / runs);

test.each([
  [4, 1.62, 86],
  [6, 1.31, 89.5],
  [10, 1.15, 92],
])('%d bottles: times %d the limits hold', (bottles, factor, plain) => {
  expect(Math.abs(held(bottles, 1, factor) - 94.5)).toBeLessThan(room);
  expect(Math.abs(held(bottles, 1, 1) - plain)).toBeLessThan(room);
});

test('two bottles counted twice are no four bottles', () => {
  expect(Math.abs(held(2, 2, 1) - 66)).toBeLessThan(2 * room);
});
