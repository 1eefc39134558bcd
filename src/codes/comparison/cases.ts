/** The cases that a code leaves open, such as which of the columns that have a class together decided it. */
import type { Sizing } from '../../counts/types.ts';
import { placeOf } from '../classIndex.ts';
import type { ClassSpan, ClassTable } from '../types.ts';
import type { Claim, Claims } from './claims.ts';
import { type Difference, isPossible } from './countSystem.ts';
import type { PairSystem } from './pairSystem.ts';
import { spanOf } from './span.ts';

/** Every way in which what a code says can hold together with what is known; with `first`, one of them. */
export function casesOf(
  { places, said }: PairSystem,
  table: ClassTable,
  { always, oneOf }: Claims,
  known: readonly Difference[],
  first = false,
): (readonly Difference[])[] {
  const found: (readonly Difference[])[] = [];
  const add = (differences: readonly Difference[], claims: readonly Claim[]) =>
    claims.reduce((all, claim) => all.concat(said(table, claim)), differences.slice());
  const search = (differences: readonly Difference[], i: number) => {
    if ((first && found.length > 0) || !isPossible(places, differences)) return;
    const ways = oneOf[i];
    if (ways === undefined) found.push(differences);
    else for (const claims of ways) search(add(differences, claims), i + 1);
  };
  search(add(known, always), 0);
  return found;
}

/** What at least one of several cases leaves possible. */
export function spanOfAny(
  table: ClassTable,
  sizing: Sizing,
  { sizes, places, unit }: PairSystem,
  cases: readonly (readonly Difference[])[],
): ClassSpan {
  const inUnit = (limit: number) => unit.most(table, limit);
  const spans = cases.map((differences) => spanOf(table, { sizing, sizes, places, differences, inUnit }));
  const cleaner = (a: string, b: string) => (placeOf(table, b) < placeOf(table, a) ? b : a);
  const dirtier = (a: string, b: string) => (placeOf(table, b) > placeOf(table, a) ? b : a);
  // not every engine reduces a list of one without a value to begin with
  return spans.slice(1).reduce(
    (all, span) => ({
      lowest: cleaner(all.lowest, span.lowest),
      highest: dirtier(all.highest, span.highest),
      columns: all.columns.map(({ column, lowest, highest }, i) => {
        const own = span.columns[i] as ClassSpan['columns'][number];
        return { column, lowest: cleaner(lowest, own.lowest), highest: dirtier(highest, own.highest) };
      }),
      // of a column that one case leaves open altogether, the code says nothing
      unseen: table.columns
        .map(({ label }) => label)
        .filter((label) => all.unseen.indexOf(label) >= 0 || span.unseen.indexOf(label) >= 0),
    }),
    spans[0] as ClassSpan,
  );
}
