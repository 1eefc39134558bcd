export * from './counts/index.ts';
