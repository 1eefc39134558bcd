/**
 * What a user's bundle may weigh: what is written, or a file of the package, and bytes after gzip. Set just above what
 * was measured; a line moves by decision only.
 */
export const budgets: Readonly<Record<string, number>> = {
  "export { classify, iso4406 } from 'motescale/codes'": 4400,
  "export { scaleNumber } from 'motescale/codes'": 1300,
  "export { cumulativeCounts } from 'motescale/counts'": 2440,
  "export { convertViscosity } from 'motescale/viscosity'": 2200,
  "export * from 'motescale'": 150200,
  "export * from 'motescale/counts'": 10600,
  "export * from 'motescale/codes'": 29300,
  "export * from 'motescale/viscosity'": 13000,
  "export * from 'motescale/water'": 4050,
  "export * from 'motescale/sampling'": 14600,
  "export * from 'motescale/filtration'": 7300,
  "export * from 'motescale/trend'": 17100,
  "export * from 'motescale/reading'": 21900,
  "export * from 'motescale/alarm'": 10500,
  "export * from 'motescale/history'": 7400,
  "export * from 'motescale/acceptance'": 29900,
  "export * from 'motescale/monitor'": 50500,
  "export * from 'motescale/report'": 50000,
  "export * from 'motescale/german'": 8550,
  "export * from 'motescale/schema'": 31000,
  "export * from 'motescale/exact'": 17200,
  'dist/scripts/motescale.global.js': 154700,
  'dist/scripts/motescale.codes.global.js': 8700,
  'dist/scripts/motescale.unit.global.js': 44600,
};

/** Entries that may bring in a dependency, and which. */
export const dependencies: Readonly<Record<string, readonly string[]>> = {
  'motescale/exact': ['decimal.js'],
  'motescale/schema': ['zod'],
};
