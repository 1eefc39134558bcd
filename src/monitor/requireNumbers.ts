/** A list of at least one finite number. */
import { requireFilledArray, requireFinite } from '../checks.ts';

/** The list itself, or an error that names the element. */
export function requireNumbers(values: unknown, parameter: string): readonly number[] {
  const list = requireFilledArray(values, parameter, 'an array of numbers');
  for (let i = 0; i < list.length; i += 1) requireFinite(list[i], `${parameter}[${i}]`);
  return list as readonly number[];
}
