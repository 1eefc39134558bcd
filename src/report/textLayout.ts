/** Plain text in columns, for a letter of fixed width: no line longer than 72 characters unless one word is. */
const width = 72;

/** Text filled up on the left. */
export function toRight(text: string, columns: number, sign = ' '): string {
  let filled = text;
  while (filled.length < columns) filled = sign + filled;
  return filled;
}

/** Text filled up with blanks on the right. */
export function toLeft(text: string, columns: number): string {
  let filled = text;
  while (filled.length < columns) filled = `${filled} `;
  return filled;
}

/** Parts of a text between which a line may break: a percent sign stays with its number. */
export function wordsOf(text: string): string[] {
  return text.replace(/[ \t\r\n]+/g, ' ').split(/ (?!%)/);
}

/** A head and what belongs to it, broken into lines that all start where the text starts. */
export function paragraph(head: string, text: string): string[] {
  const indent = toLeft('', head.length);
  const lines: string[] = [];
  let line = head;
  let empty = true;
  for (const word of wordsOf(text)) {
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
