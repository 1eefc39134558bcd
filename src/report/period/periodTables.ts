/** The tables of a period in words: counts size by size with the codes they make, and what was measured beside them. */
import { figureName, measuredText } from '../messages/figureTexts.ts';
import { sizeText } from '../reportReading.ts';
import { paragraph, toLeft, toRight } from '../textLayout.ts';
import { codeIn, figure, fill, whole } from '../texts/fill.ts';
import type { PeriodTexts, Texts } from '../texts/types.ts';
import type { ClassEnds, CodeFigures } from './periodCodes.ts';
import { type CountFigures, type FourName, type FourOf, fourNames } from './periodCounts.ts';
import type { PeriodFigures } from './periodFigures.ts';
import type { MeasuredFigures } from './periodMeasured.ts';

/** Counts size by size, and the codes they make. */
export function countLines(
  { readings, sizes, codes }: CountFigures,
  { sizing, standard }: PeriodFigures,
  texts: Texts,
): string[] {
  const { period } = texts;
  const lines = fourLines(period.heads.perMl, period.columns, String, period);
  const named = sizes.map((each) => {
    const size = sizeText(each.size, sizing, texts);
    lines.push(...fourLines(`  ${size}`, each, ({ perMl }) => figure(perMl, texts), period));
    return { size, readings: each.readings };
  });
  if (codes !== null) lines.push(...fourLines(`  ${standard}`, codes, (code) => codeIn(code, texts), period));
  if (sizes.every(({ highest }) => highest.perMl === 0)) lines.push(...paragraph('  ', texts.noParticles));
  return [...lines, ...partlyLines(named, readings, texts)];
}

/** Which sizes fewer readings than all have. */
function partlyLines(
  sizes: readonly { readonly size: string; readonly readings: number }[],
  all: number,
  texts: Texts,
): string[] {
  const { partly, partlyAt } = texts.period;
  const total = whole(all, texts);
  const some = sizes
    .filter(({ readings }) => readings < all)
    .map(({ size, readings }) => fill(partlyAt, { size, number: whole(readings, texts), total }));
  return some.length === 0 ? [] : paragraph('  ', fill(partly, { sizes: some.join(', ') }));
}

/** Classes size by size, of readings without counts. */
export function codeLines(
  { readings, classes }: CodeFigures,
  { sizing, standard }: PeriodFigures,
  texts: Texts,
): string[] {
  const { period } = texts;
  const lines = fourLines(period.heads.codes, period.columns, String, period);
  if (classes.length === 0) lines.push(...fourLines(`  ${standard}`, nothingKnown, String, period));
  const named = classes.map((each) => {
    const size = each.size === null ? (each.column ?? standard) : sizeText(each.size, sizing, texts);
    lines.push(...fourLines(`  ${size}`, each, (ends) => spanText(ends, period), period));
    return { size, readings: each.readings };
  });
  return [...lines, ...partlyLines(named, readings, texts)];
}

const nothingKnown: FourOf<null> = { lowest: null, median: null, highest: null, last: null };

function spanText({ low, high }: ClassEnds, period: PeriodTexts): string {
  if (low === null) return high === null ? period.unknownCode : `<=${high}`;
  if (high === null) return `>=${low}`;
  return low === high ? low : fill(period.fromTo, { from: low, to: high });
}

/** What is told of the four under a head: one line where all of it fits in, else a line for each. */
function fourLines<T>(
  head: string,
  four: FourOf<T | null>,
  textOf: (told: T) => string,
  period: PeriodTexts,
): string[] {
  const cells = fourNames.map((column) => {
    const told = four[column];
    return told === null ? period.unknownCode : textOf(told);
  });
  // a name from outside may have line ends
  const name = head.replace(/[\t\r\n]+/g, ' ');
  if (name.length < 20 && cells.every(({ length }) => length < 12)) {
    return [toLeft(name, 20) + cells.map((cell) => toRight(cell, 12)).join('')];
  }
  const lines = [name];
  cells.forEach((cell, i) => {
    lines.push(...paragraph(toLeft(`    ${period.columns[fourNames[i] as FourName]}`, 20), cell));
  });
  return lines;
}

/** What was measured beside the particles, figure by figure. */
export function measuredLines({ readings, figures }: MeasuredFigures, texts: Texts): string[] {
  const { period } = texts;
  const lines = fourLines(period.heads.measured, period.columns, String, period);
  for (const each of figures) {
    const textOf = (value: number) => measuredText(each.figure, value, texts);
    lines.push(...fourLines(`  ${figureName(each.figure, texts)}`, each, textOf, period));
  }
  const total = whole(readings, texts);
  const partly = figures
    .filter((each) => each.readings < readings)
    .map((each) => {
      const places = { name: figureName(each.figure, texts), number: whole(each.readings, texts), total };
      const template = each.bad === 0 ? period.measuredIn : period.measuredWithout;
      return fill(template, { ...places, bad: whole(each.bad, texts) });
    });
  if (partly.length > 0) lines.push(...paragraph('  ', fill(period.partlyMeasured, { figures: partly.join('; ') })));
  return lines;
}
