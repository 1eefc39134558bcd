/** Short formulas again in decimals of 50 digits, over their ranges: each agrees to a few units of the last digits. */
import type { Decimal } from 'decimal.js';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import * as codes from '../../src/codes/index.ts';
import * as counts from '../../src/counts/index.ts';
import * as filtration from '../../src/filtration/index.ts';
import * as sampling from '../../src/sampling/index.ts';
import * as viscosity from '../../src/viscosity/index.ts';
import * as water from '../../src/water/index.ts';
import { Exact, exactly as exact } from '../doubles.ts';
import { some } from '../volume.ts';
import { agrees, between } from './twin.ts';

/** So many numbers of these ranges, tried. */
function over(ranges: readonly (readonly [number, number])[], tried: (...values: number[]) => void): void {
  const drawn = fc.tuple(...ranges.map(([min, max]) => between(min, max)));
  fc.assert(
    fc.property(drawn, (values) => tried(...values)),
    { numRuns: some(500) },
  );
}

const solubility = (a: number, b: number, celsius: number) =>
  Exact.pow(10, exact(a).minus(exact(b).div(exact(celsius).plus('273.15'))));

describe('water', () => {
  const line: [number, number][] = [
    [6, 8],
    [1000, 2000],
  ];

  test('share and content of saturation, free water', () => {
    over([...line, [1, 300], [0, 100], [0.01, 2]], (a, b, mgPerKg, celsius, share) => {
      const most = solubility(a, b, celsius);
      agrees(water.relativeSaturation({ a, b }, mgPerKg, celsius), exact(mgPerKg).div(most), 1e-12);
      agrees(water.waterContent({ a, b }, share, celsius), most.times(share), 1e-12);
      const left = exact(mgPerKg).minus(most);
      const free = water.freeWater({ a, b }, mgPerKg, celsius);
      expect(Math.abs(free - Math.max(0, left.toNumber()))).toBeLessThan(1e-11 * Math.max(mgPerKg, most.toNumber()));
    });
  });

  test('the temperature of saturation, and saturation after cooling', () => {
    over([...line, [0, 100], [0.01, 2], [-40, 100]], (a, b, celsius, saturation, toCelsius) => {
      const mgPerKg = water.solubilityAt({ a, b }, celsius);
      const kelvin = exact(b).div(exact(a).minus(Exact.log10(mgPerKg)));
      agrees(water.saturationTemperature({ a, b }, mgPerKg) + 273.15, kelvin, 1e-13);
      const ratio = solubility(a, b, celsius).div(solubility(a, b, toCelsius));
      const after = water.saturationAfterCooling({ a, b }, { saturation, fromCelsius: celsius, toCelsius });
      agrees(after, ratio.times(saturation), 1e-12);
    });
  });

  test('the line through two points', () => {
    over(
      [
        [0, 30],
        [50, 100],
        [10, 200],
        [600, 2900],
      ] as const,
      (cold, hot, dry, slope) => {
        const wet = dry * 10 ** (slope * (1 / (cold + 273.15) - 1 / (hot + 273.15)));
        const inverse = (celsius: number) => exact(1).div(exact(celsius).plus('273.15'));
        const b = Exact.log10(wet)
          .minus(Exact.log10(dry))
          .div(inverse(cold).minus(inverse(hot)));
        const found = water.solubilityLine([
          { celsius: cold, mgPerKg: dry },
          { celsius: hot, mgPerKg: wet },
        ]);
        agrees(found.b, b, 1e-12);
        agrees(found.a, Exact.log10(dry).plus(b.times(inverse(cold))), 1e-12);
      },
    );
  });
});

describe('filtration', () => {
  test('turnovers', () => {
    over(
      [
        [1, 1e4],
        [0.1, 500],
        [0.001, 1e4],
        [1, 1000],
      ] as const,
      (litres, litresPerMin, figure, beta) => {
        agrees(
          filtration.turnovers({ litres, litresPerMin }, figure),
          exact(figure).times(litresPerMin).div(litres),
          4e-16,
        );
        const minutes = exact(figure).times(litres).div(litresPerMin);
        agrees(filtration.timeForTurnovers({ litres, litresPerMin }, figure), minutes, 4e-16);
        const times = figure / 100;
        const remaining = Exact.exp(
          exact(times)
            .neg()
            .times(exact(1).minus(exact(1).div(beta))),
        );
        agrees(filtration.shareRemaining(times, beta), remaining, 1e-13);
      },
    );
  });

  test('filters together', () => {
    over(
      [
        [1, 5000],
        [1, 5000],
        [1, 200],
        [1, 200],
        [0, 1],
      ] as const,
      (first, second, flow, other, bypass) => {
        agrees(filtration.combineFilters({ series: [first, second] }), exact(first).times(second), 4e-16);
        const passed = exact(flow).div(first).plus(exact(other).div(second));
        const branches = [
          { litresPerMin: flow, filter: first },
          { litresPerMin: other, filter: second },
        ];
        agrees(filtration.combineFilters({ parallel: branches }), exact(flow).plus(other).div(passed), 1e-15);
        const behind = exact(bypass).plus(exact(1).minus(bypass).div(first));
        agrees(filtration.combineFilters({ filter: first, bypass }), exact(1).div(behind), 1e-14);
      },
    );
  });

  test('what holds a count', () => {
    over(
      [
        [10, 500],
        [1, 1e6],
        [1.5, 1000],
        [1, 100],
      ] as const,
      (litresPerMin, ingressionPerMin, beta, perMl) => {
        const tank = { litres: 400, perMl: 5000, ingressionPerMin };
        const flow = exact(ingressionPerMin)
          .div(exact(1).minus(exact(1).div(beta)))
          .div(1000)
          .div(perMl);
        agrees(filtration.flowToHold({ ...tank, beta }, perMl) as number, flow, 1e-13);
        const efficiency = exact(ingressionPerMin).div(1000).div(litresPerMin).div(perMl);
        const found = filtration.betaToHold({ ...tank, litresPerMin }, perMl);
        if (efficiency.gt('0.999')) return;
        // the ratio is a double, so near 1 its efficiency has the digits that are left
        expect(Math.abs(1 - 1 / (found as number) - efficiency.toNumber())).toBeLessThan(5e-16);
      },
    );
  });
});

describe('counts', () => {
  test('laboratory and dilution', () => {
    over(
      [
        [1, 60],
        [1, 1000],
        [1, 500],
        [1, 1e4],
        [0, 1],
      ] as const,
      (diameter, sampleMl, diluentMl, perMl, share) => {
        agrees(counts.membraneArea(diameter), Exact.acos(-1).times(diameter).times(diameter).div(4), 1e-15);
        const mixture = { mixturePerMl: perMl, diluentPerMl: share * perMl, sampleMl, diluentMl };
        const whole = exact(perMl).times(exact(sampleMl).plus(diluentMl));
        const left = whole.minus(exact(share * perMl).times(diluentMl)).div(sampleMl);
        expect(Math.abs(counts.undilute(mixture) - left.toNumber())).toBeLessThan(
          1e-14 * (whole.toNumber() / sampleMl),
        );
        agrees(counts.volumeForCount(perMl, sampleMl), exact(sampleMl).div(exact(perMl)), 2e-16);
      },
    );
  });

  test('coincidence undone, and the volume for a loss', () => {
    over(
      [
        [1e-4, 0.6],
        [100, 1e5],
        [1e-6, 1e-5],
      ] as const,
      (loss, limitPerMl, volume) => {
        const found = counts.sensingVolume({ limitPerMl, model: 'paralyzable', loss });
        agrees(found, exact(1).minus(loss).ln().neg().div(limitPerMl), 1e-12);
        const truth = 0.9 * loss;
        const observed = exact(truth).times(Exact.exp(-truth)).div(volume).toNumber();
        const undone = counts.correctCoincidence(observed, { sensingVolumeMl: volume, model: 'paralyzable' });
        agrees(undone.perMl, exact(truth).div(volume), 1e-12);
      },
    );
  });
});

describe('codes', () => {
  test('the scale number between two limits that double', () => {
    over([[5.001, 9.999]] as const, (perMl) => {
      // 5 and 10 per mL are scale numbers 9 and 10
      agrees(codes.continuousScaleNumber(perMl), exact(9).plus(exact(perMl).div(5).ln().div(Exact.ln(2))), 1e-14);
    });
  });

  test('the level of a count', () => {
    over(
      [
        [2, 1e6],
        [1, 1000],
      ] as const,
      (per100Ml, size) => {
        const square = Exact.log10(per100Ml).div('0.926').plus(Exact.log10(size).pow(2));
        agrees(codes.cc1246Level(per100Ml, size) as number, Exact.pow(10, square.sqrt()), 1e-12);
      },
    );
  });

  test('the score of a difference', () => {
    over(
      [
        [10, 20],
        [0.01, 1],
        [21, 30],
        [0.01, 1],
      ] as const,
      (value, standard, other, second) => {
        const spread = exact(standard).pow(2).plus(exact(second).pow(2)).sqrt();
        const score = codes.zetaScore({ value, standard }, { value: other, standard: second });
        agrees(score, exact(value).minus(other).div(spread), 1e-14);
      },
    );
  });

  test('the dispersion of repeats', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 1, max: 5000 }), { minLength: 2, maxLength: 12 }), (repeats) => {
        const mean = repeats.reduce((sum, count) => sum.plus(count), exact(0)).div(repeats.length);
        const squares = repeats.reduce((sum, count) => sum.plus(exact(count).minus(mean).pow(2)), exact(0));
        const { chiSquare, index } = codes.indexOfDispersion(repeats);
        const close = (found: number, twin: Decimal) =>
          expect(Math.abs(found - twin.toNumber())).toBeLessThanOrEqual(1e-12 * (1 + twin.toNumber()));
        close(chiSquare, squares.div(mean));
        close(index, squares.div(repeats.length - 1).div(mean));
      }),
      { numRuns: some(500) },
    );
  });
});

describe('oil and line', () => {
  test('pressure, and the slope of Ubbelohde and Walther', () => {
    over(
      [
        [0, 1e5],
        [0, 1e-7],
        [20, 500],
        [3, 15],
      ] as const,
      (kPa, alpha, at40, at100) => {
        agrees(viscosity.pressureViscosityFactor(kPa, alpha), Exact.exp(exact(alpha).times(kPa).times(1000)), 1e-13);
        const order = (mm2PerS: number) => Exact.log10(Exact.log10(exact(mm2PerS).plus('0.8')));
        const across = Exact.log10('373.15').minus(Exact.log10('313.15'));
        const points = [
          { celsius: 40, mm2PerS: at40 },
          { celsius: 100, mm2PerS: at100 },
        ] as const;
        agrees(viscosity.ubbelohdeWaltherM(points), order(at40).minus(order(at100)).div(across), 1e-12);
      },
    );
  });

  test('what a counter counts in its time', () => {
    over(
      [
        [1, 1000],
        [1, 600],
        [0.1, 1e5],
      ] as const,
      (mlPerMin, seconds, perMl) => {
        agrees(sampling.countedVolume({ mlPerMin, seconds }), exact(mlPerMin).times(seconds).div(60), 4e-16);
        const needed = exact(20).div(perMl).div(mlPerMin).times(60);
        agrees(sampling.timeForCount({ perMl, mlPerMin }), needed, 1e-15);
      },
    );
  });
});
