/**
 * A code as counts: the cleanest and the dirtiest sample it speaks of, so that what works on counts works on codes.
 */
import type { CumulativeCounts } from '../../counts/types.ts';
import type { CountBand, CountBands } from '../types.ts';

/** Counts stay what they are. Bands give all lower ends together and all upper ends together, held so that no count rises with size. */
export function cornersOf(known: CumulativeCounts | CountBands): readonly CumulativeCounts[] {
  if (!('bands' in known)) return [known];
  const cumulative = known.bands.every((band) => band.to === null);
  const bands = known.bands.slice().sort((a, b) => a.from - b.from);
  const low = cornerOf(known, bands, cumulative, (band) => band.above);
  const high = cornerOf(known, bands, cumulative, (band) => band.upTo);
  return [low, high].filter((corner): corner is CumulativeCounts => corner !== null);
}

/** Bands without an end on this side are left out; null if none is left. Bands between sizes are added up from the largest size down. */
function cornerOf(
  known: CountBands,
  bands: readonly CountBand[],
  cumulative: boolean,
  end: (band: CountBand) => number | null,
): CumulativeCounts | null {
  const sizes: number[] = [];
  const perMl: number[] = [];
  let larger = 0;
  for (let i = bands.length - 1; i >= 0; i -= 1) {
    const band = bands[i] as CountBand;
    const value = end(band);
    if (value === null) continue;
    larger = cumulative ? Math.max(value, larger) : larger + value;
    sizes.unshift(band.from);
    perMl.unshift(larger);
  }
  return sizes.length === 0 ? null : { sizing: known.sizing, sizes, perMl };
}
