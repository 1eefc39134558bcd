/** Probabilities of classes against random draws (GUM supplement 1), and the laws that hold of any sample. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  as4059Cumulative,
  type ClassTable,
  classify,
  codeInterval,
  codeUncertainty,
  iso4406,
  type MeasurementErrors,
  meets,
  nas1638,
  scaleNumber,
  targetProbability,
} from '../../../src/codes/index.ts';
import { type CumulativeCounts, cumulativeCounts } from '../../../src/counts/index.ts';
import { shares } from '../../chance.ts';
import { full, some } from '../../volume.ts';

/** A million draws with MOTESCALE_FULL=1; fewer than a tenth of these are not near enough for the same bound. */
const draws = full ? 1_000_000 : 100_000;

/** Uniform numbers, and normal and gamma ones made of them: Marsaglia's polar method, and Marsaglia and Tsang 2000. */
function random(seed: number) {
  const uniform = shares(seed);
  const normal = () => {
    for (;;) {
      const [x, y] = [2 * uniform() - 1, 2 * uniform() - 1];
      const r = x * x + y * y;
      if (r > 0 && r < 1) return x * Math.sqrt((-2 * Math.log(r)) / r);
    }
  };
  const gamma = (shape: number) => {
    const d = shape - 1 / 3;
    const c = 1 / Math.sqrt(9 * d);
    for (;;) {
      const x = normal();
      const v = (1 + c * x) ** 3;
      if (v > 0 && Math.log(uniform()) < (x * x) / 2 + d - d * v + d * Math.log(v)) return d * v;
    }
  };
  return { uniform, normal, gamma };
}

const usual = { volume: 0.03, flow: 0, sizing: 0.03, certificate: 0, coincidence: 0, sampling: 0 };

/** True concentrations of one size, drawn. */
function drawn(counted: number, volumeMl: number, slope: number, given: MeasurementErrors, seed: number): number[] {
  const { normal, gamma, uniform } = random(seed);
  const e: Record<keyof typeof usual, number> = Object.assign({}, usual, given);
  return Array.from({ length: draws }, () => {
    const size = Math.hypot(e.sizing, e.certificate) * normal();
    const volume = Math.hypot(e.volume, e.flow, e.sampling) * normal();
    // a loss anywhere up to the largest
    const loss = e.coincidence * uniform();
    return (gamma(counted + 1) / volumeMl) * Math.exp(volume + slope * size + loss);
  });
}

const cases: [number, number, number, MeasurementErrors][] = [
  [0, 10, 3, {}],
  [3, 10, 3, {}],
  [19, 25, 3, { sizing: 0.05 }],
  [21, 8, 3, {}],
  [3, 100, 4, { sampling: 0.3, volume: 0.1 }],
  [240, 10, 2.3, {}],
  [900, 10, 4, { volume: 0.05, sizing: 0.05 }],
  [1500, 10, 2, { volume: 0, sizing: 0 }],
  [13000, 10, 3, { certificate: 0.02, flow: 0.02 }],
  [900, 10, 3, { coincidence: 0.1, volume: 0.01 }],
];

describe(`against ${draws} draws`, () => {
  test.each(cases)('%i particles in %i mL, slope %f, %o', (counted, volumeMl, slope, errors) => {
    const sample = drawn(counted, volumeMl, slope, errors, counted + volumeMl).sort((a, b) => a - b);
    const found = codeUncertainty(iso4406, cumulativeCounts({ 4: counted }, { volumeMl }), { ...errors, slope });
    const share = new Array<number>(30).fill(0);
    for (const perMl of sample) {
      const scale = scaleNumber(perMl);
      share[scale] = (share[scale] as number) + 1 / draws;
    }
    const column = found.columns[0];
    column?.probabilities.forEach(({ probability }, scale) => {
      expect(Math.abs(probability - (share[scale] as number))).toBeLessThan(0.005);
    });
    // an end is known to a few times the spacing of the draws there: 1 %, where the distribution is not that thin
    const at = (p: number) => sample[Math.floor(p * draws)] as number;
    const room = (p: number) => Math.max(0.01, 4 * Math.abs(Math.log(at(p + 0.001) / at(p - 0.001))) * noise(p));
    const noise = (p: number) => Math.sqrt((p * (1 - p)) / draws) / 0.002;
    expect(Math.abs((column?.low as number) / at(0.025) - 1)).toBeLessThan(room(0.025));
    expect(Math.abs((column?.high as number) / at(0.975) - 1)).toBeLessThan(room(0.975));
  });
});

describe('targetProbability against draws of whole samples', () => {
  const sizes = [4, 6, 14] as const;
  const counted = [12600, 3150, 380];
  const counts = cumulativeCounts({ 4: 12600, 6: 3150, 14: 380 }, { volumeMl: 10 });
  const errors: MeasurementErrors = { volume: 0.08, sizing: 0.04, sampling: 0.1, slope: 3 };
  const limits = [1300, 320, 40];

  /** With counts independent from size to size, or the larger particles among the smaller ones. */
  function met(independent: boolean): number {
    const { normal, gamma } = random(7);
    let kept = 0;
    for (let i = 0; i < draws; i += 1) {
      const shared = Math.exp(Math.hypot(0.08, 0.1) * normal());
      const rest = sizes.map((_size, k) => (counted[k] as number) - (counted[k + 1] ?? 0));
      const bins = rest.map((n, k) => gamma(n + (k === 2 ? 1 : 0.5)));
      const good = sizes.every((_size, k) => {
        const particles = independent ? gamma((counted[k] as number) + 1) : bins.slice(k).reduce((a, b) => a + b);
        return (particles / 10) * shared * Math.exp(3 * 0.04 * normal()) <= (limits[k] as number);
      });
      if (good) kept += 1 / draws;
    }
    return kept;
  }

  const found = targetProbability(iso4406, '17/15/12', counts, errors);

  test('as it is modelled: within 0.005', () => {
    expect(Math.abs((found.probability as number) - met(true))).toBeLessThan(0.005);
  });

  test('as particles are: no higher than the truth by more than the noise, and close to it', () => {
    const truth = met(false);
    expect(found.probability as number).toBeLessThan(truth + 0.005);
    expect(found.probability as number).toBeGreaterThan(truth - 0.02);
    expect(truth).toBeGreaterThan(found.atLeast);
    expect(truth).toBeLessThan(found.atMost);
  });
});

/** Raw counts at the sizes of a table, falling with size. */
const samples = fc
  .record({
    first: fc.oneof(fc.integer({ min: 0, max: 40 }), fc.integer({ min: 0, max: 3_000_000 })),
    keep: fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 5, maxLength: 5 }),
    volumeMl: fc.constantFrom(0.5, 1, 8, 10, 25, 100),
    dilution: fc.constantFrom(1, 2, 10),
  })
  .map(({ first, keep, ...how }): CumulativeCounts => {
    const at: Record<number, number> = {};
    let n = first;
    [4, 6, 14, 21, 38, 70].forEach((size, i) => {
      if (i > 0) n = Math.floor(n * (keep[i - 1] as number));
      at[size] = n;
    });
    return cumulativeCounts(at, how);
  });

const someErrors = fc.record(
  {
    volume: fc.double({ min: 0, max: 0.3, noNaN: true }),
    flow: fc.double({ min: 0, max: 0.2, noNaN: true }),
    sizing: fc.double({ min: 0, max: 0.15, noNaN: true }),
    certificate: fc.double({ min: 0, max: 0.1, noNaN: true }),
    sampling: fc.double({ min: 0, max: 0.5, noNaN: true }),
  },
  { requiredKeys: [] },
);

const tables: readonly ClassTable[] = [iso4406, nas1638, as4059Cumulative];

describe('laws', () => {
  test('probabilities make 1, lie in 0 to 1, and the budget adds up', () => {
    fc.assert(
      fc.property(samples, someErrors, fc.constantFrom(...tables), (counts, errors, table) => {
        const found = codeUncertainty(table, counts, errors);
        for (const { column, probabilities, relative, low, high } of found.columns) {
          let sum = 0;
          for (const { probability } of probabilities) {
            expect(probability >= 0 && probability <= 1).toBe(true);
            sum += probability;
          }
          expect(Math.abs(sum - 1)).toBeLessThan(1e-9);
          expect(low).toBeLessThan(high);
          const rows = found.budget.filter((row) => row.column === column);
          expect(rows.reduce((all, { share }) => all + share, 0)).toBeCloseTo(1, 12);
          expect(Math.sqrt(rows.reduce((all, row) => all + row.relative ** 2, 0))).toBeCloseTo(relative, 12);
        }
      }),
      { numRuns: some(60, 6) },
    );
  });

  test('less error never widens: the limits in counts, and the codes with them', () => {
    const table = iso4406;
    fc.assert(
      fc.property(samples, someErrors, fc.double({ min: 0, max: 1, noNaN: true }), (counts, errors, part) => {
        const whole = { ...usual, ...errors };
        const less = Object.fromEntries(Object.entries(whole).map(([name, error]) => [name, error * part]));
        const wide = codeUncertainty(table, counts, whole);
        const narrow = codeUncertainty(table, counts, less);
        narrow.columns.forEach(({ low, high, relative }, i) => {
          const other = wide.columns[i] as (typeof narrow.columns)[number];
          expect(low).toBeGreaterThanOrEqual(other.low * (1 - 1e-9));
          expect(high).toBeLessThanOrEqual(other.high * (1 + 1e-9));
          expect(relative).toBeLessThanOrEqual(other.relative);
        });
        expect(meets(table, narrow.low, wide.low).margins.every(({ classes }) => classes >= 0)).toBe(true);
        expect(meets(table, wide.high, narrow.high).margins.every(({ classes }) => classes >= 0)).toBe(true);
      }),
      { numRuns: some(40, 7) },
    );
  });

  test('less loss by coincidence never widens the ratio of the limits', () => {
    const ratio = (coincidence: number) => {
      const column = codeUncertainty(iso4406, cumulativeCounts({ 4: 4000 }, { volumeMl: 10 }), { coincidence })
        .columns[0];
      return (column?.high as number) / (column?.low as number);
    };
    for (let n = 0; n < 10; n += 1) expect(ratio(n / 20)).toBeLessThan(ratio((n + 1) / 20));
  });

  test('with no other error the codes are those of the counting, or one class narrower', () => {
    fc.assert(
      fc.property(samples, (counts) => {
        const at = (confidence: number) => codeUncertainty(iso4406, counts, {}, { confidence });
        const [narrow, wide] = [at(0.6), at(0.99)];
        narrow.columns.forEach(({ low, high }, i) => {
          expect(low).toBeGreaterThan(wide.columns[i]?.low as number);
          expect(high).toBeLessThan(wide.columns[i]?.high as number);
        });
        // Gamma(q + 1) has Garwood's upper limit, and his lower limit of one particle more
        const none = codeUncertainty(iso4406, counts, { volume: 0, sizing: 0 });
        const counting = codeInterval(iso4406, counts);
        if (((counts.counted as number[])[0] as number) < 1000) expect(none.high.text).toBe(counting.high.text);
        expect(meets(iso4406, none.low, counting.low).margins.every(({ classes }) => classes >= 0)).toBe(true);
      }),
      { numRuns: some(40, 7) },
    );
  });

  test('a target: between its bounds, no likelier than at its worst size, surer for an easier target', () => {
    fc.assert(
      fc.property(samples, someErrors, fc.constantFrom(...tables), fc.nat(), (counts, errors, table, n) => {
        const place = n % (table.classes.length - 1);
        const target = (i: number) => {
          const name = table.classes[i] as string;
          if (table === iso4406) return `${name}/${name}/${name}`;
          return table === nas1638 ? name : `${name}A/${name}B`;
        };
        const found = targetProbability(table, target(place), counts, errors, {
          columns: table.columns.map(({ label }) => label).slice(0, 2),
        });
        if (found.probability === null) {
          expect(found.missing.length).toBeGreaterThan(0);
          return;
        }
        expect(found.probability).toBeGreaterThanOrEqual(found.atLeast);
        expect(found.probability).toBeLessThanOrEqual(found.atMost);
        const easier = targetProbability(table, target(place + 1), counts, errors, {
          columns: table.columns.map(({ label }) => label).slice(0, 2),
        });
        expect(easier.probability as number).toBeGreaterThanOrEqual(found.probability - 1e-9);
      }),
      { numRuns: some(60, 6) },
    );
  });
});

test('of the columns named each is judged, also the first of them', () => {
  const counts = cumulativeCounts({ 4: 12600, 6: 3150, 14: 380 }, { volumeMl: 10 });
  const found = targetProbability(iso4406, '18/16/13', counts, {}, { columns: ['4', '14'] });
  expect(found.columns.map(({ column }) => column)).toEqual(['4', '14']);
});

test('where no particle is allowed, half a particle in the volume of the table is', () => {
  const counts = cumulativeCounts({ 4: 30, 6: 20, 14: 3, 21: 1, 38: 0, 70: 0 }, { volumeMl: 100 });
  const none = { volume: 0, sizing: 0 };
  const found = targetProbability(nas1638, '00', counts, none, { columns: ['>100'] });
  // none counted in the same volume: the chance that the true number is at most 0.5 is 1 - exp(-0.5)
  expect(found.probability).toBeCloseTo(1 - Math.exp(-0.5), 12);
});

describe('what a class is the worst of', () => {
  // every range a little below its limit of class 8: 6400, 1140, 202.5, 36 and 6.4 in 10 mL
  const counts = cumulativeCounts({ 6: 7288, 14: 1288, 21: 228, 38: 38, 70: 5 }, { volumeMl: 10 });

  test('the most probable class is that of all columns together', () => {
    const found = codeUncertainty(nas1638, counts);
    const chance = (name: string) => targetProbability(nas1638, name, counts).probability as number;
    const steps = nas1638.classes.map(
      (name, i) => chance(name) - (i === 0 ? 0 : chance(nas1638.classes[i - 1] as string)),
    );
    expect(found.mostProbable.text).toBe(nas1638.classes[steps.indexOf(Math.max(...steps))]);
    // that of the counts is 8, but hardly ever do all five keep it
    expect(classify(nas1638, counts).text).toBe('8');
    expect(found.mostProbable.text).toBe('9');
  });
});

describe('an error of size on a range', () => {
  const sizingOf = (at6: number, at14: number) => {
    const counts = cumulativeCounts({ 6: at6, 14: at14, 21: 0, 38: 0, 70: 0 }, { volumeMl: 10 });
    const { budget } = codeUncertainty(nas1638, counts, { sizing: 0.03, certificate: 0 });
    return budget.filter(({ column, part }) => column === '5-15' && part === 'sizing')[0]?.relative as number;
  };

  test('of one slope: what crosses each end, over what lies between', () => {
    // N = c / size^s: at an end N s dx/x cross, and both ends err apart; over the difference of both counts
    const slope = Math.log(40000 / 3000) / Math.log(14 / 6);
    const crossing = 0.03 * slope * Math.hypot(40000, 3000);
    expect(sizingOf(40000, 3000)).toBeCloseTo(crossing / (40000 - 3000), 12);
  });

  test('with next to nothing in it: 1 over the logarithm of its width, and the same with nothing', () => {
    const flat = (0.03 * Math.SQRT2) / Math.log(14 / 6);
    expect(sizingOf(100000, 100000)).toBeCloseTo(flat, 12);
    expect(sizingOf(100000000, 99999999)).toBeCloseTo(flat, 6);
    expect(sizingOf(100000, 99990)).toBeCloseTo(flat, 4);
  });

  test('of which the larger end is empty: the slope of the smaller one', () => {
    // one particle stands for none
    expect(sizingOf(1000, 0)).toBeCloseTo((0.03 * Math.log(1000)) / Math.log(14 / 6), 12);
  });
});

test('the budget says of each part where its figure comes from', () => {
  const counts = cumulativeCounts({ 4: 4500 }, { volumeMl: 10 });
  const { budget } = codeUncertainty(iso4406, counts, { flow: 0.02, sizing: 0 });
  expect(Object.fromEntries(budget.map(({ part, basis }) => [part, basis]))).toEqual({
    counting: 'counted',
    volume: 'common_practice',
    flow: 'given',
    sizing: 'given',
    certificate: 'not_considered',
    coincidence: 'not_considered',
    sampling: 'not_considered',
  });
});
