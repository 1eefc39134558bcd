/**
 * What a user's bundle may weigh: what is written, or a file of the package, and bytes after gzip. Set just above what
 * was measured; a line moves by decision only.
 */
export const budgets: Readonly<Record<string, number>> = {
  "export { classify, iso4406 } from 'motescale/codes'": 4096,
  "export { scaleNumber } from 'motescale/codes'": 1200,
  "export { cumulativeCounts } from 'motescale/counts'": 2450,
  "export { convertViscosity } from 'motescale/viscosity'": 2450,
  "export * from 'motescale'": 217350,
  "export * from 'motescale/counts'": 11720,
  "export * from 'motescale/codes'": 32900,
  "export * from 'motescale/viscosity'": 13250,
  "export * from 'motescale/water'": 4700,
  "export * from 'motescale/sampling'": 22100,
  "export * from 'motescale/filtration'": 9700,
  "export * from 'motescale/trend'": 18400,
  "export * from 'motescale/reading'": 29350,
  "export * from 'motescale/alarm'": 13400,
  "export * from 'motescale/history'": 7450,
  "export * from 'motescale/acceptance'": 43300,
  "export * from 'motescale/monitor'": 61750,
  "export * from 'motescale/report'": 91950,
  "export * from 'motescale/german'": 21950,
  "export * from 'motescale/schema'": 42600,
  "export * from 'motescale/exact'": 17100,
  'dist/scripts/motescale.global.js': 223250,
  'dist/scripts/motescale.codes.global.js': 9500,
  'dist/scripts/motescale.unit.global.js': 51100,
};

/** Entries that may bring in a dependency, and which. */
export const dependencies: Readonly<Record<string, readonly string[]>> = {
  'motescale/exact': ['decimal.js'],
  'motescale/schema': ['zod'],
};
