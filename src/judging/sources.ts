/** Where the figures that monitor and acceptance share come from. */
import type { Source } from '../source.ts';

/** Where the steps of the fingerprint stand. */
export const fingerprintSource: Source = {
  document: 'A. Appleby, MurmurHash3, program text in the public domain',
  edition: '2011 (year from memory)',
  place: 'mixing steps and constants of the 32-bit form',
  standing: 'from memory',
};
