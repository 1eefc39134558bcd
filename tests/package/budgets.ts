/**
 * What a user's bundle may weigh: what is written, or a file of the package, and bytes after gzip. Set just above what
 * was measured; a line moves by decision only.
 */
export const budgets: Readonly<Record<string, number>> = {
  "export { classify, iso4406 } from 'motescale/codes'": 4096,
  "export { scaleNumber } from 'motescale/codes'": 1200,
  "export { cumulativeCounts } from 'motescale/counts'": 2450,
  "export { convertViscosity } from 'motescale/viscosity'": 2450,
  "export * from 'motescale'": 176700,
  "export * from 'motescale/counts'": 11250,
  "export * from 'motescale/codes'": 31350,
  "export * from 'motescale/viscosity'": 13350,
  "export * from 'motescale/water'": 4350,
  "export * from 'motescale/sampling'": 16650,
  "export * from 'motescale/filtration'": 7650,
  "export * from 'motescale/trend'": 18500,
  "export * from 'motescale/reading'": 26250,
  "export * from 'motescale/alarm'": 11100,
  "export * from 'motescale/history'": 7600,
  "export * from 'motescale/acceptance'": 36900,
  "export * from 'motescale/monitor'": 55200,
  "export * from 'motescale/report'": 67800,
  "export * from 'motescale/german'": 13700,
  "export * from 'motescale/schema'": 35650,
  "export * from 'motescale/exact'": 17200,
  'dist/scripts/motescale.global.js': 177200,
  'dist/scripts/motescale.codes.global.js': 9050,
  'dist/scripts/motescale.unit.global.js': 43500,
};

/** Entries that may bring in a dependency, and which. */
export const dependencies: Readonly<Record<string, readonly string[]>> = {
  'motescale/exact': ['decimal.js'],
  'motescale/schema': ['zod'],
};
