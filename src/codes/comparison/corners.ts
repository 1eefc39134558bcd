/**
 * A code as counts: samples at the ends of what it allows, so that what works on counts works on codes.
 */
import type { CumulativeCounts } from '../../counts/types.ts';
import type { CountBands } from '../types.ts';
import { largestDifference, nothing } from './countSystem.ts';
import type { Knowledge } from './knowledge.ts';

/** Samples at the ends. */
export interface Corners {
  /** The cleanest and the dirtiest, with all sizes at the same end: for what lies beyond the sizes known. */
  readonly outer: readonly CumulativeCounts[];
  /** Every mixture of ends in which no count rises with size: for what lies between the sizes known. */
  readonly all: readonly CumulativeCounts[];
}

/** So many sizes at most are mixed; a code of more takes its outer corners only. */
const maxMixed = 6;

/** Counts are their own and only corner. Null for bands that leave some size without a bound: they have no end to stand on. */
export function cornersOf(known: CumulativeCounts | CountBands, knowledge: Knowledge): Corners | null {
  if (!('bands' in known)) return { outer: [known], all: [known] };
  const { sizing } = known;
  const sizes = knowledge.sizes.filter((size) => known.bands.some((band) => band.from === size || band.to === size));
  const low: number[] = [];
  const high: number[] = [];
  for (const size of sizes) {
    const place = knowledge.sizes.indexOf(size) + 1;
    const least = largestDifference(knowledge.sizes.length + 1, knowledge.differences, nothing, place);
    const most = largestDifference(knowledge.sizes.length + 1, knowledge.differences, place, nothing);
    if (most === null) return null;
    low.push(least === null ? 0 : Math.max(0, knowledge.perMl(-least.value)));
    high.push(knowledge.perMl(most.value));
  }
  const outer = [low, high].map((perMl) => ({ sizing, sizes, perMl }));
  if (sizes.length > maxMixed) return { outer, all: outer };
  return { outer, all: mixtures(low, high).map((perMl) => ({ sizing, sizes, perMl })) };
}

function mixtures(low: readonly number[], high: readonly number[]): number[][] {
  let mixed: number[][] = [[]];
  low.forEach((least, i) => {
    const longer: number[][] = [];
    for (const start of mixed) {
      for (const count of [least, high[i] as number]) {
        if (i === 0 || count <= (start[i - 1] as number)) longer.push(start.concat(count));
      }
    }
    mixed = longer;
  });
  return mixed;
}
