/** Reading a code. Whatever comes, the answer is a code or an error that says where in the text the trouble starts. */
import { requireText } from '../../checks.ts';
import { errorAt, motescaleError } from '../../errors.ts';
import { className } from '../classIndex.ts';
import { requireTable } from '../requireTable.ts';
import type { ClassTable, Code, CodePart, Notation } from '../types.ts';
import { formatAnyParts, notationOf } from './formatParts.ts';

/** A piece of the text between slashes, without the blanks around it, and where it starts. */
interface Piece {
  readonly text: string;
  readonly position: number;
  /** Where the piece ends, blanks included. */
  readonly end: number;
}

const longestCode = 200;

/**
 * Reads a code or class as written in the table's notation. Blanks around parts, small size letters, and the dashes and
 * slashes of other keyboards are accepted; `text` of the result is the standard form.
 *
 * - ISO 4406: `22/18/13`; `-` not counted, `*` too many, `>=7` (or `≥7`) few counted, `>28` beyond. Microscope:
 *   `-/18/13`, and the two-part code of the 1987 edition `18/13`, which is the same.
 * - SAE AS4059 Table 2: `6B`, `7B/6C/5D`, `6B-F`. A class without a letter is refused there: it means Table 1
 *   (`as4059Differential`) from revision F on and meant size B before.
 * - One class for all, such as NAS 1638: `6`, `00`, `>12`, `8 or dirtier`.
 *
 * The code stands alone: of `ISO 4406 18/16/13` or `NAS 1638 class 6` the error says what to take off.
 *
 * @param parameter what errors call the text
 * @throws `bad_code` with `position`; `wrong_type` if the text is no string.
 *
 * @example
 * ```ts
 * import { iso4406, parseCode } from 'motescale/codes';
 * parseCode(iso4406, '14 / 12 / >=7').parts[2]; // => { column: '14', class: '7', mark: 'few_counted' }
 * ```
 */
export function parseCode(table: ClassTable, text: string, parameter = 'text'): Code {
  requireTable(table);
  requireText(parameter, 'parameter');
  if (typeof text !== 'string') throw motescaleError('wrong_type', parameter, text, `a code of ${table.title}`);
  const bad: Refusal = (position, expected) => errorAt(position, 'bad_code', parameter, text, expected);
  if (text.length > longestCode) throw bad(longestCode, `a code of at most ${longestCode} characters`);
  const plain = plainSigns(text);
  let parts: CodePart[];
  try {
    parts = readers[notationOf(table)](table, piecesOf(plain), bad);
  } catch (error) {
    const start = codeAfterWords(table, plain);
    if (start === null) throw error;
    throw bad(0, `the code alone: '${plain.slice(start).trim()}', without '${plain.slice(0, start).trim()}'`);
  }
  return { table: table.id, parts, text: formatAnyParts(table, parts) };
}

/** Where the code starts after words before it, such as the name of its standard; null where it does not. */
export function codeAfterWords(table: ClassTable, plain: string): number | null {
  const read = readers[notationOf(table)];
  if (!/^ *[a-z]/i.test(plain)) return null;
  for (let at = 1; at < plain.length; at += 1) {
    if (plain.charAt(at - 1) !== ' ' && plain.charAt(at - 1) !== ':') continue;
    try {
      read(table, piecesOf(plain.slice(at)), () => new Error());
      return at;
    } catch (_error) {
      // the code may start further on
    }
  }
  return null;
}

/** Makes the error for a place in the text and what would have been right there. */
type Refusal = (position: number, expected: string) => Error;

type Reader = (table: ClassTable, pieces: readonly Piece[], bad: Refusal) => CodePart[];

const readers: Readonly<Record<Notation, Reader>> = {
  scale_numbers: readScaleNumbers,
  scale_numbers_after_dash: readAfterDash,
  lettered: readLettered,
  single: readSingle,
};

function readScaleNumbers(table: ClassTable, pieces: readonly Piece[], bad: Refusal): CodePart[] {
  const { columns } = table;
  const sizes = columns.map((column) => column.label).join('/');
  if (pieces.length !== columns.length) {
    const extra = pieces[columns.length];
    const end = (pieces[pieces.length - 1] as Piece).end;
    const dashed = pieces.length === 1 && /^\d+(\s*[-.,:;_\\|]|\s+\d)/.test((pieces[0] as Piece).text);
    const elsewhere = table.elsewhere === undefined ? '' : `; ${table.elsewhere}`;
    const other = dashed ? ' with slashes between the numbers' : elsewhere;
    throw bad(extra === undefined ? end : extra.position - 1, `${columns.length} numbers, at ${sizes} µm${other}`);
  }
  return columns.map((column, i) => readScaleNumber(table, column.label, pieces[i] as Piece, bad));
}

function readAfterDash(table: ClassTable, pieces: readonly Piece[], bad: Refusal): CodePart[] {
  const dash = pieces[0] as Piece;
  if (pieces.length !== table.columns.length + 1) return readScaleNumbers(table, pieces, bad);
  if (dash.text !== '-') throw bad(dash.position, "'-' in the first place, or a two-part code");
  return readScaleNumbers(table, pieces.slice(1), bad);
}

function readScaleNumber(table: ClassTable, column: string, piece: Piece, bad: Refusal): CodePart {
  if (piece.text === '-') return { column, class: null, mark: 'not_counted' };
  if (piece.text === '*') return { column, class: null, mark: 'too_many' };
  const sign = piece.text.slice(0, 2) === '>=' ? 2 : piece.text.charAt(0) === '≥' ? 1 : 0;
  const named = sign === 0 ? piece.text : piece.text.slice(sign).trim();
  const found = readClass(table, named);
  if (found === null || (sign > 0 && found.mark !== undefined)) {
    const first = table.classes[0];
    const last = table.classes[table.classes.length - 1];
    throw bad(piece.position, `a scale number from ${first} to ${last}, '>${last}', '>=' and a number, '-' or '*'`);
  }
  return sign > 0 ? { column, class: named, mark: 'few_counted' } : { column, ...found };
}

function readLettered(table: ClassTable, pieces: readonly Piece[], bad: Refusal): CodePart[] {
  const labels = table.columns.map((column) => column.label);
  const parts = labels.map((column): CodePart => ({ column, class: null, mark: 'not_counted' }));
  for (const piece of pieces) {
    const match = /^(>?\s*\d+)\s*(\D)(?:\s*-\s*(\D))?$/.exec(piece.text);
    const found = match === null ? null : readClass(table, match[1] as string);
    if (match === null || found === null) {
      const letter = /^>?\s*\d+$/.test(piece.text)
        ? ' (a class without a size letter is Table 1, or size B in old revisions)'
        : '';
      throw bad(piece.position, `a class and a size letter, such as '6B', '7B/6C/5D' or '6B-F'${letter}`);
    }
    const from = labels.indexOf((match[2] as string).toUpperCase());
    // an absent group is '' on some engines
    const letter = match[3] ? match[3].toUpperCase() : null;
    const to = letter === null ? from : labels.indexOf(letter);
    if (from < 0 || to < from) throw bad(piece.position, `size letters ${labels.join(', ')}, the smaller size first`);
    for (let i = from; i <= to; i += 1) {
      if ((parts[i] as CodePart).class !== null)
        throw bad(piece.position, `each size once; ${labels[i]} stands before`);
      const column = labels[i] as string;
      parts[i] = letter === null ? { column, ...found } : { column, ...found, mark: 'at_most' };
    }
  }
  return parts;
}

function readSingle(table: ClassTable, pieces: readonly Piece[], bad: Refusal): CodePart[] {
  const piece = pieces[0] as Piece;
  const open = /\s+or\s+dirtier$/i.exec(piece.text);
  const named = open === null ? piece.text : piece.text.slice(0, open.index);
  const found = pieces.length > 1 ? null : readClass(table, named);
  if (found === null) throw bad(piece.position, `a class of ${table.title}: ${table.classes.join(', ')}`);
  if (open !== null)
    return table.columns.map(({ label }) => ({ column: label, class: found.class, mark: 'or_dirtier' }));
  const only = table.columns.length === 1;
  return table.columns.map(({ label: column }) => ({
    column,
    mark: 'at_most',
    ...(only ? found : { class: found.class }),
  }));
}

/** A class by name, or the sign for beyond the last. */
function readClass(table: ClassTable, named: string): { class: string; mark?: 'beyond' } | null {
  if (table.classes.indexOf(named) >= 0) return { class: named };
  const beyond = className(table, table.classes.length);
  return named.replace(/^>\s+/, '>') === beyond ? { class: beyond, mark: 'beyond' } : null;
}

function piecesOf(text: string): Piece[] {
  let position = 0;
  return text.split('/').map((piece) => {
    const blanks = piece.search(/\S|$/);
    const found = { text: piece.trim(), position: position + blanks, end: position + piece.length };
    position += piece.length + 1;
    return found;
  });
}

/**
 * Sign for sign, with one slash, one dash for a size not counted, one blank, and digits of single width, as other
 * keyboards write them.
 */
export function plainSigns(text: string): string {
  const narrow = text.replace(/[\uFF01-\uFF5E]/g, (sign) => String.fromCharCode(sign.charCodeAt(0) - 0xfee0));
  const slashes = narrow.replace(/[\u2044\u2215]/g, '/');
  return slashes.replace(/[\u2010-\u2015\u2212]/g, '-').replace(/[\t\u00A0\u3000]/g, ' ');
}
