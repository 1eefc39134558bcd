/**
 * Each finding alone, and none on a good reading.
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type CumulativeCounts, cumulativeCounts, isMotescaleError } from '../../../src/counts/index.ts';
import {
  assessReading,
  defaultReadingLimits,
  type FindingCode,
  findingText,
  type OwnReadingLimits,
  type Reading,
} from '../../../src/reading/index.ts';
import { viscosityLine } from '../../../src/viscosity/index.ts';

/** A lock-gate unit, warm, counted for a minute. */
const good: Reading & { readonly counts: CumulativeCounts } = {
  counts: {
    sizing: 'iso11171',
    sizes: [4, 6, 14],
    perMl: [1890.1, 402, 33],
    counted: [18901, 4020, 330],
    volumeMl: 10,
  },
  time: 1_760_000_480_000,
  mlPerMin: 100,
  measuringSeconds: 60,
  kPa: 800,
  celsius: 45,
  mm2PerS: 46,
  waterSaturation: 0.3,
  coldestCelsius: 20,
  flushedMl: 500,
  receivedAt: 1_760_000_481_000,
  calibratedAt: 1_750_000_000_000,
};
const earlier: readonly Reading[] = [1881, 1874, 1896, 1880, 1902, 1875, 1893].map((count, i) => ({
  ...good,
  counts: {
    ...good.counts,
    perMl: [count, 402 + i - 5, 33 + i - 5],
    counted: [count * 10, 4020 + 10 * (i - 5), 330 + 10 * (i - 5)],
  },
  time: 1_760_000_000_000 + i * 60_000,
}));
const limits: OwnReadingLimits = {
  mlPerMin: { low: 50, high: 150 },
  leastKPa: 180,
  mostMm2PerS: 220,
  celsius: { low: 0, high: 80 },
  coincidencePerMl: 20_000,
  solubility: { b: 1600 },
  flushMl: 300,
  mostKPa: 900,
  viscosityLine: viscosityLine([
    { celsius: 45, mm2PerS: 46 },
    { celsius: 100, mm2PerS: 8 },
  ]),
  // wide, so that the temperatures of the other rows do not show
  viscosityShare: 10,
  settleMs: 60_000,
  calibrationMs: 20_000_000_000,
};
const counts = (perMl: readonly number[], sizes: readonly number[] = [4, 6, 14]) => ({
  counts: {
    sizing: 'iso11171' as const,
    sizes,
    perMl,
    counted: perMl.map((count) => Math.round(count * 10)),
    volumeMl: 10,
  },
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
  { code: 'pressure_low', change: { kPa: 179.9 }, figure: 179.9, limit: 180, justGood: { kPa: 180 } },
  { code: 'viscosity_high', change: { mm2PerS: 220.1 }, figure: 220.1, limit: 220, justGood: { mm2PerS: 220 } },
  {
    code: 'temperature_low',
    change: { celsius: -1, mm2PerS: 219 },
    figure: -1,
    limit: 0,
    justGood: { celsius: 0, mm2PerS: 219 },
  },
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
    change: counts([1890, 402, 33, 1.5, 1.6], [4, 6, 14, 21, 38]),
    figure: 1.6,
    limit: 1.5,
    justGood: counts([1890, 402, 33, 1.5, 1.5], [4, 6, 14, 21, 38]),
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
  // at 45 °C 30 % saturated: saturated at 1 / (1 / 318.15 - log10(0.3) / 1600) - 273.15 = 15.04 °C
  {
    code: 'cooled_below_saturation',
    change: { coldestCelsius: 15 },
    figure: 15,
    limit: 1 / (1 / 318.15 - Math.log10(0.3) / 1600) - 273.15,
    justGood: { coldestCelsius: 15.2 },
  },
  {
    code: 'flat_size_distribution',
    change: counts([1890, 1000, 300]),
    figure: Math.log10(6.3) / Math.log10(3.5),
    limit: 0.926 * Math.log10(56),
    justGood: counts([1890, 1000, 200]),
  },
  {
    code: 'values_stuck',
    change: {},
    before: earlier.slice(-4).map((reading) => ({ ...good, time: reading.time as number })),
    figure: 5,
    limit: 3,
  },
  {
    code: 'channels_stuck',
    change: {},
    before: [...earlier, ...earlier].map((one, i) => ({ ...one, ...counts([1870 + i, 402, 33]), time: 1e12 + i })),
    figure: 15,
    limit: 4,
  },
  { code: 'line_not_flushed', change: { flushedMl: 299 }, figure: 299, limit: 300, justGood: { flushedMl: 300 } },
  {
    code: 'clock_backwards',
    change: { time: 1_760_000_359_999 },
    figure: 1_760_000_359_999,
    limit: 1_760_000_360_000,
    justGood: { time: 1_760_000_360_000 },
  },
  {
    code: 'flagged_by_instrument',
    change: { qualities: { counts: 'bad' } },
    figure: 1,
    limit: 0,
    justGood: { qualities: { counts: 'good', celsius: 'good' } },
  },
  {
    code: 'code_disagrees',
    change: { codes: { iso4406: '18/18/12' } },
    figure: 2,
    limit: 0,
    justGood: { codes: { iso4406: '18/16/12' } },
  },
  { code: 'pressure_high', change: { kPa: 901 }, figure: 901, limit: 900, justGood: { kPa: 900 } },
  {
    code: 'viscosity_off_line',
    change: { mm2PerS: 4 },
    figure: 4,
    limit: 46,
    justGood: { mm2PerS: 4.2 },
  },
  {
    code: 'calibration_overdue',
    change: { calibratedAt: 1_740_000_479_999 },
    figure: 20_000_000_001,
    limit: 20_000_000_000,
    justGood: { calibratedAt: 1_740_000_480_000 },
  },
  {
    code: 'clock_ahead',
    change: { receivedAt: 1_760_000_179_999 },
    figure: 300_001,
    limit: 300_000,
    justGood: { receivedAt: 1_760_000_180_000 },
  },
  { code: 'figure_implausible', change: { kPa: -101.4 }, figure: -101.4, limit: -101.325 },
];

/** What each row's finding says, to the last word. */
const sentences: Readonly<Partial<Record<FindingCode, string>>> = {
  no_flow:
    'No oil flows through the sensor, or no more than a flow meter shows at standstill: the counts say nothing ' +
    'about the oil. First stop the pump, lock it out, and release all pressure, including accumulators. Then look ' +
    'for what shuts the line off.',
  flow_low:
    'Flow is 49.9 mL/min, below 50. Cold oil flows slower: stop a sample pump until it is warmer, unless its inlet ' +
    'takes oil so thick. Only where inlet limit and relief valve allow it, set a pump faster or a flow valve wider. ' +
    'If that does not help, or a restrictor sets the flow, stop the pump, lock it out, and release all pressure, ' +
    'including accumulators; then look for what holds the oil back.',
  flow_high:
    'Flow is 150.1 mL/min, above 150. A pump can be set slower, a flow valve narrower. Where a restrictor sets the ' +
    'flow, first stop the pump, lock it out, and release all pressure, including accumulators; then fit a ' +
    'narrower one where the line leaves the pressure line. Never throttle a pump that has no relief valve.',
  pressure_low:
    'Pressure in the sensor is 179.9 kPa, below 180: bubbles in the oil may stay and count as particles. The line ' +
    'behind the sensor may leak or be off: look for oil on the floor, from a distance. Thin oil makes less pressure. ' +
    'Air gets in by a leak in the suction line or from foam in the tank. Before the line is touched, stop the pump, ' +
    'lock it out, and release all pressure, including accumulators.',
  viscosity_high:
    'Viscosity, measured or by the temperature, is 220.1 mm²/s, above 220: wait until the oil is warmer. Stop a ' +
    'sample pump meanwhile, unless its inlet takes oil so thick.',
  temperature_low:
    'Oil is at -1 °C, below the 0 °C the sensor is made for: wait until the oil is warmer. Stop a sample pump ' +
    'meanwhile, unless its inlet takes oil so thick.',
  temperature_high:
    'Oil is at 80.5 °C, above the 80 °C the sensor is made for. Stop the pump of the sampling line if it has one of ' +
    'its own, or shut a rated valve where the line leaves the machine. Where there is neither, take the machine ' +
    'down by its own procedure: stopping its pump alone may stop the cooling or drop a load. Do not touch the line ' +
    'while it is hot. Release all pressure, and let the oil cool. A wrong thermometer looks the same: compare it ' +
    'with a second one.',
  few_particles:
    'At 14 µm(c) fewer than 20 particles were counted (19 at 14 µm(c)): count longer, or mark the scale number with ' +
    '>=.',
  counts_rise_with_size:
    '1.6 particles per mL of 38 µm(c) and larger, but only 1.5 of 21 µm(c) and larger, which include them: a channel ' +
    'of the counter is wrong.',
  above_coincidence_limit:
    'The counter saw 20001 particles per mL, above its coincidence limit of 20000: the oil is at least this dirty, ' +
    'and the sizes are not right. Dilute a bottle sample; on line use a sensor with a higher limit: a smaller flow ' +
    'does not make the oil cleaner. Counts that fall from here although nobody cleaned the oil may be those of a ' +
    'counter that sees nothing for all the droplets or dirt.',
  free_water_likely:
    'The oil is 95 % saturated with water (limit 95 %): droplets are likely counted as particles; dry the oil.',
  cooled_below_saturation:
    'The oil was as cold as 15 °C, below the 15.04 °C at which it is saturated with the water it holds: droplets ' +
    'may be left and count as particles; let it run warm and count again.',
  flat_size_distribution:
    'From 4 µm(c) to 14 µm(c) the counts fall with a slope of 1.47; fine dirt falls with 1.62 or more. It may be ' +
    'air bubbles, water droplets or coarse wear, which the counts do not tell apart: look at a sample, for foam in ' +
    'the tank, and at the water.',
  values_stuck:
    'The last 5 readings have the same counts to the last digit; 3 would hardly come by chance: the sensor or its ' +
    'connection has stopped.',
  channels_stuck:
    'The last 15 readings have the same counts at 6 µm(c) and 14 µm(c) while others move; 4 would hardly come by ' +
    'chance: a channel of the counter has stopped.',
  flagged_by_instrument:
    'The instrument marks its counts as not to be relied on, or sends what cannot be read: see its own messages.',
  pressure_high:
    'Pressure in the sensor is 901 kPa, above the 900 it can take. Take the machine down by its own procedure, lock ' +
    'it out, and release all pressure, including accumulators. Then fit a relief valve at the sensor with a ' +
    'free path to the tank, or a sensor rated for the line. A restrictor alone protects nothing: where no oil ' +
    'flows, it takes no ' +
    'pressure off.',
  viscosity_off_line:
    'Viscosity is 4 mm²/s, but the oil has 46 at this temperature. A wrong thermometer, a wrong viscometer and ' +
    'another fluid all look like this. First compare the temperature with a second thermometer. If it is right, take ' +
    'a sample at a low-pressure sampling valve and have its viscosity measured in a laboratory. If that is as the ' +
    'oil ' +
    'should have, the viscometer is wrong; if not, another fluid is in the machine, or the oil has changed.',
  calibration_overdue: 'The counter was calibrated 231.48148149 days ago, more than 231.48148148: have it calibrated.',
  clock_ahead:
    'The reading is 300.001 s ahead of the clock of the host (limit 300 s): set the clock of the instrument.',
  code_disagrees:
    'The code that came with the counts is 2 classes off the code of the counts, which decide: compare sizes, ' +
    'calibration and edition of the standard in the instrument.',
  figure_implausible:
    'The pressure reads -101.4, beyond the -101.3 that an oil can have: the sensor, its cable or its scaling is ' +
    'wrong, or the figure came in another unit. Until a second instrument says otherwise take the oil for hot and ' +
    'under pressure. Before the line is touched, stop the pump, lock it out, and release all pressure, including ' +
    'accumulators. Then look at the sensor and its cable.',
  line_not_flushed: '299 mL have passed the line, fewer than 300: it still holds old oil; let it run longer.',
  clock_backwards:
    'This reading is 0.001 s older than one before it: set the clock of the instrument; rates and trends across ' +
    'this moment mean nothing.',
};

describe('a good reading', () => {
  test('has no finding and nothing unchecked', () => {
    expect(assessReading(good, limits, earlier)).toMatchObject({
      quality: 'good',
      findings: [],
      unchecked: ['volume_disagrees'],
    });
  });

  test('of counts alone says what could not be checked', () => {
    const { quality, findings, unchecked } = assessReading({ counts: { ...good.counts } });
    expect({ quality, findings }).toEqual({ quality: 'good', findings: [] });
    const made = [
      ...['few_particles', 'counts_rise_with_size', 'flat_size_distribution'],
      ...['flagged_by_instrument', 'code_disagrees', 'count_missing', 'channels_equal', 'code_unreadable'],
      'flow_unknown',
      'code_rises_with_size',
      ...['no_particles', 'channel_empty', 'figure_implausible'],
    ];
    expect([...unchecked].sort()).toEqual(
      Object.keys(defaultReadingLimits.qualities)
        .filter((code) => made.indexOf(code) < 0)
        .sort(),
    );
  });
});

describe('each finding alone', () => {
  test('every code has a row', () => {
    // a count that is missing is found by parseCounts; what else has no row is in
    // tests/properties/reading/readingYear.test.ts
    const elsewhere = [
      'count_missing',
      // without counts: tests/inputs/codeUnreadable.test.ts
      'code_unreadable',
      'code_rises_with_size',
      'channels_equal',
      'no_particles',
      // tests/properties/reading/channelEmpty.test.ts
      'channel_empty',
      'flow_pulsating',
      'start_up',
      'standing_oil',
      // tests/inputs/belowZero.test.ts: beside flagged_by_instrument
      'flow_unknown',
      'volume_disagrees',
    ];
    const codes = Object.keys(defaultReadingLimits.qualities).filter((code) => !elsewhere.includes(code));
    expect(rows.map((row) => row.code)).toEqual(codes);
  });

  test.each(rows)('$code', ({ code, change, before, figure, limit, justGood }) => {
    const reading = { ...good, ...change };
    const { quality, findings } = assessReading(reading, limits, before ?? earlier);
    expect(findings.map((finding) => finding.code)).toEqual([code]);
    expect(findings[0]?.quality).toBe(defaultReadingLimits.qualities[code]);
    // that of the counts, where it touches them
    const touched = findings[0]?.affects.includes('counts') === true;
    expect(quality).toBe(touched ? defaultReadingLimits.qualities[code] : 'good');
    expect(findings[0]?.value).toBeCloseTo(figure, 9);
    expect(findings[0]?.limit).toBeCloseTo(limit, 9);
    expect(findings.map((finding) => findingText(finding))).toEqual([sentences[code]]);
    if (justGood !== undefined) expect(assessReading({ ...good, ...justGood }, limits, earlier).findings).toEqual([]);
  });

  test.each(rows)(
    '$code: as well where the counter does not say how many it counted',
    ({ code, change, before, figure }) => {
      const without = (reading: Reading, volumeMl?: number): Reading => {
        const { sizing, sizes, perMl } = reading.counts as CumulativeCounts;
        return { ...reading, counts: { sizing, sizes, perMl, ...(volumeMl === undefined ? {} : { volumeMl }) } };
      };
      const reading = { ...good, ...change };
      const past = (before ?? earlier).map((one) => without(one));
      // of 10 mL: known as such, or from 100 mL/min for 6 s
      for (const bare of [without(reading, 10), without({ ...reading, measuringSeconds: 6 })]) {
        const { findings } = assessReading(bare, limits, past);
        expect(findings.map((finding) => finding.code)).toEqual([code]);
        expect(findings[0]?.value).toBeCloseTo(figure, 9);
      }
    },
  );

  test.each(rows)('$code: its quality can be overridden', ({ code, change, before }) => {
    const own = { ...limits, qualities: { [code]: 'good' } } as OwnReadingLimits;
    const { quality, findings } = assessReading({ ...good, ...change }, own, before ?? earlier);
    expect({ quality, codes: findings.map((finding) => finding.code) }).toEqual({ quality: 'good', codes: [code] });
  });
});

describe('limits', () => {
  test('pressure and viscosity are unchecked until the data sheet sets them', () => {
    const { quality, unchecked } = assessReading({ ...good, kPa: 5, mm2PerS: 900 }, {}, earlier);
    expect(quality).toBe('good');
    expect(unchecked).toEqual(expect.arrayContaining(['pressure_low', 'viscosity_high']));
  });

  test('null switches a check off and says so', () => {
    const { findings, unchecked } = assessReading({ ...good, kPa: 100 }, { ...limits, leastKPa: null }, earlier);
    expect({ findings, unchecked }).toEqual({ findings: [], unchecked: ['pressure_low', 'volume_disagrees'] });
  });

  test('particles are counted from volume, or from flow and time, where the counter does not say', () => {
    const perMl = { sizing: 'iso11171', sizes: [4, 6, 14], perMl: [60, 15, 1.9] } as const;
    const figure = (reading: Reading) => assessReading(reading).findings.map((finding) => finding.value);
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

  test('sizes asked for that the reading lacks are unchecked, unless another is found wanting', () => {
    const of = (particleSizes: readonly number[], perMl = [189, 40, 19]) => {
      const { findings, unchecked } = assessReading(counts(perMl), { particleSizes });
      return [findings.map((finding) => finding.code).join(), unchecked.indexOf('few_particles') >= 0];
    };
    expect(of([4, 14])).toEqual(['', false]);
    expect(of([4, 21])).toEqual(['', true]);
    expect(of([21, 38])).toEqual(['', true]);
    expect(of([14, 21], [189, 40, 1.9])).toEqual(['few_particles', false]);
  });

  test('without flow, counting longer is no advice: few particles are not looked for', () => {
    const still = { ...good, ...counts([1.9, 0.4, 0.1]), mlPerMin: 0 };
    const { findings, unchecked } = assessReading(still, limits, earlier);
    expect(findings.map((finding) => finding.code)).toEqual(['no_flow']);
    expect(unchecked).toContain('few_particles');
  });

  test.each<[string, Partial<Reading>, OwnReadingLimits, string]>([
    [
      'mm²/s',
      { mm2PerS: 220.45 },
      { mostMm2PerS: 220.4 },
      'Viscosity, measured or by the temperature, is 220.5 mm²/s, above 220.4:',
    ],
    ['kPa', { kPa: 179.3 }, { leastKPa: 179.4 }, 'Pressure in the sensor is 179.3 kPa, below 179.4:'],
    ['kPa', { kPa: 179.9999999 }, { leastKPa: 180 }, 'Pressure in the sensor is 179.9999999 kPa, below 180:'],
    ['mL/min', { mlPerMin: 49.96 }, { mlPerMin: { low: 49.97, high: 60 } }, 'Flow is 49.96 mL/min, below 49.97.'],
    ['°C', { celsius: -0.0004 }, { celsius: { low: -0.0003, high: 60 } }, 'Oil is at -0.0004 °C, below the -0.0003 °C'],
    ['%', { waterSaturation: 0.9502, coldestCelsius: 45 }, {}, 'The oil is 95.02 % saturated with water (limit 95 %):'],
    ['mL', { flushedMl: 353.9 }, { flushMl: 354.2 }, '353.9 mL have passed the line, fewer than 354.2:'],
  ])('a sentence never contradicts itself: %s', (_unit, change, own, text) => {
    const [finding] = assessReading({ ...good, ...change }, own, earlier).findings;
    expect(finding && findingText(finding).slice(0, text.length)).toBe(text);
  });

  test('a figure and its limit always differ in the sentence, in their order', () => {
    const numbers = (text: string) => (text.match(/-?\d[\d.e+-]*/g) ?? []).map(Number.parseFloat);
    fc.assert(
      fc.property(fc.double({ min: 1e-3, max: 1e5, noNaN: true }), fc.integer({ min: 1, max: 15 }), (limit, places) => {
        const figure = limit * (1 - 10 ** -places);
        fc.pre(figure < limit);
        const low = assessReading({ ...good, kPa: figure }, { leastKPa: limit }).findings[0];
        const [shownFigure = 0, shownLimit = 0] = numbers(low ? findingText(low) : '');
        expect(shownFigure).toBeLessThan(shownLimit);
        const high = assessReading({ ...good, mm2PerS: limit }, { mostMm2PerS: figure, plausibleMm2PerS: null })
          .findings[0];
        const [more = 0, most = 0] = numbers((high ? findingText(high) : '').replace('mm²/s', ''));
        expect(more).toBeGreaterThan(most);
      }),
    );
  });

  test('a counter cannot count more oil than has passed, whatever share it counts', () => {
    const of = (volumeMl: number, own: OwnReadingLimits = {}) => {
      const { findings, unchecked } = assessReading(
        {
          mlPerMin: 30,
          measuringSeconds: 60,
          counts: { sizing: 'iso11171', sizes: [4, 6, 14], perMl: [1890, 402, 33], volumeMl },
        },
        own,
      );
      return [
        findings.map(({ code, value, limit }) => [code, value, limit]),
        unchecked.indexOf('volume_disagrees') >= 0,
      ];
    };
    expect(of(36)).toEqual([[], true]);
    expect(of(36.1)).toEqual([[['volume_disagrees', 36.1, 30]], false]);
    expect(of(10)).toEqual([[], true]);
    expect(of(10, { countedShare: 0.5 })).toEqual([[['volume_disagrees', 10, 15]], false]);
    // as far below as above: 15 / 1.2 and 15 x 1.2
    const ends = [12.4, 12.6, 17.9, 18.1].map((volumeMl) => of(volumeMl, { countedShare: 0.5 })[0]);
    expect(ends.map((found) => (found as unknown[]).length)).toEqual([1, 0, 0, 1]);
    // null switches the check off
    expect(of(1000, { countedShare: null })).toEqual([[], true]);
  });

  test('a measurement that began before the flow was seen is at start-up, where no time to settle is set', () => {
    const of = (afterMs: number, measuringSeconds?: number, own: OwnReadingLimits = {}) => {
      const before = [0, 50].map((mlPerMin, i) => ({ time: 60000 * i, mlPerMin }));
      const now = { time: 60000 + afterMs, mlPerMin: 50, measuringSeconds };
      const { findings, unchecked } = assessReading(now, own, before);
      return [findings.map(({ code, value, limit }) => [code, value, limit]), unchecked.indexOf('start_up') >= 0];
    };
    expect(of(29000, 30)).toEqual([[['start_up', 29000, 30000]], false]);
    expect(of(30000, 30)).toEqual([[], false]);
    expect(of(29000)).toEqual([[], true]);
    expect(of(29000, 30, { settleMs: null })).toEqual([[], true]);
  });

  test('each of start-up and standing oil is unchecked by itself', () => {
    const before = [0, 60000, 120000].map((time) => ({ time, mlPerMin: 50 }));
    const { unchecked } = assessReading({ time: 180000, mlPerMin: 50 }, { flushMl: 100 }, before);
    expect(unchecked).toContain('start_up');
    expect(unchecked).not.toContain('standing_oil');
  });

  test('counts that rise are not taken for air as well', () => {
    const { findings, unchecked } = assessReading(counts([100, 101, 5000]));
    expect(findings.map((finding) => finding.code)).toEqual(['counts_rise_with_size']);
    expect(unchecked).toContain('flat_size_distribution');
  });

  test('the counts alone are compared: they are stuck though all else lives, and live though all else is stuck', () => {
    const before = earlier
      .slice(-4)
      .map((one, i) => ({ ...good, time: one.time as number, celsius: 40 + i, kPa: 800 + i }));
    expect(assessReading(good, limits, before).findings).toMatchObject([{ code: 'values_stuck', value: 5 }]);
    const moved = before.map((one, i) => ({
      ...good,
      time: one.time,
      counts: i === 2 ? counts([1891, 403, 34]).counts : good.counts,
    }));
    expect(assessReading(good, limits, moved).findings.map(({ code }) => code)).not.toContain('values_stuck');
    const largest = before.map((one, i) => ({
      ...one,
      counts: i === 2 ? counts([1890.1, 402, 34]).counts : good.counts,
    }));
    expect(assessReading(good, limits, largest).findings.map(({ code }) => code)).toEqual(['channels_stuck']);
    expect(assessReading(good, { ...limits, stuckChance: 0.1 }, [{ ...good, time: 1e12 }]).findings[0]?.code).toBe(
      'values_stuck',
    );
  });

  test('only repeats up to this reading count: one that differs just before it ends them', () => {
    const other = { ...good, counts: counts([1891, 403, 34]).counts };
    const timeless = (one: Reading) => ({ ...one, time: undefined });
    const stuck = (before: readonly Reading[], last: Reading = good) =>
      assessReading(timeless(last), limits, before.map(timeless)).findings.some(({ code }) => code === 'values_stuck');
    expect(stuck([good, good, good, good])).toBe(true);
    expect(stuck([other, good, good, good, good])).toBe(true);
    expect(stuck([good, good, good, good, other])).toBe(false);
    expect(stuck([other, other, other, other])).toBe(false);
    // the same counts at fewer sizes are no repeat, whichever came first
    const fewer = { ...good, counts: cumulativeCounts({ 4: 18900, 6: 4020 }, { volumeMl: 10 }) };
    expect(stuck([good, good, good, good, fewer])).toBe(false);
    expect(stuck([good, good, good, good], fewer)).toBe(false);
  });

  // n particles between two sizes come again with a chance of at most 1 / sqrt(2 pi n), counts shown coarsely more
  // often: so many readings running are needed for 1e-8; null: however many
  test.each<[string, Partial<CumulativeCounts>, number | null]>([
    ['nothing counted', { perMl: [0, 0, 0] }, null],
    ['few whole particles per mL', { perMl: [4, 1, 0] }, null],
    ['4, 1 and 0 particles counted', { perMl: [0.4, 0.1, 0], counted: [4, 1, 0], volumeMl: 10 }, 9],
    ['991 counted', { perMl: [99.1, 40, 3], counted: [991, 400, 30], volumeMl: 10 }, 3],
    [
      'two digits of 10 mL, given as counted',
      { perMl: [1900, 400, 33], counted: [19000, 4000, 330], volumeMl: 10 },
      11,
    ],
    ['99 counted, though three digits per mL', { perMl: [990, 400, 30], counted: [99, 40, 3], volumeMl: 0.1 }, 4],
    ['digits down to one of a volume not told', { perMl: [1890, 402, 33] }, 10],
    ['two digits of 10 mL', { perMl: [1900, 400, 33], volumeMl: 10 }, 11],
    ['two digits of 10 mL, few of them certain', { perMl: [1900, 400, 130], volumeMl: 10 }, 35],
    ['two digits of a volume not told, one of them certain', { perMl: [1900, 400, 33] }, 40],
    ['two digits of a volume not told', { perMl: [1900, 400, 130] }, null],
    ['one digit of a volume not told', { perMl: [100, 40, 3] }, null],
    ['a code of ISO 4406 written as its limits', { perMl: [2500, 640, 80], volumeMl: 10 }, null],
    ['301 thirds of a particle', { perMl: [301 / 3, 10, 3] }, 4],
  ])('%s', (_name, some, needed) => {
    const reading: Reading = { counts: { sizing: 'iso11171', sizes: [4, 6, 14], perMl: [], ...some } };
    const stuckAfter = (n: number) => {
      const { findings, unchecked } = assessReading(reading, { particles: null }, Array(n - 1).fill(reading));
      return [findings.some(({ code }) => code === 'values_stuck'), unchecked.indexOf('values_stuck') >= 0];
    };
    if (needed === null) {
      expect(stuckAfter(60)).toEqual([false, true]);
      return;
    }
    expect(stuckAfter(needed - 1)).toEqual([false, true]);
    expect(stuckAfter(needed)).toEqual([true, false]);
  });

  test('the clock is compared with the last reading that has a time', () => {
    const timeless = { ...good, time: undefined };
    const { findings, unchecked } = assessReading({ ...good, time: 500 }, { stuckChance: null }, [
      { ...good, time: 100 },
      { ...good, time: 1000 },
      timeless,
      timeless,
    ]);
    expect(findings).toMatchObject([{ code: 'clock_backwards', value: 500, limit: 1000 }]);
    expect(unchecked).not.toContain('clock_backwards');
    expect(assessReading(good, {}, [timeless]).unchecked).toContain('clock_backwards');
    // once it was set back, only the first reading tells
    const back = [
      { ...good, time: 9000 },
      { ...good, time: 1000 },
    ];
    expect(assessReading({ ...good, time: 1500 }, { stuckChance: null }, back).findings).toEqual([]);
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
    [{ counts: 1 }, {}, [], 'wrong_type reading.counts'],
    [{ counts: { ...good.counts, sizes: [4, 4, 14] } }, {}, [], 'sizes_out_of_order reading.counts.sizes[1]'],
    [{ counts: { ...good.counts, perMl: [1, Number.NaN, 3] } }, {}, [], 'not_a_number reading.counts.perMl[1]'],
    [{ counts: { ...good.counts, perMl: ['1', 2, 3] } }, {}, [], 'wrong_type reading.counts.perMl[0]'],
    [{ counts: { ...good.counts, perMl: 3 } }, {}, [], 'wrong_type reading.counts.perMl'],
    [{ ...good, flushedMl: -1 }, {}, [], 'negative reading.flushedMl'],
    [{ ...good, mlPerMin: null }, {}, [], 'wrong_type reading.mlPerMin'],
    [{ ...good, celsius: -300 }, {}, [], 'out_of_range reading.celsius'],
    [{ ...good, mm2PerS: 0 }, {}, [], 'out_of_range reading.mm2PerS'],
    [{ ...good, waterSaturation: 45 }, {}, [], 'out_of_range reading.waterSaturation'],
    [{ ...good, waterSaturation: 2.01 }, {}, [], 'out_of_range reading.waterSaturation'],
    [{ ...good, waterSaturation: -0.1 }, {}, [], 'negative reading.waterSaturation'],
    [good, { freeWaterSaturation: 95 }, [], 'out_of_range limits.freeWaterSaturation'],
    [good, { freeWaterSaturation: 0 }, [], 'out_of_range limits.freeWaterSaturation'],
    // limits that no reading could break: a sensor of water ends at 1, and below -101.325 kPa no pressure is left
    [good, { freeWaterSaturation: 1.01 }, [], 'out_of_range limits.freeWaterSaturation'],
    [good, { leastKPa: -101.325 }, [], 'out_of_range limits.leastKPa'],
    [good, { leastKPa: -200 }, [], 'out_of_range limits.leastKPa'],
    [good, { particleSizes: new Array(1) }, [], 'wrong_type limits.particleSizes[0]'],
    [{ ...good, time: Number.POSITIVE_INFINITY }, {}, [], 'infinite reading.time'],
    [good, { leastkPa: 1 }, [], 'unknown_option limits.leastkPa'],
    [good, { qualities: { few: 'bad' } }, [], 'unknown_option limits.qualities.few'],
    [good, { qualities: { no_flow: 'poor' } }, [], 'unknown_option limits.qualities.no_flow'],
    [good, { mlPerMin: { low: 2, high: 1 } }, [], 'out_of_range limits.mlPerMin.high'],
    [good, { stuckChance: 1 }, [], 'out_of_range limits.stuckChance'],
    [good, { solubility: {} }, [], 'wrong_type limits.solubility.b'],
    [good, { particleSizes: [] }, [], 'empty limits.particleSizes'],
    [good, {}, {}, 'wrong_type earlier'],
    [good, {}, [1], 'wrong_type earlier[0]'],
    [good, {}, [{ ...good, time: '1' }], 'wrong_type earlier[0].time'],
  ])('%#: %j', (reading, own, before, expected) => {
    expect(thrown(reading, own, before)).toBe(expected);
  });
});
