/** The one form of a check value from outside, and the test that reads a folder of them. */
import { expect, test } from 'vitest';

/** Where a value is printed, and how well it stands. */
export interface Origin {
  readonly document: string;
  readonly edition: string;
  readonly place: string;
  /**
   * `published`: printed there. `reproduced`: two independent reproductions of it agree. `reprint`: printed in another
   * document first, where it is counted. `computed`: worked out apart from the library, not printed.
   */
  readonly standing: 'published' | 'reproduced' | 'reprint' | 'computed';
}

export interface Row extends Origin {
  /** What the value is, within its folder and document. */
  readonly id: string;
  /** The public name that is checked: a function, or a table. */
  readonly function: string;
  readonly inputs: unknown;
  readonly expected: number | string | null;
  /** The largest difference allowed, in the unit of the value; 0 for equal. */
  readonly tolerance: number;
  /** What the library says. */
  readonly found: () => number | string | null | undefined;
}

/** A value without its origin, as a loader writes it. */
export type Value = Omit<Row, keyof Origin>;

/** What a data file says of its origin: `{ source: { document, edition, place }, standing }`. */
export interface Cited {
  readonly source: { readonly document: string; readonly edition: string; readonly place: string };
  readonly standing: string;
}

const standings = ['published', 'reproduced', 'reprint', 'computed'];

/** Values with the origin that their data file states. */
export function rowsOf({ source, standing }: Cited, values: readonly Value[]): Row[] {
  const { document, edition, place } = source;
  if (!standings.includes(standing)) throw new Error(`${document}: the standing ${standing} is not known`);
  return values.map((value) => ({ ...value, document, edition, place, standing: standing as Row['standing'] }));
}

/** How far the library is from a value, in units of its tolerance; 0 where it is equal, `Infinity` where it must be. */
export function deviation({ expected, tolerance, found }: Row): number {
  const value = found();
  if (value === expected) return 0;
  if (typeof value !== 'number' || typeof expected !== 'number' || !(tolerance > 0)) return Infinity;
  const units = Math.abs(value - expected) / tolerance;
  return Number.isNaN(units) ? Infinity : units;
}

/** One test for a document and function: every row within its tolerance, no row twice. */
export function testRows(rows: readonly Row[]): void {
  test('no value stands twice', () => {
    const keys = rows.map((row) => `${titleOf(row)} ${row.id}`);
    expect(keys.filter((key, i) => keys.indexOf(key) !== i)).toEqual([]);
  });
  for (const title of new Set(rows.map(titleOf))) {
    test(title, () => {
      const wrong = rows.filter((row) => titleOf(row) === title && !(deviation(row) <= 1));
      expect(wrong.map(({ id, inputs, expected, found }) => ({ id, inputs, expected, found: found() }))).toEqual([]);
    });
  }
}

function titleOf({ function: name, document, edition, place }: Row): string {
  return `${name}: ${document} (${edition}), ${place}`;
}

/** A value with its inputs as its name, if it has no other. */
export function value(
  name: string,
  inputs: unknown,
  expected: Row['expected'],
  tolerance: number,
  found: Row['found'],
  id: string = JSON.stringify(inputs),
): Value {
  return { id, function: name, inputs, expected, tolerance, found };
}
