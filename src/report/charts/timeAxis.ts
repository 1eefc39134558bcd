/**
 * An axis of time: marks at whole hours, days, months or years, as many as have room. Vega writes them, in its own
 * locale.
 */
import { day, minute, stepsOfADay } from '../../state/timeSteps.ts';
import { dateText, firstOfMonth } from '../timeText.ts';
import { textWidth } from './textWidth.ts';

const daysBeyond: readonly number[] = [2 * day, 3 * day, 4 * day, 5 * day, 7 * day, 14 * day];
const months: readonly number[] = [1, 2, 3, 6, 12, 24, 60, 120, 240, 600, 1200, 2400];

/** Between two moments, ms of the local clock. */
export interface TimeSpan {
  readonly from: number;
  readonly to: number;
}

/**
 * Encoding of the axis of time. Numbers stand in expressions: as bare numbers of a domain some renderers take them for
 * years.
 */
export function timeEncoding(span: TimeSpan, plot: number, labelled: boolean): Readonly<Record<string, unknown>> {
  const room = Math.max(2, Math.floor(plot / (textWidth('30 Sept') + 14)));
  const { values, byMonth } = marksOf(span, room);
  const clock = 'utchours(datum.value) + utcminutes(datum.value) > 0';
  const turn = 'utcmonth(datum.value) == 0 && utcdate(datum.value) == 1';
  const form = byMonth ? `${turn} ? '%Y' : '%b'` : `${clock} ? '%H:%M' : '%-d %b'`;
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
      labelExpr: `utcFormat(datum.value, ${form})`,
    },
  };
}

function marksOf(span: TimeSpan, room: number): { values: number[]; byMonth: boolean } {
  for (const step of stepsOfADay.concat(daysBeyond)) {
    // the marks are written in hours and minutes
    if (step < minute || (span.to - span.from) / step > room) continue;
    // weeks begin on Monday; 1970-01-01 was a Thursday
    const origin = step >= 7 * day ? 4 * day : 0;
    const values: number[] = [];
    for (let at = origin + Math.ceil((span.from - origin) / step) * step; at <= span.to; at += step) values.push(at);
    if (values.length > 0) return { values, byMonth: false };
  }
  const years = (span.to - span.from) / (365.25 * day);
  const inMonths = months.filter((each) => (12 * years) / each <= room)[0] ?? 12000;
  const values: number[] = [];
  const year = Number(dateText(span.from, 0).slice(0, 4));
  for (let month = 1 + Math.floor((year * 12) / inMonths) * inMonths - year * 12; ; month += inMonths) {
    const at = firstOfMonth(year, month) * day;
    if (at > span.to) return { values, byMonth: true };
    if (at >= span.from) values.push(at);
  }
}
