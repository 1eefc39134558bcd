/**
 * All of motescale that needs no dependency: the same names as in the entries for each subject.
 *
 * @module motescale
 */
export * from './codes/index.ts';
export * from './counts/index.ts';
