import { describe, expect, test } from 'vitest';
import { classify, iso4406 } from '../../../src/codes/index.ts';
import {
  type CoincidenceModel,
  coincidenceLoss,
  convertCounts,
  convertSizing,
  correctCoincidence,
  countAt,
  countInterval,
  cumulativeCounts,
  equivalentDustMgPerL,
  type InterpolationMethod,
  testDustCounts,
  undilute,
} from '../../../src/counts/index.ts';
import calibration from './calibration.json' with { type: 'json' };
import coincidence from './coincidence.json' with { type: 'json' };
import dilution from './dilution.json' with { type: 'json' };
import interpolation from './interpolation.json' with { type: 'json' };
import table4 from './iso16889-table4.json' with { type: 'json' };
import poisson from './poisson.json' with { type: 'json' };

describe('size calibration, ISO 4402 and ISO 11171', () => {
  test.each(calibration.pairs)('%s µm is %s µm(c), both ways', (iso4402, iso11171) => {
    expect(convertSizing(iso4402 as number, 'iso4402', 'iso11171')).toBe(iso11171);
    expect(convertSizing(iso11171 as number, 'iso11171', 'iso4402')).toBe(iso4402);
  });

  test('all sizes of a sample at once, its counts as they were', () => {
    const old = cumulativeCounts({ 5: 32000, 15: 4000, 100: 10 }, { sizing: 'iso4402', volumeMl: 10 });
    const counts = convertCounts(old, 'iso11171');
    expect(counts).toEqual({ ...old, sizing: 'iso11171', sizes: [6.4, 13.6, 70] });
    expect(convertCounts(counts, 'iso4402')).toEqual(old);
    expect(convertCounts(old, 'iso4402')).toEqual(old);
    const inB = convertCounts(counts, 'iso11171b').sizes;
    expect(inB).toEqual(counts.sizes.map((size) => convertSizing(size, 'iso11171', 'iso11171b')));
  });

  test.each(calibration.pairs.slice(1).map((pair, i) => [calibration.pairs[i], pair] as [number[], number[]]))(
    'from %s to %s on a straight line (chosen here: the standard prints the pairs only)',
    (below, above) => {
      const [iso4402, iso11171] = below.map((size, i) => (size + (above[i] as number)) / 2) as [number, number];
      expect(convertSizing(iso4402, 'iso4402', 'iso11171')).toBeCloseTo(iso11171, 12);
      expect(convertSizing(iso11171, 'iso11171', 'iso4402')).toBeCloseTo(iso4402, 12);
    },
  );
});

describe('Poisson limits', () => {
  test.each(poisson.published.rows)('published, n = $n at $confidence', ({ n, confidence, low, high }) => {
    const limits = countInterval(n, { confidence });
    expect(limits.low).toBeCloseTo(low, 8);
    expect(limits.high).toBeCloseTo(high, 8);
  });

  test.each(poisson.ratios.rows)('published as ratios to two decimals, n = $n', ({ n, ratio, low, high }) => {
    // the ratio itself is printed to two decimals, so the expected count behind it is known to half a hundredth
    const limits = countInterval(n);
    for (const [limit, printed] of [
      [limits.low, low],
      [limits.high, high],
    ] as const) {
      const lowest = (limit / n) * (ratio - 0.005) - 0.005;
      const highest = (limit / n) * (ratio + 0.005) + 0.005;
      expect(printed).toBeGreaterThanOrEqual(lowest);
      expect(printed).toBeLessThanOrEqual(highest);
    }
  });

  test.each(poisson.computed.rows)('regression, n = $n at $confidence', ({ n, confidence, low, high }) => {
    const limits = countInterval(n, { confidence });
    expect(Math.abs(limits.low - low)).toBeLessThanOrEqual(5.1e-7);
    expect(Math.abs(limits.high - high)).toBeLessThanOrEqual(5.1e-7);
  });
});

describe('coincidence', () => {
  const model = (id: string): CoincidenceModel =>
    id.startsWith('wales') ? 'wales_wilson' : id.startsWith('princen') ? 'princen_kwolek' : 'paralyzable';

  test.each(coincidence.rows)('$id', ({ id, inputs, expected, tolerance }) => {
    const options = { sensingVolumeMl: 1, model: model(id) };
    const given = inputs as { trueTimesV?: number; observedTimesV?: number; N_over_L?: number; loss?: number };
    const wanted = expected as {
      observedTimesV?: number;
      Nobs_over_L?: number;
      trueTimesV?: number;
      lossFraction?: number;
    };
    if (typeof expected === 'number') {
      expect(coincidenceLoss(expected, options).loss).toBeCloseTo(given.loss as number, 7);
    } else if (given.observedTimesV !== undefined) {
      const found = correctCoincidence(given.observedTimesV, options).perMl;
      expect(Math.abs(found - (wanted.trueTimesV as number))).toBeLessThanOrEqual(tolerance);
    } else {
      const truth = given.trueTimesV ?? given.N_over_L ?? (wanted.trueTimesV as number);
      const found = coincidenceLoss(truth, options);
      const observed = wanted.observedTimesV ?? (wanted.Nobs_over_L as number);
      expect(Math.abs(found.observedPerMl - observed)).toBeLessThanOrEqual(tolerance);
      if (wanted.lossFraction) expect(Math.abs(found.loss - wanted.lossFraction)).toBeLessThanOrEqual(tolerance);
    }
  });
});

describe('ISO 16889 Table 4, ISO medium test dust', () => {
  test.each(['3', '10', '15'] as const)('at %s mg/L: every size within the acceptance range, and the code', (level) => {
    const at = Object.fromEntries(table4.rows.map((row) => [row.size, row.midpoints[level]]));
    const counts = cumulativeCounts(at);
    expect(classify(iso4406, counts).text).toBe(table4.codes[level]);
    const dust = equivalentDustMgPerL(counts);
    // the three columns agree within 1 % to 25 µm(c) and 5 % at 50 µm(c)
    for (const { size, mgPerL } of dust.bySize) {
      expect(Math.abs(mgPerL / Number(level) - 1), `${size} µm(c)`).toBeLessThan(size > 25 ? 0.05 : 0.011);
      const row = table4.rows.find((candidate) => candidate.size === size) as (typeof table4.rows)[number];
      const [low, high] = row.ranges[level] as [number, number];
      const fromTen = row.midpoints['10'] * (Number(level) / 10);
      expect(fromTen).toBeGreaterThanOrEqual(low);
      expect(fromTen).toBeLessThanOrEqual(high);
    }
    expect(dust.mgPerL).toBeCloseTo(Number(level), 0);
  });
});

describe('test dust at a concentration', () => {
  test.each(['3', '10', '15'] as const)('%s mg/L: every count within the printed range', (level) => {
    const { sizing, sizes, perMl } = testDustCounts(Number(level));
    expect(sizing).toBe('iso11171');
    expect(sizes).toEqual(table4.rows.map((row) => row.size));
    table4.rows.forEach((row, i) => {
      const [low, high] = row.ranges[level] as [number, number];
      expect(perMl[i], `${row.size} µm(c)`).toBeGreaterThanOrEqual(low);
      expect(perMl[i], `${row.size} µm(c)`).toBeLessThanOrEqual(high);
    });
  });

  test('10 mg/L: the midpoints themselves', () => {
    expect(testDustCounts(10).perMl).toEqual(table4.rows.map((row) => row.midpoints['10']));
  });
});

test.each(dilution.rows)('diluted: $mixturePerMl per mL less $diluentPerMl gives $perMl', ({ perMl, ...mixture }) => {
  expect(undilute(mixture)).toBeCloseTo(perMl, 6);
});

describe('interpolation', () => {
  test.each(interpolation.formulas.rows)('$id', ({ id, inputs, expected, tolerance }) => {
    const method: InterpolationMethod = id.startsWith('loglog2') ? 'log_log2' : 'log_log';
    const counts = cumulativeCounts({ [inputs.d0]: inputs.N0, [inputs.d1]: inputs.N1 });
    expect(Math.abs(countAt(counts, inputs.d, { method }).perMl - expected)).toBeLessThanOrEqual(tolerance);
  });

  const leftOut = (size: number, method: InterpolationMethod) => {
    const rest = table4.rows.filter((row) => row.size !== size);
    const counts = cumulativeCounts(Object.fromEntries(rest.map((row) => [row.size, row.midpoints['10']])));
    const truth = table4.rows.find((row) => row.size === size)?.midpoints['10'] as number;
    return 100 * (countAt(counts, size, { method }).perMl / truth - 1);
  };

  test.each(interpolation.holdOut.rows)('left out: $size µm(c)', (row) => {
    // the default within 4 %; each method as measured on the same data
    expect(Math.abs(leftOut(row.size, 'monotone'))).toBeLessThan(4);
    expect(leftOut(row.size, 'monotone')).toBeCloseTo(row.naturalSpline, 1);
    expect(leftOut(row.size, 'log_log')).toBeCloseTo(row.logLogNeighbours, 1);
    expect(leftOut(row.size, 'log_log2')).toBeCloseTo(row.logLog2Neighbours, 1);
  });

  test('never rises from 1 to 50 µm(c), by any method', () => {
    const counts = cumulativeCounts(Object.fromEntries(table4.rows.map((row) => [row.size, row.midpoints['10']])));
    for (const method of ['monotone', 'log_log', 'log_log2'] as const) {
      let before = Infinity;
      for (let size = 1; size <= 50; size += 0.01) {
        const { perMl } = countAt(counts, size, { method });
        expect(perMl).toBeLessThanOrEqual(before * (1 + 1e-13));
        before = perMl;
      }
    }
  });
});
