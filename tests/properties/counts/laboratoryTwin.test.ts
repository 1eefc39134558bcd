/** Figures of the laboratory, once more in decimals of 50 digits. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { fieldsForPrecision, gravimetricLevel, microscopeCount } from '../../../src/counts/index.ts';
import { Exact } from '../../doubles.ts';
import { some } from '../../volume.ts';
import { normalQuantileTwin, poissonUpTo } from '../distributionTwins.ts';
import { agrees, between, d, near, short, spread, written } from '../twin.ts';

describe('by weighing', () => {
  const z = normalQuantileTwin(d('0.95'));
  const mg = short(50, 200, 3);

  test('the level from masses as a balance shows them: to the last digit; its uncertainty 1e-15', () => {
    const control = fc.option(fc.tuple(mg, mg), { nil: null });
    fc.assert(
      fc.property(mg, mg, control, short(1, 1000, 1), short(0.001, 1, 3), short(0, 0.5, 3), (...drawn) => {
        const [beforeMg, afterMg, pair, volumeMl, balanceMg, volume] = drawn;
        const weighing = { beforeMg, afterMg, volumeMl, balanceMg, volume };
        const found = gravimetricLevel(
          pair === null ? weighing : { ...weighing, controlBeforeMg: pair[0], controlAfterMg: pair[1] },
        );
        const rise = pair === null ? d(0) : written(pair[1]).minus(written(pair[0]));
        const gain = written(afterMg).minus(written(beforeMg)).minus(rise);
        const level = gain.times(1000).div(written(volumeMl));
        agrees(found.mgPerL, level, 3e-16);
        // each weighing has the same uncertainty, so the variance of the gain is theirs times their number
        const ofMass = d(pair === null ? 2 : 4)
          .sqrt()
          .times(written(balanceMg))
          .times(1000)
          .div(written(volumeMl));
        const standard = ofMass
          .pow(2)
          .plus(level.times(written(volume)).pow(2))
          .sqrt();
        agrees(found.standard, standard, 1e-15);
        agrees(found.expanded, standard.times(2), 1e-15);
        agrees(found.critical, ofMass.times(z), 1e-15);
        expect(found.detected).toBe(level.gt(ofMass.times(z)));
      }),
      { numRuns: some(1000) },
    );
  });
});

describe('by microscope', () => {
  test('the count, its share of the membrane and its scatter: 1e-15; its limits by the sums of Poisson: 1e-10', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 120 }),
        fc.integer({ min: 1, max: 400 }),
        between(0.01, 2),
        between(800, 2000),
        spread(1, 1000),
        spread(1, 100),
        fc.constantFrom(0.68, 0.9, 0.95, 0.99),
        (counted, fields, fieldMm2, effectiveMm2, volumeMl, dilution, confidence) => {
          const found = microscopeCount(
            { counted, fields, fieldMm2, effectiveMm2, volumeMl, dilution },
            { confidence },
          );
          const share = d(fields).times(d(fieldMm2)).div(d(effectiveMm2));
          const volume = d(volumeMl).times(share).div(d(dilution));
          agrees(found.share, share, 1e-15);
          agrees(found.volumeMl, volume, 1e-15);
          agrees(found.perMl, d(counted).div(volume), 1e-15);
          if (counted === 0) expect([found.relative, found.low]).toEqual([null, 0]);
          else agrees(found.relative as number, d(counted).pow('-0.5'), 3e-16);
          // the tails at the limits are half of what the confidence leaves; d tail / tail is d mean / mean x (mean - n)
          const tail = d(1).minus(d(confidence)).div(2);
          const steep = 1e-10 * (2 * counted + 20);
          agrees(poissonUpTo(counted, volume.times(d(found.high))).toNumber(), tail, steep);
          if (counted === 0) return;
          agrees(
            d(1)
              .minus(poissonUpTo(counted - 1, volume.times(d(found.low))))
              .toNumber(),
            tail,
            steep,
          );
        },
      ),
      { numRuns: some(300) },
    );
  });

  test('fields for a precision: the least number whose expected count is enough', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 5000 }),
        fc.integer({ min: 1, max: 500 }),
        short(0.001, 1, 3),
        (...drawn) => {
          const [counted, fields, relative] = drawn;
          const needed = d(fields).div(written(relative).pow(2)).div(counted);
          expect(fieldsForPrecision(counted, fields, relative)).toBe(Exact.max(1, needed.ceil()).toNumber());
        },
      ),
      { numRuns: some(2000) },
    );
    // a look of 50 particles in 8 fields sees 6.25 in each: 100 particles in 16 of them, no more
    near(fieldsForPrecision(50, 8, 0.1), d(16), 0);
  });
});
