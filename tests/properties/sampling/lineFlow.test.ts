/** Laws of flow through a line, whatever the line. */
import { Decimal } from 'decimal.js';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  type Fluid,
  flowForPressure,
  frictionFactor,
  lineFlow,
  type Segment,
  smallestBore,
} from '../../../src/sampling/index.ts';
import { pressureViscosityFactor } from '../../../src/viscosity/index.ts';
import { some } from '../../volume.ts';

/** Spread evenly over the decades between two numbers. */
const decades = (low: number, high: number) =>
  fc.double({ min: Math.log10(low), max: Math.log10(high), noNaN: true }).map((x) => 10 ** x);

const fluids = fc.record({ mm2PerS: decades(1, 1000), kgPerM3: fc.double({ min: 700, max: 1300, noNaN: true }) });
/** No tube rises farther than it is long. */
const segment: fc.Arbitrary<Segment> = fc
  .record({
    metres: decades(0.1, 100),
    boreMm: decades(1, 50),
    rise: fc.double({ min: -5, max: 5, noNaN: true }),
    k: fc.double({ min: 0, max: 20, noNaN: true }),
    k1: fc.double({ min: 0, max: 5000, noNaN: true }),
    roughnessMm: fc.double({ min: 0, max: 0.05, noNaN: true }),
  })
  .map(({ rise, ...tube }) => ({ ...tube, riseMetres: Math.max(-tube.metres, Math.min(tube.metres, rise)) }));
const segments = fc.array(segment, { minLength: 1, maxLength: 4 });
const flows = decades(1, 1e5);
const close = (a: number, b: number, relative: number) =>
  Math.abs(a - b) <= relative * Math.max(Math.abs(a), Math.abs(b), 1e-9);

describe('the friction factor', () => {
  test('of turbulent flow agrees with a 50-digit solution of Colebrook to 1e-12', () => {
    const D = Decimal.clone({ precision: 50 });
    const twin = (reynolds: number, roughness: number) => {
      const rough = new D(roughness).div('3.7');
      const smooth = new D('2.51').div(reynolds);
      // a contraction: each round gains more than a digit
      let x = new D(6);
      for (let round = 0; round < 60; round += 1) x = rough.plus(smooth.times(x)).log(10).times(-2);
      return x.pow(-2);
    };
    let worst = 0;
    fc.assert(
      fc.property(decades(2000, 1e8), fc.oneof(fc.constant(0), decades(1e-6, 0.05)), (reynolds, roughness) => {
        const exact = twin(reynolds, roughness);
        const error = new D(frictionFactor(reynolds, roughness).high).div(exact).minus(1).abs().toNumber();
        worst = Math.max(worst, error);
      }),
      { numRuns: some(200, 25) },
    );
    expect(worst).toBeLessThan(1e-12);
  });

  test('is 64 / Re in laminar flow, whatever the roughness', () => {
    fc.assert(
      fc.property(decades(1e-6, 1999), fc.double({ min: 0, max: 0.05, noNaN: true }), (reynolds, roughness) => {
        const { regime, factor } = frictionFactor(reynolds, roughness);
        return regime === 'laminar' && factor === 64 / reynolds;
      }),
    );
  });

  test('is not given in the critical zone: there are two bounds that differ', () => {
    fc.assert(
      fc.property(fc.double({ min: 2000, max: 4000, noNaN: true }), (reynolds) => {
        const { regime, factor, low, high } = frictionFactor(reynolds);
        return regime === 'critical' && factor === null && low === 64 / reynolds && high > low * 1.2;
      }),
    );
    expect(frictionFactor(1999.999).regime).toBe('laminar');
    expect(frictionFactor(2000).regime).toBe('critical');
    expect(frictionFactor(4000).regime).toBe('critical');
    expect(frictionFactor(4000.001).regime).toBe('turbulent');
  });
});

describe('the ends of the critical zone belong to it', () => {
  test('Re 4000: two bounds, and no factor', () => {
    const found = frictionFactor(4000);
    expect(found).toMatchObject({ regime: 'critical', factor: null, low: 0.016 });
    expect(found.high).toBeGreaterThan(0.039);
  });

  test.each([2000, 4000])('Re %i: the drop of pressure has two bounds', (reynolds) => {
    let met = 0;
    for (let boreMm = 1; boreMm < 20; boreMm += 1) {
      const at = (mm2PerS: number) =>
        lineFlow({ segments: [{ metres: 1, boreMm }], mlPerMin: 1000, fluid: { mm2PerS, kgPerM3: 870 } });
      const found = at((at(1).reynolds * 1) / reynolds);
      if (found.reynolds !== reynolds) continue;
      met += 1;
      expect(found.regime).toBe('critical');
      expect(found.kPa / found.kPaLow).toBeGreaterThan(1.4);
    }
    expect(met).toBeGreaterThan(3);
  });
});

test('a line is critical where any of its segments is, though another is turbulent', () => {
  const at = (boreMm: number) => ({ metres: 1, boreMm });
  const flow = (...segments: Segment[]) =>
    lineFlow({ segments, mlPerMin: 20000, fluid: { mm2PerS: 10, kgPerM3: 870 } });
  expect(flow(at(7)).regime).toBe('turbulent');
  expect(flow(at(14)).regime).toBe('critical');
  for (const line of [flow(at(7), at(14)), flow(at(14), at(7))]) {
    expect(line.regime).toBe('critical');
    expect(line.reynolds).toBeGreaterThan(4000);
  }
});

describe('the drop of pressure', () => {
  test('rises with flow, over every change of regime', () => {
    fc.assert(
      fc.property(segments, fluids, flows, decades(1.000001, 10), (line, fluid, mlPerMin, times) => {
        const less = lineFlow({ segments: line, mlPerMin, fluid });
        const more = lineFlow({ segments: line, mlPerMin: mlPerMin * times, fluid });
        return more.kPa > less.kPa && more.kPaLow > less.kPaLow;
      }),
      { numRuns: some(1000) },
    );
  });

  test('rises with viscosity in one regime', () => {
    let compared = 0;
    fc.assert(
      fc.property(segments, fluids, decades(1, 3e6), decades(1.01, 3), (line, fluid, mlPerMin, times) => {
        const thin = lineFlow({ segments: line, mlPerMin, fluid });
        const thick = lineFlow({ segments: line, mlPerMin, fluid: { ...fluid, mm2PerS: fluid.mm2PerS * times } });
        const alike = thin.segments.every((s, i) => s.regime === thick.segments[i]?.regime && s.regime !== 'critical');
        if (!alike) return;
        compared += 1;
        // to the rounding of the sum; and a fully rough wall leaves viscosity hardly a part
        expect(thick.frictionKPa).toBeGreaterThanOrEqual(thin.frictionKPa * (1 - 1e-12));
        if (thin.regime === 'laminar') expect(thick.frictionKPa).toBeGreaterThan(thin.frictionKPa);
      }),
      { numRuns: some(1000) },
    );
    expect(compared).toBeGreaterThan(some(300, 15));
  });

  test('of oil that pressure thickens is told as low as the doc comment says, by the mean of both pressures', () => {
    const [alpha, mm2PerS] = [2e-5, 46];
    const segments = [{ metres: 30, boreMm: 1 }];
    /** How far the flow told lies from that of Barus along the tube, in %; both pressures in kPa by the gauge. */
    const off = (start: number, end: number) => {
      const kPa = start - end;
      const flow = (viscosity: number) =>
        flowForPressure({ segments, kPa, fluid: { mm2PerS: viscosity, kgPerM3: 870 } }).mlPerMin;
      // Q x viscosity(p) is one along the tube: its mean over the pressures, by small steps
      let thin = 0;
      for (let i = 0.5; i < 1000; i += 1) thin += Math.exp(-alpha * (end + (kPa * i) / 1000)) / 1000;
      const told = flow(mm2PerS * pressureViscosityFactor((start + end) / 2, alpha / 1000));
      return 100 * (told / (flow(mm2PerS) * thin) - 1);
    };
    for (const end of [0, 10000, 40000]) {
      expect(off(end + 34000, end)).toBeGreaterThan(-2);
      expect(off(end + 34000, end)).toBeLessThan(-1.8);
      expect(off(end + 40000, end)).toBeCloseTo(-2.6, 1);
      expect(off(end + 60000, end)).toBeCloseTo(-5.8, 1);
      expect(off(end + 100000, end)).toBeCloseTo(-14.9, 1);
    }
  });

  test('can fall where oil thickens out of turbulence, as the doc comment says', () => {
    const at = (mm2PerS: number) =>
      lineFlow({ segments: [{ metres: 1, boreMm: 10 }], mlPerMin: 30000, fluid: { mm2PerS, kgPerM3: 870 } });
    expect(at(15).regime).toBe('turbulent');
    expect(at(33).regime).toBe('laminar');
    expect(at(33).kPa).toBeLessThan(at(15).kPa);
  });

  test('is linear in flow and in viscosity in laminar flow without fittings', () => {
    const plain = segments.map((line) => line.map((s) => ({ ...s, k: 0 })));
    fc.assert(
      fc.property(plain, fluids, decades(1, 100), decades(0.1, 2), (line, fluid, mlPerMin, times) => {
        const one = lineFlow({ segments: line, mlPerMin, fluid });
        const faster = lineFlow({ segments: line, mlPerMin: mlPerMin * times, fluid });
        const thicker = lineFlow({ segments: line, mlPerMin, fluid: { ...fluid, mm2PerS: fluid.mm2PerS * times } });
        fc.pre(one.regime === 'laminar' && faster.regime === 'laminar' && thicker.regime === 'laminar');
        expect(close(faster.frictionKPa, one.frictionKPa * times, 1e-13)).toBe(true);
        expect(close(thicker.frictionKPa, one.frictionKPa * times, 1e-13)).toBe(true);
      }),
    );
  });

  test('is the sum of its parts and of its segments, and a segment may be cut in two', () => {
    fc.assert(
      fc.property(segments, fluids, flows, (line, fluid, mlPerMin) => {
        const whole = lineFlow({ segments: line, mlPerMin, fluid });
        const parts = whole.frictionKPa + whole.fittingsKPa + whole.riseKPa;
        expect(Math.abs(parts - whole.kPa)).toBeLessThan(1e-9 * (Math.abs(whole.frictionKPa) + 1000));
        const halves = line.flatMap((s) => {
          const fittings = { k: (s.k ?? 0) / 2, k1: (s.k1 ?? 0) / 2 };
          const half = { ...s, metres: s.metres / 2, riseMetres: (s.riseMetres ?? 0) / 2, ...fittings };
          return [half, half];
        });
        const cut = lineFlow({ segments: halves, mlPerMin, fluid });
        expect(Math.abs(cut.kPa - whole.kPa)).toBeLessThan(1e-9 * (Math.abs(whole.frictionKPa) + 1000));
        expect(close(cut.volumeMl, whole.volumeMl, 1e-12)).toBe(true);
        expect(close(cut.transitSeconds ?? 0, ((whole.volumeMl / mlPerMin) * 60) as number, 1e-12)).toBe(true);
      }),
    );
  });

  test('gives the shear at the wall: force on the wall balances the drop, in every regime', () => {
    fc.assert(
      fc.property(segment, fluids, flows, (tube, fluid, mlPerMin) => {
        const [only] = lineFlow({ segments: [tube], mlPerMin, fluid }).segments;
        const balance = ((only?.frictionKPa ?? 0) * tube.boreMm) / (4 * tube.metres);
        return close(only?.wallShearPa ?? 0, balance, 1e-12);
      }),
    );
  });
});

describe('the inverse', () => {
  test('finds the flow again; in the critical zone two flows enclose it', () => {
    let critical = 0;
    fc.assert(
      fc.property(segments, fluids, fc.oneof(flows, fc.constant(null)), decades(1500, 5000), (line, fluid, any, re) => {
        // half of the flows are aimed at the critical zone of the first segment
        const mlPerMin = any ?? (re * Math.PI * ((line[0]?.boreMm ?? 1) / 1000) * (fluid.mm2PerS / 1e6) * 6e7) / 4;
        const there = lineFlow({ segments: line, mlPerMin, fluid });
        fc.pre(there.kPa <= 1e6 && there.kPa >= -1e6);
        const back = flowForPressure({ segments: line, kPa: there.kPa, fluid });
        // what the rise takes away from the pressure is lost to rounding
        const rounding = 1e-9 * (1 + Math.abs(there.riseKPa) / (there.frictionKPa + there.fittingsKPa));
        if (there.kPa === there.kPaLow) {
          expect(close(back.mlPerMin, mlPerMin, rounding)).toBe(true);
          expect(back.mlPerMinHigh).toBeGreaterThanOrEqual(back.mlPerMin);
        } else {
          critical += 1;
          expect(back.regime).toBe('critical');
          expect(close(back.mlPerMin, mlPerMin, rounding)).toBe(true);
          expect(back.mlPerMinHigh).toBeGreaterThan(mlPerMin * (1 - rounding));
          const low = flowForPressure({ segments: line, kPa: there.kPaLow, fluid });
          expect(low.mlPerMin).toBeLessThan(mlPerMin * (1 + rounding));
          expect(low.mlPerMinHigh).toBeGreaterThan(mlPerMin * (1 - rounding));
        }
      }),
      { numRuns: some(1000) },
    );
    expect(critical).toBeGreaterThan(some(20, 1));
  });

  test('in turbulent flow there is one, and it is not called critical', () => {
    const line = { segments: [{ metres: 2, boreMm: 10 }], fluid: { mm2PerS: 1, kgPerM3: 1000 } };
    for (const mlPerMin of [3000, 10000, 50000]) {
      const { kPa } = lineFlow({ ...line, mlPerMin });
      const found = flowForPressure({ ...line, kPa });
      expect(found.regime).toBe('turbulent');
      expect(found.mlPerMinHigh).toBe(found.mlPerMin);
      expect(found.mlPerMin / mlPerMin).toBeCloseTo(1, 9);
    }
  });

  test('what lineFlow gives without flow drives none, whatever the line rises and falls', () => {
    fc.assert(
      fc.property(segments, fluids, (line, fluid) => {
        const { kPa } = lineFlow({ segments: line, mlPerMin: 0, fluid });
        expect(flowForPressure({ segments: line, kPa, fluid })).toMatchObject({
          mlPerMin: 0,
          mlPerMinHigh: 0,
          reynolds: 0,
        });
        // added up in another order: none, or what rounding drives
        const reversed = [...line].reverse();
        expect(flowForPressure({ segments: reversed, kPa, fluid }).mlPerMin).toBeLessThan(1e-3);
        expect(() => flowForPressure({ segments: line, kPa: kPa - 1e-6, fluid })).toThrow(/backwards/);
      }),
      { numRuns: some(2000) },
    );
  });

  test('a bore that is given can be entered into lineFlow; else the Reynolds number is refused', () => {
    let refused = 0;
    fc.assert(
      fc.property(
        decades(0.01, 1),
        decades(1e5, 1e9),
        decades(0.01, 100),
        decades(1, 1e5),
        (metres, mlPerMin, mm2PerS, kPa) => {
          const fluid = { mm2PerS, kgPerM3: 870 };
          try {
            const boreMm = smallestBore({ metres, mlPerMin, kPa, fluid });
            expect(lineFlow({ segments: [{ metres, boreMm }], mlPerMin, fluid }).reynolds).toBeLessThanOrEqual(1e8);
          } catch (error) {
            refused += 1;
            expect(error).toMatchObject({ code: 'out_of_range', parameter: 'tube' });
          }
        },
      ),
    );
    expect(refused).toBeGreaterThan(some(5, 1));
    expect(refused).toBeLessThan(95);
  });

  test('says critical where the pressure lies in the jump at the end of laminar flow', () => {
    const fluid = { mm2PerS: 10, kgPerM3: 870 };
    const tube = { metres: 5, boreMm: 6 };
    const mlPerMin = ((2000 * Math.PI * 0.006 * 1e-5) / 4) * 6e7;
    const laminar = lineFlow({ segments: [tube], mlPerMin, fluid }).kPaLow;
    const driven = flowForPressure({ segments: [tube], kPa: laminar * 1.2, fluid });
    expect(driven.regime).toBe('critical');
    expect(driven.mlPerMin).toBeCloseTo(mlPerMin, 6);
    expect(driven.mlPerMinHigh).toBeCloseTo(mlPerMin * 1.2, 6);
  });

  test('the smallest bore keeps the limit and a smaller one breaks it', () => {
    fc.assert(
      fc.property(segment, fluids, flows, decades(0.1, 1000), (tube, fluid, mlPerMin, kPa) => {
        const { boreMm: _, ...run } = tube;
        const rise = (fluid.kgPerM3 * 9.80665 * (tube.riseMetres ?? 0)) / 1000;
        fc.pre(kPa > rise + 0.01);
        const boreMm = smallestBore({ ...run, mlPerMin, kPa, fluid });
        const drop = (bore: number) => lineFlow({ segments: [{ ...run, boreMm: bore }], mlPerMin, fluid }).kPa - kPa;
        expect(drop(boreMm)).toBeLessThanOrEqual(1e-9);
        const least = Math.max(0.05, 20 * (tube.roughnessMm ?? 0));
        if (boreMm > least * 1.001) expect(drop(boreMm * (1 - 1e-5))).toBeGreaterThan(0);
      }),
      { numRuns: some(300) },
    );
  });

  test('the smallest bore stands on the safe side of the jump at the end of laminar flow', () => {
    for (const mm2PerS of [5, 10, 20, 40, 80]) {
      const fluid = { mm2PerS, kgPerM3: 870 };
      const mlPerMin = 10000;
      // the bore at which the Reynolds number is 2000
      const edgeMm = ((4 * mlPerMin) / 6e7 / (Math.PI * (mm2PerS / 1e6) * 2000)) * 1000;
      const jump = lineFlow({ segments: [{ metres: 2, boreMm: edgeMm * (1 - 1e-9) }], mlPerMin, fluid });
      expect(jump.regime).toBe('critical');
      for (const share of [0.01, 0.3, 0.5, 0.7, 0.99]) {
        const kPa = jump.kPaLow + share * (jump.kPa - jump.kPaLow);
        const boreMm = smallestBore({ metres: 2, mlPerMin, kPa, fluid });
        expect(boreMm / edgeMm).toBeCloseTo(1, 9);
        expect(lineFlow({ segments: [{ metres: 2, boreMm }], mlPerMin, fluid }).kPa).toBeLessThan(kPa);
      }
    }
  });
});

describe('the edges', () => {
  const oil: Fluid = { mm2PerS: 46, kgPerM3: 870 };

  test('zero flow: no loss, no time, no factor; the rise remains', () => {
    const line = lineFlow({ segments: [{ metres: 3, boreMm: 4, riseMetres: 3, k: 2 }], mlPerMin: 0, fluid: oil });
    expect(line).toMatchObject({
      reynolds: 0,
      regime: 'laminar',
      frictionKPa: 0,
      fittingsKPa: 0,
      transitSeconds: null,
    });
    expect(line.kPa).toBeCloseTo(0.87 * 9.80665 * 3, 12);
    expect(line.segments[0]).toMatchObject({ frictionFactor: null, wallShearPa: 0, transitSeconds: null });
    expect(JSON.parse(JSON.stringify(line))).toEqual(line);
  });

  test('a vertical line: up and down differ by twice the head', () => {
    const at = (riseMetres: number) =>
      lineFlow({ segments: [{ metres: 2, boreMm: 4, riseMetres }], mlPerMin: 100, fluid: oil }).kPa;
    expect(at(2) - at(-2)).toBeCloseTo(4 * 0.87 * 9.80665, 10);
    expect(at(-2)).toBeLessThan(at(0));
  });

  test('a falling line flows by itself', () => {
    const segments = [{ metres: 2, boreMm: 4, riseMetres: -2 }];
    const { mlPerMin } = flowForPressure({ segments, kPa: 0, fluid: oil });
    expect(lineFlow({ segments, mlPerMin, fluid: oil }).kPa).toBeCloseTo(0, 9);
    expect(mlPerMin).toBeGreaterThan(0);
  });

  test('no pressure, no flow', () => {
    const still = flowForPressure({ segments: [{ metres: 2, boreMm: 4 }], kPa: 0, fluid: oil });
    const none = { mlPerMin: 0, mlPerMinHigh: 0, regime: 'laminar', reynolds: 0, highPoint: null };
    expect(still).toEqual({ ...none, fittingsTooLow: false });
  });

  test('a pressure that drives less than the least flow drives none', () => {
    const line = { segments: [{ metres: 1, boreMm: 4 }], fluid: { mm2PerS: 46, kgPerM3: 870 } };
    const least = lineFlow({ ...line, mlPerMin: 1e-12 }).kPa;
    expect(flowForPressure({ ...line, kPa: least * 1.01 }).mlPerMin).toBeGreaterThan(0);
    const rest = { regime: 'laminar', reynolds: 0, highPoint: null, fittingsTooLow: false };
    const none = { mlPerMin: 0, mlPerMinHigh: 0, ...rest };
    expect(flowForPressure({ ...line, kPa: least * 0.99 })).toEqual(none);
  });

  test('every figure is finite at the corners of the range', () => {
    const numbers = (value: unknown): number[] =>
      typeof value === 'number'
        ? [value]
        : typeof value === 'object' && value !== null
          ? Object.values(value).flatMap(numbers)
          : [];
    let seen = 0;
    for (const metres of [0, 1e5])
      for (const boreMm of [0.05, 1e4])
        for (const mlPerMin of [0, 1e-12, 1000])
          for (const mm2PerS of [0.01, 1e7])
            for (const kgPerM3 of [500, 2000]) {
              const riseMetres = Math.min(metres, 1e4);
              const segments = [{ metres, boreMm, roughnessMm: 0, k: 1e6, riseMetres }];
              const found = numbers(lineFlow({ segments, mlPerMin, fluid: { mm2PerS, kgPerM3 } }));
              expect(found.filter((value) => !Number.isFinite(value))).toEqual([]);
              seen += found.length;
            }
    expect(seen).toBeGreaterThan(48 * 15);
  });
});

describe('what is wrong is named', () => {
  const good = { segments: [{ metres: 1, boreMm: 4 }], mlPerMin: 100, fluid: { mm2PerS: 46, kgPerM3: 870 } };
  const segmentWith = (part: object) => ({ ...good, segments: [{ metres: 1, boreMm: 4, ...part }] });
  const fluidWith = (part: object) => ({ ...good, fluid: { ...good.fluid, ...part } });
  const driven = { segments: good.segments, kPa: 10, fluid: good.fluid };
  const tube = { metres: 1, mlPerMin: 100, kPa: 10, fluid: good.fluid };

  test.each<[string, () => unknown, string, string]>([
    ['no line', () => lineFlow(null as never), 'wrong_type', 'line'],
    ['no segments', () => lineFlow({ ...good, segments: [] }), 'empty', 'line.segments'],
    ['segments of another type', () => lineFlow({ ...good, segments: 3 as never }), 'wrong_type', 'line.segments'],
    [
      'a segment of another type',
      () => lineFlow({ ...good, segments: [3 as never] }),
      'wrong_type',
      'line.segments[0]',
    ],
    ['no bore', () => lineFlow(segmentWith({ boreMm: 0 })), 'out_of_range', 'line.segments[0].boreMm'],
    ['bore NaN', () => lineFlow(segmentWith({ boreMm: Number.NaN })), 'not_a_number', 'line.segments[0].boreMm'],
    ['negative length', () => lineFlow(segmentWith({ metres: -1 })), 'out_of_range', 'line.segments[0].metres'],
    ['infinite rise', () => lineFlow(segmentWith({ riseMetres: 1 / 0 })), 'infinite', 'line.segments[0].riseMetres'],
    ...[1.001, -1.001, 50].map((riseMetres): [string, () => unknown, string, string] => [
      `a rise of ${riseMetres} m in 1 m`,
      () => lineFlow(segmentWith({ riseMetres })),
      'out_of_range',
      'line.segments[0].riseMetres',
    ]),
    ['negative k', () => lineFlow(segmentWith({ k: -1 })), 'out_of_range', 'line.segments[0].k'],
    ['too rough', () => lineFlow(segmentWith({ roughnessMm: 1 })), 'out_of_range', 'line.segments[0].roughnessMm'],
    ['negative flow', () => lineFlow({ ...good, mlPerMin: -1 }), 'out_of_range', 'line.mlPerMin'],
    ['hardly a flow', () => lineFlow({ ...good, mlPerMin: 1e-13 }), 'out_of_range', 'line.mlPerMin'],
    ['flow as text', () => lineFlow({ ...good, mlPerMin: '100' as never }), 'wrong_type', 'line.mlPerMin'],
    ['no fluid', () => lineFlow({ ...good, fluid: undefined as never }), 'wrong_type', 'line.fluid'],
    ['no viscosity', () => lineFlow(fluidWith({ mm2PerS: 0 })), 'out_of_range', 'line.fluid.mm2PerS'],
    ...[0.87, 54.4, 499, 2001, 8700].map((kgPerM3): [string, () => unknown, string, string] => [
      `a density of ${kgPerM3}`,
      () => lineFlow(fluidWith({ kgPerM3 })),
      'out_of_range',
      'line.fluid.kgPerM3',
    ]),
    ['no density', () => lineFlow(fluidWith({ kgPerM3: 0 })), 'out_of_range', 'line.fluid.kgPerM3'],
    ['beyond Re 1e8', () => lineFlow({ ...fluidWith({ mm2PerS: 0.01 }), mlPerMin: 1e9 }), 'out_of_range', 'line'],
    ['Re 0', () => frictionFactor(0), 'out_of_range', 'reynolds'],
    ['roughness 0.1', () => frictionFactor(5000, 0.1), 'out_of_range', 'relativeRoughness'],
    ['segments with a hole', () => lineFlow({ ...good, segments: new Array(1) }), 'wrong_type', 'line.segments[0]'],
    [
      'segments with a hole before one',
      // biome-ignore lint/suspicious/noSparseArray: a hole before an entry is what is tried here
      () => lineFlow({ ...good, segments: [, good.segments[0]] as never }),
      'wrong_type',
      'line.segments[0]',
    ],
    [
      'more pressure than a wide line can use',
      () => flowForPressure({ ...driven, segments: [{ metres: 0.1, boreMm: 10000 }], kPa: 1e6 }),
      'out_of_range',
      'line.kPa',
    ],
    [
      'a pressure beyond Re 1e8',
      () =>
        flowForPressure({ kPa: 1e6, segments: [{ metres: 0.1, boreMm: 100 }], fluid: { mm2PerS: 0.01, kgPerM3: 870 } }),
      'out_of_range',
      'line.kPa',
    ],
    ['bore of too rough a tube', () => smallestBore({ ...tube, roughnessMm: 500 }), 'out_of_range', 'tube.roughnessMm'],
    ['bore of a rougher one', () => smallestBore({ ...tube, roughnessMm: 501 }), 'out_of_range', 'tube.roughnessMm'],
    [
      'bore beyond Re 1e8',
      () => smallestBore({ ...tube, metres: 1e-9, mlPerMin: 1e9, fluid: { mm2PerS: 0.01, kgPerM3: 870 } }),
      'out_of_range',
      'tube',
    ],
    ['flow backwards', () => flowForPressure({ ...driven, kPa: -1 }), 'no_answer', 'line.kPa'],
    [
      'nothing in the way',
      () => flowForPressure({ ...driven, segments: [{ metres: 0, boreMm: 4 }] }),
      'no_answer',
      'line.segments',
    ],
    ['pressure NaN', () => flowForPressure({ ...driven, kPa: Number.NaN }), 'not_a_number', 'line.kPa'],
    ['no driven line', () => flowForPressure(1 as never), 'wrong_type', 'line'],
    ['no tube', () => smallestBore(undefined as never), 'wrong_type', 'tube'],
    ['bore for no flow', () => smallestBore({ ...tube, mlPerMin: 0 }), 'out_of_range', 'tube.mlPerMin'],
    ['bore for a rise too high', () => smallestBore({ ...tube, metres: 2, riseMetres: 2 }), 'no_answer', 'tube.kPa'],
    [
      'a rise of more than the length',
      () => smallestBore({ ...tube, riseMetres: 2 }),
      'out_of_range',
      'tube.riseMetres',
    ],
    ['bore of a negative length', () => smallestBore({ ...tube, metres: -1 }), 'out_of_range', 'tube.metres'],
    [
      'a pressure beyond Re 1e8 in the narrower of two',
      () =>
        flowForPressure({
          ...{ kPa: 1000, fluid: { mm2PerS: 0.01, kgPerM3: 870 } },
          segments: [100, 10000].map((boreMm) => ({ metres: 0.1, boreMm })),
        }),
      'out_of_range',
      'line.kPa',
    ],
  ])('%s', (_name, call, code, parameter) => {
    expect(call).toThrow(expect.objectContaining({ name: 'MotescaleError', code, parameter }));
  });

  const thin = { mm2PerS: 0.01, kgPerM3: 870 };
  test.each<[() => unknown, string, string]>([
    [
      () => smallestBore({ ...tube, metres: 1e-9, mlPerMin: 1e9, fluid: thin }),
      'tube',
      'a Reynolds number up to 1e8 in the smallest bore: less flow or less kPa',
    ],
    [
      () => lineFlow({ ...good, fluid: thin, mlPerMin: 1e9 }),
      'line',
      'a Reynolds number up to 1e8: a wider bore or less flow',
    ],
    [
      () => flowForPressure({ ...driven, segments: [{ metres: 0, boreMm: 4 }] }),
      'line.segments: received an array of 1',
      'a line that holds the flow back',
    ],
  ])('in words: %#', (call, parameter, expected) => {
    expect(call).toThrow(new RegExp(`^${parameter}.*, expected ${expected}$`));
  });
});
