/** What a code says of the counts it was made from: at each size more than so many, and at most so many. */
import { hasOwn } from '../../checks.ts';
import { limitAt, limitPerMl, placeOf } from '../../codes/classIndex.ts';
import { usualSizing } from '../../codes/columnSizes.ts';
import type { ClassColumn, ClassTable } from '../../codes/types.ts';
import { hasOwnRange } from '../../codes/written/givenCode.ts';
import type { Sizing } from '../../counts/types.ts';
import type { Reading } from '../reading.ts';
import type { ReadingLimits } from '../readingLimits.ts';
import type { Band, BandedCode, Context, Found, HasTable } from './check.ts';
import { knownTables, partsOf } from './code.ts';

/** Looks at the bands of one code, in order of size. */
export type Look = (bands: readonly Band[], limits: ReadingLimits, sizing: Sizing) => Found | null;

/** The codes of a reading without counts, which would decide: those of cumulative tables, for a range says nothing. */
export function bandedCodes({ counts, codes }: Reading, tables: readonly HasTable[]): readonly BandedCode[] {
  const banded: BandedCode[] = [];
  if (counts !== undefined || codes === undefined) return banded;
  for (const { table } of tables.concat(knownTables)) {
    if (table.counting !== 'cumulative' || !hasOwn(codes, table.id)) continue;
    const received = codes[table.id] as string;
    banded.push({ sizing: usualSizing(table), received, bands: bandsOf(table, received) });
  }
  return banded;
}

/** What is found in the first code in which it is; null where none shows it, or where there are counts. */
export function inCode(context: Context, look: Look): readonly Found[] | null {
  for (const { sizing, received, bands } of context.banded ?? bandedCodes(context.reading, context.tables)) {
    const found = look(bands, context.limits, sizing);
    if (found !== null) return [{ ...found, sizing, received }];
  }
  return null;
}

/** The bands of a code of a cumulative table; none of a code that cannot be read, which has its own finding. */
function bandsOf(table: ClassTable, text: string): Band[] {
  // sizes of two sizings stand in no order
  const sizing = usualSizing(table);
  const bands: Band[] = [];
  // a number beyond the counter's own range is written as beyond the table, and says less
  const isOwn = hasOwnRange(table, text);
  (partsOf(table, text) ?? []).forEach(({ class: name, mark }, i) => {
    const size = (table.columns[i] as ClassColumn).from[sizing];
    if (size === undefined) return;
    const place = name === null ? -1 : placeOf(table, name);
    // a class for several sizes together says of no one size that it is reached
    const isUnknown = mark === 'at_most' || place <= 0 || (isOwn && place === table.classes.length);
    const moreThan = isUnknown ? null : limitPerMl(table, limitAt(table, place - 1, i));
    // what is written as at least this is no upper bound
    const isOpen = mark === 'or_dirtier' || mark === 'few_counted';
    const upTo = isOpen || place < 0 ? null : limitPerMl(table, limitAt(table, place, i));
    bands.push({ size, mark, moreThan, upTo });
  });
  return bands;
}
