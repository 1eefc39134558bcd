/**
 * Codes worked out by hand: the ends of what they take, and what they say of columns that were not counted. Limits of
 * classes are those of tests/reference/classes/tables.json, where document, edition and place stand.
 */
import { describe, expect, test } from 'vitest';
import { cornersOf } from '../../../src/codes/comparison/corners.ts';
import { knowledgeOf } from '../../../src/codes/comparison/knowledge.ts';
import {
  as4059Cumulative,
  type ClassTable,
  classify,
  classifyColumns,
  classTable,
  codeInterval,
  findCodes,
  gost17216,
  iso4406,
  likelyClasses,
  limitsOf,
  meets,
  nas1638,
  parseCode,
  possibleClasses,
} from '../../../src/codes/index.ts';
import { asksFor } from '../../../src/codes/meets.ts';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import { expectRefused, type Refused } from '../../inputs/refused.ts';

const of = (...counts: number[]) => Float64Array.of(...counts);
const placesOf = (table: ClassTable, columns: Record<number, Float64Array>, options = {}) =>
  classifyColumns(table, columns, options).columns.map(({ classes }) => [...classes]);

describe('columns', () => {
  test('are taken in order of size, whatever their order', () => {
    const columns = { 14: of(3), 38: of(1), 4.6: of(5), 6: of(4), 4: of(9) };
    expect(placesOf(iso4406, columns)).toEqual([[10], [9], [9]]);
  });

  test('of which nothing is known have no class, and are open', () => {
    const none = of(Number.NaN);
    for (const table of [iso4406, nas1638])
      expect(classifyColumns(table, { 4: none, 6: none, 14: none, 21: none })).toMatchObject({
        worst: Int16Array.of(-1),
        open: Uint8Array.of(1),
      });
  });

  test('between two sizes are decided as decimals', () => {
    // class 4 of NAS 1638 has up to 4000 from 5 to 15 µm in 100 mL
    expect(nas1638.limits[nas1638.classes.indexOf('4')]?.[0]).toBe(4000);
    const rows = [
      [100.1, 60.1],
      [100.3, 60.3],
      [1070.7, 1030.7],
      [100.2, 60.1],
      [100.1, 60.2],
    ] as const;
    const found = placesOf(nas1638, { 6: of(...rows.map(([from]) => from)), 14: of(...rows.map(([, to]) => to)) });
    expect(found[0]?.map((place) => nas1638.classes[place])).toEqual(['4', '4', '4', '5', '4']);
  });

  test('every second size leaves a class as open as one row alone does', () => {
    const rows = [
      [9000, 40, 2],
      [400, 39, 0],
      [90, 2, 1],
      [4, 4, 4],
    ];
    const column = (i: number) => of(...rows.map((row) => row[i] as number));
    for (const sizes of [
      [6, 21, 70],
      [6, 14, 38],
      [14, 21, 70],
    ]) {
      const [a, b, c] = sizes as [number, number, number];
      const { worst, open } = classifyColumns(nas1638, { [a]: column(0), [b]: column(1), [c]: column(2) });
      rows.forEach((row, k) => {
        const alone = classify(nas1638, cumulativeCounts({ [a]: row[0], [b]: row[1], [c]: row[2] } as never));
        expect(nas1638.classes[worst[k] as number] ?? '>12').toBe(alone.worst);
        expect(open[k]).toBe(alone.missing.length > 0 ? 1 : 0);
      });
    }
  });

  test.each<Refused>([
    ['out_of_range', 'perMl[1000000]', 'a size in µm', () => classifyColumns(iso4406, { 4: of(1), 1e6: of(1) })],
    [
      ...(['missing_size', 'perMl', 'the sizes of column 14'] as const),
      () => classifyColumns(iso4406, { 6: of(1) }, { columns: ['6', '14'] }),
    ],
    ['missing_size', 'perMl', 'sizes of ISO 4406', () => classifyColumns(iso4406, { 70: of(1) })],
    ['wrong_type', 'perMl', 'sizes in µm', () => classifyColumns(iso4406, { x4: of(1) } as never)],
    ['wrong_type', 'perMl', 'sizes in µm', () => classifyColumns(iso4406, { '4 µm': of(1) } as never)],
    ['length_mismatch', 'perMl[6]', '0 counts', () => classifyColumns(iso4406, { 4: of(), 6: of(1) })],
    ['out_of_range', 'text', 'at most 100000 characters', () => findCodes('x'.repeat(100001))],
  ])('%s at %s: %s', expectRefused);

  test('a sizing that a table has not is refused by those it has', () => {
    for (const table of [nas1638, gost17216, as4059Cumulative]) {
      const call = () => classify(table, { sizing: 'iso11171b', sizes: [4], perMl: [1] });
      expectRefused('sizing_not_convertible', 'counts.sizing', `the sizings of ${table.title}`, call);
      expect(call).not.toThrow(/undefined|Stryker/);
      expect(call).toThrow(new RegExp(`${table.title.replace(/[().]/g, '.')}$`));
    }
  });
});

describe('counts of particles', () => {
  const perMl = cumulativeCounts({ 4: 1280, 6: 260, 14: 33.1 });

  test.each([
    ['counted in a volume', cumulativeCounts({ 4: 12800, 6: 2600, 14: 331 }, { volumeMl: 10 })],
    ['diluted', cumulativeCounts({ 4: 12800, 6: 2600, 14: 331 }, { volumeMl: 100, dilution: 10 })],
  ])('%s leave the same classes as those per mL, where they are the same', (_what, raw) => {
    const same = { ...raw, counted: undefined, volumeMl: undefined, dilution: undefined };
    for (const table of [nas1638, gost17216, as4059Cumulative]) {
      const known = cumulativeCounts(
        Object.fromEntries(same.sizes.map((size, i) => [size, same.perMl[i] as number])) as never,
      );
      expect(possibleClasses(table, raw)).toEqual(possibleClasses(table, known));
    }
  });

  test('per mL bound each range by the counts around it', () => {
    expect(possibleClasses(nas1638, perMl).columns[0]).toEqual({ column: '5-15', lowest: '7', highest: '7' });
  });

  test('leave out of sight what no size known bounds, and nothing else', () => {
    expect(possibleClasses(nas1638, cumulativeCounts({ 14: 33 })).unseen).toEqual(['5-15']);
    expect(possibleClasses(nas1638, perMl).unseen).toEqual([]);
  });

  test('of a range lie between their limits of chance, without what is larger', () => {
    // 2700 of 6 to 14 µm(c) in 10 mL: 27,000 in 100 mL, and at 95 % up to 28,039; class 7 has 32,000
    const { low, high } = codeInterval(nas1638, cumulativeCounts({ 6: 2900, 14: 200 }, { volumeMl: 10 }));
    expect([low.parts[0]?.class, high.parts[0]?.class]).toEqual(['7', '7']);
    // 3150: 31,500, and up to 32,620
    const near = codeInterval(nas1638, cumulativeCounts({ 6: 3350, 14: 200 }, { volumeMl: 10 }));
    expect([near.low.parts[0]?.class, near.high.parts[0]?.class]).toEqual(['7', '8']);
  });
});

test('what is likely says what was measured, lies between, or lies beyond', () => {
  const { basis } = likelyClasses(as4059Cumulative, cumulativeCounts({ 4: 1890, 6: 402, 14: 33, 38: 1 }));
  expect(basis.map((one) => one.basis)).toEqual([
    ...['measured', 'measured', 'measured', 'interpolated', 'measured', 'extrapolated'],
  ]);
});

test('the first class is named as such in the evidence, and no other', () => {
  const { evidence } = classify(iso4406, cumulativeCounts({ 4: 1890, 6: 0, 14: 0 }));
  expect(evidence.map((one) => one.end)).toEqual([undefined, 'first_class', 'first_class']);
});

test('of a target only the columns judged are asked for', () => {
  const counts = cumulativeCounts({ 4: 1000, 6: 900, 14: 800 });
  const met = (target: string, columns: string[]) => meets(iso4406, target, counts, { columns }).met;
  expect([met('18/16/13', ['4']), met('18/16/13', ['6']), met('18/16/13', ['4', '14'])]).toEqual([true, false, false]);
  expect([met('-/-/13', ['4']), met('-/-/13', ['14'])]).toEqual([null, false]);
  const { parts } = parseCode(iso4406, '-/-/13');
  expect([asksFor(parts), asksFor(parts, ['14']), asksFor(parts, ['4', '14'])]).toEqual([true, true, true]);
  expect(asksFor(parts, ['4', '6'])).toBe(false);
});

test('a class for all columns and its bands say the same', () => {
  const bands = limitsOf(nas1638, '00').bands;
  expect(bands.map(({ above, upTo }) => [above, upTo])).toEqual(
    nas1638.limits[0]?.map((limit) => [0, (limit as number) / 100]),
  );
});

describe('a code as samples at the ends of its bands', () => {
  const cornersFor = (table: ClassTable, code: string) => {
    const known = limitsOf(table, code);
    return cornersOf(known, knowledgeOf(known, table));
  };

  test('a band that begins at nothing is drawn in by a quarter, on the scale of the counts', () => {
    // 0 is up to 0.01 per mL; 8 is from 1.3 to 2.5, drawn in on a logarithmic scale
    const corners = cornersFor(iso4406, '8/0/0');
    const inward = corners?.outer.slice(2).map(({ perMl }) => perMl.slice(1)) ?? [];
    expect([...new Set(inward.flat())].sort()).toEqual([expect.closeTo(0.0025, 12), expect.closeTo(0.0075, 12)]);
    const four = corners?.outer.slice(2).map(({ perMl }) => perMl[0] as number) ?? [];
    const [low, high] = [Math.log(1.3), Math.log(2.5)];
    const drawn = [low + (high - low) / 4, high - (high - low) / 4].map(Math.exp);
    expect([...new Set(four)].sort()).toEqual(drawn.map((count) => expect.closeTo(count, 9)));
    expect(corners?.outer.slice(0, 2).map(({ perMl }) => perMl)).toEqual([
      [1.3, 0, 0],
      [2.5, 0.01, 0.01],
    ]);
  });

  test('of more than six sizes only the cleanest and the dirtiest are taken', () => {
    const columns = [4, 6, 10, 14, 21, 25, 38].map((size) => ({ label: `${size}`, from: { iso11171: size } }));
    const wide = (n: number) =>
      classTable({
        ...{ id: `own${n}`, title: 'Own', counting: 'cumulative', perVolumeMl: 1, classes: ['1', '2'] },
        columns: columns.slice(0, n),
        limits: [10, 100].map((limit) => columns.slice(0, n).map((_column, i) => limit / (i + 1))),
      });
    expect(cornersFor(wide(7), '2')?.all).toHaveLength(2);
    expect(cornersFor(wide(6), '2')?.all.length).toBeGreaterThan(2);
  });
});
