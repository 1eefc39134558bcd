/** Where the figures and formulas of counts, sizes and how sure they are come from. */
import type { Source } from '../source.ts';

/** The sources of this entry, by what each is the source of. */
export const sources: Readonly<
  Record<
    | 'paralyzable'
    | 'nonParalyzable'
    | 'walesWilson'
    | 'princenKwolek'
    | 'coincidenceLimit'
    | 'calibration'
    | 'micrometreB'
    | 'testDust'
    | 'interpolation'
    | 'logLog2'
    | 'poissonLimits'
    | 'fewCounted'
    | 'conditionalTest'
    | 'severalSizes'
    | 'microscopeCount'
    | 'gravimetricLevel',
    Source
  >
> = {
  paralyzable: {
    document:
      'G. F. Knoll, Radiation Detection and Measurement; A. M. Collins, W. D. Dick and F. J. Romay, Aerosol Sci. ' +
      'Technol. 47, 177-182 (authors from memory, abstract read)',
    edition: '4th edition, 2010 (from memory); 2013',
    place: 'Knoll, chapter 4, dead time: observed = true x exp(-true x volume); the paper inverts it',
    standing: 'from memory',
  },
  nonParalyzable: {
    document: 'G. F. Knoll, Radiation Detection and Measurement',
    edition: '4th edition, 2010 (from memory)',
    place: 'chapter 4, dead time: true = observed / (1 - observed x volume)',
    standing: 'from memory',
  },
  walesWilson: {
    document: 'M. Wales and J. N. Wilson, Review of Scientific Instruments 32, 1132 (journal and page from memory)',
    edition: '1961',
    place: 'observed = L (1 - exp(-true / L)), as quoted in one later paper on coincidence',
    standing: 'published',
  },
  princenKwolek: {
    document: 'L. H. Princen and W. F. Kwolek, Review of Scientific Instruments 36, 646 (journal and page from memory)',
    edition: '1965',
    place: 'observed = true - true^2 / (2 L), as quoted in one later paper on coincidence',
    standing: 'published',
  },
  coincidenceLimit: {
    document: 'ISO 11171',
    edition: '1999 and later',
    place: 'coincidence error limit, 5 %',
    standing: 'from memory',
  },
  calibration: {
    document:
      'ISO 11171, size equivalence between ISO 4402 (AC Fine Test Dust) and ISO 11171 calibration; also ISO/TR 16386',
    edition: '1999',
    place: 'table of corresponding sizes, 18 pairs',
    standing: 'reproduced',
  },
  micrometreB: {
    document: 'ISO 11171; explained in ISO/TR 22681:2019',
    edition: '2016',
    place: 'size in µm(c) = 0.898 x size in µm(b)',
    standing: 'from memory',
  },
  testDust: {
    document: 'ISO 16889',
    edition: '2008',
    place:
      'Table 4, as adopted in GOST R ISO 16889-2011, 8.1.6 and 8.1.7: ISO MTD at 10 mg/L, midpoints of the ' +
      'acceptance ranges, divided by ten',
    standing: 'computed',
  },
  // That counts are read on this curve is common practice: no fluid-power standard prescribes a method.
  interpolation: {
    document:
      'R. L. Dougherty, A. Edelman and J. M. Hyman, Mathematics of Computation 52, 471-494; J. M. Hyman, SIAM J. ' +
      'Sci. Stat. Comput. 4, 645-654',
    edition: '1989; 1983',
    place: 'monotone cubic interpolation: filter on the slopes of a natural spline',
    standing: 'from memory',
  },
  logLog2: {
    document: 'MIL-STD-1246C, Product cleanliness levels and contamination control program',
    edition: '1994',
    place: 'clause 1.4: log N against the square of log size',
    standing: 'published',
  },
  poissonLimits: {
    document: 'F. Garwood, Fiducial limits for the Poisson distribution, Biometrika 28, 437-442',
    edition: '1936',
    place: 'exact two-sided limits',
    standing: 'reproduced',
  },
  fewCounted: {
    document: 'ISO 4406',
    edition: '1999, 2017, 2021',
    place: 'clause on raw counts: fewer than 20 particles counted',
    standing: 'reproduced',
  },
  conditionalTest: {
    document:
      'J. Przyborowski and H. Wilenski, Biometrika 31, 313-323; C. Clopper and E. Pearson, Biometrika 26, 404-413',
    edition: '1940; 1934',
    place: 'exact conditional test of two Poisson counts; exact binomial limits',
    standing: 'from memory',
  },
  severalSizes: {
    document: 'O. J. Dunn, Journal of the American Statistical Association 56, 52-64',
    edition: '1961',
    place: 'several comparisons at once, each at its share of the level (Bonferroni)',
    standing: 'from memory',
  },
  microscopeCount: {
    document: 'ISO 4407',
    edition: '2002',
    place: 'counted x effective area / (fields x field area x volume)',
    standing: 'from memory',
  },
  gravimetricLevel: {
    document: 'ISO 4405',
    edition: '1991',
    place: 'difference of two membranes, one upon the other, over the volume',
    standing: 'from memory',
  },
};
