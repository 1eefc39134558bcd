/** The rhythm of the week: what each day of the week lies above the days around it. */
import { medianOf } from '../../numeric/selectRank.ts';
import type { Ring } from './ring.ts';

const fewestWeeks = 3;

/** The ring, whose last day is `last`, freed of the rhythm of the week, but for weekdays seen in fewer than three. */
export function withoutWeekdays(ring: Ring, last: number): (number | null)[] {
  const weekday = (i: number) => {
    const rest = (last - ring.length + 1 + i) % 7;
    return rest < 0 ? rest + 7 : rest;
  };
  const above: number[][] = [[], [], [], [], [], [], []];
  for (let i = 3; i < ring.length - 3; i += 1) {
    const value = ring[i];
    if (value === null || value === undefined) continue;
    let sum = 0;
    let count = 0;
    for (let j = i - 3; j <= i + 3; j += 1) {
      if (ring[j] === null) continue;
      sum += ring[j] as number;
      count += 1;
    }
    if (count >= 6) (above[weekday(i)] as number[]).push(value - sum / count);
  }
  const offsets = above.map((list) => (list.length >= fewestWeeks ? medianOf(list) : 0));
  return ring.map((value, i) => (value === null ? null : value - (offsets[weekday(i)] as number)));
}
