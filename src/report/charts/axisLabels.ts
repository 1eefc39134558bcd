/**
 * What stands at the marks of an axis, written here in the signs of the language: the renderer would write it in its
 * own locale, and one picture would have two kinds of number.
 */
import { fill, localized } from '../texts/fill.ts';
import { monthNames } from '../texts/monthNames.ts';
import type { Texts } from '../texts/types.ts';
import { dateText, minuteText } from '../timeText.ts';

/**
 * An expression that gives each value of an axis its text. What reads `0` is what is left: the place of 0 on a
 * logarithmic axis is no short decimal, and engines write its digits differently.
 */
export function labelsOf(values: readonly number[], textOf: (value: number) => string): string {
  const labels = values.map((value) => ({ value, text: textOf(value) }));
  const others = labels.filter(({ text }) => text !== '0');
  const texts = others.map(({ text }) => quoted(text)).join(',');
  const label = `[${texts}][indexof([${others.map(({ value }) => value).join(',')}], toNumber(datum.value))]`;
  return others.length === values.length ? label : `${label} || '0'`;
}

/** A text in an expression: whatever a language has in it, it ends where it ends. */
function quoted(text: string): string {
  return `'${text.replace(/[\\']/g, '\\$&').replace(/[\r\n\u2028\u2029]/g, ' ')}'`;
}

/** A number at an axis, with all its digits. */
export function numberLabel(value: number, texts: Texts): string {
  const digits = String(value);
  return digits.indexOf('e') < 0 ? localized(digits, texts) : digits.replace('.', texts.decimalSign);
}

/** A day and its month: `5 Nov`. */
export function dayLabel(time: number, texts: Texts): string {
  const day = String(Number(dateText(time).slice(8)));
  return fill(texts.charts.dayOfMonth, { day, month: monthLabel(time, texts) });
}

/** The time of day, `08:30`; a day at midnight. */
export function clockLabel(time: number, texts: Texts): string {
  const clock = minuteText(time, 0).slice(11);
  return clock === '00:00' ? dayLabel(time, texts) : clock;
}

/** A month, and in January the year. */
export function monthOrYearLabel(time: number, texts: Texts): string {
  const [year, month, day] = dateText(time).split('-') as [string, string, string];
  return month === '01' && day === '01' ? String(Number(year)) : monthLabel(time, texts);
}

function monthLabel(time: number, { charts }: Texts): string {
  const month = Number(dateText(time).slice(5, 7));
  return charts.months[monthNames[month - 1] as (typeof monthNames)[number]];
}
