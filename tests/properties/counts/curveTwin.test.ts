/** Counts at other sizes, of other sizings and of ranges, once more in decimals of 50 digits. */
import type { Decimal } from 'decimal.js';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  type CumulativeCounts,
  convertCounts,
  countAt,
  countBounds,
  cumulativeCounts,
  equivalentDustMgPerL,
  fromDifferential,
  sizeAt,
  toDifferential,
} from '../../../src/counts/index.ts';
import { Exact } from '../../doubles.ts';
import calibration from '../../reference/counts/calibration.json' with { type: 'json' };
import table4 from '../../reference/counts/iso16889-table4.json' with { type: 'json' };
import { some } from '../../volume.ts';
import { splineTwin } from '../splineTwin.ts';
import { agrees, between, d, near, short, spread, sum, written } from '../twin.ts';

const at = <T>(list: readonly T[], i: number): T => list[i] as T;
type Method = 'monotone' | 'log_log' | 'log_log2';

/** Sizes a twentieth apart or more, and counts that never rise: some alike, some zero at the end. */
function samples(least: number, most: number, zeros = 2): fc.Arbitrary<CumulativeCounts> {
  const step = fc.tuple(spread(1.05, 3), fc.oneof({ weight: 5, arbitrary: between(0.1, 0.98) }, fc.constant(1)));
  const steps = fc.array(step, { minLength: 1, maxLength: 9 });
  return fc.tuple(spread(least, 5), spread(10, 1e6), steps, fc.nat(zeros)).map(([size, perMl, list, none]) => {
    const sizes = [size];
    const counts = [perMl];
    for (const [wider, share] of list) {
      if (at(sizes, sizes.length - 1) * wider > most) break;
      sizes.push(at(sizes, sizes.length - 1) * wider);
      counts.push(at(counts, counts.length - 1) * share);
    }
    return {
      sizing: 'iso11171',
      sizes,
      perMl: counts.map((count, i) => (i > 0 && i >= sizes.length - none ? 0 : count)),
    };
  });
}

const scale = (size: Decimal, method: Method) => (method === 'log_log2' ? size.ln().pow(2) : size.ln());

/** A straight line on the scales of the method, through two of the counts. */
function straight({ sizes, perMl }: CumulativeCounts, i: number, size: Decimal, method: Method): Decimal {
  const [x0, x1] = [scale(d(at(sizes, i)), method), scale(d(at(sizes, i + 1)), method)];
  const [y0, y1] = [d(at(perMl, i)).ln(), d(at(perMl, i + 1)).ln()];
  return y0.plus(scale(size, method).minus(x0).times(y1.minus(y0)).div(x1.minus(x0))).exp();
}

/** The count between the measured sizes. */
function curve(counts: CumulativeCounts, method: Method): (size: Decimal) => Decimal {
  const { sizes, perMl } = counts;
  const y = perMl.filter((count) => count > 0).map((count) => d(count).ln());
  const x = sizes.slice(0, y.length).map((measured) => d(measured).ln());
  const spline = method === 'monotone' && y.length > 1 ? splineTwin(x, y) : null;
  return (size) => {
    const i = sizes.filter((measured) => size.gte(d(measured))).length - 1;
    const [lower, upper] = [d(at(perMl, i)), d(perMl[i + 1] ?? 0)];
    if (size.eq(d(at(sizes, i)))) return lower;
    if (upper.isZero()) {
      const [from, to] = [d(at(sizes, i)).ln(), d(at(sizes, i + 1)).ln()];
      return lower.times(to.minus(size.ln())).div(to.minus(from));
    }
    return spline === null ? straight(counts, i, size, method) : spline(size.ln()).exp();
  };
}

const methods = fc.constantFrom<Method>('monotone', 'log_log', 'log_log2');

describe('between sizes', () => {
  test('the count, by each method: 1e-13', () => {
    fc.assert(
      fc.property(samples(1, 200), between(0, 1), methods, (counts, share, method) => {
        const [first, last] = [at(counts.sizes, 0), at(counts.sizes, counts.sizes.length - 1)];
        const size = Math.min(last, Math.max(first, first * (last / first) ** share));
        const twin = curve(counts, method)(d(size));
        // towards a zero the count is a share of the one before, and so is its rounding
        const place = counts.sizes.filter((measured) => measured <= size).length;
        const ofShare = counts.perMl[place] === 0 ? 1e-14 * at(counts.perMl, place - 1) : 0;
        near(countAt(counts, size, { method }).perMl, twin, 1e-13 * twin.toNumber() + ofShare);
      }),
      { numRuns: some(500, 80) },
    );
  });

  test('the count beyond the sizes: 1e-11, for the logarithms are continued up to a hundred widths', () => {
    fc.assert(
      fc.property(samples(1, 60, 0), spread(1.001, 3), fc.boolean(), methods, (counts, times, larger, method) => {
        const { sizes, perMl } = counts;
        fc.pre(sizes.length > 1);
        const last = sizes.length - 1;
        const size = larger ? at(sizes, last) * times : Math.max(1, at(sizes, 0) / times);
        fc.pre(larger || size < at(sizes, 0));
        const twin = straight(counts, larger ? last - 1 : 0, d(size), method === 'log_log2' ? method : 'log_log');
        fc.pre(twin.lt(1e11) && twin.gt(1e-100) && at(perMl, 0) > 0);
        agrees(countAt(counts, size, { method, extrapolate: true }).perMl, twin, 1e-11);
      }),
      { numRuns: some(500, 80) },
    );
  });

  test('the size at a count: no more than that from 1e-13 above it on, no fewer up to 1e-13 below', () => {
    fc.assert(
      fc.property(samples(1, 200), between(0, 1), (counts, share) => {
        const [most, least] = [at(counts.perMl, 0), at(counts.perMl, counts.perMl.length - 1)];
        const perMl = Math.min(most, Math.max(least, most + share * (least - most)));
        const size = sizeAt(counts, perMl);
        const twin = curve(counts, 'monotone');
        const around = (shift: number) => {
          const place = d(size).times(d(1).plus(d(shift)));
          const clamped = Exact.max(
            d(at(counts.sizes, 0)),
            Exact.min(place, d(at(counts.sizes, counts.sizes.length - 1))),
          );
          return twin(clamped).minus(d(perMl)).toNumber();
        };
        expect(around(1e-13)).toBeLessThanOrEqual(1e-13 * perMl);
        if (size > at(counts.sizes, 0)) expect(around(-1e-13)).toBeGreaterThanOrEqual(-1e-13 * perMl);
      }),
      { numRuns: some(300, 50) },
    );
  });

  test('what must hold: the most of the counts of larger sizes, the least of those of smaller ones', () => {
    fc.assert(
      fc.property(samples(1, 200), spread(0.5, 300), fc.nat(9), fc.boolean(), (counts, anywhere, place, measured) => {
        const size = measured ? at(counts.sizes, place % counts.sizes.length) : anywhere;
        const of = (kept: (measured: number) => boolean) => counts.perMl.filter((_, i) => kept(at(counts.sizes, i)));
        const [larger, smaller] = [of((one) => one >= size), of((one) => one <= size)];
        expect(countBounds(counts, size)).toEqual({
          above: Math.max(0, ...larger),
          upTo: smaller.length === 0 ? null : Math.min(...smaller),
        });
      }),
      { numRuns: some(1000) },
    );
  });
});

describe('ranges', () => {
  const sizes = [4, 6, 14, 21, 38];
  const decimals = fc.array(short(0, 1e5, 4), { minLength: 5, maxLength: 5 });

  test('short decimals: the nearest double to the sum and to the difference of the decimals', () => {
    fc.assert(
      fc.property(decimals, (list) => {
        const ranges = sizes.map((from, i) => ({ from, to: sizes[i + 1] ?? null, perMl: at(list, i) }));
        const found = fromDifferential({ sizing: 'iso11171', ranges });
        expect(found.perMl).toEqual(list.map((_, i) => sum(list.slice(i).map(written)).toNumber()));
        expect(toDifferential(found).ranges).toEqual(ranges);
      }),
      { numRuns: some(1000) },
    );
  });

  test('raw counts: the nearest double to particles times dilution over volume', () => {
    const particles = fc.uniqueArray(fc.nat(1e6), { minLength: 1, maxLength: 5 });
    fc.assert(
      fc.property(particles, short(0.1, 500, 1), short(1, 100, 1), (list, volumeMl, dilution) => {
        const counted = [...list].sort((a, b) => b - a);
        const bySize = Object.fromEntries(counted.map((count, i) => [at(sizes, i), count]));
        const { perMl } = cumulativeCounts(bySize, { volumeMl, dilution });
        const twin = (count: number) => d(count).times(written(dilution)).div(written(volumeMl)).toNumber();
        expect(perMl).toEqual(counted.map(twin));
      }),
      { numRuns: some(1000) },
    );
  });

  test('any doubles: the rounding of each sum', () => {
    fc.assert(
      fc.property(fc.array(spread(1e-6, 1e6), { minLength: 5, maxLength: 5 }), (list) => {
        const ranges = sizes.map((from, i) => ({ from, to: sizes[i + 1] ?? null, perMl: at(list, i) }));
        const { perMl } = fromDifferential({ sizing: 'iso11171', ranges });
        perMl.forEach((count, i) => {
          agrees(count, sum(list.slice(i).map(d)), 5e-16);
        });
        toDifferential({ sizing: 'iso11171', sizes, perMl }).ranges.forEach((range, i) => {
          near(range.perMl, d(at(perMl, i)).minus(d(perMl[i + 1] ?? 0)), 1.2e-16 * at(perMl, i));
        });
      }),
      { numRuns: some(1000) },
    );
  });
});

describe('sizings', () => {
  const pairs = calibration.pairs.map(([old, size]) => [written(old as number), written(size as number)] as const);

  /** The straight line through the printed pairs. */
  function along(size: Decimal, from: 0 | 1, to: 0 | 1): Decimal {
    const i = Math.max(
      1,
      pairs.findIndex((pair) => pair[from].gte(size)),
    );
    const [low, high] = [at(pairs, i - 1), at(pairs, i)];
    const share = size.minus(low[from]).div(high[from].minus(low[from]));
    return low[to].plus(share.times(high[to].minus(low[to])));
  }

  test('the counts stay, the sizes move along the printed pairs or by 0.898: 1e-15 of both sizes', () => {
    const sizings = fc.constantFrom('iso4402', 'iso11171', 'iso11171b');
    fc.assert(
      fc.property(
        fc.uniqueArray(short(4.5, 68, 3), { minLength: 1, maxLength: 6 }),
        sizings,
        sizings,
        (list, from, to) => {
          const own = [...list].sort((a, b) => a - b);
          const perMl = own.map((_, i) => 1000 - i);
          const found = convertCounts({ sizing: from, sizes: own, perMl }, to);
          expect([found.sizing, found.perMl]).toEqual([to, perMl]);
          found.sizes.forEach((size, i) => {
            const before = d(at(own, i));
            if (from === to) {
              expect(size).toBe(at(own, i));
              return;
            }
            const inC =
              from === 'iso11171b' ? before.times('0.898') : from === 'iso4402' ? along(before, 0, 1) : before;
            const twin = to === 'iso11171b' ? inC.div('0.898') : to === 'iso4402' ? along(inC, 1, 0) : inC;
            near(size, twin, 1e-15 * (at(own, i) + size));
          });
        },
      ),
      { numRuns: some(1000) },
    );
  });
});

test('test dust of the same counts, from the midpoints of the printed ranges at 10 mg/L: 1e-13', () => {
  const rows = table4.rows.map(({ size, midpoints }) => ({ size, perMl: midpoints['10'] }));
  const dust = {
    sizing: 'iso11171',
    sizes: rows.map(({ size }) => size),
    perMl: rows.map(({ perMl }) => perMl),
  } as const;
  const dustAt = curve(dust, 'monotone');
  fc.assert(
    fc.property(samples(1, 50), (counts) => {
      const found = equivalentDustMgPerL(counts);
      const twins = counts.sizes.map((size, i) =>
        d(at(counts.perMl, i))
          .times(10)
          .div(dustAt(d(size))),
      );
      twins.forEach((twin, i) => {
        agrees(at(found.bySize, i).mgPerL, twin, 1e-13);
      });
      const above = twins.filter((twin) => twin.gt(0));
      agrees(
        found.mgPerL,
        sum(above.map((twin) => twin.ln()))
          .div(above.length)
          .exp(),
        1e-13,
      );
      agrees(found.low, Exact.min(...above), 1e-13);
      agrees(found.high, Exact.max(...above), 1e-13);
    }),
    { numRuns: some(300, 20) },
  );
});
