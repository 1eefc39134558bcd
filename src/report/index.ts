/**
 * Reports: readings as CSV files, charts and plain text.
 *
 * @module report
 */
export * from '../common.ts';
export type { Problem } from '../errors.ts';
export { type ChartSpec, vegaLiteSchema } from './charts/chartSpec.ts';
export * from './charts/cleanUpChart.ts';
export type { CodeBucket, TooManyBucket } from './charts/codeBuckets.ts';
export * from './charts/probabilityChart.ts';
export {
  type CountBucketOptions,
  countBuckets,
  type FigureBuckets,
  figureBuckets,
  type SizeBuckets,
} from './charts/sizeBuckets.ts';
export * from './charts/sizeChart.ts';
export * from './charts/trend/trendChart.ts';
export type { ChartForecast } from './charts/trend/trendForecast.ts';
export * from './csv/csvColumns.ts';
export { type Cell, type CsvFormat, type CsvTable, decimalCommaFormat } from './csv/csvFormat.ts';
export * from './csv/parseCsv.ts';
export * from './csv/toCsv.ts';
export type { DateOrder, SerialDates } from './localTime.ts';
export { errorText } from './messages/errorText.ts';
export { type EventMessage, type MessageOptions, messageOf } from './messages/messageOf.ts';
export { problemText } from './messages/problemText.ts';
export * from './parseLocalTimes.ts';
export type { ClassEnds, ClassFigures, CodeFigures } from './period/periodCodes.ts';
export type { CountFigure, CountFigures, FourOf, SizeFigures } from './period/periodCounts.ts';
export type { Moment, PeriodCoverage, PeriodGap } from './period/periodCoverage.ts';
export type { PeriodEvent } from './period/periodEvents.ts';
export {
  type PeriodFigures,
  type PeriodLeftOut,
  type PeriodOptions,
  type PeriodQualities,
  periodFigures,
} from './period/periodFigures.ts';
export type { MeasuredFigure, MeasuredFigures } from './period/periodMeasured.ts';
export { periodSummary } from './period/periodSummary.ts';
export type { TargetFigures } from './period/periodTarget.ts';
export type { ReportReading } from './reportReading.ts';
export { reportRows } from './reportRows.ts';
export * from './sheet/acceptanceSheetText.ts';
export * from './sheet/sampleSheet.ts';
export { sheetText } from './sheet/sheetText.ts';
export { sources } from './sources.ts';
export { englishTexts } from './texts/english.ts';
export type { EventText, EventTexts, EventWord } from './texts/eventTypes.ts';
export type { AcceptanceSheetTexts, ChartTexts, NotLookedAt, PeriodTexts, SheetTexts, Texts } from './texts/types.ts';
export type { UtcOffset } from './timeText.ts';
export { reportReading } from './verdictReading.ts';
