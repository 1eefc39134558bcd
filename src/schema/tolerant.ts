/**
 * Raw JSON read tolerantly: digits as text, nulls, times as ISO 8601, counts with holes. Each thing read so is told.
 */
import { isObject } from '../checks.ts';
import { isMotescaleError, noteProblem, type Problem } from '../errors.ts';
import { proportion } from '../numeric/decimal.ts';
import { numberFrom, parseCounts, type RawCounts } from '../reading/parseCounts.ts';
import { leastMs, looksLikeSeconds, noteSeconds } from '../reading/seconds.ts';
import type { Members, Rule } from '../rules/rule.ts';
import { isoTime } from './isoTime.ts';

const notSet = 'a time after 1973: this looks like a clock that was not set and began at 1970';
const timeNames = ['time', 'receivedAt', 'calibratedAt'];

/**
 * The value with what can be read put right; anything else is left for the rule to refuse. `told` gets what was read
 * how. With `holes`, a count that is no number is left out like one that did not come.
 */
export function readTolerantly(value: unknown, members: Members, told: Problem[], holes: boolean): unknown {
  if (!isObject(value)) return value;
  const read: { [name: string]: unknown } = {};
  for (const name of Object.keys(value)) {
    const given = value[name];
    const rule = Object.hasOwn(members, name) ? (members[name] as Rule) : undefined;
    if (name === '__proto__' || rule === undefined) {
      Object.defineProperty(read, name, { value: given, enumerable: true });
      continue;
    }
    if (rule.kind === 'record' && isObject(given)) {
      const left = withoutNulls(name, given, told);
      if (left !== undefined) read[name] = left;
      continue;
    }
    const taken = name === 'counts' ? countsFrom(given, told, holes) : memberFrom(name, given, rule);
    if (taken !== given && name !== 'counts')
      noteProblem(told, [name], 'wrong_type', given, taken === undefined ? 'left out' : `read as ${taken}`);
    if (taken !== undefined) read[name] = taken;
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
  reading: unknown,
  members: Members,
  problems: readonly Problem[],
  told: Problem[],
): unknown {
  if (!isObject(reading) || problems.length === 0) return null;
  const kept: { [name: string]: unknown } = { ...reading };
  for (const { path, code } of problems) {
    const [name, one] = path as readonly [string, ...(string | number)[]];
    const rule = Object.hasOwn(members, name) ? (members[name] as Rule) : undefined;
    if (code === 'unknown_option' || rule === undefined || needed.indexOf(name) >= 0) return null;
    const list = kept[name];
    if (rule.kind === 'record' && one !== undefined && isObject(list)) {
      const { [one]: _left, ...rest } = list;
      if (Object.keys(rest).length > 0) kept[name] = rest;
      else delete kept[name];
    } else delete kept[name];
  }
  for (const { path, code, received, expected } of problems)
    told.push({ path, code, received, expected: `left out: ${expected}` });
  return kept;
}

/** Times in seconds, and those of a clock that was not set, by name: they would pass for times in 1970. */
export function noteTimes(reading: unknown, problems: Problem[]): void {
  for (const name of timeNames) {
    const time = isObject(reading) && Object.hasOwn(reading, name) ? reading[name] : undefined;
    if (typeof time !== 'number' || !(Math.abs(time) < leastMs)) continue;
    if (looksLikeSeconds(time)) noteSeconds(problems, name, time);
    else noteProblem(problems, [name], 'out_of_range', time, notSet);
  }
}

function memberFrom(name: string, given: unknown, rule: Rule): unknown {
  if (given === null) return undefined;
  if (rule.kind !== 'number' || typeof given !== 'string') return given;
  const time = timeNames.indexOf(name) >= 0 ? isoTime(given) : null;
  return time ?? numberFrom(given) ?? given;
}

/** A code or a figure by name that was not measured is left out; undefined where nothing else is there. */
function withoutNulls(name: string, given: { readonly [name: string]: unknown }, told: Problem[]): unknown {
  const names = Object.keys(given);
  const left = names.filter((one) => given[one] !== null);
  if (left.length === names.length) return given;
  for (const one of names) if (given[one] === null) noteProblem(told, [name, one], 'wrong_type', null, 'left out');
  if (left.length === 0) return undefined;
  const kept: { [name: string]: unknown } = {};
  for (const one of left) Object.defineProperty(kept, one, { value: given[one], enumerable: true });
  return kept;
}

/** Counts that are whole pass as they are; else what `parseCounts` makes of them. */
function countsFrom(given: unknown, told: Problem[], holes: boolean): unknown {
  if (given === null) return undefined;
  if (typeof given !== 'object' || Array.isArray(given)) return given;
  const { sizes, perMl, counted, volumeMl } = given as Partial<Record<keyof RawCounts, unknown>>;
  const whole = (list: unknown) =>
    list === undefined || (Array.isArray(list) && list.every((one) => typeof one === 'number'));
  if (!Array.isArray(sizes) || (whole(sizes) && whole(perMl) && whole(counted) && perMl !== undefined)) return given;
  try {
    const raw = { ...given } as { [name: string]: unknown };
    for (const name of Object.keys(raw)) if (raw[name] === null) delete raw[name];
    for (const name of ['volumeMl', 'dilution']) if (name in raw) raw[name] = numberFrom(raw[name]) ?? raw[name];
    if (counted !== undefined && volumeMl === undefined && perMl !== undefined) delete raw.counted;
    const { counts, findings } = parseCounts(raw as unknown as RawCounts);
    const lost = findings.filter(({ code }) => code === 'count_missing');
    // a count that is there but is no number is a mistake, not a hole
    if (lost.length > 0 && !holes && !onlyHoles(counted ?? perMl)) return asFarAsRead(raw);
    for (const { sizes: missing = [] } of lost)
      noteProblem(told, ['counts'], 'missing_size', missing, 'a count at each size: these are left out');
    if (lost.length === 0) noteProblem(told, ['counts'], 'wrong_type', given, 'numbers: digits as text are read');
    return counts ?? undefined;
  } catch (error) {
    if (!isMotescaleError(error)) throw error;
    return given;
  }
}

/** The counts with all numbers read, so that the rule refuses those alone that are none. */
function asFarAsRead(raw: { readonly [name: string]: unknown }): unknown {
  const read = (list: unknown) => (list as readonly unknown[]).map((one) => numberFrom(one) ?? one);
  const { counted, dilution = 1, volumeMl } = raw;
  const whole = { sizing: 'iso11171', ...raw, sizes: read(raw.sizes) };
  if (counted === undefined) return { ...whole, perMl: read(raw.perMl) };
  const numbers = read(counted);
  const perMl = numbers.map((count) =>
    typeof count === 'number' ? proportion(count, dilution as number, volumeMl as number) : 0,
  );
  return { ...whole, counted: numbers, perMl };
}

function onlyHoles(list: unknown): boolean {
  return (
    Array.isArray(list) && list.every((one) => one === null || one === undefined || typeof numberFrom(one) === 'number')
  );
}
