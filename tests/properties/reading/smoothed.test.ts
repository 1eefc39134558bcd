/** A sound counter that smooths its counts: how often it is called stuck, as docs/readings.md says, measured. */
import { expect, test } from 'vitest';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import { assessReading, type Reading } from '../../../src/reading/index.ts';
import { poissonOf, shares } from '../../chance.ts';
import { some } from '../../volume.ts';

const days = some(100, 12);

/** How often in 100 days, a reading of 10 mL every 20 minutes. */
function calledStuck(weight: number, perMl: readonly [number, number, number]): number {
  const share = shares(5);
  let shown: readonly number[] = perMl;
  const earlier: Reading[] = [];
  let [times, stands] = [0, false];
  for (let i = 0; i < 72 * days; i += 1) {
    const large = poissonOf(10 * perMl[2], share);
    const middle = large + poissonOf(10 * (perMl[1] - perMl[2]), share);
    const counted = [middle + poissonOf(10 * (perMl[0] - perMl[1]), share), middle, large];
    shown = shown.map((one, k) => one + weight * ((counted[k] as number) / 10 - one));
    const [four, six, fourteen] = shown.map((one) => Math.round(10 * one)) as [number, number, number];
    const counts = cumulativeCounts({ 4: four, 6: six, 14: fourteen }, { volumeMl: 10 });
    const reading = { time: i * 1200000, counts };
    const stuck = assessReading(reading, {}, earlier).findings.some(({ code }) => code === 'values_stuck');
    if (stuck && !stands) times += 1;
    stands = stuck;
    earlier.push(reading);
    if (earlier.length > 40) earlier.shift();
  }
  return (100 * times) / days;
}

test('of few particles and strong smoothing often, of many or with little smoothing not', () => {
  const often = calledStuck(0.05, [61, 11.5, 1.5]);
  expect(often).toBeGreaterThan(90);
  expect(often).toBeLessThan(240);
  expect(calledStuck(0.05, [1900, 400, 33])).toBeLessThanOrEqual(9);
  expect(calledStuck(0.3, [61, 11.5, 1.5])).toBe(0);
});
