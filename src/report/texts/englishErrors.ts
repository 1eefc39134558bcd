/**
 * Errors in English, by their code.
 */
import type { ErrorCode } from '../../errors.ts';

/** One sentence for each code. */
export const englishErrorTexts: Readonly<Record<ErrorCode, string>> = {
  wrong_type: '{parameter} is of the wrong kind: {received}. Expected: {expected}.',
  not_a_number: '{parameter} is no number: {received}. Expected: {expected}.',
  infinite: '{parameter} is infinite. Expected: {expected}.',
  negative: '{parameter} is negative: {received}. Expected: {expected}.',
  not_an_integer: '{parameter} is not a whole number: {received}. Expected: {expected}.',
  out_of_range: '{parameter} is out of range: {received}. Expected: {expected}.',
  empty: '{parameter} is empty. Expected: {expected}.',
  too_few: '{parameter} has too few: {received}. Expected: {expected}.',
  length_mismatch: '{parameter} has another length: {received}. Expected: {expected}.',
  unknown_option: '{parameter} is not known: {received}. Expected: {expected}.',
  unknown_sizing: '{parameter} is no known sizing: {received}. Expected: {expected}.',
  sizing_not_convertible: '{parameter} cannot be converted to another sizing: {received}. Expected: {expected}.',
  sizes_out_of_order: '{parameter} is out of order: {received}. Expected: {expected}.',
  counts_rise_with_size: '{parameter} rises with size: {received}. Expected: {expected}.',
  missing_size: '{parameter} lacks a size: {received}. Expected: {expected}.',
  missing_volume: '{parameter} lacks the volume: {received}. Expected: {expected}.',
  bad_table: '{parameter} is no sound table: {received}. Expected: {expected}.',
  bad_code: '{parameter} is no code: {received}. Expected: {expected}.',
  wrong_table: '{parameter} belongs to another table: {received}. Expected: {expected}.',
  not_convertible: '{parameter} cannot be converted: {received}. Expected: {expected}.',
  bad_state: '{parameter} is no state: {received}. Expected: {expected}.',
  bad_configuration: '{parameter} does not fit: {received}. Expected: {expected}.',
  not_prepared: '{parameter} has not been prepared: {received}. Expected: {expected}.',
  bad_csv: '{parameter} is no table of comma-separated values: {received}. Expected: {expected}.',
  no_answer: '{parameter} gives no answer: {received}. Expected: {expected}.',
};
