/** Where the figures and formulas of filters and the clean-up of a tank come from. */
import type { Source } from '../source.ts';

/** The sources of this entry, by what each is the source of. */
export const sources: Readonly<Record<'beta' | 'betaAt' | 'cleanUp' | 'massBalance' | 'sevenTurnovers', Source>> = {
  beta: {
    document: 'ISO 16889, Hydraulic fluid power - Filters - Multi-pass method for evaluating filtration performance',
    edition: '2008',
    place: 'filtration ratio: particles of a size and larger upstream over downstream',
    standing: 'reproduced',
  },
  betaAt: {
    document: 'straight line of log beta over log size between the points of a data sheet',
    edition: 'no standard prints it for these axes',
    place: 'beyond the largest point that point; below the smallest none unless asked for',
    standing: 'common practice',
  },
  // The air of a room, by the same equation.
  cleanUp: {
    document: 'CDC, Guidelines for Preventing the Transmission of Mycobacterium tuberculosis, MMWR 43 (RR-13)',
    edition: '1994',
    place: 'Supplement 3, table S3-1 and its formula: t = -ln(C2/C1) / (Q/V), perfect mixing',
    standing: 'published',
  },
  massBalance: {
    document: 'mass balance of a well-mixed volume: V dC/dt = ingression - flow x efficiency x C',
    edition: 'no standard prints it for a hydraulic tank',
    place: 'solved here; without ingression it is the formula of CDC 1994, table S3-1',
    standing: 'computed',
  },
  // That seven are enough is a rule of the trade; what they leave is arithmetic.
  sevenTurnovers: {
    document: 'mass balance of a well-mixed volume, filter that lets nothing through',
    edition: 'no standard prints it for a hydraulic tank',
    place: 'exp(-7) = 0.09 %: what is left after seven turnovers',
    standing: 'computed',
  },
};
