/**
 * A code that no sample can have: 10/16/13 says at most 10 particles per mL of 4 µm(c) and larger, and more than 320 of
 * 6 µm(c) and larger, which are among them. Asked of a reading without counts: with them, they decide.
 */
import { limitAt, limitPerMl, placeOf } from '../../codes/classIndex.ts';
import { usualSizing } from '../../codes/columnSizes.ts';
import type { ClassTable, CodePart } from '../../codes/types.ts';
import { parseCode } from '../../codes/written/parseCode.ts';
import { caught } from '../../errors.ts';
import { type Check, type Found, nothing } from './check.ts';
import { knownTables } from './code.ts';

/** The first size at which a code says more than a smaller one leaves possible. */
export const codeRises: Check = {
  codes: ['code_rises_with_size'],
  find: ({ reading: { counts, codes }, tables }) => {
    if (counts !== undefined || codes === undefined) return nothing;
    for (const { table } of tables.concat(knownTables)) {
      // a range says nothing of the others
      if (table.counting !== 'cumulative' || Object.keys(codes).indexOf(table.id) < 0) continue;
      const found = risenIn(table, partsOf(table, codes[table.id] as string));
      if (found !== null) return [found];
    }
    return nothing;
  },
};

/** None of what cannot be read, which has its own finding. */
function partsOf(table: ClassTable, text: string): readonly CodePart[] {
  try {
    return parseCode(table, text).parts;
  } catch (error) {
    caught(error);
    return [];
  }
}

/** The fewest that the class of a size allows, against the most that those of smaller sizes do. */
function risenIn(table: ClassTable, parts: readonly CodePart[]): Found | null {
  // sizes of two sizings stand in no order
  const sizing = usualSizing(table);
  let most = Infinity;
  let smaller = 0;
  for (let i = 0; i < parts.length; i += 1) {
    const { class: name, mark } = parts[i] as CodePart;
    const size = (table.columns[i] as ClassTable['columns'][number]).from[sizing];
    if (name === null || size === undefined) continue;
    const place = placeOf(table, name);
    // a class for several sizes together says of no one size that it is reached
    const fewest = mark === 'at_most' || place === 0 ? null : limitPerMl(table, limitAt(table, place - 1, i));
    if (fewest !== null && fewest >= most) {
      return { code: 'code_rises_with_size', value: fewest, limit: most, sizes: [smaller, size], sizing };
    }
    // what is written as at least this is no upper bound
    const isOpen = mark === 'or_dirtier' || mark === 'few_counted';
    const upTo = isOpen ? null : limitPerMl(table, limitAt(table, place, i));
    if (upTo !== null && upTo < most) {
      most = upTo;
      smaller = size;
    }
  }
  return null;
}
