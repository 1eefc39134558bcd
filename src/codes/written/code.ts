/** A code handed in as text or as data: checked against its table. */
import { requireObject } from '../../checks.ts';
import { motescaleError, show } from '../../errors.ts';
import { className } from '../classIndex.ts';
import { requireTable } from '../requireTable.ts';
import type { ClassTable, Code, CodePart } from '../types.ts';
import { parseCode } from './parseCode.ts';

/** The code itself, or the code that a text says. Errors name the parameter it came by. */
export function asCode(table: ClassTable, code: string | Code, parameter: string): Code {
  if (typeof code === 'string') return parseCode(table, code, parameter);
  requireCodeOf(table, code, parameter);
  return code;
}

/** Those of a code, and those that a classification has besides. */
const codeMembers = ['table', 'parts', 'text', 'evidence', 'worst', 'worstColumns', 'missing'];

/** Throws unless the code was made with this table: one part for each column, in order, each of one of its classes. */
export function requireCodeOf(table: ClassTable, code: Code, parameter: string): void {
  requireTable(table);
  requireObject(code, parameter, 'a code as text, or as parseCode or classify gives it', codeMembers);
  if (code.table !== table.id)
    throw motescaleError(
      'wrong_table',
      `${parameter}.table`,
      code.table,
      `${show(table.id)}, the table it is read with`,
    );
  const { columns, classes } = table;
  const beyond = className(table, classes.length);
  if (!Array.isArray(code.parts) || code.parts.length !== columns.length) {
    const expected = `${columns.length} parts, one for each column`;
    throw motescaleError('length_mismatch', `${parameter}.parts`, code.parts, expected);
  }
  for (let i = 0; i < columns.length; i += 1) {
    const part: CodePart = code.parts[i];
    const name = `${parameter}.parts[${i}]`;
    requireObject(part, name, 'a part { column, class }', ['column', 'class', 'mark']);
    const label = columns[i]?.label;
    if (part.column !== label) throw motescaleError('bad_code', `${name}.column`, part.column, show(label));
    if (part.class !== null && part.class !== beyond && classes.indexOf(part.class) < 0)
      throw motescaleError('bad_code', `${name}.class`, part.class, `a class of ${table.title}, or '${beyond}'`);
  }
}
