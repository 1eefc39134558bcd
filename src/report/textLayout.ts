/**
 * Plain text in columns, for a letter of fixed width: no line longer than 72 characters unless one word is.
 */
const width = 72;

/** Text filled up with blanks on the left. */
export function toRight(text: string, columns: number): string {
  let filled = text;
  while (filled.length < columns) filled = ` ${filled}`;
  return filled;
}

/** Text filled up with blanks on the right. */
export function toLeft(text: string, columns: number): string {
  let filled = text;
  while (filled.length < columns) filled = `${filled} `;
  return filled;
}

/** A head and what belongs to it, broken into lines that all start where the text starts. */
export function paragraph(head: string, text: string): string[] {
  const indent = toLeft('', head.length);
  const lines: string[] = [];
  let line = head;
  let empty = true;
  for (const word of text.split(/[ \t\r\n]+/)) {
    if (!empty && line.length + 1 + word.length > width) {
      lines.push(line);
      line = indent;
      empty = true;
    }
    line += empty ? word : ` ${word}`;
    empty = false;
  }
  lines.push(line);
  return lines;
}
