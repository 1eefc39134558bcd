/** A period in words, for an e-mail. */
import { requireObject } from '../../checks.ts';
import { requireRule } from '../../rules/require.ts';
import { qualitiesText } from '../charts/alternatives.ts';
import { periodRule } from '../pageRules.ts';
import { errorsText } from '../takenErrors.ts';
import { paragraph, toLeft } from '../textLayout.ts';
import { requireTexts } from '../texts/english.ts';
import { durationText, fill, localized, percentText, probabilityText, whole } from '../texts/fill.ts';
import type { Texts } from '../texts/types.ts';
import { haveSeveral, momentText } from '../timeText.ts';
import { gapsText, type MomentText } from './gapsText.ts';
import type { Moment, PeriodCoverage } from './periodCoverage.ts';
import { type PeriodFigures, writtenMoments } from './periodFigures.ts';
import { codeLines, countLines, measuredLines } from './periodTables.ts';
import type { TargetFigures } from './periodTarget.ts';

/**
 * Puts the figures of a period into plain text, lines of at most 72 characters (unless one word is longer): readings by
 * quality, how often one that can be relied on usually comes and how much of the period they cover so, and for how long
 * there was none that can be relied on where that is not usual: longer than ten of their usual intervals and than a day
 * (our choice); how many readings met the target, how many of those were good, and whether the last did; lowest,
 * median, highest and last count at each size, with the code each makes; the same of classes where there are codes
 * alone; of temperature, viscosity, water and whatever else was measured; verdicts; what stood at the beginning;
 * events. Where the times have more than one UTC offset, each carries its own. `>=` stands where fewer than 20
 * particles were counted. A period without a reading gives a text that says so.
 *
 * @param figures of `periodFigures`
 * @param texts the words of another language; English where left out
 * @throws `wrong_type` for what are no such figures, and where a text is missing; of one member, what is wrong with it.
 *
 * @example
 * ```ts
 * import { cumulativeCounts } from 'motescale/counts';
 * import { periodFigures, periodSummary } from 'motescale/report';
 * const counts = [1890, 2100, 2400].map((at4) => cumulativeCounts({ 4: at4, 6: 402, 14: 33 }));
 * const readings = counts.map((at, i) => ({ time: i * 3600000, counts: at }));
 * const text = periodSummary(periodFigures(readings, { title: 'Lock 3, power unit A', target: '18/16/13' }));
 * text.split('\n')[6]; // => 'Target     ISO 4406 18/16/13: 3 of 3 met, all of them good'
 * ```
 */
export function periodSummary(figures: PeriodFigures, texts?: Texts): string {
  requireObject(figures, 'figures', 'the figures of periodFigures');
  requireRule(periodRule(), figures, 'figures');
  const words = requireTexts(texts, 'texts');
  const { period } = words;
  const { heads } = period;
  const { good, uncertain, bad } = figures.readings;
  // the figures of a release before may lack these
  const { codes = null, measured = null, standing = [], events } = figures;
  const lines = paragraph('', figures.title ?? period.title);
  const width = headWidth(words);
  const add = (head: string, text: string) => lines.push(...paragraph(toLeft(head, width), text));
  const addIfAny = (text: string) => text !== '' && add('', text);
  const zoned = haveSeveral(writtenMoments(figures).map(({ utcOffsetMinutes }) => utcOffsetMinutes));
  const at: MomentText = ({ time, utcOffsetMinutes }) => momentText(time, utcOffsetMinutes, zoned);
  const span = spanText(figures, words, at);
  if (span !== '') lines.push(zoned ? span : fill(period.zoned, { period: span, zone: figures.zone }));
  const total = good + uncertain + bad;
  const counted = total === 0 ? period.noReadings : qualitiesText(figures.readings, period.qualities, words);
  lines.push('');
  add(heads.readings, counted);
  addIfAny(leftOutText(figures.leftOut, words));
  addIfAny(coveredText(figures.coverage, words));
  addIfAny(gapsText(figures.coverage, words, at));
  if (good + uncertain > 0) {
    const { columns, target, standard } = figures;
    lines.push('');
    if (columns !== null) add(heads.judged, fill(period.judged, { standard, columns: columns.join(', ') }));
    if (target !== null) {
      const outcome = outcomeText(target, words);
      add(heads.target, fill(period.target, { standard, code: target.code, outcome }));
      addIfAny(lastText(target, words));
      const { probability = null, errors } = target;
      if (probability !== null && errors !== undefined) add('', errorsText(errors, words));
    }
    const tables = figures.counts === null ? [] : [countLines(figures.counts, figures, words)];
    if (codes !== null) tables.push(codeLines(codes, figures, words));
    tables.forEach((table, i) => {
      if (i > 0 || columns !== null || target !== null) lines.push('');
      for (const each of table) lines.push(each);
    });
  } else if (total > 0) add('', period.noneUsable);
  const figuresBelow = measured === null ? [] : ['', ...measuredLines(measured, words)];
  for (const each of figuresBelow) lines.push(each);
  if (figures.verdicts.length > 0) {
    lines.push('');
    const told = figures.verdicts.map(({ verdict, readings }) => `${verdict}: ${whole(readings, words)}`);
    add(heads.verdicts, told.join('; '));
  }
  const listed = (events: readonly (Moment & { readonly text: string })[]) => {
    for (const event of events) lines.push(...paragraph(`  ${at(event)}  `, event.text));
  };
  if (standing.length > 0) lines.push('', heads.standing);
  listed(standing);
  if (events !== null) {
    lines.push('', events.length === 0 ? toLeft(heads.events, width) + period.noEvents : heads.events);
    listed(events);
  }
  return `${lines.join('\n')}\n`;
}

/** Readings that are no part of the figures; empty without any. */
function leftOutText(leftOut: PeriodFigures['leftOut'], texts: Texts): string {
  const reasons: string[] = [];
  for (const reason of ['setAside', 'repeated', 'withoutSample'] as const) {
    const number = leftOut[reason];
    if (number > 0) reasons.push(fill(texts.period[reason], { number: whole(number, texts) }));
  }
  return reasons.length === 0 ? '' : fill(texts.period.leftOut, { reasons: reasons.join('; ') });
}

/** How often readings usually come, and how much of the period they cover so; empty where it is not known. */
function coveredText({ usualMs, coveredShare = null }: PeriodCoverage, texts: Texts): string {
  if (usualMs === null || coveredShare === null) return '';
  return fill(texts.period.covered, { usual: usualText(usualMs, texts), percent: percentText(coveredShare, texts) });
}

/** To the nearest tenth of a second or minute, and not 0. */
function usualText(ms: number, texts: Texts): string {
  const tenths = (unitMs: number) => Math.max(1, Math.floor((10 * ms) / unitMs + 0.5)) / 10;
  if (ms >= 60000) return durationText(tenths(60000), texts, 'down');
  return fill(texts.durations.seconds, { number: localized(`${tenths(1000)}`, texts) });
}

/** Room for the longest head, and two blanks. */
function headWidth({ period }: Texts): number {
  const { readings, judged, target, verdicts, events } = period.heads;
  return Math.max(11, ...[readings, judged, target, verdicts, events].map(({ length }) => length + 2));
}

/** `2026-11-02 00:00 to 2026-11-09 00:00`; empty where nothing is known of the period. */
function spanText({ from, to }: PeriodFigures, { period }: Texts, at: MomentText): string {
  if (from === null) return to === null ? '' : fill(period.until, { to: at(to) });
  if (to === null) return fill(period.from, { from: at(from) });
  return fill(period.fromTo, { from: at(from), to: at(to) });
}

/** `245 of 318 met, 240 of them good; 2 could not be judged`. */
function outcomeText({ met, metGood, judged, unjudged, last }: TargetFigures, texts: Texts): string {
  const { period } = texts;
  if (judged === 0) return period.notJudged;
  const number = (value: number) => whole(value, texts);
  let text = fill(judged === 1 ? period.oneMet : period.met, { met: number(met), judged: number(judged) });
  if (met > 0) {
    const good = metGood === met ? period.allGood : metGood === 0 ? period.noneGood : period.someGood;
    text += fill(good, { number: number(metGood) });
  }
  if (unjudged > 0) text += fill(period.unjudged, { number: number(unjudged) });
  if (unjudged > 0 && last === null) text += period.lastUnjudged;
  return text;
}

/** Whether the last reading met the target, where some did and some did not, and how likely it is in truth. */
function lastText({ met, judged, last, probability = null }: TargetFigures, texts: Texts): string {
  const { period } = texts;
  if (judged === 0) return '';
  const sentences: string[] = [];
  if (met > 0 && met < judged && last !== null) sentences.push(last ? period.lastMet : period.lastMissed);
  if (probability !== null) sentences.push(fill(period.probability, { percent: probabilityText(probability, texts) }));
  return sentences.join(' ');
}
