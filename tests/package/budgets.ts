/**
 * What a user's bundle may weigh: what is written, or a file of the package, and bytes after gzip. Set just above what
 * was measured; a line moves by decision only.
 */
export const budgets: Readonly<Record<string, number>> = {
  "export { classify, iso4406 } from 'motescale/codes'": 4060,
  "export { scaleNumber } from 'motescale/codes'": 1200,
  "export { cumulativeCounts } from 'motescale/counts'": 2370,
  "export { convertViscosity } from 'motescale/viscosity'": 2200,
  "export * from 'motescale'": 168450,
  "export * from 'motescale/counts'": 10620,
  "export * from 'motescale/codes'": 29400,
  "export * from 'motescale/viscosity'": 13130,
  "export * from 'motescale/water'": 4210,
  "export * from 'motescale/sampling'": 15920,
  "export * from 'motescale/filtration'": 7250,
  "export * from 'motescale/trend'": 17500,
  "export * from 'motescale/reading'": 24750,
  "export * from 'motescale/alarm'": 11100,
  "export * from 'motescale/history'": 7600,
  "export * from 'motescale/acceptance'": 34600,
  "export * from 'motescale/monitor'": 55200,
  "export * from 'motescale/report'": 64900,
  "export * from 'motescale/german'": 12950,
  "export * from 'motescale/schema'": 33300,
  "export * from 'motescale/exact'": 17100,
  'dist/scripts/motescale.global.js': 169250,
  'dist/scripts/motescale.codes.global.js': 8350,
  'dist/scripts/motescale.unit.global.js': 41100,
};

/** Entries that may bring in a dependency, and which. */
export const dependencies: Readonly<Record<string, readonly string[]>> = {
  'motescale/exact': ['decimal.js'],
  'motescale/schema': ['zod'],
};
