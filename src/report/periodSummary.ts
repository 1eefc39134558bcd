/**
 * A period in words, for an e-mail: how many readings, how clean the oil was, whether the target was kept, what happened.
 */
import { requireObject, requireText } from '../checks.ts';
import { type ClassTable, type Code, meets } from '../codes/index.ts';
import { requireTarget } from '../codes/meets.ts';
import type { CumulativeCounts } from '../counts/index.ts';
import { motescaleError } from '../errors.ts';
import { codeText, tableOr } from './classSteps.ts';
import { percentText } from './figures.ts';
import { codeOf, countLines } from './periodCounts.ts';
import { checkReadings, inTimeOrder, type ReportReading } from './reportReading.ts';
import { paragraph, toLeft } from './textLayout.ts';
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
 * Sums up a period in plain text, lines of at most 72 characters (unless one word is longer): readings by quality; lowest, median, highest and last count at each size,
 * with the code each makes; how many readings met the target, and whether the last did; verdicts; events.
 *
 * Bad readings are counted and left out of all the rest. Lowest, median and highest are taken at each size on its own, so that their codes
 * need not be those of any one reading; `>=` stands where fewer than 20 particles were counted. A reading that lacks a size of the target can
 * fail it, but not show it met: it is told as not judged. Sizes are those that every good and uncertain reading has. Shares are of readings, not of
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
  const table = tableOr(options.table, sizing);
  const inOrder = inTimeOrder(readings);
  const usable = inOrder.filter(({ quality }) => quality !== 'bad');
  const at = (time: number) => dateTimeText(time, offset).slice(0, 16);
  const first = inOrder[0] as ReportReading;
  const last = inOrder[inOrder.length - 1] as ReportReading;
  const lines = [
    ...paragraph('', requireText(options.title ?? 'Fluid cleanliness', 'options.title')),
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
  const outcomes = usable.map(({ counts }) => verdictOn(table, target, counts));
  const judged = outcomes.filter((outcome) => outcome !== null);
  const met = judged.filter((outcome) => outcome).length;
  const unjudged = usable.length - judged.length;
  const last = outcomes[outcomes.length - 1] as boolean | null;
  let text = 'could not be judged: no reading has all its sizes';
  if (judged.length > 0) {
    text = `met by ${met} of ${judged.length} readings (${percentText(met, judged.length)})`;
    if (met > 0 && met < judged.length && last !== null) text += `, ${last ? 'also' : 'not'} by the last`;
    if (unjudged > 0) text += `; ${unjudged} could not be judged${last === null ? ', the last among them' : ''}`;
  }
  return [...paragraph(heading('Target'), `${codeText(target)}: ${text}`), ''];
}

/** Whether the target is met; null where sizes are missing and those known do not decide it. */
function verdictOn(table: ClassTable, target: string | Code, counts: CumulativeCounts): boolean | null {
  const code = codeOf(table, counts);
  if (code === null) {
    requireTarget(table, target);
    return null;
  }
  const { met, margins } = meets(table, target, code);
  if (met || margins.some(({ classes }) => classes < 0)) return met;
  return null;
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
  if (!Array.isArray(events)) {
    throw motescaleError('wrong_type', 'options.events', events, 'an array of events { time, text }');
  }
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
