/**
 * What a user's bundle may weigh: what is written, or a file of the package, and bytes after gzip. Set just above what
 * was measured; a line moves by decision only.
 */
export const budgets: Readonly<Record<string, number>> = {
  "export { classify, iso4406 } from 'motescale/codes'": 4096,
  "export { scaleNumber } from 'motescale/codes'": 1200,
  "export { cumulativeCounts } from 'motescale/counts'": 2450,
  "export { convertViscosity } from 'motescale/viscosity'": 2450,
  "export * from 'motescale'": 216850,
  "export * from 'motescale/counts'": 11720,
  "export * from 'motescale/codes'": 32755,
  "export * from 'motescale/viscosity'": 13250,
  "export * from 'motescale/water'": 4650,
  "export * from 'motescale/sampling'": 21850,
  "export * from 'motescale/filtration'": 9700,
  "export * from 'motescale/trend'": 18400,
  "export * from 'motescale/reading'": 29200,
  "export * from 'motescale/alarm'": 13250,
  "export * from 'motescale/history'": 7450,
  "export * from 'motescale/acceptance'": 43150,
  "export * from 'motescale/monitor'": 61500,
  "export * from 'motescale/report'": 91700,
  "export * from 'motescale/german'": 21950,
  "export * from 'motescale/schema'": 42450,
  "export * from 'motescale/exact'": 17100,
  'dist/scripts/motescale.global.js': 222650,
  'dist/scripts/motescale.codes.global.js': 9500,
  'dist/scripts/motescale.unit.global.js': 50900,
};

/** Entries that may bring in a dependency, and which. */
export const dependencies: Readonly<Record<string, readonly string[]>> = {
  'motescale/exact': ['decimal.js'],
  'motescale/schema': ['zod'],
};
