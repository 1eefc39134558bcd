export * from './codes/index.ts';
export * from './counts/index.ts';
