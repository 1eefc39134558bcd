/** What a table of rates is made of: cells of so many runs, each with draws of its own. */
import { draws } from '../../tests/properties/trend/trendCorrelated.ts';

export type Draws = ReturnType<typeof draws>;

/** A run of one table: `count` series (or machine-years) a cell; `fresh` gives the draws of the next cell. */
export interface Run {
  readonly count: number;
  readonly fresh: () => Draws;
}

/** The rows of a table, the header first. */
export type Table = (run: Run) => readonly (readonly string[])[];

export function runOf(seed: number, count: number): Run {
  let cell = 0;
  const fresh = () => {
    cell += 1;
    return draws(seed * 1000003 + 7919 * cell);
  };
  return { count, fresh };
}

export function percent(hits: number, of: number): string {
  return of === 0 ? '-' : ((100 * hits) / of).toFixed(1);
}

export function markdown([header, ...rows]: readonly (readonly string[])[]): string {
  const rule = (header ?? []).map(() => '---');
  return [header ?? [], rule, ...rows].map((row) => `| ${row.join(' | ')} |`).join('\n');
}
