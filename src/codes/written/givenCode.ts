/** A code as an instrument gives it, which may say more than a code of its standard can. */
import { caught, motescaleError } from '../../errors.ts';
import { className } from '../classIndex.ts';
import type { ClassTable, Code } from '../types.ts';
import { notationOf } from './formatParts.ts';
import { parseCode, plainSigns } from './parseCode.ts';

/** What stands before a number beyond a range. */
const beyond = /[>\uFF1E]/;

/**
 * `parseCode`, but `>20`, a number beyond the counter's own range and no upper bound, is read as the table writes that.
 */
export function parseGiven(table: ClassTable, text: string, parameter = 'text'): Code {
  const written = withoutOwnRange(table, text);
  try {
    return parseCode(table, written, parameter);
  } catch (error) {
    // a place in what was made of it is none in what came
    throw written === text ? error : motescaleError('bad_code', parameter, text, caught(error).expected);
  }
}

/** Whether it says `>6`: what is written for it then, beyond the last class, says more than the counter did. */
export function hasOwnRange(table: ClassTable, text: string): boolean {
  return beyond.test(text) && withoutOwnRange(table, text) !== plainSigns(text);
}

/**
 * The text with `*`, too many to count, in place of `>` and a number below the last; `10 or dirtier` for `>9` of one
 * class for all, and the sign for beyond the last (`>12B`) where a class stands with its size letter.
 */
export function withoutOwnRange(table: ClassTable, text: string): string {
  // most have none, and this is asked of each reading
  if (!beyond.test(text)) return text;
  const { classes } = table;
  const notation = notationOf(table);
  return plainSigns(text).replace(/> *(\d+|[^\s/>]+)/g, (as, name: string) => {
    const next = classes[classes.indexOf(name) + 1];
    if (next === undefined || next === classes[0]) return as;
    if (notation === 'single') return `${next} or dirtier`;
    return notation === 'lettered' ? className(table, classes.length) : '*';
  });
}
