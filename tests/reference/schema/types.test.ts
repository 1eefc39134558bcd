/** The schemas give the library's own types, to the last member; and the gate that keeps it so does refuse. */
import { expect, expectTypeOf, test } from 'vitest';
import * as z from 'zod/mini';
import type { AcceptanceConfig, AcceptanceReading } from '../../../src/acceptance/index.ts';
import type { ClassTable, OwnTable } from '../../../src/codes/index.ts';
import type { MonitorConfig } from '../../../src/monitor/index.ts';
import type { Reading, TimedReading } from '../../../src/reading/index.ts';
import {
  type acceptanceConfigSchema,
  type acceptanceReadingSchema,
  type classTableSchema,
  type monitorConfigSchema,
  type monitorReadingSchema,
  type OwnAcceptanceConfig,
  parseAcceptanceConfig,
  parseAcceptanceReading,
  parseClassTable,
  parseMonitorConfig,
  parseMonitorReading,
  parseReading,
  readingSchema,
  type StandardSchemaV1,
} from '../../../src/schema/index.ts';
import { object, shapeOf } from '../../../src/schema/shapes.ts';

type OutputOf<S extends StandardSchemaV1> = NonNullable<S['~standard']['types']>['output'];
type InputOf<S extends StandardSchemaV1> = NonNullable<S['~standard']['types']>['input'];

test('the schemas and the parse functions give the types of the library', () => {
  expectTypeOf<OutputOf<typeof readingSchema>>().toEqualTypeOf<Reading>();
  expectTypeOf<OutputOf<typeof monitorReadingSchema>>().toEqualTypeOf<TimedReading>();
  expectTypeOf<OutputOf<typeof monitorConfigSchema>>().toEqualTypeOf<MonitorConfig>();
  expectTypeOf<OutputOf<typeof classTableSchema>>().toEqualTypeOf<ClassTable>();
  expectTypeOf<InputOf<typeof classTableSchema>>().toEqualTypeOf<OwnTable>();
  expectTypeOf<OutputOf<typeof acceptanceReadingSchema>>().toEqualTypeOf<AcceptanceReading>();
  expectTypeOf<OutputOf<typeof acceptanceConfigSchema>>().toEqualTypeOf<AcceptanceConfig>();
  expectTypeOf<InputOf<typeof acceptanceConfigSchema>>().toEqualTypeOf<OwnAcceptanceConfig>();
  expectTypeOf(parseAcceptanceReading).returns.toEqualTypeOf<AcceptanceReading>();
  expectTypeOf(parseAcceptanceConfig).returns.toEqualTypeOf<AcceptanceConfig>();
  expectTypeOf(parseReading).returns.toEqualTypeOf<Reading>();
  expectTypeOf(parseMonitorReading).returns.toEqualTypeOf<TimedReading>();
  expectTypeOf(parseMonitorConfig).returns.toEqualTypeOf<MonitorConfig>();
  expectTypeOf(parseClassTable).returns.toEqualTypeOf<ClassTable>();
});

test('the schemas are Standard Schema as others have it', () => {
  type Theirs = z.core.$ZodStandardSchema<z.ZodMiniType<Reading, Reading>>;
  expectTypeOf(readingSchema['~standard']).toExtend<Theirs>();
  const counts = { sizing: 'iso11171', sizes: [4], perMl: [1890] };
  expect({ counts }).toEqual(expect.schemaMatching(readingSchema));
  expect({ counts: {} }).not.toEqual(expect.schemaMatching(readingSchema));
});

interface Small {
  readonly size: number;
  readonly label?: string;
  readonly kinds: readonly ('a' | 'b')[];
}

test('a shape that parts from its type does not compile', () => {
  const kinds = z.array(z.enum(['a', 'b']));
  const label = z.optional(z.string());
  const size = z.number();
  expect(shapeOf<Small>()(object('small', { size, label, kinds }))).toBeDefined();
  // @ts-expect-error a member is missing
  shapeOf<Small>()(object('small', { size, kinds }));
  // @ts-expect-error a member is of another type
  shapeOf<Small>()(object('small', { size: z.string(), label, kinds }));
  // @ts-expect-error a member may not be left out
  shapeOf<Small>()(object('small', { size, label: z.string(), kinds }));
  // @ts-expect-error a member may be left out
  shapeOf<Small>()(object('small', { size: z.optional(size), label, kinds }));
  // @ts-expect-error one member too many
  shapeOf<Small>()(object('small', { size, label, kinds, more: size }));
  // @ts-expect-error a word is missing
  shapeOf<Small>()(object('small', { size, label, kinds: z.array(z.enum(['a'])) }));
});
