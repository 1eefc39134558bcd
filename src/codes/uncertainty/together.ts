/** The chance that several counts of one sample keep their limits together. */
import { exp } from '../../numeric/exponential.ts';
import type { UnsureColumn } from './budget.ts';
import { chanceBelow, meanOverBell } from './spread.ts';

/** A column and the limit it is to keep, per mL. */
export interface Kept {
  readonly column: UnsureColumn;
  readonly perMl: number;
}

/**
 * What the sizes share (volume, flow, sampling, dilution) moves all of them at once and is averaged over; counting,
 * sizes and coincidence count as independent from column to column. Where larger particles are among the smaller
 * ones they rise and fall together instead, and the chance is a little higher than said: on the cautious side.
 */
export function chanceTogether(kept: readonly Kept[]): number {
  const first = kept[0] as Kept;
  if (kept.length === 1) return chanceBelow(first.perMl, first.column.spread);
  const alone = kept.map(({ column, perMl }) => ({ perMl, spread: { ...column.spread, other: column.own } }));
  const shared = first.column.shared;
  const product = (z: number) => {
    let chance = 1;
    for (const { perMl, spread } of alone) {
      if (chance > 0) chance *= chanceBelow(perMl * exp(-shared * z), spread);
    }
    return chance;
  };
  if (shared === 0) return product(0);
  let step = 0.25;
  for (const { column } of kept) {
    const width = Math.sqrt(column.own * column.own + 1 / (column.spread.counted + 1));
    step = Math.min(step, width / shared / 2);
  }
  step = Math.max(step, finestStep);
  return meanOverBell(step, reach, (i) => product(i * step));
}

/** In standard deviations: beyond lie 6e-7. */
const reach = 5;
/** Finer, a step of a chance is a step of the sum, of less than 0.002. */
const finestStep = 0.00390625;
