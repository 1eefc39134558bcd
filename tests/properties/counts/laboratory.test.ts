/** Repeats, blanks, pairs, membranes and weighings: laws, and how often the limits hold. */
import gammainc from '@stdlib/math-base-special-gammainc';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  blandAltman,
  compareCodes,
  countChange,
  detectionLimits,
  enScore,
  indexOfDispersion,
  iso4406,
  iso4406Microscope,
  limitsOf,
  nas1638,
  possibleClasses,
  subtractBlank,
  subtractDiluent,
  zetaScore,
} from '../../../src/codes/index.ts';
import {
  countInterval,
  cumulativeCounts,
  fieldsForPrecision,
  gravimetricLevel,
  membraneArea,
  microscopeCount,
  undilute,
} from '../../../src/counts/index.ts';
import { chiSquareTails } from '../../../src/numeric/chiSquare.ts';

test('chi-square: both tails agree with the incomplete gamma function of a statistics library to 1e-10', () => {
  for (const freedom of [1, 2, 3, 7, 10, 24, 25, 99, 400, 3999, 10001]) {
    for (const share of [0.01, 0.3, 0.8, 1, 1.05, 1.5, 3, 12]) {
      const x = freedom * share;
      const { above, below } = chiSquareTails(x, freedom);
      for (const [own, theirs] of [
        [above, gammainc(x / 2, freedom / 2, true, true)],
        [below, gammainc(x / 2, freedom / 2, true, false)],
      ] as const) {
        if (theirs > 1e-280) expect(Math.abs(own / theirs - 1)).toBeLessThan(1e-10);
        else expect(own).toBeLessThan(1e-270);
      }
      expect(Math.abs(above + below - 1)).toBeLessThan(1e-12);
    }
  }
});

describe('indexOfDispersion', () => {
  test('the same in any order; p falls as one repeat moves away', () => {
    const counts = fc.array(fc.integer({ min: 0, max: 1e6 }), { minLength: 2, maxLength: 12 });
    fc.assert(
      fc.property(counts, (list) => {
        fc.pre(list.some((n) => n > 0));
        const found = indexOfDispersion(list);
        const turned = indexOfDispersion([...list].reverse());
        expect(turned).toEqual(found);
        expect(found.p + found.pLess).toBeCloseTo(1, 12);
        expect(found.index).toBeCloseTo(found.chiSquare / found.df, 9);
        expect(found.excess > 0).toBe(found.index > 1);
      }),
    );
    const p = [400, 440, 500, 600].map((last) => indexOfDispersion([400, 390, 410, last]).p);
    expect([...p].sort((a, b) => b - a)).toEqual(p);
  });

  test('repeats that are too alike have a small pLess', () => {
    expect(indexOfDispersion([4000, 4001, 4000, 3999, 4000, 4001]).pLess).toBeLessThan(1e-4);
  });
});

/** Chances of 0, 1, 2 ... particles; up to so many that no more than 1e-9 is left. */
function poisson(mean: number): number[] {
  const list: number[] = [];
  const last = Math.ceil(mean + 8 * Math.sqrt(mean) + 12);
  let logarithm = -mean;
  for (let n = 0; n <= last; n += 1) {
    if (n > 0) logarithm += Math.log(mean / n);
    list.push(Math.exp(logarithm));
  }
  return list;
}

/** Every pair of counts with its chance: no random numbers. */
function overPairs(first: number, second: number, take: (n: number, m: number) => boolean): number {
  const [a, b] = [poisson(first), poisson(second)];
  let sum = 0;
  a.forEach((p, n) => {
    b.forEach((q, m) => {
      if (p * q > 1e-9 && take(n, m)) sum += p * q;
    });
  });
  return sum;
}

describe('subtractBlank', () => {
  test.each([
    [0.5, 0.5],
    [3, 0.2],
    [3, 3],
    [12, 4],
    [40, 40],
    [90, 25],
  ])('limits of the difference hold in 94 % or more: %f and %f expected', (sample, blank) => {
    const known = new Map<string, { low: number; high: number }>();
    const holds = overPairs(sample, blank, (n, m) => {
      const key = `${n} ${m}`;
      const found = known.get(key) ?? subtractBlank({ counted: n, volumeMl: 1 }, { counted: m, volumeMl: 1 });
      known.set(key, found);
      return found.low <= sample - blank && sample - blank <= found.high;
    });
    expect(holds).toBeGreaterThan(0.94);
  });

  test.each([
    [0.1, 1],
    [5, 1],
    [18, 0.2],
    [30, 1],
    [30, 10],
    [60, 4],
    [100, 0.1],
    [150, 1],
  ])(
    'a sample like its blank is seldom detected, 0.05 or less: blank of %f, sample of %f times its volume',
    (mean, ratio) => {
      const detected = overPairs(
        mean * ratio,
        mean,
        (n, m) => subtractBlank({ counted: n, volumeMl: 10 * ratio }, { counted: m, volumeMl: 10 }).detected,
      );
      expect(detected).toBeLessThan(0.05);
      if (mean * ratio >= 30) expect(detected).toBeGreaterThan(0.035);
    },
  );

  // as detectionLimits says of its critical level
  test.each([
    [30, 1],
    [100, 1],
    [30, 10],
  ])('the critical level is passed more often: blank of %f, sample of %f times its volume', (mean, ratio) => {
    const passed = overPairs(
      mean * ratio,
      mean,
      (n, m) => n - m * ratio > detectionLimits({ counted: m, volumeMl: 10 }, 10 * ratio).critical,
    );
    expect(passed).toBeGreaterThan(0.059);
    expect(passed).toBeLessThan(0.074);
  });

  test('a blank above the sample is no error: a negative figure, not detected, and an upper limit', () => {
    const found = subtractBlank({ counted: 5, volumeMl: 10 }, { counted: 12, volumeMl: 10 });
    expect(found.perMl).toBeCloseTo(-0.7, 12);
    expect(found.detected).toBe(false);
    expect(found.low < found.perMl && found.perMl < found.high).toBe(true);
    expect(found.high).toBeGreaterThan(0);
  });

  test('with nothing in the blank, its own limit still stands', () => {
    const found = subtractBlank({ counted: 4, volumeMl: 10 }, { counted: 0, volumeMl: 10 });
    expect(found.detected).toBe(false);
    expect(found.high).toBeCloseTo(countInterval(4).high / 10, 12);
    expect(found.low).toBeLessThan(countInterval(4).low / 10);
    expect(subtractBlank({ counted: 5, volumeMl: 10 }, { counted: 0, volumeMl: 10 }).detected).toBe(true);
  });

  test('a larger blank narrows the limits', () => {
    const width = (times: number) => {
      const blank = { counted: 30 * times, volumeMl: 10 * times };
      const { low, high } = subtractBlank({ counted: 60, volumeMl: 10 }, blank);
      return high - low;
    };
    expect(width(4)).toBeLessThan(width(1));
    expect(width(100)).toBeLessThan(width(4));
  });
});

describe('subtractDiluent', () => {
  const volume = fc.integer({ min: 1, max: 400 }).map((quarters) => quarters / 4);
  const particles = fc.integer({ min: 0, max: 100000 });

  test('is undilute where that has an answer, and has limits around it', () => {
    fc.assert(
      fc.property(particles, particles, volume, volume, (n, m, sampleMl, diluentMl) => {
        const mixed = { sampleMl, diluentMl };
        const found = subtractDiluent({ counted: n, volumeMl: 10 }, { counted: m, volumeMl: 20 }, mixed);
        expect(found.low < found.perMl && found.perMl < found.high).toBe(true);
        if (found.perMl < 0) expect(found.detected).toBe(false);
        else {
          const known = undilute({ mixturePerMl: n / 10, diluentPerMl: m / 20, ...mixed });
          expect(Math.abs(found.perMl - known)).toBeLessThan(1e-9 * (1 + (n * (sampleMl + diluentMl)) / sampleMl));
        }
      }),
    );
  });
});

describe('countChange', () => {
  test('turned round it is the negative; the same oil diluted is not distinguishable', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 1e6 }), fc.integer({ min: 0, max: 1e6 }), (n, m) => {
        const [a, b] = [
          { counted: n, volumeMl: 10, dilution: 3 },
          { counted: m, volumeMl: 25 },
        ];
        const [there, back] = [countChange(a, b), countChange(b, a)];
        expect(back.perMl).toBeCloseTo(-there.perMl, 9);
        expect(back.low).toBeCloseTo(-there.high, 6);
        expect(back.distinguishable).toBe(there.distinguishable);
      }),
    );
    const diluted = countChange({ counted: 1000, volumeMl: 10 }, { counted: 205, volumeMl: 10, dilution: 5 });
    expect(diluted.distinguishable).toBe(false);
  });
});

describe('scores', () => {
  const figure = fc.double({ min: -1e6, max: 1e6, noNaN: true });
  const spread = fc.double({ min: 1e-6, max: 1e6, noNaN: true });

  test('change sign with the roles; zeta at k = 1 is E_n of the same figures', () => {
    fc.assert(
      fc.property(figure, spread, figure, spread, (x, u, y, v) => {
        const there = zetaScore({ value: x, standard: u }, { value: y, standard: v });
        expect(zetaScore({ value: y, standard: v }, { value: x, standard: u })).toBe(there === 0 ? 0 : -there);
        expect(enScore({ value: x, expanded: u }, { value: y, expanded: v })).toBe(there);
        const known = (x - y) / Math.hypot(u, v);
        expect(Math.abs(there - known)).toBeLessThanOrEqual(1e-12 * Math.abs(known));
      }),
    );
  });

  test('no digits are lost where the squares would leave the range of a double', () => {
    expect(enScore({ value: 3e200, expanded: 1e200 }, { value: 0, expanded: 0 })).toBeCloseTo(3, 12);
    expect(enScore({ value: 3e-200, expanded: 1e-200 }, { value: 0, expanded: 0 })).toBeCloseTo(3, 12);
  });
});

describe('blandAltman', () => {
  test('moves with a shift of one method and does not change its width', () => {
    const pair = fc.record({ line: fc.integer({ min: 0, max: 28 }), laboratory: fc.integer({ min: 0, max: 28 }) });
    fc.assert(
      fc.property(fc.array(pair, { minLength: 2, maxLength: 30 }), fc.integer({ min: -5, max: 5 }), (pairs, shift) => {
        const found = blandAltman(pairs);
        const moved = blandAltman(pairs.map(({ line, laboratory }) => ({ line: line + shift, laboratory })));
        expect(moved.bias).toBeCloseTo(found.bias + shift, 9);
        expect(moved.high - moved.low).toBeCloseTo(found.high - found.low, 9);
        const close = pairs.filter(({ line, laboratory }) => Math.abs(line - laboratory) <= 1).length;
        expect(found.withinOneClass).toBe(close / pairs.length);
      }),
    );
  });
});

describe('compareCodes', () => {
  test('a class of NAS 1638 against a microscope code: read by microscope', () => {
    const second = { table: iso4406Microscope, code: '-/16/12' };
    const found = compareCodes({ table: nas1638, code: '8' }, second);
    const span = possibleClasses(nas1638, limitsOf(iso4406Microscope, '-/16/12', 'microscope'));
    expect([found.sizing, found.lowest, found.highest]).toEqual(['microscope', span.lowest, span.highest]);
    expect(found.possible).toBe(true);
  });

  test('bands of a sizing that the other table lacks are refused with the way to read them', () => {
    const bands = limitsOf(nas1638, '8');
    expect(bands.sizing).toBe('iso11171');
    expect(() => possibleClasses(iso4406Microscope, bands)).toThrow('limitsOf(table, code, sizing)');
    const read = possibleClasses(iso4406Microscope, limitsOf(nas1638, '8', 'microscope'));
    expect(read.columns.map(({ column }) => column)).toEqual(['5', '15']);
  });

  test('every sample has both of its own codes', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 26 }),
        fc.integer({ min: 0, max: 6 }),
        fc.integer({ min: 0, max: 6 }),
        (a, b, c) => {
          const code = `${a}/${Math.max(0, a - b)}/${Math.max(0, a - b - c)}`;
          const span = possibleClasses(nas1638, limitsOf(iso4406, code));
          for (const name of [span.lowest, span.highest]) {
            expect(compareCodes({ table: nas1638, code: name }, { table: iso4406, code }).possible).toBe(true);
          }
          const place = nas1638.classes.indexOf(span.lowest);
          if (place > 0) {
            const cleaner = nas1638.classes[place - 1] as string;
            expect(compareCodes({ table: nas1638, code: cleaner }, { table: iso4406, code }).possible).toBe(false);
          }
          expect(compareCodes({ table: iso4406, code }, { table: iso4406, code }).possible).toBe(true);
        },
      ),
      { numRuns: 60 },
    );
  });

  test('a class above all that the code allows is dirtier', () => {
    const found = compareCodes({ table: iso4406, code: '20/16/13' }, { table: iso4406, code: '18/16/13' });
    expect(found.possible).toBe(false);
    expect(found.columns[0]?.outcome).toBe('dirtier');
  });
});

describe('microscopeCount', () => {
  test('goes on as a raw count', () => {
    const fields = { fields: 25, fieldMm2: 1.2, effectiveMm2: 960, volumeMl: 50, dilution: 2 };
    const found = microscopeCount({ counted: 400, ...fields });
    const counts = cumulativeCounts({ 5: 400 }, { sizing: 'microscope', volumeMl: found.volumeMl });
    expect(counts.perMl[0]).toBeCloseTo(found.perMl, 9);
    expect(found.perMl).toBeCloseTo((400 * 2 * 960) / (25 * 1.2 * 50), 9);
    expect(found.low < found.perMl && found.perMl < found.high).toBe(true);
    expect(
      subtractBlank({ counted: found.counted, volumeMl: found.volumeMl }, { counted: 3, volumeMl: 10 }).detected,
    ).toBe(true);
  });

  test('as many fields as asked for give the precision', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 1000 }),
        fc.integer({ min: 1, max: 50 }),
        fc.integer({ min: 2, max: 100 }),
        (n, k, percent) => {
          const fields = fieldsForPrecision(n, k, percent / 100);
          const expected = (fields * n) / k;
          expect(1 / Math.sqrt(expected)).toBeLessThanOrEqual((percent / 100) * (1 + 1e-9));
          if (fields > 1) expect(1 / Math.sqrt(((fields - 1) * n) / k)).toBeGreaterThan((percent / 100) * (1 - 1e-9));
        },
      ),
    );
    expect(membraneArea(20)).toBeCloseTo(100 * Math.PI, 9);
  });
});

describe('gravimetricLevel', () => {
  const weighing = { beforeMg: 80, afterMg: 81.2, volumeMl: 100, balanceMg: 0.05 };

  test('a control takes off its gain, and doubles the variance of the weighings', () => {
    const alone = gravimetricLevel(weighing);
    const controlled = gravimetricLevel({ ...weighing, controlBeforeMg: 79, controlAfterMg: 79.2 });
    expect([alone.mgPerL, controlled.mgPerL]).toEqual([12, 10]);
    expect(controlled.standard / alone.standard).toBeCloseTo(Math.SQRT2, 12);
    expect(controlled.expanded).toBe(2 * controlled.standard);
  });

  test('grams for mg are refused, which no membrane weighs; of a tared balance 0 and the gain are not', () => {
    const refused = (parameter: string) =>
      expect.objectContaining({ code: 'out_of_range', parameter: `weighing.${parameter}` });
    const grams = { ...weighing, beforeMg: 0.083412, afterMg: 0.084907, balanceMg: 0.00005 };
    expect(() => gravimetricLevel(grams)).toThrow(refused('afterMg'));
    expect(() => gravimetricLevel({ ...grams, afterMg: 84.907 })).toThrow(refused('beforeMg'));
    const control = { ...weighing, controlBeforeMg: 0.0821, controlAfterMg: 82.1 };
    expect(() => gravimetricLevel(control)).toThrow(refused('controlBeforeMg'));
    expect(() => gravimetricLevel({ ...weighing, beforeMg: 0.02 })).toThrow('zero before where the balance was tared');
    expect(gravimetricLevel({ ...weighing, beforeMg: 0, afterMg: 0.25 }).mgPerL).toBe(2.5);
    expect(gravimetricLevel({ ...weighing, beforeMg: 1, afterMg: 1 }).mgPerL).toBe(0);
  });

  test('of a tared balance a loss is what it is of one that was not tared, and a membrane taken off is refused', () => {
    const control = { controlBeforeMg: 82.11, controlAfterMg: 82.035 };
    const tared = { controlBeforeMg: 0, controlAfterMg: -0.075 };
    expect(gravimetricLevel({ ...weighing, ...tared })).toEqual(gravimetricLevel({ ...weighing, ...control }));
    const lost = gravimetricLevel({ ...weighing, beforeMg: 0, afterMg: -0.02 });
    expect([lost.mgPerL, lost.detected]).toEqual([-0.2, false]);
    const off = expect.objectContaining({ code: 'negative', parameter: 'weighing.afterMg' });
    expect(() => gravimetricLevel({ ...weighing, beforeMg: 0, afterMg: -80 })).toThrow(off);
    expect(() => gravimetricLevel({ ...weighing, afterMg: -0.02 })).toThrow('zero before where the balance was tared');
  });

  test('a membrane that lost weight is not detected, and no error', () => {
    const found = gravimetricLevel({ ...weighing, afterMg: 79.9 });
    expect(found.mgPerL).toBeCloseTo(-1, 12);
    expect(found.detected).toBe(false);
  });

  test('more oil tells smaller levels', () => {
    expect(gravimetricLevel({ ...weighing, volumeMl: 500 }).critical).toBeLessThan(gravimetricLevel(weighing).critical);
  });
});
