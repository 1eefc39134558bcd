/**
 * A line that goes over a high point. Source of all figures: hydrostatics (density x standard gravity x height) and
 * Hagen-Poiseuille, walked along the line in steps of this file's own.
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  flowForPressure,
  lineFlow,
  type Segment,
  suctionByTemperature,
  suctionLift,
  suctionLimits,
} from '../../../src/sampling/index.ts';
import { viscosityLineOfGrade } from '../../../src/viscosity/index.ts';
import { some } from '../../volume.ts';

const oil = { mm2PerS: 46, kgPerM3: 870 };
/** Up, and down to the pump. */
const over = (up: number, down: number, more: Partial<Segment> = {}) => [
  { metres: up, boreMm: 25, riseMetres: up },
  { metres: down, boreMm: 25, riseMetres: -down, ...more },
];
const weight = (870 * 9.80665) / 1000;
/** What 25 mm of bore take at 46 mm²/s, kPa per metre and mL/min. */
const perMetre = (128 * 46e-6 * 870) / (Math.PI * 0.025 ** 4) / 6e7 / 1000;

describe('over a high point', () => {
  test('twelve metres of oil weigh more than the atmosphere: no suction, no siphon', () => {
    const line = { segments: over(12, 12), mlPerMin: 1000, fluid: oil };
    const top = 101.325 - 12 * weight - 12 * 1000 * perMetre;
    expect(top).toBeLessThan(0);
    expect(() => suctionLift(line)).toThrow(
      expect.objectContaining({ code: 'no_answer', parameter: 'line.segments[0]' }),
    );
    const limits = suctionLimits({ ...line, inletLimitKPa: 80 });
    expect(limits.marginKPa).toBeCloseTo(top - 80, 9);
    expect(limits.highPoint?.segment).toBe(0);
    expect(limits.highPoint?.kPa).toBeCloseTo(top, 9);
    expect(limits.mm2PerS).toBeNull();
    expect(() => flowForPressure({ segments: over(14, 16), kPa: 0, fluid: oil })).toThrow(
      expect.objectContaining({ code: 'no_answer', parameter: 'line.segments[0]' }),
    );
  });

  test('a falling part that weighs more than the atmosphere tears off; what gets to its top flows on', () => {
    const narrow = { metres: 1, boreMm: 1 };
    const fall = { metres: 16, boreMm: 12, riseMetres: -15 };
    const flow = (segments: Segment[], kPa: number) => flowForPressure({ segments, kPa, fluid: oil });
    const throttled = flow([narrow, fall], 20000);
    // 1 mm of bore takes 25^4 times what 25 mm do; only what stands before the fall takes pressure
    expect(throttled.mlPerMin).toBeCloseTo(20101.325 / (perMetre * 25 ** 4), 6);
    expect(throttled.mlPerMinHigh).toBe(throttled.mlPerMin);
    expect(throttled.highPoint).toEqual({ segment: 0, kPa: 0 });
    // a deeper fall draws no more
    expect(flow([narrow, { ...fall, metres: 40, riseMetres: -40 }], 20000).mlPerMin).toBeCloseTo(throttled.mlPerMin, 9);
    const up = { metres: 5, boreMm: 8, riseMetres: 2 };
    const crest = flow([narrow, up, fall], 20000);
    const friction = perMetre * (25 ** 4 + 5 * (25 / 8) ** 4);
    expect(crest.mlPerMin).toBeCloseTo((20101.325 - 2 * weight) / friction, 6);
    expect(crest.highPoint).toEqual({ segment: 1, kPa: 0 });
    // a siphon just low enough for standing oil: it falls 5 m and would run full at far more
    const siphon = flow(over(11, 16), 0);
    expect(siphon.mlPerMin).toBeCloseTo((101.325 - 11 * weight) / (11 * perMetre), 6);
    expect(siphon.highPoint).toEqual({ segment: 0, kPa: 0 });
    // where a fall of two parts would tear at its second, the second decides
    const [first, second] = [{ ...narrow, metres: 0.5, riseMetres: -0.1 }, narrow];
    expect(flow([first, second, fall], 20000).highPoint?.segment).toBe(1);
    // 14 m of standing oil are too much, and the words are true of it
    expect(() => flow(over(14, 16), 0)).toThrow(
      expect.objectContaining({
        code: 'no_answer',
        received: '-18.1',
        expected: 'more than 0 kPa absolute at its end: else the column of oil tears there',
      }),
    );
  });

  test('the wall of a pit: the limit is asked of the crest', () => {
    const line = { segments: over(6, 6.5), mlPerMin: 2000, kgPerM3: 870, celsius: [40], inletLimitKPa: 80 };
    const viscosity = viscosityLineOfGrade(46, 102);
    const [row] = suctionByTemperature({ ...line, viscosity }).rows;
    const top = 101.325 - 6 * weight - 6 * 2000 * perMetre;
    expect(row?.allowed).toBe(false);
    expect(row?.inletKPa).toBeCloseTo(101.325 + 0.5 * weight - 12.5 * 2000 * perMetre, 6);
    expect(row?.highPoint?.segment).toBe(0);
    expect(row?.highPoint?.kPa).toBeCloseTo(top, 6);
    expect(suctionByTemperature({ ...line, viscosity, inletLimitKPa: 40 }).rows[0]?.allowed).toBe(true);
    const [none] = suctionByTemperature({ ...line, segments: over(12, 12), viscosity }).rows;
    expect(none).toMatchObject({ inletKPa: null, highPoint: null, allowed: false });
  });

  test('a siphon that runs tells what is left at its top; more pressure at its start leaves more', () => {
    const segments = over(6, 8);
    const { mlPerMin, highPoint } = flowForPressure({ segments, kPa: 0, fluid: oil });
    expect(mlPerMin).toBeCloseTo((2 * weight) / (14 * perMetre), 3);
    expect(highPoint?.kPa).toBeCloseTo(101.325 - 6 * weight - 6 * mlPerMin * perMetre, 6);
    const high = flowForPressure({ segments, kPa: 0, fluid: oil, startKPa: 151.325 });
    expect(high.mlPerMin).toBe(mlPerMin);
    expect((high.highPoint?.kPa ?? 0) - (highPoint?.kPa ?? 0)).toBeCloseTo(50, 9);
    // into the tank: 200 kPa more at the beginning push over 14 m
    const pushed = flowForPressure({ segments: over(14, 16), kPa: 200, fluid: oil });
    expect(pushed.highPoint?.kPa).toBeCloseTo(301.325 - 14 * weight - 14 * pushed.mlPerMin * perMetre, 6);
    // a line out of the tank into pressure starts at the atmosphere
    const down = flowForPressure({ segments: [...over(6, 8), ...over(1, 9)], kPa: -50, fluid: oil });
    expect(down.highPoint?.segment).toBe(0);
    expect(down.highPoint?.kPa).toBeCloseTo(101.325 - 6 * weight - 6 * down.mlPerMin * perMetre, 6);
  });

  test('no pressure is left at the end: refused', () => {
    const line = { segments: over(1, 1), kPa: 100, fluid: oil };
    for (const startKPa of [50, 100])
      expect(() => flowForPressure({ ...line, startKPa })).toThrow(
        expect.objectContaining({ code: 'out_of_range', parameter: 'line.startKPa' }),
      );
    expect(flowForPressure({ ...line, startKPa: 150 }).highPoint).toBeNull();
  });

  test('fittings of the falling part count as standing before the crest', () => {
    const line = { segments: over(2, 3, { k: 0, k1: 20000 }), mlPerMin: 2000, fluid: oil };
    const plain = suctionLift({ ...line, segments: over(2, 3) });
    const fitted = suctionLift(line);
    const { fittingsKPa } = lineFlow(line);
    expect(fittingsKPa).toBeGreaterThan(0.1);
    expect((plain.highPoint?.kPa ?? 0) - (fitted.highPoint?.kPa ?? 0)).toBeCloseTo(fittingsKPa, 9);
  });

  test('a gentle fall after the crest: the least pressure may lie at its end', () => {
    const gentle = { metres: 30, boreMm: 8, riseMetres: -1 };
    const steep = { metres: 4, boreMm: 25, riseMetres: -4 };
    const segments = [{ metres: 2, boreMm: 25, riseMetres: 2 }, gentle, steep];
    expect(suctionLift({ segments, mlPerMin: 250, fluid: oil }).highPoint?.segment).toBe(1);
  });

  test('where no one knows how it flows, the lesser pressure of the two flows is told', () => {
    const thin = { mm2PerS: 10, kgPerM3: 850 };
    const wide = { metres: 5, boreMm: 25 };
    for (const [i, segments] of [
      [
        { metres: 2, boreMm: 10, riseMetres: 2 },
        { ...wide, riseMetres: -4 },
      ],
      [
        { ...wide, riseMetres: 3 },
        { metres: 5, boreMm: 10, riseMetres: -4.9 },
      ],
    ].entries()) {
      const kPa = [13, 20][i] as number;
      const found = flowForPressure({ segments, kPa, fluid: thin });
      expect(found.regime).toBe('critical');
      const [sure, high] = [found.mlPerMin, found.mlPerMinHigh].map(
        (mlPerMin) => lineFlow({ segments, mlPerMin, fluid: thin }).segments[0],
      );
      const tops = [101.325 + kPa - (sure?.kPa ?? 0), 101.325 + kPa - (high?.kPaLow ?? 0)];
      expect(Math.abs((tops[0] as number) - (tops[1] as number))).toBeGreaterThan(0.01);
      expect(found.highPoint?.kPa).toBeCloseTo(Math.min(...tops), 6);
    }
  });

  test('heights that are equal but for a rounding are no high point', () => {
    for (let a = 0.1; a < 1; a += 0.1) {
      for (let b = 0.1; b < 1; b += 0.1) {
        const rises = [2, -a, -b, a + b];
        const segments = rises.map((riseMetres) => ({ metres: 2, boreMm: 6, riseMetres }));
        expect(suctionLift({ segments, mlPerMin: 0, fluid: oil }).highPoint).toBeNull();
      }
    }
  });

  test('a strainer at the foot of a line that only falls: the inlet is asked, and no place is without pressure', () => {
    const strainer = { kPa: 30, mlPerMin: 500, mm2PerS: 46 };
    const line = (kPa: number) => ({
      segments: [
        { metres: 0, boreMm: 25, strainer: { ...strainer, kPa } },
        { metres: 5, boreMm: 25, riseMetres: -5 },
      ] as Segment[],
      ...{ mlPerMin: 500, fluid: oil, inletLimitKPa: 90 },
    });
    const { marginKPa, highPoint } = suctionLimits(line(30));
    expect(highPoint).toBeNull();
    expect(marginKPa).toBeCloseTo(101.325 + 5 * weight - 30 - 5 * 500 * perMetre - 90, 9);
    expect(suctionLift(line(30)).highPoint?.kPa).toBeCloseTo(71.325, 9);
    expect(suctionLimits({ ...line(110), inletLimitKPa: 30 }).marginKPa).toBeCloseTo(101.325 - 110, 9);
    expect(() => suctionLift(line(110))).toThrow(expect.objectContaining({ parameter: 'line.segments[0]' }));
    // in proportion to viscosity it takes all of the atmosphere at this one
    expect(suctionLimits({ ...line(110), inletLimitKPa: 30 }).mm2PerS).toBeCloseTo((46 * 101.325) / 110, 9);
    const { fluid: _fluid, ...cold } = { ...line(110), viscosity: viscosityLineOfGrade(46, 102), kgPerM3: 870 };
    expect(suctionByTemperature({ ...cold, celsius: [40] }).rows[0]).toMatchObject({ inletKPa: null, allowed: false });
    // within the part that falls from the surface it is deeper than the surface
    const inside = [
      { metres: 1, boreMm: 25 },
      { metres: 5, boreMm: 25, riseMetres: -5, strainer },
    ];
    const { highPoint: surface } = suctionLift({ segments: inside, mlPerMin: 500, fluid: oil });
    expect(surface?.kPa).toBeCloseTo(101.325 - 500 * perMetre, 9);
    // one at the top of the fall is a segment of its own: within the fall it is taken at the deep end
    const [mouth, fall] = line(110).segments as [Segment, Segment];
    const deep = [{ ...fall, strainer: { ...strainer, kPa: 110 } }];
    const margin = (segments: Segment[]) => suctionLimits({ ...line(110), segments, inletLimitKPa: 30 }).marginKPa;
    expect(margin(deep)).toBeCloseTo(101.325 + 5 * weight - 110 - 5 * 500 * perMetre - 30, 9);
    expect(margin([mouth, fall])).toBeCloseTo(101.325 - 110, 9);
  });
});

const decades = (low: number, high: number) =>
  fc.double({ min: Math.log10(low), max: Math.log10(high), noNaN: true }).map((x) => 10 ** x);
const tube = fc
  .record({
    metres: decades(0.1, 4),
    boreMm: decades(4, 25),
    slope: fc.integer({ min: -100, max: 100 }).map((percent) => percent / 100),
    k: fc.double({ min: 0, max: 10, noNaN: true }),
    k1: fc.double({ min: 0, max: 4000, noNaN: true }),
  })
  .map(({ slope, ...rest }) => ({ ...rest, riseMetres: slope * rest.metres }));
const lines = fc.record({
  segments: fc.array(tube, { minLength: 1, maxLength: 4 }),
  mlPerMin: decades(1, 3000),
  fluid: fc.record({ mm2PerS: decades(2, 500), kgPerM3: fc.double({ min: 700, max: 1200, noNaN: true }) }),
});

/** Pressures at the ends of segments by parts of a line, as the functions for whole lines give them. */
const pressures = ({ segments, mlPerMin, fluid }: { segments: Segment[]; mlPerMin: number; fluid: typeof oil }) =>
  segments.map((_, i) => 101.325 - lineFlow({ segments: segments.slice(0, i + 1), mlPerMin, fluid }).kPa);

describe('any line', () => {
  test('that never falls, or ends at its highest point, has none: the figures are those of its end', () => {
    let without = 0;
    fc.assert(
      fc.property(lines, fc.boolean(), (line, never) => {
        const segments = never
          ? line.segments.map((one) => ({ ...one, riseMetres: Math.abs(one.riseMetres) }))
          : line.segments;
        let height = 0;
        const heights = segments.map((one) => {
          height += one.riseMetres;
          return height;
        });
        fc.pre(never || Math.max(...heights) === heights.at(-1));
        without += 1;
        const given = { ...line, segments };
        const whole = lineFlow(given);
        const limits = suctionLimits({ ...given, inletLimitKPa: 70 });
        expect(limits.highPoint).toBeNull();
        const end = 101.325 - whole.riseKPa - (whole.frictionKPa + whole.fittingsKPa);
        expect(limits.marginKPa).toBe(end - 70);
        if (end > 0) expect(suctionLift(given)).toMatchObject({ inletKPa: end, highPoint: null });
        if (whole.kPa > 0 && whole.kPa < 1e6)
          expect(flowForPressure({ segments, kPa: whole.kPa, fluid: line.fluid }).highPoint).toBeNull();
      }),
      { numRuns: some(2000, 300) },
    );
    expect(without).toBeGreaterThan(100);
  });

  test('has its margin where the pressure is least: no part of it, taken alone, has less', () => {
    const seen = { high: 0, bounded: 0 };
    fc.assert(
      fc.property(lines, fc.double({ min: 30, max: 95, noNaN: true }), (line, inletLimitKPa) => {
        const { segments } = line;
        const found = suctionLimits({ ...line, inletLimitKPa });
        const ends = pressures(line);
        const first = segments.findIndex((one) => one.riseMetres > 0);
        const rooms = ends.map((kPa, i) => {
          const next = lineFlow({ ...line, segments: segments.slice(i + 1, i + 2).concat(segments.slice(i, i + 1)) });
          const falls = (segments[i + 1]?.riseMetres ?? 0) < 0;
          if (i === ends.length - 1) return kPa - inletLimitKPa;
          if (first < 0 || i < first) return kPa;
          return kPa - (falls ? (next.segments[0]?.fittingsKPa ?? 0) : 0) - inletLimitKPa;
        });
        const least = Math.min(...rooms);
        expect(Math.abs(found.marginKPa - least)).toBeLessThan(1e-9 * (1000 + Math.abs(least)));
        const place = found.highPoint?.segment ?? ends.length - 1;
        expect(Math.abs((rooms[place] as number) - least)).toBeLessThan(1e-9 * (1000 + Math.abs(least)));
        if (found.highPoint !== null) seen.high += 1;
        if (found.mm2PerS === null) return;
        const at = (mm2PerS: number) =>
          suctionLimits({ ...line, fluid: { ...line.fluid, mm2PerS }, inletLimitKPa }).marginKPa;
        expect(at(found.mm2PerS)).toBeGreaterThan(-1e-7);
        if (found.mm2PerS < 9.9e6) {
          expect(at(found.mm2PerS * 1.0001)).toBeLessThan(0);
          seen.bounded += 1;
        }
      }),
      { numRuns: some(2000, 300) },
    );
    expect(Math.min(seen.high, seen.bounded)).toBeGreaterThan(40);
  });

  test('lets the greatest flow through that leaves pressure everywhere; none only where standing oil has none', () => {
    const seen = { full: 0, torn: 0, none: 0, critical: 0 };
    const narrow = fc.record({ metres: decades(0.1, 2), boreMm: decades(0.5, 4) });
    const steep = tube.map((one) => ({ ...one, metres: 5 * one.metres, riseMetres: 5 * one.riseMetres }));
    const last = fc.option(fc.record({ metres: decades(10, 40), boreMm: decades(8, 25) }), { nil: null });
    const any = fc.tuple(fc.option(narrow, { nil: null }), fc.array(steep, { minLength: 1, maxLength: 3 }), last);
    fc.assert(
      fc.property(any, decades(1, 20000), lines, ([throttle, rest, fall], kPa, { fluid }) => {
        const segments: Segment[] = [
          ...(throttle === null ? [] : [throttle]),
          ...rest,
          ...(fall === null ? [] : [{ ...fall, riseMetres: -fall.metres }]),
        ];
        const startKPa = 101.325 + kPa;
        const first = segments.findIndex((one) => (one.riseMetres ?? 0) > 0);
        /** The least of what is left: at places before the end above 0, at the end above the atmosphere. */
        const left = (mlPerMin: number, low: boolean) => {
          const flows = lineFlow({ segments, mlPerMin, fluid }).segments;
          let here = startKPa;
          const rooms = flows.map((one, i) => {
            here -= low ? one.kPaLow : one.kPa;
            if (i === flows.length - 1) return here - 101.325;
            const next = first >= 0 && i >= first && (segments[i + 1]?.riseMetres ?? 0) < 0;
            return here - (next ? (flows[i + 1]?.fittingsKPa ?? 0) : 0);
          });
          return { least: Math.min(...rooms), rooms };
        };
        let found: ReturnType<typeof flowForPressure>;
        try {
          found = flowForPressure({ segments, kPa, fluid });
        } catch (error) {
          const parameter = expect.stringMatching(/^line\.(kPa|segments)/);
          expect(error).toMatchObject({ code: 'no_answer', parameter });
          expect(left(0, false).least).toBeLessThan(1e-9);
          seen.none += 1;
          return;
        }
        for (const low of [false, true]) {
          const flow = low ? found.mlPerMinHigh : found.mlPerMin;
          expect(left(flow * (1 - 1e-9), low).least).toBeGreaterThan(0);
          expect(left(flow * (1 + 1e-9), low).least).toBeLessThan(0);
        }
        const torn = found.highPoint?.kPa === 0;
        seen[torn ? 'torn' : 'full'] += 1;
        if (torn && found.regime === 'critical') seen.critical += 1;
        if (!torn || found.regime === 'critical') return;
        const { rooms } = left(found.mlPerMin, false);
        expect(Math.abs(rooms[found.highPoint?.segment ?? -1] as number)).toBeLessThan(1e-9 * startKPa);
      }),
      { numRuns: some(2000, 300) },
    );
    expect(Math.min(seen.full, seen.torn, seen.none)).toBeGreaterThan(some(100, 3));
    expect(seen.critical).toBeGreaterThan(0);
  });
});
