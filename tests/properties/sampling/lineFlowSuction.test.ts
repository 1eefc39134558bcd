/** Laws of a pump that lifts its oil, and of the flushing of its line. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  flush,
  lineFlow,
  type SuctionLine,
  suctionByTemperature,
  suctionLift,
  suctionLimits,
} from '../../../src/sampling/index.ts';
import { temperatureAt, viscosityAt, viscosityLine, viscosityLineOfGrade } from '../../../src/viscosity/index.ts';
import { nextDown, nextUp } from '../../doubles.ts';
import { some } from '../../volume.ts';

const decades = (low: number, high: number) =>
  fc.double({ min: Math.log10(low), max: Math.log10(high), noNaN: true }).map((x) => 10 ** x);
const segments = fc.array(
  fc
    .record({
      metres: decades(0.1, 10),
      boreMm: decades(4, 25),
      rise: fc.double({ min: -1, max: 1, noNaN: true }),
      k: fc.double({ min: 0, max: 10, noNaN: true }),
      k1: fc.double({ min: 0, max: 4000, noNaN: true }),
    })
    .map(({ rise, ...tube }) => ({ ...tube, riseMetres: Math.max(-tube.metres, Math.min(tube.metres, rise)) })),
  { minLength: 1, maxLength: 3 },
);
const fluid = fc.record({ mm2PerS: decades(2, 500), kgPerM3: fc.double({ min: 700, max: 1200, noNaN: true }) });
const suctionLine: fc.Arbitrary<SuctionLine & { inletLimitKPa: number }> = fc.record({
  segments,
  fluid,
  mlPerMin: decades(10, 30000),
  inletLimitKPa: fc.double({ min: 30, max: 100, noNaN: true }),
});
const pump = {
  segments: [{ metres: 3, boreMm: 8, riseMetres: 1.9 }],
  mlPerMin: 100,
  fluid: { mm2PerS: 340, kgPerM3: 880 },
};

const oil = viscosityLine([
  { celsius: 40, mm2PerS: 46 },
  { celsius: 100, mm2PerS: 6.8 },
]);
const cold = {
  ...{ segments: pump.segments, mlPerMin: pump.mlPerMin, viscosity: oil, kgPerM3: 880 },
  ...{ celsius: [40, 20, -10, -20], inletLimitKPa: 60 },
};

describe('suction lift', () => {
  test('agrees with the law: atmosphere less weight of the column, Hagen and Poiseuille, fittings', () => {
    let compared = 0;
    const atmospheres = fc.option(fc.double({ min: 60, max: 110, noNaN: true }), { nil: undefined });
    fc.assert(
      fc.property(
        segments,
        decades(100, 1000),
        decades(10, 1000),
        atmospheres,
        (line, mm2PerS, mlPerMin, atmosphereKPa) => {
          const kgPerM3 = 880;
          const perSecond = mlPerMin / 60 / 1e6;
          let lift = 0;
          let loss = 0;
          for (const { metres, boreMm, riseMetres, k, k1 } of line) {
            const d = boreMm / 1000;
            const v = perSecond / (Math.PI * (d / 2) ** 2);
            lift += kgPerM3 * 9.80665 * riseMetres;
            const reynolds = (v * d * 1e6) / mm2PerS;
            fc.pre(reynolds < 2000);
            loss += (128 * (mm2PerS / 1e6) * kgPerM3 * metres * perSecond) / (Math.PI * d ** 4);
            loss += ((k1 / reynolds + k) * kgPerM3 * v * v) / 2;
          }
          const inlet = (atmosphereKPa ?? 101.325) - (lift + loss) / 1000;
          fc.pre(inlet > 1);
          const found = suctionLift({
            segments: line,
            mlPerMin,
            fluid: { mm2PerS, kgPerM3 },
            ...(atmosphereKPa === undefined ? {} : { atmosphereKPa }),
          });
          expect(found.liftKPa).toBeCloseTo(lift / 1000, 9);
          expect(found.lossKPa).toBeCloseTo(loss / 1000, 9);
          expect(found.inletKPa).toBeCloseTo(inlet, 9);
          compared += 1;
        },
      ),
    );
    expect(compared).toBeGreaterThan(some(30, 1));
  });

  test('where oil cannot follow, the error names lift and loss in short figures', () => {
    const at = (atmosphereKPa?: number) => () =>
      suctionLift({ ...pump, mlPerMin: 1000, ...(atmosphereKPa === undefined ? {} : { atmosphereKPa }) });
    // 880 x 9.80665 x 1.9 Pa; ten times the 14.88 kPa of 100 mL/min
    const message =
      'line: received 165, expected less than the 101 kPa of the atmosphere: the lift takes 16.4 kPa, the loss 149 kPa';
    expect(at()).toThrow(expect.objectContaining({ message, received: '165' }));
    expect(at(165.1)).toThrow(/received 165.2, expected less than the 165.1 kPa/);
    expect(at(165.4)).not.toThrow();
  });

  test('the inlet has what lift and loss leave of the atmosphere', () => {
    fc.assert(
      fc.property(suctionLine, (line) => {
        const { kPa, regime } = lineFlow(line);
        fc.pre(kPa < 101);
        const inlet = suctionLift(line);
        expect(inlet.inletKPa).toBeCloseTo(101.325 - kPa, 8);
        expect(inlet.inletKPa).toBeCloseTo(101.325 - inlet.liftKPa - inlet.lossKPa, 8);
        expect(inlet.regime).toBe(regime);
      }),
    );
  });

  test('at the greatest lift the margin is gone', () => {
    fc.assert(
      fc.property(suctionLine, (line) => {
        const rises = line.segments.map((segment) => segment.riseMetres ?? 0);
        // to lift a line that falls at first is to give it a high point
        fc.pre((rises.find((rise) => rise !== 0) ?? 0) >= 0);
        const now = rises.reduce((sum, rise) => sum + rise, 0);
        const { liftMetres } = suctionLimits(line);
        fc.pre(Math.abs(liftMetres) < 1000);
        // the rest of the way through a tube so wide that it takes no pressure
        const riseMetres = liftMetres - now;
        const wide = { metres: Math.abs(riseMetres), boreMm: 10000, riseMetres };
        const at = suctionLimits({ ...line, segments: [wide, ...line.segments] });
        expect(at.marginKPa).toBeCloseTo(0, 5);
        expect(at.liftMetres).toBeCloseTo(liftMetres, 5);
      }),
    );
  });

  test('up to the greatest viscosity, thinner oils too, the limit is kept; just above it is broken', () => {
    let found = 0;
    let turbulent = 0;
    fc.assert(
      fc.property(suctionLine, fc.double({ min: 0, max: 1, noNaN: true }), (line, share) => {
        const { mm2PerS } = suctionLimits(line);
        const margin = (viscosity: number) =>
          suctionLimits({ ...line, fluid: { ...line.fluid, mm2PerS: viscosity } }).marginKPa;
        if (mm2PerS === null) {
          expect(margin(0.01)).toBeLessThan(0);
          return;
        }
        found += 1;
        const thinner = Math.max(0.01, mm2PerS * 10 ** (-4 * share));
        expect(margin(mm2PerS)).toBeGreaterThan(-1e-7);
        expect(margin(thinner)).toBeGreaterThan(-1e-7);
        if (mm2PerS * 1.0001 <= 1e7) expect(margin(mm2PerS * 1.0001)).toBeLessThan(0);
        if (lineFlow({ ...line, fluid: { ...line.fluid, mm2PerS } }).regime !== 'laminar') turbulent += 1;
      }),
      { numRuns: 1000 },
    );
    expect(found).toBeGreaterThan(300);
    expect(turbulent).toBeGreaterThan(5);
  });

  test('the greatest viscosity lies below a span of turbulence that breaks the limit', () => {
    const line = { segments: [{ metres: 0.5, boreMm: 10 }], mlPerMin: 30000 };
    const edge = (30000 / 6e7 / ((Math.PI / 4) * 0.01 * 0.01)) * 0.01 * (1e6 / 2000);
    const at = (mm2PerS: number) => ({ ...line, fluid: { mm2PerS, kgPerM3: 870 }, inletLimitKPa: 30 });
    const jump = lineFlow(at(edge * (1 - 1e-9)));
    expect(jump.regime).toBe('critical');
    const inletLimitKPa = 101.325 - (jump.kPaLow + 0.9 * (jump.kPa - jump.kPaLow));
    const { mm2PerS } = suctionLimits({ ...at(20), inletLimitKPa });
    expect(mm2PerS).toBeLessThan(edge * 0.99);
    expect(suctionLimits({ ...at(((mm2PerS ?? 0) + edge) / 2), inletLimitKPa }).marginKPa).toBeLessThan(0);
    expect(suctionLimits({ ...at(edge * 1.001), inletLimitKPa }).marginKPa).toBeGreaterThan(0);
  });

  test('the greatest viscosity is that of the line, in whatever order its segments stand', () => {
    const wide = { metres: 10, boreMm: 10 };
    const narrow = { metres: 0.01, boreMm: 9 };
    const at = (mm2PerS: number, segments = [wide, narrow]) => ({
      ...{ segments, mlPerMin: 7000, fluid: { mm2PerS, kgPerM3: 870 }, inletLimitKPa: 30 },
    });
    // where flow in the wide tube, and then in the narrow one, turns laminar
    const edges = [10, 9].map((mm) => (7000 / 6e7 / ((Math.PI / 4) * (mm / 1000))) * (1e6 / 2000));
    const [first, second] = edges.map((edge) => lineFlow(at(edge * (1 - 1e-9))).kPa) as [number, number];
    expect(first).toBeGreaterThan(1.2 * second);
    const inletLimitKPa = 101.325 - (first + second) / 2;
    const found = suctionLimits({ ...at(20), inletLimitKPa }).mm2PerS as number;
    expect(found).toBeLessThan(edges[0] as number);
    const turned = suctionLimits({ ...at(20, [narrow, wide]), inletLimitKPa }).mm2PerS as number;
    expect(Math.abs(turned / found - 1)).toBeLessThan(1e-9);
  });

  test('zero lift, zero flow: the inlet has the atmosphere', () => {
    const inlet = suctionLift({ ...pump, segments: [{ metres: 3, boreMm: 8 }], mlPerMin: 0 });
    const rest = { highPoint: null, regime: 'laminar', fittingsTooLow: false };
    expect(inlet).toEqual({ inletKPa: 101.325, liftKPa: 0, lossKPa: 0, ...rest });
    const limits = suctionLimits({ ...pump, mlPerMin: 0, inletLimitKPa: 80 });
    expect(limits.mm2PerS).toBe(1e7);
  });

  test('a pump below the oil gains; a limit above the atmosphere asks for that', () => {
    const below = { ...pump, segments: [{ metres: 3, boreMm: 8, riseMetres: -1 }] };
    expect(suctionLift(below).liftKPa).toBeLessThan(0);
    expect(suctionLimits({ ...pump, inletLimitKPa: 110 }).liftMetres).toBeLessThan(-1);
    expect(suctionLimits({ ...pump, inletLimitKPa: 110 }).mm2PerS).toBeNull();
  });

  test('temperature by temperature it is the same figure, and null where no flow is possible', () => {
    const { rows, lowestCelsius } = suctionByTemperature(cold);
    for (const row of rows) {
      const line = { ...pump, fluid: { mm2PerS: viscosityAt(oil, row.celsius), kgPerM3: 880 } };
      if (row.inletKPa === null) expect(() => suctionLift(line)).toThrow(/atmosphere/);
      else expect(row.inletKPa).toBe(suctionLift(line).inletKPa);
      expect(row.allowed).toBe((row.inletKPa ?? -1) >= cold.inletLimitKPa);
      expect(row.allowed).toBe(row.celsius >= (lowestCelsius ?? Number.NaN));
    }
    expect(rows.map((row) => row.allowed)).toEqual([true, true, false, false]);
    expect(rows[3]?.inletKPa).toBeNull();
    const limit = suctionByTemperature({ ...cold, celsius: [lowestCelsius ?? Number.NaN] });
    expect(limit.rows[0]?.inletKPa).toBeCloseTo(60, 7);
    // without flow the oil is not followed further than any flows
    const still = suctionByTemperature({ ...cold, mlPerMin: 0 });
    expect(viscosityAt(oil, still.lowestCelsius as number)).toBeCloseTo(1e7, 2);
    for (const kgPerM3 of [0.872, 54.4, 20000])
      expect(() => suctionByTemperature({ ...cold, kgPerM3 })).toThrow(/line.kgPerM3: .*not in g\/cm3 or lb\/ft3/);
    // a thin oil in a wide line: reached by no cold there is
    const wide = { ...cold, segments: [{ metres: 0.2, boreMm: 20 }], viscosity: viscosityLineOfGrade(10, 200) };
    for (const mlPerMin of [1, 100])
      expect(suctionByTemperature({ ...wide, mlPerMin })).toMatchObject({
        ...{ lowestCelsius: null, beyondAsked: false, keptTo: 'coldest' },
      });
    expect(suctionByTemperature({ ...cold, inletLimitKPa: 100 })).toMatchObject({
      ...{ lowestCelsius: null, beyondAsked: false, keptTo: 'nowhere' },
    });
    expect(suctionByTemperature(cold).keptTo).toBe('lowest');
  });

  test('a temperature beyond the line of the oil, or of what flows, is not allowed; the others are told', () => {
    const line = { segments: [{ metres: 1, boreMm: 20 }], mlPerMin: 20, kgPerM3: 900, inletLimitKPa: 80 };
    const asked = { ...line, viscosity: viscosityLineOfGrade(1000, 95), celsius: [60, 20, -40] };
    const { rows, lowestCelsius, keptTo, beyondAsked } = suctionByTemperature(asked);
    expect(rows.map(({ allowed }) => allowed)).toEqual([true, true, false]);
    const unknown = { mm2PerS: null, inletKPa: null, highPoint: null, regime: null, fittingsTooLow: false };
    expect(rows[2]).toEqual({ ...unknown, celsius: -40, allowed: false });
    expect([keptTo, beyondAsked]).toEqual(['lowest', false]);
    expect(lowestCelsius).toBeGreaterThan(-40);
    // from 1e7 to 2e7 mm²/s the line goes on, and no oil flows
    const stiff = temperatureAt(asked.viscosity, 1.5e7);
    expect(suctionByTemperature({ ...asked, mlPerMin: 0, celsius: [60, stiff] })).toMatchObject({
      ...{ keptTo: 'lowest', beyondAsked: false, rows: [{ allowed: true }, { allowed: false, mm2PerS: null }] },
    });
    // too thin for its line: nothing is known of the warmest, and so of what is colder
    const thin = {
      ...line,
      viscosity: viscosityLine([
        { celsius: 0, mm2PerS: 1 },
        { celsius: 40, mm2PerS: 0.5 },
      ]),
    };
    expect(suctionByTemperature({ ...thin, celsius: [240, 40] })).toMatchObject({
      ...{ keptTo: 'nowhere', lowestCelsius: null, rows: [{ allowed: false, mm2PerS: null }, { allowed: true }] },
    });
    for (const celsius of [-81, 313.15])
      expect(() => suctionByTemperature({ ...asked, celsius: [20, celsius] })).toThrow(/line\.celsius\[1\]: .*kelvin/);
    expect(() => suctionByTemperature({ ...asked, viscosity: { a: 9, b: -1, form: 'full' } })).toThrow(/line\.b/);
  });

  test('warmer oil that turns turbulent breaks a limit that colder oil keeps: no row contradicts the answer', () => {
    const line = {
      segments: [{ metres: 2, boreMm: 16 }],
      mlPerMin: 30000,
      viscosity: viscosityLineOfGrade(46, 102),
      kgPerM3: 872,
      inletLimitKPa: 90,
    };
    const asked = (...celsius: number[]) => suctionByTemperature({ ...line, celsius });
    const whole = asked(50, 60, 70, 80, 112);
    expect(whole.rows.map((row) => row.allowed)).toEqual([false, true, false, false, true]);
    expect(whole.lowestCelsius).toBeCloseTo(111.528, 3);
    expect(whole.beyondAsked).toBe(false);
    // the warmest breaks it: nothing is told of a temperature that nobody asked for
    expect(asked(50, 60, 70, 80)).toMatchObject({ lowestCelsius: null, beyondAsked: false });
    // nothing warmer was asked for: allowed down to just below it, which is an extrapolation
    const alone = asked(60);
    expect(alone.rows[0]?.allowed).toBe(true);
    expect(alone.lowestCelsius).toBeGreaterThan(59);
    expect(alone.lowestCelsius).toBeLessThan(60);
    expect(alone.beyondAsked).toBe(true);
    expect(asked(60, 55)).toMatchObject({ lowestCelsius: alone.lowestCelsius, beyondAsked: false });
  });

  test('an inlet at its limit keeps it; the next pressure above breaks it', () => {
    const { inletKPa } = suctionByTemperature(cold).rows[0] as { inletKPa: number };
    const allowedAt = (inletLimitKPa: number) => suctionByTemperature({ ...cold, inletLimitKPa }).rows[0]?.allowed;
    expect([nextDown(inletKPa), inletKPa, nextUp(inletKPa)].map(allowedAt)).toEqual([true, true, false]);
    const alone = suctionByTemperature({ ...cold, celsius: [40], inletLimitKPa: inletKPa });
    expect(alone).toMatchObject({ lowestCelsius: 40, beyondAsked: false });
    const line = { ...pump, fluid: { mm2PerS: viscosityAt(oil, 40), kgPerM3: 880 } };
    expect(suctionLimits({ ...line, inletLimitKPa: inletKPa }).marginKPa).toBe(0);
    // without flow no viscosity breaks the limit, even where the column stands just at it
    const still = { ...line, mlPerMin: 0 };
    const standing = suctionLift(still).inletKPa;
    expect(suctionLimits({ ...still, inletLimitKPa: nextDown(standing) }).mm2PerS).toBe(1e7);
    expect(suctionLimits({ ...still, inletLimitKPa: standing + 1e-9 }).mm2PerS).toBeNull();
  });

  test.each<[string, () => unknown, string, string]>([
    ['no line', () => suctionLift(undefined as never), 'wrong_type', 'line'],
    ['more than the atmosphere', () => suctionLift({ ...pump, mlPerMin: 1000 }), 'no_answer', 'line'],
    ['no atmosphere', () => suctionLift({ ...pump, atmosphereKPa: 0 }), 'out_of_range', 'line.atmosphereKPa'],
    ['limit left out', () => suctionLimits(pump as never), 'wrong_type', 'line.inletLimitKPa'],
    ['limit below vacuum', () => suctionLimits({ ...pump, inletLimitKPa: -1 }), 'out_of_range', 'line.inletLimitKPa'],
    ['no temperatures', () => suctionByTemperature({ ...cold, celsius: [] }), 'empty', 'line.celsius'],
    ['no cold line', () => suctionByTemperature(null as never), 'wrong_type', 'line'],
    ['no viscosity line', () => suctionByTemperature({ ...cold, viscosity: 3 as never }), 'wrong_type', 'line'],
    [
      'below absolute zero',
      () => suctionByTemperature({ ...cold, celsius: [-300] }),
      'out_of_range',
      'line.celsius[0]',
    ],
    [
      'no temperature',
      () => suctionByTemperature({ ...cold, celsius: [40, Number.NaN] }),
      'not_a_number',
      'line.celsius[1]',
    ],
    ['text', () => suctionByTemperature({ ...cold, celsius: [40, '10' as never] }), 'wrong_type', 'line.celsius[1]'],
    ['thicker still', () => suctionByTemperature({ ...cold, celsius: [40, -100] }), 'out_of_range', 'line.celsius[1]'],
    [
      'nothing but a hole',
      () => suctionByTemperature({ ...cold, celsius: new Array(1) }),
      'wrong_type',
      'line.celsius[0]',
    ],
    // biome-ignore lint/suspicious/noSparseArray: a hole before an entry is what is tried here
    ['a hole', () => suctionByTemperature({ ...cold, celsius: [, 40] as never }), 'wrong_type', 'line.celsius[0]'],
    ['no density', () => suctionByTemperature({ ...cold, kgPerM3: 0 }), 'out_of_range', 'line.kgPerM3'],
  ])('%s', (_name, call, code, parameter) => {
    expect(call).toThrow(expect.objectContaining({ name: 'MotescaleError', code, parameter }));
  });
});

describe('flushing', () => {
  const volumeMl = 40;
  const mlPerMin = 120;
  const mean = 20;

  test('agrees with particles followed along 200000 stream tubes of equal flow', () => {
    // flow inside radius r of a parabolic profile is the share 1 - (1 - r^2)^2, so tubes of equal flow are equally
    // spaced in it
    const tubes = 200000;
    const arrivals: number[] = [];
    for (let i = 0; i < tubes; i += 1) arrivals.push(mean / (2 * Math.sqrt(1 - (i + 0.5) / tubes)));
    for (const renewal of [0.1, 0.5, 0.9, 0.95, 0.99]) {
      const { seconds, ml, firstSeconds, remainingMl } = flush({ volumeMl, mlPerMin, renewal });
      const arrived = arrivals.filter((time) => time <= seconds).length / tubes;
      expect(arrived).toBeCloseTo(renewal, 4);
      expect(Math.min(...arrivals.slice(0, 10))).toBeCloseTo(firstSeconds, 3);
      expect(ml).toBeCloseTo((seconds / 60) * mlPerMin, 9);
      // a tube that has not arrived holds old oil in the rest of its length
      const old = arrivals.reduce((sum, time) => sum + Math.max(0, time - seconds), 0) / tubes;
      expect((old * mlPerMin) / 60 / remainingMl).toBeCloseTo(1, 1);
    }
  });

  test('with carry-over: old and new oil of the stream tubes mix to the count allowed', () => {
    // balance of particles upon Levenspiel's renewal: what has not arrived at its tube's end is old
    const tubes = 400000;
    for (const [linePerMl, tankPerMl, share] of [
      [30000, 500, 0.05],
      [8000, 130, 0.05],
      [3200, 500, 0.02],
      [0, 500, 0.005],
    ] as const) {
      const { seconds } = flush({ volumeMl, mlPerMin, carryOver: { linePerMl, tankPerMl, share } });
      let sum = 0;
      for (let i = 0; i < tubes; i += 1) {
        const arrives = mean / (2 * Math.sqrt(1 - (i + 0.5) / tubes));
        sum += arrives <= seconds ? tankPerMl : linePerMl;
      }
      expect(Math.abs(sum / tubes / tankPerMl - 1)).toBeCloseTo(share, 3);
    }
  });

  test('carry-over lengthens a flush and never shortens it', () => {
    const five = flush({ volumeMl, mlPerMin });
    const at = (linePerMl: number, share = 0.05, renewal = 0.99) =>
      flush({ volumeMl, mlPerMin, renewal, carryOver: { linePerMl, tankPerMl: 500, share } });
    for (const linePerMl of [0, 480, 500, 520, 2999]) expect(at(linePerMl)).toEqual(five);
    expect(at(3001).seconds).toBeGreaterThan(five.seconds);
    expect(at(500, 1e-6, 0.5)).toEqual(flush({ volumeMl, mlPerMin, renewal: 0.5 }));
    expect(at(1e12, 1e-6).seconds).toBeLessThan(1e10);
    // plug flow leaves nothing behind
    const plug = { volumeMl, mlPerMin, profile: 'plug' } as const;
    const carryOver = { linePerMl: 1e6, tankPerMl: 1, share: 0.01 };
    expect(flush({ ...plug, carryOver })).toEqual(flush(plug));
  });

  test('takes longer for more renewal and never less than half the mean time; plug flow takes the mean time', () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-6, max: 0.999, noNaN: true }), decades(1.0001, 10), (renewal, times) => {
        const one = flush({ volumeMl, mlPerMin, renewal });
        const more = flush({ volumeMl, mlPerMin, renewal: 1 - (1 - renewal) / times });
        return more.seconds > one.seconds && one.seconds >= one.firstSeconds && one.firstSeconds === mean / 2;
      }),
    );
    expect(flush({ volumeMl, mlPerMin, profile: 'plug' })).toEqual({
      seconds: 20,
      ml: 40,
      firstSeconds: 20,
      remainingMl: 0,
    });
    expect(flush({ volumeMl, mlPerMin }).seconds).toBe(flush({ volumeMl, mlPerMin, renewal: 0.99 }).seconds);
  });

  test.each<[string, () => unknown, string, string]>([
    ['no line', () => flush(undefined as never), 'wrong_type', 'line'],
    ['no flow', () => flush({ volumeMl, mlPerMin: 0 }), 'out_of_range', 'line.mlPerMin'],
    ['negative flow', () => flush({ volumeMl, mlPerMin: -1 }), 'out_of_range', 'line.mlPerMin'],
    ['no volume', () => flush({ volumeMl: 0, mlPerMin }), 'out_of_range', 'line.volumeMl'],
    ['complete renewal', () => flush({ volumeMl, mlPerMin, renewal: 1 }), 'out_of_range', 'line.renewal'],
    [
      'unknown profile',
      () => flush({ volumeMl, mlPerMin, profile: 'turbulent' as never }),
      'unknown_option',
      'line.profile',
    ],
  ])('%s', (_name, call, code, parameter) => {
    expect(call).toThrow(expect.objectContaining({ name: 'MotescaleError', code, parameter }));
  });
});
