/**
 * A period in words, for an e-mail: how many readings, how clean the oil was, whether the target was kept, what happened.
 */
import { requireObject, requireText } from '../checks.ts';
import type { ClassTable, Code } from '../codes/index.ts';
import { requireLabels } from '../codes/requireLabels.ts';
import { shortTitle, tableOr } from './classSteps.ts';
import { countLines, type Judging } from './periodCounts.ts';
import { checkEvents, checkPeriod, eventLines, periodText, within } from './periodEvents.ts';
import { checkTarget, targetText } from './periodTarget.ts';
import { checkReadings, inTimeOrder, type ReportReading } from './reportReading.ts';
import { paragraph, toLeft } from './textLayout.ts';
import { dateTimeText, requireUtcOffset, zoneText } from './timeText.ts';

/** What to say beside the readings. */
export interface PeriodSummaryOptions {
  /** What was watched. */
  readonly title?: string;
  /** The standard to write codes in; ISO 4406 where left out. */
  readonly table?: ClassTable;
  /** The code to be kept. */
  readonly target?: string | Code;
  /** Labels of the columns to judge, as in `meets` and in the codes of a monitor; all where left out. */
  readonly columns?: readonly string[];
  /** When the period begins, in ms since 1970-01-01T00:00:00Z; with the first reading where left out. */
  readonly from?: number;
  /** When it is over: readings and events of this time and later are no part of it. With the last reading where left out. */
  readonly to?: number;
  /** What happened, in words of the caller; listed in order of time. */
  readonly events?: readonly { readonly time: number; readonly text: string }[];
  /** Minutes ahead of UTC in which times are written; 0 where left out. */
  readonly utcOffsetMinutes?: number;
}

const optionMembers = ['title', 'table', 'target', 'columns', 'from', 'to', 'events', 'utcOffsetMinutes'];

/**
 * Sums up a period in plain text, lines of at most 72 characters (unless one word is longer): readings by quality; lowest, median, highest and last count at each size,
 * with the code each makes; how many readings met the target, and whether the last did; verdicts; events.
 *
 * Bad readings are counted and left out of all the rest. Lowest, median and highest are taken at each size on its own, so that their codes
 * need not be those of any one reading; `>=` stands where fewer than 20 particles were counted. A reading that lacks a size of the target can
 * fail it, but not show it met: it is told as not judged. Sizes are those that every good and uncertain reading has. Shares are of readings, not of
 * time. It describes samples; whether a machine may run is for those to decide who answer for it.
 *
 * With `from` and `to` readings and events outside them are left out. A period without a reading gives a text that says so.
 *
 * @throws `missing_size` where no size is common to all; `sizing_not_convertible`; `bad_code`, `unknown_option` for target and columns;
 * `out_of_range` for `to` not after `from`; what readings can throw.
 *
 * @example
 * ```ts
 * import { cumulativeCounts } from 'motescale/counts';
 * import { periodSummary } from 'motescale/report';
 * const readings = [1890, 2100, 2400].map((at4, i) => ({ time: i * 3600000, counts: cumulativeCounts({ 4: at4, 6: 402, 14: 33 }) }));
 * const text = periodSummary(readings, { title: 'Lock 3, power unit A', target: '18/16/13' });
 * text.split('\n')[5]; // => 'Target     ISO 4406 18/16/13: met by 3 of 3 readings (100 %)'
 * ```
 */
export function periodSummary(readings: readonly ReportReading[], options: PeriodSummaryOptions = {}): string {
  const none = Array.isArray(readings) && readings.length === 0;
  // of no reading at all the sizing makes no difference
  const sizing = none ? 'iso11171' : checkReadings(readings, 'readings');
  const { target, columns, from, to, events } = requireObject(
    options,
    'options',
    'an object',
    optionMembers,
  ) as PeriodSummaryOptions;
  const offset = requireUtcOffset(options.utcOffsetMinutes ?? 0, 'options.utcOffsetMinutes');
  const table = tableOr(options.table, sizing);
  const judging: Judging = { table, options: columns === undefined ? {} : { columns } };
  // without a reading and a table the standard is not known, and nothing is judged
  if (!none || options.table !== undefined) {
    if (columns !== undefined) requireLabels(table, columns, 'options.columns');
    if (target !== undefined) checkTarget(table, target, columns);
  }
  checkPeriod(options);
  if (events !== undefined) checkEvents(events);
  const inPeriod = within(inTimeOrder(readings), options);
  const usable = inPeriod.filter(({ quality }) => quality !== 'bad');
  const at = (time: number) => dateTimeText(time, offset).slice(0, 16);
  const period = periodText(from ?? inPeriod[0]?.time, to ?? inPeriod[inPeriod.length - 1]?.time, at);
  const lines = paragraph('', requireText(options.title ?? 'Fluid cleanliness', 'options.title'));
  if (period !== '') lines.push(`${period} (${zoneText(offset)})`);
  lines.push('', ...paragraph(heading('Readings'), qualityText(inPeriod)));
  if (usable.length > 0) {
    lines.push('');
    if (columns !== undefined) {
      lines.push(...paragraph(heading('Judged'), `${shortTitle(table)} at ${columns.join(', ')} only`));
    }
    if (target !== undefined) lines.push(...paragraph(heading('Target'), targetText(usable, judging, target)));
    if (columns !== undefined || target !== undefined) lines.push('');
    lines.push(...countLines(usable, sizing, judging));
  } else if (inPeriod.length > 0) {
    lines.push(...paragraph(heading(''), 'None can be relied on: they say nothing of the oil.'));
  }
  const verdicts = verdictText(inPeriod);
  if (verdicts !== '') lines.push('', ...paragraph(heading('Verdicts'), verdicts));
  if (events !== undefined) lines.push('', ...eventLines(within(events, options), at));
  return `${lines.join('\n')}\n`;
}

/** The name of a paragraph, in a column of its own. */
function heading(name: string): string {
  return toLeft(name, 11);
}

function qualityText(readings: readonly ReportReading[]): string {
  const of = (quality: string) => readings.filter((reading) => (reading.quality ?? 'good') === quality).length;
  if (readings.length === 0) return 'none: nothing is known of the oil';
  return `${readings.length}: ${of('good')} good, ${of('uncertain')} uncertain, ${of('bad')} bad`;
}

/** Each verdict with the number of readings, in the order they first occur. */
function verdictText(readings: readonly ReportReading[]): string {
  const words: string[] = [];
  const numbers: number[] = [];
  for (const { verdict } of readings) {
    if (verdict === undefined) continue;
    const place = words.indexOf(verdict);
    if (place < 0) {
      words.push(verdict);
      numbers.push(1);
    } else numbers[place] = (numbers[place] as number) + 1;
  }
  return words.map((word, i) => `${word}: ${numbers[i]}`).join('; ');
}
