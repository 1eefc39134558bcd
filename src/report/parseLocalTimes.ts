/** Times as instruments and spreadsheets write them, by a clock on the wall; the caller knows by which. */
import { linesOf, requireArray, requireBoolean, requireObject, requireOneOf } from '../checks.ts';
import { atLine, mostTold, motescaleError, noteLost, noteProblem, type Problem, requireTold } from '../errors.ts';
import type { Cell } from './csv/csvFormat.ts';
import { asked, type DateOrder, firstDays, momentsOf, orders, type SerialDates } from './localTime.ts';
import { type Course, unsettled } from './struckTwice.ts';
import { momentText, type OffsetAt, offsetAt, type UtcOffset } from './timeText.ts';

/** How times were written. */
export interface TimeReading {
  /** Which figure comes first. Only a date whose year comes first, in four digits, is read without. */
  readonly order?: DateOrder | undefined;
  /** Minutes ahead of UTC of the clock that wrote them, or a function of the time that gives them. */
  readonly utcOffsetMinutes?: UtcOffset | undefined;
  /**
   * The system in which a spreadsheet numbered its days, of cells that are numbers such as 46356.3333333: day 1 is 1
   * January 1900, or day 0 is 1 January 1904, as the settings of its file say. They are refused where left out.
   */
  readonly serialDates?: SerialDates | undefined;
  /** Whether a text that cannot be read becomes null and is told. False where left out: one such text refuses all. */
  readonly keepReadable?: boolean | undefined;
  /** The lines of the file in which they stood, `table.lines` of `parseCsv`: what is refused or told has its `line`. */
  readonly lines?: readonly number[] | undefined;
}

/**
 * Times in ms since 1970 of texts such as `25.11.2026 08:00`, `11/25/2026 8:00:30 PM` or `2026-11-25 08:00`: a column
 * of a file, in the order in which it was written.
 *
 * A date is three figures with the same `.`, `/` or `-` between; of two digits a year is one of 2000 to 2099 (our
 * choice). Behind it may stand hours and minutes, seconds, up to nine digits behind a point or comma (those beyond
 * milliseconds are dropped), AM or PM; without, it is midnight. A zone in the text (`Z`, `+01:00`, `UTC+01:00`) stands
 * before `utcOffsetMinutes`. It guesses no order and no zone: 03/04 without `order` and a time without an offset are
 * refused.
 *
 * With `serialDates` a number is a time too, as spreadsheets keep it: days, by the same clock on the wall, to the
 * millisecond; a file with five decimals of a day has times up to 0.4 s off. From 1 March 1900 or 2 January 1904 on.
 * Source: common practice of spreadsheets.
 *
 * In the night when clocks are put back an hour is struck twice. Of such a time the first is taken that is after the
 * line above; in a list whose newest time comes first, the last that is before it. The time of the line above may come
 * again where other times of the list come twice in turn. A list of such times alone does not tell, and is taken to
 * rise. Where the lines of that hour and those beside them allow the other time too, or are in no order, what was taken
 * is a guess, and `told` says so: where one of the two hours is missing, or two sensors write once an hour. A time that
 * the clock skips when it is put forward is refused: the clock that wrote it goes by another offset.
 *
 * @param texts cells of a column, as `csvColumns` gives them
 * @param told gets an entry for each of the first 100 times of an hour struck twice that nothing settles, and with
 * `keepReadable` for each of the first 100 that became null (`lost`): `path` is its place in the list, `line` that of
 * `format.lines`
 * @throws `wrong_type` for a text that is no such time, for a cell that is none; `out_of_range` for a time that does
 * not exist, or not by this clock, or outside the years 2 to 9998; `unknown_option` for a date in figures without
 * `order`, for a time without zone or offset.
 *
 * @example
 * ```ts
 * import { parseLocalTimes, type Problem } from 'motescale/report';
 * const berlin = { order: 'day_month_year', utcOffsetMinutes: 60 } as const;
 * parseLocalTimes(['25.11.2026 08:00', '25.11.26 08:10:30,5'], berlin); // => [1795590000000, 1795590630500]
 * parseLocalTimes(['2026-11-25T07:00:00Z', '2026-11-25 08:00 +01:00']); // => [1795590000000, 1795590000000]
 * const told: Problem[] = [];
 * parseLocalTimes(['31.11.2026 08:00', ''], { ...berlin, keepReadable: true }, told); // => [null, null]
 * told[0]?.expected; // => 'left out: a date and a time that there are'
 * parseLocalTimes([46351.3333333333], { serialDates: 'from_1900', utcOffsetMinutes: 60 }); // => [1795590000000]
 * ```
 */
export function parseLocalTimes(
  texts: readonly Cell[],
  format?: TimeReading & { readonly keepReadable?: false | undefined },
  told?: Problem[],
): number[];
export function parseLocalTimes(texts: readonly Cell[], format: TimeReading, told?: Problem[]): (number | null)[];
export function parseLocalTimes(
  texts: readonly Cell[],
  format: TimeReading = {},
  told: Problem[] = [],
): (number | null)[] {
  requireArray(texts, 'texts', 'an array of texts');
  requireObject(format, 'format', 'a format { order, utcOffsetMinutes, serialDates, keepReadable, lines }', members);
  const order = format.order === undefined ? undefined : requireOneOf(format.order, 'format.order', orders);
  const at = format.utcOffsetMinutes === undefined ? undefined : offsetAt(format, 'format.utcOffsetMinutes');
  const systems = Object.keys(firstDays) as SerialDates[];
  const serials =
    format.serialDates === undefined ? undefined : requireOneOf(format.serialDates, 'format.serialDates', systems);
  const keeps = requireBoolean(format.keepReadable ?? false, 'format.keepReadable');
  const lineAt = linesOf(format.lines, texts, 'format.lines');
  requireTold(told);
  let toldOnes = 0;
  const moments: number[][] = [];
  for (let i = 0; i < texts.length; i += 1) {
    const text = texts[i] as Cell;
    const read = momentsOf(text, { order, at, serials });
    moments.push(typeof read === 'string' ? [] : read);
    if (typeof read !== 'string') continue;
    const code = read.indexOf(asked) === 0 ? 'wrong_type' : 'out_of_range';
    if (!keeps) throw atLine(motescaleError(code, `texts[${i}]`, text, read), lineAt(i));
    toldOnes += 1;
    if (toldOnes <= mostTold) noteLost(told, [i], code, text, read, lineAt(i));
  }
  const course = courseOf(moments);
  const times = inOrder(moments, course);
  for (const i of unsettled(moments, course).slice(0, mostTold)) {
    const time = times[i] as number;
    const read = momentText(time, (at as OffsetAt)(time), true);
    noteProblem(told, [i], 'out_of_range', texts[i], `read as ${read}: ${struckTwice}`, lineAt(i));
  }
  return times;
}

const members = ['order', 'utcOffsetMinutes', 'serialDates', 'keepReadable', 'lines'];

const struckTwice = 'this hour is struck twice, and the lines beside it do not tell which is meant';

function courseOf(moments: readonly (readonly number[])[]): Course {
  const sure = moments.filter((meant) => meant.length === 1).map(([moment]) => moment as number);
  const falls = (sure[0] as number) > (sure[sure.length - 1] as number);
  return { falls, repeats: sure.some((moment, i) => i > 0 && moment === sure[i - 1]) };
}

/** One moment of each: as the list goes. */
function inOrder(moments: readonly (readonly number[])[], { falls, repeats }: Course): (number | null)[] {
  let beside: number | null = null;
  return moments.map((meant) => {
    if (meant.length === 0) return null;
    const [first, last] = [meant[0] as number, meant[meant.length - 1] as number];
    const [near, far] = falls ? [last, first] : [first, last];
    const onward = beside === null ? 1 : falls ? beside - near : near - beside;
    beside = onward > 0 || (onward === 0 && repeats) ? near : far;
    return beside;
  });
}
