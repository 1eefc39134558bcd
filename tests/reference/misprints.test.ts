import { expect, test } from 'vitest';
import { deviation, type Row } from './ledger.ts';
import { known } from './misprints.ts';

test.each(known)('$function differs from the $printed of $document, $place', ({ printed, right, ...misprint }) => {
  const row = (expected: string | number) => ({ ...misprint, expected, standing: 'published' }) as Row;
  expect(deviation(row(printed))).toBeGreaterThan(1);
  // nearly equal doubles, such as 84 minutes from gallons, are within the last bits
  const found = misprint.found();
  if (typeof right === 'string') expect(found).toBe(right);
  else expect(Math.abs((found as number) - right)).toBeLessThanOrEqual(Math.max(misprint.tolerance, 1e-9));
});
