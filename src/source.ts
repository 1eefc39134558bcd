/** Where a number comes from. Every table and formula of the library carries one of these. */

/** How well a figure can stand. */
export const standings = ['published', 'reproduced', 'computed', 'common practice', 'from memory'] as const;

/**
 * How well a figure stands.
 *
 * - `published`: printed in the document, read there; where it was read in one reprint or quotation only, the place
 *   says so.
 * - `reproduced`: two independent reproductions of it agree; the document itself was not seen.
 * - `computed`: worked out from a formula that has a source.
 * - `common practice`: a rule of the trade without a document.
 * - `from memory`: recalled, not seen in print; confirm before relying on it.
 */
export type Standing = (typeof standings)[number];

/** A document, its edition, the place in it, and how well the figures stand. */
export interface Source {
  readonly document: string;
  readonly edition: string;
  readonly place: string;
  readonly standing: Standing;
}
