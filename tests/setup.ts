/**
 * Random tests draw the same cases on every run: a failure is a failure for everybody. Change the seed to look
 * elsewhere.
 */
import fc from 'fast-check';

const seed = Number(process.env.MOTESCALE_SEED ?? 4406);

fc.configureGlobal({ seed });
