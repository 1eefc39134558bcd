import { describe, expect, test } from 'vitest';
import {
  as4059Cumulative,
  classify,
  classTable,
  iso4406,
  iso4406Microscope,
  likelyClasses,
  limitsOf,
  nas1638,
  possibleClasses,
} from '../../../src/codes/index.ts';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import { stream } from '../../doubles.ts';
import { some } from '../../volume.ts';
import { randomFrom, shapes } from '../population.ts';
import { indexOf, partly, randomSample, sizesOf, tables } from '../samples.ts';

describe('likelyClasses', () => {
  test.each(tables)('$id: lies within possibleClasses, and on measured sizes equals classify', (table, sizing) => {
    const random = stream(31);
    const codeTable = sizing === 'iso11171' ? iso4406 : iso4406Microscope;
    const coded = codeTable.columns.map((column) => column.from[sizing] as number);
    const sizes = [...new Set([...sizesOf(table, sizing), ...coded])].sort((a, b) => a - b);
    for (let i = 0; i < some(2000, 150); i += 1) {
      const sample = randomSample(random, sizes, sizing);
      const measured = likelyClasses(table, sample);
      const truth = classify(table, sample);
      for (const { column, lowest, highest } of measured.columns) {
        const found = truth.parts.find((part) => part.column === column)?.class;
        if (lowest !== found || highest !== found) expect([lowest, highest], column).toEqual([found, found]);
      }
      const byCode = limitsOf(codeTable, classify(codeTable, sample), sizing);
      const known = i % 2 === 0 ? byCode : partly(random, sample);
      const likely = likelyClasses(table, known);
      const possible = possibleClasses(table, known);
      for (const { column, lowest, highest } of likely.columns) {
        const bound = possible.columns.find((candidate) => candidate.column === column);
        const [least, most] = [indexOf(table, bound?.lowest as string), indexOf(table, bound?.highest as string)];
        if (indexOf(table, lowest) < least || indexOf(table, highest) > most)
          expect.fail(`${column} of ${JSON.stringify(known)}: ${lowest} to ${highest}`);
      }
    }
  });

  test('of a code in its own table says the code', () => {
    const span = likelyClasses(iso4406, limitsOf(iso4406, '18/16/13'));
    expect(span.columns.map(({ lowest, highest }) => [lowest, highest])).toEqual([
      ['18', '18'],
      ['16', '16'],
      ['13', '13'],
    ]);
  });

  test('where nothing can be estimated the bounds stand, and never the cleanest class', () => {
    for (const known of [cumulativeCounts({ 4: 1e6 }), limitsOf(iso4406, '18/-/-'), limitsOf(iso4406, '>28/>28/>28')]) {
      const span = likelyClasses(nas1638, known);
      expect(span.basis).toEqual([]);
      expect(span.highest).toBe('>12');
      expect(span).toMatchObject({ lowest: possibleClasses(nas1638, known).lowest });
    }
  });

  test('one count says nothing beyond its size, and no size under 1 µm is continued to', () => {
    const one = likelyClasses(nas1638, cumulativeCounts({ 6: 1e4 }));
    expect(one.basis).toEqual([]);
    expect(one.columns).toEqual(possibleClasses(nas1638, cumulativeCounts({ 6: 1e4 })).columns);
    const fine = classTable({
      id: 'fine',
      title: 'Fine',
      counting: 'cumulative',
      perVolumeMl: 1,
      columns: [0.5, 1, 4].map((from) => ({ label: `${from}`, from: { iso11171: from } })),
      classes: ['1'],
      limits: [[1e9, 1e9, 1e9]],
      notation: 'single',
    });
    const found = likelyClasses(fine, cumulativeCounts({ 4: 100, 6: 50 }));
    expect(found.basis.map(({ column, basis }) => [column, basis])).toEqual([
      ['1', 'extrapolated'],
      ['4', 'measured'],
    ]);
  });

  test('two equal numbers side by side leave the range between them open', () => {
    const span = likelyClasses(nas1638, limitsOf(iso4406, '18/16/16'));
    expect(span.columns[0]).toEqual({ column: '5-15', lowest: '00', highest: '7' });
  });

  test('measured dirt is never called none', () => {
    const counts = cumulativeCounts({ 6: 10, 14: 1, 21: 0.5, 38: 0.1, 70: 0.001 });
    expect(likelyClasses(nas1638, counts).columns[4]).toEqual({ column: '>100', lowest: '1', highest: '1' });
    const bands = counts.sizes.map((from, i) => {
      const upTo = counts.perMl[i] as number;
      return { from, to: null, above: upTo > 0.01 ? upTo / 2 : 0, upTo: upTo > 0.01 ? upTo : 0.00005 };
    });
    const banded = likelyClasses(nas1638, { sizing: 'iso11171', bands });
    expect(banded.basis[4]).toMatchObject({ basis: 'measured', low: 0, high: 0.005 });
    expect(banded.columns[4]).toEqual({ column: '>100', lowest: '00', highest: '1' });
  });

  test('a real sample of a code lies within', () => {
    const counts = cumulativeCounts({ 4: 600, 6: 155, 14: 41 });
    expect(classify(iso4406, counts).text).toBe('16/14/13');
    expect(classify(nas1638, counts, { columns: ['5-15'] }).worst).toBe('6');
    expect(likelyClasses(nas1638, limitsOf(iso4406, '16/14/13')).columns[0]).toMatchObject({ highest: '6' });
  });
});

describe('beyond the sizes counted', () => {
  // the three ways of docs/comparison.md, written out
  const slope = (a: readonly number[], b: readonly number[]) =>
    Math.log((a[1] as number) / (b[1] as number)) / Math.log((b[0] as number) / (a[0] as number));
  const along = (pairs: readonly (readonly [number, number])[], size: number, share = 0.2, bend = 1.2) => {
    const [before, near, last] = [pairs.at(-3), pairs.at(-2) as readonly [number, number], pairs.at(-1)] as const;
    const [from, count] = last as readonly [number, number];
    const steepness = slope(near, [from, count]);
    const earlier = before === undefined ? steepness : slope(before, near);
    const square = (x: number) => Math.log(x) ** 2;
    const bent = Math.log((near[1] as number) / count) / (square(from) - square(near[0] as number));
    const flatter = steepness * (1 - share) - bend * Math.max(0, earlier - steepness);
    return [
      count * (size / from) ** -steepness,
      count * Math.exp(-bent * (square(size) - square(from))),
      count * (size / from) ** -Math.min(steepness, Math.max(1, flatter)),
    ];
  };

  test.each<[string, Record<number, number>]>([
    ['steeper and steeper', { 4: 2000, 6: 900, 14: 30 }],
    ['flattening', { 4: 2000, 6: 750, 14: 90 }],
    ['flattening much: not under a slope of 1', { 4: 20000, 6: 900, 14: 200 }],
    ['flatter than a slope of 1', { 4: 20000, 6: 900, 14: 800 }],
    ['two sizes', { 6: 900, 14: 60 }],
  ])('%s: the least and the most of three ways', (_name, at) => {
    const pairs = Object.entries(at).map(([size, perMl]) => [Number(size), perMl] as const);
    const { basis } = likelyClasses(as4059Cumulative, cumulativeCounts(at));
    for (const [column, size] of [
      ['D', 21],
      ['E', 38],
      ['F', 70],
    ] as const) {
      const found = basis.find((one) => one.column === column);
      const expected = along(pairs, size).map((perMl) => 100 * perMl);
      expect(found?.basis).toBe('extrapolated');
      expect((found?.low as number) / Math.min(...expected)).toBeCloseTo(1, 9);
      expect((found?.high as number) / Math.max(...expected)).toBeCloseTo(1, 9);
    }
  });

  test('from a code: of its ends, and mixtures of ends drawn in by a quarter of the width in logarithms', () => {
    const [low, high] = [
      [1300, 320, 40],
      [2500, 640, 80],
    ] as const;
    const drawn = low.map((end, i) => [0.25, 0.75].map((part) => end * ((high[i] as number) / end) ** part));
    const mixed = [0, 1, 2, 3, 4, 5, 6, 7].map((bits) => drawn.map((ends, i) => ends[(bits >> i) & 1] as number));
    const { basis } = likelyClasses(as4059Cumulative, limitsOf(iso4406, '18/16/13'));
    const expected = [low, high, ...mixed].flatMap(([at4, at6, at14]) =>
      along(
        [
          [4, at4 as number],
          [6, at6 as number],
          [14, at14 as number],
        ],
        21,
        0.1,
        0.4,
      ),
    );
    const found = basis.find(({ column }) => column === 'D');
    expect((found?.low as number) / Math.min(...expected)).toBeCloseTo(100, 7);
    expect((found?.high as number) / Math.max(...expected)).toBeCloseTo(100, 7);
  });

  test('below them the smallest two are continued, and a zero stays one', () => {
    const { basis } = likelyClasses(as4059Cumulative, cumulativeCounts({ 6: 900, 14: 60, 21: 0 }));
    const steepness = slope([6, 900], [14, 60]);
    const low = 90000 * (6 / 4) ** steepness;
    expect(basis[0]).toMatchObject({ column: 'A', basis: 'extrapolated' });
    expect([basis[0]?.low, basis[0]?.high].some((one) => Math.abs((one as number) / low - 1) < 1e-9)).toBe(true);
    expect(basis.slice(3).map((one) => [one.column, one.basis, one.low, one.high])).toEqual([
      ['D', 'measured', 0, 0],
      ['E', 'extrapolated', 0, 0],
      ['F', 'extrapolated', 0, 0],
    ]);
  });

  test('between them it is interpolated', () => {
    const { basis } = likelyClasses(as4059Cumulative, cumulativeCounts({ 4: 2000, 14: 30 }));
    expect(basis.slice(0, 3).map((one) => one.basis)).toEqual(['measured', 'interpolated', 'measured']);
    const straight = 200000 * (6 / 4) ** -slope([4, 2000], [14, 30]);
    const part = (Math.log(6) ** 2 - Math.log(4) ** 2) / (Math.log(14) ** 2 - Math.log(4) ** 2);
    const bent = 200000 * (30 / 2000) ** part;
    expect((basis[1]?.high as number) / bent).toBeCloseTo(1, 9);
    expect((basis[1]?.low as number) / (straight ** 2 / bent)).toBeCloseTo(1, 9);
    // a third size tells the bend, and a zero beyond does not
    const [third, zero] = [
      { 4: 2000, 14: 30, 21: 8 },
      { 4: 2000, 14: 30, 21: 0 },
    ].map((at) => likelyClasses(as4059Cumulative, cumulativeCounts(at)).basis[1]);
    expect(third?.low).toBe(third?.high);
    expect(zero).toEqual(basis[1]);
    // below 1 µm log-log² has no scale
    const fine = likelyClasses(iso4406, cumulativeCounts({ 0.9: 1e5, 14: 30 })).basis;
    expect(fine[0]?.low).toBe(fine[0]?.high);
  });
});

describe('between the only two sizes counted', () => {
  test.each([
    [4, 14, 6],
    [4, 21, 6],
    [4, 21, 14],
    [6, 21, 14],
  ])('%d and %d: the scale number at %d holds in 97 of 100 oils of each shape', (from, to, between) => {
    for (const draw of Object.values(shapes)) {
      const next = randomFrom(4406);
      const oils = some(400, 100);
      let held = 0;
      for (let i = 0; i < oils; i += 1) {
        const oil = draw(next);
        const at = (sizes: number[]) =>
          cumulativeCounts(Object.fromEntries(sizes.map((size) => [size, Number(oil(size).toPrecision(6))])));
        const of = ({ column }: { column: string }) => column === `${between}`;
        const truth = classify(iso4406, at([between])).parts.find(of)?.class as string;
        const span = likelyClasses(iso4406, at([from, to])).columns.find(of);
        const [low, high] = [span?.lowest as string, span?.highest as string];
        if (indexOf(iso4406, low) <= indexOf(iso4406, truth) && indexOf(iso4406, truth) <= indexOf(iso4406, high))
          held += 1;
      }
      expect(held / oils).toBeGreaterThanOrEqual(0.97);
    }
  });
});
