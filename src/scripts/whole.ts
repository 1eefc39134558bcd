/** The script of all: what `motescale` gives, and the readings of `motescale/schema`, which need no zod. */
export * from '../index.ts';
export { parseAcceptanceReading, parseMonitorReading, parseReading } from '../schema/reading.ts';
