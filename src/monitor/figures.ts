/**
 * The figure of a reading that an alarm watches or a trend follows, and the fingerprint by which a reading is known again.
 */
import { requireFinite, requireObject, requireOneOf, requirePositive } from '../checks.ts';
import { continuousScaleNumber, scaleNumber } from '../codes/index.ts';
import { motescaleError } from '../errors.ts';
import { splitBinary } from '../numeric/powersOfTwo.ts';
import { requireName } from './alarmConfig.ts';
import type { MonitorFigure, MonitorReading } from './monitorTypes.ts';

const quantities = ['mlPerMin', 'kPa', 'celsius', 'mm2PerS', 'waterSaturation'] as const;
const measured = [
  'mlPerMin',
  'measuringSeconds',
  'kPa',
  'celsius',
  'mm2PerS',
  'waterSaturation',
  'coldestCelsius',
  'flushedMl',
] as const;
const kinds: readonly string[] = ['quantity', 'other', 'perMlAt', 'scaleNumberAt', 'continuousScaleNumberAt'];

/** Throws unless the figure is one of the known kinds. */
export function requireFigure(figure: unknown, parameter: string): void {
  const expected = `a figure with one of the members ${kinds.join(', ')}`;
  const members = Object.keys(requireObject(figure, parameter, expected));
  const kind = members[0];
  if (members.length !== 1 || kind === undefined || kinds.indexOf(kind) < 0)
    throw motescaleError('unknown_option', parameter, members.join(', '), expected);
  const value = (figure as { readonly [kind: string]: unknown })[kind];
  if (kind === 'quantity') requireOneOf(value, `${parameter}.quantity`, quantities);
  else if (kind === 'other') requireName(value, `${parameter}.other`);
  else requirePositive(value, `${parameter}.${kind}`, 'a size in µm above 0');
}

/** The figure, or null where the reading does not have it. */
export function figureOf(figure: MonitorFigure, reading: MonitorReading): number | null {
  if ('quantity' in figure) return reading[figure.quantity] ?? null;
  if ('other' in figure) return ownMember(reading.others, figure.other);
  if ('perMlAt' in figure) return perMlAt(reading, figure.perMlAt);
  const size = 'scaleNumberAt' in figure ? figure.scaleNumberAt : figure.continuousScaleNumberAt;
  const perMl = perMlAt(reading, size);
  if (perMl === null) return null;
  return 'scaleNumberAt' in figure ? scaleNumber(perMl) : continuousScaleNumber(perMl);
}

function perMlAt(reading: MonitorReading, size: number): number | null {
  const place = reading.counts.sizes.indexOf(size);
  return place < 0 ? null : (reading.counts.perMl[place] as number);
}

function ownMember(others: MonitorReading['others'], name: string): number | null {
  if (others === undefined || Object.keys(others).indexOf(name) < 0) return null;
  return requireFinite(others[name], `reading.others.${name}`);
}

/** A fingerprint of the counts per mL alone, by which counts that are stuck are known. */
export function countsFingerprint({ counts }: MonitorReading): number {
  return finish(mixList(0, counts.perMl));
}

/**
 * A whole number from 0 to 2^32 - 1 that stands for every figure of a reading but its time, with sizing, sizes and names: a figure of 0 and
 * one left out are two things, a member left out and an undefined one are not, nor -0 and 0, nor a dilution of 1 and none. Asked of readings
 * that have been checked.
 *
 * The exact value of each figure is mixed in, word by word, by the steps of MurmurHash3 (A. Appleby, public domain). The same reading always
 * has the same fingerprint, on every engine. A change in one word of 32 bits alone is never missed; of other changes about one in 2^32 (4.3
 * thousand million) is, as by lot: seen in tests, not proved. It guards against errors, not against someone who looks for a reading to match.
 */
export function fingerprint(reading: MonitorReading): number {
  const { sizing, sizes, perMl, counted, volumeMl, dilution = 1 } = reading.counts;
  let hash = mixList(mixList(mixText(0, sizing), sizes), perMl);
  hash = counted === undefined ? mix(hash, absent) : mixList(hash, counted);
  hash = mixNumber(mixNumber(hash, volumeMl), dilution);
  for (const name of measured) hash = mixNumber(hash, reading[name]);
  const { others = {} } = reading;
  for (const name of Object.keys(others).sort()) hash = mixNumber(mixText(hash, name), others[name]);
  return finish(hash);
}

/** What a figure left out is mixed in as: the first word of no number up to 1e60, and no length of a list. */
const absent = 0xfff00000;

function mixText(before: number, text: string): number {
  let hash = mix(before, text.length);
  for (let i = 0; i < text.length; i += 1) hash = mix(hash, text.charCodeAt(i));
  return hash;
}

function mixList(before: number, list: readonly number[]): number {
  let hash = mix(before, list.length);
  for (const value of list) hash = mixNumber(hash, value);
  return hash;
}

/** The exact value in two words: sign, exponent and the upper 20 bits of the mantissa; its lower 32 bits. Both 0 for 0. */
function mixNumber(hash: number, value: number | undefined): number {
  if (value === undefined) return mix(hash, absent);
  if (value === 0) return mix(mix(hash, 0), 0);
  const { mantissa, exponent } = splitBinary(Math.abs(value));
  const scaled = (mantissa - 1) * 1048576;
  const upper = Math.floor(scaled);
  const lower = (scaled - upper) * 4294967296;
  // exponents from -1074 to 199 are 1 to 1274: below 2048, the bit of the sign
  return mix(mix(hash, (exponent + 1075 + (value < 0 ? 2048 : 0)) * 1048576 + upper), lower);
}

/** One word mixed in; each word, and each hash before it, gives another result. */
function mix(hash: number, word: number): number {
  const scrambled = times(turned(times(word, 0xcc9e2d51), 15), 0x1b873593);
  return (times(turned(hash ^ scrambled, 13), 5) + 0xe6546b64) | 0;
}

/** Spreads the last words over all bits. */
function finish(hash: number): number {
  const half = times(hash ^ (hash >>> 16), 0x85ebca6b);
  const whole = times(half ^ (half >>> 13), 0xc2b2ae35);
  return (whole ^ (whole >>> 16)) >>> 0;
}

function turned(word: number, bits: number): number {
  return (word << bits) | (word >>> (32 - bits));
}

/** The lower 32 bits of a product, 16 bits at a time: so each step is exact in a double. */
function times(word: number, factor: number): number {
  return ((word & 65535) * factor + (((word >>> 16) * factor) & 65535) * 65536) | 0;
}
