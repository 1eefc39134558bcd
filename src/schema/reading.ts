/**
 * Readings from outside: a file, a queue, a form.
 */

import type { AcceptanceReading } from '../acceptance/index.ts';
import { acceptanceReadingRule } from '../acceptance/readingRule.ts';
import { readingProblems } from '../reading/gate.ts';
import type { Reading, TimedReading } from '../reading/index.ts';
import { readingRule, timedReadingRule } from '../reading/rules.ts';
import type { ObjectRule } from '../rules/rule.ts';
import { withoutUndefined } from './examine.ts';
import { type Examined, pathText, valueOrThrow } from './inputError.ts';
import { standardResult } from './standardResult.ts';
import type { StandardSchemaV1 } from './standardSchema.ts';

/**
 * The schema of a `Reading`, for libraries that take Standard Schema. The same rules as `parseReading`.
 *
 * @example
 * ```ts
 * import { readingSchema } from 'motescale/schema';
 * const result = readingSchema['~standard'].validate({ counts: { sizing: 'iso11171', sizes: [4], perMl: [1890] }, celcius: 41 });
 * result.issues?.map(({ path }) => path); // => [['celcius']]
 * ```
 */
export const readingSchema: StandardSchemaV1<Reading> = {
  '~standard': {
    version: 1,
    vendor: 'motescale',
    validate: (value) => standardResult(examineReading(value)),
  },
};

/**
 * Checks that a value is a reading, and returns it as plain data of its own. Whatever it accepts, `assessReading` accepts.
 *
 * A reading may not hold members of another name: `celcius` would pass for a temperature not measured. What an instrument did not measure is
 * left out, and never `null`. Counts that rise with size pass: `assessReading` finds them. It does not judge whether the reading can be
 * trusted, let alone whether a machine may run.
 *
 * @throws one error with every problem in `problems` (see `isInvalidInput`); its code is that of the first.
 *
 * @example
 * ```ts
 * import { parseReading } from 'motescale/schema';
 * const text = '{"counts":{"sizing":"iso11171","sizes":[4,6,14],"perMl":[1890,402,33]},"celsius":41}';
 * parseReading(JSON.parse(text)).celsius; // => 41
 * ```
 */
export function parseReading(value: unknown): Reading {
  return valueOrThrow(examineReading(value), 'reading', value);
}

/** The schema of a `TimedReading`, for libraries that take Standard Schema. The same rules as `parseMonitorReading`. */
export const monitorReadingSchema: StandardSchemaV1<TimedReading> = {
  '~standard': {
    version: 1,
    vendor: 'motescale',
    validate: (value) => standardResult(examineMonitorReading(value)),
  },
};

/**
 * Checks that a value is a reading for a monitor: with its time, and with figures from elsewhere under `others`. Else as `parseReading`.
 * Whatever it accepts, `advanceMonitor` accepts.
 *
 * @throws one error with every problem in `problems` (see `isInvalidInput`); its code is that of the first.
 *
 * @example
 * ```ts
 * import { parseMonitorReading } from 'motescale/schema';
 * const counts = { sizing: 'iso11171', sizes: [4, 6, 14], perMl: [1890, 402, 33] };
 * parseMonitorReading({ time: 1772323200000, counts, others: { litres: 380 } }).others?.litres; // => 380
 * ```
 */
export function parseMonitorReading(value: unknown): TimedReading {
  return valueOrThrow(examineMonitorReading(value), 'reading', value);
}

/** The schema of an `AcceptanceReading`, for libraries that take Standard Schema. The same rules as `parseAcceptanceReading`. */
export const acceptanceReadingSchema: StandardSchemaV1<AcceptanceReading> = {
  '~standard': {
    version: 1,
    vendor: 'motescale',
    validate: (value) => standardResult(examineAcceptanceReading(value)),
  },
};

/**
 * Checks that a value is a reading for the proof of a flush or a fill: one for a monitor, with the volume counter `litres` or without. Whatever
 * it accepts, `advanceAcceptance` accepts, where `leastLitres` is not set or `litres` is there.
 *
 * @throws one error with every problem in `problems` (see `isInvalidInput`); its code is that of the first.
 *
 * @example
 * ```ts
 * import { parseAcceptanceReading } from 'motescale/schema';
 * const counts = { sizing: 'iso11171', sizes: [4, 6, 14], perMl: [1890, 402, 33] };
 * parseAcceptanceReading({ time: 1772323200000, counts, litres: 8400 }).litres; // => 8400
 * ```
 */
export function parseAcceptanceReading(value: unknown): AcceptanceReading {
  return valueOrThrow(examineAcceptanceReading(value), 'reading', value);
}

function examineReading(value: unknown): Examined<Reading> {
  return examined<Reading>(value, readingRule);
}

function examineMonitorReading(value: unknown): Examined<TimedReading> {
  return examined<TimedReading>(value, timedReadingRule);
}

function examineAcceptanceReading(value: unknown): Examined<AcceptanceReading> {
  return examined<AcceptanceReading>(value, acceptanceReadingRule);
}

/** Held against the rule that the gate of readings asks for; a copy of its own where it passes. */
function examined<T>(value: unknown, rule: ObjectRule): Examined<T> {
  const problems = readingProblems(value, rule);
  if (problems.length === 0) return { value: withoutUndefined(value as T), problems: null };
  return { problems: problems.map((problem) => ({ ...problem, parameter: pathText('reading', problem.path) })) };
}
