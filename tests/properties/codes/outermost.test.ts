/** How often limits of 95 % hold the truth with all errors, size by size: what docs/sure.md says, measured. */
import { expect, test } from 'vitest';
import { codeUncertainty, iso4406 } from '../../../src/codes/index.ts';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import { normalOf, poissonOf, shares } from '../../chance.ts';
import { some } from '../../volume.ts';

const runs = some(4000, 300);
const error = 0.03;
type Distribution = (size: number) => number;
/** log N against the square of log size; a slope of 0.926 is that of MIL-STD-1246C (1994), clause 1.4. */
const steepening =
  (slope: number): Distribution =>
  (size) =>
    3000 * 10 ** (-slope * (Math.log10(size) ** 2 - Math.log10(4) ** 2));

/** In per cent, size by size. */
function held(truth: Distribution, sizes: readonly number[]): number[] {
  const share = shares(11);
  const within = sizes.map(() => 0);
  for (let run = 0; run < runs; run += 1) {
    const volume = 10 * Math.exp(error * normalOf(share));
    const expected = sizes.map((size) => volume * truth(size * Math.exp(error * normalOf(share))));
    const at: Record<number, number> = {};
    let above = 0;
    for (let i = sizes.length - 1; i >= 0; i -= 1) {
      above += poissonOf(Math.max(0, (expected[i] as number) - (expected[i + 1] ?? 0)), share);
      at[sizes[i] as number] = above;
    }
    const counts = cumulativeCounts(at, { volumeMl: 10 });
    codeUncertainty(iso4406, counts, { volume: error, sizing: error }).columns.forEach(({ low, high }, i) => {
      const one = truth(sizes[i] as number);
      if (low <= one && one <= high) within[i] = (within[i] as number) + 1;
    });
  }
  return within.map((count) => (100 * count) / runs);
}

/** Four standard errors of a share of 95 %. */
const room = 400 * Math.sqrt(0.0475 / runs);

test.each<[string, Distribution]>([
  ['a power law of 2', (size) => 3000 * (4 / size) ** 2],
  ['a power law of 4', (size) => 3000 * (4 / size) ** 4],
  ['log-log², slope 0.926', steepening(0.926)],
  ['log-log², slope 1.5', steepening(1.5)],
])('%s: at every size, and the outermost', (_name, truth) => {
  const found = held(truth, [4, 6, 14]);
  for (const share of found) {
    expect(share).toBeGreaterThan(94.5 - room);
    expect(share).toBeLessThan(97.5 + room);
  }
});

test('the larger of two sizes: less, where the slope rises', () => {
  const found = held(steepening(0.926), [6, 14]) as number[];
  expect(Math.abs((found[0] as number) - 97)).toBeLessThan(room);
  expect(Math.abs((found[found.length - 1] as number) - 91)).toBeLessThan(1.3 * room);
});
