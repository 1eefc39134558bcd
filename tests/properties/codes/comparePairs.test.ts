/** Whether two codes can be those of one sample, decided exactly: against samples drawn, and against another search. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  type ClassTable,
  classify,
  compareCodes,
  gost17216,
  isMotescaleError,
  standardTables,
} from '../../../src/codes/index.ts';
import type { CumulativeCounts, Sizing } from '../../../src/counts/index.ts';
import { stream } from '../../doubles.ts';
import { some } from '../../volume.ts';
import { canBeOneSample } from '../compareSearch.ts';
import { partly, randomSample, sizesOf } from '../samples.ts';

const sizings: readonly Sizing[] = ['iso11171', 'microscope', 'iso4402'];
const tableOf = fc.constantFrom(...standardTables);

const hasSizing = ({ columns }: ClassTable, sizing: Sizing) => columns.some(({ from }) => from[sizing] !== undefined);

/** Of which all sizes are whole in each table that has them. */
function sampleFor(seed: number, tables: readonly ClassTable[], sizing: Sizing): CumulativeCounts {
  const sizes = [...new Set(tables.flatMap((table) => sizesOf(table, sizing)))].sort((a, b) => a - b);
  return randomSample(stream(seed), sizes, sizing);
}

test('two codes of one sample are possible: all tables, whole and in part, as data and as text', () => {
  let tried = 0;
  fc.assert(
    fc.property(fc.nat(), tableOf, tableOf, fc.constantFrom(...sizings), fc.nat(3), (seed, a, b, sizing, kind) => {
      if (!hasSizing(a, sizing) || !hasSizing(b, sizing)) return;
      const whole = sampleFor(seed, [a, b], sizing);
      const codes: { table: ClassTable; code: ReturnType<typeof classify> | string }[] = [];
      for (const table of [a, b]) {
        const counts = kind % 2 === 0 ? whole : partly(stream(seed + codes.length), whole);
        try {
          const code = classify(table, counts);
          codes.push({ table, code: kind < 2 ? code : code.text });
        } catch (error) {
          expect(isMotescaleError(error) && error.code).toBe('missing_size');
          return;
        }
      }
      const [first, second] = codes as [(typeof codes)[0], (typeof codes)[0]];
      const found = compareCodes(first, second, { sizing });
      expect(found.possible, JSON.stringify(codes)).toBe(true);
      expect(found.columns.map(({ outcome }) => outcome)).toEqual(found.columns.map(() => 'possible'));
      tried += 1;
    }),
    { numRuns: some(6000, 20) },
  );
  expect(tried).toBeGreaterThan(some(6000, 20) / 4);
});

/** Every class that one column, or all together, can have, as a code. */
function codesOf(table: ClassTable): string[][] {
  const { classes, columns, notation } = table;
  if (notation === 'lettered') return columns.map(({ label }) => classes.map((name) => `${name}${label}`));
  if (notation === 'single') return [[...classes, `>${classes[classes.length - 1]}`]];
  return columns.map((_column, i) => classes.map((name) => columns.map((_one, k) => (k === i ? name : '-')).join('/')));
}

test.each(standardTables.map((table) => [table.title, table] as const))('%s: one sample has one class', (_, table) => {
  const wrong: string[] = [];
  const byFibres: string[] = [];
  for (const codes of codesOf(table)) {
    // beside each other code; in a short run every third of a long list
    const every = codes.length > 30 ? some(1, 3) : 1;
    for (const one of codes.filter((_code, i) => i % every === 0)) {
      for (const other of codes) {
        const { possible } = compareCodes({ table, code: one }, { table, code: other });
        if (possible === (one === other)) continue;
        if (table === gost17216 && possible) byFibres.push(`${one} ${other}`);
        else wrong.push(`${one} ${other}`);
      }
    }
  }
  expect(wrong).toEqual([]);
  // two classes of GOST 17216 only where fibres or mass, which were counted for one alone, decide the dirtier
  const dirtier = (pair: string) => Math.max(...pair.split(' ').map((name) => table.classes.indexOf(name)));
  expect(byFibres.every((pair) => pair.includes('>') || dirtier(pair) >= table.classes.indexOf('6'))).toBe(true);
});

test('what is possible is what another search finds, and so are the ends of what the second code leaves', () => {
  const seen = { possible: 0, not: 0 };
  const tries = some(1500, 8);
  fc.assert(
    fc.property(tableOf, tableOf, fc.constantFrom(...sizings), fc.nat(), (a, b, sizing, seed) => {
      if (!hasSizing(a, sizing) || !hasSizing(b, sizing)) return;
      const random = stream(seed);
      const whole = sampleFor(seed, [a, b], sizing);
      const near = (table: ClassTable) => {
        // a class near that of a sample: both answers are common then
        const { worst } = classify(table, whole);
        const { classes } = table;
        const place = (classes.indexOf(worst) + 1 || classes.length + 1) - 1 + Math.floor(random() * 5) - 2;
        const name = (i: number) => classes[i] ?? `>${classes[classes.length - 1]}`;
        return [name, Math.min(Math.max(place, 0), classes.length)] as const;
      };
      const [one, other] = [near(a), near(b)].map(([name, place], i) => {
        const table = [a, b][i] as ClassTable;
        if (table.notation === 'lettered') return `${name(place)}B-F`;
        if (table.notation === 'single' || table.notation === undefined) return name(place);
        return table.columns.map((_column, k) => name(Math.max(0, place - 2 * k))).join('/');
      }) as [string, string];
      let found: ReturnType<typeof compareCodes>;
      try {
        found = compareCodes({ table: a, code: one }, { table: b, code: other }, { sizing });
      } catch (error) {
        expect(isMotescaleError(error) && error.parameter).toBe('second.code');
        expect(canBeOneSample([[b, other]], sizing)).toBe(false);
        return;
      }
      const twin = canBeOneSample(
        [
          [a, one],
          [b, other],
        ],
        sizing,
      );
      seen[twin ? 'possible' : 'not'] += 1;
      expect(found.possible, `${a.id} ${one}, ${b.id} ${other}`).toBe(twin);
      if (a.notation !== 'single' || a === gost17216) return;
      const left = [...a.classes, `>${a.classes[a.classes.length - 1]}`].filter((name) =>
        canBeOneSample(
          [
            [a, name],
            [b, other],
          ],
          sizing,
        ),
      );
      if (a.columns.every(({ from }) => from[sizing] !== undefined))
        expect([found.lowest, found.highest]).toEqual([left[0], left[left.length - 1]]);
    }),
    { numRuns: tries },
  );
  expect(Math.min(seen.possible, seen.not)).toBeGreaterThan(tries / 20);
});
