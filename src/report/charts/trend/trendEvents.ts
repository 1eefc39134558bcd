/** Events on a trend: a line at each, numbered, with its words below the chart. */
import { fill, whole } from '../../texts/fill.ts';
import type { Texts } from '../../texts/types.ts';
import type { PlacedText } from '../chartSpec.ts';
import { textWidth, wrapped } from '../textWidth.ts';
import { type TimeScale, timePixel } from './trendMarks.ts';

/** An event by the local clock. */
export interface ChartEvent {
  readonly time: number;
  readonly text: string;
  /** The moment in words. */
  readonly at: string;
}

const mostListed = 12;

/** Above the first panel the numbers of events in order; those without room beside each other are one: `2–4`. */
export function eventNumbers(events: readonly ChartEvent[], scale: TimeScale): PlacedText[] {
  const groups: { first: number; last: number; x: number; lastX: number }[] = [];
  const textOf = (group: { first: number; last: number }) =>
    group.first === group.last ? `${group.first}` : `${group.first}–${group.last}`;
  const endOf = (group: { first: number; last: number; x: number; lastX: number }) =>
    (group.x + group.lastX) / 2 + textWidth(textOf(group)) / 2;
  events.forEach(({ time }, i) => {
    let next = { first: i + 1, last: i + 1, x: timePixel(time, scale), lastX: timePixel(time, scale) };
    for (;;) {
      const before = groups[groups.length - 1];
      const start = (next.x + next.lastX) / 2 - textWidth(textOf(next)) / 2;
      if (before === undefined || endOf(before) + 4 <= start) break;
      groups.pop();
      next = { first: before.first, last: next.last, x: before.x, lastX: next.lastX };
    }
    groups.push(next);
  });
  return groups.map((group) => ({ x: (group.x + group.lastX) / 2, y: -30, text: textOf(group) }));
}

/** The words of the events, a line or more each. */
export function eventList(events: readonly ChartEvent[], width: number, texts: Texts): string[] {
  const lines: string[] = [];
  events.slice(0, mostListed).forEach(({ at, text }, i) => {
    wrapped(`${i + 1}  ${at}  ${text}`, width).forEach((line, part) => {
      lines.push(part === 0 ? line : `     ${line}`);
    });
  });
  const more = events.length - mostListed;
  if (more > 0) lines.push(fill(texts.charts.moreEvents, { number: whole(more, texts) }));
  return lines;
}
