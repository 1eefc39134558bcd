/** Where every figure and formula of the library comes from, entry by entry. */
import { sources as acceptance } from './acceptance/sources.ts';
import { sources as alarm } from './alarm/sources.ts';
import { sources as codes } from './codes/sources.ts';
import { sources as counts } from './counts/sources.ts';
import { sources as filtration } from './filtration/sources.ts';
import { sources as history } from './history/sources.ts';
import { sources as monitor } from './monitor/sources.ts';
import { sources as reading } from './reading/sources.ts';
import { sources as report } from './report/sources.ts';
import { sources as sampling } from './sampling/sources.ts';
import type { Source } from './source.ts';
import { sources as trend } from './trend/sources.ts';
import { sources as viscosity } from './viscosity/sources.ts';
import { sources as water } from './water/sources.ts';

const units: Readonly<Record<'conversions', Source>> = {
  conversions: {
    document: 'NIST Special Publication 811, Guide for the Use of the International System of Units (SI)',
    edition: '2008',
    place: 'appendix B.8; degree Fahrenheit: appendix B.8, TEMPERATURE',
    standing: 'published',
  },
};

/**
 * The sources of all entries: each entry exports its own as `sources`. `motescale/schema` and `motescale/exact`, which
 * stand apart, have theirs.
 *
 * @example
 * ```ts
 * import { sources } from 'motescale';
 * sources.viscosity.viscosityIndex.standing; // => 'reproduced'
 * sources.codes.iso4406.place; // => 'Table 1'
 * ```
 */
export const sources: {
  readonly acceptance: typeof acceptance;
  readonly alarm: typeof alarm;
  readonly codes: typeof codes;
  readonly counts: typeof counts;
  readonly filtration: typeof filtration;
  readonly history: typeof history;
  readonly monitor: typeof monitor;
  readonly reading: typeof reading;
  readonly report: typeof report;
  readonly sampling: typeof sampling;
  readonly trend: typeof trend;
  readonly units: typeof units;
  readonly viscosity: typeof viscosity;
  readonly water: typeof water;
} = {
  acceptance,
  alarm,
  codes,
  counts,
  filtration,
  history,
  monitor,
  reading,
  report,
  sampling,
  trend,
  units,
  viscosity,
  water,
};
