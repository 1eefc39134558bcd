/**
 * The figure of a reading that an alarm watches or a trend follows.
 */

import { requireFinite, requireObject, requireOneOf, requirePositive } from '../checks.ts';
import { continuousScaleNumber, scaleNumber } from '../codes/index.ts';
import { motescaleError } from '../errors.ts';
import type { TimedReading } from '../reading/reading.ts';
import { requireName } from '../state/names.ts';
import type { MonitorFigure } from './types.ts';

const quantities = ['mlPerMin', 'kPa', 'celsius', 'mm2PerS', 'waterSaturation'] as const;
const kinds: readonly string[] = ['quantity', 'other', 'perMlAt', 'scaleNumberAt', 'continuousScaleNumberAt'];

/** Throws unless the figure is one of the known kinds. */
export function requireFigure(figure: unknown, parameter: string): void {
  const expected = `a figure with one of the members ${kinds.join(', ')}`;
  const members = Object.keys(requireObject(figure, parameter, expected));
  const kind = members[0];
  if (members.length !== 1 || kind === undefined || kinds.indexOf(kind) < 0)
    throw motescaleError('unknown_option', parameter, members.join(', '), expected);
  const value = (figure as { readonly [kind: string]: unknown })[kind];
  if (kind === 'quantity') requireOneOf(value, `${parameter}.quantity`, quantities);
  else if (kind === 'other') requireName(value, `${parameter}.other`);
  else requirePositive(value, `${parameter}.${kind}`, 'a size in µm above 0');
}

/** The figure, or null where the reading does not have it. */
export function figureOf(figure: MonitorFigure, reading: TimedReading): number | null {
  if ('quantity' in figure) return reading[figure.quantity] ?? null;
  if ('other' in figure) return ownMember(reading.others, figure.other);
  if ('perMlAt' in figure) return perMlAt(reading, figure.perMlAt);
  const size = 'scaleNumberAt' in figure ? figure.scaleNumberAt : figure.continuousScaleNumberAt;
  const perMl = perMlAt(reading, size);
  if (perMl === null) return null;
  return 'scaleNumberAt' in figure ? scaleNumber(perMl) : continuousScaleNumber(perMl);
}

function perMlAt(reading: TimedReading, size: number): number | null {
  const place = reading.counts.sizes.indexOf(size);
  return place < 0 ? null : (reading.counts.perMl[place] as number);
}

function ownMember(others: TimedReading['others'], name: string): number | null {
  if (others === undefined || Object.keys(others).indexOf(name) < 0) return null;
  return requireFinite(others[name], `reading.others.${name}`);
}
