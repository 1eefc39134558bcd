/**
 * A figure of an event, as its words have it (`celsius`, `perMlAt 6`, `code iso4406`, `other acid number`), in the
 * words of a language.
 */
import { hasOwn } from '../../checks.ts';
import type { Sizing } from '../../counts/index.ts';
import { shown } from '../../numeric/shown.ts';
import { unitOf } from '../reportReading.ts';
import type { EventTexts } from '../texts/eventTypes.ts';
import { fill, localized, wordIn } from '../texts/fill.ts';
import type { Texts } from '../texts/types.ts';

/** The sizes of counts are those of the sizing: a figure does not name it. */
export function figureName(figure: string, texts: Texts, sizing: Sizing = 'iso11171'): string {
  const { rest } = split(figure);
  const number = rest.replace('.', texts.decimalSign);
  const places = {
    size: number,
    celsius: number,
    sizeUnit: unitOf(sizing),
    name: rest,
    table: wordIn(standardNames, rest),
  };
  return fill(templateOf(figure, texts).name, places);
}

/** A value of it, or a code; `beside` is a figure it must not look like. Percentages change by percentage points. */
export function figureValue(
  figure: string,
  value: number | string,
  beside: unknown,
  isChange: boolean,
  texts: Texts,
): string {
  if (typeof value === 'string') return value;
  const other = typeof beside === 'number' ? beside : value;
  const { one, more } = texts.events.percentagePoints;
  const hundredths = shown(value * 100, other * 100);
  const percent = !isChange ? texts.percent : hundredths === '1' ? one : more;
  return fill(templateOf(figure, texts).value, {
    value: localized(shown(value, other), texts),
    percent: fill(percent, { number: localized(hundredths, texts) }),
  });
}

/** A value of it by itself. */
export function measuredText(figure: string, value: number, texts: Texts): string {
  return figureValue(figure, value, undefined, false, texts);
}

/** What is not known goes by its own word. */
function templateOf(figure: string, { events }: Texts): EventTexts['other'] {
  const { kind } = split(figure);
  if (kind === 'code') return { name: events.code.name, value: '{value}' };
  for (const name of withRest) if (name === kind) return events[name];
  return hasOwn(events.figures, kind)
    ? events.figures[kind as keyof typeof events.figures]
    : { name: figure, value: '{value}' };
}

/** Figures whose word is followed by a size, a temperature, a table or a name. */
const withRest = ['waterSaturationAt', 'perMlAt', 'scaleNumberAt', 'continuousScaleNumberAt', 'other'] as const;

function split(figure: string): { kind: string; rest: string } {
  const [kind] = figure.split(' ') as [string];
  return { kind, rest: figure.slice(kind.length + 1) };
}

/** What people call the tables of the standards, by id: an event has the id alone, and a bundle need not hold them. */
export const standardNames: Readonly<Record<string, string>> = {
  iso4406: 'ISO 4406',
  iso4406Microscope: 'ISO 4406',
  as4059Cumulative: 'SAE AS4059 Table 2',
  as4059Differential: 'SAE AS4059 Table 1',
  nas1638: 'NAS 1638',
  gost17216: 'GOST 17216',
  sae749d: 'SAE 749D',
  navair: 'Navy aviation hydraulics classes',
  cc1246: 'IEST-STD-CC1246 particle levels',
};
