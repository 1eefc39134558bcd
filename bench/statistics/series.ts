/** Series without a trend, or with one, of memories of many shapes. Each has a standard deviation of about 1. */
import { withMemory } from '../../tests/properties/trend/trendCorrelated.ts';
import type { Draws } from './table.ts';

export type Series = (from: Draws, n: number) => (number | null)[];

/** AR(1). */
export const memory =
  (correlation: number): Series =>
  ({ normal }, n) =>
    withMemory(normal, n, correlation);
/** The same, every fifth value left out by chance. */
export const missing =
  (correlation: number): Series =>
  ({ normal, share }, n) =>
    withMemory(normal, n, correlation).map((value) => (share() < 0.2 ? null : value));
/** Half of the variance is scatter of single values. */
export const noisy =
  (correlation: number): Series =>
  ({ normal }, n) =>
    withMemory(normal, n, correlation).map((value) => (value + normal()) / Math.SQRT2);

export function shapes(): Record<string, Series> {
  return {
    'AR(2), 0.9 and -0.5': ({ normal }, n) => {
      const values = [normal(), normal()];
      while (values.length < n + 50)
        values.push(0.9 * (values.at(-1) as number) - 0.5 * (values.at(-2) as number) + normal());
      return values.slice(50);
    },
    'AR(2), 0.5 and 0.4': ({ normal }, n) => {
      const values = [normal(), normal()];
      while (values.length < n + 200)
        values.push(0.5 * (values.at(-1) as number) + 0.4 * (values.at(-2) as number) + normal());
      return values.slice(200);
    },
    'moving average of 5': ({ normal }, n) => {
      const raw = Array.from({ length: n + 4 }, normal);
      return Array.from({ length: n }, (_x, i) => raw.slice(i, i + 5).reduce((sum, value) => sum + value, 0));
    },
    '1/f (sum of memories of 1 to 256)': ({ normal }, n) => {
      const parts = [1, 4, 16, 64, 256].map((days) => withMemory(normal, n, Math.exp(-1 / days)));
      return Array.from({ length: n }, (_x, i) => parts.reduce((sum, part) => sum + (part[i] as number), 0));
    },
    'heavy tails (cubed), memory 0.8': ({ normal }, n) => withMemory(normal, n, 0.8).map((value) => value ** 3),
    'rhythm of 7, half as large as the scatter, memory 0.5': ({ normal }, n) =>
      withMemory(normal, n, 0.5).map((value, i) => value + 0.5 * Math.sin((2 * Math.PI * i) / 7)),
    'slow temperature, half a scatter a year': ({ normal, share }, n) => {
      const phase = 2 * Math.PI * share();
      return withMemory(normal, n, 0.5).map((value, i) => value + 0.5 * Math.sin((2 * Math.PI * i) / 365.25 + phase));
    },
    'whole codes, memory 0.8': ({ normal }, n) => withMemory(normal, n, 0.8).map((value) => Math.ceil(17.3 + value)),
  };
}
