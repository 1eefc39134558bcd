/**
 * What an instrument gave at one visit, and whether it can be trusted.
 *
 * @module reading
 */
export * from '../common.ts';
export type { Problem } from '../errors.ts';
export { assessReading, worstQuality } from './assessReading.ts';
export { findingText } from './findingText.ts';
export { codeOfFullCounts } from './fullCounts.ts';
export { parseCounts, type RawCounts } from './parseCounts.ts';
export type {
  Assessment,
  FigureName,
  Finding,
  FindingCode,
  OtherFigure,
  Quality,
  Reading,
  TimedReading,
} from './reading.ts';
export {
  defaultReadingLimits,
  type OwnReadingLimits,
  type ReadingLimits,
} from './readingLimits.ts';
export type { Level } from './remembered/level.ts';
export type { FlowCourse, FlowRun, Repeats } from './remembered/repeats.ts';
export type { SteadyFigure } from './remembered/steady.ts';
export type { Tail } from './remembered/tail.ts';
export { sources } from './sources.ts';
export { englishFindingTexts, type FindingOfCode, type FindingTexts } from './texts.ts';
