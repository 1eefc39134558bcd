/**
 * A code that came beside counts: the counts decide, and a code that contradicts them is told. Without counts, so is a
 * code that cannot be read.
 */
import { hasOwn } from '../../checks.ts';
import { placeOf } from '../../codes/classIndex.ts';
import { classifySound } from '../../codes/classify.ts';
import { usualSizing } from '../../codes/columnSizes.ts';
import { iso4406, iso4406Microscope } from '../../codes/tables/iso4406.ts';
import type { ClassTable, CodePart } from '../../codes/types.ts';
import { hasOwnRange, parseGiven } from '../../codes/written/givenCode.ts';
import type { CumulativeCounts } from '../../counts/types.ts';
import { caught } from '../../errors.ts';
import { type Check, type Found, type HasTable, nothing } from './check.ts';
import { stepsShown } from './repeatChance.ts';

/** Known without being configured. */
export const knownTables: readonly HasTable[] = [{ table: iso4406 }, { table: iso4406Microscope }];

/**
 * How many classes the code given lies off that of the counts, at the size where it is most: in the tables configured,
 * and in ISO 4406.
 */
export const codeDisagrees: Check = {
  codes: ['code_disagrees'],
  find: ({ reading: { counts, codes }, tables }) => {
    if (counts === undefined || codes === undefined) return nothing;
    let most = 0;
    for (const { table } of tables.length === 0 ? knownTables : tables.concat(knownTables)) {
      if (!hasOwn(codes, table.id)) continue;
      most = Math.max(most, classesOff(table, codes[table.id] as string, counts));
    }
    return most === 0 ? nothing : [{ code: 'code_disagrees', value: most, limit: 0 }];
  },
};

/**
 * Without counts, a code that cannot be read is no measurement, nor is one that says nothing of any size, -/-/-. Where
 * another code of the reading says something, the counts are uncertain only, or as good as that.
 */
export const codeUnreadable: Check = {
  codes: ['code_unreadable'],
  find: ({ reading: { counts, codes }, tables }) => {
    if (counts !== undefined || codes === undefined) return nothing;
    const seen: string[] = [];
    const unreadable: string[] = [];
    const empty: Found[] = [];
    for (const { table } of tables.concat(knownTables)) {
      if (!hasOwn(codes, table.id) || seen.indexOf(table.id) >= 0) continue;
      seen.push(table.id);
      const text = codes[table.id] as string;
      const parts = partsOf(table, text);
      if (parts === null) unreadable.push(text);
      else if (parts.every(({ mark }) => mark === 'not_counted')) empty.push(notCounted(table, text));
    }
    const isKnown = unreadable.length + empty.length < seen.length;
    // a code of a table that is not at hand may say what this does not
    const found = empty.length < Object.keys(codes).length - unreadable.length ? [] : empty.slice(0, 1);
    if (unreadable.length === 0) return found;
    const one: Found = {
      code: 'code_unreadable',
      value: unreadable.length,
      limit: 0,
      received: unreadable[0] as string,
    };
    return found.concat([isKnown ? { ...one, quality: 'uncertain' } : one]);
  },
};

/** The parts of a code; null of one that cannot be read. */
export function partsOf(table: ClassTable, text: string): readonly CodePart[] | null {
  try {
    return parseGiven(table, text).parts;
  } catch (error) {
    caught(error);
    return null;
  }
}

/** Of a code that says nothing of any size, and so nothing of the oil. */
function notCounted(table: ClassTable, received: string): Found {
  const sizing = usualSizing(table);
  const sizes: number[] = [];
  for (const { from } of table.columns) if (from[sizing] !== undefined) sizes.push(from[sizing] as number);
  return { code: 'count_missing', quality: 'bad', value: sizes.length, limit: 0, sizes, sizing, received };
}

/** How far off, 0 where the two cannot be compared. What rounding of the counts shown can explain is no difference. */
function classesOff(table: ClassTable, text: string, counts: CumulativeCounts): number {
  let most = 0;
  try {
    const given = parseGiven(table, text).parts;
    const saysLess = hasOwnRange(table, text);
    const [lows, highs] = classesOfCounts(table, counts);
    // a class for several sizes together says of the dirtiest of them what it is, of the others that it is no more
    const together: { [name: string]: { low: number; high: number; unknown: boolean } } = {};
    given.forEach((part, i) => {
      if (part.class === null) return;
      const at = placeOf(table, part.class);
      if (saysLess && at === table.classes.length) return;
      const [low, high] = [lows[i] as number, highs[i] as number];
      if (part.mark === 'at_most') {
        const group = together[part.class] ?? { low: -1, high: -1, unknown: false };
        together[part.class] = {
          low: Math.max(group.low, low),
          high: Math.max(group.high, high),
          unknown: group.unknown || low < 0,
        };
      } else if (low >= 0) most = Math.max(most, part.mark === 'or_dirtier' ? 0 : low - at, at - high);
    });
    for (const name of Object.keys(together)) {
      const { low, high, unknown } = together[name] as (typeof together)[string];
      const at = placeOf(table, name);
      if (low >= 0) most = Math.max(most, low - at, unknown ? 0 : at - high);
    }
  } catch (error) {
    caught(error);
  }
  return most;
}

/** The places of the classes, column by column, that the counts shown leave possible; -1 where a size is missing. */
function classesOfCounts(table: ClassTable, counts: CumulativeCounts): readonly [number[], number[]] {
  const lows: number[] = table.columns.map(() => -1);
  const highs: number[] = table.columns.map(() => -1);
  for (const perMl of shownFor(table, counts.perMl)) {
    const shown = { sizing: counts.sizing, sizes: counts.sizes, perMl };
    classifySound(table, shown, 'counts', null).parts.forEach((part, i) => {
      if (part.class === null) return;
      const at = placeOf(table, part.class);
      if ((lows[i] as number) < 0 || at < (lows[i] as number)) lows[i] = at;
      if (at > (highs[i] as number)) highs[i] = at;
    });
  }
  return [lows, highs];
}

/**
 * Counts as low and as high as those shown may have been; and, where a table counts between two sizes, low up to each
 * size and high beyond it, and the other way round.
 */
function shownFor({ counting }: ClassTable, perMl: readonly number[]): readonly (readonly number[])[] {
  const steps = stepsShown(perMl);
  const all: number[][] = [];
  const add = (smaller: number, larger: number, from: number) => {
    let most = Infinity;
    all.push(
      perMl.map((count, i) => {
        most = Math.min(most, Math.max(0, count + (i < from ? smaller : larger) * (steps[i] as number)));
        return most;
      }),
    );
  };
  add(-1 / 2, -1 / 2, 0);
  add(1 / 2, 1 / 2, 0);
  if (counting === 'differential')
    for (let from = 1; from < perMl.length; from += 1) {
      add(-1 / 2, 1 / 2, from);
      add(1 / 2, -1 / 2, from);
    }
  return all;
}
