/**
 * The proof that a flush or a fill is done.
 *
 * @module acceptance
 */
export * from '../common.ts';
export { advanceAcceptance } from './acceptance.ts';
export { mostAcceptanceBytes, prepareAcceptance, startAcceptance } from './prepare.ts';
export { resumeAcceptance } from './resume.ts';
export { sources } from './sources.ts';
export { type AcceptanceTexts, acceptanceText, englishAcceptanceTexts, type TextsWithAcceptance } from './texts.ts';
export type * from './types.ts';
export { acceptanceWanting } from './wanting.ts';
