/** How often the limits of one class over several ranges hold it, where all ranges lie at the limit of that class. */
import { expect, test } from 'vitest';
import { codeInterval, nas1638 } from '../../../src/codes/index.ts';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import { poissonOf, shares } from '../../chance.ts';
import { some } from '../../volume.ts';

/** NAS 1638:1964, Table 1, class 7, per 100 mL. */
const limits = [32000, 5700, 1012, 180, 32];
const sizes = [6, 14, 21, 38, 70];

test.each([
  [1, 10, 0.95, 0.895],
  [1, 100, 0.95, 0.897],
  [0.9, 10, 0.95, 0.987],
  [1, 10, 0.99, 0.98],
  [1, 100, 0.99, 0.98],
])('%d times the limits of class 7 in %d mL, a level of %d: held in a share of %d', (part, volumeMl, ...row) => {
  const [confidence, stated] = row;
  const share = shares(15);
  const runs = some(2000, 200);
  let held = 0;
  for (let run = 0; run < runs; run += 1) {
    const at: Record<number, number> = {};
    let larger = 0;
    for (let i = limits.length - 1; i >= 0; i -= 1) {
      larger += poissonOf((part * volumeMl * (limits[i] as number)) / 100, share);
      at[sizes[i] as number] = larger;
    }
    const { low, high } = codeInterval(nas1638, cumulativeCounts(at, { volumeMl }), { confidence });
    const place = (text: string) => nas1638.classes.indexOf(text);
    const truth = place('7');
    if (place(low.text) <= truth && truth <= place(high.text)) held += 1;
  }
  expect(Math.abs(held / runs - stated)).toBeLessThan(0.01 + 4 * Math.sqrt((stated * (1 - stated)) / runs));
});
