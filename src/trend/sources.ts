/** Where the figures and formulas of statistics on a series come from. */
import type { Source } from '../source.ts';

/** The sources of this entry, by what each is the source of. */
export const sources: Readonly<
  Record<
    | 'leastSquares'
    | 'mannKendall'
    | 'seasonalKendall'
    | 'senSlope'
    | 'cusum'
    | 'ewma'
    | 'forecast'
    | 'autocorrelatedTrend'
    | 'changePoint',
    Source
  >
> = {
  leastSquares: {
    document:
      'NIST/SEMATECH e-Handbook of Statistical Methods; reference results: NIST Statistical Reference Datasets, Norris',
    edition: '2012, web edition',
    place: 'section 4.1.4.1, linear least squares regression',
    standing: 'published',
  },
  mannKendall: {
    document: 'US EPA, Data Quality Assessment: Statistical Methods for Practitioners, QA/G-9S',
    edition: '2006',
    place: 'p. 109, Mann-Kendall trend test, 11 weekly values, as quoted in one source',
    standing: 'published',
  },
  seasonalKendall: {
    document: 'R. O. Gilbert, Statistical Methods for Environmental Pollution Monitoring',
    edition: '1987',
    place:
      'chapter 17, seasonal Kendall test (17.2) and slope (17.4); R. M. Hirsch, J. R. Slack, R. A. Smith, Water ' +
      'Resour. Res. 18 (1982) 107',
    standing: 'from memory',
  },
  senSlope: {
    document: 'US EPA, Statistical Analysis of Groundwater Monitoring Data at RCRA Facilities: Unified Guidance',
    edition: 'EPA 530/R-09-007, 2009',
    place:
      'chapter 17, examples 17-5 to 17-7, as quoted in one source: Theil-Sen trend line; limits after R. O. Gilbert ' +
      '(1987), chapter 16',
    standing: 'published',
  },
  cusum: {
    document: 'NIST/SEMATECH e-Handbook of Statistical Methods',
    edition: '2012, web edition',
    place:
      '6.3.2.3, CUSUM control charts; also D. C. Montgomery, G. C. Runger, Applied Statistics and Probability for ' +
      'Engineers, 3rd edition (2003, year from memory), example 16-6',
    standing: 'reproduced',
  },
  ewma: {
    document: 'NIST/SEMATECH e-Handbook of Statistical Methods',
    edition: '2012, web edition',
    place: '6.3.2.4, EWMA control charts',
    standing: 'reproduced',
  },
  // Putting its parts together is the library's own.
  forecast: {
    document: 'E. C. Fieller, Some problems in interval estimation, J. R. Stat. Soc. B 16',
    edition: '1954',
    place: 'p. 175, limits of a ratio; the variances of slope and line as in autocorrelatedTrend',
    standing: 'from memory',
  },
  // Putting its parts together is the library's own, and its rates are measured (docs/rates.md).
  autocorrelatedTrend: {
    document:
      'P. K. Sen, J. Am. Stat. Assoc. 63; K. H. Hamed, A. R. Rao, J. Hydrol. 204; G. U. Yule, J. R. Stat. Soc. 89',
    edition: '1968; 1998; 1926',
    place: 'p. 1379 (slope); p. 182 (correlation of ranks of the residuals); p. 1 (what memory does to a correlation)',
    standing: 'from memory',
  },
  changePoint: {
    document: 'A. N. Pettitt, Appl. Stat. 28; B. E. Hansen, Econometrica 68',
    edition: '1979; 2000',
    place: 'p. 126 (the test and its chance); p. 575 (limits of the place of a step)',
    standing: 'from memory',
  },
};
