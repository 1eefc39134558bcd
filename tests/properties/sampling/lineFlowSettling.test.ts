/** Laws of particles that sink, in oil at rest and in oil on its way. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { arcsine } from '../../../src/numeric/arcsine.ts';
import { lineFlow, settlingVelocity, suspension } from '../../../src/sampling/index.ts';
import { Exact, exactly } from '../../doubles.ts';
import { some } from '../../volume.ts';

const decades = (low: number, high: number) =>
  fc.double({ min: Math.log10(low), max: Math.log10(high), noNaN: true }).map((x) => 10 ** x);
const oil = { mm2PerS: 46, kgPerM3: 870 };
const water = { mm2PerS: 1, kgPerM3: 1000 };
const fluid = fc.record({ mm2PerS: decades(1, 1000), kgPerM3: fc.double({ min: 700, max: 1300, noNaN: true }) });
const particleKgPerM3 = fc.double({ min: 1, max: 8000, noNaN: true });

describe('settling velocity', () => {
  test('balances weight and drag: Stokes below a Reynolds number of 0.2, Schiller and Naumann above 0.3', () => {
    let above = 0;
    fc.assert(
      fc.property(decades(1, 600), particleKgPerM3, fluid, (size, density, liquid) => {
        const speed = settlingVelocity({ size, particleKgPerM3: density, fluid: liquid });
        const d = size / 1e6;
        const nu = liquid.mm2PerS / 1e6;
        const reynolds = (Math.abs(speed) * d) / nu;
        fc.pre(reynolds > 1e-12);
        const weight = (4 / 3) * 9.80665 * d * (density / liquid.kgPerM3 - 1);
        const drag = (24 / reynolds) * speed * Math.abs(speed);
        const ratio = weight / drag;
        if (reynolds <= 0.2) expect(ratio).toBeCloseTo(1, 10);
        if (reynolds >= 0.3) {
          above += 1;
          expect(ratio / (1 + 0.15 * reynolds ** 0.687)).toBeCloseTo(1, 10);
        }
      }),
      { numRuns: some(2000) },
    );
    expect(above).toBeGreaterThan(some(100, 5));
  });

  test('rises with size and with density, and falls with viscosity, over the change of law too', () => {
    fc.assert(
      fc.property(decades(1, 800), decades(1.0001, 1.5), decades(1, 100), (size, times, mm2PerS) => {
        const at = (s: number, density: number, viscosity: number) =>
          settlingVelocity({ size: s, particleKgPerM3: density, fluid: { mm2PerS: viscosity, kgPerM3: 870 } });
        const base = at(size, 2650, mm2PerS);
        return (
          at(size * times, 2650, mm2PerS) > base &&
          at(size, 2650 * times, mm2PerS) > base &&
          at(size, 2650, mm2PerS * times) < base
        );
      }),
      { numRuns: some(1000) },
    );
  });

  test('just beyond a Reynolds number of 0.2 it is nearly that of Stokes, and falls behind from there', () => {
    // v = (rho - rho0) g d^2 / (18 mu), Re = v d / nu
    const stokes = (micrometres: number) => ((7850 / 870 - 1) * 9.80665 * (micrometres / 1e6) ** 2) / (18 * 46e-6);
    const size = 1e6 * ((0.2 * 18 * 46e-6 * 46e-6) / ((7850 / 870 - 1) * 9.80665)) ** (1 / 3);
    const share = (times: number) =>
      settlingVelocity({ size: size * times, particleKgPerM3: 7850, fluid: oil }) / stokes(size * times);
    expect(share(0.9999)).toBeCloseTo(1, 12);
    expect(share(1.0001)).toBeCloseTo(1, 3);
    // at 0.25 half of what Schiller and Naumann have on top: 1 + 0.15 Re^0.687 / 2
    const reynolds = 0.25;
    const weight = reynolds * (1 + 0.075 * reynolds ** 0.687);
    expect(share((weight / 0.2) ** (1 / 3))).toBeCloseTo(reynolds / weight, 10);
  });

  test('is negative for what is lighter than oil, and zero for what weighs the same', () => {
    const heavy = settlingVelocity({ size: 20, particleKgPerM3: 870 + 500, fluid: oil });
    expect(settlingVelocity({ size: 20, particleKgPerM3: 870 - 500, fluid: oil })).toBeCloseTo(-heavy, 15);
    expect(settlingVelocity({ size: 20, particleKgPerM3: 870, fluid: oil })).toBe(0);
  });

  test.each<[string, () => unknown, string, string]>([
    ['nothing', () => settlingVelocity(undefined as never), 'wrong_type', 'particle'],
    [
      'no size',
      () => settlingVelocity({ size: 0, particleKgPerM3: 2650, fluid: oil }),
      'out_of_range',
      'particle.size',
    ],
    [
      'a density NaN',
      () => settlingVelocity({ size: 4, particleKgPerM3: Number.NaN, fluid: oil }),
      'not_a_number',
      'particle.particleKgPerM3',
    ],
    [
      'no fluid',
      () => settlingVelocity({ size: 4, particleKgPerM3: 2650, fluid: 1 as never }),
      'wrong_type',
      'particle.fluid',
    ],
    [
      'a pebble in water',
      () => settlingVelocity({ size: 20000, particleKgPerM3: 2650, fluid: water }),
      'out_of_range',
      'particle.size',
    ],
  ])('%s', (_name, call, code, parameter) => {
    expect(call).toThrow(expect.objectContaining({ name: 'MotescaleError', code, parameter }));
  });
});

describe('suspension', () => {
  const steel = { metres: 5, boreMm: 4, particleKgPerM3: 7850, fluid: oil };

  /** The share lost, from paths: each particle falls along its chord while the parabolic profile carries it. */
  const lostByPaths = (lengthOverFall: number) => {
    const steps = 2000;
    let lost = 0;
    let all = 0;
    for (let i = 0; i < steps; i += 1) {
      const x = (i + 0.5) / steps;
      const end = Math.sqrt(1 - x * x);
      const height = (2 * end) / steps;
      let run = 0;
      for (let j = 0; j < steps; j += 1) {
        const y = -end + (j + 0.5) * height;
        const carried = 2 * (1 - x * x - y * y) * height;
        run += carried;
        all += carried;
        if (run <= lengthOverFall) lost += carried;
      }
    }
    return lost / all;
  };

  test.each([0.02, 0.2, 0.5, 0.9])('loses in laminar flow what computed paths lose: e = %f', (e) => {
    // e = 3 L v / (4 D V): choose the flow that gives it
    const speed = settlingVelocity({ size: 20, particleKgPerM3: 7850, fluid: oil });
    const velocity = (3 * steel.metres * speed) / (4 * 0.004 * e);
    const mlPerMin = velocity * (Math.PI / 4) * 0.004 * 0.004 * 6e7;
    const found = suspension({ ...steel, size: 20, mlPerMin });
    expect(found.regime).toBe('laminar');
    // in radii and mean velocities: L v / (R V) = 8 e / 3
    expect(found.lostShare).toBeCloseTo(lostByPaths((8 * e) / 3), 3);
  });

  test('loses more with size and length, less with flow; nothing of what floats', () => {
    fc.assert(
      fc.property(decades(1, 50), decades(20, 2000), decades(1.01, 3), (size, mlPerMin, times) => {
        const lost = (more: object) => suspension({ ...steel, size, mlPerMin, ...more }).lostShare ?? -1;
        const base = lost({});
        const sum =
          base >= 0 && base <= 1 && lost({ size: size * times }) >= base && lost({ metres: 5 * times }) >= base;
        return sum && lost({ mlPerMin: mlPerMin * times }) <= base;
      }),
    );
    expect(suspension({ ...steel, particleKgPerM3: 870, size: 50, mlPerMin: 10 })).toMatchObject({
      suspended: true,
      lostShare: 0,
    });
  });

  test('has no step where the series takes over', () => {
    const at = (mlPerMin: number) => suspension({ ...steel, metres: 1e-5, size: 4, mlPerMin }).lostShare ?? 0;
    // so short a tube loses in proportion to 1 / flow: what settles onto its floor, (4 / pi) L v / (D V) of the flow
    for (let mlPerMin = 100; mlPerMin < 15000; mlPerMin *= 1.5) {
      const speed = settlingVelocity({ size: 4, particleKgPerM3: steel.particleKgPerM3, fluid: steel.fluid });
      const floor = (1e-5 * 0.004 * speed) / (mlPerMin / 6e7);
      expect(at(mlPerMin) / floor).toBeCloseTo(1, 4);
    }
  });

  test('its series keeps thirteen digits up to where the closed form takes over', () => {
    const short = { ...steel, metres: 0.05, size: 0.5 };
    const speed = settlingVelocity({ size: 0.5, particleKgPerM3: 7850, fluid: oil });
    for (const s of [0.03, 0.06, 0.09, 0.099]) {
      const velocity = (3 * 0.05 * speed) / (4 * 0.004 * s ** 3);
      const mlPerMin = velocity * (Math.PI / 4) * 0.004 * 0.004 * 6e7;
      const { lostShare } = suspension({ ...short, mlPerMin });
      const root = new Exact(1).minus(exactly(s).pow(2)).sqrt();
      const closed = exactly(s).pow(3).times(2).times(root).minus(exactly(s).times(root)).plus(Exact.asin(s));
      const truth = closed.times(2).dividedBy(Exact.acos(-1));
      expect(
        truth
          .minus(exactly(lostShare as number))
          .abs()
          .dividedBy(truth)
          .toNumber(),
      ).toBeLessThan(1e-13);
    }
  });

  test('a loss of just the limit is within it', () => {
    const line = { ...steel, size: 20, mlPerMin: 300 };
    const { lostShare } = suspension(line);
    const at = (lossLimit: number) => suspension({ ...line, lossLimit }).suspended;
    const lost = lostShare as number;
    expect(lost > 0 && lost < 1).toBe(true);
    expect([at(lost), at(lost * (1 - 1e-12))]).toEqual([true, false]);
  });

  test('what weighs as much as the oil is not lost, even without flow', () => {
    const floating = { ...steel, particleKgPerM3: steel.fluid.kgPerM3, size: 4, mlPerMin: 0 };
    expect(suspension(floating)).toMatchObject({ lostShare: 0, suspended: true });
  });

  test('without flow everything that sinks is lost', () => {
    expect(suspension({ ...steel, size: 4, mlPerMin: 0 })).toMatchObject({
      suspended: false,
      lostShare: 1,
      regime: 'laminar',
    });
  });

  test('laminar flow lifts nothing, though its wall shear would pass as friction velocity', () => {
    const { metres, boreMm, fluid } = { ...steel, metres: 50 };
    const [tube] = lineFlow({ segments: [{ metres, boreMm }], mlPerMin: 300, fluid }).segments;
    const found = suspension({ ...steel, metres, size: 14, mlPerMin: 300 });
    expect(found.settlingMetresPerS).toBeLessThan(Math.sqrt((tube?.wallShearPa ?? 0) / fluid.kgPerM3));
    expect(found).toMatchObject({ suspended: false, regime: 'laminar', frictionMetresPerS: null });
    const lost = found.lostShare ?? 0;
    const at = (lossLimit: number) => suspension({ ...steel, metres, size: 14, mlPerMin: 300, lossLimit }).suspended;
    expect([at(lost * 1.01), at(lost * 0.99)]).toEqual([true, false]);
  });

  test('in turbulent flow the friction velocity decides; in the critical zone no eddies are counted on', () => {
    const fast = { metres: 5, boreMm: 20, particleKgPerM3: 7850, fluid: { mm2PerS: 5, kgPerM3: 870 } };
    const found = suspension({ ...fast, size: 50, mlPerMin: 40000 });
    const [tube] = lineFlow({
      segments: [{ metres: fast.metres, boreMm: fast.boreMm }],
      mlPerMin: 40000,
      fluid: fast.fluid,
    }).segments;
    expect(found).toMatchObject({ suspended: true, regime: 'turbulent', lostShare: null });
    expect(found.frictionMetresPerS).toBeCloseTo(Math.sqrt((tube?.wallShearPa ?? 0) / 870), 12);
    const slow = suspension({ ...fast, size: 1500, mlPerMin: 20000 });
    expect(slow).toMatchObject({ suspended: false, regime: 'turbulent' });
    const between = suspension({ ...fast, size: 50, mlPerMin: 14000 });
    expect(between.regime).toBe('critical');
    expect(between.lostShare).not.toBeNull();
  });

  test.each<[string, () => unknown, string, string]>([
    ['no line', () => suspension(undefined as never), 'wrong_type', 'line'],
    [
      'a loss limit of 1',
      () => suspension({ ...steel, size: 4, mlPerMin: 1, lossLimit: 1 }),
      'out_of_range',
      'line.lossLimit',
    ],
    ['no size', () => suspension({ ...steel, size: 0, mlPerMin: 1 }), 'out_of_range', 'line.size'],
    ['too large a size', () => suspension({ ...steel, size: 1e5, mlPerMin: 1 }), 'out_of_range', 'line.size'],
    [
      'too heavy a particle',
      () => suspension({ ...steel, size: 4, mlPerMin: 1, particleKgPerM3: 1e5 }),
      'out_of_range',
      'line.particleKgPerM3',
    ],
    [
      'no viscosity',
      () => suspension({ ...steel, size: 4, mlPerMin: 1, fluid: { mm2PerS: 0, kgPerM3: 870 } }),
      'out_of_range',
      'line.fluid.mm2PerS',
    ],
    ['no bore', () => suspension({ ...steel, size: 4, mlPerMin: 1, boreMm: 0 }), 'out_of_range', 'line.boreMm'],
    ['negative flow', () => suspension({ ...steel, size: 4, mlPerMin: -1 }), 'out_of_range', 'line.mlPerMin'],
  ])('%s', (_name, call, code, parameter) => {
    expect(call).toThrow(expect.objectContaining({ name: 'MotescaleError', code, parameter }));
  });
});

test('the arcsine agrees with the engine to a few ulp', () => {
  expect(arcsine(1)).toBeCloseTo(Math.PI / 2, 15);
  expect(arcsine(0)).toBe(0);
  fc.assert(
    fc.property(fc.double({ min: -1, max: 1, noNaN: true }), (x) => {
      const exact = Math.asin(x);
      return Math.abs(arcsine(x) - exact) <= 1e-15 * Math.abs(exact) + 1e-300;
    }),
    { numRuns: some(5000) },
  );
});
