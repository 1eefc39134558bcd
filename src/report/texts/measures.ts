/** Shares and durations in the words of a language. */
import { durationOf, percentOf } from '../figures.ts';
import { fill, localized } from './fill.ts';
import type { Texts } from './types.ts';

/** A share as a percentage with one decimal. Never 100 or 0 unless it is all or nothing. */
export function percentText(part: number, total: number, texts: Texts): string {
  const { sign, digits } = percentOf(part, total);
  return fill(texts.percent, { number: sign + localized(digits, texts) });
}

/** A probability as a percentage: nothing measured is certain, so it is never 100 or 0. */
export function probabilityText(probability: number, texts: Texts): string {
  return percentText(Math.min(Math.max(probability, 1e-9), 1 - 1e-9), 1, texts);
}

/** A time as minutes, hours or days: rounded up, so that a plan is not too short; `down` for the end of what holds. */
export function durationText(minutes: number, texts: Texts, towards: 'up' | 'down' = 'up'): string {
  const { unit, digits } = durationOf(minutes, towards);
  return fill(texts.durations[unit], { number: localized(digits, texts) });
}
