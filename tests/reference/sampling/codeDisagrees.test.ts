/**
 * A code that came with counts is held against theirs in the tables of the configuration, however they are written.
 */
import { describe, expect, test } from 'vitest';
import { as4059Cumulative, as4059Differential, classify, classTable } from '../../../src/codes/index.ts';
import type { CumulativeCounts } from '../../../src/counts/index.ts';
import { advanceMonitor, prepareMonitor, startMonitor } from '../../../src/monitor/index.ts';
import { assess } from '../../../src/reading/assessReading.ts';
import { wholeLimits } from '../../../src/reading/ownLimits.ts';

const counts: CumulativeCounts = {
  sizing: 'iso11171',
  sizes: [4, 6, 14, 21, 38, 70],
  perMl: [1890, 732, 130, 22.6, 4.1, 0.7],
};
const own = classTable({
  id: 'own',
  title: 'Table of the canal',
  counting: 'cumulative',
  perVolumeMl: 1,
  columns: [{ label: '6', from: { iso11171: 6 } }],
  classes: ['clean', 'usual', 'dirty'],
  limits: [[100], [1000], [10000]],
});
const plans = [as4059Cumulative, as4059Differential, own].map((table) => ({ table }));
/** By how many classes the code is told to be off; 0 where it is not told. */
function off(codes: Readonly<Record<string, string>>, of: CumulativeCounts = counts): number {
  const reading = { time: 1.8e12, counts: of, codes };
  return assess(wholeLimits(), reading, null, plans).findings.find(({ code }) => code === 'code_disagrees')?.value ?? 0;
}

test('a monitor hands on the tables of its plans', () => {
  const prepared = prepareMonitor({ codes: plans });
  const reading = { time: 1.8e12, counts, codes: { own: 'clean' } };
  const { verdict } = advanceMonitor(prepared, startMonitor(prepared), reading);
  expect(verdict?.findings).toMatchObject([{ code: 'code_disagrees', value: off(reading.codes) }]);
  expect(off(reading.codes)).toBe(1);
});

describe('the code of the counts is no difference, one of another class is', () => {
  test.each(plans.map(({ table }) => [table.id, table] as const))('%s', (id, table) => {
    const { text, worst } = classify(table, counts);
    expect(off({ [id]: text })).toBe(0);
    const classes = table.classes;
    const at = classes.indexOf(worst);
    const moved = (steps: number) => text.split(worst).join(classes[at + steps] as string);
    expect(off({ [id]: moved(1) })).toBe(1);
    expect(off({ [id]: moved(-1) })).toBe(1);
  });

  test('one class for several sizes together is held against the dirtiest', () => {
    const parts = classify(as4059Cumulative, counts).parts.map((part) =>
      as4059Cumulative.classes.indexOf(`${part.class}`),
    );
    const worst = Math.max(...parts);
    expect(Math.min(...parts)).toBeLessThan(worst);
    expect(off({ as4059Cumulative: `${as4059Cumulative.classes[worst]}A-F` })).toBe(0);
    expect(off({ as4059Cumulative: `${as4059Cumulative.classes[worst + 2]}A-F` })).toBe(2);
  });

  test('a class that may be dirtier is no difference from a dirtier one', () => {
    const at = as4059Differential.classes.indexOf(classify(as4059Differential, counts).worst);
    expect(off({ as4059Differential: `${as4059Differential.classes[at - 2]} or dirtier` })).toBe(0);
  });
});

test('what the digits shown leave open is no difference, also between two sizes', () => {
  const { classes, limits, columns } = as4059Differential;
  expect(columns[0]?.from.iso11171).toBe(6);
  expect(columns[0]?.to?.iso11171).toBe(14);
  const at = classes.indexOf('7');
  const limit = (limits[at]?.[0] as number) / 100;
  // shown in steps of 10 at 6 µm and of 1 at 14 µm: between them up to 5.5 more or fewer
  const shown = (between: number) => ({ ...counts, perMl: [990, 10 * Math.ceil((between + 45) / 10), 45, 2, 1, 0] });
  const beyond = (between: number) => (shown(between).perMl[1] as number) - 45 - limit;
  const near = [1, 2, 3, 4, 5].map((n) => limit + n).find((n) => beyond(n) > 0 && beyond(n) < 5.5) as number;
  expect(classify(as4059Differential, shown(near)).worst).toBe('8');
  expect(off({ as4059Differential: '7' }, shown(near))).toBe(0);
  expect(off({ as4059Differential: '7' }, shown(near + 10))).toBe(1);
});

describe('what one of the two does not say is no difference', () => {
  const some = (sizes: readonly number[]): CumulativeCounts => ({
    ...counts,
    sizes,
    perMl: sizes.map((size) => counts.perMl[counts.sizes.indexOf(size)] as number),
  });

  // 1890, 732 and 130 particles per mL are 18/17/14
  test.each<[string, readonly number[], number]>([
    ['18/17/14', [4, 6, 14], 0],
    ['-/17/14', [4, 6, 14], 0],
    ['-/17/11', [4, 6, 14], 3],
    ['18/17/11', [4, 6], 0],
    ['16/17/11', [4, 6], 2],
    ['28/28/28', [21, 38], 0],
    ['18/17', [4, 6, 14], 0],
    ['18/17/14 or so', [4, 6, 14], 0],
  ])('%s beside counts at %j: %d', (iso4406, sizes, wanted) => {
    expect(off({ iso4406 }, some(sizes))).toBe(wanted);
  });

  // the largest size has class 9, the dirtiest of the others 8: one that was not counted may be dirtier
  test.each<[string, readonly number[], number]>([
    ['9A-F', [4, 6, 14, 21, 38, 70], 0],
    ['12A-F', [4, 6, 14, 21, 38, 70], 3],
    ['12A-F', [4, 6, 14, 21, 38], 0],
    ['6A-F', [4, 6, 14, 21, 38], 2],
    ['9A-F', [5], 0],
    ['2E-F', [4, 6, 14], 0],
    ['2E-F', [4, 6, 14, 38], 6],
  ])('%s beside counts at %j: %d', (as4059Cumulative, sizes, wanted) => {
    const [first = 0] = sizes;
    expect(off({ as4059Cumulative }, first === 5 ? { ...counts, sizes, perMl: [900] } : some(sizes))).toBe(wanted);
  });
});

test('a table that cannot take the sizing of the counts, or is not configured, says nothing', () => {
  expect(off({ nas1638: '12' })).toBe(0);
  expect(off({ iso4406: '28/28/28' })).toBeGreaterThan(0);
});
