/**
 * The shape of a monitor's configuration: what each member may be. What they ask of each other `startMonitor` knows.
 */
import * as z from 'zod/mini';
import type { OwnTable } from '../codes/index.ts';
import type { FollowedFigure, MonitorConfig } from '../monitor/index.ts';
import { alarmShape, figureShape, name, span } from './alarmShape.ts';
import { classTableShape } from './classTableShape.ts';
import { limitsShape } from './limitsShape.ts';
import { number, object, type ShapeOf, shapeOf } from './shapes.ts';

/** A configuration before it is checked: its tables may leave out what `classTable` fills in. */
export type OwnMonitorConfig = Omit<MonitorConfig, 'codes'> & {
  readonly codes: readonly {
    readonly table: OwnTable;
    readonly target?: string;
    readonly columns?: readonly string[];
  }[];
};

function followedShape(): ShapeOf<FollowedFigure> {
  return shapeOf<FollowedFigure>()(
    object('a figure to follow { id, figure }', {
      id: name(),
      figure: figureShape(),
      blockMs: z.optional(span('whole milliseconds, 60000 or more', 60000)),
      blocks: z.optional(number('a whole number from 8 to 60', { from: 8, to: 60, whole: true })),
      learn: z.optional(number('a whole number from 5 to 1000', { from: 5, to: 1000, whole: true })),
      slack: z.optional(number('a number of standard deviations above 0', { above: 0 })),
      decision: z.optional(number('a number of standard deviations above 0', { above: 0 })),
    }),
  );
}

/** The shape of a monitor's configuration. */
export function monitorConfigShape(): ShapeOf<OwnMonitorConfig> {
  const entry = object('{ table, target, columns }', {
    table: classTableShape(),
    target: z.optional(z.string('a code or class of the table')),
    columns: z.optional(z.array(z.string('the label of a column'), 'an array of column labels')),
  });
  return shapeOf<OwnMonitorConfig>()(
    object('a configuration { codes, alarms, ... }', {
      codes: z.array(entry, 'an array of { table, target, columns }'),
      limits: z.optional(limitsShape()),
      alarms: z.optional(z.array(alarmShape(), 'an array of alarms')),
      follow: z.optional(z.array(followedShape(), 'an array of figures to follow')),
      staleAfterMs: z.optional(span('whole milliseconds, above 0', 1)),
    }),
  );
}
