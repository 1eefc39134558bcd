/**
 * The shape of a user's own class table: what each member may be. What the members ask of each other is in classTableRules.ts.
 */
import * as z from 'zod/mini';
import type { OwnTable } from '../codes/index.ts';
import { type Source, standings } from '../source.ts';
import { list, number, object, oneOf, type ShapeOf, shapeOf, text } from './shapes.ts';

const size = 'a size in µm above 0';
const notations = ['scale_numbers', 'scale_numbers_after_dash', 'lettered', 'single'] as const;

function sizesShape(expected: string) {
  return object(expected, {
    iso11171: z.optional(number(size, { above: 0 })),
    iso11171b: z.optional(number(size, { above: 0 })),
    iso4402: z.optional(number(size, { above: 0 })),
    microscope: z.optional(number(size, { above: 0 })),
  });
}

/** The shape of a source. */
export function sourceShape(): ShapeOf<Source> {
  return shapeOf<Source>()(
    object('a source { document, edition, place, standing }', {
      document: z.string('a text'),
      edition: z.string('a text'),
      place: z.string('a text'),
      standing: oneOf(standings),
    }),
  );
}

/** The shape of a table as `classTable` takes it. */
export function classTableShape(): ShapeOf<OwnTable> {
  return shapeOf<OwnTable>()(
    object('a class table { id, title, counting, perVolumeMl, columns, classes, limits }', {
      id: text('a text of at least one character'),
      standard: z.optional(text('a text of at least one character')),
      title: text('a text of at least one character'),
      source: z.optional(sourceShape()),
      counting: oneOf(['cumulative', 'differential']),
      perVolumeMl: z.literal([1, 100], '1 or 100: the volume in mL that the limits are related to'),
      notation: z.optional(oneOf(notations)),
      fewCounted: z.optional(
        number('a whole number of particles, 0 or more', { from: 0, to: 9007199254740991, whole: true }),
      ),
      columns: list(
        'an array of at least one column',
        object('a column { label, from }', {
          label: text('a text of at least one character'),
          from: sizesShape('sizes by sizing, such as { iso11171: 6 }'),
          to: z.optional(sizesShape('upper ends by sizing, such as { iso11171: 14 }')),
        }),
      ),
      classes: list('an array of at least one class, from clean to dirty', text('a text of at least one character')),
      limits: list(
        'an array of rows, one for each class',
        list(
          'an array of limits, one for each column',
          z.nullable(number('a limit of 0 or more, or null', { from: 0 })),
        ),
      ),
      wording: z.optional(
        z.record(
          z.string(),
          z.record(z.string(), z.string('a text'), 'texts by column'),
          'texts by class and column, such as { "0": { "100-200": "absent" } }',
        ),
      ),
      elsewhere: z.optional(z.string('a text')),
      notes: z.optional(z.array(z.string('a text'), 'an array of texts')),
    }),
  );
}
