/** The fingerprint by which a reading is known again: a hash of the exact figures. */
import { splitWords } from '../numeric/powersOfTwo.ts';
import type { OtherFigure, TimedReading } from '../reading/reading.ts';
import type { Source } from '../source.ts';

/** Where the steps of the fingerprint stand. */
export const fingerprintSource: Source = {
  document: 'A. Appleby, MurmurHash3, program text in the public domain',
  edition: '2011 (year from memory)',
  place: 'mixing steps and constants of the 32-bit form',
  standing: 'from memory',
};

/**
 * A whole number from 0 to 2^32 - 1 that stands for every figure of a reading but its times, with sizing, sizes and
 * names: a figure of 0 and one left out are two things, a member left out and an undefined one are not, nor -0 and 0,
 * nor a dilution of 1 and none. Asked of readings that have been checked.
 *
 * The exact value of each figure is mixed in, word by word, by the steps of MurmurHash3 (A. Appleby, public domain;
 * from memory). The same reading always has the same fingerprint, on every engine. A change in one word of 32 bits
 * alone is never missed; of other changes about one in 2^32 (4.3 thousand million) is, as by lot: seen in tests, not
 * proved. It guards against errors, not against someone who looks for a reading to match.
 */
export function fingerprint(reading: TimedReading): number {
  let hash = mixCounts(0, reading.counts);
  hash = mixNumber(hash, reading.mlPerMin);
  hash = mixNumber(hash, reading.measuringSeconds);
  hash = mixNumber(hash, reading.kPa);
  hash = mixNumber(hash, reading.celsius);
  hash = mixNumber(hash, reading.mm2PerS);
  hash = mixNumber(hash, reading.waterSaturation);
  hash = mixNumber(hash, reading.coldestCelsius);
  hash = mixNumber(hash, reading.flushedMl);
  hash = mixNumber(hash, reading.calibratedAt);
  const { codes, qualities, others, mode } = reading;
  if (codes !== undefined)
    for (const name of Object.keys(codes).sort()) hash = mixText(mixText(hash, name), codes[name] as string);
  if (qualities !== undefined)
    for (const name of Object.keys(qualities).sort())
      hash = mixText(mixText(hash, name), `${qualities[name as never]}`);
  if (mode !== undefined) hash = mixText(hash, mode);
  if (others === undefined) return finish(hash);
  for (const name of Object.keys(others).sort()) {
    const other = others[name] as OtherFigure;
    hash = mixText(hash, name);
    hash = typeof other === 'number' ? mixNumber(hash, other) : mixText(mixNumber(hash, other.value), other.quality);
  }
  return finish(hash);
}

/** What version 0.1.0 knew counts again by. */
export function countsPrint1(perMl: readonly number[]): number {
  return finish(mixList(0, perMl));
}

function mixCounts(before: number, counts: TimedReading['counts']): number {
  if (counts === undefined) return mix(before, absent);
  const { sizing, sizes, perMl, counted, volumeMl, dilution = 1 } = counts;
  let hash = mixList(mixList(mixText(before, sizing), sizes), perMl);
  hash = counted === undefined ? mix(hash, absent) : mixList(hash, counted);
  return mixNumber(mixNumber(hash, volumeMl), dilution);
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
  for (let i = 0; i < list.length; i += 1) hash = mixNumber(hash, list[i]);
  return hash;
}

/**
 * The exact value in two words: sign, exponent and the upper 20 bits of the mantissa; its lower 32 bits. Both 0 for 0.
 */
function mixNumber(hash: number, value: number | undefined): number {
  if (value === undefined) return mix(hash, absent);
  if (value === 0) return mix(mix(hash, 0), 0);
  const { exponent, upper, lower } = splitWords(Math.abs(value));
  // exponents from -1074 to 199 are 1 to 1274: below 2048, the bit of the sign
  return mix(mix(hash, (exponent + 1075 + (value < 0 ? 2048 : 0)) * 1048576 + upper), lower);
}

/** One word mixed in; each word, and each hash before it, gives another result. */
function mix(hash: number, word: number): number {
  const scrambled = word === 0 ? 0 : times(turned(times(word, 0xcc9e2d51), 15), 0x1b873593);
  return (turned(hash ^ scrambled, 13) * 5 + 0xe6546b64) | 0;
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

/** The lower 32 bits of a product. */
const times = (Math as { readonly imul?: typeof timesInHalves }).imul ?? timesInHalves;

/** The same where the engine has no such product, 16 bits at a time: so each step is exact in a double. */
export function timesInHalves(word: number, factor: number): number {
  return ((word & 65535) * factor + (((word >>> 16) * factor) & 65535) * 65536) | 0;
}
