/** The text of a CSV file cut into lines and fields, to RFC 4180. */
import { atLine, errorAt, type MotescaleError } from '../../errors.ts';
import { plainSign, withoutBlanks } from './csvFormat.ts';

export interface Field {
  readonly text: string;
  readonly quoted: boolean;
  /** Position behind the field. */
  readonly end: number;
}

export interface Line {
  readonly fields: readonly Field[];
  readonly start: number;
  /** Where the next line starts. */
  readonly next: number;
}

/** Where a line cannot be read, and what should stand there. */
export interface Trouble {
  readonly at: number;
  readonly expected: string;
}

/** The line that starts there, up to its end; or what is wrong with it. */
export function readLine(text: string, start: number, separator: string): Line | Trouble {
  const fields: Field[] = [];
  let at = start;
  for (;;) {
    const field = text.charAt(at) === '"' ? quotedField(text, at) : bareField(text, at, separator);
    if ('expected' in field) return field;
    fields.push(field);
    at = field.end;
    if (at >= text.length || text.charAt(at) !== separator) break;
    at += 1;
  }
  if (at < text.length && !isLineEnd(text.charAt(at))) {
    return { at, expected: 'a separator or the end of the line' };
  }
  return { fields, start, next: behindEnd(text, at) };
}

/** Where the next line of the file starts, whatever stands in this one. */
export function nextLine(text: string, start: number): number {
  let at = start;
  while (at < text.length && !isLineEnd(text.charAt(at))) at += 1;
  return behindEnd(text, at);
}

function behindEnd(text: string, at: number): number {
  return at + (text.charAt(at) === '\r' && text.charAt(at + 1) === '\n' ? 2 : 1);
}

function bareField(text: string, from: number, separator: string): Field | Trouble {
  let end = from;
  while (end < text.length) {
    const character = text.charAt(end);
    if (character === separator || isLineEnd(character)) break;
    if (character === '"') {
      return { at: end, expected: 'quotes only around a whole cell, doubled within' };
    }
    end += 1;
  }
  return { text: text.slice(from, end), quoted: false, end };
}

function quotedField(text: string, from: number): Field | Trouble {
  let content = '';
  let part = from + 1;
  for (;;) {
    const close = text.indexOf('"', part);
    if (close < 0) return { at: from, expected: 'a closing quote' };
    content += text.slice(part, close);
    if (text.charAt(close + 1) !== '"') return { text: content, quoted: true, end: close + 1 };
    content += '"';
    part = close + 2;
  }
}

/** What may be a number: within quotes blanks are meant. */
export function bareText({ text, quoted }: Field): string {
  return plainSign(quoted ? text : withoutBlanks(text));
}

/** Whether nothing at all stands in the line, or blanks alone. */
export function isBlank({ fields }: Line): boolean {
  const first = fields[0] as Field;
  return fields.length === 1 && !first.quoted && bareText(first) === '';
}

function isLineEnd(character: string): boolean {
  return character === '\n' || character === '\r';
}

/** The line at a position, counted as an editor counts, from 1; asked of positions in order. */
export function lineCounter(text: string): (at: number) => number {
  let line = 1;
  let before = 0;
  return (at) => {
    line += text.slice(before, at).split(/\r\n|[\r\n]/).length - 1;
    before = at;
    return line;
  };
}

/** What came, from a place to the end of its line, or of so many signs. */
export function restOfLine(text: string, at: number, end?: number): string {
  return text.slice(at, end).split(/[\r\n]/)[0] as string;
}

export function badCsv(text: string, at: number, expected: string): MotescaleError {
  const error = errorAt(at, 'bad_csv', 'text', restOfLine(text, at), expected);
  return atLine(error, { line: lineCounter(text)(at) });
}
