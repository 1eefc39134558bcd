/**
 * How wide a text is: an estimate on the wide side, so that room kept for a text is enough whatever letters a viewer
 * has, and the picture is laid out the same everywhere.
 */
import { wordsOf } from '../textLayout.ts';

/** In hundredths of the size of the letters, for letters of a common width; a broad face is within it. */
function letterWidth(letter: string): number {
  if ("iljtfrI.,:;|'!()[] ".indexOf(letter) >= 0) return 36;
  if ('mwMW@%'.indexOf(letter) >= 0) return 100;
  return letter >= 'A' && letter <= 'Z' ? 76 : 64;
}

/** A text that a picture can hold: what XML has no form for, such as U+0000, is a blank. */
export function drawable(text: string): string {
  const pairOrNone = /[\uD800-\uDBFF][\uDC00-\uDFFF]|[^ -\uD7FF\uE000-\uFFFD]/g;
  return text.replace(pairOrNone, (found) => (found.length === 2 ? found : ' '));
}

/** How much wider bold letters are. */
export const bold = 1.12;

/** The width of a text in pixels. */
export function textWidth(text: string, fontSize = 11): number {
  let hundredths = 0;
  for (let i = 0; i < text.length; i += 1) hundredths += letterWidth(text.charAt(i));
  return (hundredths * fontSize) / 100;
}

export function widestOf(texts: readonly string[]): number {
  let widest = 0;
  for (const text of texts) widest = Math.max(widest, textWidth(text));
  return widest;
}

/** How many letters of a text fit in so many pixels: one at least. */
function lettersWithin(text: string, width: number, fontSize: number): number {
  let hundredths = 0;
  for (let i = 0; i < text.length; i += 1) {
    hundredths += letterWidth(text.charAt(i));
    if ((hundredths * fontSize) / 100 > width) return Math.max(i, 1);
  }
  return text.length;
}

/** A text in lines no wider than so many pixels; a word wider than that is cut. */
export function wrapped(text: string, width: number, fontSize = 11): string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of wordsOf(text)) {
    let rest = word;
    if (line !== '' && textWidth(`${line} ${rest}`, fontSize) > width) {
      lines.push(line);
      line = '';
    }
    for (;;) {
      const cut = lettersWithin(rest, width, fontSize);
      if (cut >= rest.length) break;
      lines.push(rest.slice(0, cut));
      rest = rest.slice(cut);
    }
    line = line === '' ? rest : `${line} ${rest}`;
  }
  if (line !== '' || lines.length === 0) lines.push(line);
  return lines;
}

/** Notes joined, a new line where the next one does not fit in, a long one wrapped. */
export function notesIn(notes: readonly string[], separator: string, width: number): string[] {
  const lines: string[] = [];
  let line = '';
  for (const note of notes) {
    const longer = line === '' ? note : line + separator + note;
    if (line !== '' && textWidth(longer) > width) {
      lines.push(...wrapped(line, width));
      line = note;
    } else line = longer;
  }
  return line === '' ? lines : [...lines, ...wrapped(line, width)];
}
