/** What a mean of continuous scale numbers is worth where few particles are counted. */
import { continuousScaleNumber } from '../../src/codes/index.ts';
import { type Draws, percent, type Table } from './table.ts';

/** A draw of Poisson's law by multiplying shares (D. E. Knuth), for means up to some hundreds. */
function poisson({ share }: Draws, mean: number): number {
  const limit = Math.exp(-mean);
  let count = 0;
  for (let left = share(); left > limit; left *= share()) count += 1;
  return count;
}

/** Readings of 1 mL, 24 a day: each counts by chance alone. */
export const fewParticles: Table = (run) => {
  const rows = [0.5, 1, 2, 4, 8, 16, 32].map((mean) => {
    const from = run.fresh();
    const offsOf = (expected: number) => {
      const truth = continuousScaleNumber(expected);
      const offs: number[] = [];
      for (let i = 0; i < run.count; i += 1) {
        let sum = 0;
        for (let hour = 0; hour < 24; hour += 1) sum += continuousScaleNumber(poisson(from, expected));
        offs.push(sum / 24 - truth);
      }
      return offs.reduce((sum, one) => sum + one, 0) / offs.length;
    };
    let none = 0;
    for (let i = 0; i < run.count; i += 1) if (poisson(from, mean) === 0) none += 1;
    const [off, doubled] = [offsOf(mean), offsOf(2 * mean)];
    return [`${mean}`, percent(none, run.count), off.toFixed(2), (1 + doubled - off).toFixed(2)];
  });
  return [
    ['particles expected a reading', 'readings without any, %', 'mean off by', 'twice as many look like a step of'],
    ...rows,
  ];
};
