/**
 * The shapes of an alarm and of the figure it watches, made of the monitor's own rules.
 */
import * as z from 'zod/mini';
import type { MonitorAlarm, MonitorFigure } from '../monitor/index.ts';
import { figureRule, monitorAlarmRule } from '../monitor/rules.ts';
import { shapeOfRule } from './fromRule.ts';
import { number, type ShapeOf } from './shapes.ts';

/** 100,000,000 days: the longest time a clock of ECMAScript counts (ECMA-262, Time Values and Time Range). */
export const longestMs = 8640000000000000;

/** A length of time. */
export function span(expected: string, from: number): z.ZodMiniNumber<number> {
  return number(expected, { from, to: longestMs, whole: true });
}

/** The shape of a figure of a reading. */
export function figureShape(): ShapeOf<MonitorFigure> {
  return shapeOfRule(figureRule()) as ShapeOf<MonitorFigure>;
}

/** The shape of an alarm, on a figure or on a code. */
export function alarmShape(): ShapeOf<MonitorAlarm> {
  const forms = monitorAlarmRule().forms.map(shapeOfRule) as [z.ZodMiniType, ...z.ZodMiniType[]];
  // no text for the union itself: what is wrong is told in the form the alarm comes nearest to
  return z.union(forms, { error: () => '' }) as unknown as ShapeOf<MonitorAlarm>;
}
