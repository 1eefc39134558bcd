/**
 * Figures in sentences for people: short, and never so short that a figure looks like its limit.
 */

/** A figure as a sentence shows it: three digits or all digits of a whole number, more where it would else look like `beside`. */
export function shown(figure: number, beside?: number): string {
  const rounded = round(figure);
  return beside !== undefined && figure !== beside && rounded === round(beside) ? `${figure}` : `${rounded}`;
}

function round(figure: number): number {
  const scale = Math.abs(figure) >= 100 ? 1 : Math.abs(figure) >= 10 ? 10 : Math.abs(figure) >= 1 ? 100 : 1000;
  return Math.floor(figure * scale + 0.5) / scale;
}
