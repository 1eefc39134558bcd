/** Errors in English, by their code. */
import type { ErrorCode } from '../../errors.ts';

/** One sentence for each code. */
export const englishErrorTexts: Readonly<Record<ErrorCode, string>> = {
  wrong_type: '{parameter} is of the wrong kind: {received}.',
  not_a_number: '{parameter} is no number: {received}.',
  infinite: '{parameter} is infinite.',
  negative: '{parameter} is negative: {received}.',
  not_an_integer: '{parameter} is not a whole number: {received}.',
  out_of_range: '{parameter} is out of range: {received}.',
  empty: '{parameter} is empty.',
  too_few: '{parameter} has too few: {received}.',
  length_mismatch: '{parameter} has another length: {received}.',
  unknown_option: '{parameter} is not known: {received}.',
  unknown_sizing: '{parameter} is no known sizing: {received}.',
  sizing_not_convertible: '{parameter} cannot be converted to another sizing: {received}.',
  sizes_out_of_order: '{parameter} is out of order: {received}.',
  counts_rise_with_size: '{parameter} rises with size: {received}.',
  missing_size: '{parameter} lacks a size: {received}.',
  missing_volume: '{parameter} lacks the volume: {received}.',
  bad_table: '{parameter} is no sound table: {received}.',
  bad_code: '{parameter} is no code: {received}.',
  wrong_table: '{parameter} belongs to another table: {received}.',
  not_convertible: '{parameter} cannot be converted: {received}.',
  bad_state: '{parameter} is no state: {received}.',
  bad_configuration: '{parameter} does not fit: {received}.',
  not_prepared: '{parameter} has not been prepared: {received}.',
  bad_csv: '{parameter} is no table of comma-separated values: {received}.',
  no_answer: '{parameter} gives no answer: {received}.',
};
