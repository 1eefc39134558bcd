/**
 * How much a test tries. `npm test` is what a newcomer runs, and stays under three minutes on two cores: it tries a
 * part. With MOTESCALE_FULL=1, as .ci/run sets it in a step of its own, all is tried.
 */
export const full: boolean = process.env.MOTESCALE_FULL === '1';

/** Set where the sources are changed on purpose, thousands of times: what is not noticed at once is asked again. */
const least: boolean = process.env.MOTESCALE_LEAST_VOLUME === '1';

/** All of so many tries, or few: a twentieth where nothing is said. */
export function some(all: number, few: number = Math.ceil(all / 20)): number {
  return full ? all : least ? Math.min(few, 100) : few;
}
