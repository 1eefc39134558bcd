/** The tables of a period in words: counts size by size with the codes they make, and what was measured beside them. */
import { figureName, measuredText } from '../messages/figureTexts.ts';
import { sizeText } from '../reportReading.ts';
import { paragraph, toLeft, toRight } from '../textLayout.ts';
import { codeIn, figure, fill, whole } from '../texts/fill.ts';
import type { Texts } from '../texts/types.ts';
import type { ClassEnds, CodeFigures } from './periodCodes.ts';
import { type CountFigures, fourNames } from './periodCounts.ts';
import type { PeriodFigures } from './periodFigures.ts';
import type { MeasuredFigures } from './periodMeasured.ts';

/** Counts size by size, and the codes they make. */
export function countLines(
  { readings, sizes, codes }: CountFigures,
  { sizing, standard }: PeriodFigures,
  texts: Texts,
): string[] {
  const { period } = texts;
  const names = fourNames.map((name) => period.columns[name]);
  const lines = row(period.heads.perMl, names, names);
  for (const size of sizes) {
    const cells = fourNames.map((name) => {
      const told = size[name];
      return told === null ? period.unknownCode : figure(told.perMl, texts);
    });
    lines.push(...row(`  ${sizeText(size.size, sizing, texts)}`, cells, names));
  }
  if (codes !== null) {
    const cells = fourNames.map((name) => codeIn(codes[name] ?? period.unknownCode, texts));
    lines.push(...row(`  ${standard}`, cells, names));
  }
  if (sizes.every(({ highest }) => highest.perMl === 0)) lines.push(...paragraph('  ', texts.noParticles));
  const named = sizes.map((each) => ({ size: sizeText(each.size, sizing, texts), readings: each.readings }));
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
  const names = fourNames.map((name) => period.columns[name]);
  const lines = row(period.heads.codes, names, names);
  const unknown = fourNames.map(() => period.unknownCode);
  if (classes.length === 0) lines.push(...row(`  ${standard}`, unknown, names));
  const named = classes.map((each) => {
    const { column, size } = each;
    const name = size === null ? (column ?? standard) : sizeText(size, sizing, texts);
    const cells = fourNames.map((four) => spanText(each[four], texts));
    lines.push(...row(`  ${name}`, cells, names));
    return { size: name, readings: each.readings };
  });
  return [...lines, ...partlyLines(named, readings, texts)];
}

function spanText(span: ClassEnds | null, { period }: Texts): string {
  const [low, high] = [span?.low ?? null, span?.high ?? null];
  if (low === null) return high === null ? period.unknownCode : `<=${high}`;
  if (high === null) return `>=${low}`;
  return low === high ? low : fill(period.fromTo, { from: low, to: high });
}

/** One line where all of it fits in, else a line for each cell. */
function row(head: string, cells: readonly string[], names: readonly string[]): string[] {
  // a name from outside may have line ends
  const name = head.replace(/[\t\r\n]+/g, ' ');
  if (name.length < 20 && cells.every(({ length }) => length < 12)) {
    return [toLeft(name, 20) + cells.map((cell) => toRight(cell, 12)).join('')];
  }
  const lines = [name];
  cells.forEach((cell, i) => {
    lines.push(...paragraph(toLeft(`    ${names[i]}`, 20), cell));
  });
  return lines;
}

/** What was measured beside the particles, figure by figure. */
export function measuredLines({ readings, figures }: MeasuredFigures, texts: Texts): string[] {
  const { period } = texts;
  const names = fourNames.map((name) => period.columns[name]);
  const lines = row(period.heads.measured, names, names);
  for (const each of figures) {
    const cells = fourNames.map((name) => {
      const value = each[name];
      return value === null ? period.unknownCode : measuredText(each.figure, value, texts);
    });
    lines.push(...row(`  ${figureName(each.figure, texts)}`, cells, names));
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
