/** Figures in sentences for people: short, and never so short that a figure looks like its limit. */

/** Beyond it a double has no fraction, and below no digit is missing. */
const allDigits = 4503599627370496;

/**
 * A figure as a sentence shows it: three digits or all digits of a whole number; more where it would else look like
 * `beside`. Two figures shown each beside the other get as many more, so that they differ in the sentence, in the right
 * order.
 */
export function shown(figure: number, beside: number = figure): string {
  let more = 1;
  while (figure !== beside && round(figure, more) === round(beside, more)) more *= 10;
  return `${round(figure, more)}`;
}

/**
 * An end of a range as an error shows it, to four digits: the least not rounded down, the most not rounded up, so that
 * what is printed is let in.
 */
export function shownEnd(end: number, least: boolean): number {
  let scale = 1;
  while (end * scale < 1000 && scale < 1e15) scale *= 10;
  const near = Math.floor(end * scale + 0.5) / scale;
  if (Math.abs(near - end) <= 1e-9 * end) return near;
  return (least ? Math.ceil(end * scale) : Math.floor(end * scale)) / scale;
}

function round(figure: number, more: number): number {
  const size = Math.abs(figure);
  const scale = more * (size >= 100 ? 1 : size >= 10 ? 10 : size >= 1 ? 100 : 1000);
  return size * scale >= allDigits ? figure : Math.floor(figure * scale + 0.5) / scale;
}
