/**
 * One bucket of a roll-up while it is being filled. Times are whole ms and the weighted sum is exact, so the order of
 * filling leaves no trace.
 */
import { addExactly, canonicalSum, productError, roundedSum } from '../numeric/exactSum.ts';
import type { Writable } from '../state/writable.ts';
import { addCounted, type CountedSums, finishedSums } from './countedSums.ts';
import { comesBefore, type Spent, spentAt } from './knownNumbers.ts';
import { addLevel, type Level, levelOf } from './levels.ts';
import type { Gap, RollUpBucket, RollUpReading } from './types.ts';

/** A bucket that can still change. */
export interface OpenBucket extends CountedSums {
  readonly start: number;
  readonly widthMs: number;
  readonly holdMs: number;
  count: number;
  good: number;
  min: number | null;
  max: number | null;
  valuedMs: number;
  badMs: number;
  gapMs: number;
  readonly gaps: Gap[];
  readonly spent: Writable<Spent>[][];
  unseenMs?: number[];
  worst: (number | null)[];
  weighted: number[];
  readonly levels?: Level[];
  firstTime: number | null;
  last: RollUpReading | null;
}

/** A bucket with nothing in it. */
export function emptyBucket(start: number, widthMs: number, holdMs: number, levels: boolean): OpenBucket {
  const figures = { count: 0, good: 0, min: null, max: null, valuedMs: 0, badMs: 0, gapMs: 0 };
  const lists = { gaps: [], spent: [], worst: [], weighted: [], ...(levels ? { levels: [] } : {}) };
  return { start, widthMs, holdMs, ...figures, ...lists, firstTime: null, last: null };
}

/** Counts a reading taken in the bucket. How long it stands is not known yet. */
export function takeReading(bucket: OpenBucket, reading: RollUpReading): void {
  bucket.count += 1;
  if (reading.quality === 'good') bucket.good += 1;
  if (bucket.firstTime === null) bucket.firstTime = reading.time;
  bucket.last = reading;
  if (reading.quality !== 'bad' && reading.volumeMl !== undefined)
    addCounted(bucket, reading.counted, [reading.volumeMl]);
  stand(bucket, reading, 0);
}

/** Lets a reading stand in the bucket for some ms. */
export function stand(bucket: OpenBucket, reading: RollUpReading, ms: number): void {
  const { value, scaleNumbers } = reading;
  const bad = reading.quality === 'bad';
  if (value === null || bad) bucket.badMs += ms;
  else {
    bucket.valuedMs += ms;
    span(bucket, value, value);
    if (ms > 0) {
      if (bucket.levels !== undefined) addLevel(bucket.levels, { level: levelOf(value), ms });
      bucket.weighted = addExactly(addExactly(bucket.weighted, productError(value, ms)), value * ms);
    }
  }
  if (scaleNumbers === undefined || bad) return;
  const worst: (number | null)[] = [];
  const unseen: number[] = [];
  const spent: Spent[][] = [];
  for (const known of scaleNumbers) {
    const one = spentAt(known, ms);
    worst.push(one === null ? null : one.scaleNumber);
    unseen.push(one === null ? ms : 0);
    spent.push(one !== null && ms > 0 ? [one] : []);
  }
  spend(bucket, spent, worst, worst.indexOf(null) < 0 ? undefined : unseen);
}

/** Adds a later bucket of the same time, of another part; or the next one within it. */
export function addBucket(bucket: OpenBucket, more: RollUpBucket): void {
  for (const name of ['count', 'good', 'valuedMs', 'badMs', 'gapMs'] as const) bucket[name] += more[name];
  for (const gap of more.gaps) bucket.gaps.push(gap);
  for (const part of more.weighted) bucket.weighted = addExactly(bucket.weighted, part);
  if (more.min !== null && more.max !== null) span(bucket, more.min, more.max);
  spend(bucket, more.spent, more.worst, more.unseenMs);
  addCounted(bucket, more.counted, more.volumes);
  if (bucket.levels !== undefined) for (const level of more.levels as readonly Level[]) addLevel(bucket.levels, level);
  if (bucket.firstTime === null) bucket.firstTime = more.firstTime;
  bucket.last = more.last ?? bucket.last;
}

/** The bucket as it is given away. */
export function finished(bucket: OpenBucket): RollUpBucket {
  const { min, max, valuedMs } = bucket;
  const weighted = canonicalSum(bucket.weighted);
  const measured = min === null || max === null || valuedMs === 0 ? null : { min, max };
  const mean = measured && Math.min(Math.max(roundedSum(weighted) / valuedMs, measured.min), measured.max);
  return {
    ...bucket,
    ...finishedSums(bucket),
    goodShare: bucket.count === 0 ? null : bucket.good / bucket.count,
    mean,
    weighted,
  };
}

function span(bucket: OpenBucket, min: number, max: number): void {
  bucket.min = bucket.min === null ? min : Math.min(bucket.min, min);
  bucket.max = bucket.max === null ? max : Math.max(bucket.max, max);
}

function spend(
  bucket: OpenBucket,
  spent: RollUpBucket['spent'],
  worst: RollUpBucket['worst'],
  unseen: readonly number[] | undefined,
): void {
  if (bucket.worst.length === 0) bucket.worst = worst.slice();
  if (unseen !== undefined) {
    const before = bucket.unseenMs;
    bucket.unseenMs = unseen.map((ms, column) => ms + (before?.[column] ?? 0));
  }
  worst.forEach((highest, column) => {
    const before = bucket.worst[column] as number | null;
    bucket.worst[column] = highest === null ? before : Math.max(before ?? highest, highest);
    if (bucket.spent[column] === undefined) bucket.spent.push([]);
    for (const one of spent[column] as Spent[]) addTime(bucket.spent[column] as Writable<Spent>[], one);
  });
}

/** Adds time to one scale number, keeping the list ascending. */
function addTime(list: OpenBucket['spent'][number], added: Spent): void {
  let place = 0;
  while (place < list.length && comesBefore(list[place] as Spent, added)) place += 1;
  const entry = list[place];
  if (entry === undefined || comesBefore(added, entry)) list.splice(place, 0, { ...added });
  else entry.ms += added.ms;
}
