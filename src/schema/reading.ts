/**
 * Readings from outside: a file, a queue, a form.
 */

import type { AcceptanceReading } from '../acceptance/index.ts';
import { checkCounts } from '../counts/checkCounts.ts';
import type { CumulativeCounts } from '../counts/index.ts';
import { isMotescaleError } from '../errors.ts';
import type { Reading, TimedReading } from '../reading/index.ts';
import { examine } from './examine.ts';
import { type Examined, type InputProblem, pathOf, problemAt, valueOrThrow } from './inputError.ts';
import { anotherName, hasMember, inherited, member } from './loose.ts';
import { acceptanceReadingShape, monitorReadingShape, readingShape } from './readingShape.ts';
import type { ShapeOf } from './shapes.ts';
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

let shape: ShapeOf<Reading> | undefined;
let monitorShape: ShapeOf<TimedReading> | undefined;
let acceptanceShape: ShapeOf<AcceptanceReading> | undefined;

/** The shapes are made when first asked for, and kept. */
function examineReading(value: unknown): Examined<Reading> {
  shape ??= readingShape();
  return examine('reading', shape, value, (reading) => countsProblems('reading', member(reading, 'counts')));
}

function examineMonitorReading(value: unknown): Examined<TimedReading> {
  monitorShape ??= monitorReadingShape();
  return examine('reading', monitorShape, value, monitorReadingProblems);
}

function examineAcceptanceReading(value: unknown): Examined<AcceptanceReading> {
  acceptanceShape ??= acceptanceReadingShape();
  return examine('reading', acceptanceShape, value, monitorReadingProblems);
}

/** The rules of a reading for a monitor. */
function monitorReadingProblems(reading: unknown): InputProblem[] {
  const problems = countsProblems('reading', member(reading, 'counts'));
  if (hasMember(member(reading, 'others'), inherited))
    problems.push(problemAt('reading', ['others', inherited], 'unknown_option', inherited, anotherName));
  return problems;
}

/** What the members of counts ask of each other: sizes ascend, there is one count for each, and raw counts agree with them. */
function countsProblems(root: string, counts: unknown): InputProblem[] {
  const problems: InputProblem[] = [];
  const sizes = member(counts, 'sizes');
  if (!Array.isArray(sizes) || sizes.length === 0) return problems;
  for (let i = 1; i < sizes.length; i += 1) {
    if (!(sizes[i] <= sizes[i - 1])) continue;
    const expected = `a size above ${sizes[i - 1]} µm`;
    problems.push(problemAt(root, ['counts', 'sizes', i], 'sizes_out_of_order', sizes[i], expected));
  }
  const expected = `an array of ${sizes.length}, one for each size`;
  for (const name of ['perMl', 'counted']) {
    const given = member(counts, name);
    if (!Array.isArray(given) || given.length === sizes.length) continue;
    problems.push(problemAt(root, ['counts', name], 'length_mismatch', given, expected));
  }
  const last = refusal(root, counts);
  if (last !== null && !problems.some(({ parameter }) => parameter === last.parameter)) problems.push(last);
  return problems;
}

/** What the library itself would refuse the counts for; rising counts it takes. */
function refusal(root: string, counts: unknown): InputProblem | null {
  try {
    checkCounts(counts as CumulativeCounts, `${root}.counts`, { mayRise: true });
    return null;
  } catch (error) {
    if (!isMotescaleError(error)) throw error;
    const { code, parameter, received, expected } = error;
    return { code, parameter, path: pathOf(root, parameter), received, expected };
  }
}
