/**
 * What a user's bundle may weigh: what is written, or a file of the package, and bytes after gzip. Set just above what
 * was measured; a line moves by decision only.
 */
export const budgets: Readonly<Record<string, number>> = {
  "export { classify, iso4406 } from 'motescale/codes'": 4096,
  "export { scaleNumber } from 'motescale/codes'": 1250,
  "export { cumulativeCounts } from 'motescale/counts'": 2450,
  "export { convertViscosity } from 'motescale/viscosity'": 2450,
  "export * from 'motescale'": 177450,
  "export * from 'motescale/counts'": 11250,
  "export * from 'motescale/codes'": 31600,
  "export * from 'motescale/viscosity'": 13350,
  "export * from 'motescale/water'": 4350,
  "export * from 'motescale/sampling'": 16650,
  "export * from 'motescale/filtration'": 7650,
  "export * from 'motescale/trend'": 17600,
  "export * from 'motescale/reading'": 26250,
  "export * from 'motescale/alarm'": 11100,
  "export * from 'motescale/history'": 7600,
  "export * from 'motescale/acceptance'": 37050,
  "export * from 'motescale/monitor'": 56600,
  "export * from 'motescale/report'": 68650,
  "export * from 'motescale/german'": 13700,
  "export * from 'motescale/schema'": 35850,
  "export * from 'motescale/exact'": 17200,
  'dist/scripts/motescale.global.js': 178250,
  'dist/scripts/motescale.codes.global.js': 9300,
  'dist/scripts/motescale.unit.global.js': 45200,
};

/** Entries that may bring in a dependency, and which. */
export const dependencies: Readonly<Record<string, readonly string[]>> = {
  'motescale/exact': ['decimal.js'],
  'motescale/schema': ['zod'],
};
