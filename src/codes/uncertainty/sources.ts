/**
 * Where the arithmetic of uncertainty, scores, repeats, blanks and agreement comes from.
 */
import type { Source } from '../../source.ts';

/** Where a count is taken as a Gamma distribution. */
export const countAsGammaSource: Source = {
  document: 'JCGM 101:2008, Propagation of distributions using a Monte Carlo method',
  edition: '2008',
  place: '6.4.11: q counted is Gamma(q + 1), as quoted in the manual of a program for uncertainty',
  standing: 'published',
};

/** Where relative variances are added. */
export const uncertaintyBudgetSource: Source = {
  document: 'JCGM 100:2008, Guide to the expression of uncertainty in measurement',
  edition: '2008',
  place: '5.1.6 (relative variances of a product add), 4.3.7 (rectangular distribution)',
  standing: 'published',
};

/** Where the errors stand that nobody gave. */
export const measurementErrorsSource: Source = {
  document: 'common practice for automatic counters',
  edition: 'none',
  place: 'volume 3 %, size calibration 3 %, slope 3 where there is one size only',
  standing: 'common practice',
};

/** Where E_n and zeta stand. */
export const scoresSource: Source = {
  document: 'ISO 13528',
  edition: '2015, 2022',
  place: 'E_n score and zeta score',
  standing: 'from memory',
};

/** Where the index of dispersion stands. */
export const dispersionSource: Source = {
  document: 'R. A. Fisher, Statistical Methods for Research Workers',
  edition: '1925',
  place: 'index of dispersion: sum (x - mean)^2 / mean is chi-square',
  standing: 'from memory',
};

/** Where the limits of detection stand. */
export const detectionLimitsSource: Source = {
  document: 'L. A. Currie, Analytical Chemistry 40, 586-593',
  edition: '1968',
  place: 'Table II, working expressions, as quoted; the paper was not read',
  standing: 'published',
};

/** Where the limits of a difference come from. */
export const differenceLimitsSource: Source = {
  document: 'G. Zou and A. Donner, Statistics in Medicine 27, 1693-1702',
  edition: '2008',
  place: 'limits of a difference from the limits of its terms',
  standing: 'from memory',
};

/** Where the limits of agreement stand. */
export const agreementSource: Source = {
  document: 'J. M. Bland and D. G. Altman, Lancet 327, 307-310',
  edition: '1986',
  place: 'limits of agreement; 1.96 standard deviations for their 2',
  standing: 'published',
};
