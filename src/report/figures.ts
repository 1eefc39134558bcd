/**
 * Figures as a person reads them: three digits that mean something, never an exponent.
 */

/** 0.0234 as `0.0234`, 33.333 as `33.3`, 1893.4 as `1893`, half up. Numbers of 0 or more, below 1e15. */
export function figureText(value: number): string {
  if (value >= 100) return String(Math.floor(value + 0.5));
  if (value === 0) return '0';
  let places = 0;
  let scaled = value;
  while (scaled < 100 && places < 12) {
    scaled *= 10;
    places += 1;
  }
  return decimalText(Math.floor(scaled + 0.5), places);
}

/** A share as a percentage with one decimal: 0.987 as `98.7 %`. Never 100 or 0 unless it is all or nothing. */
export function percentText(part: number, whole: number): string {
  const tenths = Math.floor((1000 * part) / whole + 0.5);
  if (part > 0 && tenths === 0) return '< 0.1 %';
  if (part < whole && tenths === 1000) return '> 99.9 %';
  return `${decimalText(tenths, 1)} %`;
}

/**
 * A time as minutes, hours or days: `28 min`, `3.5 h`, `2.1 d`. Rounded up, so that a plan is not too short; `down` for the end of what
 * holds. A hundred years and more are told as that.
 */
export function durationText(minutes: number, towards: 'up' | 'down' = 'up'): string {
  if (minutes < 120) return `${figureOf(minutes, minutes < 10 ? 10 : 1, towards)} min`;
  if (minutes < 2880) return `${figureOf(minutes / 60, 10, towards)} h`;
  return minutes < 52596000 ? `${figureOf(minutes / 1440, 10, towards)} d` : 'more than 100 years';
}

/** To whole parts of so many; what is off a whole by less than a billionth is that whole. */
function figureOf(value: number, parts: number, towards: 'up' | 'down'): string {
  const nearest = Math.floor(value * parts + 0.5);
  const off = value * parts - nearest;
  const step = Math.abs(off) <= 1e-9 * nearest ? 0 : towards === 'up' ? (off > 0 ? 1 : 0) : off < 0 ? -1 : 0;
  return decimalText(nearest + step, parts === 1 ? 0 : 1);
}

/** A whole number of units of 10^-places, trailing zeros left out. */
function decimalText(whole: number, places: number): string {
  let digits = String(whole);
  while (digits.length <= places) digits = `0${digits}`;
  const cut = digits.length - places;
  const decimals = digits.slice(cut).replace(/0+$/, '');
  return decimals === '' ? digits.slice(0, cut) : `${digits.slice(0, cut)}.${decimals}`;
}
