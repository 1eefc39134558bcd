/**
 * The shapes of an alarm and of the figure it watches.
 */
import * as z from 'zod/mini';
import type { MonitorAlarm, MonitorFigure } from '../monitor/index.ts';
import { number, object, oneOf, type ShapeOf, shapeOf, text } from './shapes.ts';

/** 100,000,000 days: the longest time a clock of ECMAScript counts (ECMA-262, Time Values and Time Range). */
export const longestMs = 8640000000000000;

const quantities = ['mlPerMin', 'kPa', 'celsius', 'mm2PerS', 'waterSaturation'] as const;

/** A length of time. */
export function span(expected: string, from: number): z.ZodMiniNumber<number> {
  return number(expected, { from, to: longestMs, whole: true });
}

/** A name that can stand in an event. */
export function name(): z.ZodMiniString<string> {
  return text('a name of 1 to 64 characters', 64);
}

/** The shape of a figure of a reading. */
export function figureShape(): ShapeOf<MonitorFigure> {
  const size = () => number('a size in µm above 0', { above: 0 });
  const expected =
    'a figure: one of { quantity }, { other }, { perMlAt }, { scaleNumberAt }, { continuousScaleNumberAt }';
  return shapeOf<MonitorFigure>()(
    z.union(
      [
        object(expected, { quantity: oneOf(quantities) }),
        object(expected, { other: name() }),
        object(expected, { perMlAt: size() }),
        object(expected, { scaleNumberAt: size() }),
        object(expected, { continuousScaleNumberAt: size() }),
      ],
      expected,
    ),
  );
}

/** The shape of an alarm, on a figure or on a code. */
export function alarmShape(): ShapeOf<MonitorAlarm> {
  const expected = 'an alarm { id, figure, type, setpoint }';
  const whileBeyond = 'whole milliseconds, 0 or more';
  const common = {
    id: name(),
    deadband: z.optional(number('a deadband of 0 or more, in the unit of the figure', { from: 0 })),
    onDelayMs: z.optional(span(whileBeyond, 0)),
    offDelayMs: z.optional(span(whileBeyond, 0)),
    latching: z.optional(z.boolean('true or false')),
    longestShelfMs: z.optional(span('whole milliseconds, above 0', 1)),
    staleAfterMs: z.optional(span('whole milliseconds, above 0', 1)),
    chattering: z.optional(
      object('{ raises, withinMs }', {
        raises: number('a whole number of raises from 2 to 20', { from: 2, to: 20, whole: true }),
        withinMs: span('whole milliseconds, above 0', 1),
      }),
    ),
  };
  const onFigure = object(expected, {
    ...common,
    type: oneOf(['high', 'low', 'rise', 'fall']),
    setpoint: number('a finite number, in the unit of the figure'),
    withinMs: z.optional(span('whole milliseconds, above 0', 1)),
    figure: figureShape(),
  });
  const onCode = object(expected, {
    ...common,
    type: z.literal('high', "'high' for a code"),
    setpoint: z.string('a code of the table'),
    figure: object('{ code }', { code: z.string('the id of a table in config.codes') }),
  });
  // no text for the union itself: what is wrong is told in the form the alarm comes nearest to
  return shapeOf<MonitorAlarm>()(z.union([onFigure, onCode], { error: () => '' }));
}
