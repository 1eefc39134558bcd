/**
 * Data from outside: readings, configurations of a monitor and of a proof, and class tables, checked with every problem
 * named at once; as Standard Schema, and as JSON Schema.
 *
 * @module schema
 */

export type { AcceptanceConfig, AcceptanceReading } from '../acceptance/index.ts';
export type { ClassTable, OwnTable } from '../codes/index.ts';
export * from '../common.ts';
export { type Problem, problemsOf } from '../errors.ts';
export type { MonitorConfig } from '../monitor/index.ts';
export type { Reading, TimedReading } from '../reading/index.ts';
export { classTableSchema, parseClassTable } from './classTable.ts';
export {
  acceptanceConfigSchema,
  monitorConfigSchema,
  type OwnAcceptanceConfig,
  type OwnMonitorConfig,
  parseAcceptanceConfig,
  parseMonitorConfig,
} from './configuration.ts';
export { type JsonSchema, jsonSchemas } from './jsonSchemas.ts';
export {
  acceptanceReadingSchema,
  monitorReadingSchema,
  parseAcceptanceReading,
  parseMonitorReading,
  parseReading,
  type ReadingOptions,
  readingSchema,
} from './reading.ts';
export { sources } from './sources.ts';
export type { StandardIssue, StandardResult, StandardSchemaProps, StandardSchemaV1 } from './standardSchema.ts';
