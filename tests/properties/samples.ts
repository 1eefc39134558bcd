/**
 * Random samples of oil for the comparison tests: counts at all sizes of a table, and the same sample known only in
 * part.
 */
import * as codes from '../../src/codes/index.ts';
import { type CumulativeCounts, cumulativeCounts, type Sizing } from '../../src/counts/index.ts';

export const tables: readonly [codes.ClassTable, Sizing][] = [
  [codes.iso4406, 'iso11171'],
  [codes.iso4406Microscope, 'microscope'],
  [codes.as4059Differential, 'iso11171'],
  [codes.as4059Cumulative, 'iso11171'],
  [codes.nas1638, 'iso11171'],
  [codes.gost17216, 'iso11171'],
  [codes.sae749d, 'microscope'],
  [codes.navair, 'microscope'],
  [codes.cc1246, 'iso11171'],
];

export function indexOf(table: codes.ClassTable, name: string): number {
  return name.startsWith('>') ? table.classes.length : table.classes.indexOf(name);
}

export function sizesOf(table: codes.ClassTable, sizing: Sizing): number[] {
  const sizes = table.columns.flatMap((column) => [column.from[sizing], column.to?.[sizing]]);
  return [...new Set(sizes.filter((size) => size !== undefined))].sort((a, b) => a - b);
}

/**
 * Counts per 100 mL at all sizes: steep or flat, dirty or clean, often zero at the large end, often on a plateau or a
 * limit.
 */
export function randomSample(random: () => number, sizes: readonly number[], sizing: Sizing): CumulativeCounts {
  let count = Math.floor(10 ** (8 * random()));
  const at: Record<number, number> = {};
  for (const size of sizes) {
    at[size] = count;
    const kind = random();
    if (kind > 0.15) count = Math.floor(count * (kind < 0.5 ? random() ** 3 : random()));
  }
  return cumulativeCounts(at, { sizing, per: '100mL' });
}

/** The same sample, known only at some of its sizes. */
export function partly(random: () => number, full: CumulativeCounts): CumulativeCounts {
  const kept = full.sizes.map((_size, i) => i).filter(() => random() < 0.5);
  if (kept.length === 0) kept.push(0);
  return {
    sizing: full.sizing,
    sizes: kept.map((i) => full.sizes[i] as number),
    perMl: kept.map((i) => full.perMl[i] as number),
  };
}
