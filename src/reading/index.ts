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
export type { Level } from './level.ts';
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
export type { FlowCourse, FlowRun, Repeats } from './repeats.ts';
export { sources } from './sources.ts';
export type { SteadyFigure } from './steady.ts';
export type { Tail } from './tail.ts';
export { englishFindingTexts, type FindingOfCode, type FindingTexts } from './texts.ts';
