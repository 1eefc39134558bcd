/**
 * Stands in the unit script for the trends: a fifth of its size. A configuration that follows figures is refused where
 * it is prepared.
 */
import { motescaleError } from '../errors.ts';

function refuse(): never {
  const expected = 'no figures to follow: this script holds no trends; motescale.global.js does';
  throw motescaleError('unknown_option', 'config.follow', 'figures to follow', expected);
}

export const prepareChange: () => never = refuse;
export const addDay: () => never = refuse;
export const startChange: () => never = refuse;
export const autocorrelatedTrend: () => never = refuse;
