/**
 * What a user's bundle may weigh: what is written, or a file of the package, and bytes after gzip. Set just above what was measured; a line
 * moves by decision only.
 */
export const budgets: Readonly<Record<string, number>> = {
  "export { classify, iso4406 } from 'motescale/codes'": 4000,
  "export { scaleNumber } from 'motescale/codes'": 1100,
  "export { cumulativeCounts } from 'motescale/counts'": 2300,
  "export { convertViscosity } from 'motescale/viscosity'": 2200,
  "export * from 'motescale'": 88500,
  "export * from 'motescale/counts'": 9900,
  "export * from 'motescale/codes'": 22300,
  "export * from 'motescale/viscosity'": 12800,
  "export * from 'motescale/water'": 3900,
  "export * from 'motescale/sampling'": 11000,
  "export * from 'motescale/filtration'": 6900,
  "export * from 'motescale/trend'": 8400,
  "export * from 'motescale/reading'": 7200,
  "export * from 'motescale/alarm'": 4700,
  "export * from 'motescale/history'": 5100,
  "export * from 'motescale/acceptance'": 15400,
  "export * from 'motescale/monitor'": 25200,
  "export * from 'motescale/report'": 21200,
  "export * from 'motescale/schema'": 25400,
  "export * from 'motescale/exact'": 17000,
  'dist/motescale.global.js': 94200,
};

/** Entries that may bring in a dependency, and which. */
export const dependencies: Readonly<Record<string, readonly string[]>> = {
  'motescale/exact': ['decimal.js'],
  'motescale/schema': ['zod'],
};
