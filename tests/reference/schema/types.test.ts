/** The schemas give the library's own types, to the last member. */
import { expect, expectTypeOf, test } from 'vitest';
import type * as z from 'zod/mini';
import type { AcceptanceConfig, AcceptanceReading } from '../../../src/acceptance/index.ts';
import type { ClassTable, OwnTable } from '../../../src/codes/index.ts';
import type { MonitorCode, MonitorConfig } from '../../../src/monitor/index.ts';
import type { Reading, TimedReading } from '../../../src/reading/index.ts';
import {
  type acceptanceConfigSchema,
  type acceptanceReadingSchema,
  type classTableSchema,
  type monitorConfigSchema,
  type monitorReadingSchema,
  type OwnAcceptanceConfig,
  type OwnMonitorConfig,
  parseAcceptanceConfig,
  parseAcceptanceReading,
  parseClassTable,
  parseMonitorConfig,
  parseMonitorReading,
  parseReading,
  readingSchema,
  type StandardSchemaV1,
} from '../../../src/schema/index.ts';

type OutputOf<S extends StandardSchemaV1> = NonNullable<S['~standard']['types']>['output'];
type InputOf<S extends StandardSchemaV1> = NonNullable<S['~standard']['types']>['input'];

test('the schemas and the parse functions give the types of the library', () => {
  expectTypeOf<OutputOf<typeof readingSchema>>().toEqualTypeOf<Reading>();
  expectTypeOf<OutputOf<typeof monitorReadingSchema>>().toEqualTypeOf<TimedReading>();
  expectTypeOf<OutputOf<typeof monitorConfigSchema>>().toEqualTypeOf<MonitorConfig>();
  expectTypeOf<InputOf<typeof monitorConfigSchema>>().toEqualTypeOf<OwnMonitorConfig>();
  expectTypeOf<keyof OwnMonitorConfig['codes'][number]>().toEqualTypeOf<keyof MonitorCode>();
  expectTypeOf<OwnMonitorConfig['codes'][number]['errors']>().toEqualTypeOf<MonitorCode['errors']>();
  expectTypeOf<MonitorConfig>().toExtend<OwnMonitorConfig>();
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
