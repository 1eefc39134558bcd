/**
 * The shape of a reading: what each member may be. What the members ask of each other is in reading.ts.
 */
import * as z from 'zod/mini';
import type { AcceptanceReading } from '../acceptance/index.ts';
import type { CumulativeCounts } from '../counts/index.ts';
import type { Reading, TimedReading } from '../reading/index.ts';
import { list, number, object, oneOf, type ShapeOf, shapeOf } from './shapes.ts';

const sizings = ['iso11171', 'iso11171b', 'iso4402', 'microscope'] as const;
const celsius = 'a temperature from -273.15 to 1000 °C';

/** 100,000,000 days before and after 1970: the times a clock of ECMAScript knows (ECMA-262, Time Values and Time Range). */
const farthest = 8640000000000000;
/** Beyond it a monitor takes no figure. */
const largest = 1000000000000;

/** Counts as `cumulativeCounts` makes them. */
function countsShape(perMl: z.ZodMiniNumber<number>): ShapeOf<CumulativeCounts> {
  return shapeOf<CumulativeCounts>()(
    object('counts { sizing, sizes, perMl }', {
      sizing: oneOf(sizings),
      sizes: list('an array of at least one size, ascending', number('a size in µm above 0', { above: 0 })),
      perMl: list('an array of counts, one for each size', perMl),
      counted: z.optional(
        list(
          'an array of particles counted, one for each size',
          number('a whole number of particles from 0 to 9007199254740991', { from: 0, whole: true }),
        ),
      ),
      volumeMl: z.optional(number('a volume counted in mL, above 0', { above: 0 })),
      dilution: z.optional(number('a dilution of 1 or more', { from: 1 })),
    }),
  );
}

/** What an instrument measures beside the counts; for a monitor each figure has an end. */
function measured(to?: number) {
  const end = to === undefined ? '' : ', up to 1e12';
  const most = to === undefined ? {} : { to };
  const least = to === undefined ? {} : { from: -to };
  return {
    mlPerMin: z.optional(number(`a flow through the sensor in mL/min, 0 or more${end}`, { from: 0, ...most })),
    measuringSeconds: z.optional(number('a measuring time in s, above 0', { above: 0 })),
    kPa: z.optional(number(`a gauge pressure in the sensor in kPa${end}`, { ...least, ...most })),
    celsius: z.optional(number(celsius, { from: -273.15, to: 1000 })),
    mm2PerS: z.optional(number(`a kinematic viscosity in mm²/s, above 0${end}`, { above: 0, ...most })),
    waterSaturation: z.optional(
      number('a relative saturation with water, a share from 0 to 2: 0.45 for 45 %', { from: 0, to: 2 }),
    ),
    coldestCelsius: z.optional(number(celsius, { from: -273.15, to: 1000 })),
    flushedMl: z.optional(number('oil passed through the sampling line in mL, 0 or more', { from: 0 })),
  };
}

/** The shape of a reading. */
export function readingShape(): ShapeOf<Reading> {
  return shapeOf<Reading>()(
    object('a reading { counts, ... }', {
      counts: countsShape(number('particles per mL, 0 or more', { from: 0 })),
      time: z.optional(number('the end of the measurement in ms since 1970-01-01T00:00:00Z')),
      ...measured(),
    }),
  );
}

/** What a reading for a monitor is made of. */
function monitored() {
  const time = 'the end of the measurement in whole ms since 1970-01-01T00:00:00Z';
  const other = number('a number from -1e12 to 1e12', { from: -largest, to: largest });
  return {
    time: number(time, { from: -farthest, to: farthest, whole: true }),
    counts: countsShape(number('particles per mL, from 0 to 1e12', { from: 0, to: largest })),
    ...measured(largest),
    others: z.optional(z.record(z.string(), other, 'figures by name, such as { litres: 380 }')),
  };
}

/** The shape of a reading for a monitor. */
export function monitorReadingShape(): ShapeOf<TimedReading> {
  return shapeOf<TimedReading>()(object('a reading { time, counts, ... }', monitored()));
}

/** The shape of a reading for the proof of a flush or a fill. */
export function acceptanceReadingShape(): ShapeOf<AcceptanceReading> {
  return shapeOf<AcceptanceReading>()(
    object('a reading { time, counts, litres, ... }', {
      ...monitored(),
      litres: z.optional(number('the volume counter of the oil in L, 0 or more', { from: 0 })),
    }),
  );
}
