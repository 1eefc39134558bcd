/**
 * Everything but the parts that carry a dependency: those stand apart in `motescale/schema` and `motescale/exact`.
 *
 * @module motescale
 */
export * from './codes/index.ts';
export * from './counts/index.ts';
export * from './filtration/index.ts';
export * from './monitor/index.ts';
export * from './report/index.ts';
export * from './sampling/index.ts';
export * from './units.ts';
export * from './viscosity/index.ts';
export * from './water/index.ts';
