/** An axis of time: marks at whole hours, days, months or years, as many as have room, in the words of the language. */
import { firstOfMonth } from '../../numeric/calendar.ts';
import { day, minute, stepsOfADay } from '../../state/timeSteps.ts';
import { monthNames } from '../texts/monthNames.ts';
import type { Texts } from '../texts/types.ts';
import { dateText } from '../timeText.ts';
import { clockLabel, dayLabel, labelsOf, monthOrYearLabel } from './axisLabels.ts';
import type { Spec } from './chartSpec.ts';
import { textWidth } from './textWidth.ts';

const daysBeyond: readonly number[] = [2 * day, 3 * day, 4 * day, 5 * day, 7 * day, 14 * day];
/** Where months give fewer marks than can be read a time from. */
const weeksBeyond: readonly number[] = [21 * day, 28 * day];
const fewest = 3;
const months: readonly number[] = [1, 2, 3, 6, 12, 24, 60, 120, 240, 600, 1200, 2400];

/** Between two moments, ms of the local clock. */
export interface TimeSpan {
  readonly from: number;
  readonly to: number;
}

/** The axis of time. Numbers stand in expressions: as bare numbers of a domain some renderers take them for years. */
export function timeEncoding(span: TimeSpan, plot: number, labelled: boolean, texts: Texts): Spec {
  // a narrow picture has them closer
  const gap = Math.min(14, plot / 40);
  const room = (widest: string) => Math.max(2, plot / (textWidth(widest) + gap));
  const { values, byMonth } = marksOf(span, room, widestDay(texts));
  const label = byMonth ? monthOrYearLabel : clockLabel;
  return {
    field: 'time',
    type: 'temporal',
    scale: { type: 'utc', domainMin: { expr: `${span.from}` }, domainMax: { expr: `${span.to}` }, nice: false },
    axis: {
      grid: false,
      title: null,
      values: { expr: `[${values.join(',')}]` },
      labels: labelled,
      labelOverlap: true,
      labelFlush: false,
      ...(labelled && { labelExpr: labelsOf(values, (value) => label(value, texts)) }),
    },
  };
}

/** The widest of the last days of months. */
function widestDay(texts: Texts): string {
  const days = monthNames.map((_name, month) => dayLabel(firstOfMonth(1970, month + 2) * day - day, texts));
  return days.reduce((widest, text) => (textWidth(text) > textWidth(widest) ? text : widest));
}

/** `room`: how many labels as wide as one have room. */
function marksOf(
  span: TimeSpan,
  room: (widest: string) => number,
  widest: string,
): { values: number[]; byMonth: boolean } {
  const length = span.to - span.from;
  // the marks are written in hours and minutes
  const fits = (step: number) => step >= minute && length / step <= room(step < day ? '00:00' : widest);
  const byDay = marksIn(span, stepsOfADay.concat(daysBeyond).filter(fits), 1);
  if (byDay !== null) return { values: byDay, byMonth: false };
  const years = length / (365.25 * day);
  const inMonths = months.filter((each) => (12 * years) / each <= room('2027'))[0] ?? 12000;
  const values: number[] = [];
  const year = Number(dateText(span.from).slice(0, 4));
  for (let month = 1 + Math.floor((year * 12) / inMonths) * inMonths - year * 12; ; month += inMonths) {
    const at = firstOfMonth(year, month) * day;
    if (at > span.to) break;
    if (at >= span.from) values.push(at);
  }
  const byWeek = values.length < fewest ? marksIn(span, weeksBeyond.filter(fits), values.length + 1) : null;
  return byWeek === null ? { values, byMonth: true } : { values: byWeek, byMonth: false };
}

/** Marks at the narrowest of the steps; null where none gives so many. */
function marksIn({ from, to }: TimeSpan, steps: readonly number[], least: number): number[] | null {
  for (const step of steps) {
    // weeks begin on Monday; 1970-01-01 was a Thursday
    const origin = step >= 7 * day ? 4 * day : 0;
    const values: number[] = [];
    for (let at = origin + Math.ceil((from - origin) / step) * step; at <= to; at += step) values.push(at);
    if (values.length >= least) return values;
  }
  return null;
}
