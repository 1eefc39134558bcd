/** Readings from outside: a file, a queue, a form. */
import type { AcceptanceReading } from '../acceptance/index.ts';
import { acceptanceReadingRule } from '../acceptance/readingRule.ts';
import { isObject, requireBoolean, requireObject } from '../checks.ts';
import type { ClassTable } from '../codes/types.ts';
import { type Problem, requireTold } from '../errors.ts';
import { tablesOf } from '../judging/codePlans.ts';
import { readingProblems } from '../reading/gate.ts';
import type { Reading, TimedReading } from '../reading/index.ts';
import { readingRule, timedReadingRule } from '../reading/rules.ts';
import { idsWith, noteOtherIds } from '../reading/tableIds.ts';
import type { ObjectRule } from '../rules/rule.ts';
import { type Examined, standardSchema, valueOrThrow, withoutUndefined } from './examine.ts';
import { withLostMarked } from './lost.ts';
import { mapped, type Raw } from './members.ts';
import type { StandardSchemaV1 } from './standardSchema.ts';
import { hintTimes, noteTimes, readTolerantly, withoutUnreadable } from './tolerant.ts';

/** How `parseReading`, `parseMonitorReading` and `parseAcceptanceReading` read. */
export interface ReadingOptions {
  /**
   * Whether a figure that cannot be read is left out and told, and the rest kept: counts that are broken do not silence
   * the thermometer. So that it does not pass for one that was not measured, `qualities` of the reading calls it `bad`,
   * counts or a code beside a code that was read `uncertain`, and so a code with a word for one of its numbers,
   * `ERR/18/15`, which becomes `-/18/15`: that a size is missing is told by `signal_stale` or `target_stale` after
   * `staleAfterMs`, and not by `quality_bad`. What is wrong with the time, the mode or the qualities, and a member that
   * no reading has, are refused all the same. Counts of µm(c) of which one or more came as `'>30000'`, without a code,
   * get the code that ISO 4406 has for too many to count, `*`, in their place or beside the others. A flow below zero
   * becomes 0, since it brings no oil to the sensor, and so does a water saturation from -0.02 on. False where left
   * out: one mistake refuses the reading.
   */
  readonly keepReadable?: boolean | undefined;
  /**
   * Tables of your own. A code under an id that is neither one of these nor of a standard is told, and with
   * `keepReadable` left out: what takes the reading would refuse it whole.
   */
  readonly tables?: readonly ClassTable[] | undefined;
}

/**
 * The schema of a `Reading`, for libraries that take Standard Schema. The same rules as `parseReading`.
 *
 * @example
 * ```ts
 * import { readingSchema } from 'motescale/schema';
 * const counts = { sizing: 'iso11171', sizes: [4], perMl: [1890] };
 * const result = readingSchema['~standard'].validate({ counts, celcius: 41 });
 * result.issues?.map(({ path }) => path); // => [['celcius']]
 * ```
 */
export const readingSchema: StandardSchemaV1<Reading> = /* @__PURE__ */ standardSchema('reading', (value) =>
  examined<Reading>(value, readingRule),
);

/**
 * Checks that a value is a reading, and returns it as plain data of its own. Whatever it accepts, `assessReading`
 * accepts.
 *
 * A reading may not hold members of another name: `celcius` would pass for a temperature not measured. Raw JSON is read
 * tolerantly: digits as text, null for what was not measured, a time as ISO 8601 with its zone, counts with holes or
 * without counts per mL (`parseCounts`), a code with the name of its standard before it, a class as a number. Of `>20`,
 * a number beyond the counter's own range, a code gets `*`; `>9B` stays. A code that its table cannot read is kept and
 * told. Seconds instead of milliseconds, and a clock that began at 1970, are refused by name. A code under an id that
 * no standard here has is kept, for a table of one's own, and told. Counts that rise with size pass: `assessReading`
 * finds them. It does not judge whether the reading can be trusted, let alone whether a machine may run.
 *
 * @param told gets an entry for each thing that was read tolerantly: where, what came, and what was made of it
 * @param options `keepReadable`: figures that cannot be read are left out, told and marked, and the others kept;
 * `tables`: those of your own whose ids codes may have
 * @throws one error with every problem in `problems` (see `problemsOf`); its code is that of the first.
 *
 * @example
 * ```ts
 * import { parseReading } from 'motescale/schema';
 * import type { Problem } from 'motescale/schema';
 * const text = '{"counts":{"sizing":"iso11171","sizes":[4,6,14],"perMl":[1890,402,33]},"celsius":41}';
 * parseReading(JSON.parse(text)).celsius; // => 41
 * const told: Problem[] = [];
 * parseReading({ time: '2026-11-25T08:00:00Z', celsius: '41.5', kPa: null }, told);
 * // => { time: 1795593600000, celsius: 41.5 }
 * told.map(({ path, expected }) => `${path.join('.')} ${expected}`);
 * // => ['time read as 1795593600000', 'celsius read as 41.5', 'kPa left out']
 * const broken = { celsius: 41, mm2PerS: 'cold', counts: { sizes: [4, 6], perMl: [1890] } };
 * parseReading(broken, told, { keepReadable: true });
 * // => { celsius: 41, qualities: { counts: 'bad', mm2PerS: 'bad' } }
 * ```
 */
export function parseReading(value: unknown, told: Problem[] = [], options: ReadingOptions = {}): Reading {
  return parsed<Reading>(value, readingRule, told, options);
}

/** The schema of a `TimedReading`, for libraries that take Standard Schema. The same rules as `parseMonitorReading`. */
export const monitorReadingSchema: StandardSchemaV1<TimedReading> = /* @__PURE__ */ standardSchema('reading', (value) =>
  examined<TimedReading>(value, timedReadingRule),
);

/**
 * Checks that a value is a reading for a monitor: with its time, and with figures from elsewhere under `others`. Else
 * as `parseReading`. Whatever it accepts, `advanceMonitor` accepts, but for a code under an id that neither a standard
 * nor a table of the monitor has.
 *
 * @throws one error with every problem in `problems` (see `problemsOf`); its code is that of the first.
 *
 * @example
 * ```ts
 * import { parseMonitorReading } from 'motescale/schema';
 * const counts = { sizing: 'iso11171', sizes: [4, 6, 14], perMl: [1890, 402, 33] };
 * parseMonitorReading({ time: 1772323200000, counts, others: { litres: 380 } }).others?.litres; // => 380
 * ```
 */
export function parseMonitorReading(value: unknown, told: Problem[] = [], options: ReadingOptions = {}): TimedReading {
  return parsed<TimedReading>(value, timedReadingRule, told, options);
}

/**
 * The schema of an `AcceptanceReading`, for libraries that take Standard Schema. The same rules as
 * `parseAcceptanceReading`.
 */
export const acceptanceReadingSchema: StandardSchemaV1<AcceptanceReading> = /* @__PURE__ */ standardSchema(
  'reading',
  (value) => examined<AcceptanceReading>(value, acceptanceReadingRule),
);

/**
 * Checks that a value is a reading for the proof of a flush or a fill: one for a monitor, with the volume counter
 * `litres` or without. Whatever it accepts, `advanceAcceptance` accepts, where `leastLitres` is not set or `litres` is
 * there, but for a code under an id that neither a standard nor a table of the proof has.
 *
 * @throws one error with every problem in `problems` (see `problemsOf`); its code is that of the first.
 *
 * @example
 * ```ts
 * import { parseAcceptanceReading } from 'motescale/schema';
 * const counts = { sizing: 'iso11171', sizes: [4, 6, 14], perMl: [1890, 402, 33] };
 * parseAcceptanceReading({ time: 1772323200000, counts, litres: 8400 }).litres; // => 8400
 * ```
 */
export function parseAcceptanceReading(
  value: unknown,
  told: Problem[] = [],
  options: ReadingOptions = {},
): AcceptanceReading {
  return parsed<AcceptanceReading>(value, acceptanceReadingRule, told, options);
}

function parsed<T>(value: unknown, rule: ObjectRule, told: Problem[], options: ReadingOptions): T {
  requireTold(told);
  requireObject(options, 'options', 'options { keepReadable, tables }', ['keepReadable', 'tables']);
  const keeps = requireBoolean(options.keepReadable ?? false, 'options.keepReadable');
  const { tables = [] } = options;
  tablesOf(tables);
  const before = told.length;
  const read = valueOrThrow(examined<T>(value, rule, told, keeps, tables), 'reading', value);
  const isCodeLost = told.slice(before).some(({ path, lost }) => lost === true && path[0] === 'codes');
  const known = withKnownCodes(read as T & Reading, idsWith(tables), told, keeps);
  return keeps ? withLostMarked(value as Raw, known, isCodeLost, told) : known;
}

/** Held against the rule that the gate of readings asks for; a copy of its own where it passes. */
function examined<T>(
  value: unknown,
  rule: ObjectRule,
  told: Problem[] = [],
  keeps = false,
  tables: readonly ClassTable[] = [],
): Examined<T> {
  if (!isObject(value)) return { problems: readingProblems(value, rule) };
  const mistakes: Problem[] = [];
  const read = readTolerantly(value, rule.members, told, mistakes, keeps, tables);
  const problems: Problem[] = [];
  noteTimes(read, problems);
  problems.push(...mistakes, ...readingProblems(read, rule));
  hintTimes(read, problems);
  const left = keeps ? withoutUnreadable(read, rule.members, problems, told) : null;
  if (left !== null) return examined(left, rule, told, false, tables);
  return problems.length === 0 ? { value: withoutUndefined(read as T), problems: null } : { problems };
}

/** Codes under other ids are told, and left out where only what is readable is kept. */
function withKnownCodes<T extends Reading>(reading: T, ids: readonly string[], told: Problem[], keeps: boolean): T {
  const { codes, ...rest } = reading;
  if (codes === undefined) return reading;
  const others: Problem[] = [];
  noteOtherIds(codes, ids, others, keeps ? 'left out: ' : 'kept: the id of a table of your own, else ');
  for (const one of others) told.push(keeps ? { ...one, lost: true } : one);
  if (!keeps || others.length === 0) return reading;
  const known = mapped(codes, (code, id) => (ids.indexOf(id) < 0 ? undefined : code));
  return (Object.keys(known).length === 0 ? rest : { ...rest, codes: known }) as T;
}
