/** The record of a proof on one page of plain text. */

import { recordOf1 } from '../../acceptance/earlier.ts';
import type { AcceptanceRecord } from '../../acceptance/index.ts';
import { acceptanceRecordRule } from '../../acceptance/rules.ts';
import { requireObject, requireText } from '../../checks.ts';
import { standardIds } from '../../reading/tableIds.ts';
import { requireRule } from '../../rules/require.ts';
import { minute } from '../../state/timeSteps.ts';
import { shortTitle } from '../classSteps.ts';
import { figureText } from '../figures.ts';
import { standardNames } from '../messages/figureTexts.ts';
import { paragraph } from '../textLayout.ts';
import { requireTexts } from '../texts/english.ts';
import { codeIn, durationText, fill, localized, type Places, whole, wordIn } from '../texts/fill.ts';
import type { Texts } from '../texts/types.ts';
import { haveSeveral, momentText, offsetAt, type UtcOffset, zonesOf } from '../timeText.ts';
import { sourceIn } from './sourceIn.ts';

/** How to write the page of a proof. */
export interface AcceptanceSheetOptions {
  /** Its first line: machine, sampling point and counter, of which the record knows nothing. */
  readonly title?: string | undefined;
  /** Minutes ahead of UTC for its times; UTC where left out. */
  readonly utcOffsetMinutes?: UtcOffset | undefined;
}

/**
 * Puts the record of an accepted proof on a page: plain text for letters of one width, lines of at most 72 characters
 * (unless one word is longer). It says what was asked and what was shown: target and table with its editions, columns
 * judged and left out, readings, time, volume, the worst class at each column and the last code; how many tries it
 * took; which readings said nothing of how likely chance is; and what could not be checked. Times proved are rounded
 * down.
 *
 * **It supports the signature of those who answer for the machine, and does not replace it.** It tells of the oil that
 * one counter saw at one tap: where the tap was, that the flow was turbulent, and that every branch was flushed, is to
 * be shown separately (ISO 23309).
 *
 * @param record `accepted` of the state, or `record` of the event; of one kept from 0.1.0, which told no worst class,
 *   the page has `-` there
 * @param texts the words of another language; English where left out
 * @throws `wrong_type` for what is no record, and where a text is missing; `unknown_option`, `out_of_range`; of one
 *   member, what is wrong with it.
 *
 * @example
 * ```ts
 * import { advanceAcceptance, prepareAcceptance, startAcceptance } from 'motescale/acceptance';
 * import { iso4406 } from 'motescale/codes';
 * import { acceptanceSheetText } from 'motescale/report';
 * const prepared = prepareAcceptance({ table: iso4406, target: '16/14/11', readings: 2 });
 * let state = startAcceptance(prepared);
 * for (const [i, code] of ['16/13/10', '15/13/11'].entries())
 *   state = advanceAcceptance(prepared, state, { time: i * 600000, codes: { iso4406: code } }).state;
 * const page = state.accepted && acceptanceSheetText(state.accepted, { title: 'Lower gate, return line' });
 * page?.split('\n')[0]; // => 'Lower gate, return line'
 * page?.includes('Worst class at each column: 16/13/11'); // => true
 * ```
 */
export function acceptanceSheetText(
  record: AcceptanceRecord,
  options: AcceptanceSheetOptions = {},
  texts?: Texts,
): string {
  requireObject(record, 'record', 'the record of an accepted proof');
  const told = wholeOf(record);
  requireRule(acceptanceRecordRule, told, 'record');
  requireObject(options, 'options', undefined, ['title', 'utcOffsetMinutes']);
  const { title } = options;
  const { contradicted } = told;
  if (title !== undefined) requireText(title, 'options.title');
  const words = requireTexts(texts, 'texts');
  const { heads, ...said } = words.acceptanceSheet;
  const offset = offsetAt(options);
  const times = timesOf(told);
  const zoned = haveSeveral(times.map(offset));
  const at = (time: number) => momentText(time, offset(time), zoned);
  const lines = paragraph('', title ?? said.title);
  const zone = zonesOf(times, offset);
  const first =
    contradicted === undefined
      ? fill(said.shown, { time: at(told.run.to), zone })
      : fill(said.contradicted, { time: at(contradicted.time), zone, code: codeIn(contradicted.text, words) });
  lines.push(...paragraph('', first));
  const section = (head: string, body: readonly (readonly string[])[]) => {
    if (body.length > 0) lines.push('', head);
    for (const each of body) lines.push(...each);
  };
  section(heads.target, askedLines(told, words));
  section(heads.run, runLines(told, words, at));
  section(heads.tries, triesLines(told, words, at));
  const unchecked = told.run.unchecked.map((code) => paragraph('  - ', said.checks[code]));
  section(heads.unchecked, unchecked);
  lines.push('', ...paragraph('', said.separately), '', ...paragraph('', said.disclaimer));
  return `${lines.join('\n')}\n`;
}

/** One that version 0.1.0 told, as far as it goes: it knew its table by the id, and did not keep the worst. */
function wholeOf(record: AcceptanceRecord): AcceptanceRecord {
  const { title, worst, began, table } = record as Partial<AcceptanceRecord>;
  if (title !== undefined || worst !== undefined || began !== undefined || table === undefined) return record;
  const known = { title: wordIn(standardNames, table), edition: null, leftOut: [], worst: '-' };
  return { ...known, ...recordOf1(record) };
}

function timesOf({ run, began, lastRestart, contradicted }: AcceptanceRecord): number[] {
  const times = [run.from, run.to];
  if (began !== null) times.push(began);
  if (lastRestart !== null) times.push(lastRestart.time);
  if (contradicted !== undefined) times.push(contradicted.time);
  return times;
}

function line(template: string, places: Places): string[] {
  return paragraph('  ', fill(template, places));
}

function askedLines(
  { table, title, edition, target, leftOut, run, required }: AcceptanceRecord,
  texts: Texts,
): string[][] {
  const said = texts.acceptanceSheet;
  const columns = run.margins.map(({ column }) => column).join(', ');
  const code = codeIn(target, texts);
  // of a standard what stands behind the comma is English; what an owner wrote stands whole
  const name = standardIds.indexOf(table) < 0 ? title : shortTitle({ title });
  const places = { table: name, edition: sourceIn(edition ?? '', texts.sheet.sourceWords) };
  const lines = [
    line(edition === null ? said.table : said.tableOfEdition, places),
    line(said.target, { code, columns }),
  ];
  if (leftOut.length > 0) lines.push(line(said.leftOut, { columns: leftOut.join(', ') }));
  lines.push(line(said.readingsAsked, { number: whole(required.readings, texts) }));
  if (required.ms > 0) lines.push(line(said.timeAsked, { duration: durationText(required.ms / minute, texts) }));
  if (required.litres > 0) lines.push(line(said.litresAsked, { litres: litresText(required.litres, texts) }));
  return lines;
}

type At = (time: number) => string;

function runLines({ run, worst, text, readings }: AcceptanceRecord, texts: Texts, at: At): string[][] {
  const said = texts.acceptanceSheet;
  const proved = (ms: number) => durationText(ms / minute, texts, 'down');
  const of = (template: string, number = 0) => line(template, { number: whole(number, texts) });
  const lines = [
    line(said.counted, { number: whole(run.readings, texts), from: at(run.from), to: at(run.to) }),
    of(said.fewParticles, run.fewParticles),
  ];
  // version 0.1 did not tell these apart
  if (readings !== null)
    lines.push(of(said.withoutCounts, run.withoutCounts), of(said.withoutVolume, run.withoutVolume));
  lines.push(line(said.time, { duration: proved(run.to - run.from), proved: proved(run.ms) }));
  const { fromLitres, toLitres } = run;
  if (fromLitres !== null && toLitres !== null) {
    const litres = litresText(Math.floor(run.litres * 10) / 10, texts);
    lines.push(line(said.litres, { litres, from: litresText(fromLitres, texts), to: litresText(toLitres, texts) }));
  }
  const margins = run.margins.map(({ column, classes }) =>
    fill(said.margin, { column, classes: whole(classes, texts) }),
  );
  lines.push(
    line(said.worst, { code: codeIn(worst, texts) }),
    line(said.last, { code: codeIn(text, texts) }),
    line(said.margins, { margins: margins.join(', ') }),
  );
  return lines;
}

/** Whole ones from 1000 L on. */
function litresText(litres: number, texts: Texts): string {
  return localized(figureText(litres), texts);
}

function triesLines(record: AcceptanceRecord, texts: Texts, at: At): string[][] {
  const said = texts.acceptanceSheet;
  const { run, readings, began, notCounted, restarts, lastRestart } = record;
  const unknown = readings === null || began === null;
  const lines = [
    unknown ? line(said.unknown, {}) : line(said.given, { number: whole(readings, texts), time: at(began) }),
  ];
  const add = (template: string, number: number) => lines.push(line(template, { number: whole(number, texts) }));
  add(said.notCounted, notCounted);
  if (!unknown) add(said.notCountedInRun, run.notCounted ?? 0);
  if (run.sameAsLast !== undefined) add(said.sameAsLast, run.sameAsLast);
  add(said.restarts, restarts);
  if (lastRestart !== null) {
    const why = fill(texts.acceptance.restarted[lastRestart.why], { text: codeIn(lastRestart.text ?? '-', texts) });
    lines.push(line(said.lastRestart, { time: at(lastRestart.time), why }));
  }
  return lines;
}
