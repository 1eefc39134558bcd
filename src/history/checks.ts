/** What the readings of a roll-up must be, for its sums to be exact. */
import { isFiniteNumber, requireArray, requireObject, requireOneOf } from '../checks.ts';
import { motescaleError } from '../errors.ts';
import { qualityWords } from '../rules/bounds.ts';
import { requireFigure } from '../trend/requireNumbers.ts';
import { requireCounted } from './countedSums.ts';
import { isKnown, isSpent, requireKnown } from './knownNumbers.ts';
import { isLevel } from './levels.ts';
import { isWithinBucket, type RollUpSettings, requireMs } from './settings.ts';
import type { KnownScaleNumber, RollUpBucket, RollUpReading } from './types.ts';

const readingMembers = ['time', 'value', 'quality', 'scaleNumbers', 'counted', 'volumeMl'];

/** A reading, as a copy with its quality filled in, no earlier than the one before. */
export function requireReading(given: unknown, parameter: string, before: RollUpReading | undefined): RollUpReading {
  const reading = requireObject(given, parameter, 'an object', readingMembers) as RollUpReading;
  const time = requireMs(reading.time, `${parameter}.time`);
  if (before !== undefined && time < before.time) {
    const expected = `${before.time} or later: readings in order of time`;
    throw motescaleError('out_of_range', `${parameter}.time`, time, expected);
  }
  const quality = requireOneOf(reading.quality ?? 'good', `${parameter}.quality`, qualityWords);
  const value = reading.value === null ? null : requireFigure(reading.value, `${parameter}.value`);
  const counted = requireCounted(reading, parameter);
  const { scaleNumbers } = reading;
  if (scaleNumbers === undefined) return { time, value, quality, ...counted };
  requireArray(scaleNumbers, `${parameter}.scaleNumbers`, 'an array of scale numbers');
  // by index, so that a hole is seen
  const known: KnownScaleNumber[] = [];
  for (let i = 0; i < scaleNumbers.length; i += 1)
    known.push(requireKnown(scaleNumbers[i] as KnownScaleNumber, `${parameter}.scaleNumbers[${i}]`));
  return { time, value, quality, scaleNumbers: known, ...counted };
}

/** The buckets of an earlier roll-up, one after the other, with a reading in the first and in the last. */
export function requireParts(part: unknown, parameter: string, settings: RollUpSettings): void {
  requireArray(part, parameter, 'buckets of rollUp');
  for (let i = 0; i < part.length; i += 1) {
    const at = `${parameter}[${i}]`;
    const bucket = requireObject(part[i], at) as RollUpBucket;
    const { holdMs, levels } = bucket;
    const start = requireMs(bucket.start, `${at}.start`);
    if (!isWithinBucket(start, bucket.widthMs, settings)) {
      const expected = 'buckets that lie within those of the options: of their width or edges, or finer';
      throw motescaleError('not_convertible', at, bucket.widthMs, expected);
    }
    // a bucket of an earlier version does not say
    if (holdMs !== undefined && holdMs !== settings.holdMs)
      throw motescaleError('not_convertible', `${at}.holdMs`, holdMs, `holdMs ${settings.holdMs}, as the options say`);
    if ((levels !== undefined) !== settings.levels) {
      const expected = `${settings.levels ? '' : 'no '}levels, as the options say`;
      throw motescaleError('not_convertible', `${at}.levels`, levels, expected);
    }
    const before = part[i - 1] as RollUpBucket | undefined;
    const follows = before === undefined || start === before.start + before.widthMs;
    const atEnd = i === part.length - 1;
    const ended = (i > 0 || bucket.firstTime !== null) && (!atEnd || bucket.last !== null);
    if (!(follows && ended && isWhole(bucket))) throw motescaleError('bad_state', at, bucket, 'all buckets of rollUp');
  }
}

const bucketMembers = [
  ...['start', 'widthMs', 'holdMs', 'count', 'good', 'goodShare', 'min', 'max', 'mean'],
  ...['valuedMs', 'badMs', 'gapMs', 'gaps', 'spent', 'unseenMs', 'worst', 'weighted', 'levels'],
  ...['counted', 'volumeMl', 'volumes', 'firstTime', 'last'],
];

/** Whether a bucket holds what `rollUp` puts into one, and nothing else: sums of anything else would be no numbers. */
export function isWhole(bucket: RollUpBucket): boolean {
  const { count, good, valuedMs, badMs, gapMs, gaps, spent, worst, weighted, last } = bucket;
  return (
    hasOnly(bucket, bucketMembers) &&
    (bucket.holdMs === undefined || isFiniteNumber(bucket.holdMs)) &&
    [count, good, valuedMs, badMs, gapMs].every((figure) => isFiniteNumber(figure) && figure >= 0) &&
    [bucket.min, bucket.max, bucket.mean, bucket.goodShare].every(isNumberOrNull) &&
    (bucket.firstTime === null || isInside(bucket, bucket.firstTime)) &&
    listOf(gaps, (gap) => isFiniteNumber(gap?.from) && isFiniteNumber(gap.to) && hasOnly(gap, ['from', 'to'])) &&
    listOf(worst, isNumberOrNull) &&
    (bucket.unseenMs === undefined || listOf(bucket.unseenMs, isFiniteNumber)) &&
    listOf(weighted, isFiniteNumber) &&
    (bucket.levels === undefined || listOf(bucket.levels, isLevel)) &&
    isCounted(bucket) &&
    listOf(spent, (column) => listOf(column, isSpent)) &&
    spent.length === worst.length &&
    (last === null ||
      (typeof last === 'object' &&
        hasOnly(last, readingMembers) &&
        isFiniteNumber(last.time) &&
        isNumberOrNull(last.value) &&
        (last.quality === undefined || qualityWords.indexOf(last.quality) >= 0) &&
        (last.counted === undefined || listOf(last.counted, isFiniteNumber)) &&
        (last.volumeMl === undefined || isFiniteNumber(last.volumeMl)) &&
        (last.scaleNumbers === undefined || listOf(last.scaleNumbers, isKnown))))
  );
}

function isInside({ start, widthMs }: RollUpBucket, time: number): boolean {
  return [time, start, widthMs].every(isFiniteNumber) && time >= start && time < start + widthMs;
}

/** All three of what was counted, or none. */
function isCounted({ counted, volumeMl, volumes }: RollUpBucket): boolean {
  if (counted === undefined && volumeMl === undefined && volumes === undefined) return true;
  return isFiniteNumber(volumeMl) && listOf(volumes, isFiniteNumber) && listOf(counted, isFiniteNumber);
}

function hasOnly(value: object, names: readonly string[]): boolean {
  return Object.keys(value).every((name) => names.indexOf(name) >= 0);
}

/** A hole in a list is an element that does not hold; `every` would pass it by. */
function listOf<T>(list: readonly T[] | undefined, holds: (element: T) => boolean): boolean {
  if (!Array.isArray(list)) return false;
  for (let i = 0; i < list.length; i += 1) if (!(i in list) || !holds(list[i])) return false;
  return true;
}

function isNumberOrNull(value: unknown): boolean {
  return value === null || isFiniteNumber(value);
}

/** How many columns the buckets of a part have; 0 where no reading had any. */
export function columnsOfAll(part: readonly RollUpBucket[]): number {
  for (const { worst } of part) if (worst.length > 0) return worst.length;
  return 0;
}

/** How many sizes the readings of a part counted; 0 where none did. */
export function sizesOfAll(part: readonly RollUpBucket[]): number {
  for (const { counted } of part) if (counted !== undefined) return counted.length;
  return 0;
}

/** How many there are, of what is known now; throws where it was another number before. */
export function requireAsBefore(number: number, before: number, what: 'columns' | 'sizes', parameter: string): number {
  if (number > 0 && before > 0 && number !== before) {
    throw motescaleError('length_mismatch', parameter, number, `${before} ${what}, as before`);
  }
  return Math.max(number, before);
}
