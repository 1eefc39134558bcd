/**
 * Readings come late, twice, or out of order: each is recognised by its time among the last sixteen, and none goes
 * unmentioned.
 */
import { fingerprint } from '../../judging/fingerprint.ts';
import type { TimedReading } from '../../reading/reading.ts';
import { textPrint } from '../../state/textPrint.ts';
import type { MonitorState } from '../types.ts';

/** How many readings a state knows again. */
export const remembered = 16;

/** The readings remembered: time and print, oldest first; of one time each, as they came. */
export type Recent = NonNullable<MonitorState['recent']>;

/** Before the first reading. */
export const noneRecent: Recent = [];

/**
 * How a reading has come, beside those before it; `contradicts` where its time was there already, with other figures.
 */
export interface Come {
  readonly kind: 'in_order' | 'late' | 'repeated' | 'too_late';
  readonly contradicts: boolean;
  readonly print: number;
}

/**
 * Compares with the readings remembered. A reading of a known time that brings only figures which that time lacks is
 * of another instrument: it comes in order beside the newest, and late beside an older one. The reading has been
 * checked.
 */
export function comeOf(recent: Recent, reading: TimedReading): Come {
  const { time } = reading;
  const print = printOf(reading);
  const newest = recent[recent.length - 1];
  if (newest === undefined || time > newest[0]) return { kind: 'in_order', contradicts: false, print };
  const beside = recent.filter(([before]) => before === time);
  if (beside.some(([, before]) => before === null || before === print))
    return { kind: 'repeated', contradicts: false, print };
  if (beside.some(([, before]) => sharesFigures(before as number, print)))
    return { kind: 'repeated', contradicts: true, print };
  if (time === newest[0]) return { kind: 'in_order', contradicts: false, print };
  const oldest = recent[0] as Recent[number];
  const beyond = recent.length === remembered && time < oldest[0];
  return { kind: beyond ? 'too_late' : 'late', contradicts: false, print };
}

/** A print has a bit for each kind of figure above so many bits of the fingerprint: 32 in all. */
const printSize = 262144;
/** So many bits for figures of `others`, by their names: two that share one are taken for one figure. */
const otherKinds = 8;

/**
 * What a reading is known again by: of its fingerprint the lowest 18 bits, so that of readings with other figures of
 * the same kinds one in 262,144 is taken for a repetition; and which kinds of figures it has.
 */
function printOf(reading: TimedReading): number {
  return kindsOf(reading) * printSize + (fingerprint(reading) % printSize);
}

/** Whether a reading has a figure of a kind that the one before has, or none at all by which it could be told apart. */
function sharesFigures(before: number, print: number): boolean {
  const kinds = Math.floor(print / printSize);
  return kinds === 0 || (Math.floor(before / printSize) & kinds) !== 0;
}

/** A bit for each kind; a figure that the reading calls bad without having it was measured, too. */
function kindsOf(reading: TimedReading): number {
  const { counts, codes, measuringSeconds, mlPerMin, flushedMl, celsius, coldestCelsius, qualities, others } = reading;
  let kinds = 0;
  // written out: a list of them would be made for each reading
  if ((counts ?? codes ?? measuringSeconds ?? qualities?.counts) !== undefined) kinds += 1;
  if ((mlPerMin ?? flushedMl ?? qualities?.mlPerMin) !== undefined) kinds += 2;
  if ((reading.kPa ?? qualities?.kPa) !== undefined) kinds += 4;
  if ((celsius ?? coldestCelsius ?? qualities?.celsius) !== undefined) kinds += 8;
  if ((reading.mm2PerS ?? qualities?.mm2PerS) !== undefined) kinds += 16;
  if ((reading.waterSaturation ?? qualities?.waterSaturation) !== undefined) kinds += 32;
  if (others === undefined) return kinds;
  for (const name of Object.keys(others)) kinds |= 64 << (textPrint(name) % otherKinds);
  return kinds;
}

/** The last readings with one among them that is not there yet. */
export function withReading(recent: Recent, time: number, print: number): Recent {
  let place = recent.length;
  while (place > 0 && (recent[place - 1] as Recent[number])[0] > time) place -= 1;
  const first = recent.length === remembered ? 1 : 0;
  const merged = recent.slice(first, place) as [number, number | null][];
  merged.push([time, print]);
  return place === recent.length ? merged : merged.concat(recent.slice(Math.max(first, place)) as typeof merged);
}
