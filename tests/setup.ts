/**
 * Random tests draw the same cases on every run: a failure is a failure for everybody. Change the seed to look
 * elsewhere.
 */
import fc from 'fast-check';

const seed = Number(process.env.MOTESCALE_SEED ?? 4406);

// where only the first failure counts, as when the sources are changed on purpose, no smaller one is looked for
fc.configureGlobal({ seed, endOnFailure: process.env.MOTESCALE_LEAST_VOLUME === '1' });
