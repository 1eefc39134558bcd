/** Where the figures and formulas of whether a reading can be trusted come from. */
import type { Source } from '../source.ts';

/** The sources of this entry, by what each is the source of. */
export const sources: Readonly<
  Record<'repeatChance' | 'quality' | 'flattestDistribution' | 'saturationShift', Source>
> = {
  repeatChance: {
    document: 'law of Poisson for particles that arrive at random',
    edition: 'no document',
    place: 'greatest chance of one number: 1 / sqrt(2 pi n); the limit of 1e-8 for a run is our choice',
    standing: 'computed',
  },
  quality: {
    document: 'IEC 62541-8, OPC unified architecture, Data access',
    edition: '2020',
    place: 'status codes: good, uncertain, bad',
    standing: 'from memory',
  },
  // The flattest size distribution of solid contaminants in print.
  flattestDistribution: {
    document: 'MIL-STD-1246C, Product cleanliness levels and contamination control program',
    edition: '1994',
    place: 'clause 1.4: log N against the square of log size, slope 0.926',
    standing: 'published',
  },
  saturationShift: {
    document: 'IEEE C57.106, Guide for Acceptance and Maintenance of Insulating Mineral Oil',
    edition: 'edition not confirmed',
    place:
      'solubility of water log10 S = A - B/T; so log10 of relative saturation changes by B (1/T2 - 1/T1) from T1 to T2',
    standing: 'computed',
  },
};
