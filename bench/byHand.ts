/** A classification written by hand: the measure of what general code costs. */
import { iso4406 } from '../src/codes/index.ts';
import type { CumulativeCounts } from '../src/counts/index.ts';

const limits = iso4406.limits.map(([limit]) => limit as number);

/** What one would write by hand for one table, with the same answer: the measure of what the general engine costs. */
export function classifyByHand({ sizes, perMl, counted }: CumulativeCounts): object {
  const parts: { column: string; class: string; mark?: string }[] = [];
  const evidence: object[] = [];
  let worst = 0;
  for (const size of [4, 6, 14]) {
    const place = sizes.indexOf(size);
    const count = perMl[place] as number;
    let number = 0;
    while (number < 29 && count > (limits[number] as number)) number += 1;
    const column = `${size}`;
    const few = counted !== undefined && (counted[place] as number) < 20;
    const named = iso4406.classes[number] as string;
    parts.push(few ? { column, class: named, mark: 'few_counted' } : { column, class: named });
    evidence.push({ column, count, above: number === 0 ? 0 : limits[number - 1], upTo: limits[number] });
    worst = Math.max(worst, number);
  }
  const named = iso4406.classes[worst] as string;
  const text = parts.map((part) => part.class).join('/');
  const worstColumns = parts.filter((part) => part.class === named).map((part) => part.column);
  return { table: 'iso4406', parts, text, evidence, worst: named, worstColumns, missing: [] };
}
