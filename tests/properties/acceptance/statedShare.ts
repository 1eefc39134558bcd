/** A share in per cent that docs/flush.md states, held against so many simulated runs. */
import { expect } from 'vitest';

export function expectStated(found: number, stated: number, runs: number): void {
  // four standard errors, and a little for none
  const room = 3 + 400 * Math.sqrt(((stated / 100) * (1 - stated / 100)) / runs);
  expect(Math.abs(found - stated)).toBeLessThan(room);
}
