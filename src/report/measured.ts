/**
 * What was measured beside the particles: temperature, viscosity, water, flow, pressure, and figures from elsewhere. A
 * figure goes by the word that alarms and events have for it: `celsius`, `other acid number`.
 */
import { motescaleError } from '../errors.ts';
import type { FigureName, Quality } from '../reading/reading.ts';
import { figureNames } from '../reading/rules.ts';
import type { ReportReading } from './reportReading.ts';
import type { Texts } from './texts/types.ts';

/** Figures of a reading that have a name of the library's. */
export type MeasuredName = Exclude<FigureName, 'counts'>;

/** A value of a figure, and how far it can be relied on. */
interface MeasuredValue {
  readonly value: number;
  readonly quality: Quality;
}

const names = /* @__PURE__ */ figureNames.filter((name): name is MeasuredName => name !== 'counts');
const other = 'other ';

/** The value of a figure in a reading; null where it has none. */
export function measuredAt(reading: ReportReading, figure: string): MeasuredValue | null {
  if (figure.indexOf(other) === 0) {
    const { others = {} } = reading;
    const name = figure.slice(other.length);
    // what every object inherits, such as `constructor`, is none
    const given = Object.keys(others).indexOf(name) < 0 ? undefined : others[name];
    if (given === undefined) return null;
    return typeof given === 'number' ? { value: given, quality: 'good' } : given;
  }
  const value = reading[figure as MeasuredName];
  return value === undefined ? null : { value, quality: measuredQuality(reading, figure) };
}

/** How far a reading says that one of its own figures can be relied on, also where it has no value of it. */
export function measuredQuality({ figureQualities, qualities }: ReportReading, figure: string): Quality {
  return figureQualities?.[figure as MeasuredName] ?? qualities?.[figure as MeasuredName] ?? 'good';
}

/** The figures that occur: those with a name of the library's first, the others in the order they first occur. */
export function measuredIn(readings: readonly ReportReading[]): string[] {
  const figures: string[] = names.filter((name) => readings.some((reading) => reading[name] !== undefined));
  const seen: { [figure: string]: true } = {};
  for (const { others } of readings) {
    for (const name in others) {
      const figure = other + name;
      if (figure in seen) continue;
      seen[figure] = true;
      figures.push(figure);
    }
  }
  return figures;
}

/** Throws unless this is the word of a figure. */
export function requireMeasured(figure: unknown, parameter: string): string {
  const known = typeof figure === 'string' && (names.indexOf(figure as MeasuredName) >= 0 || isOther(figure));
  if (known) return figure;
  const expected = `one of ${names.map((name) => `'${name}'`).join(', ')}, or 'other' and a name of others`;
  throw motescaleError('unknown_option', parameter, figure, expected);
}

function isOther(figure: string): boolean {
  return figure.indexOf(other) === 0 && figure.length > other.length;
}

/** The name without the word before it, of a figure from elsewhere; null of the library's own. */
export function otherNameOf(figure: string): string | null {
  return isOther(figure) ? figure.slice(other.length) : null;
}

/** The figure with its unit, at the head of a column or a panel; of one from elsewhere its own name. */
export function measuredHead(figure: string, texts: Texts): string {
  return otherNameOf(figure) ?? texts.measured[figure as MeasuredName];
}

/** A figure as a person writes it: a share as a percentage, exactly. */
export function writtenValue(figure: string, value: number): number {
  if (figure !== 'waterSaturation') return value;
  const digits = String(value);
  return digits.indexOf('e') < 0 ? Number(`${digits}e2`) : value * 100;
}
