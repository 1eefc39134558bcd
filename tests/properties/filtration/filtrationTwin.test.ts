/**
 * Filtration at 50 digits: the mass balance written once more in decimals, over the same doubles, so that what remains
 * is the library's own rounding. And the boundary between minutes and never, on tanks whose steady state is a whole
 * number by construction.
 */
import type { Decimal } from 'decimal.js';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  betaOfEfficiency,
  betaToHold,
  betaToReach,
  cleanUp,
  cleanUpCurve,
  efficiencyOfBeta,
  flowToHold,
  flowToReach,
  steadyState,
  steadyStateCounts,
  type Tank,
  timeToReach,
  timeToReachCode,
} from '../../../src/filtration/index.ts';
import { some } from '../../volume.ts';
import { d, spread } from '../twin.ts';

const runs = { numRuns: some(2000) };

const whole = (max: number) => fc.integer({ min: 1, max });

const tanks: fc.Arbitrary<Required<Tank>> = fc.record({
  litres: spread(1, 1e4),
  litresPerMin: spread(0.1, 1e3),
  beta: spread(1.001, 1e6),
  perMl: spread(0.1, 1e6),
  ingressionPerMin: fc.oneof(fc.constant(0), spread(1, 1e8)),
});

const efficiency = (beta: number) => d(1).minus(d(1).div(d(beta)));
/** Tank volumes cleaned per minute, and the count that comes in per minute. */
const rate = (tank: Required<Tank>) => d(tank.litresPerMin).times(efficiency(tank.beta)).div(d(tank.litres));
const rise = (tank: { litres: number; ingressionPerMin?: number }) =>
  d(tank.ingressionPerMin ?? 0).div(d(tank.litres).times(1000));

/**
 * The count after x cleaned volumes, of which each took as long as another, with so much come in meanwhile; and its
 * slope over x.
 */
function countAndSlope(perMl: number, fresh: Decimal, x: Decimal): [Decimal, Decimal] {
  const left = x.neg().exp();
  const share = d(1).minus(left).div(x);
  return [
    left.times(d(perMl)).plus(fresh.times(share)),
    left
      .times(perMl)
      .neg()
      .plus(fresh.times(left.minus(share)).div(x)),
  ];
}

/** How far, as a share, x is from where the count is the target: one step of Newton's method. */
function offTarget(perMl: number, fresh: Decimal, x: Decimal, target: number): number {
  const [count, slope] = countAndSlope(perMl, fresh, x);
  return count.minus(d(target)).div(slope).div(x).abs().toNumber();
}

describe('at 50 digits', () => {
  test('the count after a time: 1e-15 (2 + kt)', () => {
    fc.assert(
      fc.property(tanks, spread(0.01, 1e4), (tank, minutes) => {
        const x = rate(tank).times(d(minutes));
        // beyond, the start has sunk to what a double rounds away
        fc.pre(x.lt(600));
        const [exact] = countAndSlope(tank.perMl, rise(tank).times(d(minutes)), x);
        const off = exact
          .div(d(cleanUp(tank, minutes)))
          .minus(1)
          .abs();
        expect(off.div(x.plus(2)).toNumber()).toBeLessThan(1e-15);
      }),
      runs,
    );
  });

  test('the steady state: 1e-15', () => {
    fc.assert(
      fc.property(tanks, (tank) => {
        fc.pre(tank.ingressionPerMin > 0);
        const exact = rise(tank).div(rate(tank));
        expect(
          exact
            .div(d(steadyState(tank)))
            .minus(1)
            .abs()
            .toNumber(),
        ).toBeLessThan(1e-15);
      }),
      runs,
    );
  });

  test('ratio of an efficiency, and back', () => {
    fc.assert(
      fc.property(fc.oneof(spread(1e-12, 0.5), fc.double({ min: 0, max: 0.99999, noNaN: true })), (share) => {
        const beta = betaOfEfficiency(share);
        const exact = d(1).div(d(1).minus(`${share}`));
        expect(exact.div(d(beta)).minus(1).abs().toNumber()).toBeLessThan(3e-16 + 1.2e-16 * beta);
        // a ratio near 1 has no more digits for a small share
        expect(Math.abs(efficiencyOfBeta(beta) - share)).toBeLessThanOrEqual(3e-16);
      }),
      runs,
    );
  });

  /**
   * Targets everywhere, and those that need almost no filter: just below the start, and just below what it would be
   * without one.
   */
  const needs = fc
    .tuple(
      tanks,
      spread(0.1, 1e4),
      fc.oneof(
        fc.record({ of: fc.constant('start' as const), share: spread(1e-12, 1) }),
        fc.record({ of: fc.constant('unfiltered' as const), share: spread(1e-12, 1) }),
        fc.record({ of: fc.constant('any' as const), share: spread(1e-6, 1) }),
      ),
    )
    .map(([tank, minutes, { of, share }]) => {
      const fresh = (tank.ingressionPerMin / (1000 * tank.litres)) * minutes;
      const target =
        of === 'start'
          ? tank.perMl * (1 - share)
          : of === 'unfiltered'
            ? (tank.perMl + fresh) * (1 - share)
            : tank.perMl * share;
      return { tank, minutes, target: Math.max(target, 1e-9) };
    });

  test('the flow to reach a target: 1e-13', () => {
    let worst = 0;
    let asked = 0;
    fc.assert(
      fc.property(needs, ({ tank, minutes, target }) => {
        const fresh = rise(tank).times(d(minutes));
        const flow = flowToReach(tank, target, minutes) as number;
        expect(flow === 0).toBe(fresh.plus(d(tank.perMl)).lte(d(target)));
        if (flow === 0) return;
        asked += 1;
        worst = Math.max(
          worst,
          offTarget(tank.perMl, fresh, rate({ ...tank, litresPerMin: flow }).times(d(minutes)), target),
        );
      }),
      runs,
    );
    expect(asked).toBeGreaterThan(some(1500, 75));
    expect(worst).toBeLessThan(1e-13);
  });

  test('the ratio to reach a target: 1e-13 of the efficiency, and the last digit of the ratio', () => {
    let asked = 0;
    fc.assert(
      fc.property(needs, ({ tank, minutes, target }) => {
        const beta = betaToReach(tank, target, minutes);
        if (beta === null || beta === 1) return;
        asked += 1;
        const off = offTarget(
          tank.perMl,
          rise(tank).times(d(minutes)),
          rate({ ...tank, beta }).times(d(minutes)),
          target,
        );
        expect(off).toBeLessThan(1e-13 + 2.3e-16 / (beta - 1));
      }),
      runs,
    );
    expect(asked).toBeGreaterThan(some(400, 20));
  });

  test.each([1e-6, 1e-7, 1e-8, 1e-9, 1e-10, 1e-11, 1e-12])('a target %d below the start', (share) => {
    for (const ingressionPerMin of [0, 1e3, 1e7]) {
      const tank = { litres: 400, litresPerMin: 40, beta: 75, perMl: 5000, ingressionPerMin };
      const target = 5000 * (1 - share);
      const fresh = rise(tank).times(30);
      const flow = flowToReach(tank, target, 30) as number;
      expect(offTarget(5000, fresh, rate({ ...tank, litresPerMin: flow }).times(30), target)).toBeLessThan(1e-13);
      if (ingressionPerMin > 0) continue;
      const exact = d(5000).div(d(target)).ln();
      expect(d(flow).times(efficiency(75)).times(30).div(400).div(exact).minus(1).abs().toNumber()).toBeLessThan(1e-14);
    }
  });
});

describe('a tank that starts clean, and the filter must pass more than its volume', () => {
  test.each([0.5, 0.99, 1, 1.01, 1.2, 1.4, 1.55])('%d tank volumes', (x) => {
    for (const perMl of [0, 1]) {
      const tank = { litres: 400, litresPerMin: 40, beta: 2, perMl, ingressionPerMin: 2e6 };
      const fresh = rise(tank).times(60);
      const target = (countAndSlope(perMl, fresh, d(x))[0] as Decimal).toNumber();
      const flow = flowToReach(tank, target, 60) as number;
      expect(flow).toBeCloseTo((x * 400) / 60 / 0.5, 9);
      expect(offTarget(perMl, fresh, rate({ ...tank, litresPerMin: flow }).times(60), target)).toBeLessThan(1e-13);
    }
  });
});

describe('the boundary between minutes and never', () => {
  /** Whole figures of which the steady state is a whole number: `times` x `beta`. */
  const settled = fc
    .record({
      litres: whole(2000),
      litresPerMin: whole(200),
      beta: fc.integer({ min: 2, max: 1000 }),
      times: whole(100),
    })
    .map(({ litres, litresPerMin, beta, times }) => ({
      tank: { litres, litresPerMin, beta, ingressionPerMin: 1000 * litresPerMin * (beta - 1) * times },
      limit: times * beta,
    }));
  const codeOf = (tank: Omit<Required<Tank>, 'perMl'>, perMl: number, upTo: number) => {
    const { beta, ingressionPerMin, ...loop } = tank;
    const counts = { sizing: 'iso11171' as const, sizes: [4], perMl: [perMl] };
    const band = { from: 4, to: null, above: 0, upTo };
    const bySize = { ...loop, counts, beta: [beta], ingressionPerMin: [ingressionPerMin] };
    return { bySize, time: timeToReachCode(bySize, { sizing: 'iso11171', bands: [band] }) };
  };

  test('the steady state is the whole number, and is never reached from above nor left from below', () => {
    fc.assert(
      fc.property(settled, fc.double({ min: 0.01, max: 0.99, noNaN: true }), ({ tank, limit }, share) => {
        const above = { ...tank, perMl: limit / share };
        const below = { ...tank, perMl: limit * share };
        expect(steadyState(above)).toBe(limit);
        expect(timeToReach(above, limit)).toBeNull();
        expect(timeToReach(above, limit * (1 - 1e-9))).toBeNull();
        expect(timeToReach(above, limit * (1 + 1e-9))).toBeGreaterThan(0);
        expect(codeOf(tank, above.perMl, limit).time).toMatchObject({ minutes: null, heldUntil: null });
        expect(codeOf(tank, below.perMl, limit).time).toMatchObject({ minutes: 0, heldUntil: null });
        expect(codeOf(tank, below.perMl, limit * (1 - 1e-9)).time.heldUntil).toBeGreaterThan(0);
        const { bySize } = codeOf(tank, below.perMl, limit);
        const long = (1000 * tank.litres) / tank.litresPerMin;
        expect(cleanUp(below, long)).toBe(limit);
        expect(cleanUp(above, long)).toBe(limit);
        expect(steadyStateCounts(bySize).perMl).toEqual([limit]);
        for (const { counts } of cleanUpCurve(bySize, long, 20)) {
          expect(counts.perMl[0]).toBeLessThanOrEqual(limit * (1 + 4e-16));
        }
      }),
      runs,
    );
  });

  test('the examples that rounding once decided', () => {
    const tank = { litres: 200, litresPerMin: 35, beta: 5, perMl: 160, ingressionPerMin: 2240000 };
    expect(steadyState(tank)).toBe(80);
    expect(timeToReach(tank, 80)).toBeNull();
    const other = { litres: 30, litresPerMin: 41, beta: 4, ingressionPerMin: 39975000 };
    expect(codeOf(other, 650, 1300).time).toEqual({
      minutes: 0,
      heldUntil: null,
      slowestSize: null,
      uncertain: [],
      sizes: [{ size: 4, upTo: 1300, minutes: 0, heldUntil: null }],
    });
  });

  test('figures with decimals: a target that is the steady state as near as a double comes is never reached', () => {
    const decimals = fc.record({ flow: whole(3000), ratio: fc.integer({ min: 11, max: 9999 }), perMin: whole(1e8) });
    fc.assert(
      fc.property(decimals, ({ flow, ratio, perMin }) => {
        const tank = { litres: 400, litresPerMin: flow / 10, beta: ratio / 10, ingressionPerMin: perMin / 10 };
        const exact = d(perMin)
          .times(ratio)
          .div(d(flow).times(100).times(d(ratio).minus(10)))
          .div(10)
          .toNumber();
        expect(timeToReach({ ...tank, perMl: 1e9 }, exact)).toBeNull();
        expect(codeOf(tank, 0, exact).time.heldUntil).toBeNull();
      }),
      runs,
    );
  });

  test('what holds a count holds it: the steady state is not above it, and from above it is never reached', () => {
    fc.assert(
      fc.property(tanks, spread(0.1, 1e5), (tank, target) => {
        fc.pre(tank.ingressionPerMin > 0);
        const flow = flowToHold(tank, target) as number;
        expect(steadyState({ ...tank, litresPerMin: flow })).toBeLessThanOrEqual(target);
        expect(timeToReach({ ...tank, litresPerMin: flow, perMl: 2 * target }, target)).toBeNull();
        const beta = betaToHold(tank, target);
        if (beta === null) {
          expect(steadyState({ ...tank, beta: Infinity })).toBeGreaterThanOrEqual(target * (1 - 1e-15));
          return;
        }
        expect(steadyState({ ...tank, beta })).toBeLessThanOrEqual(target);
        // beta - 1 is a difference of doubles: nearer to 1 no ratio holds the target to twelve digits
        if (beta > 1.001) expect(timeToReach({ ...tank, beta, perMl: 2 * target }, target)).toBeNull();
        else expect(steadyState({ ...tank, beta })).toBeGreaterThan(target * (1 - 5e-16 / (beta - 1)));
      }),
      runs,
    );
  });
});
