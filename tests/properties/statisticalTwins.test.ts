/**
 * Figures with limits, and fits, a second time: by the distributions of a statistics library, by sums in decimals of 50
 * digits, by the definition written out.
 */
import gammainc from '@stdlib/math-base-special-gammainc';
import binomialCdf from '@stdlib/stats-base-dists-binomial-cdf';
import gammaQuantile from '@stdlib/stats-base-dists-gamma-quantile';
import type { Decimal } from 'decimal.js';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { subtractBlank } from '../../src/codes/index.ts';
import { countBounds, cumulativeCounts, gravimetricLevel, microscopeCount, sizeAt } from '../../src/counts/index.ts';
import { estimateIngression } from '../../src/filtration/index.ts';
import { countingConfidence, flush } from '../../src/sampling/index.ts';
import { Exact, exactly as exact } from '../doubles.ts';
import { some } from '../volume.ts';

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const runs = { numRuns: some(500) };

function agrees(found: number, twin: Decimal | number, relative: number, scale = twin): void {
  const most = exact(relative).times(Exact.abs(typeof scale === 'number' ? exact(scale) : scale));
  const off = exact(found)
    .minus(typeof twin === 'number' ? exact(twin) : twin)
    .abs();
  if (off.gt(most)) expect.fail(`${found} for ${twin}`);
}

/** Limits of Garwood as quantiles of the gamma distribution. */
const limits = (counted: number, confidence = 0.95) => {
  const tail = (1 - confidence) / 2;
  return {
    low: counted === 0 ? 0 : gammaQuantile(tail, counted, 1),
    high: gammaQuantile(1 - tail, counted + 1, 1),
  };
};
const few = fc.integer({ min: 0, max: 400 });
const confidences = fc.constantFrom(0.9, 0.95, 0.99);

test('countBounds: the least of the smaller sizes and the most of the larger ones', () => {
  const steps = fc.array(fc.tuple(fc.integer({ min: 1, max: 9 }), fc.integer({ min: 0, max: 3 })), { minLength: 1 });
  fc.assert(
    fc.property(steps, fc.integer({ min: 1, max: 120 }), (drawn, size) => {
      let [at, count] = [0, drawn.length * 3];
      const pairs = drawn.map(([up, down]) => {
        at += up;
        count -= down;
        return [at, count] as const;
      });
      const smaller = pairs.filter(([measured]) => measured <= size).map(([, perMl]) => perMl);
      const larger = pairs.filter(([measured]) => measured >= size).map(([, perMl]) => perMl);
      expect(countBounds(cumulativeCounts(Object.fromEntries(pairs)), size)).toEqual({
        above: Math.max(0, ...larger),
        upTo: smaller.length === 0 ? null : Math.min(...smaller),
      });
    }),
    runs,
  );
});

test('sizeAt: on the straight line of two counts, and where the larger one is zero', () => {
  fc.assert(
    fc.property(
      between(1, 20),
      between(1.1, 5),
      between(10, 1e5),
      between(0.01, 0.9),
      between(0.001, 0.999),
      (...of) => {
        const [from, growth, most, fall, share] = of;
        const to = from * growth;
        const least = most * fall;
        const target = least + (most - least) * share;
        const along = exact(most).div(target).ln().div(exact(most).div(least).ln());
        const size = sizeAt(cumulativeCounts({ [from]: most, [to]: least }), target);
        agrees(size, exact(from).times(exact(to).div(from).pow(along)), 1e-12);
        // towards a zero the count falls in proportion to the logarithm of size
        const left = exact(most * share).div(most);
        const size0 = sizeAt(cumulativeCounts({ [from]: most, [to]: 0 }), most * share);
        agrees(size0, exact(to).times(exact(from).div(to).pow(left)), 1e-12);
      },
    ),
    runs,
  );
});

test('gravimetricLevel: masses over volume, and the variances of two or four weighings', () => {
  const masses = fc.tuple(between(50, 100), between(-1, 20), between(50, 100), between(-1, 1));
  fc.assert(
    fc.property(masses, between(10, 500), between(0.001, 0.2), between(0, 0.1), fc.boolean(), (...of) => {
      const [[beforeMg, gain, controlBeforeMg, more], volumeMl, balanceMg, volume, controlled] = of;
      const [afterMg, controlAfterMg] = [beforeMg + gain, controlBeforeMg + more];
      const control = controlled ? { controlBeforeMg, controlAfterMg } : {};
      const found = gravimetricLevel({ beforeMg, afterMg, ...control, volumeMl, balanceMg, volume });
      const lost = controlled ? exact(controlAfterMg).minus(controlBeforeMg) : exact(0);
      const mgPerL = exact(afterMg).minus(beforeMg).minus(lost).times(1000).div(volumeMl);
      const ofMass = exact(balanceMg)
        .pow(2)
        .times(controlled ? 4 : 2)
        .sqrt()
        .times(1000)
        .div(volumeMl);
      const standard = ofMass.pow(2).plus(mgPerL.times(volume).pow(2)).sqrt();
      // masses of 100 mg leave a difference with an error of their last digits
      agrees(found.mgPerL, mgPerL, 1e-13, exact(1e5).div(volumeMl));
      agrees(found.standard, standard, 1e-11);
      agrees(found.expanded, standard.times(2), 1e-11);
      // half the square of a normal variable is a gamma variable of shape 1/2
      agrees(found.critical, ofMass.times(Math.sqrt(2 * gammaQuantile(0.9, 0.5, 1))), 1e-10);
      expect(found.detected).toBe(found.mgPerL > found.critical);
    }),
    runs,
  );
});

test('microscopeCount: by area, with the limits of a gamma distribution', () => {
  const fields = fc.integer({ min: 1, max: 50 });
  fc.assert(
    fc.property(
      few,
      fields,
      between(0.1, 5),
      between(300, 1500),
      between(1, 200),
      between(1, 20),
      confidences,
      (...of) => {
        const [counted, number, fieldMm2, effectiveMm2, volumeMl, dilution, confidence] = of;
        const given = { counted, fields: number, fieldMm2, effectiveMm2, volumeMl, dilution };
        const found = microscopeCount(given, { confidence });
        const share = exact(number).times(fieldMm2).div(effectiveMm2);
        const counts = share.times(volumeMl).div(dilution);
        agrees(found.share, share, 1e-15);
        agrees(found.volumeMl, counts, 1e-15);
        agrees(found.perMl, exact(counted).div(counts), 1e-15);
        const { low, high } = limits(counted, confidence);
        agrees(found.low, exact(low).div(counts), 1e-9);
        agrees(found.high, exact(high).div(counts), 1e-9);
        if (counted === 0) expect(found.relative).toBeNull();
        else agrees(found.relative as number, exact(1).div(exact(counted).sqrt()), 1e-15);
      },
    ),
    runs,
  );
});

test('subtractBlank: limits from those of both counts, and the exact test of a small blank', () => {
  const volumes = between(1, 100);
  fc.assert(
    fc.property(
      few,
      fc.integer({ min: 0, max: 19 }),
      volumes,
      volumes,
      confidences,
      (n, blank, ofN, ofBlank, confidence) => {
        const found = subtractBlank(
          { counted: n, volumeMl: ofN },
          { counted: blank, volumeMl: ofBlank },
          { confidence },
        );
        const [first, second] = [limits(n, confidence), limits(blank, confidence)];
        const perMl = exact(n).div(ofN).minus(exact(blank).div(ofBlank));
        const apart = (a: number, b: number) =>
          exact(a - n)
            .div(ofN)
            .pow(2)
            .plus(
              exact(b - blank)
                .div(ofBlank)
                .pow(2),
            )
            .sqrt();
        const scale = 1 + n + blank;
        agrees(found.perMl, perMl, 1e-15, scale);
        agrees(found.low, perMl.minus(apart(first.low, second.high)), 1e-9, scale);
        agrees(found.high, perMl.plus(apart(first.high, second.low)), 1e-9, scale);
        // given all particles, those of the sample are binomial where both are equally dirty: n or more of them
        const chance = n === 0 ? 1 : 1 - binomialCdf(n - 1, n + blank, ofN / (ofN + ofBlank));
        if (Math.abs(chance - 0.05) > 1e-9) expect(found.detected).toBe(chance < 0.05);
      },
    ),
    runs,
  );
});

test('countingConfidence: the Poisson distribution as an incomplete gamma function', () => {
  const settings = fc.tuple(between(0.01, 10), between(1, 100), between(0.5, 60));
  fc.assert(
    fc.property(settings, fc.integer({ min: 1, max: 100 }), confidences, (setting, particles, confidence) => {
      const [perMl, mlPerMin, seconds] = setting;
      const found = countingConfidence({ perMl, mlPerMin, seconds }, { particles, confidence });
      const volume = exact(mlPerMin).times(seconds).div(60);
      const expected = volume.times(perMl);
      agrees(found.volumeMl, volume, 1e-15);
      agrees(found.expected, expected, 1e-15);
      agrees(found.relativeError as number, exact(1).div(expected.sqrt()), 1e-15);
      agrees(found.chance, gammainc(expected.toNumber(), particles, true, false), 1e-12, 1);
      const { low, high } = limits(Math.floor(expected.toNumber()), confidence);
      agrees(found.low, exact(low).div(volume), 1e-9);
      agrees(found.high, exact(high).div(volume), 1e-9);
    }),
    runs,
  );
});

test('flush: the share of new oil at the end of a laminar line', () => {
  fc.assert(
    fc.property(between(1, 1e4), between(1, 1e3), between(0.01, 0.999), (volumeMl, mlPerMin, renewal) => {
      const found = flush({ volumeMl, mlPerMin, renewal });
      const mean = exact(volumeMl).times(60).div(mlPerMin);
      const old = exact(1).minus(renewal).sqrt();
      agrees(found.seconds, mean.div(old.times(2)), 1e-13);
      agrees(found.ml, exact(volumeMl).div(old.times(2)), 1e-13);
      agrees(found.firstSeconds, mean.div(2), 1e-15);
      agrees(found.remainingMl, old.times(volumeMl).div(2), 1e-13);
    }),
    runs,
  );
});

test('estimateIngression: least squares on the two terms of the mass balance', () => {
  const readings = fc.array(between(100, 1e4), { minLength: 3, maxLength: 8 });
  fc.assert(
    fc.property(readings, between(50, 1000), between(5, 100), between(1.5, 100), between(2, 20), (...of) => {
      const [counts, litres, litresPerMin, beta, apart] = of;
      const given = counts.map((perMl, i) => ({ minutes: 5 + i * apart, perMl }));
      const found = estimateIngression({ litres, litresPerMin, beta }, given);
      const rate = exact(litresPerMin)
        .div(litres)
        .times(exact(1).minus(exact(1).div(beta)));
      const decay = given.map(({ minutes }) => rate.times(exact(minutes).minus(5)).neg().exp());
      const gain = decay.map((left) => exact(1).minus(left).div(rate).div(litres).div(1000));
      const sum = (a: readonly Decimal[], b: readonly Decimal[]) =>
        a.reduce((all, one, i) => all.plus(one.times(b[i] as Decimal)), exact(0));
      const y = counts.map(exact);
      const [aa, ab, bb] = [sum(decay, decay), sum(decay, gain), sum(gain, gain)];
      const determinant = aa.times(bb).minus(ab.pow(2));
      const start = sum(decay, y).times(bb).minus(sum(gain, y).times(ab)).div(determinant);
      const ingression = sum(gain, y).times(aa).minus(sum(decay, y).times(ab)).div(determinant);
      const rest = y.map((count, i) =>
        count.minus(start.times(decay[i] as Decimal)).minus(ingression.times(gain[i] as Decimal)),
      );
      const variance = sum(rest, rest).div(counts.length - 2);
      const error = variance.times(aa).div(determinant).sqrt();
      // what the determinant lost of its digits, the figures have lost too
      const lost = 1e-13 * aa.times(bb).div(determinant).toNumber();
      agrees(found.perMlAtStart, start, lost, 1e4);
      agrees(found.ingressionPerMin, ingression, lost, 1e4 * litres * 1000);
      agrees(found.scatterPerMl, variance.sqrt(), 1e-9 + lost, 1e4);
      agrees(found.standardError, error, 1e-9 + lost, error.plus(1));
    }),
    runs,
  );
});
