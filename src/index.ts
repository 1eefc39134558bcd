/**
 * Everything but the parts that carry a dependency: those stand apart in `motescale/schema` and `motescale/exact`.
 *
 * @module motescale
 */
export * from './acceptance/index.ts';
export * from './alarm/index.ts';
export * from './codes/index.ts';
export * from './counts/index.ts';
export { type Path, type Problem, problemsOf } from './errors.ts';
export * from './filtration/index.ts';
export * from './history/index.ts';
export * from './monitor/index.ts';
export * from './reading/index.ts';
export * from './report/index.ts';
export * from './sampling/index.ts';
export { sources } from './sources.ts';
export * from './trend/index.ts';
export * from './units.ts';
export * from './viscosity/index.ts';
export * from './water/index.ts';
