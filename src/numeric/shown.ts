/** Figures in sentences for people: short, and never so short that a figure looks like its limit. */

/** One over it is the least figure that is not shown as 0. */
const leastShown = 1e12;

/** Beyond it a double has no fraction, and below no digit is missing. */
const allDigits = 4503599627370496;

/**
 * A figure as a sentence shows it: three digits that mean something, or all digits of a whole number, half up; more
 * where it would else look like `beside`. Two figures shown each beside the other get as many more, so that they differ
 * in the sentence, in the right order. Never an exponent below 1e21.
 */
export function shown(figure: number, beside: number = figure): string {
  let more = 1;
  while (figure !== beside && round(figure, more) === round(beside, more)) more *= 10;
  return plain(round(figure, more));
}

/** Without an exponent, down to 1e-12. */
function plain(figure: number): string {
  const [digits = '', places] = `${figure}`.split('e-');
  if (places === undefined) return digits;
  const sign = figure < 0 ? '-' : '';
  return `${sign}0.${new Array(Number(places)).join('0')}${digits.replace(/[-.]/g, '')}`;
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
  let digits = 1;
  while (size * digits < 100 && digits < leastShown) digits *= 10;
  const scale = more * digits;
  return size * scale >= allDigits ? figure : Math.floor(figure * scale + 0.5) / scale;
}
