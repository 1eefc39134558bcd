/** What is read aloud for a picture: what it shows, in sentences, for those who do not see it. */

import { isTooMany } from '../classSteps.ts';
import { figureName, measuredText } from '../messages/figureTexts.ts';
import { gapsText, type MomentText } from '../period/gapsText.ts';
import type { PeriodQualities } from '../period/periodFigures.ts';
import { durationText, figure, fill, percentText, whole } from '../texts/fill.ts';
import type { Texts } from '../texts/types.ts';
import type { OffsetAt } from '../timeText.ts';
import { extentOf } from './countScale.ts';
import type { TrendData } from './trend/trendData.ts';
import type { ChartEvent } from './trend/trendEvents.ts';
import { type Panel, tooManyText, valuesOf } from './trend/trendPanel.ts';
import type { TrendBand } from './trend/trendSeries.ts';

/** A trend, as far as it can be told. */
interface TrendShown extends Pick<TrendData, 'qualities' | 'some' | 'lastCounted' | 'coverage'> {
  readonly title: string;
  /** Null without any time. */
  readonly period: string | null;
  readonly panels: readonly Panel[];
  readonly notes: readonly string[];
  readonly events: readonly ChartEvent[];
  readonly offset: OffsetAt;
  readonly at: MomentText;
}

/** A title as a sentence; one that asks or calls has its sign already. */
function titleSentence(title: string, texts: Texts): string {
  return /[.?!]$/.test(title) ? title : fill(texts.charts.alternative.title, { title });
}

/** The title and what the marks mean, and then what the picture shows. */
export function spoken(title: string, notes: readonly string[], shown: readonly string[], texts: Texts): string {
  return [titleSentence(title, texts), `${notes.join(texts.charts.separator)}.`, ...shown].join(' ');
}

export function trendAlternative(
  { title, period, panels, qualities, some, lastCounted, coverage, notes, events, offset, at }: TrendShown,
  texts: Texts,
): string {
  const { alternative, separator, badSpan, noReadings, nothingDrawn } = texts.charts;
  const sentences = [titleSentence(title, texts)];
  const buckets = bucketNotes(panels, texts);
  const none = some ? nothingDrawn : noReadings;
  const nothing = panels.some(({ series }) => series.badTimes.length > 0) ? badSpan : none;
  const drawn = buckets.length === 0 ? nothing : buckets.join(separator);
  const readings = qualities === null ? drawn : qualitiesText(qualities, alternative.qualities, texts);
  sentences.push(period === null ? `${noReadings}.` : fill(alternative.readings, { readings, period }));
  const gaps = gapsText(coverage, texts, at);
  if (gaps !== '') sentences.push(gaps);
  for (const { figure: word, series, title: size } of panels) {
    const { last } = series;
    const codes = series.codes.filter((code) => !isTooMany(code));
    const beyond = tooManyText(series, texts);
    if (last !== null) {
      const { low, high } = extentOf(valuesOf(series));
      const written = (value: number) => (word === null ? figure(value, texts) : measuredText(word, value, texts));
      const { time, value, isMean } = last;
      const template = isMean ? 'lastMean' : word === null && time < lastCounted ? 'lastDrawn' : 'last';
      const moment = at({ time, utcOffsetMinutes: offset(time) });
      const told = fill(alternative[template], { value: written(value), time: moment });
      const places = { low: written(low), high: written(high), last: told };
      if (word === null) sentences.push(fill(alternative.counts, { size, ...places }));
      else sentences.push(fill(alternative.measured, { figure: figureName(word, texts), ...places }));
    } else if (word !== null) sentences.push(fill(alternative.noneMeasured, { figure: figureName(word, texts) }));
    else if (series.codes.length === 0) sentences.push(fill(alternative.noCounts, { size }));
    if (codes.length > 0) sentences.push(fill(alternative.codes, { size, ...codesText(codes, texts) }));
    if (beyond !== null) sentences.push(fill(alternative.title, { title: `${size}: ${beyond}` }));
  }
  if (events.length > 0) {
    // a text may be a sentence of its own
    const list = events.map(({ at, text }) => `${at} ${text.replace(/\.$/, '')}`).join(separator);
    sentences.push(fill(alternative.events, { events: list }));
  }
  sentences.push(`${notes.join(separator)}.`);
  return sentences.join(' ');
}

/** What is drawn of buckets, with their width; empty without any. */
export function bucketNotes(panels: readonly Panel[], texts: Texts): string[] {
  const templates = { buckets: texts.charts.buckets, codes: texts.charts.codeBuckets };
  const { low, high } = extentOf(panels.reduce<number[]>((all, { series }) => all.concat(series.widths), []));
  if (low > high) return [];
  const [least, most] = [low, high].map((ms) => durationText(ms / 60000, texts)) as [string, string];
  const width = least === most ? least : `${least}–${most}`;
  return (['buckets', 'codes'] as const)
    .filter((name) => panels.some(({ series }) => series[name].length > 0))
    .map((name) => fill(templates[name], { width }));
}

/** Which share of the time of buckets was bad, and which unknown; what is not the same in all panels by panel. */
export function knownNotes(panels: readonly Panel[], texts: Texts): string[] {
  const titles: { [note: string]: string[] } = {};
  let isAllKnown = true;
  for (const { series, title } of panels) {
    const { all, bad, unknown } = series.spent ?? { all: 0, bad: 0, unknown: 0 };
    if (all === 0) continue;
    isAllKnown = isAllKnown && bad + unknown === 0;
    const places = { bad: percentText(bad / all, texts), unknown: percentText(unknown / all, texts) };
    const note = fill(texts.charts.notKnown, places);
    titles[note] = [...(titles[note] ?? []), title];
  }
  const notes = Object.keys(titles);
  if (isAllKnown) return [];
  return notes.length === 1 ? notes : notes.map((note) => `${(titles[note] as string[]).join(', ')}: ${note}`);
}

/** The least and the most that the codes of a size allow. */
function codesText(codes: readonly TrendBand[], texts: Texts): { low: string; high: string } {
  const { low } = extentOf(codes.map((code) => code.low));
  const { high } = extentOf(codes.map((code) => code.high ?? Infinity));
  return { low: figure(low, texts), high: high === Infinity ? '∞' : figure(high, texts) };
}

/** How many readings of each quality. */
export function qualitiesText({ good, uncertain, bad }: PeriodQualities, template: string, texts: Texts): string {
  return fill(template, {
    total: whole(good + uncertain + bad, texts),
    good: whole(good, texts),
    uncertain: whole(uncertain, texts),
    bad: whole(bad, texts),
  });
}
