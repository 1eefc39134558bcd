/**
 * What the report asks of a reading: what the instruments gave, and what has been made of it. Codes and verdict come as
 * text, ready to print.
 */
import { isObject, requireArray, requireObject, requireOneOf, requireText } from '../checks.ts';
import { checkCounts, isSound } from '../counts/checkCounts.ts';
import type { CumulativeCounts, Sizing } from '../counts/index.ts';
import { motescaleError } from '../errors.ts';
import type { Verdict } from '../monitor/index.ts';
import type { FigureName, Quality, TimedReading } from '../reading/reading.ts';
import { figureNames, timedReadingRule } from '../reading/rules.ts';
import { qualityWords } from '../rules/bounds.ts';
import { holds } from '../rules/holds.ts';
import { requireRule } from '../rules/require.ts';
import type { RecordRule, Rule } from '../rules/rule.ts';
import type { Texts } from './texts/types.ts';
import { isTime, requireTime } from './timeText.ts';

/**
 * One reading, for a row of a table or a point of a chart: a reading as it came, with what has been made of it. Nothing
 * but its time is required. Codes and classes go by the name of their standard, `{ 'ISO 4406': '18/16/13' }`, or by the
 * id of their table.
 */
export interface ReportReading extends TimedReading {
  /**
   * How far the counts, or the code, can be relied on, as `assessReading` or a monitor's verdict says. Where left out,
   * what `figureQualities` and `qualities` say of the counts, else `good`, as of a bottle that a laboratory counted.
   * The page then calls good what nobody has judged.
   */
  readonly quality?: Quality | undefined;
  /** The same of the other figures, as `assessReading` or a verdict says; as `qualities` says where left out. */
  readonly figureQualities?: Readonly<Partial<Record<FigureName, Quality>>> | undefined;
  /** What was concluded: `in target`, `above target at 6 µm(c)`. */
  readonly verdict?: string | undefined;
  /**
   * `repeated`: its time was there already, with the same figures or with others for them; `set_aside`: its time is so
   * far ahead that the clock is doubted. Such a reading is a row of a table; no period, chart or bucket takes it, nor
   * one of the same time and alike in all members. Left out of any other.
   */
  readonly arrival?: Extract<Verdict['arrival'], 'set_aside' | 'repeated'> | undefined;
}

/** How far each figure can be relied on. */
export const figureQualitiesRule: RecordRule = {
  kind: 'record',
  expected: "how far each figure can be relied on, such as { celsius: 'bad' }",
  of: { kind: 'word', words: qualityWords },
  longest: figureNames.length,
  names: figureNames,
};
/** What a reading may have beside time, counts and codes as the instruments gave it. */
const measured: Readonly<Record<string, Rule>> = /* @__PURE__ */ measuredRules();
const readingMembers: readonly string[] = /* @__PURE__ */ [
  'time',
  'counts',
  'codes',
  'quality',
  'verdict',
  'arrival',
].concat(/* @__PURE__ */ Object.keys(measured));
/** Arrivals of what is no reading of its own at its time. */
export const apart: readonly NonNullable<ReportReading['arrival']>[] = ['set_aside', 'repeated'];

function measuredRules(): Record<string, Rule> {
  const { time: _time, counts: _counts, codes: _codes, ...rest } = timedReadingRule.members;
  return { ...rest, figureQualities: { ...figureQualitiesRule, optional: true } };
}

/** How far the counts or the code can be relied on. */
export function qualityOf({ quality, figureQualities, qualities }: ReportReading): Quality {
  return quality ?? figureQualities?.counts ?? qualities?.counts ?? 'good';
}

/** Checks readings: all of one sizing, which is returned; null where none has counts. */
export function checkReadings(readings: readonly ReportReading[]): Sizing | null {
  requireArray(readings, 'readings', 'an array of readings { time, counts }');
  let sizing: Sizing | null = null;
  for (let i = 0; i < readings.length; i += 1) {
    const reading = readings[i] as ReportReading;
    // no path is written for a reading that passes
    if (!isPlain(reading)) checkReading(reading, `readings[${i}]`);
    if (reading.counts === undefined) continue;
    if (sizing === null) sizing = reading.counts.sizing;
    if (reading.counts.sizing !== sizing) {
      const path = `readings[${i}].counts.sizing`;
      const expected = `'${sizing}', as in the readings before: convertCounts takes counts to another sizing`;
      throw motescaleError('sizing_not_convertible', path, reading.counts.sizing, expected);
    }
  }
  return sizing;
}

/** Whether a reading is sound, asked without building a text; false also where only the long way can tell. */
function isPlain(reading: ReportReading): boolean {
  if (!isObject(reading)) return false;
  const { time, counts, codes, quality, verdict, arrival } = reading;
  if (!isTime(time) || (counts !== undefined && !isSound(counts, qualityOf(reading) === 'bad'))) return false;
  if (quality !== undefined && qualityWords.indexOf(quality) < 0) return false;
  if (verdict !== undefined && typeof verdict !== 'string') return false;
  if (arrival !== undefined && apart.indexOf(arrival) < 0) return false;
  for (const name of Object.keys(reading)) {
    if (readingMembers.indexOf(name) < 0) return false;
    const rule = measured[name];
    if (rule !== undefined && !holds(rule, reading[name as keyof ReportReading])) return false;
  }
  if (codes === undefined) return true;
  if (!isObject(codes)) return false;
  for (const standard of Object.keys(codes)) if (typeof codes[standard] !== 'string') return false;
  return true;
}

/** Names what is wrong. */
function checkReading(reading: ReportReading, path: string): void {
  requireObject(reading, path, 'a reading { time, counts }', readingMembers);
  requireTime(reading.time, `${path}.time`);
  for (const name of Object.keys(measured)) {
    requireRule(measured[name] as Rule, reading[name as keyof ReportReading], `${path}.${name}`);
  }
  const codes = reading.codes ?? {};
  requireObject(codes, `${path}.codes`, "codes such as { 'ISO 4406': '18/16/13' }");
  // counts that rise with size are why a reading is bad, and are shown with it
  if (reading.counts !== undefined)
    checkCounts(reading.counts as CumulativeCounts, `${path}.counts`, qualityOf(reading) === 'bad');
  if (reading.quality !== undefined) requireOneOf(reading.quality, `${path}.quality`, qualityWords);
  for (const standard of Object.keys(codes))
    requireText(codes[standard], `${path}.codes.${standard}`, 'a code as text');
  if (reading.verdict !== undefined) requireText(reading.verdict, `${path}.verdict`);
  if (reading.arrival !== undefined) requireOneOf(reading.arrival, `${path}.arrival`, apart);
}

/**
 * Those neither repeated nor set aside, in order of time with their quality, and each once: of one time, readings alike
 * in all that they say are one that was sent again.
 */
export function distinct(readings: readonly ReportReading[]): ReportReading[] {
  const inOrder = inTimeOrder(readings.filter(({ arrival }) => arrival === undefined)).map(withQuality);
  let said: { [text: string]: true } = {};
  return inOrder.filter((reading, i) => {
    const { time } = reading;
    if (time !== inOrder[i - 1]?.time) {
      if (time !== inOrder[i + 1]?.time) return true;
      said = {};
    }
    const text = textOf(reading);
    if (text in said) return false;
    said[text] = true;
    return true;
  });
}

/** A reading with the quality of its counts or code, as `qualityOf` has it. */
function withQuality(reading: ReportReading): ReportReading {
  const quality = qualityOf(reading);
  return quality === (reading.quality ?? 'good') ? reading : { ...reading, quality };
}

/** All that a reading says, but when it came in: as one text that begins with a bracket. */
function textOf({ receivedAt: _received, quality = 'good', codes = {}, ...said }: ReportReading): string {
  return JSON.stringify([quality, inOrderOfNames(codes), inOrderOfNames(said)]);
}

/** The members of objects as pairs in the order of their names: the order they came in says nothing. */
function inOrderOfNames(value: unknown): unknown {
  if (!isObject(value)) return value;
  return Object.keys(value)
    .sort()
    .filter((name) => value[name] !== undefined)
    .map((name) => [name, inOrderOfNames(value[name])]);
}

/** Whether a reading has counts or a code, or says that it had some to which nobody may trust. */
export function hasSample(reading: ReportReading): boolean {
  return reading.counts !== undefined || Object.keys(reading.codes ?? {}).length > 0 || lostSample(reading);
}

/** Whether counts that are not there are called bad: they could not be read, or the counter gave none. */
function lostSample(reading: ReportReading): boolean {
  if (qualityOf(reading) !== 'bad') return false;
  const { figureQualities, qualities } = reading;
  const said = figureQualities?.counts ?? qualities?.counts;
  // the quality of a verdict may be that of the thermometer
  if (said !== undefined) return said === 'bad';
  return !figureNames.some((name) => figureQualities?.[name] === 'bad' || qualities?.[name] === 'bad');
}

/** In order of time; of one time, in the order given (not every engine's sort keeps that by itself). */
export function inTimeOrder<T extends { readonly time: number }>(list: readonly T[]): T[] {
  let ordered = true;
  for (let i = 1; i < list.length && ordered; i += 1) ordered = (list[i - 1] as T).time <= (list[i] as T).time;
  if (ordered) return list.slice();
  return list
    .map((item, place) => ({ item, place }))
    .sort((a, b) => a.item.time - b.item.time || a.place - b.place)
    .map(({ item }) => item);
}

/** All sizes that occur, ascending. */
export function sizesOf(readings: readonly ReportReading[]): number[] {
  const sizes: number[] = [];
  for (const { counts } of readings) {
    if (counts === undefined) continue;
    for (const size of counts.sizes) if (sizes.indexOf(size) < 0) sizes.push(size);
  }
  return sizes.sort((a, b) => a - b);
}

/** The count of a reading at a size; null where it has none. */
export function countOf(counts: CumulativeCounts, size: number): number | null {
  const place = counts.sizes.indexOf(size);
  return place < 0 ? null : (counts.perMl[place] as number);
}

/** A size with its unit, as the trade prints it: `4 µm(c)`; in the sign of a language, `6,4 µm(c)`. */
export function sizeText(size: number, sizing: Sizing, texts: Pick<Texts, 'decimalSign'>): string {
  return `${sizeNumber(size, texts)} ${unitOf(sizing)}`;
}

export function sizeNumber(size: number, { decimalSign }: Pick<Texts, 'decimalSign'>): string {
  return String(size).replace('.', decimalSign);
}

export function unitOf(sizing: Sizing): string {
  if (sizing === 'iso11171') return 'µm(c)';
  if (sizing === 'iso11171b') return 'µm(b)';
  return sizing === 'iso4402' ? 'µm (ISO 4402)' : 'µm';
}
