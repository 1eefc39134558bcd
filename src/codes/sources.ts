/** Where the tables come from, each of which carries its source too, and the arithmetic of how sure a code is. */
import type { Source } from '../source.ts';
import { as4059CumulativeSource, as4059DifferentialSource } from './tables/as4059.ts';
import { cc1246Source } from './tables/cc1246.ts';
import { gost17216Source } from './tables/gost17216.ts';
import { iso4406MicroscopeSource, iso4406Source } from './tables/iso4406.ts';
import { nas1638Source } from './tables/nas1638.ts';
import { navairSource } from './tables/navair.ts';
import { sae749dSource } from './tables/sae749d.ts';

/** The sources of this entry, by what each is the source of. */
export const sources: Readonly<
  Record<
    | 'as4059Cumulative'
    | 'as4059Differential'
    | 'cc1246'
    | 'gost17216'
    | 'iso4406'
    | 'iso4406Microscope'
    | 'nas1638'
    | 'navair'
    | 'sae749d'
    | 'countAsGamma'
    | 'uncertaintyBudget'
    | 'measurementErrors'
    | 'scores'
    | 'dispersion'
    | 'detectionLimits'
    | 'differenceLimits'
    | 'agreement',
    Source
  >
> = {
  as4059Cumulative: as4059CumulativeSource,
  as4059Differential: as4059DifferentialSource,
  cc1246: cc1246Source,
  gost17216: gost17216Source,
  iso4406: iso4406Source,
  iso4406Microscope: iso4406MicroscopeSource,
  nas1638: nas1638Source,
  navair: navairSource,
  sae749d: sae749dSource,
  countAsGamma: {
    document: 'JCGM 101:2008, Propagation of distributions using a Monte Carlo method',
    edition: '2008',
    place: '6.4.11: q counted is Gamma(q + 1), as quoted in one source',
    standing: 'published',
  },
  uncertaintyBudget: {
    document: 'JCGM 100:2008, Guide to the expression of uncertainty in measurement',
    edition: '2008',
    place: '5.1.6 (relative variances of a product add), 4.3.7 (rectangular distribution)',
    standing: 'published',
  },
  measurementErrors: {
    document: 'common practice for automatic counters',
    edition: 'no document',
    place: 'volume 3 %, size calibration 3 %, slope 3 where there is one size only',
    standing: 'common practice',
  },
  scores: { document: 'ISO 13528', edition: '2015, 2022', place: 'E_n score and zeta score', standing: 'from memory' },
  dispersion: {
    document: 'R. A. Fisher, Statistical Methods for Research Workers',
    edition: '1925',
    place: 'index of dispersion: sum (x - mean)^2 / mean is chi-square',
    standing: 'from memory',
  },
  detectionLimits: {
    document: 'L. A. Currie, Analytical Chemistry 40, 586-593',
    edition: '1968',
    place: 'Table II, working expressions, as quoted in one source; the paper was not read',
    standing: 'published',
  },
  differenceLimits: {
    document: 'G. Zou and A. Donner, Statistics in Medicine 27, 1693-1702',
    edition: '2008',
    place: 'limits of a difference from the limits of its terms',
    standing: 'from memory',
  },
  agreement: {
    document: 'J. M. Bland and D. G. Altman, Lancet 327, 307-310',
    edition: '1986',
    place: 'limits of agreement; 1.96 standard deviations for their 2',
    standing: 'published',
  },
};
