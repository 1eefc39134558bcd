/**
 * Where the laboratory's arithmetic comes from.
 */
import type { Source } from '../../source.ts';

/** Where the count of fields under a microscope stands. */
export const microscopeCountSource: Source = {
  document: 'ISO 4407',
  edition: '2002',
  place: 'counted x effective area / (fields x field area x volume)',
  standing: 'from memory',
};

/** Where the gravimetric level stands. */
export const gravimetricLevelSource: Source = {
  document: 'ISO 4405',
  edition: '1991',
  place: 'difference of two membranes, one upon the other, over the volume',
  standing: 'from memory',
};
