/** The sheet of a sample on one page of plain text. */
import { requireObject } from '../../checks.ts';
import { requireRule } from '../../rules/require.ts';
import { figureText } from '../figures.ts';
import { sheetRule } from '../pageRules.ts';
import { sizeText } from '../reportReading.ts';
import { errorsText } from '../takenErrors.ts';
import { paragraph, toLeft, toRight } from '../textLayout.ts';
import { requireTexts } from '../texts/english.ts';
import { codeIn, figure, fill, isOneClass, localized, percentText, probabilityText, whole } from '../texts/fill.ts';
import type { Texts } from '../texts/types.ts';
import { minuteText } from '../timeText.ts';
import type { SampleSheet, SheetCode, SheetTarget } from './sampleSheet.ts';
import { sourceIn } from './sourceIn.ts';

/**
 * Puts the sheet of a sample on a page: plain text for letters of one width, lines of at most 72 characters (unless one
 * word is longer). With one or two tables it fits on a printed page.
 *
 * @param sheet of `sampleSheet`
 * @param texts the words of another language; English where left out
 * @throws `wrong_type` for what is no sheet, and where a text is missing; of one member, what is wrong with it.
 *
 * @example
 * ```ts
 * import { cumulativeCounts } from 'motescale/counts';
 * import { sampleSheet, sheetText } from 'motescale/report';
 * const sheet = sampleSheet(cumulativeCounts({ 4: 1890, 6: 402, 14: 33 }), { target: '18/16/11' });
 * sheetText(sheet).indexOf('ISO 4406 18/16/11: not met by the counts') > 0; // => true
 * ```
 */
export function sheetText(sheet: SampleSheet, texts?: Texts): string {
  requireObject(sheet, 'sheet', 'a sheet of sampleSheet');
  requireRule(sheetRule(), sheet, 'sheet');
  const words = requireTexts(texts, 'texts');
  const { heads } = words.sheet;
  const lines = paragraph('', sheet.title ?? words.sheet.title);
  if (sheet.time !== null) {
    const time = minuteText(sheet.time.time, sheet.time.utcOffsetMinutes);
    lines.push(fill(words.sheet.sampled, { time, zone: sheet.zone }));
  }
  const section = (head: string, body: readonly string[]) => {
    if (body.length > 0) lines.push('', head, ...body);
  };
  section(heads.counts, countLines(sheet, words));
  section(heads.codes, codeLines(sheet.codes, words));
  section(heads.certainty, certaintyLines(sheet, words));
  section(heads.target, sheet.target === null ? [] : targetLines(sheet.target, words));
  section(heads.notLooked, notLookedLines(sheet, words));
  section(heads.method, methodLines(sheet, words));
  lines.push('', ...paragraph('', words.sheet.disclaimer));
  return `${lines.join('\n')}\n`;
}

/** Rows of cells in columns as wide as their widest cell; the first column stands to the left. */
function inColumns(rows: readonly (readonly string[])[]): string[] {
  const widths: number[] = [];
  for (const row of rows) {
    row.forEach((cell, i) => {
      widths[i] = Math.max(widths[i] ?? 0, cell.length);
    });
  }
  return rows.map((row) => {
    const cells = row.map((cell, i) => (i === 0 ? toLeft(cell, widths[0] ?? 0) : toRight(cell, (widths[i] ?? 0) + 3)));
    return `  ${cells.join('')}`.replace(/ +$/, '');
  });
}

function isRaw(counts: SampleSheet['counts']): boolean {
  return counts.some(({ counted }) => counted !== null);
}

function countLines({ counts, sizing, volumeMl, dilution }: SampleSheet, texts: Texts): string[] {
  const { columns, volume, dilution: diluted, noVolume } = texts.sheet;
  const raw = isRaw(counts);
  const head = [columns.size, columns.perMl, ...(raw ? [columns.counted, columns.low, columns.high] : [])];
  const rows = counts.map(({ size, perMl, counted, low, high }) => {
    const cells = [sizeText(size, sizing, texts), figure(perMl, texts)];
    if (counted === null || low === null || high === null) return cells;
    return [...cells, whole(counted, texts), figure(low, texts), figure(high, texts)];
  });
  const shown = (value: number) => localized(figureText(value), texts);
  const how = [volumeMl === null ? noVolume : fill(volume, { volume: shown(volumeMl) })];
  if (dilution !== null && dilution !== 1) how.push(fill(diluted, { dilution: shown(dilution) }));
  const lines = [...inColumns([head, ...rows]), ...paragraph('  ', how.join(', '))];
  const nothing = counts.every(({ perMl }) => perMl === 0);
  return nothing ? [...lines, ...paragraph('  ', texts.noParticles)] : lines;
}

function codeLines(codes: readonly SheetCode[], texts: Texts): string[] {
  const { columns, noCode, noLimit, few } = texts.sheet;
  const lines: string[] = [];
  for (const { standard, text, columns: decided } of codes) {
    if (text === null) {
      lines.push(...paragraph('  ', fill(noCode, { standard })));
      continue;
    }
    lines.push(`  ${standard}: ${codeIn(text, texts)}`);
    const head = [`  ${columns.column}`, columns.count, columns.above, columns.upTo, columns.class];
    const rows = decided.map((each) => [
      `  ${each.column}`,
      figure(each.count, texts),
      figure(each.above, texts),
      each.upTo === null ? noLimit : figure(each.upTo, texts),
      each.class,
    ]);
    lines.push(...inColumns([head, ...rows]));
  }
  const isFew = codes.some(({ text }) => text !== null && text.indexOf('>=') >= 0);
  return isFew ? [...lines, ...paragraph('  ', few)] : lines;
}

function certaintyLines({ codes, counts }: SampleSheet, texts: Texts): string[] {
  const { sure, sureOfClass, notSure, rawNotGiven } = texts.sheet;
  if (!isRaw(counts)) return paragraph('  ', rawNotGiven);
  const lines: string[] = [];
  for (const { standard, text, sure: known } of codes) {
    if (text === null) continue;
    const places = known && {
      standard,
      code: codeIn(known.mostProbable, texts),
      low: codeIn(known.low, texts),
      high: codeIn(known.high, texts),
      percent: percentText(known.confidence, texts),
    };
    const words = isOneClass(text) ? sureOfClass : sure;
    lines.push(...paragraph('  ', places === null ? fill(notSure, { standard }) : fill(words, places)));
  }
  return lines;
}

function targetLines({ standard, code, met, missing, few, probability }: SheetTarget, texts: Texts): string[] {
  const { met: kept, metByFew, missed, open, openByFew, probability: chance, noProbability } = texts.sheet;
  const unknown = missing.length > 0 ? open : openByFew;
  const shown = few.length > 0 ? metByFew : kept;
  const outcome = met === null ? unknown : met ? shown : missed;
  const columns = (missing.length > 0 ? missing : few).join(', ');
  const sure = probability === null ? noProbability : fill(chance, { percent: probabilityText(probability, texts) });
  return [...paragraph('  ', fill(outcome, { standard, code, columns })), ...paragraph('  ', sure)];
}

function notLookedLines({ notLookedAt }: SampleSheet, { sheet }: Texts): string[] {
  const lines: string[] = [];
  for (const each of notLookedAt) lines.push(...paragraph('  - ', sheet.lookedAt[each]));
  return lines;
}

function methodLines({ sizing, codes, errors, version }: SampleSheet, texts: Texts): string[] {
  const { sheet } = texts;
  const lines = paragraph('  ', sheet.sizing[sizing]);
  for (const { standard, source, perVolumeMl } of codes) {
    const { document, edition, place, standing } = source;
    const printed = sourceIn(
      [document, edition, place].filter((part) => part !== undefined && part !== '').join(', '),
      sheet.sourceWords,
    );
    const from = standing === 'from memory' ? fill(sheet.fromMemory, { source: printed }) : printed;
    lines.push(...paragraph('  ', fill(sheet.standard, { standard, source: from, volume: whole(perVolumeMl, texts) })));
  }
  lines.push(...paragraph('  ', sheet.rounding));
  if (errors !== null) lines.push(...paragraph('  ', errorsText(errors, texts)));
  lines.push(...paragraph('  ', fill(sheet.version, { version })));
  return lines;
}
