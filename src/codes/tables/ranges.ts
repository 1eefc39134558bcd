/** The columns of a table that counts between two sizes, and where its sizes for ISO 11171 counters are from. */
import type { ClassColumn } from '../types.ts';

/** Of a table whose standard names no sizes for them. */
export const printedPairsNote: string =
  'Sizes for ISO 11171 counters are the printed pairs of ISO 11171:1999 (5 µm is 6.4 µm(c)); the standard itself ' +
  'names none. That 100 µm is 70 µm(c) stands in one reproduction only of those pairs, and in the heads of SAE ' +
  'AS4059.';

/** A size as the standard prints it, for microscope and ISO 4402, and the same with ISO 11171 where there is one. */
type PrintedSize = readonly [size: number, iso11171?: number];

/** From each size to the next, `5-15`, with ISO 11171 where both ends have it; and the columns that are no ranges. */
export function rangesBetween(sizes: readonly PrintedSize[], more: readonly ClassColumn[]): readonly ClassColumn[] {
  const ranges = sizes.slice(1).map(([to, toC], i): ClassColumn => {
    const [from, fromC] = sizes[i] as PrintedSize;
    const both = fromC !== undefined && toC !== undefined;
    return {
      label: `${from}-${to}`,
      from: sized(from, both ? fromC : undefined),
      to: sized(to, both ? toC : undefined),
    };
  });
  return ranges.concat(more);
}

/** The same, and all that is larger than the last: `>100`. */
export function rangesUpwards(sizes: readonly PrintedSize[]): readonly ClassColumn[] {
  const [last, lastC] = sizes[sizes.length - 1] as PrintedSize;
  return rangesBetween(sizes, [{ label: `>${last}`, from: sized(last, lastC) }]);
}

function sized(size: number, iso11171: number | undefined): ClassColumn['from'] {
  const printed = { microscope: size, iso4402: size };
  return iso11171 === undefined ? printed : { ...printed, iso11171 };
}
