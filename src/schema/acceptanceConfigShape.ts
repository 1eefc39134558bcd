/**
 * The shape of what has to be shown of a flush or a fill: what each member may be. What they ask of each other `startAcceptance` knows.
 */
import * as z from 'zod/mini';
import type { AcceptanceConfig } from '../acceptance/index.ts';
import type { OwnTable } from '../codes/index.ts';
import { span } from './alarmShape.ts';
import { classTableShape } from './classTableShape.ts';
import { limitsShape } from './limitsShape.ts';
import { list, number, object, type ShapeOf, shapeOf } from './shapes.ts';

/** What has to be shown, before it is checked: its table may leave out what `classTable` fills in. */
export type OwnAcceptanceConfig = Omit<AcceptanceConfig, 'table' | 'tables'> & {
  readonly table: string | OwnTable;
  readonly tables?: readonly OwnTable[];
};

/** The shape of what has to be shown. */
export function acceptanceConfigShape(): ShapeOf<OwnAcceptanceConfig> {
  return shapeOf<OwnAcceptanceConfig>()(
    object('a configuration { table, target, readings, ... }', {
      table: z.union([z.string('the id of a table'), classTableShape()], 'a class table, or its id'),
      tables: z.optional(list('class tables', classTableShape())),
      target: z.string('a code or class of the table'),
      columns: z.optional(z.array(z.string('the label of a column'), 'an array of column labels')),
      readings: number('a whole number from 2 to 10000', { from: 2, to: 10000, whole: true }),
      leastMs: z.optional(span('whole milliseconds, 0 or more', 0)),
      leastLitres: z.optional(number('a volume in L, 0 or more', { from: 0 })),
      maxGapMs: z.optional(span('whole milliseconds, above 0', 1)),
      limits: z.optional(limitsShape()),
    }),
  );
}
