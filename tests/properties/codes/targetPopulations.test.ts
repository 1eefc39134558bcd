/** What the probability of a target is worth where the oils are not even about the limit, as docs/sure.md tells it. */
import { expect, test } from 'vitest';
import { iso4406, targetProbability } from '../../../src/codes/index.ts';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import { normalOf, poissonOf, shares } from '../../chance.ts';
import { some } from '../../volume.ts';

/** Of 6 µm(c) alone, in a distribution of slope 3; `times` the limit of 640 per mL is what the counter sees. */
function said(times: number, volumeMl: number, share: () => number): number {
  const seen = 640 * times * volumeMl;
  const six = poissonOf(seen, share);
  const sizes = { 4: six + poissonOf(2.4 * seen, share), 6: six, 14: Math.min(six, poissonOf(0.079 * seen, share)) };
  return targetProbability(iso4406, '-/16/-', cumulativeCounts(sizes, { volumeMl })).probability as number;
}

/** Volume and sizes off by 3 %, as is assumed where nothing is given: by how much a counter is wrong. */
const factor = (share: () => number) => Math.exp(0.03 * normalOf(share) + 3 * 0.03 * normalOf(share));

const lognormal = (middle: number, scatter: number) => (share: () => number) =>
  middle * Math.exp(scatter * normalOf(share));

test.each([
  ['even about the limit', (share: () => number) => 0.5 * 4 ** share(), [0.37, 0.635, 0.855]],
  ['mostly cleaner, 0.7 times it', lognormal(0.7, 0.2), [0.69, 0.86, 0.95]],
  ['mostly dirtier, 1.3 times it', lognormal(1.3, 0.2), [0.18, 0.4, 0.58]],
  ['mostly dirtier, 1.2 times it', lognormal(1.2, 0.1), [0.06, 0.16, 0.29]],
])('oils %s: met in truth where 25 to 50, 50 to 75 and 75 to 90 per cent were said', (_oils, draw, stated) => {
  const share = shares(23);
  const found = stated.map(() => ({ said: 0, met: 0 }));
  for (let i = 0; i < some(24000, 1200); i += 1) {
    const truth = draw(share);
    const seen = truth * factor(share);
    // beyond these more than 90 or less than 25 per cent are said
    if (seen > 1.2 || seen < 0.8) continue;
    const probability = said(seen, 10, share);
    const bin = [0.25, 0.5, 0.75, 0.9].filter((from) => probability > from).length - 1;
    const row = found[bin];
    if (row === undefined) continue;
    row.said += 1;
    if (truth <= 1) row.met += 1;
  }
  found.forEach(({ said, met }, i) => {
    const share = stated[i] as number;
    expect(Math.abs(met / said - share)).toBeLessThan(0.015 + 4 * Math.sqrt((share * (1 - share)) / said));
  });
});

test.each([
  [0.05, 0.48],
  [0.2, 0.27],
  [1, 0.07],
])('oil at 1.05 times the limit in %d mL, counted again until 95 per cent are said', (volume, stated) => {
  const share = shares(24);
  const runs = some(1000, 50);
  let found = 0;
  for (let run = 0; run < runs; run += 1) {
    const seen = 1.05 * factor(share);
    for (let i = 0; i < 48; i += 1) {
      if (said(seen, volume, share) < 0.95) continue;
      found += 1;
      break;
    }
  }
  expect(Math.abs(found / runs - stated)).toBeLessThan(0.015 + 4 * Math.sqrt((stated * (1 - stated)) / runs));
});
