/**
 * A counter that has died to zero.
 */
import { log } from '../../numeric/logarithm.ts';
import { isEmpty } from '../level.ts';
import { type Check, nothing } from './check.ts';

/** So much cleaner may oil have become since the level of before was known (our choice: four classes of ISO 4406). */
const cleaned = 16;
/** So many standard deviations the level may have been taken too high by chance (our choice). */
const deviations = 3;
/** Where no raw counts are given, a zero is taken for fewer than one per mL (our choice). */
const leastShown = 1;

/** No particle at any size, in so much oil that by the unit's own level some are to be expected. */
export const noParticles: Check = {
  codes: ['no_particles'],
  find: ({ reading, limits: { stuckChance }, repeats }) => {
    const { counts, mlPerMin } = reading;
    if (counts === undefined || stuckChance === null || repeats === null || mlPerMin === 0) return null;
    if (!isEmpty(counts.perMl)) return nothing;
    const [particles, ml, emptyMl] = repeats.level ?? [0, 0, 0];
    if (particles === 0 || ml === 0) return null;
    const least = (particles - deviations * Math.sqrt(particles)) / (ml * cleaned);
    if (counts.counted === undefined && least < leastShown) return nothing;
    if (least * emptyMl < -log(stuckChance)) return nothing;
    return [{ code: 'no_particles', value: emptyMl, limit: (particles / ml) * emptyMl }];
  },
};
