/** Ratios, clean-up at several sizes, codes reached and ingression, once more in decimals of 50 digits. */
import type { Decimal } from 'decimal.js';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  cleanUpCounts,
  cleanUpCurve,
  estimateIngression,
  filtrationRatios,
  steadyStateCounts,
  type TankBySize,
  timeToReachCode,
} from '../../../src/filtration/index.ts';
import { Exact } from '../../doubles.ts';
import { some } from '../../volume.ts';
import { solved } from '../splineTwin.ts';
import { agrees, between, d, near, spread, sum } from '../twin.ts';

const at = <T>(list: readonly T[], i: number): T => list[i] as T;
const sizes = [4, 6, 14];
const rising = (list: number[]) => [...list].sort((a, b) => a - b);
const three = (one: fc.Arbitrary<number>) => fc.tuple(one, one, one).map(rising);

const tanks: fc.Arbitrary<Required<TankBySize>> = fc.record({
  litres: spread(1, 1e4),
  litresPerMin: spread(0.1, 1e3),
  beta: three(fc.oneof({ weight: 9, arbitrary: spread(1.01, 1e5) }, fc.constantFrom(1, Infinity))),
  counts: three(spread(0.1, 1e6)).map((perMl) => ({ sizing: 'iso11171' as const, sizes, perMl: perMl.reverse() })),
  ingressionPerMin: three(fc.oneof(fc.constant(0), spread(1, 1e8))).map((list) => list.reverse()),
});

/** The tank at one size: volumes cleaned per minute, what comes in per mL and minute, and where it settles. */
function single(tank: Required<TankBySize>, i: number) {
  const beta = at(tank.beta, i);
  const efficiency = beta === Infinity ? d(1) : d(1).minus(d(1).div(d(beta)));
  const rate = d(tank.litresPerMin).times(efficiency).div(d(tank.litres));
  const rise = d(at(tank.ingressionPerMin, i)).div(d(tank.litres).times(1000));
  return { start: d(at(tank.counts.perMl, i)), rate, rise, settled: rate.isZero() ? null : rise.div(rate) };
}

/** The solution of dC/dt = rise - rate C. */
function countAfter(tank: Required<TankBySize>, i: number, minutes: Decimal): Decimal {
  const { start, rate, rise, settled } = single(tank, i);
  if (settled === null) return start.plus(rise.times(minutes));
  return settled.plus(start.minus(settled).times(rate.times(minutes).neg().exp()));
}

/** How long from the start to a count on the way to where it settles; null where the way does not lead there. */
function minutesBetween(tank: Required<TankBySize>, i: number, count: number): Decimal | null {
  const { start, rate, rise, settled } = single(tank, i);
  const target = d(count);
  if (settled === null) return rise.isZero() || target.lt(start) ? null : target.minus(start).div(rise);
  const share = start.minus(settled).div(target.minus(settled));
  return share.gte(1) ? share.ln().div(rate) : null;
}

test('the filtration ratio is the double nearest to the quotient', () => {
  fc.assert(
    fc.property(three(spread(1e-6, 1e6)), three(fc.oneof(fc.constant(0), spread(1e-6, 1e6))), (before, behind) => {
      const counts = (perMl: number[]) => ({ sizing: 'iso11171' as const, sizes, perMl: [...perMl].reverse() });
      const [upstream, downstream] = [counts(before), counts(behind)];
      const twins = sizes.map((size, i) => {
        const [more, fewer] = [at(upstream.perMl, i), at(downstream.perMl, i)];
        return { size, beta: fewer === 0 ? null : d(more).div(d(fewer)).toNumber() };
      });
      expect(filtrationRatios(upstream, downstream)).toEqual(twins);
    }),
    { numRuns: some(1000) },
  );
});

describe('at several sizes', () => {
  const close = (found: number, tank: Required<TankBySize>, i: number, minutes: Decimal) => {
    const x = single(tank, i).rate.times(minutes).toNumber();
    // beyond, the start has sunk to what a double rounds away
    if (x < 600) agrees(found, countAfter(tank, i, minutes), 1e-15 * (2 + x));
    else agrees(found, at(tank.ingressionPerMin, i) === 0 ? d(found) : (single(tank, i).settled as Decimal), 1e-15);
  };

  test('the counts after a time, as `cleanUp`: 1e-15 (2 + kt), and along a curve', () => {
    fc.assert(
      fc.property(tanks, spread(0.01, 1e4), fc.integer({ min: 1, max: 5 }), (tank, minutes, steps) => {
        cleanUpCounts(tank, minutes).perMl.forEach((count, i) => {
          close(count, tank, i, d(minutes));
        });
        const curve = cleanUpCurve(tank, minutes, steps);
        expect(curve).toHaveLength(steps + 1);
        curve.forEach((point, step) => {
          agrees(point.minutes, d(minutes).times(step).div(steps), 3e-16);
          point.counts.perMl.forEach((count, i) => {
            close(count, tank, i, d(point.minutes));
          });
        });
      }),
      { numRuns: some(150, 15) },
    );
  });

  test('where the counts settle: 1e-15', () => {
    fc.assert(
      fc.property(tanks, (tank) => {
        fc.pre(tank.beta.every((beta, i) => beta > 1 || at(tank.ingressionPerMin, i) === 0));
        steadyStateCounts(tank).perMl.forEach((count, i) => {
          const { settled, start } = single(tank, i);
          // without filter and ingression all stays, which must not be more than at the smaller size
          const stays = settled ?? (i === 0 ? start : Exact.min(start, d(at(steadyStateCounts(tank).perMl, i - 1))));
          agrees(count, stays, 1e-15);
        });
      }),
      { numRuns: some(1000) },
    );
  });

  test('when a code is reached and left: the rounding of the figures, more where a limit is near to settling', () => {
    const reached = { never: 0, left: 0, held: 0 };
    fc.assert(
      fc.property(tanks, three(spread(0.01, 1e6)), (tank, limits) => {
        const bands = limits.reverse().map((upTo, i) => ({ from: at(sizes, i), to: null, above: 0, upTo }));
        const found = timeToReachCode(tank, { sizing: 'iso11171', bands });
        // a limit within 1e-12 of where a count settles is where it settles
        const isApart = (limit: number, i: number) => {
          const { settled } = single(tank, i);
          return (
            settled === null ||
            settled
              .minus(limit)
              .abs()
              .gt(1e-11 * limit)
          );
        };
        fc.pre(limits.every(isApart));
        const twins = limits.map((limit, i) => {
          const { start, rate, rise, settled } = single(tank, i);
          const to = minutesBetween(tank, i, limit);
          const isClean = start.lte(d(limit));
          const rises = settled === null || settled.gt(d(limit));
          const gap = settled === null ? d(1) : d(limit).minus(settled).abs();
          // a rounding of limit and steady state, over what lies between them, and over the pace there
          const pace = settled === null ? rise : gap.times(rate);
          const rounded = pace.isZero()
            ? d(0)
            : d(limit)
                .plus(settled ?? start)
                .times('4e-16')
                .div(pace);
          return { arrives: isClean ? d(0) : to, leaves: isClean && rises ? to : null, rounded: rounded.toNumber() };
        });
        twins.forEach(({ arrives, leaves, rounded }, i) => {
          const one = at(found.sizes, i);
          for (const [minutes, twin] of [
            [one.minutes, arrives],
            [one.heldUntil, leaves],
          ] as const) {
            expect(minutes === null).toBe(twin === null);
            if (twin !== null) near(minutes as number, twin, 2e-15 * twin.toNumber() + rounded);
          }
        });
        const last = found.sizes.reduce((most, { minutes }) => Math.max(most, minutes ?? Infinity), 0);
        const first = found.sizes.reduce((least, { heldUntil }) => Math.min(least, heldUntil ?? Infinity), Infinity);
        const never = last === Infinity || first < last;
        reached[never ? 'never' : first < Infinity ? 'left' : 'held'] += 1;
        expect(found).toMatchObject({
          minutes: never ? null : last,
          heldUntil: never || first === Infinity ? null : first,
        });
        const { slowestSize } = found;
        const decides = found.sizes.find(({ size }) => size === slowestSize);
        if (last === 0) expect(slowestSize).toBeNull();
        else if (last === Infinity) expect(decides?.minutes).toBeNull();
        else if (never) expect(decides?.heldUntil).toBe(first);
        else expect(decides?.minutes).toBe(last);
      }),
      { numRuns: some(2000) },
    );
    expect(Math.min(reached.never, reached.left, reached.held)).toBeGreaterThan(some(50, 3));
  });
});

describe('ingression', () => {
  const readings = fc.array(fc.tuple(between(0, 300), between(-0.05, 0.05)), { minLength: 3, maxLength: 20 });

  test('by least squares, in decimals: 1e-15 of the figures, times what their dependence costs', () => {
    let tried = 0;
    fc.assert(
      fc.property(tanks, readings, (tank, drawn) => {
        const [litres, litresPerMin, beta] = [tank.litres, tank.litresPerMin, at(tank.beta, 0)];
        const points = drawn.map(([minutes, noise]) => {
          return { minutes, perMl: countAfter(tank, 0, d(minutes)).toNumber() * (1 + noise) };
        });
        const { rate } = single(tank, 0);
        const first = Exact.min(...points.map(({ minutes }) => d(minutes)));
        const y = points.map(({ perMl }) => d(perMl));
        const decay = points.map(({ minutes }) => d(minutes).minus(first).times(rate).neg().exp());
        const gain = points.map(({ minutes }, i) => {
          const time = rate.isZero() ? d(minutes).minus(first) : d(1).minus(at(decay, i)).div(rate);
          return time.div(d(litres).times(1000));
        });
        const dot = (a: readonly Decimal[], b: readonly Decimal[]) => sum(a.map((one, i) => one.times(at(b, i))));
        const [aa, ab, bb] = [dot(decay, decay), dot(decay, gain), dot(gain, gain)];
        const determinant = aa.times(bb).minus(ab.pow(2));
        fc.pre(determinant.gt(aa.times(bb).times('1e-6')));
        tried += 1;
        const [start, ingression] = solved([
          [aa, ab, dot(decay, y)],
          [ab, bb, dot(gain, y)],
        ]) as [Decimal, Decimal];
        const rest = y.map((one, i) => {
          return one.minus(start.times(at(decay, i))).minus(ingression.times(at(gain, i)));
        });
        const variance = dot(rest, rest).div(y.length - 2);
        const found = estimateIngression({ litres, litresPerMin, beta }, points);
        const dependence = aa.times(bb).div(determinant).toNumber();
        const size = dot(y, y).sqrt();
        const by = 1e-14 * dependence;
        near(found.perMlAtStart, start, by * size.div(aa.sqrt()).toNumber());
        near(found.ingressionPerMin, ingression, by * size.div(bb.sqrt()).toNumber());
        // what is left of readings that nearly fit has lost the digits of the readings
        near(found.scatterPerMl, variance.sqrt(), by * size.toNumber());
        const standardError = variance.times(aa).div(determinant).sqrt();
        if (found.standardError === null) expect(found.scatterPerMl).toBeLessThanOrEqual(1e-9 * size.toNumber());
        else near(found.standardError, standardError, by * aa.div(determinant).sqrt().times(size).toNumber());
      }),
      { numRuns: some(150, 30) },
    );
    expect(tried).toBeGreaterThan(some(40, 8));
  });
});
