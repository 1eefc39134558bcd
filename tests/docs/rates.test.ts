/** The tables of rates in docs/rates.md were measured on the statistics as they are. */
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { fingerprint, tables } from '../../bench/statistics/tables.ts';
import { some } from '../volume.ts';

const page = readFileSync('docs/rates.md', 'utf8');

const tried = Object.entries(tables).filter((_, i) => i % some(1, 20) === 0);

test.each(tried)('%s: else make it anew with bench/statistics/rates.ts', (name, rates) => {
  const mark = new RegExp(`<!-- rates ${name}: seed (\\d+), (\\d+) ([a-z-]+) a cell, fingerprint ([0-9a-f]{8}) -->`);
  const [, seed, count, unit, known] = mark.exec(page) ?? [];
  expect(Number(count)).toBeGreaterThanOrEqual(unit === 'series' ? 2000 : 200);
  expect(unit).toBe(rates.unit);
  expect(known).toBe(fingerprint(rates, Number(seed)));
});
