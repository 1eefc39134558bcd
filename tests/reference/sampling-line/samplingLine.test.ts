/** Worked examples of lines and settling in print, and lifts by hydrostatics, against the functions. */
import { describe, expect, test } from 'vitest';
import {
  flowForPressure,
  flush,
  frictionFactor,
  lineFlow,
  settlingVelocity,
  suctionLift,
  suctionLimits,
} from '../../../src/sampling/index.ts';
import { feetToMetres, inchHgToKPa, usGallonsToLitres } from '../../../src/units.ts';
import flushes from './flush.json' with { type: 'json' };
import laminarPipes from './laminarPipes.json' with { type: 'json' };
import lifts from './lifts.json' with { type: 'json' };
import nozzles from './nozzles.json' with { type: 'json' };
import reynoldsNumbers from './reynolds.json' with { type: 'json' };
import settling from './settling.json' with { type: 'json' };
import turbulentPipes from './turbulentPipes.json' with { type: 'json' };

interface Printed {
  readonly value: number;
  readonly abs?: number;
  readonly rel?: number;
}

function expectPrinted(actual: number, printed: Printed | undefined, what: string): void {
  if (printed === undefined) return;
  const tolerance = Math.max(printed.abs ?? 0, (printed.rel ?? 0) * Math.abs(printed.value));
  expect(tolerance).toBeGreaterThan(0);
  expect(Math.abs(actual - printed.value), `${what}: ${actual} against ${printed.value}`).toBeLessThanOrEqual(
    tolerance,
  );
}

const millilitresPerMin = 6e7;

describe('laminar pipes', () => {
  test.each(laminarPipes.cases)('$name', (given) => {
    const fluid = { mm2PerS: (given.mu / given.rho) * 1e6, kgPerM3: given.rho };
    const rise = given.L * Math.sin((given.degrees * Math.PI) / 180);
    const segments = [{ metres: given.L, boreMm: given.D * 1000, riseMetres: rise }];
    const expected: Record<string, Printed | undefined> = given.expected;
    if (given.dp !== undefined) {
      const driven = flowForPressure({ segments, kPa: given.dp / 1000, fluid });
      expect(driven.regime).toBe('laminar');
      expectPrinted(driven.mlPerMin / millilitresPerMin, expected.Q, 'flow');
    }
    if (given.Q !== undefined) {
      const line = lineFlow({ segments, mlPerMin: given.Q * millilitresPerMin, fluid });
      expect(line.regime).toBe('laminar');
      expectPrinted(line.segments[0]?.metresPerS ?? 0, expected.V, 'velocity');
      expectPrinted(line.reynolds, expected.Re, 'Reynolds number');
      expectPrinted(line.kPa * 1000, expected.dp, 'drop');
      expectPrinted(line.segments[0]?.wallShearPa ?? 0, expected.tau, 'wall shear');
    }
  });
});

describe('turbulent pipes', () => {
  test('Crane TP-410 problem 7-1: friction factor of a smooth pipe', () => {
    const given = turbulentPipes.cases[0];
    const found = frictionFactor(given?.reynolds ?? 0, given?.relativeRoughness);
    expect(found.regime).toBe('turbulent');
    expectPrinted(found.factor ?? 0, given?.expected.f, 'factor');
  });

  test('Crane TP-410 problem 7-13: fuel oil in steel pipe', () => {
    const given = turbulentPipes.cases[1] as Required<(typeof turbulentPipes.cases)[1]> & { expected: { dp: Printed } };
    const boreMm = given.bore * 1000;
    const fluid = { mm2PerS: given.mm2PerS, kgPerM3: given.rho };
    const mlPerMin = given.flow * millilitresPerMin;
    const pipe = { metres: given.metres, boreMm, roughnessMm: given.roughnessMm };
    const line = lineFlow({ segments: [pipe], mlPerMin, fluid });
    const factor = line.segments[0]?.frictionFactor ?? 0;
    expectPrinted(factor, given.expected.f, 'factor, against the two digits read from the chart');
    // with the factor of the chart, entered as a loss coefficient f L / D, the printed answer
    const k = (given.expected.f.value * given.metres) / given.bore;
    const asPrinted = lineFlow({ segments: [{ metres: 0, boreMm, k }], mlPerMin, fluid });
    expectPrinted(asPrinted.kPa * 1000, given.expected.dp, 'drop');
    // with Colebrook's factor, as near as the chart's two digits allow
    expectPrinted(line.kPa * 1000, { value: given.expected.dp.value, rel: 0.015 }, 'drop');
  });
});

test.each(nozzles.cases)('nozzle of $inch inch under $headFeet ft, Hydraulic Institute table 3.D.1', (given) => {
  const boreMm = given.inch * 25.4;
  const fluid = { mm2PerS: 1, kgPerM3: 1000 };
  const kPa = (1000 * 9.80665 * feetToMetres(given.headFeet)) / 1000;
  // a nozzle without loss turns all pressure into one velocity head
  const { mlPerMin } = flowForPressure({ segments: [{ metres: 0, boreMm, k: 1 }], kPa, fluid });
  const tolerance = { abs: given.abs, rel: 'rel' in given ? (given.rel ?? 0) : 0 };
  if (given.usGallonsPerMin !== undefined) {
    const gallons = mlPerMin / 1000 / usGallonsToLitres(1);
    expectPrinted(gallons, { value: given.usGallonsPerMin, ...tolerance }, 'US gal/min');
  } else {
    const line = lineFlow({ segments: [{ metres: 0, boreMm, k: 1 }], mlPerMin, fluid });
    const feetPerS = (line.segments[0]?.metresPerS ?? 0) / feetToMetres(1);
    expectPrinted(feetPerS, { value: given.feetPerS ?? 0, ...tolerance }, 'ft/s');
  }
});

describe('vacuum and vertical lift of oil', () => {
  test.each(lifts.cases)('$inchHg inHg: $feet ft', ({ inchHg, feet }) => {
    const standing = {
      segments: [{ metres: 10, boreMm: 8, riseMetres: feetToMetres(feet) }],
      mlPerMin: 0,
      fluid: { mm2PerS: 3, kgPerM3: lifts.kgPerM3 },
    };
    const limits = suctionLimits({ ...standing, inletLimitKPa: 101.325 - inchHgToKPa(inchHg) });
    expectPrinted(limits.liftMetres / feetToMetres(1), { value: feet, rel: 1e-5 }, 'greatest lift, ft');
    const vacuum = (101.325 - suctionLift(standing).inletKPa) / inchHgToKPa(1);
    expectPrinted(vacuum, { value: inchHg, rel: 1e-5 }, 'vacuum, inHg');
  });
});

test.each(settling.cases)('settling: $name', (given) => {
  const fluid = { mm2PerS: (given.mu / given.rho) * 1e6, kgPerM3: given.rho };
  const found = settlingVelocity({ size: given.d * 1e6, particleKgPerM3: given.particle, fluid });
  // the g that the case names
  const g = given.name.includes('9.81') ? 9.81 / 9.80665 : 1;
  expectPrinted(found * g, given.expected, 'm/s');
});

test.each(reynoldsNumbers.cases)('Reynolds number $expected', (given) => {
  const line = lineFlow({
    segments: [{ metres: 1, boreMm: given.boreMm }],
    mlPerMin: given.litresPerMin * 1000,
    fluid: { mm2PerS: given.mm2PerS, kgPerM3: 870 },
  });
  expectPrinted(line.reynolds, { value: given.expected, abs: given.abs }, 'Reynolds number');
});

test.each(flushes.cases)('$renewal of new oil after $meanTransits mean transit times', (given) => {
  const { seconds } = flush({ volumeMl: 50, mlPerMin: 100, renewal: given.renewal });
  expectPrinted(seconds / 30, { value: given.meanTransits, abs: given.abs }, 'mean transit times');
});
