/**
 * What a user's bundle may weigh: what is written, or a file of the package, and bytes after gzip. Set just above what was measured; a line
 * moves by decision only.
 */
export const budgets: Readonly<Record<string, number>> = {
  "export { classify, iso4406 } from 'motescale/codes'": 4000,
  "export { scaleNumber } from 'motescale/codes'": 1000,
  "export { cumulativeCounts } from 'motescale/counts'": 2000,
  "export * from 'motescale'": 71800,
  "export * from 'motescale/counts'": 7950,
  "export * from 'motescale/codes'": 15300,
  "export * from 'motescale/viscosity'": 12700,
  "export * from 'motescale/water'": 3450,
  "export * from 'motescale/sampling'": 14700,
  "export * from 'motescale/filtration'": 5800,
  "export * from 'motescale/monitor'": 27500,
  "export * from 'motescale/report'": 17800,
  "export * from 'motescale/exact'": 16300,
  'dist/motescale.global.js': 77000,
};

/** Entries that may bring in a dependency, and which. */
export const dependencies: Readonly<Record<string, readonly string[]>> = {
  'motescale/exact': ['decimal.js'],
};
