/**
 * The value of a given rank in an unordered list, without sorting it all.
 *
 * Source: C. A. R. Hoare, Algorithm 65: find, Commun. ACM 4 (1961) 321; the middle of three as pivot.
 */
import { doubles, type NumberList } from './lists.ts';

/** The `rank`th smallest, from 1. Rearranges the list. */
export function selectRank(values: NumberList, rank: number): number {
  const target = rank - 1;
  let low = 0;
  let high = values.length - 1;
  while (low < high) {
    const pivot = middleOf(values, low, high);
    let i = low;
    let j = high;
    while (i <= j) {
      while ((values[i] as number) < pivot) i += 1;
      while ((values[j] as number) > pivot) j -= 1;
      if (i <= j) {
        const kept = values[i] as number;
        values[i] = values[j] as number;
        values[j] = kept;
        i += 1;
        j -= 1;
      }
    }
    if (target <= j) high = j;
    else if (target >= i) low = i;
    else return values[target] as number;
  }
  return values[target] as number;
}

/** The median of a list, which is left as it was: the mean of the middle two where there is an even number. */
export function medianOf(values: NumberList): number {
  if (values.length > 0 && values.length <= few) return medianOfFew(values);
  const copy = doubles(values.length);
  for (let i = 0; i < copy.length; i += 1) copy[i] = values[i] as number;
  const half = Math.floor(copy.length / 2);
  const upper = selectRank(copy, half + 1);
  return copy.length % 2 === 1 ? upper : (selectRank(copy, half) + upper) / 2;
}

/** Lists as short as this are sorted by insertion, which spares a list of doubles for each. */
const few = 16;

function medianOfFew(values: NumberList): number {
  const sorted: number[] = [];
  for (let i = 0; i < values.length; i += 1) {
    const value = values[i] as number;
    let place = i;
    for (; place > 0 && (sorted[place - 1] as number) > value; place -= 1) sorted[place] = sorted[place - 1] as number;
    sorted[place] = value;
  }
  const half = Math.floor(sorted.length / 2);
  const upper = sorted[half] as number;
  return sorted.length % 2 === 1 ? upper : ((sorted[half - 1] as number) + upper) / 2;
}

function middleOf(values: NumberList, low: number, high: number): number {
  const a = values[low] as number;
  const b = values[Math.floor((low + high) / 2)] as number;
  const c = values[high] as number;
  return Math.max(Math.min(a, b), Math.min(Math.max(a, b), c));
}
