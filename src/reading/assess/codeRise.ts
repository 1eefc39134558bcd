/**
 * A code that no sample can have: 10/16/13 says at most 10 particles per mL of 4 µm(c) and larger, and more than 320 of
 * 6 µm(c) and larger, which are among them. Asked of a reading without counts: with them, they decide.
 */
import { usualSizing } from '../../codes/columnSizes.ts';
import type { Sizing } from '../../counts/types.ts';
import { type Check, type Found, nothing } from './check.ts';
import { knownTables } from './code.ts';
import { type Band, bandsOf } from './codeBands.ts';

/** The first size at which a code says more than a smaller one leaves possible. */
export const codeRises: Check = {
  codes: ['code_rises_with_size'],
  find: ({ reading: { counts, codes }, tables }) => {
    if (counts !== undefined || codes === undefined) return nothing;
    for (const { table } of tables.concat(knownTables)) {
      // a range says nothing of the others
      if (table.counting !== 'cumulative' || Object.keys(codes).indexOf(table.id) < 0) continue;
      const found = risenIn(bandsOf(table, codes[table.id] as string), usualSizing(table));
      if (found !== null) return [found];
    }
    return nothing;
  },
};

/** The fewest that the class of a size allows, against the most that those of smaller sizes do. */
function risenIn(bands: readonly Band[], sizing: Sizing): Found | null {
  let most = Infinity;
  let smaller = 0;
  for (const { size, moreThan, upTo } of bands) {
    if (moreThan !== null && moreThan >= most) {
      return { code: 'code_rises_with_size', value: moreThan, limit: most, sizes: [smaller, size], sizing };
    }
    if (upTo !== null && upTo < most) {
      most = upTo;
      smaller = size;
    }
  }
  return null;
}
