/**
 * Where a number comes from. Every table and formula of the library carries one of these.
 */

/** A document, its edition, the place in it, and how well the figures stand. */
export interface Source {
  readonly document: string;
  readonly edition: string;
  readonly place: string;
  /**
   * `published`: printed there. `computed`: worked out from a formula printed there. `common practice`: a rule of the trade
   * without a document. `from memory`: recalled, not seen in print; confirm before relying on it.
   */
  readonly standing: 'published' | 'computed' | 'common practice' | 'from memory';
}
