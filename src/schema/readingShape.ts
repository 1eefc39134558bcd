/**
 * The shapes of readings, from which their JSON Schema files are made. The parse functions read the rules themselves.
 */
import type { AcceptanceReading } from '../acceptance/index.ts';
import { acceptanceReadingRule } from '../acceptance/readingRule.ts';
import type { Reading, TimedReading } from '../reading/index.ts';
import { readingRule, timedReadingRule } from '../reading/rules.ts';
import { type ShapeOf, shapeOfRule } from './fromRule.ts';

/** The shape of a reading. */
export function readingShape(): ShapeOf<Reading> {
  return shapeOfRule(readingRule) as ShapeOf<Reading>;
}

/** The shape of a reading for a monitor. */
export function monitorReadingShape(): ShapeOf<TimedReading> {
  return shapeOfRule(timedReadingRule) as ShapeOf<TimedReading>;
}

/** The shape of a reading for the proof of a flush or a fill. */
export function acceptanceReadingShape(): ShapeOf<AcceptanceReading> {
  return shapeOfRule(acceptanceReadingRule) as ShapeOf<AcceptanceReading>;
}
