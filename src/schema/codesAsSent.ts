/**
 * Codes as exports write them: under the name of their standard or with it before them, or a class as a number. What is
 * no code of its table is told.
 */
import { hasOwn } from '../checks.ts';
import { standardTables } from '../codes/tables/standardTables.ts';
import type { ClassTable } from '../codes/types.ts';
import { notationOf } from '../codes/written/formatParts.ts';
import { withoutOwnRange } from '../codes/written/givenCode.ts';
import { codeAfterWords, parseCode, plainSigns } from '../codes/written/parseCode.ts';
import { caught, noteLost, noteProblem, type Problem } from '../errors.ts';
import type { Raw } from './members.ts';

/**
 * What may stand before a code, beside the id and the title of its table: its standard, with a year whose codes are the
 * same. Letters and digits alone. A revision of SAE AS4059 is no name here: before F a class without a letter was
 * another.
 */
const names: Readonly<Record<string, readonly string[]>> = {
  iso4406: ['iso', 'iso4406', 'iso44061999', 'iso44062017', 'iso44062021'],
  iso4406Microscope: ['iso', 'iso4406', 'iso44061987', 'iso44061999', 'iso44062017', 'iso44062021'],
  as4059Cumulative: ['as4059', 'saeas4059', 'as4059table2', 'saeas4059table2'],
  as4059Differential: ['as4059', 'saeas4059', 'as4059table1', 'saeas4059table1'],
  nas1638: ['nas', 'nas1638'],
  gost17216: ['gost', 'gost17216'],
  cc1246: ['cc1246', 'ieststdcc1246'],
};

/** Words that say no more than that a code follows; in English and German. */
const kinds = /(code|class|level|klasse)$/;

/** The codes, put right if they can be read; with `leaves` without those that cannot. Undefined if none is left. */
export function codesAsSent(
  codes: Raw,
  tables: readonly ClassTable[],
  leaves: boolean,
  told: Problem[],
): Raw | undefined {
  const read: { [id: string]: unknown } = {};
  const ids = Object.keys(codes);
  const known = tables.concat(standardTables);
  for (const name of ids) {
    const given = codes[name];
    const table = known.filter((one) => one.id === name)[0] ?? tableNamed(name, given, known);
    const id = table === undefined || hasOwn(codes, table.id) || hasOwn(read, table.id) ? name : table.id;
    if (id !== name) noteProblem(told, ['codes', name], 'unknown_option', name, `read as ${id}`);
    let { code, expected } = table === undefined ? { code: given, expected: null } : codeFrom(table, given);
    const tell = (kind: Problem['code'], made: string) => noteProblem(told, ['codes', name], kind, given, made);
    if (code !== given) tell(typeof given === 'string' ? 'bad_code' : 'wrong_type', `read as ${code}`);
    if (expected !== null && leaves) {
      noteLost(told, ['codes', name], 'bad_code', given, expected);
      ({ code, expected } = codeFrom(table as ClassTable, numbersOf(code as string)));
      if (expected !== null) continue;
      tell('bad_code', `read as ${code}`);
    } else if (expected !== null) tell('bad_code', `kept: ${expected}`);
    Object.defineProperty(read, id, { value: code, enumerable: true });
  }
  return ids.length > 0 && Object.keys(read).length === 0 ? undefined : read;
}

/**
 * The table of a standard that a code stands under the name of, as readings of a report do: of several the first that
 * reads the code. Undefined of a name that several standards have.
 */
function tableNamed(name: string, given: unknown, known: readonly ClassTable[]): ClassTable | undefined {
  const named = known.filter((table) => isName(table, name));
  const standards = named.map(({ id, standard = id }) => standard);
  if (standards.some((standard) => standard !== standards[0])) return undefined;
  return named.filter((table) => codeFrom(table, given).expected === null)[0] ?? named[0];
}

/** What is made of a code that came, and what its table would have read instead; null where it can be read. */
interface Sent {
  readonly code: unknown;
  readonly expected: string | null;
}

/**
 * The text of the code, where what came is one but for its name or a number beyond the counter's own range, or is a
 * class written as a number; else what came.
 */
function codeFrom(table: ClassTable, given: unknown): Sent {
  const text = typeof given === 'number' ? `${given}` : given;
  // what is too long, or no text, the rule refuses
  if (typeof text !== 'string' || text.length > longest) return { code: given, expected: null };
  const expected = wanted(table, text);
  if (expected === null) return { code: text, expected };
  if (typeof given === 'number') return { code: given, expected: null };
  const plain = plainSigns(text);
  const read = withoutOwnRange(table, plain);
  const start = wanted(table, read) === null ? 0 : codeAfterWords(table, read);
  if (start === null || (start > 0 && !isName(table, plain.slice(0, start)))) return { code: given, expected };
  const code = read.slice(start).trim();
  // `>12B` would say more than `>6B` does
  return { code: notationOf(table) === 'lettered' ? plain.slice(start).trim() : code, expected: wanted(table, code) };
}

/**
 * A code with a word in place of one number, `ERR/18/15`, with that size not counted. The word may mean too many to
 * count, `***`: what takes the code calls it uncertain, so that it proves nothing.
 */
function numbersOf(code: string): string {
  return plainSigns(code).replace(/(^|\/)\s*[^\d\s/>≥]{2,}\s*(?=\/|$)/, '$1-');
}

/** A code with its name before it is no longer. */
const longest = 200;

/** What the table would have read; null where it can read the code. */
function wanted(table: ClassTable, code: string): string | null {
  try {
    parseCode(table, code);
    return null;
  } catch (error) {
    return caught(error).expected;
  }
}

function isName(table: ClassTable, words: string): boolean {
  const bare = lettersOf(words).replace(kinds, '');
  const { id, title, standard = id } = table;
  const own = [id, standard, title, title.split(',')[0] as string].map(lettersOf);
  return bare === '' || own.concat(names[table.id] ?? []).indexOf(bare) >= 0;
}

function lettersOf(words: string): string {
  return words.toLowerCase().replace(/[^a-z\d]/g, '');
}
