/**
 * The shape of the limits that readings are held against: each may be left out, and null switches its check off.
 */
import type { OwnReadingLimits } from '../reading/index.ts';
import { limitsRule } from '../reading/limitsRule.ts';
import { type ShapeOf, shapeOfRule } from './fromRule.ts';

/** The shape of the limits of `assessReading`. */
export function limitsShape(): ShapeOf<OwnReadingLimits> {
  return shapeOfRule(limitsRule) as ShapeOf<OwnReadingLimits>;
}
