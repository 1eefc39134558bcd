/** A target says of counts, of their class as data and of its text the same, but what the text no longer tells. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  as4059Cumulative,
  type ClassTable,
  classify,
  isMotescaleError,
  iso4406,
  meets,
  nas1638,
  parseCode,
  standardTables,
} from '../../../src/codes/index.ts';
import { type CumulativeCounts, cumulativeCounts, type Sizing } from '../../../src/counts/index.ts';
import { stream } from '../../doubles.ts';
import { some } from '../../volume.ts';
import { partly, randomSample, sizesOf } from '../samples.ts';

test('a size that cannot make the class worse need not be counted, by counts and by their class', () => {
  const counts = cumulativeCounts({ 6: 500, 14: 0.9, 21: 0.2, 38: 0.1 });
  const found = classify(nas1638, counts);
  // 10 per 100 mL of 38 µm(c) and larger: class 8 allows 64 above 100 µm
  expect([found.text, found.missing]).toEqual(['8', []]);
  for (const actual of [counts, found, found.text])
    expect(meets(nas1638, '8', actual)).toMatchObject({ met: true, missing: [] });
  for (const actual of [counts, found]) {
    expect(meets(nas1638, '9', actual).met).toBe(true);
    expect(meets(nas1638, '7', actual)).toMatchObject({ met: false });
    // 10 above 38 µm(c) may all be above 70, where class 5 allows 8; between, it allows 45
    const large = meets(nas1638, '5', actual, { columns: ['50-100', '>100'] });
    expect([large.met, large.missing]).toEqual([null, actual === counts ? ['>100'] : ['50-100', '>100']]);
  }
});

test('in a code of several numbers a size that was not counted is not known, however few there are of the next', () => {
  const of = (target: string, at6: number) =>
    meets(iso4406, target, cumulativeCounts({ 4: 400, 6: at6 }, { volumeMl: 10 }));
  expect(of('-/-/20', 8)).toMatchObject({ met: null, missing: ['14'] });
  // no particle of 6 µm: none of 14, where one by chance would be scale number 4 or less
  expect([of('-/-/0', 0).met, of('-/-/1', 0).met]).toEqual([null, true]);
  // the same of the code in which they are written
  expect(meets(iso4406, '18/16/13', parseCode(iso4406, '16/-/12'))).toMatchObject({ met: null, missing: ['6'] });
  const hole = cumulativeCounts({ 4: 640, 14: 40 });
  expect(meets(iso4406, '18/16/13', hole)).toMatchObject({ met: null, missing: ['6'] });
});

/** The answer for a sample known at all its sizes. */
const whole = (table: ClassTable, target: string, counts: CumulativeCounts) => meets(table, target, counts).met;

test('what is shown of part of a sample holds of the whole; counts, their class and its text never contradict', () => {
  const cases = standardTables.flatMap((table) =>
    (['iso11171', 'microscope'] as Sizing[])
      .filter((sizing) => table.columns.some(({ from }) => from[sizing] !== undefined))
      .map((sizing) => [table, sizing] as const),
  );
  const shown = { kept: 0, failed: 0, open: 0 };
  fc.assert(
    fc.property(fc.nat(), fc.constantFrom(...cases), fc.nat(), (seed, [table, sizing], choice) => {
      const random = stream(seed);
      const full = randomSample(random, sizesOf(table, sizing), sizing);
      const some = partly(random, full);
      const name = table.classes[choice % table.classes.length] as string;
      const target =
        table.notation === 'lettered'
          ? `${name}A-F`
          : table.notation === 'single'
            ? name
            : table.columns.map(() => name).join('/');
      let found: ReturnType<typeof classify>;
      try {
        found = classify(table, some);
      } catch (error) {
        expect(isMotescaleError(error) && error.code).toBe('missing_size');
        return;
      }
      const byCounts = meets(table, target, some);
      shown[byCounts.met === null ? 'open' : byCounts.met ? 'kept' : 'failed'] += 1;
      if (byCounts.met !== null) expect(whole(table, target, full) ?? byCounts.met).toBe(byCounts.met);
      const byClass = meets(table, target, found).met;
      if (byClass !== null) expect(byCounts.met).toBe(byClass);
      if (byCounts.met === null && table.notation === 'single')
        // then the class is one that a missing size could make worse, or the target is cleaner for no size seen
        expect(byCounts.missing.length).toBeGreaterThan(0);
      if (table.notation === 'single' && found.missing.length === 0) {
        expect(byCounts.met).toBe(meets(table, target, found.text).met);
        expect(byClass).toBe(byCounts.met);
      }
    }),
    { numRuns: some(6000, 1500) },
  );
  expect(Math.min(shown.kept, shown.failed, shown.open)).toBeGreaterThan(some(6000, 1500) / 50);
});

test('a class for several sizes fails where no sample of it can meet the target, and is open where one does', () => {
  const random = stream(1638);
  const seen: { [key: string]: { met: boolean | null; kept: number; runs: number } } = {};
  const { classes } = as4059Cumulative;
  for (let run = 0; run < some(30000, 6000); run += 1) {
    const counts = randomSample(random, sizesOf(as4059Cumulative, 'iso11171'), 'iso11171');
    const first = Math.floor(3 * random());
    const places = classify(as4059Cumulative, counts).parts.map(({ class: name }) => classes.indexOf(name as string));
    const worst = Math.max(...places.slice(first));
    if (places.indexOf(-1) >= 0 || worst < 3) continue;
    const code = `${classes[worst]}${'ABC'.charAt(first)}-F`;
    const mixed = `${classes[worst]}B/${classes[worst - 1]}C/${classes[worst - 2]}D`;
    const target = [mixed, `${classes[worst - 1]}A-F`, `${classes[worst - 1]}C-F`][Math.floor(3 * random())] as string;
    const key = `${code} against ${target}`;
    const found = seen[key] ?? { met: meets(as4059Cumulative, target, code).met, kept: 0, runs: 0 };
    seen[key] = found;
    found.runs += 1;
    if (meets(as4059Cumulative, target, counts).met) found.kept += 1;
  }
  const answered = (met: boolean | null) => Object.keys(seen).filter((key) => seen[key]?.met === met);
  const failed = answered(false);
  const open = answered(null);
  expect(Math.min(failed.length, open.length)).toBeGreaterThan(20);
  expect(failed.filter((key) => seen[key]?.kept !== 0)).toEqual([]);
  // of nearly all a sample is found that keeps it
  expect(open.filter((key) => seen[key]?.kept === 0).length).toBeLessThan(open.length / 4);
});
