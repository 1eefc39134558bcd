/** Readings as rows of a table: time, counts, codes, what else was measured, quality, verdict. */
import { hasOwn, requireFilledArray, requireObject } from '../checks.ts';
import type { ClassTable } from '../codes/index.ts';
import { motescaleError } from '../errors.ts';
import { tableOr, withReadableCodes } from './classSteps.ts';
import type { Cell, CsvTable } from './csv/csvFormat.ts';
import { measuredAt, measuredHead, measuredIn, otherNameOf, writtenValue } from './measured.ts';
import { figureName } from './messages/figureTexts.ts';
import { checkReadings, countOf, qualityOf, type ReportReading, sizesOf, sizeText } from './reportReading.ts';
import { requireTexts } from './texts/english.ts';
import { codeIn, fill } from './texts/fill.ts';
import type { Texts } from './texts/types.ts';
import { dateTimeText, haveSeveral, offsetAt, type UtcOffset, zonesOf, zoneText } from './timeText.ts';

/**
 * Makes a table of readings, ready for `toCsv`: one row each, in the order given. Columns: time (in words a spreadsheet
 * reads as a time, to the second, parts of a second cut), the UTC offset where the times have more than one, particles
 * per mL at each size that occurs, a column for each standard that occurs and for each other figure that was measured,
 * quality, verdict; where they occur, the other figures that are uncertain or bad, and how a reading came that was
 * repeated or set aside. What a reading lacks is an empty cell. A relative saturation is a percentage. A reading
 * without counts whose code the table cannot read is bad, as in `periodFigures`; the code stays as it came.
 *
 * @param options `utcOffsetMinutes`: minutes ahead of UTC in which to write times, or a function of the time that gives
 * them, 0 where left out; the header names it. `table`: the standard whose codes are read; ISO 4406 where left out.
 * `texts`: the words of another language
 * @throws `empty`; `sizing_not_convertible` where readings were sized in different ways; `unknown_option` for a
 * standard or a figure named like another column, and for texts that give two columns one head; what `counts` can
 * throw.
 *
 * @example
 * ```ts
 * import { cumulativeCounts } from 'motescale/counts';
 * import { reportRows } from 'motescale/report';
 * const counts = cumulativeCounts({ 4: 1890, 6: 402, 14: 33 });
 * const table = reportRows([{ time: 1795593600000, counts, codes: { 'ISO 4406': '18/16/12' }, verdict: 'in target' }]);
 * table.header;
 * // => ['time (UTC)', '4 µm(c) per mL', '6 µm(c) per mL', '14 µm(c) per mL', 'ISO 4406', 'quality', 'verdict']
 * table.rows[0]; // => ['2026-11-25 08:00:00', 1890, 402, 33, '18/16/12', 'good', 'in target']
 * ```
 */
export function reportRows(
  readings: readonly ReportReading[],
  options: {
    readonly utcOffsetMinutes?: UtcOffset | undefined;
    readonly table?: ClassTable | undefined;
    readonly texts?: Texts | undefined;
  } = {},
): CsvTable {
  requireFilledArray(readings, 'readings', 'an array of readings { time, counts }');
  const sizing = checkReadings(readings) ?? 'iso11171';
  requireObject(options, 'options', undefined, ['utcOffsetMinutes', 'table', 'texts']);
  const judged = withReadableCodes(readings, tableOr(options.table, sizing));
  const texts = requireTexts(options.texts, 'options.texts');
  const offset = offsetAt(options);
  const times = readings.map(({ time }) => time);
  const zone = zonesOf(times, offset);
  const offsets = times.map((time) => offset(time));
  const standards = standardsOf(readings);
  const figures = measuredIn(readings);
  const doubts = readings.map((reading) => doubtsOf(reading, figures, texts));
  const header: string[] = [];
  const cells: ((reading: ReportReading, place: number) => Cell)[] = [];
  const add = (head: string, cell: (typeof cells)[number]) => {
    header.push(head);
    cells.push(cell);
  };
  add(fill(texts.rows.time, { zone }), ({ time }, i) => dateTimeText(time, offsets[i] as number));
  if (haveSeveral(offsets)) add(texts.rows.offset, (_reading, i) => zoneText(offsets[i] as number));
  for (const size of sizesOf(readings)) {
    const head = fill(texts.rows.perMl, { size: sizeText(size, sizing, { decimalSign: '.' }) });
    add(head, ({ counts }) => (counts === undefined ? null : countOf(counts, size)));
  }
  for (const standard of standards) add(standard, (reading) => ownCode(reading, standard, texts));
  for (const figure of figures) {
    add(measuredHead(figure, texts), (reading) => {
      const at = measuredAt(reading, figure);
      return at === null ? null : writtenValue(figure, at.value);
    });
  }
  add(texts.rows.quality, (_reading, i) => texts.qualities[qualityOf(judged[i] as ReportReading)]);
  add(texts.rows.verdict, ({ verdict = null }) => verdict);
  if (doubts.some((text) => text !== null)) add(texts.rows.doubts, (_reading, i) => doubts[i] as string | null);
  if (readings.some(({ arrival }) => arrival !== undefined))
    add(texts.rows.arrival, ({ arrival }) => (arrival === undefined ? null : texts.arrivals[arrival]));
  header.forEach((name, i) => {
    if (header.indexOf(name) < i) {
      const ofFigure = figures.some((figure) => otherNameOf(figure) === name);
      // a language may have one word for two heads
      const ofCode = standards.indexOf(name) >= 0 ? 'readings.codes' : 'options.texts';
      const parameter = ofFigure ? 'readings.others' : ofCode;
      throw motescaleError('unknown_option', parameter, name, 'names that no other column has');
    }
  });
  return { header, rows: readings.map((reading, i) => cells.map((cell) => cell(reading, i))) };
}

/** The other figures that are not good, each with its quality; null without any. */
function doubtsOf(reading: ReportReading, figures: readonly string[], texts: Texts): string | null {
  const doubted: string[] = [];
  for (const figure of figures) {
    const at = measuredAt(reading, figure);
    if (at === null || at.quality === 'good') continue;
    doubted.push(`${figureName(figure, texts)}: ${texts.qualities[at.quality]}`);
  }
  return doubted.length === 0 ? null : doubted.join(texts.charts.separator);
}

/** A code of the reading; what every object inherits, such as `constructor`, is none. */
function ownCode({ codes = {} }: ReportReading, standard: string, texts: Texts): string | null {
  return hasOwn(codes, standard) ? codeIn(codes[standard] as string, texts) : null;
}

/** The standards in which codes are given, in the order they first occur. */
function standardsOf(readings: readonly ReportReading[]): string[] {
  const standards: string[] = [];
  for (const { codes } of readings) {
    for (const standard of Object.keys(codes ?? {})) if (standards.indexOf(standard) < 0) standards.push(standard);
  }
  return standards;
}
