/** Bad input to counts/: each its own error code, with the parameter, what came, and what would be right. */
import { describe, expect, test } from 'vitest';
import * as counts from '../../src/counts/index.ts';
import { isMotescaleError } from '../../src/counts/index.ts';
import { fahrenheitToCelsius, psiToKPa } from '../../src/index.ts';
import { expectRefused } from './refused.ts';

const { cumulativeCounts } = counts;
const good = cumulativeCounts({ 4: 1890, 6: 402, 14: 33 });
// what TypeScript would not let through, as a program without types would send it
const any = (value: unknown) => value as never;
const withHole = (list: readonly number[]) => {
  const copy = list.slice();
  delete copy[0];
  return copy;
};
const withRange = (last: unknown) => any({ sizing: 'iso11171', ranges: [{ from: 4, to: 6, perMl: 1 }, last] });
const mixed = { mixturePerMl: 520, diluentPerMl: 5, sampleMl: 10, diluentMl: 90 };

const cases: readonly [string, string, () => unknown][] = [
  ['negative', 'counts[4]', () => cumulativeCounts({ 4: -1 })],
  ['not_a_number', 'counts[6]', () => cumulativeCounts({ 4: 5, 6: Number.NaN })],
  ['infinite', 'counts[4]', () => cumulativeCounts({ 4: Infinity })],
  ['wrong_type', 'counts[4]', () => cumulativeCounts({ 4: any('1890') })],
  ['wrong_type', 'counts[4]', () => cumulativeCounts({ 4: any(undefined) })],
  ['wrong_type', 'counts', () => cumulativeCounts(any('18/16/13'))],
  ['wrong_type', 'counts', () => cumulativeCounts(any([1890, 402]))],
  ['wrong_type', 'counts', () => cumulativeCounts(any({ four: 1 }))],
  ['wrong_type', 'counts', () => cumulativeCounts(any({ '-4': 1 }))],
  ['out_of_range', 'counts', () => cumulativeCounts(Object.fromEntries([...Array(1001)].map((_, i) => [i + 1, 1])))],
  ['wrong_type', 'counts', () => cumulativeCounts(any({ '0x6': 1 }))],
  ['wrong_type', 'counts', () => cumulativeCounts(any({ ' 7 ': 1 }))],
  ['wrong_type', 'counts', () => cumulativeCounts(any({ '1e1': 1 }))],
  ['wrong_type', 'counts[4]', () => cumulativeCounts({ 4: any(10n) })],
  ['empty', 'counts', () => cumulativeCounts({})],
  ['out_of_range', 'counts[0]', () => cumulativeCounts({ 0: 1 })],
  ['out_of_range', 'counts[0.0005]', () => cumulativeCounts({ 0.0005: 1 })],
  ['out_of_range', 'counts[100001]', () => cumulativeCounts({ 100001: 1 })],
  ['out_of_range', 'counts[4]', () => cumulativeCounts({ 4: 1e308 })],
  ['out_of_range', 'counts[4]', () => cumulativeCounts({ 4: 9e15 }, { volumeMl: 1e-9 })],
  ['out_of_range', 'options.volumeMl', () => cumulativeCounts({ 4: 1 }, { volumeMl: 1e-13 })],
  ['out_of_range', 'options.volumeMl', () => cumulativeCounts({ 4: 1 }, { volumeMl: 1.01e9 })],
  ['wrong_type', 'counts[4]', () => cumulativeCounts({ 4: any(10n) }, { volumeMl: 10 })],
  ['out_of_range', 'options.dilution', () => cumulativeCounts({ 4: 1 }, { volumeMl: 10, dilution: 1e308 })],
  ['sizes_out_of_order', "counts['4.0']", () => cumulativeCounts(any({ 4: 2, '4.0': 1 }))],
  ['counts_rise_with_size', 'counts[6]', () => cumulativeCounts({ 4: 100, 6: 101 })],
  ['unknown_sizing', 'options.sizing', () => cumulativeCounts({ 4: 1 }, { sizing: any('sieve') })],
  ['unknown_option', 'options.per', () => cumulativeCounts({ 4: 1 }, { per: any('L') })],
  ['unknown_option', 'options.per', () => cumulativeCounts({ 4: 1 }, any({ per: 'mL', volumeMl: 10 }))],
  ['wrong_type', 'options', () => cumulativeCounts({ 4: 1 }, any(null))],
  ['unknown_option', 'options.volumeML', () => cumulativeCounts({ 4: 100 }, any({ volumeML: 10 }))],
  ['unknown_option', 'options.extrapolated', () => counts.countAt(good, 5, any({ extrapolated: true }))],
  ['unknown_option', 'options.level', () => counts.countInterval(5, any({ level: 0.9 }))],
  ['out_of_range', 'counts.sizes[0]', () => counts.convertCounts({ ...good, sizes: [3, 6, 14] }, 'iso4402')],
  [
    'sizing_not_convertible',
    'counts.sizing',
    () => counts.convertCounts({ ...good, sizing: 'microscope' }, 'iso11171'),
  ],
  ['sizing_not_convertible', 'to', () => counts.convertCounts(good, 'microscope')],
  ['unknown_sizing', 'to', () => counts.convertCounts(good, any('sieve'))],
  ['not_an_integer', 'counts[4]', () => cumulativeCounts({ 4: 1.5 }, { volumeMl: 10 })],
  ['out_of_range', 'counts[4]', () => cumulativeCounts({ 4: 1e16 }, { volumeMl: 10 })],
  ['out_of_range', 'options.volumeMl', () => cumulativeCounts({ 4: 1 }, { volumeMl: 0 })],
  ['negative', 'options.volumeMl', () => cumulativeCounts({ 4: 1 }, { volumeMl: -10 })],
  ['out_of_range', 'options.dilution', () => cumulativeCounts({ 4: 1 }, { volumeMl: 10, dilution: 0.5 })],
  ['missing_volume', 'options.volumeMl', () => cumulativeCounts({ 4: 1 }, any({ dilution: 2 }))],
  [
    'sizes_out_of_order',
    'counts.sizes[1]',
    () => counts.countAt({ sizing: 'iso11171', sizes: [6, 4], perMl: [2, 1] }, 5),
  ],
  ['length_mismatch', 'counts.perMl', () => counts.countAt({ sizing: 'iso11171', sizes: [4, 6], perMl: [2] }, 5)],
  ['length_mismatch', 'counts.counted', () => counts.countAt({ ...good, counted: [1] }, 5)],
  ['out_of_range', 'counts.perMl[1]', () => counts.countAt({ ...good, counted: [18900, 4021, 330], volumeMl: 10 }, 5)],
  [
    'out_of_range',
    'counts.perMl[0]',
    () => counts.countAt({ ...good, counted: [18900, 4020, 330], volumeMl: 10, dilution: 2 }, 5),
  ],
  [
    'counts_rise_with_size',
    'counts.counted[1]',
    () =>
      counts.countAt(
        { sizing: 'iso11171', sizes: [4, 6], perMl: [1e9, 1e9], counted: [1e12, 1e12 + 1], volumeMl: 1000 },
        5,
      ),
  ],
  [
    'sizes_out_of_order',
    'counts.sizes[2]',
    () => counts.countAt({ sizing: 'iso11171', sizes: [4, 9, 9.000000000000002], perMl: [10, 5, 3] }, 7),
  ],
  ['wrong_type', 'counts.perMl[0]', () => counts.countAt({ ...good, perMl: withHole(good.perMl) }, 5)],
  ['wrong_type', 'counts.sizes[0]', () => counts.countAt({ ...good, sizes: withHole(good.sizes) }, 5)],
  ['empty', 'counts.sizes', () => counts.countAt({ sizing: 'iso11171', sizes: [], perMl: [] }, 5)],
  ['unknown_sizing', 'counts.sizing', () => counts.countAt({ ...good, sizing: any('sieve') }, 5)],
  ['wrong_type', 'counts', () => counts.countAt(any(null), 5)],
  ['out_of_range', 'size', () => counts.countAt(good, 20)],
  ['out_of_range', 'size', () => counts.countAt(good, 3)],
  ['out_of_range', 'size', () => counts.countAt(good, 0)],
  ['unknown_option', 'options.method', () => counts.countAt(good, 5, { method: any('linear') })],
  ['too_few', 'counts', () => counts.countAt(cumulativeCounts({ 4: 5 }), 6, { extrapolate: true })],
  ['too_few', 'counts', () => counts.countAt(cumulativeCounts({ 4: 5, 6: 0 }), 3, { extrapolate: true })],
  [
    'out_of_range',
    'counts.sizes[0]',
    () => counts.countAt(cumulativeCounts({ 0.5: 9, 4: 5 }), 2, { method: 'log_log2' }),
  ],
  ['out_of_range', 'size', () => counts.countAt(good, 0.5, { method: 'log_log2', extrapolate: true })],
  ['out_of_range', 'perMl', () => counts.sizeAt(good, 5000)],
  ['out_of_range', 'perMl', () => counts.sizeAt(good, 1)],
  ['negative', 'perMl', () => counts.sizeAt(good, -1)],
  ['not_a_number', 'size', () => counts.countBounds(good, Number.NaN)],
  ['sizing_not_convertible', 'from', () => counts.convertSizing(5, 'microscope', 'iso11171')],
  ['sizing_not_convertible', 'to', () => counts.convertSizing(5, 'iso4402', 'microscope')],
  ['out_of_range', 'size', () => counts.convertSizing(0.5, 'iso4402', 'iso11171')],
  ['out_of_range', 'size', () => counts.convertSizing(71, 'iso11171', 'iso4402')],
  ['unknown_sizing', 'to', () => counts.convertSizing(5, 'iso4402', any('mesh'))],
  [
    'missing_size',
    'counts.ranges[0].to',
    () => counts.fromDifferential({ sizing: 'iso11171', ranges: [{ from: 4, to: 6, perMl: 1 }] }),
  ],
  [
    'sizes_out_of_order',
    'counts.ranges[0].to',
    () =>
      counts.fromDifferential({
        sizing: 'iso11171',
        ranges: [
          { from: 4, to: 6, perMl: 1 },
          { from: 7, to: null, perMl: 1 },
        ],
      }),
  ],
  ['wrong_type', 'counts.ranges[1]', () => counts.fromDifferential(withRange(null))],
  ['wrong_type', 'counts.ranges[1].from', () => counts.fromDifferential(withRange({ from: {}, to: null, perMl: 1 }))],
  [
    'wrong_type',
    'counts.ranges[1].from',
    () => counts.fromDifferential(withRange({ from: Symbol('6'), to: null, perMl: 1 })),
  ],
  ['wrong_type', 'counts.ranges[1].from', () => counts.fromDifferential(withRange({ to: null, perMl: 1 }))],
  ['not_an_integer', 'counted', () => counts.countInterval(2.5)],
  ['negative', 'counted', () => counts.countInterval(-2)],
  ['out_of_range', 'counted', () => counts.countInterval(1e9 + 1)],
  ['out_of_range', 'options.confidence', () => counts.countInterval(5, { confidence: 1 })],
  ['out_of_range', 'options.confidence', () => counts.countInterval(5, { confidence: 95 })],
  ['out_of_range', 'perMl', () => counts.volumeForCount(0)],
  ['out_of_range', 'perMl', () => counts.volumeForCount(5e-324)],
  ['out_of_range', 'particles', () => counts.volumeForCount(1, 1e300)],
  [
    'out_of_range',
    'a.volumeMl',
    () => counts.countsDiffer({ counted: 3, volumeMl: 1e308 }, { counted: 4, volumeMl: 5e-324 }),
  ],
  ['no_answer', 'size', () => counts.countAt(cumulativeCounts({ 4: 100, 4.0001: 1 }), 0.1, { extrapolate: true })],
  [
    'out_of_range',
    'options.sensingVolumeMl',
    () => counts.coincidenceLoss(1e308, { sensingVolumeMl: 1e308, model: 'non_paralyzable' }),
  ],
  [
    'unknown_option',
    'limit.los',
    () => counts.sensingVolume(any({ limitPerMl: 1e4, model: 'princen_kwolek', los: 0.1 })),
  ],
  ['out_of_range', 'perMl', () => counts.coincidenceLoss(1e13, { sensingVolumeMl: 1, model: 'non_paralyzable' })],
  [
    'out_of_range',
    'options.sensingVolumeMl',
    () => counts.correctCoincidence(1e-200, { sensingVolumeMl: 1e-200, model: 'paralyzable' }),
  ],
  ['out_of_range', 'limit.limitPerMl', () => counts.sensingVolume({ limitPerMl: 5e-324, model: 'paralyzable' })],
  ['out_of_range', 'limit.loss', () => counts.sensingVolume({ limitPerMl: 1, model: 'wales_wilson', loss: 1e-13 })],
  ['out_of_range', 'mgPerL', () => counts.testDustCounts(1e7)],
  ['negative', 'mgPerL', () => counts.testDustCounts(-1)],
  ['wrong_type', 'mixture', () => counts.undilute(any(undefined))],
  ['out_of_range', 'mixture.diluentPerMl', () => counts.undilute({ ...mixed, diluentPerMl: 578 })],
  ['out_of_range', 'mixture.sampleMl', () => counts.undilute({ ...mixed, sampleMl: 0 })],
  ['negative', 'mixture.diluentMl', () => counts.undilute({ ...mixed, diluentMl: -90 })],
  ['out_of_range', 'fahrenheit', () => fahrenheitToCelsius(1e308)],
  ['out_of_range', 'psi', () => psiToKPa(1e308)],
  ['no_answer', 'a.counted', () => counts.countsDiffer({ counted: 0, volumeMl: 1 }, { counted: 0, volumeMl: 1 })],
  ['out_of_range', 'b.volumeMl', () => counts.countsDiffer({ counted: 1, volumeMl: 1 }, { counted: 0, volumeMl: 0 })],
  ['wrong_type', 'b', () => counts.countsDiffer({ counted: 1, volumeMl: 1 }, any(undefined))],
  ['out_of_range', 'perMl', () => counts.coincidenceLoss(2, { sensingVolumeMl: 1, model: 'paralyzable' })],
  ['out_of_range', 'observedPerMl', () => counts.correctCoincidence(0.4, { sensingVolumeMl: 1, model: 'paralyzable' })],
  ['out_of_range', 'observedPerMl', () => counts.correctCoincidence(1, { sensingVolumeMl: 1, model: 'wales_wilson' })],
  ['unknown_option', 'options.model', () => counts.coincidenceLoss(2, { sensingVolumeMl: 1, model: any('poisson') })],
  ['out_of_range', 'limit.loss', () => counts.sensingVolume({ limitPerMl: 1, model: 'princen_kwolek', loss: 0.7 })],
  ['sizing_not_convertible', 'counts.sizing', () => counts.equivalentDustMgPerL({ ...good, sizing: 'microscope' })],
  ['out_of_range', 'counts.sizes[0]', () => counts.equivalentDustMgPerL(cumulativeCounts({ 70: 1 }))],
  ['no_answer', 'counts.perMl', () => counts.equivalentDustMgPerL(cumulativeCounts({ 4: 0 }))],
];

describe('counts/', () => {
  test.each(cases)('%s: %s', (code, parameter, call) => {
    let thrown: unknown;
    try {
      call();
    } catch (error) {
      thrown = error;
    }
    expect(isMotescaleError(thrown)).toBe(true);
    expect(thrown).toMatchObject({ name: 'MotescaleError', code, parameter });
    const { received, expected, message } = thrown as counts.MotescaleError;
    expect(received.length).toBeGreaterThan(0);
    expect(message).toBe(`${parameter}: received ${received}, expected ${expected}`);
  });

  test('isMotescaleError knows its own only', () => {
    for (const other of [null, undefined, 'x', new Error('x'), { code: 'negative' }, { name: 'MotescaleError' }]) {
      expect(isMotescaleError(other)).toBe(false);
    }
  });
});

describe('what came, and what would be right', () => {
  const thrown = (run: () => unknown) => {
    try {
      run();
    } catch (error) {
      return error as counts.MotescaleError;
    }
    return expect.fail('nothing thrown');
  };

  test('a BigInt is shown as one', () => {
    expect(thrown(() => cumulativeCounts({ 4: any(10n) })).received).toBe('10n');
  });

  test('raw counts that disagree: the count per mL they give', () => {
    const error = thrown(() => counts.countAt({ ...good, counted: [18900, 3000, 330], volumeMl: 10 }, 5));
    expect(error.expected).toMatch(/^300:/);
  });

  test('sizes too close: how far apart', () => {
    const run = () => counts.countAt({ sizing: 'iso11171', sizes: [9, 9.000000000000002], perMl: [5, 3] }, 9);
    expect(thrown(run).expected).toBe('a size above 9 µm');
  });
});

describe('the edges that work', () => {
  test('an option that is undefined counts as left out', () => {
    expect(cumulativeCounts({ 4: 1 }, any({ volumeMl: 10, per: undefined })).perMl).toEqual([0.1]);
    expect(cumulativeCounts({ 4: 1 }, any({ volumeMl: undefined, dilution: undefined })).perMl).toEqual([1]);
    expect(counts.countInterval(5, any({ confidence: undefined }))).toEqual(counts.countInterval(5));
  });

  test('counts from elsewhere agree to a billionth', () => {
    const raw = { ...good, counted: [18900, 4020, 330], volumeMl: 10 };
    const other = { ...raw, perMl: [1890 * (1 + 1e-10), 402, 33] };
    expect(counts.countAt(other, 6)).toEqual({ perMl: 402, basis: 'measured' });
  });

  test('zero counts: between a count and a zero the curve falls to the zero, beyond it stays', () => {
    const zeroes = cumulativeCounts({ 4: 100, 6: 10, 14: 0, 21: 0 });
    const between = counts.countAt(zeroes, 10).perMl;
    expect(between).toBeGreaterThan(0);
    expect(between).toBeLessThan(10);
    expect(counts.countAt(zeroes, 18)).toEqual({ perMl: 0, basis: 'interpolated' });
    expect(counts.countAt(zeroes, 30, { extrapolate: true })).toEqual({ perMl: 0, basis: 'extrapolated' });
    expect(counts.sizeAt(zeroes, 0)).toBe(14);
    expect(counts.countAt(cumulativeCounts({ 4: 0, 6: 0 }), 5)).toEqual({ perMl: 0, basis: 'interpolated' });
  });

  test('a plateau stays a plateau', () => {
    const flat = cumulativeCounts({ 4: 50, 6: 50, 14: 50, 21: 3 });
    expect(counts.countAt(flat, 9).perMl).toBe(50);
    expect(counts.sizeAt(flat, 50)).toBe(4);
  });

  test('differential and back, raw counts exactly', () => {
    const raw = cumulativeCounts({ 4: 940, 6: 201, 14: 17 }, { volumeMl: 0.3, dilution: 3 });
    expect(counts.fromDifferential(counts.toDifferential(raw)).perMl).toEqual(raw.perMl);
    expect(counts.toDifferential(raw).ranges.map((range) => range.perMl)).toEqual([7390, 1840, 170]);
    // nothing is lost: particles, volume and dilution
    expect(counts.fromDifferential(counts.toDifferential(raw))).toEqual(raw);
  });

  test('ranges as a sheet has them: per 100 mL, or as counted', () => {
    const ranges = [
      { from: 6, to: 14, count: 36900 },
      { from: 14, to: null, count: 3300 },
    ];
    const of = (given: object) => counts.fromDifferential({ sizing: 'iso11171', ranges, ...given } as never);
    expect(of({ per: '100mL' })).toEqual(cumulativeCounts({ 6: 40200, 14: 3300 }, { per: '100mL' }));
    expect(of({ per: 'mL' })).toEqual(cumulativeCounts({ 6: 40200, 14: 3300 }));
    const raw = { volumeMl: 25, dilution: 2 };
    expect(of(raw)).toEqual(cumulativeCounts({ 6: 40200, 14: 3300 }, raw));
    const refused = (given: object, code: string, parameter: string) =>
      expect(() => of(given)).toThrow(expect.objectContaining({ code, parameter }));
    const last = (range: object) => ({ ranges: [{ from: 14, to: null, ...range }] });
    refused({}, 'missing_volume', 'counts.volumeMl');
    refused({ ranges: [null, { from: 14, to: null, count: 3, perMl: 3 }] }, 'missing_volume', 'counts.volumeMl');
    refused({ per: '100mL', volumeMl: 25 }, 'unknown_option', 'counts.per');
    refused({ per: '10mL' }, 'unknown_option', 'counts.per');
    refused({ per: '100mL', ...last({ perMl: 3 }) }, 'unknown_option', 'counts.ranges[0].perMl');
    refused({ per: '100mL', ...last({ count: -1 }) }, 'negative', 'counts.ranges[0].count');
    refused({ dilution: 2, ...last({ perMl: 3 }) }, 'missing_volume', 'counts.volumeMl');
    refused({ ...raw, ...last({ count: 0.5 }) }, 'not_an_integer', 'counts.ranges[0].count');
    refused({ ...raw, ...last({ perMl: 3 }) }, 'wrong_type', 'counts.ranges[0].count');
    refused({ ...raw, ...last({ count: 50, perMl: 3 }) }, 'out_of_range', 'counts.ranges[0].perMl');
    refused({ volumeMl: 0, ...last({ count: 50 }) }, 'out_of_range', 'counts.volumeMl');
  });

  test('the ends of the ranges belong to them', () => {
    expect(cumulativeCounts({ 0.001: 1e9, 100000: 1 }, { volumeMl: 1e9 }).perMl).toEqual([1, 1e-9]);
    expect(cumulativeCounts({ 4: 1 }, { volumeMl: 1e-12 }).perMl).toEqual([1e12]);
    expect(cumulativeCounts({ 4: 1 }, { volumeMl: 1, dilution: 1e9 }).perMl).toEqual([1e9]);
  });

  test('µm(b) to µm(c) and back', () => {
    expect(counts.convertSizing(10, 'iso11171b', 'iso11171')).toBeCloseTo(8.98, 12);
    expect(counts.convertSizing(counts.convertSizing(7, 'iso4402', 'iso11171b'), 'iso11171b', 'iso4402')).toBeCloseTo(
      7,
      12,
    );
  });
});

test('counts that rise or are too many are named as they came', () => {
  const expected = 'at most 20, the count at 4 µm';
  for (const options of [{}, { per: '100mL' }, { volumeMl: 10 }, { volumeMl: 10, dilution: 3 }] as const)
    expectRefused('counts_rise_with_size', 'counts[6]', expected, () =>
      counts.cumulativeCounts({ 4: 20, 6: 35 }, options),
    );
  const rising = () => counts.cumulativeCounts({ 4: 20, 6: 35 }, { volumeMl: 10 });
  expect(rising).toThrow(expect.objectContaining({ received: '35' }));
  const many = () => counts.cumulativeCounts({ 4: 3e9 }, { volumeMl: 0.001 });
  expectRefused('out_of_range', 'counts[4]', 'particles per mL, up to 1e12', many);
  expect(many).toThrow(expect.objectContaining({ received: '3000000000' }));
});
