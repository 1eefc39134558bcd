/** How often chance alone gives a Kendall count at least so far from zero. */
import { normalBelow } from '../numeric/normal.ts';

/**
 * The most points for which the arrangements (n! of them) can be counted in whole numbers that a double holds exactly.
 */
export const mostForExact = 18;

/**
 * The exact two-sided chance, with ties among the values and none among the times.
 *
 * The arrangements with each number of falling pairs are the coefficients of [n]! / ([t1]! [t2]! ...), where [n]! is
 * the product of 1 + q + ... + q^(k-1) for k up to n (MacMahon, Combinatory Analysis (1915), volume 1, section III).
 * Multiplied and divided out in whole numbers.
 */
export function exactChance(n: number, valueTies: readonly number[], s: number): number {
  const counts = [1];
  for (let k = 2; k <= n; k += 1) multiply(counts, k);
  for (const t of valueTies) for (let k = 2; k <= t; k += 1) divide(counts, k);
  const most = counts.length - 1;
  let all = 0;
  let asFar = 0;
  counts.forEach((count, falling) => {
    all += count;
    if (Math.abs(most - 2 * falling) >= Math.abs(s)) asFar += count;
  });
  return asFar / all;
}

/** Times 1 + q + ... + q^(k-1). */
function multiply(counts: number[], k: number): void {
  const before = counts.slice();
  let sum = 0;
  for (let i = 0; i < before.length + k - 1; i += 1) {
    sum += (before[i] ?? 0) - (before[i - k] ?? 0);
    counts[i] = sum;
  }
}

/** Divided by 1 + q + ... + q^(k-1), which leaves nothing over. */
function divide(counts: number[], k: number): void {
  for (let i = counts.length - 1; i > 0; i -= 1) counts[i] = (counts[i] as number) - (counts[i - 1] as number);
  for (let i = k; i < counts.length; i += 1) counts[i] = (counts[i] as number) + (counts[i - k] as number);
  counts.length -= k - 1;
}

/** The count in standard deviations, one step nearer to zero for its coming in steps of two (continuity correction). */
export function standardised(s: number, variance: number): number {
  if (s === 0) return 0;
  return (s > 0 ? s - 1 : s + 1) / Math.sqrt(variance);
}

/** The two-sided chance by the normal distribution. */
export function normalChance(z: number): number {
  return Math.min(1, 2 * normalBelow(-Math.abs(z)));
}
