/**
 * Coincidence in the limits of a count: particles pass at random, those in the beam at once are one pulse of all their
 * areas, and the truth lies within the limits at every size. The model is ours; coincidence hides small particles and
 * shows larger ones that are not there (common practice).
 */
import { expect, test } from 'vitest';
import { codeUncertainty, iso4406 } from '../../../src/codes/index.ts';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import { shares } from '../../chance.ts';

const sizes = [4, 6, 14];

/** Particles of 4 µm and larger with a slope of the counts: how many passed at each size, and how many were seen. */
function passed(particles: number, slope: number, loss: number): { truth: number[]; seen: number[] } {
  const share = shares(9);
  const inBeam = -Math.log(1 - loss);
  const [truth, seen] = [sizes.map(() => 0), sizes.map(() => 0)];
  const add = (to: number[], size: number) => {
    sizes.forEach((from, i) => {
      if (size >= from) to[i] = (to[i] as number) + 1;
    });
  };
  let [now, end, area] = [0, 0, 0];
  for (let i = 0; i < particles; i += 1) {
    now -= Math.log(1 - share());
    const size = 4 * (1 - share()) ** (-1 / slope);
    add(truth, size);
    if (now >= end) {
      if (area > 0) add(seen, Math.sqrt(area));
      area = 0;
      end = now + inBeam;
    }
    area += size * size;
  }
  add(seen, Math.sqrt(area));
  return { truth, seen };
}

test.each([
  [2.4, 0.1],
  [2.4, 0.2],
  [3, 0.05],
  [3, 0.1],
  [3, 0.2],
])('slope %d, a loss of %d: fewer small ones, more large ones, and the limits hold both', (slope, loss) => {
  const { truth, seen } = passed(400000, slope, loss);
  const ratios = sizes.map((_, i) => (seen[i] as number) / (truth[i] as number));
  expect(ratios[0]).toBeCloseTo(1 - loss, 1);
  expect(Math.min(ratios[1] as number, ratios[2] as number)).toBeGreaterThan(1);
  const counts = cumulativeCounts(
    { 4: seen[0] as number, 6: seen[1] as number, 14: seen[2] as number },
    { volumeMl: 25 },
  );
  const errors = { coincidence: loss, volume: 0.001, sizing: 0.001 };
  codeUncertainty(iso4406, counts, errors).columns.forEach(({ low, high, perMl }, i) => {
    const perMlTrue = (truth[i] as number) / 25;
    expect([i, low < perMlTrue, perMlTrue < high]).toEqual([i, true, true]);
    // the middle of the limits moves up only where small ones hide
    const middle = (Math.log(high / perMl) + Math.log(low / perMl)) / 2;
    expect(Math.abs(middle - (i === 0 ? loss / 2 : 0))).toBeLessThan(0.01);
  });
});
