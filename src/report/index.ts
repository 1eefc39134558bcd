/**
 * Reports: readings as CSV files, charts and plain text.
 *
 * @module report
 */
export { type ErrorCode, isMotescaleError, type MotescaleError } from '../errors.ts';
export type { Source, Standing } from '../source.ts';
export { version } from '../version.ts';
export { type ChartSpec, vegaLiteSchema } from './chartSpec.ts';
export * from './cleanUpChart.ts';
export { type Cell, type CsvFormat, type CsvTable, decimalCommaFormat } from './csvFormat.ts';
export * from './parseCsv.ts';
export * from './periodSummary.ts';
export * from './probabilityChart.ts';
export type { ReportReading } from './reportReading.ts';
export { reportRows } from './reportRows.ts';
export * from './sizeChart.ts';
export { sources } from './sources.ts';
export * from './toCsv.ts';
export * from './trendChart.ts';
export { reportReading } from './verdictReading.ts';
