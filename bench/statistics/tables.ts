/** All tables of rates, and a fingerprint of each that tells whether the statistics have changed since it was made. */
import { changesFound, falseChanges, otherConditions } from './changeTables.ts';
import { afterGaps, risesTold, stepsWhileLearning, whileCleaned } from './changeTimes.ts';
import { crossings, seasons, slowCrossings } from './crossingTables.ts';
import { fewParticles } from './fewParticles.ts';
import { markdown, runOf, type Table } from './table.ts';
import { corrections, falseTrends, otherShapes, repeatedLooks, trendsFound, weekEnds } from './trendTables.ts';

export interface Rates {
  readonly table: Table;
  readonly unit: 'series' | 'machine-years';
  /** Runs a cell for the fingerprint. */
  readonly few: number;
}

const ofSeries = (table: Table): Rates => ({ table, unit: 'series', few: 4 });
const ofYears = (table: Table): Rates => ({ table, unit: 'machine-years', few: 1 });

export const tables: Readonly<Record<string, Rates>> = {
  trend: ofSeries(falseTrends),
  power: ofSeries(trendsFound),
  shapes: ofSeries(otherShapes),
  textbook: ofSeries(corrections),
  weeks: { ...ofSeries(weekEnds), few: 1 },
  looks: ofYears(repeatedLooks),
  crossing: ofSeries(crossings),
  slow: { ...ofSeries(slowCrossings), few: 1 },
  season: ofSeries(seasons),
  false: ofYears(falseChanges),
  found: ofYears(changesFound),
  others: ofYears(otherConditions),
  rises: ofYears(risesTold),
  learning: ofYears(stepsWhileLearning),
  cleaned: ofYears(whileCleaned),
  gaps: ofYears(afterGaps),
  few: ofSeries(fewParticles),
};

/** The table over the first few runs of each cell, as eight hexadecimal digits (FNV-1a). */
export function fingerprint({ table, few }: Rates, seed: number): string {
  let hash = 0x811c9dc5;
  for (const character of markdown(table(runOf(seed, few)))) {
    hash = Math.imul(hash ^ character.charCodeAt(0), 0x01000193) >>> 0;
  }
  return hash.toString(16).padStart(8, '0');
}
