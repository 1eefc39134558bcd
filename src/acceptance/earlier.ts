/** The run and the record of a proof as version 0.1.0 had them, and as they are kept now. */
import { subtractDecimals } from '../numeric/decimal.ts';
import { restartWords } from './rules.ts';
import type { AcceptanceRecord, AcceptanceRestart, AcceptanceRun } from './types.ts';

/** A finding, as it was called and as it is. */
export const flat1 = 'air_or_droplets_likely';
export const flat = 'flat_size_distribution';

export type Run1 = Omit<AcceptanceRun, 'ms' | 'litres' | 'unchecked'> & { readonly unchecked: readonly string[] };
export type Restart1 = { readonly time: number; readonly why: string; readonly text: string | null };
export interface Record1 extends Pick<AcceptanceRecord, Told1> {
  readonly run: Run1;
  readonly lastRestart: Restart1 | null;
}
type Told1 = 'table' | 'target' | 'text' | 'required' | 'notCounted' | 'restarts';

/** Its sentences, in the order of the words. */
const reasons1 = [
  'worse than target',
  'counts stuck',
  'too long since the last good reading',
  'volume counter ran back',
];

/** It counted all the time and volume from the first to the last, and had another name for one finding. */
export function run1(run: Run1): AcceptanceRun {
  if (typeof run !== 'object' || run === null) return run;
  const { from, to, fromLitres, toLitres, unchecked } = run;
  const litres = Math.max(0, subtractDecimals(toLitres ?? 0, fromLitres ?? 0));
  const named = Array.isArray(unchecked) ? unchecked.map((code) => (code === flat1 ? flat : code)) : unchecked;
  return { ...run, ms: to - from, litres, unchecked: named as AcceptanceRun['unchecked'] };
}

export function restart1(restart: Restart1): AcceptanceRestart {
  const place = typeof restart === 'object' && restart !== null ? reasons1.indexOf(restart.why) : -1;
  return place < 0 ? (restart as never) : { ...restart, why: restartWords[place] as AcceptanceRestart['why'] };
}

/** It did not remember how many readings there were, and when they began; what its table says is to be put in. */
export function recordOf1(record: Record1): Omit<AcceptanceRecord, 'title' | 'edition' | 'leftOut' | 'worst'> {
  if (typeof record !== 'object') return record;
  const { run, lastRestart } = record;
  return { readings: null, began: null, ...record, run: run1(run), lastRestart: restart1(lastRestart as Restart1) };
}
