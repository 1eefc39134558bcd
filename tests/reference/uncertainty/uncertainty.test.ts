/** Codes, scores, repeats, blanks, agreement, microscope and balance against published and computed figures. */
import { describe, expect, test } from 'vitest';
import {
  blandAltman,
  codeUncertainty,
  detectionLimits,
  enScore,
  indexOfDispersion,
  iso4406,
  subtractBlank,
  zetaScore,
} from '../../../src/codes/index.ts';
import { cumulativeCounts, gravimetricLevel, microscopeCount } from '../../../src/counts/index.ts';
import codes from './codes.json' with { type: 'json' };
import compare from './compare.json' with { type: 'json' };

interface Row {
  readonly id: string;
  readonly inputs: Record<string, unknown>;
  readonly expected: Record<string, number>;
  readonly tolerance: { readonly absolute?: number; readonly relative?: number };
}

const row = (id: string): Row => compare.find((one) => one.id === id) as unknown as Row;

function expectNear(actual: unknown, expected: number | undefined, { absolute, relative }: Row['tolerance']): void {
  expect(typeof actual).toBe('number');
  const room = absolute ?? (relative as number) * Math.abs(expected as number);
  expect(Math.abs((actual as number) - (expected as number))).toBeLessThanOrEqual(room);
}

describe('codeUncertainty (computed by another program from JCGM 101:2008, 6.4.11)', () => {
  test.each(codes.filter(({ id }) => id !== 'gamma-mean').map((one) => [one.id, one] as const))('%s', (_id, one) => {
    const { counted, volumeMl, coincidenceShare: _rectangle, ...errors } = one.inputs as Record<string, number>;
    const counts = cumulativeCounts({ 4: counted as number }, { volumeMl: volumeMl as number });
    const expected = one.expected as unknown as Record<string, number> & { probabilities: [number, number][] };
    const found = codeUncertainty(iso4406, counts, errors).columns[0];
    expect(found?.relative).toBeCloseTo(expected.combined as number, 12);
    const relative = (one.tolerance as { relative: number }).relative * (counted === 1500 ? 2 : 1);
    expectNear(found?.low, expected.low, { relative });
    expectNear(found?.high, expected.high, { relative });
    // the list begins at its first scale number: what lies below is in it
    const first = expected.probabilities[0]?.[0] as number;
    for (const [scale, probability] of expected.probabilities) {
      const own = found?.probabilities[scale]?.probability as number;
      const below = scale === 1 && first === 1 ? (found?.probabilities[0]?.probability as number) : 0;
      expectNear(own + below, probability, { absolute: 0.0005 });
    }
  });
});

test('q counted is Gamma(q + 1): mean and variance 10 for 9 (JCGM 101:2008, 6.4.11)', () => {
  const counts = cumulativeCounts({ 4: 9 }, { volumeMl: 1 });
  const errors = { volume: 0, sizing: 0 };
  const cut = (confidence: number) => codeUncertainty(iso4406, counts, errors, { confidence }).columns[0];
  expect(cut(0.95)?.relative).toBeCloseTo(Math.sqrt(10) / 10, 12);
  // P(G > x) is the Poisson sum of 0 to 9: the 95 % limits of counting 9 or 10 (Garwood's upper limit for 9 is
  // 17.084803)
  expect(cut(0.95)?.high).toBeCloseTo(17.084803, 6);
  // and the lower one is Garwood's for 10
  expect(cut(0.95)?.low).toBeCloseTo(4.795389, 6);
});

test('E_n: a row of the NIST Dataplot reference manual, and zeta is twice E_n at k = 2', () => {
  const en = row('gear-en-4');
  const { x, U, reference, Uref } = en.inputs as Record<string, number>;
  const found = enScore(
    { value: x as number, expanded: U as number },
    { value: reference as number, expanded: Uref as number },
  );
  expectNear(found, en.expected.en, en.tolerance);
  const zeta = row('zeta-is-2-en');
  const { x: y, u, reference: known, uref } = zeta.inputs as Record<string, number>;
  const other = zetaScore(
    { value: y as number, standard: u as number },
    { value: known as number, standard: uref as number },
  );
  expectNear(other, zeta.expected.zeta, zeta.tolerance);
});

test.each(['student-1907-dispersion', 'bortkiewicz-dispersion'])('index of dispersion: %s', (id) => {
  const one = row(id);
  const repeats = Object.entries(one.inputs.counts as Record<string, number>).flatMap(([value, times]) =>
    new Array<number>(times).fill(Number(value)),
  );
  const found = indexOfDispersion(repeats);
  expectNear(found.chiSquare, one.expected.chiSquare, one.tolerance);
  expect(found.df).toBe(one.expected.df);
  expectNear(found.p, one.expected.pMore, one.tolerance);
});

describe('detection limits (Currie 1968, Table II, as quoted)', () => {
  test.each(['currie-paired-100', 'currie-paired-400', 'currie-well-known-100'])('%s', (id) => {
    const one = row(id);
    const { blank, ratio } = one.inputs as { blank: number; ratio?: number };
    // a blank that is well known was counted in a volume ten thousand times as large
    const times = ratio === 0 ? 10000 : 1;
    const found = detectionLimits({ counted: blank * times, volumeMl: 10 * times }, 10);
    for (const [name, value] of Object.entries(one.expected)) {
      expectNear(found[name as keyof typeof found], value, one.tolerance);
    }
  });

  test('currie-unequal-times: volumes in place of minutes', () => {
    const one = row('currie-unequal-times');
    const { blankPerMin, blankMin, sampleMin } = one.inputs as Record<string, number>;
    const blank = { counted: (blankPerMin as number) * (blankMin as number), volumeMl: blankMin as number };
    const found = detectionLimits(blank, sampleMin as number).detection / (sampleMin as number);
    expectNear(found, one.expected.detectionPerMin, one.tolerance);
  });

  test('subtractBlank decides by the critical level from 20 particles on', () => {
    const blank = { counted: 100, volumeMl: 10 };
    expect(subtractBlank({ counted: 123, volumeMl: 10 }, blank).detected).toBe(false);
    expect(subtractBlank({ counted: 124, volumeMl: 10 }, blank).detected).toBe(true);
  });
});

test('limits of agreement of the peak flow meters (Bland and Altman 1986, with 1.96)', () => {
  const one = row('pefr-limits-1.96');
  const { a, b } = one.inputs as Record<string, number[]>;
  const found = blandAltman((a as number[]).map((line, i) => ({ line, laboratory: (b as number[])[i] as number })));
  expectNear(found.low, one.expected.low, one.tolerance);
  expectNear(found.high, one.expected.high, one.tolerance);
  // Student's t at 16 degrees of freedom is 2.120 (NIST/SEMATECH e-Handbook, 1.3.6.7.2)
  expect((found.biasHigh - found.bias) / (found.sd / Math.sqrt(17))).toBeCloseTo(2.12, 3);
  expect(found.bias - found.biasLow).toBeCloseTo(found.biasHigh - found.bias, 9);
  // the paper's own figures: mean difference -2.1, standard deviation 38.8
  expect(found.bias.toFixed(1)).toBe('-2.1');
  expect(found.sd.toFixed(1)).toBe('38.8');
});

test('microscope: counted x effective area / (fields x field area x volume) (ISO 4407, computed)', () => {
  const one = row('microscope');
  const found = microscopeCount(one.inputs as never);
  expectNear(found.perMl, one.expected.perMl, one.tolerance);
  expectNear(found.relative, one.expected.relative, one.tolerance);
  expectNear(found.share, one.expected.share, one.tolerance);
});

test('gravimetric: two membranes, one upon the other (ISO 4405, computed)', () => {
  const one = row('gravimetric');
  const { before, after, controlBefore, controlAfter, volumeMl, uBalance, uVolume } = one.inputs as never;
  const found = gravimetricLevel({
    beforeMg: before,
    afterMg: after,
    controlBeforeMg: controlBefore,
    controlAfterMg: controlAfter,
    volumeMl,
    balanceMg: uBalance,
    volume: uVolume,
  });
  expectNear(found.mgPerL, one.expected.mgPerL, one.tolerance);
  expectNear(found.standard, one.expected.u, one.tolerance);
  expectNear(found.critical, one.expected.critical, one.tolerance);
});
