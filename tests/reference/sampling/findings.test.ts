/**
 * Each finding alone, and none on a good reading.
 */
import { describe, expect, test } from 'vitest';
import { isMotescaleError } from '../../../src/counts/index.ts';
import {
  assessReading,
  defaultReadingLimits,
  type FindingCode,
  type OwnReadingLimits,
  type Reading,
} from '../../../src/sampling/index.ts';

/** A lock-gate unit, warm, counted for a minute. */
const good: Reading = {
  counts: { sizing: 'iso11171', sizes: [4, 6, 14], perMl: [1890, 402, 33], counted: [18900, 4020, 330], volumeMl: 10 },
  time: 1_760_000_480_000,
  mlPerMin: 100,
  measuringSeconds: 60,
  kPa: 800,
  celsius: 45,
  mm2PerS: 46,
  waterSaturation: 0.3,
  coldestCelsius: 20,
  flushedMl: 500,
};
const earlier: readonly Reading[] = [1880, 1902, 1875, 1893].map((count, i) => ({
  ...good,
  counts: { ...good.counts, perMl: [count, 402, 33], counted: [count * 10, 4020, 330] },
  time: 1_760_000_000_000 + i * 120_000,
}));
const limits: OwnReadingLimits = {
  mlPerMin: { low: 50, high: 150 },
  celsius: { low: 0, high: 80 },
  coincidencePerMl: 20_000,
  solubility: { b: 1600 },
  flushMl: 300,
};
const counts = (perMl: readonly number[], sizes: readonly number[] = [4, 6, 14]) => ({
  counts: { sizing: 'iso11171' as const, sizes, perMl, counted: perMl.map((count) => count * 10), volumeMl: 10 },
});

interface Row {
  readonly code: FindingCode;
  /** What is changed of the good reading to bring the finding about. */
  readonly change: Partial<Reading>;
  readonly before?: readonly Reading[];
  readonly figure: number;
  readonly limit: number;
  /** A change that stops just short of it. */
  readonly justGood?: Partial<Reading>;
}

const rows: readonly Row[] = [
  { code: 'no_flow', change: { mlPerMin: 0 }, figure: 0, limit: 0 },
  { code: 'flow_low', change: { mlPerMin: 49.9 }, figure: 49.9, limit: 50, justGood: { mlPerMin: 50 } },
  { code: 'flow_high', change: { mlPerMin: 150.1 }, figure: 150.1, limit: 150, justGood: { mlPerMin: 150 } },
  { code: 'pressure_low', change: { kPa: 689.9 }, figure: 689.9, limit: 690, justGood: { kPa: 690 } },
  { code: 'viscosity_high', change: { mm2PerS: 350.1 }, figure: 350.1, limit: 350, justGood: { mm2PerS: 350 } },
  { code: 'temperature_low', change: { celsius: -1 }, figure: -1, limit: 0, justGood: { celsius: 0 } },
  {
    code: 'temperature_high',
    change: { celsius: 80.5, waterSaturation: 0.05 },
    figure: 80.5,
    limit: 80,
    justGood: { celsius: 80, waterSaturation: 0.05 },
  },
  { code: 'few_particles', change: counts([189, 40.2, 1.9]), figure: 19, limit: 20, justGood: counts([189, 40.2, 2]) },
  {
    code: 'counts_rise_with_size',
    change: counts([1890, 402, 33, 34], [4, 6, 14, 21]),
    figure: 34,
    limit: 33,
    justGood: counts([1890, 402, 33, 33], [4, 6, 14, 21]),
  },
  {
    code: 'above_coincidence_limit',
    change: counts([20_001, 4020, 330]),
    figure: 20_001,
    limit: 20_000,
    justGood: counts([20_000, 4020, 330]),
  },
  {
    code: 'free_water_likely',
    change: { waterSaturation: 0.95, coldestCelsius: 45 },
    figure: 0.95,
    limit: 0.95,
    justGood: { waterSaturation: 0.949, coldestCelsius: 45 },
  },
  // at 45 °C 30 % saturated: saturated at 1 / (1 / 318.15 - log10(0.3) / 1600) - 273.15 = 15.1 °C
  {
    code: 'cooled_below_saturation',
    change: { coldestCelsius: 15 },
    figure: 15,
    limit: 1 / (1 / 318.15 - Math.log10(0.3) / 1600) - 273.15,
    justGood: { coldestCelsius: 15.2 },
  },
  {
    code: 'air_or_droplets_likely',
    change: counts([1890, 1000, 300]),
    figure: Math.log10(6.3) / Math.log10(3.5),
    limit: 0.926 * Math.log10(56),
    justGood: counts([1890, 1000, 200]),
  },
  {
    code: 'values_stuck',
    change: {},
    before: earlier.map((reading) => ({ ...good, time: reading.time as number })),
    figure: 5,
    limit: 5,
  },
  { code: 'line_not_flushed', change: { flushedMl: 299 }, figure: 299, limit: 300, justGood: { flushedMl: 300 } },
  {
    code: 'clock_backwards',
    change: { time: 1_760_000_359_999 },
    figure: 1_760_000_359_999,
    limit: 1_760_000_360_000,
    justGood: { time: 1_760_000_360_000 },
  },
];

describe('a good reading', () => {
  test('has no finding and nothing unchecked', () => {
    expect(assessReading(good, limits, earlier)).toEqual({ quality: 'good', findings: [], unchecked: [] });
  });

  test('of counts alone says what could not be checked', () => {
    const { quality, findings, unchecked } = assessReading({ counts: { ...good.counts } });
    expect({ quality, findings }).toEqual({ quality: 'good', findings: [] });
    const made = ['few_particles', 'counts_rise_with_size', 'air_or_droplets_likely'];
    expect([...unchecked].sort()).toEqual(
      Object.keys(defaultReadingLimits.qualities)
        .filter((code) => made.indexOf(code) < 0)
        .sort(),
    );
  });
});

describe('each finding alone', () => {
  test('every code has a row', () => {
    expect(rows.map((row) => row.code)).toEqual(Object.keys(defaultReadingLimits.qualities));
  });

  test.each(rows)('$code', ({ code, change, before, figure, limit, justGood }) => {
    const reading = { ...good, ...change };
    const { quality, findings } = assessReading(reading, limits, before ?? earlier);
    expect(findings.map((finding) => finding.code)).toEqual([code]);
    expect(quality).toBe(defaultReadingLimits.qualities[code]);
    expect(findings[0]?.quality).toBe(quality);
    expect(findings[0]?.figure).toBeCloseTo(figure, 9);
    expect(findings[0]?.limit).toBeCloseTo(limit, 9);
    expect(findings[0]?.text).toMatch(/^[A-Z0-9].*\.$/);
    if (justGood !== undefined) expect(assessReading({ ...good, ...justGood }, limits, earlier).findings).toEqual([]);
  });

  test.each(rows)('$code: its quality can be overridden', ({ code, change, before }) => {
    const own = { ...limits, qualities: { [code]: 'good' } } as OwnReadingLimits;
    const { quality, findings } = assessReading({ ...good, ...change }, own, before ?? earlier);
    expect({ quality, codes: findings.map((finding) => finding.code) }).toEqual({ quality: 'good', codes: [code] });
  });
});

describe('limits', () => {
  test('null switches a check off and says so', () => {
    const { findings, unchecked } = assessReading({ ...good, kPa: 100 }, { ...limits, leastKPa: null }, earlier);
    expect({ findings, unchecked }).toEqual({ findings: [], unchecked: ['pressure_low'] });
  });

  test('particles are counted from volume, or from flow and time, where the counter does not say', () => {
    const perMl = { sizing: 'iso11171', sizes: [4, 6, 14], perMl: [60, 15, 1.9] } as const;
    const figure = (reading: Reading) => assessReading(reading).findings.map((finding) => finding.figure);
    expect(figure({ counts: { ...perMl, volumeMl: 10 } })).toEqual([19]);
    expect(figure({ counts: { ...perMl, volumeMl: 20, dilution: 2 } })).toEqual([19]);
    expect(figure({ counts: perMl, mlPerMin: 20, measuringSeconds: 30 })).toEqual([19]);
    expect(assessReading({ counts: perMl }).unchecked).toContain('few_particles');
  });

  test('sizes that must have enough particles: those of the code, else all, or as asked', () => {
    const raw = (sizes: readonly number[], own: OwnReadingLimits = {}) =>
      assessReading(counts([189, 40, 1.9].slice(0, sizes.length), sizes), own).findings.map((finding) => finding.code);
    expect(raw([4, 6, 21])).toEqual([]);
    expect(raw([5, 10, 21])).toEqual(['few_particles']);
    expect(raw([4, 6, 21], { particleSizes: [21] })).toEqual(['few_particles']);
  });

  test('counts that rise are not taken for air as well', () => {
    const { findings, unchecked } = assessReading(counts([100, 40, 5000]));
    expect(findings.map((finding) => finding.code)).toEqual(['counts_rise_with_size']);
    expect(unchecked).toContain('air_or_droplets_likely');
  });

  test('the counts alone are compared: they are stuck though all else lives, and live though all else is stuck', () => {
    const before = earlier.map((one, i) => ({ ...good, time: one.time as number, celsius: 40 + i, kPa: 800 + i }));
    expect(assessReading(good, limits, before).findings).toMatchObject([{ code: 'values_stuck', figure: 5 }]);
    const moved = before.map((one, i) => ({
      ...good,
      time: one.time,
      counts: i === 2 ? counts([1891, 402, 33]).counts : good.counts,
    }));
    expect(assessReading(good, limits, moved)).toMatchObject({ findings: [], unchecked: [] });
    const largest = before.map((one, i) => ({
      ...one,
      counts: i === 2 ? counts([1890, 402, 34]).counts : good.counts,
    }));
    expect(assessReading(good, limits, largest).findings).toEqual([]);
    expect(assessReading(good, { ...limits, stuckReadings: 2 }, [good]).findings[0]?.code).toBe('values_stuck');
  });

  // by Poisson two counts of n particles are equal with a chance of 1 / (2 sqrt(pi n)); below 100, and for zeros, a repeat says nothing
  test.each<[string, Partial<Reading['counts']>, boolean]>([
    ['nothing counted', { perMl: [0, 0, 0] }, false],
    ['few whole particles per mL', { perMl: [4, 1, 0] }, false],
    ['99 per mL', { perMl: [99, 40, 3] }, false],
    ['100 per mL', { perMl: [100, 40, 3] }, true],
    ['9.9 per mL', { perMl: [9.9, 4, 0.3] }, false],
    ['12.3 per mL', { perMl: [12.3, 4, 0.3] }, true],
    ['0.99 per mL', { perMl: [0.99, 0.4, 0.03] }, false],
    ['1.01 per mL', { perMl: [1.01, 0.4, 0.03] }, true],
    ['a third of a particle', { perMl: [1 / 3, 0.1, 0.03] }, false],
    ['301 thirds of a particle', { perMl: [301 / 3, 10, 3] }, true],
    ['99 counted, though three digits per mL', { perMl: [990, 400, 30], counted: [99, 40, 3], volumeMl: 0.1 }, false],
    ['100 counted, though two digits per mL', { perMl: [10, 4, 2], counted: [100, 40, 20], volumeMl: 10 }, true],
  ])('five times %s', (_name, some, judged) => {
    const reading: Reading = { counts: { sizing: 'iso11171', sizes: [4, 6, 14], perMl: [], ...some } };
    const { findings, unchecked } = assessReading(reading, { particles: null }, [reading, reading, reading, reading]);
    const stuck = findings.some(({ code }) => code === 'values_stuck');
    expect({ stuck, unchecked: unchecked.indexOf('values_stuck') >= 0 }).toEqual({ stuck: judged, unchecked: !judged });
  });

  test('the clock is compared with the last reading that has a time', () => {
    const timeless = { ...good, time: undefined as never };
    const { findings, unchecked } = assessReading({ ...good, time: 500 }, { stuckReadings: null }, [
      { ...good, time: 100 },
      { ...good, time: 1000 },
      timeless,
      timeless,
    ]);
    expect(findings).toMatchObject([{ code: 'clock_backwards', figure: 500, limit: 1000 }]);
    expect(unchecked).not.toContain('clock_backwards');
    expect(assessReading(good, {}, [timeless]).unchecked).toContain('clock_backwards');
    // once it was set back, only the first reading tells
    const back = [
      { ...good, time: 9000 },
      { ...good, time: 1000 },
    ];
    expect(assessReading({ ...good, time: 1500 }, {}, back).findings).toEqual([]);
  });
});

describe('errors', () => {
  const thrown = (reading: unknown, own: unknown = {}, before: unknown = []): string => {
    try {
      assessReading(reading as Reading, own as OwnReadingLimits, before as Reading[]);
    } catch (error) {
      return isMotescaleError(error) ? `${error.code} ${error.parameter}` : String(error);
    }
    return 'no error';
  };

  test.each([
    [null, {}, [], 'wrong_type reading'],
    [{}, {}, [], 'wrong_type reading.counts'],
    [{ counts: { ...good.counts, sizes: [4, 4, 14] } }, {}, [], 'sizes_out_of_order reading.counts.sizes[1]'],
    [{ counts: { ...good.counts, perMl: [1, Number.NaN, 3] } }, {}, [], 'not_a_number reading.counts.perMl[1]'],
    [{ counts: { ...good.counts, perMl: ['1', 2, 3] } }, {}, [], 'wrong_type reading.counts.perMl[0]'],
    [{ counts: { ...good.counts, perMl: 3 } }, {}, [], 'wrong_type reading.counts.perMl'],
    [{ ...good, mlPerMin: -1 }, {}, [], 'negative reading.mlPerMin'],
    [{ ...good, mlPerMin: null }, {}, [], 'wrong_type reading.mlPerMin'],
    [{ ...good, celsius: -300 }, {}, [], 'out_of_range reading.celsius'],
    [{ ...good, mm2PerS: 0 }, {}, [], 'out_of_range reading.mm2PerS'],
    [{ ...good, time: Number.POSITIVE_INFINITY }, {}, [], 'infinite reading.time'],
    [good, { leastkPa: 1 }, [], 'unknown_option limits'],
    [good, { qualities: { few: 'bad' } }, [], 'unknown_option limits.qualities'],
    [good, { qualities: { no_flow: 'poor' } }, [], 'unknown_option limits.qualities.no_flow'],
    [good, { mlPerMin: { low: 2, high: 1 } }, [], 'out_of_range limits.mlPerMin.high'],
    [good, { stuckReadings: 1 }, [], 'out_of_range limits.stuckReadings'],
    [good, { solubility: {} }, [], 'wrong_type limits.solubility.b'],
    [good, { particleSizes: [] }, [], 'empty limits.particleSizes'],
    [good, {}, {}, 'wrong_type earlier'],
    [good, {}, [{}], 'wrong_type earlier[0]'],
    [good, {}, [{ ...good, time: '1' }], 'wrong_type earlier[0].time'],
  ])('%#: %j', (reading, own, before, expected) => {
    expect(thrown(reading, own, before)).toBe(expected);
  });
});
