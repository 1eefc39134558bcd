/** What a trend is drawn of: the sizes and the other figures that have a panel, from when to when. */
import { requireWholeArray } from '../../../checks.ts';
import type { ClassTable } from '../../../codes/index.ts';
import type { Sizing } from '../../../counts/index.ts';
import { motescaleError } from '../../../errors.ts';
import { tableOr, withReadableCodes } from '../../classSteps.ts';
import { requireMeasured } from '../../measured.ts';
import { coverageOf, type PeriodCoverage } from '../../period/periodCoverage.ts';
import { type Period, within } from '../../period/periodEvents.ts';
import { type PeriodQualities, qualitiesOf, sizingOf } from '../../period/periodFigures.ts';
import { checkReadings, distinct, hasSample, type ReportReading } from '../../reportReading.ts';
import { isAmong, rangeOf, type SizeRange, tableRanges } from '../../sizeRange.ts';
import { localTime, type OffsetAt } from '../../timeText.ts';
import { countedRanges, isCoded, otherCodesIn, otherCountsIn, type TooManyBucket } from '../codeBuckets.ts';
import { extentOf } from '../countScale.ts';
import { checkBuckets, checkFigureBuckets, type FigureBuckets, type SizeBuckets } from '../sizeBuckets.ts';
import type { TimeSpan } from '../timeAxis.ts';
import {
  bucketSeries,
  figureSeries,
  type RolledUp,
  readingSeries,
  stretchesOf,
  type TrendSeries,
} from './trendSeries.ts';

/** Which of it is drawn, as the options of the chart have it. */
interface TrendScope extends Period {
  readonly table?: ClassTable | undefined;
  readonly figures?: readonly string[] | readonly FigureBuckets[] | undefined;
}

/** What is drawn. */
export interface TrendData {
  readonly sizing: Sizing;
  readonly table: ClassTable;
  /** Whether the table judges the sizes. */
  readonly known: boolean;
  readonly ranges: readonly SizeRange[];
  /** Of each of them. */
  readonly series: readonly TrendSeries[];
  readonly figures: readonly { readonly figure: string; readonly series: TrendSeries }[];
  /** Local times; null without any. */
  readonly span: TimeSpan | null;
  /** Whether it ends where the last bucket or code does, which is the beginning of what follows. */
  readonly open: boolean;
  /** When it was measured, by UTC. */
  readonly moments: readonly number[];
  /** How many readings of each quality; null for buckets. */
  readonly qualities: PeriodQualities | null;
  /** How many readings have a code of another standard only, which is not drawn. */
  readonly otherCodes: number;
  /** How many have counts, at none of the sizes that are drawn. */
  readonly otherCounts: number;
  /** Whether there were any readings, whatever they say. */
  readonly some: boolean;
  /** When the last reading with counts was taken that is not bad, by UTC; -Infinity of buckets. */
  readonly lastCounted: number;
  /** Where there are readings that can be relied on. */
  readonly coverage: PeriodCoverage;
}

/** Of readings. */
export function readingData(given: readonly ReportReading[], options: TrendScope, offset: OffsetAt): TrendData {
  const sizing = checkReadings(given) ?? sizingOf(options.table);
  const table = tableOr(options.table, sizing);
  const told = distinct(withReadableCodes(within(given, options), table));
  const figures = requireWholeArray(options.figures ?? [], 'options.figures')
    .map((figure, i) => requireMeasured(figure, `options.figures[${i}]`))
    .map((figure) => ({ figure, series: figureSeries(figure, told, offset) }));
  const all = stretchesOf(told.filter(hasSample), offset);
  const { judged, counted } = countedRanges(all.readings, tableRanges(table, sizing));
  const coded = all.readings.some(isCoded);
  const known = judged.length > 0 || coded || counted.length === 0;
  const drawn = judged.length > 0 ? judged : known ? tableRanges(table, sizing) : counted;
  const { times, readings } = all;
  const last = times[times.length - 1] ?? 0;
  const shown = figures.length === 0 ? readings : told;
  const ends = [shown[0], shown[shown.length - 1]].map((reading) => localTime(reading?.time ?? 0, offset));
  const [from, latest] = ends as [number, number];
  // a code stands until the next reading, the last one for the usual interval
  const codeEnd = readings[readings.length - 1]?.counts === undefined ? last + all.usual : last;
  const open = codeEnd > Math.max(last, latest);
  const span = shown.length === 0 ? null : { from, to: open ? codeEnd : latest };
  const series = drawn.map((range) => readingSeries(range, table, sizing, all));
  const moments = timesOf(shown);
  const usable = readings.filter(({ quality }) => quality !== 'bad');
  return {
    ...{ sizing, table, known, ranges: drawn, series, figures, span, open, moments },
    qualities: qualitiesOf(readings),
    otherCodes: otherCodesIn(readings, table),
    otherCounts: otherCountsIn(readings, drawn),
    some: readings.length > 0,
    lastCounted: usable.filter(({ counts }) => counts !== undefined).pop()?.time ?? -Infinity,
    coverage: coverageIn(timesOf(usable), timesOf(told), options, offset),
  };
}

function timesOf(readings: readonly ReportReading[]): number[] {
  return readings.map(({ time }) => time);
}

/** Where in the period there are times, which ascend; it ends with the first and the last moment where it says none. */
function coverageIn(
  times: readonly number[],
  moments: readonly number[],
  { from = moments[0], to = moments[moments.length - 1] }: Period,
  offset: OffsetAt,
): PeriodCoverage {
  const moment = (time: number | undefined) => (time === undefined ? null : { time, utcOffsetMinutes: offset(time) });
  return coverageOf(times, { from, to }, moment);
}

/** Of buckets, size by size. */
export function bucketData(given: readonly SizeBuckets[], options: TrendScope, offset: OffsetAt): TrendData {
  const sizing = checkBuckets(given);
  const table = tableOr(options.table, sizing);
  const ranges = tableRanges(table, sizing);
  const judged = given.filter((each, i) => {
    const begins = ranges.some(({ from }) => from === each.size);
    // rolled up for another table: what begins at the same size is no count of this one
    if (begins && !isAmong(ranges, rangeOf(each))) {
      const expected = 'buckets that countBuckets made with the table';
      throw motescaleError('not_convertible', `readings[${i}].to`, each.to, expected);
    }
    return begins;
  });
  const drawn = judged.length > 0 ? judged : given;
  const ends: number[] = [];
  const moments: number[] = [];
  const figureBuckets = requireWholeArray(options.figures ?? [], 'options.figures') as readonly FigureBuckets[];
  figureBuckets.forEach((each, i) => {
    checkFigureBuckets(each, `options.figures[${i}]`);
  });
  const inside = ({ start, widthMs }: TooManyBucket) =>
    (options.from === undefined || start + widthMs > options.from) && (options.to === undefined || start < options.to);
  const seriesOf = (rolled: RolledUp): TrendSeries => {
    const { buckets, codes = [], tooMany = [] } = rolled;
    for (const { start, widthMs } of [...buckets, ...codes, ...tooMany].filter(inside)) {
      moments.push(start);
      const from = localTime(start, offset);
      ends.push(from, from + widthMs);
    }
    return bucketSeries(rolled, inside, offset);
  };
  const series = drawn.map(seriesOf);
  const figures = figureBuckets.map((each) => ({ figure: each.figure, series: seriesOf(each) }));
  const { low, high } = extentOf(ends);
  const inOrder = moments.slice().sort((a, b) => a - b);
  return {
    sizing,
    table,
    known: judged.length > 0,
    ranges: drawn.map(rangeOf),
    series,
    figures,
    span: moments.length === 0 ? null : { from: low, to: high },
    open: true,
    moments,
    qualities: null,
    otherCodes: drawn.reduce((most, { otherCodes = 0 }) => Math.max(most, otherCodes), 0),
    // where nothing is judged, all that was counted is drawn
    otherCounts: judged.reduce((most, { otherCounts = 0 }) => Math.max(most, otherCounts), 0),
    some: drawn.some(
      ({ buckets, codes = [], tooMany = [], otherCodes = 0 }) =>
        otherCodes > 0 || [...buckets.filter(({ count }) => count > 0), ...codes, ...tooMany].some(inside),
    ),
    lastCounted: -Infinity,
    coverage: coverageIn(timesIn(drawn, inside), inOrder, options, offset),
  };
}

/** Gaps are told that are longer than a day and than ten usual intervals: a tenth of a day is apart enough. */
const leastApartMs = 8640000;

/** When there are counts or codes: of a bucket it is known how many, and they are taken as evenly spread. */
function timesIn(lists: readonly SizeBuckets[], inside: (bucket: TooManyBucket) => boolean): number[] {
  const told: { [start: string]: { readonly from: number; readonly to: number; readonly steps: number } } = {};
  const tell = (start: number, from: number, to: number, steps: number) => {
    if (steps >= (told[start]?.steps ?? 0)) told[start] = { from, to, steps };
  };
  for (const { buckets, codes = [], tooMany = [] } of lists) {
    for (const { start, max, count, firstTime, last } of buckets.filter(inside))
      if (max !== null && firstTime !== null && last !== null)
        tell(start, firstTime, last.time, Math.min(count - 1, Math.ceil((last.time - firstTime) / leastApartMs)));
    for (const { start, widthMs } of [...codes, ...tooMany].filter(inside)) tell(start, start, start + widthMs - 1, 1);
  }
  const times: number[] = [];
  for (const start in told) {
    const { from, to, steps } = told[start] as (typeof told)[string];
    for (let i = 0; i < steps; i += 1) times.push(from + ((to - from) * i) / steps);
    times.push(to);
  }
  return times.sort((a, b) => a - b);
}
