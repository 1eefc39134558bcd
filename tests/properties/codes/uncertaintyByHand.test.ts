/**
 * How sure codes are, worked out by hand: single pieces, at the places where their formulas change. Limits of classes
 * are those of tests/reference/classes/tables.json, where document, edition and place stand.
 */
import { describe, expect, test } from 'vitest';
import {
  as4059Cumulative,
  classify,
  classTable,
  codeUncertainty,
  compareCodes,
  countChange,
  indexOfDispersion,
  iso4406,
  iso4406Microscope,
  limitsOf,
  nas1638,
  targetProbability,
  zetaScore,
} from '../../../src/codes/index.ts';
import type { UnsureColumn } from '../../../src/codes/uncertainty/budget.ts';
import { columnSlopes } from '../../../src/codes/uncertainty/slope.ts';
import { chanceBelow, quantile, type Spread } from '../../../src/codes/uncertainty/spread.ts';
import { chanceTogether } from '../../../src/codes/uncertainty/together.ts';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import { prepareMonitor } from '../../../src/monitor/index.ts';
import { normalBelow } from '../../../src/numeric/normal.ts';
import { poissonAtMost } from '../../../src/numeric/tails.ts';
import { expectRefused, type Refused } from '../../inputs/refused.ts';

const spread = (counted: number, more: Partial<Spread> = {}): Spread => ({
  ...{ counted, onePerMl: 1, other: 0, shift: 0 },
  ...more,
});

describe('the distribution behind a count', () => {
  test.each([1000, 1003, 5000])('of %i particles is nearly that of Gamma, by the law of Poisson', (counted) => {
    for (const z of [-3, -2, -1.2, -0.5, 0, 0.4, 1, 2, 3]) {
      const x = counted + 1 + z * Math.sqrt(counted + 1);
      // P(Gamma(n + 1) <= x) is P(more than n) at a mean of x
      expect(Math.abs(chanceBelow(x, spread(counted)) - (1 - poissonAtMost(counted, x)))).toBeLessThan(3e-5);
    }
  });

  test('just below and from 1000 particles it is one, and a loss by coincidence moves it up', () => {
    for (const x of [930, 980, 1010, 1080]) {
      const [below, from] = [999, 1000].map((counted) => chanceBelow(x * (counted / 1000), spread(counted)));
      expect(Math.abs((below as number) - (from as number))).toBeLessThan(2e-3);
      expect(chanceBelow(x * Math.exp(0.02), spread(1000, { shift: 0.02 }))).toBeCloseTo(from as number, 9);
    }
  });

  test.each<[number, Partial<Spread>]>([
    [0, {}],
    [12, { other: 0.2, shift: 0.05, onePerMl: 0.1 }],
    [12, { other: 0.9, onePerMl: 40 }],
    [4000, { other: 0.08, shift: 0.1, onePerMl: 0.05 }],
  ])('what lies below the limits of %i particles is the share asked for', (counted, more) => {
    for (const share of [0.00005, 0.025, 0.5, 0.9, 0.99995])
      expect(chanceBelow(quantile(share, spread(counted, more)), spread(counted, more))).toBeCloseTo(share, 9);
  });
});

describe('several sizes together', () => {
  const column = (counted: number, own: number, shared: number): UnsureColumn => ({
    ...{ index: 0, label: '4', from: 4, to: null, rows: [], own, shared },
    spread: spread(counted, { other: Math.sqrt(own * own + shared * shared) }),
  });

  test('that share all of their error keep a limit as one does', () => {
    for (const z of [-1.1, 0.3, 0.37, 1.9]) {
      const perMl = 1e8 * Math.exp(0.3 * z);
      const kept = [1, 2, 3].map(() => ({ column: column(1e8, 0, 0.3), perMl }));
      expect(Math.abs(chanceTogether(kept) - normalBelow(z))).toBeLessThan(0.002);
    }
  });

  test('that share nothing keep theirs each on its own', () => {
    const kept = [0.3, -0.2].map((z) => ({ column: column(1e8, 0.1, 0), perMl: 1e8 * Math.exp(0.1 * z) }));
    expect(chanceTogether(kept)).toBeCloseTo(normalBelow(0.3) * normalBelow(-0.2), 4);
  });

  test('of few particles, by 1,200 steps of the error they share', () => {
    const [four, two] = [column(4, 0.05, 0.4), column(2, 0.05, 0.4)];
    const kept = [
      { column: four, perMl: 7 },
      { column: two, perMl: 3 },
    ];
    let [sum, weight] = [0, 0];
    for (let i = -600; i <= 600; i += 1) {
      const z = i / 100;
      const bell = Math.exp((-z * z) / 2);
      const alone = kept.map(({ column: { spread: of }, perMl }) =>
        chanceBelow(perMl * Math.exp(-0.4 * z), { ...of, other: 0.05 }),
      );
      weight += bell;
      sum += bell * alone.reduce((product, chance) => product * chance, 1);
    }
    expect(Math.abs(chanceTogether(kept) - sum / weight)).toBeLessThan(1e-4);
  });
});

describe('of ranges', () => {
  const counts = cumulativeCounts({ 6: 4000, 14: 600, 21: 90, 38: 30, 70: 2 }, { volumeMl: 10 });

  test('the particles are those between their sizes', () => {
    const { columns, budget } = codeUncertainty(nas1638, counts);
    expect(columns.map(({ column, from, to, perMl }) => [column, from, to, perMl])).toEqual([
      ['5-15', 6, 14, 340],
      ['15-25', 14, 21, 51],
      ['25-50', 21, 38, 6],
      ['50-100', 38, 70, 2.8000000000000003],
      ['>100', 70, null, 0.2],
    ]);
    expect(budget).toHaveLength(5 * 7);
    expect(budget.every(({ share }) => share >= 0 && share <= 1)).toBe(true);
    const counting = budget.filter(({ part }) => part === 'counting').map(({ standard }) => standard);
    expect(counting[0]).toBeCloseTo(1 / Math.sqrt(3401), 12);
    expect(counting[4]).toBeCloseTo(1 / Math.sqrt(3), 12);
  });

  test('a slope given is steepened by the share that the range holds, to 20 over its width at most', () => {
    const narrow = cumulativeCounts({ 4: 1000, 6: 900 }, { volumeMl: 10 });
    const { sizing, certificate } = columnSlopes(narrow, { from: 0, to: 1 }, 0.1, 5);
    expect(sizing).toBeCloseTo((20 / Math.log(6 / 4)) * Math.sqrt(1 + 0.9 * 0.9), 9);
    expect(certificate).toBe(5);
    expect(columnSlopes(narrow, { from: 0, to: 1 }, 0.1, 1).sizing).toBeCloseTo(10 * Math.sqrt(1 + 0.9 * 0.9), 9);
  });

  test('dirtier than the last class is the most probable worst of far too many', () => {
    const dirty = cumulativeCounts({ 6: 4e7, 14: 6e6, 21: 9e5, 38: 3e5, 70: 2e4 }, { volumeMl: 10 });
    expect(codeUncertainty(nas1638, dirty).mostProbable.text).toBe('>12');
  });
});

test('what must hold of a target at several sizes: at most the least sure, at least as if all failed apart', () => {
  const counts = cumulativeCounts({ 4: 12600, 6: 2400, 14: 60 }, { volumeMl: 10 });
  const { columns, atLeast, atMost, probability } = targetProbability(iso4406, '17/15/10', counts);
  const chances = columns.map((one) => one.probability);
  expect(atMost).toBe(Math.min(...chances));
  expect(atLeast).toBeCloseTo(1 - chances.reduce((sum, chance) => sum + 1 - chance, 0), 12);
  expect(atLeast).toBeGreaterThan(0.3);
  expect(probability).toBeGreaterThan(atLeast);
  expect(probability).toBeLessThan(atMost);
});

describe('one code against another', () => {
  const against = (code: string, other: string, table = nas1638) =>
    compareCodes({ table, code }, { table: iso4406, code: other });

  test('the cleanest class says nothing of a range that is at its limit', () => {
    expect(against('00', '10/8/5').possible).toBe(true);
    expect(against('00', '18/16/13').possible).toBe(false);
    expect(against('00', '18/16/13').columns[0]?.outcome).toBe('cleaner');
  });

  test('a class beyond the last has one range beyond the last limit', () => {
    expect(against('>12', '10/8/5').possible).toBe(false);
    expect(against('>12', '28/27/26').possible).toBe(true);
    expect(limitsOf(nas1638, '12').bands[0]?.upTo).toBe(10240);
  });

  test('a class of one size is that size alone: the others may be anything', () => {
    const letters = (code: string, other: string) => against(code, other, as4059Cumulative);
    expect(letters('8B', '18/16/13').columns).toHaveLength(1);
    expect(letters('12B', '18/16/13')).toMatchObject({ possible: false, columns: [{ outcome: 'dirtier' }] });
    expect(letters('2B', '18/16/13')).toMatchObject({ possible: false, columns: [{ outcome: 'cleaner' }] });
    // a size that is right makes up for none that is wrong
    const known = letters('2B', '18/16/13').columns[0];
    const mixed = letters(`${known?.lowest}B/12C`, '18/16/13');
    expect(mixed.columns.map(({ outcome }) => outcome)).toEqual(['possible', 'dirtier']);
    expect(mixed.possible).toBe(false);
  });

  test('one class for several sizes is that of one of them at least, and the others may be cleaner', () => {
    const letters = (code: string, other: string) => against(code, other, as4059Cumulative);
    // 18/16/11 may be 8A/8B/5C: C alone is cleaner than 8
    const mixed = letters('8B-F', '18/16/11');
    expect([mixed.possible, mixed.columns.every(({ outcome }) => outcome === 'possible')]).toEqual([true, true]);
    expect(letters('8C', '18/16/11')).toMatchObject({ possible: false, columns: [{ outcome: 'dirtier' }] });
    // no size can be of class 9: B and C have too few by the code, and the larger have no more than C
    expect(letters('9B-C', '18/16/11').possible).toBe(false);
    expect(letters('9B-F', '18/16/11').possible).toBe(true);
    expect(letters('6B-F', '18/16/11').columns[0]).toMatchObject({ column: 'B', outcome: 'cleaner' });
    expect(letters('7A-B/9C-F', '18/16/11').possible).toBe(false);
    expect(letters('8A-B/6C-F', '18/16/11').possible).toBe(true);
  });

  test('each class for several sizes is that of one of its own sizes', () => {
    const letters = (code: string, other: string) => against(code, other, as4059Cumulative).possible;
    // up to 0.64 per mL at 14 µm(c), where class 5 of C and of D has more; of F it has 0.16
    const five = as4059Cumulative.limits[as4059Cumulative.classes.indexOf('5')] as number[];
    expect(Math.min(five[2] as number, five[3] as number)).toBeGreaterThan(64);
    expect([letters('8A-B/6C-D', '18/16/6'), letters('8A-B/6C-D', '18/16/11')]).toEqual([false, true]);
    expect(letters('8A-B/6C-F', '18/16/6')).toBe(true);
  });

  test('of a class or dirtier no range is cleaner than that', () => {
    const found = compareCodes({ table: nas1638, code: '8 or dirtier' }, { table: iso4406Microscope, code: '-/18/13' });
    expect(found.columns[0]).toMatchObject({ lowest: '9', given: '8', outcome: 'possible' });
  });

  describe('of a table of one’s own', () => {
    const table = classTable({
      ...{ id: 'own', title: 'Own', counting: 'cumulative', perVolumeMl: 1, classes: ['1', '2', '3'] },
      columns: [
        { label: 'a', from: { iso11171: 4 } },
        { label: 'b', from: { iso11171: 14, microscope: 15 } },
      ],
      limits: [
        [100, 10],
        [1000, null],
        [10000, null],
      ],
    });

    test('a size that is not read may be the one that has the class', () => {
      const clean = { table: iso4406Microscope, code: '-/9/5' };
      expect(compareCodes({ table, code: '3' }, clean).possible).toBe(true);
      expect(compareCodes({ table, code: '3' }, { table: iso4406, code: '9/9/5' }).possible).toBe(false);
    });

    test('a size without a limit in the class before is not the one that has it', () => {
      expect(compareCodes({ table, code: '3' }, { table: iso4406, code: '16/16/16' }).possible).toBe(false);
      expect(compareCodes({ table, code: '3' }, { table: iso4406, code: '17/16/16' }).possible).toBe(true);
    });
  });

  test('beyond the last class, one range is enough', () => {
    expect(against('>12', '28/18/13').possible).toBe(true);
    expect(against('>12', '28/18/9').possible).toBe(false);
    expect(against('12 or dirtier', '28/18/9').possible).toBe(false);
    expect(against('12 or dirtier', '28/18/13').columns.map(({ outcome }) => outcome)).toEqual(
      Array(5).fill('possible'),
    );
  });

  test('the class of each range as counted is held against the code one by one', () => {
    const counts = cumulativeCounts({ 6: 340, 14: 4, 21: 1, 38: 0.1, 70: 0 });
    const code = classify(nas1638, counts);
    const { columns, possible } = compareCodes({ table: nas1638, code }, { table: iso4406, code: '-/13/9' });
    expect([columns[0]?.outcome, possible]).toEqual(['dirtier', false]);
    expect(compareCodes({ table: nas1638, code }, { table: iso4406, code: '-/16/9' }).possible).toBe(true);
    const far = cumulativeCounts({ 6: 20000, 14: 4, 21: 1, 38: 0.1, 70: 0 });
    const beyond = { table: nas1638, code: classify(nas1638, far) };
    expect(compareCodes(beyond, { table: iso4406, code: '-/18/13' }).possible).toBe(false);
    expect(compareCodes(beyond, { table: iso4406, code: '-/22/9' }).possible).toBe(true);
  });

  test('two tables without a sizing in common are told by what they have', () => {
    expectRefused(
      'sizing_not_convertible',
      'second.table',
      "a table with sizes by 'iso11171', as ISO 4406, automatic particle counter; this one has 'microscope'",
      () => compareCodes({ table: iso4406, code: '18/16/13' }, { table: iso4406Microscope, code: '-/16/13' }),
    );
  });
});

test('a slope that is none is refused as such', () => {
  const codes = [{ table: iso4406, target: '18/16/13', errors: { slope: 'steep' } }];
  expect(() => prepareMonitor({ codes } as never)).toThrow(/slope: received 'steep', expected a slope/);
});

describe('the laboratory', () => {
  test('repeats that scatter less than chance have no excess', () => {
    expect(indexOfDispersion([10, 10, 10])).toMatchObject({ index: 0, excess: 0 });
  });

  test.each<Refused>([
    ['no_answer', 'counted', 'at least one particle in all repeats together', () => indexOfDispersion([0, 0])],
    [
      ...(['no_answer', 'measured.standard', 'an uncertainty above 0 in one result at least'] as const),
      () => zetaScore({ value: 1, standard: 0 }, { value: 2, standard: 0 }),
    ],
    [
      ...(['no_answer', 'measured.standard', 'uncertainties that are not vanishing beside the difference'] as const),
      () => zetaScore({ value: 1e308, standard: 1e-308 }, { value: 0, standard: 0 }),
    ],
    [
      ...(['out_of_range', 'first.dilution', 'from 1'] as const),
      () => countChange({ counted: 5, volumeMl: 1, dilution: 0.5 }, { counted: 5, volumeMl: 1 }),
    ],
  ])('%s at %s: %s', expectRefused);
});
