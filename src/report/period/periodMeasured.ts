/** What was measured beside the particles in a period: lowest, median, highest and last of each figure. */
import { measuredAt, measuredIn } from '../measured.ts';
import type { ReportReading } from '../reportReading.ts';
import type { FourOf } from './periodCounts.ts';

/** One figure, of the readings in which it can be relied on. Each null where there are none. */
export interface MeasuredFigure extends FourOf<number | null> {
  /** The word that alarms and events have for it: `celsius`, `other acid number`. */
  readonly figure: string;
  /** How many readings have it good or uncertain. */
  readonly readings: number;
  /** How many have it bad: they are no part of the rest. */
  readonly bad: number;
  /** Null where the last reading of the period lacks it or has it bad. */
  readonly last: number | null;
}

/** The figures of a period beside the particles, each in the unit of the reading. */
export interface MeasuredFigures {
  /** How many readings there are in all, with or without particles. */
  readonly readings: number;
  readonly figures: readonly MeasuredFigure[];
}

/** Each figure that occurs; null without any. */
export function measuredFigures(inOrder: readonly ReportReading[]): MeasuredFigures | null {
  const figures = measuredIn(inOrder).map((figure) => measuredFigure(figure, inOrder));
  return figures.length === 0 ? null : { readings: inOrder.length, figures };
}

function measuredFigure(figure: string, inOrder: readonly ReportReading[]): MeasuredFigure {
  const values: number[] = [];
  let bad = 0;
  let last: number | null = null;
  for (const reading of inOrder) {
    const at = measuredAt(reading, figure);
    last = at === null || at.quality === 'bad' ? null : at.value;
    if (last !== null) values.push(last);
    else if (at !== null) bad += 1;
  }
  values.sort((a, b) => a - b);
  const { length } = values;
  const at = (place: number) => values[place] ?? null;
  const [lower, upper] = [at(Math.floor((length - 1) / 2)), at(Math.floor(length / 2))];
  return {
    figure,
    readings: length,
    bad,
    lowest: at(0),
    median: lower === null || upper === null ? null : lower + (upper - lower) / 2,
    highest: at(length - 1),
    last,
  };
}
