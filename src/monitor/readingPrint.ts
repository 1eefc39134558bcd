/**
 * The fingerprint by which a reading is known again: whether what came twice under one time is the same reading, or contradicts the first.
 *
 * A hash over the exact figures, mixed in whole numbers of 32 bits, so that it is the same on every engine.
 */
import { quantities } from './figures.ts';
import type { MonitorReading } from './monitorTypes.ts';

const word = 4294967296;

/**
 * A whole number below 2^32, of the sizing, sizes, counts, quantities and others with their names. Readings that differ share it by chance
 * once in about 2^32 pairs; as 32 bits cannot tell all readings apart, such pairs exist, and someone who seeks them can find them.
 */
export function readingPrint(reading: MonitorReading): number {
  const { counts, others = {} } = reading;
  let print = mixText(0, `${counts.sizing}`);
  for (const list of [counts.sizes, counts.perMl]) {
    print = mix(print, list.length);
    for (const figure of list) print = mixFigure(print, figure);
  }
  for (const quantity of quantities) print = mixFigure(print, reading[quantity]);
  for (const name of Object.keys(others).sort()) print = mixFigure(mixText(print, name), others[name]);
  return print >>> 0;
}

function mixText(print: number, text: string): number {
  let mixed = mix(print, text.length);
  for (let i = 0; i < text.length; i += 1) mixed = mix(mixed, text.charCodeAt(i));
  return mixed;
}

/** The whole figure, 32 bits at a time, each step exact: how far it was scaled, its words, and how many they were. */
function mixFigure(print: number, figure: number | null | undefined): number {
  // what is no number is refused after this, but shall not run on without an end here
  if (typeof figure !== 'number' || figure - figure !== 0) return mix(print, 1);
  let rest = Math.abs(figure);
  let scaled = 0;
  for (; rest >= word; rest /= word) scaled += 1;
  let mixed = mix(print, 4 * scaled + (figure < 0 ? 2 : 0));
  let words = 0;
  for (; rest > 0; words += 1) {
    const whole = Math.floor(rest);
    mixed = mix(mixed, whole);
    rest = (rest - whole) * word;
  }
  return mix(mixed, words);
}

/** Takes in 32 bits: for one print each value gives another one, and each bit moves all others. Constants of MurmurHash3 (public domain), from memory. */
function mix(print: number, bits: number): number {
  let mixed = (print + 1640531527) ^ bits;
  mixed = times(mixed ^ (mixed >>> 16), 2246822507);
  mixed = times(mixed ^ (mixed >>> 13), 3266489909);
  return mixed ^ (mixed >>> 16);
}

/** The last 32 bits of a product, by halves, which stay exact. */
function times(a: number, b: number): number {
  return ((a & 65535) * b + (((a >>> 16) * b) & 65535) * 65536) | 0;
}
