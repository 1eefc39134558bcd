/** Numbers of every kind, likely ones among them, and what a function may make of them. */
import fc from 'fast-check';
import { expect } from 'vitest';

const likely = fc.double({ min: -100, max: 1500, noNaN: true });

export const anyNumber: fc.Arbitrary<number> = fc.oneof(
  fc.double(),
  likely,
  likely,
  fc.double({ min: 0, max: 1 }),
  fc.constantFrom(0, -0, 1, 5e-324, 1.7e308, NaN, -Infinity),
);

/** A finite number, or an error of the library. */
export function expectSound(act: () => number): void {
  let result: number;
  try {
    result = act();
  } catch (error) {
    expect(error).toMatchObject({ name: 'MotescaleError' });
    return;
  }
  expect(Number.isFinite(result)).toBe(true);
}
