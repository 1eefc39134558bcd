/** A code as counts: samples at the ends of what it allows, so that what works on counts works on codes. */
import type { CumulativeCounts } from '../../counts/types.ts';
import { exp } from '../../numeric/exponential.ts';
import { log } from '../../numeric/logarithm.ts';
import type { CountBands } from '../types.ts';
import { type Bound, minus } from './bound.ts';
import { largestDifference, nothing, placeOfSize } from './countSystem.ts';
import type { knowledgeOf } from './knowledge.ts';

interface Corners {
  /**
   * For what lies beyond the sizes known: the cleanest and the dirtiest, and the mixtures of ends drawn in towards the
   * middle of each band.
   */
  readonly outer: readonly CumulativeCounts[];
  /** Every mixture of ends in which no count rises with size: for what lies between the sizes known. */
  readonly all: readonly CumulativeCounts[];
}

/** So many sizes at most are mixed; a code of more takes its outer corners only. */
const maxMixed = 6;

/** Counts are their own and only corner. Bands have none where one leaves a size without a bound: there is no end. */
export function cornersOf(known: CumulativeCounts | CountBands, knowledge: ReturnType<typeof knowledgeOf>): Corners {
  if (!('bands' in known)) return { outer: [known], all: [known] };
  const { sizing } = known;
  const sizes = knowledge.sizes.filter((size) => known.bands.some((band) => band.from === size || band.to === size));
  const low: number[] = [];
  const high: number[] = [];
  for (const size of sizes) {
    const place = placeOfSize(knowledge.sizes, size);
    const least = largestDifference(knowledge.places, knowledge.differences, nothing, place) as Bound;
    const most = largestDifference(knowledge.places, knowledge.differences, place, nothing);
    if (most === null) return { outer: [], all: [] };
    low.push(Math.max(0, knowledge.perMl(minus(least))));
    high.push(knowledge.perMl(most));
  }
  const sample = (perMl: readonly number[]): CumulativeCounts => ({ sizing, sizes, perMl });
  const ends = [low, high].map(sample);
  if (sizes.length > maxMixed) return { outer: ends, all: ends };
  const inward = mixtures(drawnIn(low, high), drawnIn(high, low)).map(sample);
  return { outer: ends.concat(inward), all: mixtures(low, high).map(sample) };
}

/**
 * How far from the middle of a band towards its ends, on a logarithmic scale, the mixtures go. The ends themselves,
 * mixed, make slopes that no oil is likely to have; with no mixtures at all one class in fifteen is missed. Chosen by
 * measure (docs/comparison.md).
 */
const reach = 0.5;

/** One end of each band, drawn in. */
function drawnIn(ends: readonly number[], others: readonly number[]): number[] {
  return ends.map((end, i) => {
    const other = others[i] as number;
    if (end === 0 || other === 0) return end + ((other - end) * (1 - reach)) / 2;
    return exp(log(end) * ((1 + reach) / 2) + log(other) * ((1 - reach) / 2));
  });
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
