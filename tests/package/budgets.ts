/**
 * What a user's bundle may weigh: what is written, or a file of the package, and bytes after gzip. Set just above what
 * was measured; a line moves by decision only.
 */
export const budgets: Readonly<Record<string, number>> = {
  "export { classify, iso4406 } from 'motescale/codes'": 4040,
  "export { scaleNumber } from 'motescale/codes'": 1200,
  "export { cumulativeCounts } from 'motescale/counts'": 2320,
  "export { convertViscosity } from 'motescale/viscosity'": 2140,
  "export * from 'motescale'": 150000,
  "export * from 'motescale/counts'": 10500,
  "export * from 'motescale/codes'": 29000,
  "export * from 'motescale/viscosity'": 12950,
  "export * from 'motescale/water'": 4050,
  "export * from 'motescale/sampling'": 15200,
  "export * from 'motescale/filtration'": 7150,
  "export * from 'motescale/trend'": 17300,
  "export * from 'motescale/reading'": 21600,
  "export * from 'motescale/alarm'": 12000,
  "export * from 'motescale/history'": 8100,
  "export * from 'motescale/acceptance'": 29400,
  "export * from 'motescale/monitor'": 50600,
  "export * from 'motescale/report'": 49400,
  "export * from 'motescale/german'": 8500,
  "export * from 'motescale/schema'": 30800,
  "export * from 'motescale/exact'": 17000,
  'dist/scripts/motescale.global.js': 154400,
  'dist/scripts/motescale.codes.global.js': 8350,
  'dist/scripts/motescale.unit.global.js': 44500,
};

/** Entries that may bring in a dependency, and which. */
export const dependencies: Readonly<Record<string, readonly string[]>> = {
  'motescale/exact': ['decimal.js'],
  'motescale/schema': ['zod'],
};
