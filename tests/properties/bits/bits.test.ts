/**
 * No figure changes by a bit unnoticed: the walk that all engines run, and longer series than they have the time for,
 * give the results on record. They are no check of truth, which the reference figures and the twins are.
 *
 * MOTESCALE_WRITE=1 writes the record anew; the changelog then says which figures changed, and why.
 */
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import * as library from '../../../src/scripts/whole.ts';
import * as codes from '../../engines/cases/codes.ts';
import * as counts from '../../engines/cases/counts.ts';
import * as filtration from '../../engines/cases/filtration.ts';
import * as monitor from '../../engines/cases/monitor.ts';
import * as readers from '../../engines/cases/readers.ts';
import * as sampling from '../../engines/cases/sampling.ts';
import * as sure from '../../engines/cases/sure.ts';
import * as units from '../../engines/cases/units.ts';
import * as viscosity from '../../engines/cases/viscosity.ts';
import * as water from '../../engines/cases/water.ts';
import { type Library, record } from '../../engines/recorder.ts';
import { full } from '../../volume.ts';
import { walk as longSeries } from './longSeries.ts';

const file = new URL('./recorded.json', import.meta.url);
const walks: Readonly<Record<string, (motescale: Library) => void>> = {
  codes: codes.walk,
  counts: counts.walk,
  filtration: filtration.walk,
  longSeries,
  monitor: monitor.walk,
  readers: readers.walk,
  sampling: sampling.walk,
  sure: sure.walk,
  units: units.walk,
  viscosity: viscosity.walk,
  water: water.walk,
};
type Recorded = Record<string, Record<string, string>>;

/** By function: how often it was called, and the digest of all it gave. Texts are looked at elsewhere. */
function found(name: string): Record<string, string> {
  const recorder = record(library);
  walks[name]?.(recorder.motescale);
  const lines = recorder.report().split('\n');
  const called = lines
    .map((line) => line.split(/ (.*)/) as [string, string])
    .filter(([, rest]) => !rest.startsWith('0 '));
  return Object.fromEntries(called.filter(([one]) => one !== 'whole' && !/Text$|^message/.test(one)));
}

describe('the results on record', () => {
  test.skipIf(process.env.MOTESCALE_WRITE !== '1')('are written', () => {
    const all: Recorded = Object.fromEntries(Object.keys(walks).map((name) => [name, found(name)]));
    writeFileSync(file, `${JSON.stringify(all, null, 2)}\n`);
  });

  const recorded = (): Recorded => JSON.parse(readFileSync(file, 'utf8'));

  test('are those of every walk of figures', () => {
    const cases = readdirSync(new URL('../../engines/cases', import.meta.url)).map((name) => name.replace('.ts', ''));
    expect(Object.keys(walks).sort()).toEqual([...cases.filter((name) => name !== 'report'), 'longSeries'].sort());
    expect(Object.keys(recorded())).toEqual(Object.keys(walks));
  });

  const quick = Object.keys(walks).filter((name) => full || name !== 'longSeries');
  test.each(quick)('%s', (name) => {
    expect(found(name)).toEqual(recorded()[name]);
  });
});
