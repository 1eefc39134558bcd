/**
 * A period in words, for an e-mail: how many readings, how clean the oil was, whether the target was kept, what happened.
 */
import { requireObject, requireText } from '../checks.ts';
import { type ClassTable, type Code, classify, meets } from '../codes/index.ts';
import type { Sizing } from '../counts/index.ts';
import { motescaleError } from '../errors.ts';
import { codeText, defaultTable, shortTitle, tableSizes } from './classSteps.ts';
import { figureText, percentText } from './figures.ts';
import { checkReadings, countOf, inTimeOrder, type ReportReading, sizesOf, sizeText } from './reportReading.ts';
import { paragraph, toLeft, toRight } from './textLayout.ts';
import { dateTimeText, requireTime, requireUtcOffset, zoneText } from './timeText.ts';

/** What to say beside the readings. */
export interface PeriodSummaryOptions {
  /** What was watched. */
  readonly title?: string;
  /** The standard to write codes in; ISO 4406 where left out. */
  readonly table?: ClassTable;
  /** The code to be kept. */
  readonly target?: string | Code;
  /** What happened, in words of the caller; listed in order of time. */
  readonly events?: readonly { readonly time: number; readonly text: string }[];
  /** Minutes ahead of UTC in which times are written; 0 where left out. */
  readonly utcOffsetMinutes?: number;
}

/**
 * Sums up a period in plain text, lines of at most 72 characters: readings by quality; lowest, median, highest and last count at each size,
 * with the code each makes; how many readings met the target, and whether the last did; verdicts; events.
 *
 * Bad readings are counted and left out of all the rest. Lowest, median and highest are taken at each size on its own, so that their codes
 * need not be those of any one reading. Sizes are those that every good and uncertain reading has. Shares are of readings, not of
 * time. It describes samples; whether a machine may run is for those to decide who answer for it.
 *
 * @throws `empty`; `missing_size` where no size is common to all; `sizing_not_convertible`; `bad_code`; what readings can throw.
 *
 * @example
 * ```ts
 * import { cumulativeCounts } from 'motescale/counts';
 * import { periodSummary } from 'motescale/report';
 * const readings = [1890, 2100, 2700].map((at4, i) => ({ time: i * 3600000, counts: cumulativeCounts({ 4: at4, 6: 402, 14: 33 }) }));
 * const text = periodSummary(readings, { title: 'Lock 3, power unit A', target: '18/16/13' });
 * text.split('\n')[5]; // => 'Target     18/16/13: met by 2 of 3 readings (66.7 %), not by the last'
 * ```
 */
export function periodSummary(readings: readonly ReportReading[], options: PeriodSummaryOptions = {}): string {
  const sizing = checkReadings(readings, 'readings');
  requireObject(options, 'options');
  const offset = requireUtcOffset(options.utcOffsetMinutes ?? 0, 'options.utcOffsetMinutes');
  const table = options.table ?? defaultTable(sizing);
  const inOrder = inTimeOrder(readings);
  const usable = inOrder.filter(({ quality }) => quality !== 'bad');
  const at = (time: number) => dateTimeText(time, offset).slice(0, 16);
  const first = inOrder[0] as ReportReading;
  const last = inOrder[inOrder.length - 1] as ReportReading;
  const lines = [
    requireText(options.title ?? 'Fluid cleanliness', 'options.title'),
    `${at(first.time)} to ${at(last.time)} (${zoneText(offset)})`,
    '',
    ...paragraph(heading('Readings'), qualityText(readings)),
  ];
  if (usable.length === 0) lines.push(...paragraph(heading(''), 'None can be relied on: they say nothing of the oil.'));
  else lines.push('', ...targetLines(usable, table, options.target), ...countLines(usable, sizing, table));
  const verdicts = verdictText(readings);
  if (verdicts !== '') lines.push('', ...paragraph(heading('Verdicts'), verdicts));
  if (options.events !== undefined) lines.push('', ...eventLines(options.events, at));
  return `${lines.join('\n')}\n`;
}

/** The name of a paragraph, in a column of its own. */
function heading(name: string): string {
  return toLeft(name, 11);
}

function qualityText(readings: readonly ReportReading[]): string {
  const of = (quality: string) => readings.filter((reading) => (reading.quality ?? 'good') === quality).length;
  return `${readings.length}: ${of('good')} good, ${of('uncertain')} uncertain, ${of('bad')} bad`;
}

function targetLines(usable: readonly ReportReading[], table: ClassTable, target: string | Code | undefined): string[] {
  if (target === undefined) return [];
  const outcomes = usable.map(({ counts }) => meets(table, target, counts).met);
  const met = outcomes.filter((each) => each).length;
  const last = outcomes[outcomes.length - 1] === true;
  const share = `met by ${met} of ${usable.length} readings (${percentText(met, usable.length)})`;
  const mixed = met > 0 && met < usable.length;
  const end = mixed ? `, ${last ? 'also' : 'not'} by the last` : '';
  return [...paragraph(heading('Target'), `${codeText(target)}: ${share}${end}`), ''];
}

/** Lowest, median, highest and last, size by size, and the codes they make. */
function countLines(usable: readonly ReportReading[], sizing: Sizing, table: ClassTable): string[] {
  const common = sizesOf(usable).filter((size) => usable.every(({ counts }) => countOf(counts, size) !== null));
  if (common.length === 0) {
    throw motescaleError('missing_size', 'readings', usable, 'a size that every good and uncertain reading has');
  }
  const columns: number[][] = [[], [], [], []];
  for (const size of common) {
    const counts = usable.map((reading) => countOf(reading.counts, size) as number);
    const last = counts[counts.length - 1] as number;
    counts.sort((a, b) => a - b);
    const figures = [counts[0] as number, medianOf(counts), counts[counts.length - 1] as number, last];
    figures.forEach((figure, i) => {
      (columns[i] as number[]).push(figure);
    });
  }
  const row = (name: string, cells: readonly string[]) =>
    toLeft(name, 20) + cells.map((cell) => toRight(cell, 12)).join('');
  const lines = [row('Particles per mL', ['lowest', 'median', 'highest', 'last'])];
  common.forEach((size, i) => {
    const figures = columns.map((column) => figureText(column[i] as number));
    lines.push(row(`  ${sizeText(size, sizing)}`, figures));
  });
  const judged = tableSizes(table, sizing).some((size) => common.indexOf(size) >= 0);
  if (judged)
    lines.push(
      row(
        `  ${shortTitle(table)}`,
        columns.map((perMl) => classify(table, { sizing, sizes: common, perMl }).text),
      ),
    );
  return lines;
}

/** The middle one, or the mean of the two in the middle. */
function medianOf(ascending: readonly number[]): number {
  const middle = Math.floor((ascending.length - 1) / 2);
  const lower = ascending[middle] as number;
  return ascending.length % 2 === 1 ? lower : (lower + (ascending[middle + 1] as number)) / 2;
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

function eventLines(
  events: readonly { readonly time: number; readonly text: string }[],
  at: (time: number) => string,
): string[] {
  events.forEach((event, i) => {
    requireObject(event, `options.events[${i}]`, 'an event { time, text }');
    requireTime(event.time, `options.events[${i}].time`);
    if (typeof event.text !== 'string') {
      throw motescaleError('wrong_type', `options.events[${i}].text`, event.text, 'text');
    }
  });
  if (events.length === 0) return ['Events     none'];
  const lines = ['Events'];
  for (const event of inTimeOrder(events)) {
    lines.push(...paragraph(`  ${at(event.time)}  `, event.text));
  }
  return lines;
}
