/**
 * Reports: readings as CSV files, charts and plain text.
 *
 * @module report
 */
export { type ErrorCode, isMotescaleError, type MotescaleError } from '../errors.ts';
export type { Source } from '../source.ts';
export { type ChartSpec, vegaLiteSchema } from './chartSpec.ts';
export * from './cleanUpChart.ts';
export { type Cell, type CsvFormat, type CsvTable, csvSource, decimalCommaFormat } from './csvFormat.ts';
export * from './parseCsv.ts';
export * from './periodSummary.ts';
export type { ReportReading } from './reportReading.ts';
export { reportRows } from './reportRows.ts';
export * from './sizeChart.ts';
export { formulaSource } from './spreadsheetGuard.ts';
export * from './toCsv.ts';
export * from './trendChart.ts';
export { reportReading } from './verdictReading.ts';
