/**
 * Counts from what an instrument really gives: holes, digits as text, counts that rise.
 */
import { isWithin, outOfRange, requireFilledArray, requireMembers, requireObject, requireOneOf } from '../checks.ts';
import { requireSizing } from '../counts/checkCounts.ts';
import { countedRule, perMlRule, requireDilution, requireVolume, sizeRule } from '../counts/ranges.ts';
import type { CumulativeCounts, Sizing } from '../counts/types.ts';
import { motescaleError, noteLost, noteProblem, type Problem, requireTold } from '../errors.ts';
import { proportion, scaleDecimal } from '../numeric/decimal.ts';
import { isGrouped } from '../numeric/grouped.ts';
import type { Found } from './assess/check.ts';
import { risenIn } from './assess/particles.ts';
import { touchedBy } from './findingKinds.ts';
import type { Finding } from './reading.ts';
import { defaultReadingLimits } from './readingLimits.ts';
import { maxSizes } from './rules.ts';

/** What is missing beside particles counted. */
export const besideCounted = 'the volume counted in mL, beside counted';

/** What is right instead of counts per mL in text whose points may stand between thousands. */
export const noThousands = 'numbers, or texts with other than three decimals: these points may stand between thousands';

/** How sizes were measured where nothing says. */
export const sizingLeftOut: Sizing = 'iso11171';

/** Counts as they come: size by size, particles counted in a volume, or counts per mL or per 100 mL. */
export interface RawCounts {
  /** µm, ascending or not, as numbers or as digits in a text. At most 32. */
  readonly sizes: readonly (number | string)[];
  /** Particles counted, one for each size; null, text without digits or nothing where the instrument gave none. */
  readonly counted?: readonly unknown[];
  /** Counts in the volume that `per` says, likewise. Not looked at where there are `counted`. */
  readonly perMl?: readonly unknown[];
  /** The volume counted, mL; needed beside `counted`. */
  readonly volumeMl?: number;
  readonly dilution?: number;
  /** `iso11171` where left out. */
  readonly sizing?: Sizing;
  /** `mL` where left out. */
  readonly per?: 'mL' | '100mL';
}

/**
 * Makes counts of what an instrument gave. A size without a count, or whose count cannot be read, is left out and told
 * (`count_missing`); digits as text are read, but no particles counted with their thousands set apart, `'4.000'`.
 * Counts per mL are refused where all points in them may stand so (`'18.900'`, `'4.020'`, `'330'`): they may be 18900
 * or 18.9. Sizes are put in order. Counts that rise with size are kept and told (`counts_rise_with_size`), so that what
 * stands beside them in the reading is not lost. Nothing is made up: `counts` is null where no size has a count. Counts
 * have no form for more than the instrument can count (`'>30000'`): such a size is left out like one that was not
 * counted. ISO 4406 has one, the code `*`: `codeOfFullCounts` makes it.
 *
 * @param told gets an entry for each count that was left out: where, and what came
 * @throws `unknown_option` for a misspelt member; `empty`, `length_mismatch`, `out_of_range` for lists that do not
 * belong together or more than 32 sizes; `missing_volume` for particles counted without their volume; `wrong_type` for
 * counts per mL as text whose points may stand between thousands; the errors of sizing, volume and dilution.
 *
 * @example
 * ```ts
 * import { findingText, type Problem, parseCounts } from 'motescale/reading';
 * const { counts, findings } = parseCounts({ sizes: ['4', '6', '14'], perMl: ['1890', null, 33] });
 * counts; // => { sizing: 'iso11171', sizes: [4, 14], perMl: [1890, 33] }
 * findings.map((finding) => findingText(finding));
 * // => ['No count that can be read came at 6 µm(c): see what the instrument sends there.']
 * const told: Problem[] = [];
 * parseCounts({ sizes: [4, 6], perMl: [null, '>30000'] }, told).counts; // => null
 * told.map(({ path, received }) => `${path.join('.')}: ${received}`); // => ['perMl.0: null', "perMl.1: '>30000'"]
 * ```
 */
export function parseCounts(
  raw: RawCounts,
  told: Problem[] = [],
): { counts: CumulativeCounts | null; findings: Finding[] } {
  requireMembers(requireObject(raw, 'raw', 'counts { sizes, counted, volumeMl }, or { sizes, perMl }'), 'raw', [
    ...['sizes', 'counted', 'perMl', 'volumeMl', 'dilution', 'sizing', 'per'],
  ]);
  requireTold(told);
  const sizing = raw.sizing === undefined ? sizingLeftOut : requireSizing(raw.sizing, 'raw.sizing');
  const per = requireOneOf(raw.per ?? 'mL', 'raw.per', ['mL', '100mL']);
  const sizes = requireFilledArray(raw.sizes, 'raw.sizes');
  if (sizes.length > maxSizes) throw motescaleError('out_of_range', 'raw.sizes', sizes, `at most ${maxSizes} sizes`);
  const name = raw.counted === undefined ? 'perMl' : 'counted';
  const given = requireFilledArray(raw[name], `raw.${name}`, 'an array, one for each size');
  if (given.length !== sizes.length)
    throw motescaleError('length_mismatch', `raw.${name}`, given, `an array of ${sizes.length}, one for each size`);
  const doubtful = name === 'perMl' ? doubtfulPoints(given) : undefined;
  if (doubtful !== undefined) throw motescaleError('wrong_type', 'raw.perMl', doubtful, noThousands);
  const volume = raw.volumeMl === undefined ? undefined : requireVolume(raw.volumeMl, 'raw.volumeMl');
  const dilution = raw.dilution === undefined ? undefined : requireDilution(raw.dilution, 'raw.dilution');
  if (name === 'counted' && volume === undefined)
    throw motescaleError('missing_volume', 'raw.volumeMl', undefined, besideCounted);
  const there: { readonly size: number; readonly count: number }[] = [];
  const missing: number[] = [];
  sizes.forEach((one, i) => {
    const size = numberFrom(one);
    if (!isWithin(size, sizeRule))
      throw motescaleError('out_of_range', `raw.sizes[${i}]`, one, 'a size in µm from 0.001 to 100000');
    const count = countFrom(given[i], name);
    if (isWithin(count, ruleOf(name))) there.push({ size, count });
    else {
      missing.push(size);
      noteLeftOut(given[i], name, i, told);
    }
  });
  there.sort((a, b) => a.size - b.size);
  there.forEach(({ size }, i) => {
    if (i > 0 && size === there[i - 1]?.size)
      throw motescaleError('sizes_out_of_order', 'raw.sizes', size, 'each size once');
  });
  const found: Found[] = [];
  if (missing.length > 0)
    found.push({ code: 'count_missing', value: missing.length, limit: 0, sizes: missing, sizing });
  if (there.length === 0) return { counts: null, findings: found.map(findingOf) };
  const list = there.map(({ count }) => count);
  const counts = {
    sizing,
    sizes: there.map(({ size }) => size),
    ...(name === 'counted'
      ? { perMl: list.map((count) => proportion(count, dilution ?? 1, volume as number)), counted: list }
      : { perMl: per === 'mL' ? list : list.map((count) => scaleDecimal(count, 1, 100)) }),
    ...(volume === undefined ? {} : { volumeMl: volume }),
    ...(dilution === undefined ? {} : { dilution }),
  };
  return { counts, findings: found.concat(risenIn(counts)).map(findingOf) };
}

/** A number, or the number that a text of digits writes; undefined for anything else. */
export function numberFrom(value: unknown): unknown {
  if (typeof value !== 'string') return value;
  const text = value.trim();
  return text.length <= 32 && /^[+-]?(\d+(\.\d*)?|\.\d+)([eE][+-]?\d{1,3})?$/.test(text) ? Number(text) : undefined;
}

/** The same for a count: none of particles counted whose thousands may be set apart. */
export function countFrom(value: unknown, name: 'counted' | 'perMl'): unknown {
  return name === 'counted' && mayBeThousands(value) ? undefined : numberFrom(value);
}

/** `4.000` is 4000 where thousands are set apart by points, and 4 elsewhere. */
function mayBeThousands(value: unknown): boolean {
  return typeof value === 'string' && isGrouped(value.trim().replace(/^\+/, ''));
}

/**
 * The first of counts that came as text where all points in them may stand between thousands. One count that is
 * written otherwise (`'1890.5'`, `'0.402'`) says how its neighbours are written.
 */
export function doubtfulPoints(list: unknown): string | undefined {
  let first: string | undefined;
  if (!Array.isArray(list)) return first;
  for (const one of list) {
    if (typeof one !== 'string' || one.indexOf('.') < 0) continue;
    if (mayBeThousands(one)) first = first ?? one;
    else if (isWithin(numberFrom(one), perMlRule)) return undefined;
  }
  return first;
}

/** What one may be, of particles or of particles per mL. */
function ruleOf(name: 'counted' | 'perMl'): typeof perMlRule {
  return name === 'counted' ? countedRule : perMlRule;
}

/** What came, and what would have been read; nothing more of what was not there. */
function noteLeftOut(value: unknown, name: 'counted' | 'perMl', i: number, told: Problem[]): void {
  const read = typeof value === 'string' ? (countFrom(value, name) ?? value) : value;
  const { code, expected } = outOfRange(read, name, ruleOf(name));
  const isThere = value !== null && value !== undefined;
  if (isThere) noteLost(told, [name, i], code, value, expected);
  else noteProblem(told, [name, i], code, value, 'left out');
}

function findingOf(found: Found): Finding {
  const { code, ...about } = found;
  return { code, quality: defaultReadingLimits.qualities[code], affects: touchedBy(code), ...about };
}
