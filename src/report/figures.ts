/** Figures as a person reads them, never with an exponent. */

/** Four digits: 0.02345 as such, 33.333 as `33.33`, 1893.4 as `1893`, half up. Numbers of 0 or more, below 1e15. */
export function figureText(value: number): string {
  const wholeFrom = 1000;
  if (value >= wholeFrom) return String(Math.floor(value + 0.5));
  if (value === 0) return '0';
  let places = 0;
  let scaled = value;
  while (scaled < wholeFrom && places < 12) {
    scaled *= 10;
    places += 1;
  }
  return decimalText(Math.floor(scaled + 0.5), places);
}

/**
 * A share as a percentage with one decimal: 0.987 as 98.7. Never 100 or 0 unless it is all or nothing: then a sign says
 * so.
 */
export function percentOf(share: number): { sign: string; digits: string } {
  const tenths = Math.floor(1000 * share + 0.5);
  if (share > 0 && tenths === 0) return { sign: '< ', digits: '0.1' };
  if (share < 1 && tenths === 1000) return { sign: '> ', digits: '99.9' };
  return { sign: '', digits: decimalText(tenths, 1) };
}

/** A time in minutes below two hours, hours below two days, days below a hundred years. */
export function durationOf(
  minutes: number,
  towards: 'up' | 'down',
): { unit: 'minutes' | 'hours' | 'days' | 'centuries'; digits: string } {
  if (minutes < 120) return { unit: 'minutes', digits: figureOf(minutes, minutes < 10 ? 10 : 1, towards) };
  if (minutes < 2880) return { unit: 'hours', digits: figureOf(minutes / 60, 10, towards) };
  if (minutes < 52596000) return { unit: 'days', digits: figureOf(minutes / 1440, 10, towards) };
  return { unit: 'centuries', digits: '' };
}

/** To whole parts of so many; what is off a whole by less than a billionth is that whole. */
function figureOf(value: number, parts: number, towards: 'up' | 'down'): string {
  const nearest = Math.floor(value * parts + 0.5);
  const isWhole = Math.abs(value * parts - nearest) <= 1e-9 * nearest;
  const beside = towards === 'up' ? Math.ceil(value * parts) : Math.floor(value * parts);
  return decimalText(isWhole ? nearest : beside, parts === 1 ? 0 : 1);
}

/** A whole number of units of 10^-places, trailing zeros left out. */
function decimalText(whole: number, places: number): string {
  let digits = String(whole);
  while (digits.length <= places) digits = `0${digits}`;
  const cut = digits.length - places;
  const decimals = digits.slice(cut).replace(/0+$/, '');
  return decimals === '' ? digits.slice(0, cut) : `${digits.slice(0, cut)}.${decimals}`;
}
