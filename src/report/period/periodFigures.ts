/** A period as figures: how many readings, how clean the oil was, how often the target was kept, what happened. */
import { inOrder } from '../../alarm/eventOrder.ts';
import { requireObject, requireText } from '../../checks.ts';
import { usualSizing } from '../../codes/columnSizes.ts';
import type { ClassTable, Code, MeasurementErrors } from '../../codes/index.ts';
import { requireLabels } from '../../codes/requireTable.ts';
import { checkErrors } from '../../codes/uncertainty/errors.ts';
import type { Sizing } from '../../counts/index.ts';
import { shortTitle, tableOr, withReadableCodes } from '../classSteps.ts';
import { checkReadings, distinct, hasSample, type ReportReading } from '../reportReading.ts';
import { offsetAt, type UtcOffset, zonesOf } from '../timeText.ts';
import { type CodeFigures, codeFigures } from './periodCodes.ts';
import { type CountFigures, countFigures, type Judging } from './periodCounts.ts';
import { coverageOf, type Moment, type PeriodCoverage } from './periodCoverage.ts';
import { checkEvents, checkPeriod, eventsOf, type PeriodEvent, standingAfter, timeOf, within } from './periodEvents.ts';
import { type MeasuredFigures, measuredFigures } from './periodMeasured.ts';
import { checkTarget, type TargetFigures, targetFigures } from './periodTarget.ts';

/** What to find out of a period. */
export interface PeriodOptions {
  /** What was watched. */
  readonly title?: string | undefined;
  /** The standard to write codes in; ISO 4406 where left out. */
  readonly table?: ClassTable | undefined;
  /** The code to be kept. */
  readonly target?: string | Code | undefined;
  /** Labels of the columns to judge, as in `meets` and in the codes of a monitor; all where left out. */
  readonly columns?: readonly string[] | undefined;
  /**
   * What makes the counts unsure, as `targetProbability` takes it: then the figures say with what probability the last
   * reading met the target, of several sizes with one too low where an oil's sizes go together (`targetProbability`).
   * `{}` for its defaults, which are common practice and no measure of your counter.
   */
  readonly errors?: MeasurementErrors | undefined;
  /** When the period begins, in ms since 1970-01-01T00:00:00Z; with the first reading of any kind where left out. */
  readonly from?: number | undefined;
  /**
   * When it is over: readings and events of this time and later are no part of it. With the last reading where left
   * out: of any kind, so that a counter that died is told as a gap as long as the thermometer beside it goes on.
   */
  readonly to?: number | undefined;
  /**
   * What happened, in words of the caller; listed in order of time. Those of a monitor in the order they came, with
   * their `event`, `alarm`, `taken`, `latched` and `from`, also from before the period: what began then and has not
   * ended is told first (`standing`). What came after a `clock_set` counts as later than what came before it, whatever
   * its time.
   */
  readonly events?: readonly PeriodEvent[] | undefined;
  /** Minutes ahead of UTC in which times are written, or a function of the time that gives them; 0 where left out. */
  readonly utcOffsetMinutes?: UtcOffset | undefined;
}

/** How many readings of each quality. */
export interface PeriodQualities {
  readonly good: number;
  readonly uncertain: number;
  readonly bad: number;
}

/** How many readings of the period are no part of its figures, and why. */
export interface PeriodLeftOut {
  /** Their time was so far ahead that the clock was doubted. */
  readonly setAside: number;
  /**
   * Their time was there already: `arrival` says so, of a reading sent twice and of one that contradicts another of its
   * time; or another of the same time is alike in all members. Without `arrival`, each of one time with other figures
   * is counted.
   */
  readonly repeated: number;
  /** With neither counts nor a code, of which nobody says that they were bad. */
  readonly withoutSample: number;
}

/** A period in figures: plain data, which `periodSummary` puts into words. */
export interface PeriodFigures {
  readonly title: string | null;
  readonly from: Moment | null;
  readonly to: Moment | null;
  /** The zone of the times, such as `UTC+01:00`. */
  readonly zone: string;
  readonly readings: PeriodQualities;
  readonly leftOut: PeriodLeftOut;
  /** Where in the period they lie, and where there are none. */
  readonly coverage: PeriodCoverage;
  /** The standard judged by. */
  readonly standard: string;
  readonly sizing: Sizing;
  /** The columns judged; null: all. */
  readonly columns: readonly string[] | null;
  /** Null where no target was given, or no reading can be relied on. */
  readonly target: TargetFigures | null;
  /** Size by size; null where no reading that can be relied on has counts. */
  readonly counts: CountFigures | null;
  /** Class by class, of the readings with a code and no counts; null where there are none. */
  readonly codes: CodeFigures | null;
  /** Temperature, viscosity, water and whatever else was measured; null where no reading has any of it. */
  readonly measured: MeasuredFigures | null;
  /** Verdicts with the number of readings, in the order they first occur. */
  readonly verdicts: readonly { readonly verdict: string; readonly readings: number }[];
  /**
   * What stood at `from`, in the order of `events`, as far as these tell: alarms raised, or latched and not reset;
   * alarms shelved, suppressed or out of service; signals bad or stale; readings that had ceased to come.
   */
  readonly standing?: readonly (Moment & { readonly text: string })[];
  /** Null where none were asked about. */
  readonly events: readonly (Moment & { readonly text: string })[] | null;
}

const members = ['title', 'table', 'target', 'columns', 'errors', 'from', 'to', 'events', 'utcOffsetMinutes'];

/**
 * Sums up a period in figures: readings by quality; lowest, median, highest and last count at each size, with the code
 * each makes; how many readings met the target, how many of those were good, and whether the last did; what else was
 * measured; verdicts; events.
 *
 * Bad readings are counted and left out of all the rest; among them are those without counts whose counts are called
 * bad (`qualities`, `figureQualities`). Lowest, median and highest are taken at each size on its own, so that their
 * codes need not be those of any one reading; of a table of ranges the codes are those of readings. A reading that
 * lacks a size of the target can fail it, but not show it met: it is not judged. It describes samples; whether a
 * machine may run is for those to decide who answer for it.
 *
 * A reading with a code and no counts is judged by its code, and is one of `codes`; one whose code cannot be read is
 * bad. Numbers are of readings, not of time: of the days on which there are none, `coverage` tells.
 *
 * `measured` is of all readings that have flow, pressure, temperature, viscosity, water or `others`, with or without
 * particles. Each is relied on by itself: a counter without flow does not silence a thermometer. Its `last` is null
 * where the last reading lacks it, so that a sensor that died does not go on.
 *
 * Readings that were repeated (`arrival`, or alike in time and all members) or set aside, and those with neither counts
 * nor code are counted in `leftOut` and left out of all the rest; of these last, `measured` and the ends of the period
 * are taken. So give the readings of one unit: equal ones of two units at one time count once, as repeated, and `last`
 * and `coverage` are of whichever came last. docs/fleet.md says how to sum units up. With `from` and `to` readings and
 * events outside them are left out, but for what `events` show to stand at `from` (`standing`). 150,000 readings
 * take about a second.
 *
 * @param readings in any order
 * @throws `sizing_not_convertible`; `bad_code` for a target; `unknown_option` for columns; `out_of_range` for
 * `to` not after `from`; what readings can throw.
 *
 * @example
 * ```ts
 * import { cumulativeCounts } from 'motescale/counts';
 * import { periodFigures } from 'motescale/report';
 * const counts = [1890, 2100, 2700].map((at4) => cumulativeCounts({ 4: at4, 6: 402, 14: 33 }));
 * const readings = counts.map((at, i) => ({ time: i * 3600000, counts: at }));
 * const figures = periodFigures(readings, { target: '18/16/13' });
 * figures.target?.met; // => 2
 * figures.target?.judged; // => 3
 * figures.counts?.sizes[0]?.median.perMl; // => 2100
 * figures.counts?.codes?.highest; // => '19/16/12'
 * ```
 */
export function periodFigures(readings: readonly ReportReading[], options: PeriodOptions = {}): PeriodFigures {
  requireObject(options, 'options', undefined, members);
  const sizing = checkReadings(readings) ?? sizingOf(options.table);
  const { target, columns, errors, from, to, events } = options;
  if (errors !== undefined) checkErrors(errors, 'options.errors');
  const offset = offsetAt(options);
  if (options.title !== undefined) requireText(options.title, 'options.title');
  const table = tableOr(options.table, sizing);
  const judging: Judging = { table, options: columns === undefined ? {} : { columns } };
  // without a reading and a table the standard is not known, and nothing is judged
  if (readings.length > 0 || options.table !== undefined) {
    if (columns !== undefined) requireLabels(table, columns, 'options.columns');
    if (target !== undefined) checkTarget(table, target, columns);
  }
  checkPeriod(options);
  if (events !== undefined) checkEvents(events);
  const all = withReadableCodes(within(readings, options), table);
  const told = distinct(all);
  const inPeriod = told.filter(hasSample);
  const usable = inPeriod.filter(({ quality }) => quality !== 'bad');
  const counted = usable.filter(({ counts }) => counts !== undefined);
  const moment = (time: number | undefined): Moment | null =>
    time === undefined ? null : { time, utcOffsetMinutes: offset(time) };
  const begins = moment(from ?? told[0]?.time);
  const ends = moment(to ?? told[told.length - 1]?.time);
  const coverage = coverageOf(timesOf(usable), { from: begins?.time, to: ends?.time }, moment);
  const said = (list: readonly PeriodEvent[]) =>
    inOrder(list, timeOf).map((event) => ({ ...(moment(timeOf(event)) as Moment), text: event.text }));
  const [before, during] = eventsOf(options, events ?? []);
  const standing = said(standingAfter(before));
  const happened = said(during);
  const written = writtenMoments({ from: begins, to: ends, coverage, standing, events: happened });
  return {
    title: options.title ?? null,
    from: begins,
    to: ends,
    zone: zonesOf(timesOf(written), offset),
    readings: qualitiesOf(inPeriod),
    leftOut: leftOutOf(all, inPeriod.length),
    coverage,
    standard: shortTitle(table),
    sizing,
    columns: columns ?? null,
    target: target === undefined || usable.length === 0 ? null : targetFigures(usable, judging, target, errors),
    counts: counted.length === 0 ? null : countFigures(counted, sizing, judging),
    codes: codeFigures(usable, judging, sizing),
    measured: measuredFigures(told),
    verdicts: verdictsOf(inPeriod),
    standing,
    events: events === undefined ? null : happened,
  };
}

function timesOf(list: readonly { readonly time: number }[]): number[] {
  return list.map(({ time }) => time);
}

type Timed = Pick<PeriodFigures, 'from' | 'to' | 'coverage' | 'standing' | 'events'>;

/** All times that stand on the page of a period. */
export function writtenMoments({ from, to, coverage, standing = [], events }: Timed): Moment[] {
  const { longestGap, longGaps } = coverage;
  const gap = longGaps > 0 && longestGap !== null ? [longestGap.from, longestGap.to] : [];
  return [from, to, ...gap, ...standing, ...(events ?? [])].filter((moment): moment is Moment => moment !== null);
}

/** The first sizing that a table judges, that of ISO 4406 where none is given. */
export function sizingOf(given: ClassTable | undefined): Sizing {
  return usualSizing(tableOr(given, 'iso11171'));
}

export function qualitiesOf(readings: readonly ReportReading[]): PeriodQualities {
  const numbers = { good: 0, uncertain: 0, bad: 0 };
  for (const { quality = 'good' } of readings) numbers[quality] += 1;
  return numbers;
}

function leftOutOf(readings: readonly ReportReading[], told: number): PeriodLeftOut {
  const of = (arrival: ReportReading['arrival']) => readings.filter((reading) => reading.arrival === arrival);
  const sampled = of(undefined).filter(hasSample).length;
  return {
    setAside: of('set_aside').length,
    repeated: of('repeated').length + sampled - told,
    withoutSample: of(undefined).length - sampled,
  };
}

function verdictsOf(readings: readonly ReportReading[]): { verdict: string; readings: number }[] {
  const verdicts: string[] = [];
  for (const { verdict } of readings)
    if (verdict !== undefined && verdicts.indexOf(verdict) < 0) verdicts.push(verdict);
  return verdicts.map((verdict) => ({ verdict, readings: readings.filter((one) => one.verdict === verdict).length }));
}
