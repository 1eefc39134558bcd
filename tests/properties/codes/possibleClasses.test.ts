import { describe, expect, test } from 'vitest';
import * as codes from '../../../src/codes/index.ts';
import { type CumulativeCounts, cumulativeCounts, type Sizing } from '../../../src/counts/index.ts';
import { stream } from '../../doubles.ts';
import { some } from '../../volume.ts';
import { indexOf, partly, randomSample, sizesOf, tables } from '../samples.ts';

const { limitsOf, possibleClasses, classify } = codes;

const samples = some(100_000, 400);

describe.each(tables)('possibleClasses: $id', (table, sizing) => {
  const random = stream(table.id.length * 7919 + table.classes.length);
  const codeTable = sizing === 'iso11171' ? codes.iso4406 : codes.iso4406Microscope;
  const codeSizes = codeTable.columns.map((column) => column.from[sizing] as number);
  const sizes = [...new Set([...sizesOf(table, sizing), ...codeSizes])].sort((a, b) => a - b);

  test(`${samples} random samples never fall outside, known by some counts or by their code`, () => {
    for (let i = 0; i < samples; i += 1) {
      const sample = randomSample(random, sizes, sizing);
      const truth = classify(table, sample);
      const known = i % 2 === 0 ? partly(random, sample) : limitsOf(codeTable, classify(codeTable, sample), sizing);
      const span = possibleClasses(table, known);
      const worst = indexOf(table, truth.worst);
      if (worst < indexOf(table, span.lowest) || worst > indexOf(table, span.highest)) {
        expect.fail(`${JSON.stringify(known)} allows ${truth.worst}, not within ${span.lowest} to ${span.highest}`);
      }
      for (const { column, lowest, highest } of span.columns) {
        const found = truth.parts.find((part) => part.column === column)?.class;
        if (found === null || found === undefined) continue;
        const index = indexOf(table, found);
        if (index < indexOf(table, lowest) || index > indexOf(table, highest)) {
          expect.fail(`${JSON.stringify(known)} allows ${found} in ${column}, not within ${lowest} to ${highest}`);
        }
      }
    }
  });

  test('is tight: for every end a sample is built that reaches it', () => {
    for (let i = 0; i < some(300, 30); i += 1) {
      const sample = randomSample(random, sizes, sizing);
      const known = i % 2 === 0 ? partly(random, sample) : limitsOf(codeTable, classify(codeTable, sample), sizing);
      const span = possibleClasses(table, known);
      const cleanest = build(table, sizing, sizes, known, span.lowest);
      expect(cleanest, `${JSON.stringify(known)}: a sample of class ${span.lowest}`).not.toBeNull();
      for (const { column, lowest, highest } of span.columns) {
        expect(extreme(table, sizing, sizes, known, column, 'low'), `${column} low of ${JSON.stringify(known)}`).toBe(
          lowest,
        );
        expect(extreme(table, sizing, sizes, known, column, 'high'), `${column} high of ${JSON.stringify(known)}`).toBe(
          highest,
        );
      }
      const highs = span.columns.map(({ column }) =>
        indexOf(table, extreme(table, sizing, sizes, known, column, 'high')),
      );
      expect(Math.max(...highs, beyond100(table, known))).toBe(indexOf(table, span.highest));
    }
  });
});

describe('figures that are no short decimals: rounding may widen the answer, never narrow it', () => {
  test.each(tables)('$id', (table, sizing) => {
    const random = stream(97);
    const sizes = sizesOf(table, sizing);
    for (let i = 0; i < some(3000, 200); i += 1) {
      const whole = randomSample(random, sizes, sizing);
      // an average of three, or a figure beside the limits
      const perMl = whole.perMl.map((count) => (i % 2 === 0 ? count / 3 : count * (1 + 2 ** -52)));
      const sample = { ...whole, perMl };
      const truth = classify(table, sample);
      for (const known of [sample, partly(random, sample)]) {
        const span = possibleClasses(table, known);
        expect(indexOf(table, span.lowest)).toBeLessThanOrEqual(indexOf(table, truth.worst));
        expect(indexOf(table, span.highest)).toBeGreaterThanOrEqual(indexOf(table, truth.worst));
        for (const { column, lowest, highest } of span.columns) {
          const found = indexOf(table, truth.parts.find((part) => part.column === column)?.class ?? lowest);
          if (found < indexOf(table, lowest) || found > indexOf(table, highest)) {
            expect.fail(`${JSON.stringify(known)}: ${column} ${lowest} to ${highest}`);
          }
        }
      }
    }
  });
});

test('neighbouring classes that share a limit leave no empty band', () => {
  const { as4059Cumulative } = codes;
  expect(limitsOf(as4059Cumulative, '2F').bands[0]).toMatchObject({ above: 0, upTo: 0.01 });
  expect(possibleClasses(as4059Cumulative, limitsOf(as4059Cumulative, '00E')).columns[4]).toMatchObject({
    lowest: '000',
  });
});

/** The place of the class of GOST 17216 if all of 70 µm(c) and larger, where counted, are of 100 to 200 µm. */
function beyond100(table: codes.ClassTable, known: CumulativeCounts | codes.CountBands): number {
  if (table.id !== 'gost17216' || known.sizing !== 'iso11171' || 'bands' in known) return 0;
  const counted = known.perMl[known.sizes.indexOf(70)];
  if (counted === undefined) return 0;
  const column = table.columns.findIndex(({ label }) => label === '100-200');
  const kept = table.limits.findIndex((row) => Math.round(counted * unit) * 100 <= (row[column] as number) * unit);
  return kept < 0 ? table.classes.length : kept;
}

test('GOST 17216: particles of 100 µm and larger may all be of the range that no counter to ISO 11171 sizes', () => {
  const sizes = { 4.2: 9000, 4.6: 5000, 6.4: 2000, 9.8: 900, 21.2: 100, 38.2: 12 };
  const of = (at70: number) => cumulativeCounts({ ...sizes, 70: at70 }, { per: '100mL' });
  const spans = [0, 4, 5, 10].map((at70) => {
    const { lowest, highest, unseen } = possibleClasses(codes.gost17216, of(at70));
    expect(unseen).toContain('100-200');
    const likely = codes.likelyClasses(codes.gost17216, of(at70));
    expect([likely.lowest, likely.highest]).toEqual([lowest, highest]);
    return `${lowest} to ${highest}: ${classify(codes.gost17216, of(at70)).text}`;
  });
  // class 7 allows 4 from 100 to 200 µm, class 8 allows 5, class 9 allows 10
  expect(spans).toEqual(['7 to 7: 7', '7 to 7: 7', '7 to 8: 7 or dirtier', '7 to 9: 7 or dirtier']);
  // by microscope it is the same
  const seen = cumulativeCounts({ 5: 2000, 10: 900, 25: 100, 50: 12, 100: 10 }, { sizing: 'microscope', per: '100mL' });
  expect(possibleClasses(codes.gost17216, seen).highest).toBe('9');
  // of a code: 7F is at most 32 of 70 µm(c) and larger per 100 mL, and class 11 allows 50 from 100 to 200 µm
  const code = limitsOf(codes.as4059Cumulative, '5A/5B/5C/5D/5E/7F');
  expect(possibleClasses(codes.gost17216, code).highest).toBe('11');
  expect(codes.likelyClasses(codes.gost17216, code).highest).toBe('11');
});

test('GOST 17216: a range that is counted is no wider than its sizes', () => {
  // 995 from 10 to 25 µm, of which class 7 allows 1000; 1090 of 10 µm and larger
  const sizes = { 4.2: 9000, 4.6: 5000, 6.4: 2000, 9.8: 1090, 21.2: 95, 38.2: 12, 70: 0 };
  expect(possibleClasses(codes.gost17216, cumulativeCounts(sizes, { per: '100mL' })).highest).toBe('7');
});

/** The builders below count in millionths of a particle per mL, as whole numbers: no rounding decides for them. */
const unit = 1e6;

/**
 * Lowest and highest count that the data allow at each size, found by walking, with no knowledge of the method under
 * test.
 */
function walls(sizes: readonly number[], known: CumulativeCounts | codes.CountBands): { low: number; high: number }[] {
  const whole = (perMl: number) => Math.round(perMl * unit);
  const bands =
    'bands' in known
      ? known.bands.map(({ from, above, upTo }) => ({
          from,
          low: above > 0 ? whole(above) + 1 : 0,
          high: whole(upTo ?? 1e9),
        }))
      : known.sizes.map((from, i) => ({
          from,
          low: whole(known.perMl[i] as number),
          high: whole(known.perMl[i] as number),
        }));
  return sizes.map((size) => ({
    low: Math.max(0, ...bands.filter(({ from }) => from >= size).map(({ low }) => low)),
    high: Math.min(1e9 * unit, ...bands.filter(({ from }) => from <= size).map(({ high }) => high)),
  }));
}

function sampleOf(sizes: readonly number[], sizing: Sizing, whole: readonly number[]): CumulativeCounts {
  return { sizing, sizes, perMl: whole.map((count) => count / unit) };
}

/** The class of one column in the sample that makes it as clean or as dirty as the data allow. */
function extreme(
  table: codes.ClassTable,
  sizing: Sizing,
  sizes: readonly number[],
  known: CumulativeCounts | codes.CountBands,
  label: string,
  end: 'low' | 'high',
): string {
  const column = table.columns.find((candidate) => candidate.label === label) as codes.ClassColumn;
  const from = column.from[sizing] as number;
  const bounds = walls(sizes, known);
  const i = sizes.indexOf(from);
  const wall = bounds[i] as { low: number; high: number };
  const to = column.to?.[sizing];
  const j = to === undefined ? sizes.length : sizes.indexOf(to);
  const perMl = sizes.map((_size, k) => {
    const { low, high } = bounds[k] as { low: number; high: number };
    // dirtiest: everything up to the range's start high, from its end on low; cleanest: all of the range beyond its
    // end, if allowed
    if (end === 'high') return k <= i ? high : k >= j ? low : Math.max(low, Math.min(high, wall.low));
    const top = Math.max(wall.low, to === undefined ? 0 : Math.min((bounds[j] as { high: number }).high, wall.high));
    if (k < i) return Math.max(low, wall.low, Math.min(high, top));
    if (k === i)
      return to === undefined
        ? wall.low
        : Math.max(wall.low, Math.min((bounds[j] as { high: number }).high, wall.high));
    return k <= j && to !== undefined ? Math.min(high, top) : Math.min(high, low);
  });
  for (let k = sizes.length - 2; k >= 0; k -= 1) perMl[k] = Math.max(perMl[k] as number, perMl[k + 1] as number);
  const { parts } = classify(table, sampleOf(sizes, sizing, perMl), { columns: [label] });
  return parts.find((part) => part.column === label)?.class as string;
}

/**
 * A sample that fits the data and keeps a class in all columns at once, from the largest size down as high as allowed;
 * or null.
 */
function build(
  table: codes.ClassTable,
  sizing: Sizing,
  sizes: readonly number[],
  known: CumulativeCounts | codes.CountBands,
  className: string,
): CumulativeCounts | null {
  const bounds = walls(sizes, known);
  const index = indexOf(table, className);
  const limitOf = (k: number, total: (number | undefined)[]): number => {
    if (index >= table.classes.length) return Infinity;
    let most = Infinity;
    table.columns.forEach((column, c) => {
      const limit = table.limits[index]?.[c];
      if (column.from[sizing] !== sizes[k] || limit === null || limit === undefined) return;
      if (column.to && column.to[sizing] === undefined) return;
      const to = column.to?.[sizing];
      const above = to === undefined ? 0 : (total[sizes.indexOf(to)] as number);
      most = Math.min(most, above + Math.floor((limit * unit) / table.perVolumeMl + 1e-6));
    });
    return most;
  };
  // as many as allowed at each size, seen from the large end; where a smaller size has less room, the larger ones give
  // way
  const whole: number[] = new Array(sizes.length);
  for (let k = sizes.length - 1; k >= 0; k -= 1) {
    const { low, high } = bounds[k] as { low: number; high: number };
    const most = Math.min(high, limitOf(k, whole));
    if (most < low) return null;
    for (let j = k + 1; j < sizes.length; j += 1) {
      whole[j] = Math.min(whole[j] as number, most);
      if ((whole[j] as number) < (bounds[j] as { low: number }).low) return null;
    }
    whole[k] = most;
  }
  const sample = sampleOf(sizes, sizing, whole);
  return indexOf(table, classify(table, sample).worst) <= index ? sample : null;
}

test('a count of 0 is 0, however many digits the other counts have', () => {
  for (const four of [0.3333333333333333, 610.7401591457509, 0.77247807]) {
    const known = cumulativeCounts({ 4: four, 6: 0, 70: 0 });
    expect(possibleClasses(codes.nas1638, known).highest).toBe('00');
    expect(possibleClasses(codes.iso4406, known).columns[2]).toEqual({ column: '14', lowest: '0', highest: '0' });
  }
});
