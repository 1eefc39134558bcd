/**
 * Raw JSON read tolerantly: digits as text, nulls, times as ISO 8601, counts with holes. Each thing read so is told.
 */
import { hasOwn, isObject, isWithin, type Measure } from '../checks.ts';
import type { ClassTable } from '../codes/types.ts';
import { mostSizes } from '../counts/cumulativeCounts.ts';
import { countedRule, dilutionRule, perMlRule, volumeRule } from '../counts/ranges.ts';
import { isMotescaleError, mostTold, noteProblem, type Problem } from '../errors.ts';
import { proportion } from '../numeric/decimal.ts';
import {
  besideCounted,
  countFrom,
  doubtfulPoints,
  noThousands,
  numberFrom,
  parseCounts,
  type RawCounts,
  sizingLeftOut,
} from '../reading/parseCounts.ts';
import { leastMs, looksLikeSeconds, noteNotSet, noteSeconds } from '../reading/seconds.ts';
import { largestRead } from '../rules/bounds.ts';
import { isName } from '../rules/check.ts';
import { holds } from '../rules/holds.ts';
import type { Members, Rule } from '../rules/rule.ts';
import { codesAsSent } from './codesAsSent.ts';
import { isoTime } from './isoTime.ts';
import { mapped, type Raw } from './members.ts';
import { codeOfTooMany } from './tooMany.ts';

const timeNames = ['time', 'receivedAt', 'calibratedAt'];

/**
 * The value with what can be read put right; anything else is left for the rule to refuse. `told` gets what was read
 * how, `problems` what the rule cannot see. With `holes`, a count or a code that is none is left out like one that did
 * not come; of counts that are all too many to count a code is made, unless one came; a flow below zero is 0, and so is
 * a water saturation that is so by no more than its zero error. Codes are read by `tables` and
 * those of the standards.
 */
export function readTolerantly(
  value: Raw,
  members: Members,
  told: Problem[],
  problems: Problem[],
  holes: boolean,
  tables: readonly ClassTable[],
): Raw {
  const read: { [name: string]: unknown } = {};
  for (const name of Object.keys(value)) {
    const given = value[name];
    const rule = hasOwn(members, name) ? (members[name] as Rule) : undefined;
    if (name === '__proto__' || rule === undefined) {
      Object.defineProperty(read, name, { value: given, enumerable: true });
      continue;
    }
    if (rule.kind === 'record' && isObject(given)) {
      const left = recordFrom(name, given, rule.of, told);
      const kept = name === 'codes' && left !== undefined ? codesAsSent(left, tables, holes, told) : left;
      if (kept !== undefined) read[name] = kept;
      continue;
    }
    const taken = name === 'counts' ? countsFrom(given, told, problems, holes) : memberFrom(name, given, rule);
    const none = holes ? noneAt(name, taken) : undefined;
    if (none !== undefined) {
      noteProblem(told, [name], 'out_of_range', given, `read as 0: ${none}`);
      read[name] = 0;
      continue;
    }
    if (taken !== given && (name !== 'counts' || given === null))
      noteProblem(told, [name], 'wrong_type', given, taken === undefined ? 'left out' : `read as ${taken}`);
    if (taken !== undefined) read[name] = taken;
  }
  const bare = holes && read.codes === undefined;
  const code = bare ? codeOfTooMany(value.counts, read.counts !== undefined) : null;
  if (code !== null) {
    read.codes = { iso4406: code };
    noteProblem(told, ['codes', 'iso4406'], 'wrong_type', undefined, `read as ${code}: counts too many to count`);
  }
  return read;
}

/** Not left out, though they cannot be read: without them what is kept would be taken for more than it is. */
const needed = ['time', 'receivedAt', 'qualities', 'mode'];

/**
 * The reading without the figures that have a mistake, which are told; null where something else has one, or where none
 * is left out. Of codes and of figures by name the one that has a mistake is left out.
 */
export function withoutUnreadable(
  reading: Raw,
  members: Members,
  problems: readonly Problem[],
  told: Problem[],
): Raw | null {
  if (problems.length === 0) return null;
  const kept: { [name: string]: unknown } = { ...reading };
  for (const { path } of problems) {
    const [name, one] = path as readonly [string, ...(string | number)[]];
    const rule = hasOwn(members, name) ? (members[name] as Rule) : undefined;
    if (rule === undefined || needed.indexOf(name) >= 0) return null;
    const list = kept[name];
    if (rule.kind === 'record' && one !== undefined && isObject(list)) {
      // a path shortens a name that is too long
      const rest = mapped(list, (each, key) => (key !== one && isName(key) ? each : undefined));
      if (Object.keys(rest).length > 0) kept[name] = rest;
      else delete kept[name];
    } else delete kept[name];
  }
  for (const { path, code, received, expected } of problems)
    told.push({ path, code, received, expected: `left out: ${expected}`, lost: true });
  return kept;
}

/** What a time that is a text may be, where nothing else is known of it. */
const isoAsked = '; or ISO 8601 text with its zone, as in 2026-11-25T08:00:00Z or +01:00';

/** Says of texts that are no time which texts are read, unless the problem says what was meant already. */
export function hintTimes(reading: Raw, problems: Problem[]): void {
  problems.forEach((problem, i) => {
    const { path, expected } = problem;
    const name = path[0] as string;
    if (path.length > 1 || timeNames.indexOf(name) < 0 || typeof reading[name] !== 'string') return;
    if (expected.indexOf(';') < 0) problems[i] = { ...problem, expected: expected + isoAsked };
  });
}

/** Times in seconds, and those of a clock that was not set, by name: they would pass for times in 1970. */
export function noteTimes(reading: Raw, problems: Problem[]): void {
  for (const name of timeNames) {
    const time = hasOwn(reading, name) ? reading[name] : undefined;
    if (typeof time !== 'number' || !(Math.abs(time) < leastMs)) continue;
    if (looksLikeSeconds(time)) noteSeconds(problems, name, time);
    else noteNotSet(problems, name, time);
  }
}

/** Figures that may come below zero where there is none, how far, and why: by a sensor's zero error (our choice). */
const noneBelowZero = [
  { name: 'mlPerMin', least: -largestRead, why: 'a flow below zero brings no oil to the sensor' },
  { name: 'waterSaturation', least: -0.02, why: 'so little below zero is dry oil' },
];

/** Why a figure below zero says that there is none; undefined of any other. */
function noneAt(name: string, taken: unknown): string | undefined {
  if (typeof taken !== 'number' || taken >= 0) return undefined;
  return noneBelowZero.filter((one) => one.name === name && taken >= one.least)[0]?.why;
}

function memberFrom(name: string, given: unknown, rule: Rule): unknown {
  if (given === null) return undefined;
  if (rule.kind !== 'number' || typeof given !== 'string') return given;
  const time = timeNames.indexOf(name) >= 0 ? isoTime(given) : null;
  return time ?? numberFrom(given) ?? given;
}

/**
 * A code or a figure by name that was not measured is left out; undefined where nothing else is there. Of `others`
 * digits as text are read.
 */
function recordFrom(name: string, given: Raw, of: Rule, told: Problem[]): Raw | undefined {
  const names = Object.keys(given);
  const kept: { [name: string]: unknown } = {};
  for (const one of names) {
    let value = given[one];
    if (value === null || isNullWithQuality(of, value)) {
      noteProblem(told, [name, one], 'wrong_type', null, 'left out');
      continue;
    }
    const text = isObject(value) ? value.value : value;
    const figure = name === 'others' && typeof text === 'string' ? numberFrom(text) : undefined;
    if (figure !== undefined) {
      noteProblem(told, [name, one], 'wrong_type', text, `read as ${figure}`);
      value = isObject(value) ? { ...value, value: figure } : figure;
    }
    Object.defineProperty(kept, one, { value, enumerable: true });
  }
  return names.length > 0 && Object.keys(kept).length === 0 ? undefined : kept;
}

/** `{ value: null, quality: 'bad' }`: so a sensor that is dead writes its figure. */
function isNullWithQuality(of: Rule, figure: unknown): boolean {
  return isObject(figure) && figure.value === null && holds(of, { ...figure, value: 0 });
}

/** Refused by its length, before its elements are looked at. */
const isLong = (list: unknown) => Array.isArray(list) && list.length > mostSizes;

/**
 * Counts that are whole pass as they are; else what `parseCounts` makes of them. Where the sizing is left out, it is
 * that of `parseCounts`, whole or not, and told.
 */
function countsFrom(given: unknown, told: Problem[], problems: Problem[], holes: boolean): unknown {
  if (given === null) return undefined;
  if (!isObject(given)) return given;
  const { sizing, sizes, perMl, counted, volumeMl } = given;
  if (!Array.isArray(sizes) || [sizes, perMl, counted].some(isLong)) return given;
  const isSized = sizing !== undefined && sizing !== null;
  const whole = (list: unknown, rule: Measure) => {
    const isCount = (one: unknown) => (holes ? isWithin(one, rule) : typeof one === 'number');
    return list === undefined || (Array.isArray(list) && list.every(isCount));
  };
  const isWhole = perMl !== undefined && whole(perMl, perMlRule) && whole(counted, countedRule);
  if (isWhole && sizes.every((one) => typeof one === 'number')) {
    if (isSized) return given;
    noteSizing(sizing, told);
    return { ...given, sizing: sizingLeftOut };
  }
  const raw: { [name: string]: unknown } = { ...given };
  for (const name of Object.keys(raw)) if (raw[name] === null) delete raw[name];
  for (const name of ['volumeMl', 'dilution']) if (name in raw) raw[name] = numberFrom(raw[name]) ?? raw[name];
  if (counted !== undefined && volumeMl === undefined && perMl !== undefined) delete raw.counted;
  try {
    const lost: Problem[] = [];
    const { counts } = parseCounts(raw as unknown as RawCounts, lost);
    // a count that is there but cannot be read is a mistake, not a hole
    if (!holes && lost.some(({ expected }) => expected !== 'left out')) return asFarAsRead(raw, sizes);
    for (const one of lost) told.push({ ...one, path: ['counts', ...one.path] });
    const how = lost.length === 0 ? howRead(given, raw) : null;
    if (how !== null) noteProblem(told, ['counts'], 'wrong_type', given, how);
    if (counts !== null && !isSized) noteSizing(sizing, told);
    return counts ?? undefined;
  } catch (error) {
    if (!isMotescaleError(error)) throw error;
    if (raw.counted !== undefined && raw.volumeMl === undefined)
      noteProblem(problems, ['counts', 'volumeMl'], 'missing_volume', volumeMl, besideCounted);
    const doubtful = raw.counted === undefined ? doubtfulPoints(perMl) : undefined;
    if (doubtful !== undefined) noteProblem(problems, ['counts', 'perMl'], 'wrong_type', doubtful, noThousands);
    return asFarAsRead(raw, sizes);
  }
}

/** Told once where one list is kept for many readings: it is among the first then. */
function noteSizing(sizing: unknown, told: Problem[]): void {
  const isSizing = ({ path }: Problem) => path[0] === 'counts' && path[1] === 'sizing';
  if (told.slice(0, mostTold).some(isSizing)) return;
  noteProblem(told, ['counts', 'sizing'], 'wrong_type', sizing, `read as ${sizingLeftOut}`);
}

/**
 * What was done with counts that were no plain numbers per mL; null of particles counted and their volume, which are
 * best given so.
 */
function howRead(given: Raw, raw: { readonly counted?: unknown }): string | null {
  const { sizes, perMl, counted, volumeMl, dilution } = given;
  const isText = (one: unknown) => typeof one === 'string';
  for (const list of [sizes, perMl, counted, [volumeMl, dilution]])
    if (Array.isArray(list) && list.some(isText)) return 'read as an array of numbers';
  return raw.counted === undefined ? 'read as counts: what is null is left out' : null;
}

/**
 * The counts with all numbers read, so that the rule refuses those alone that are none: where counts per mL cannot be
 * reckoned, and where no count came, stands a zero, which the mistake beside it keeps from being taken.
 */
function asFarAsRead(raw: Raw, sizes: readonly unknown[]): unknown {
  const read = (list: unknown, name: 'counted' | 'perMl') =>
    Array.isArray(list) ? list.map((one) => countFrom(one ?? 0, name) ?? one) : list;
  const { counted, dilution = 1, volumeMl } = raw;
  const whole = { sizing: sizingLeftOut, ...raw, sizes: sizes.map((one) => numberFrom(one) ?? one) };
  const numbers = read(counted, 'counted');
  if (counted === undefined) return { ...whole, perMl: read(raw.perMl, 'perMl') };
  const known = isWithin(volumeMl, volumeRule) && isWithin(dilution, dilutionRule);
  const perMl = sizes.map((_size, i) => {
    const count = Array.isArray(numbers) ? numbers[i] : undefined;
    return known && isWithin(count, countedRule) ? proportion(count, dilution, volumeMl) : 0;
  });
  return { ...whole, counted: numbers, perMl };
}
