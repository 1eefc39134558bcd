/** A period from readings to words. */
import { type PeriodOptions, periodFigures, periodSummary, type ReportReading } from '../../../src/report/index.ts';

export function summaryOf(readings: readonly ReportReading[], options: PeriodOptions = {}): string {
  return periodSummary(periodFigures(readings, options));
}
