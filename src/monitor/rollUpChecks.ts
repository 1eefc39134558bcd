/**
 * What the readings of a roll-up must be, for its sums to be exact.
 */
import { requireFinite, requireObject, requireOneOf } from '../checks.ts';
import { motescaleError } from '../errors.ts';
import type { RollUpReading } from './rollUpTypes.ts';

const farthest = 4e15;

/** Whole ms, within 4e15 of 0 (some 126,000 years), so that no difference is rounded. */
export function requireMs(value: unknown, parameter: string, least: number = -farthest): number {
  const expected = `whole ms from ${least} to ${farthest}`;
  const ms = requireFinite(value, parameter, expected);
  if (ms !== Math.floor(ms)) throw motescaleError('not_an_integer', parameter, value, expected);
  if (ms < least || ms > farthest) throw motescaleError('out_of_range', parameter, value, expected);
  return ms + 0;
}

/** A figure: 0, or of a magnitude from 1e-60 to 1e60. */
function requireValue(value: unknown, parameter: string): number {
  const figure = requireFinite(value, parameter, 'a finite number, or null');
  const size = Math.abs(figure);
  if (size !== 0 && (size < 1e-60 || size > 1e60)) {
    throw motescaleError('out_of_range', parameter, value, '0, or a magnitude from 1e-60 to 1e60');
  }
  return figure + 0;
}

/** A reading, as a copy with its quality filled in, no earlier than the one before. */
export function requireReading(given: unknown, parameter: string, before: RollUpReading | undefined): RollUpReading {
  const reading = requireObject(given, parameter) as RollUpReading;
  const time = requireMs(reading.time, `${parameter}.time`);
  if (before !== undefined && time < before.time) {
    throw motescaleError(
      'out_of_range',
      `${parameter}.time`,
      time,
      `${before.time} or later: readings in order of time`,
    );
  }
  const quality = requireOneOf(reading.quality ?? 'good', `${parameter}.quality`, ['good', 'uncertain', 'bad']);
  const value = reading.value === null ? null : requireValue(reading.value, `${parameter}.value`);
  const { scaleNumbers } = reading;
  if (scaleNumbers === undefined) return { time, value, quality };
  if (!Array.isArray(scaleNumbers)) {
    throw motescaleError('wrong_type', `${parameter}.scaleNumbers`, scaleNumbers, 'an array of scale numbers');
  }
  for (let i = 0; i < scaleNumbers.length; i += 1) {
    const number = requireFinite(scaleNumbers[i], `${parameter}.scaleNumbers[${i}]`);
    if (number !== Math.floor(number) || number < 0 || number > 29) {
      throw motescaleError('out_of_range', `${parameter}.scaleNumbers[${i}]`, number, 'a whole number from 0 to 29');
    }
  }
  return { time, value, quality, scaleNumbers: scaleNumbers.slice() };
}
