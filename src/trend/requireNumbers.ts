/**
 * Lists of numbers, and figures of a size that sums, products and quotients of them cannot leave the range of a double.
 */
import { requireFilledArray, requireFinite } from '../checks.ts';
import { motescaleError } from '../errors.ts';
import { largestFigure, smallestFigure } from '../rules/bounds.ts';

/** A list of at least one finite number, or an error that names the element. */
export function requireNumbers(values: unknown): readonly number[] {
  const list = requireFilledArray(values, 'values', 'an array of numbers');
  for (let i = 0; i < list.length; i += 1) requireFinite(list[i], `values[${i}]`);
  return list as readonly number[];
}

/** A figure: 0, or of a magnitude from 1e-60 to 1e60. */
export function requireFigure(value: unknown, parameter: string): number {
  const figure = requireFinite(value, parameter);
  const size = Math.abs(figure);
  if (size !== 0 && (size < smallestFigure || size > largestFigure)) {
    throw motescaleError('out_of_range', parameter, value, '0, or an amount from 1e-60 to 1e60');
  }
  return figure + 0;
}
