/**
 * The limits of a median, exact for any continuous distribution: how many of n values lie below it is decided as by n tosses of a coin.
 *
 * Source: W. J. Conover, Practical Nonparametric Statistics, 2nd ed. (1980), 3.2.
 */
import { doubles } from '../numeric/lists.ts';
import { normalQuantile } from '../numeric/normal.ts';
import { selectRank } from '../numeric/selectRank.ts';
import { binomialAtLeast } from '../numeric/tails.ts';

/** Two-sided limits at this risk; null where there are too few values for one so small. */
export function medianLimits(values: readonly number[], risk: number): { low: number; high: number } | null {
  const n = values.length;
  let rank = Math.floor((n + normalQuantile(risk / 2) * Math.sqrt(n)) / 2) + 2;
  while (rank > 0 && 2 * binomialAtLeast(n - rank + 1, n, 0.5, 0.5) > risk) rank -= 1;
  if (rank <= 0) return null;
  const copy = doubles(n);
  values.forEach((value, i) => {
    copy[i] = value;
  });
  return { low: selectRank(copy, rank), high: selectRank(copy, n + 1 - rank) };
}
