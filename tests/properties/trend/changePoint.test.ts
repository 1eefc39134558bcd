/** The change of a whole series: its fit against a slow one, laws, and how often it is wrong. */
import { describe, expect, test } from 'vitest';
import { changePoint } from '../../../src/trend/changePoint.ts';
import { bestShape, pulledIn } from '../../../src/trend/changeShapes.ts';
import { some } from '../../volume.ts';
import { draws, withMemory } from './trendCorrelated.ts';

const upTo = (n: number) => Array.from({ length: n }, (_x, i) => i);
const mean = (list: readonly number[]) => list.reduce((sum, value) => sum + value, 0) / list.length;

/** Each place and both shapes tried one by one, with the line of least squares written out. */
function slowFits(times: readonly number[], values: readonly number[], least: number) {
  const n = values.length;
  return (['step', 'slope'] as const).flatMap((kind) =>
    upTo(n - least + 1)
      .filter((at) => kind === 'slope' || at >= least)
      .map((at) => {
        const x = times.map((time, i) =>
          kind === 'step' ? Number(i >= at) : Math.max(0, time - (times[at] as number)),
        );
        const [mx, my] = [mean(x), mean(values)];
        const size =
          x.reduce((sum, one, i) => sum + (one - mx) * ((values[i] as number) - my), 0) /
          x.reduce((sum, one) => sum + (one - mx) ** 2, 0);
        const base = my - size * mx;
        const loss = values.reduce((sum, value, i) => sum + (value - base - size * (x[i] as number)) ** 2, 0);
        return { kind, at, size, base, loss };
      }),
  );
}

function slowBest(times: readonly number[], values: readonly number[], least: number) {
  return slowFits(times, values, least).reduce((best, one) => (one.loss < best.loss ? one : best));
}

test('the best shape and place are those of trying each', () => {
  const { normal, share } = draws(71);
  for (let round = 0; round < 60; round += 1) {
    const n = 12 + Math.floor(40 * share());
    const begin = n * share();
    const times: number[] = [];
    for (let time = 0; times.length < n; time += 1) if (share() < 0.8) times.push(time);
    const values = times.map(
      (time, i) => normal() + (round % 2 === 0 ? Number(i > begin) * 3 : Math.max(0, time - begin)),
    );
    const series = { times: Float64Array.from(times), values: Float64Array.from(values) };
    const slow = slowBest(times, values, 5);
    const found = bestShape(series, 5);
    expect([found.kind, found.at]).toEqual([slow.kind, slow.at]);
    expect(found.size).toBeCloseTo(slow.size, 8);
    expect(found.base).toBeCloseTo(slow.base, 8);
    expect(found.loss).toBeCloseTo(slow.loss, 7);
  }
});

describe('laws', () => {
  const values = withMemory(draws(72).normal, 120, 0.4).map((value, i) => value + (i >= 70 ? 4 : 0));
  const plain = changePoint(values);

  test('a clear step is dated, shift and scale change levels only, and gaps move places', () => {
    expect(plain).toMatchObject({ n: 120, kind: 'step', since: 70 });
    expect(plain.earliest).toBeLessThanOrEqual(70);
    expect(plain.latest).toBeGreaterThanOrEqual(70);
    const moved = changePoint(values.map((value) => 32 - 4 * value));
    expect(moved).toMatchObject({ kind: 'step', since: 70, earliest: plain.earliest, latest: plain.latest });
    expect(moved.before).toBeCloseTo(32 - 4 * (plain.before as number), 8);
    expect(moved.after).toBeCloseTo(32 - 4 * (plain.after as number), 8);
    expect(moved.p).toBeCloseTo(plain.p as number, 12);
    const late = changePoint([null, null, ...values, null]);
    expect(late).toEqual({ ...plain, since: 72, earliest: (plain.earliest ?? 0) + 2, latest: (plain.latest ?? 0) + 2 });
  });

  test('wild values do not move it', () => {
    const wild = values.map((value, i) => (i === 20 || i === 100 ? value + 60 : value));
    expect(changePoint(wild)).toMatchObject({ kind: 'step', since: 70 });
    expect((changePoint(wild).before as number) - (plain.before as number)).toBeLessThan(0.3);
  });

  test('so does any unit, however small or large its figures', () => {
    const wild = values.map((value, i) => (i === 20 || i === 100 ? value + 60 : value));
    for (const unit of [2 ** -40, 2 ** 40])
      for (const list of [values, wild]) {
        const [own, other] = [changePoint(list), changePoint(list.map((value) => unit * value))];
        expect(other).toEqual({ ...own, before: unit * (own.before as number), after: unit * (own.after as number) });
      }
  });

  test('where all but a few lie on the fit but for rounding, the few are no wilder than can be told', () => {
    const sevenths = { times: Float64Array.from(upTo(60)), values: Float64Array.from(upTo(60), (i) => 7.3 + i / 7) };
    sevenths.values[40] = 90;
    const fit = { kind: 'slope' as const, at: 0, base: 7.3, size: 1 / 7, loss: 0, losses: new Float64Array(60) };
    expect(pulledIn(sevenths, fit)).toBe(sevenths);
    expect(pulledIn(sevenths, { ...fit, base: 7.31 })).not.toBe(sevenths);
  });

  test('the chance is that of Pettitt or larger: 2 exp(-6 K^2 / (n^3 + n^2)), K counted pair by pair', () => {
    for (const seed of upTo(20)) {
      const few = withMemory(draws(200 + seed).normal, 40, 0.2).map((value, i) => value + (i > 25 ? 1 : 0));
      const sums = upTo(39).map((at) =>
        few
          .slice(0, at + 1)
          .reduce((sum, one) => sum + few.slice(at + 1).reduce((part, other) => part + Math.sign(one - other), 0), 0),
      );
      const k = Math.max(...sums.map(Math.abs));
      const alone = Math.min(1, 2 * Math.exp((-6 * k * k) / (40 ** 3 + 40 ** 2)));
      expect(changePoint(few).p).toBeGreaterThanOrEqual(alone * (1 - 1e-9));
    }
  });

  test('no change in what does not vary, nothing told of too few; a perfect one to the block', () => {
    expect(changePoint(Array<number>(40).fill(17))).toMatchObject({ kind: 'not_distinguishable', p: 1, since: null });
    expect(changePoint([1, 2, 3, 4, 5, 6, 7, 8, 9])).toMatchObject({ kind: 'not_distinguishable', p: null });
    const step = changePoint(upTo(60).map((i) => (i < 25 ? 16 : 17)));
    expect(step).toMatchObject({ kind: 'step', since: 25, earliest: 25, latest: 25, before: 16, after: 17 });
    const bend = changePoint(upTo(60).map((i) => 16 + Math.max(0, i - 25) / 8));
    expect(bend).toMatchObject({ kind: 'slope', since: 25, earliest: 25, latest: 25, before: 16, after: 20.25 });
    expect(changePoint(upTo(60).map((i) => i / 8))).toMatchObject({ kind: 'slope', since: 0, earliest: 0 });
    const series = { times: Float64Array.from(upTo(60)), values: Float64Array.from(upTo(60)) };
    expect(pulledIn(series, bestShape(series, 5))).toBe(series);
  });

  test('ten values tell, nine do not, nor do two groups far apart', () => {
    const of = (n: number) => changePoint(upTo(n).map((i) => (i >= 5 ? 1 : 0) + (i % 2) / 10)).p;
    expect([of(9), of(10)]).toEqual([null, 1]);
    const apart = [...upTo(6), ...Array<null>(90).fill(null), ...upTo(6).map((i) => 40 + i)];
    expect(changePoint(apart)).toMatchObject({ n: 12, kind: 'not_distinguishable', since: null, p: null });
  });

  test('at least five values follow, and a twentieth of all: what came last begins no change', () => {
    const since = (n: number, last: number) => {
      const found = changePoint(
        upTo(n).map((i) => (i % 3) / 10 + (i >= n - last ? 5 : 0)),
        { confidence: 0.5 },
      );
      return [found.since as number, found.latest as number];
    };
    expect([3, 4, 5, 6].map((last) => Math.max(...since(20, last)) <= 15)).toEqual([true, true, true, true]);
    expect(since(20, 5)).toEqual([15, 15]);
    expect([8, 9].map((last) => Math.max(...since(200, last)) <= 190)).toEqual([true, true]);
    expect(since(200, 10)).toEqual([190, 190]);
  });

  test('a slope without memory begins where the fit is worse by t^2 variances at most', () => {
    const bent = [0.4, -1.7, -0.2, -1.6, 1.1, 1.8, -2.5, 0.2, -0.9, 0.6, 2.5, 2.7, 3.1, 5.8, 7.2];
    // Student's t, 0.975, of 11, 12, 13 degrees of freedom: NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.2
    const placesWithin = (t: number) => {
      const fits = slowFits(upTo(15), bent, 5).filter(({ kind }) => kind === 'slope');
      const best = Math.min(...fits.map(({ loss }) => loss));
      return fits.filter(({ loss }) => loss - best <= (t * t * best) / 13).map(({ at }) => at);
    };
    expect([2.201, 2.179, 2.16].map(placesWithin)).toEqual([
      [6, 7, 8, 9, 10],
      [6, 7, 8, 9],
      [7, 8, 9],
    ]);
    expect(changePoint(bent)).toMatchObject({ kind: 'slope', since: 8, earliest: 6, latest: 9 });
  });

  test('a larger confidence asks for more and gives wider limits', () => {
    const bent = withMemory(draws(73).normal, 200, 0.4).map((value, i) => value + Math.max(0, i - 100) / 10);
    const [less, more] = [0.6, 0.99].map((confidence) => changePoint(bent, { confidence }));
    expect(more?.latest as number).toBeGreaterThan(less?.latest as number);
    expect(more?.earliest as number).toBeLessThan(less?.earliest as number);
    const weak = upTo(200).map((seed) => withMemory(draws(900 + seed).normal, 40, 0));
    const told = (confidence: number) =>
      weak.filter((one) => changePoint(one, { confidence }).kind !== 'not_distinguishable').length;
    expect(told(0.5)).toBeGreaterThan(told(0.95));
  });
});

describe('how often it is wrong', () => {
  const count = some(300, 80);
  const runs = (n: number, correlation: number, added: (i: number) => number) => {
    const { normal } = draws(500);
    return upTo(count).map(() => changePoint(withMemory(normal, n, correlation).map((value, i) => value + added(i))));
  };
  const room = (share: number, of: number) => 4 * Math.sqrt((share * (1 - share)) / of);

  test.each([
    [30, 0],
    [60, 0.5],
    [120, 0.8],
    [365, 0.9],
  ])('%d values, a correlation of %d: at most 5 %% called a change', (n, correlation) => {
    const told = runs(n, correlation, () => 0).filter(({ kind }) => kind !== 'not_distinguishable').length;
    expect(told / count).toBeLessThanOrEqual(0.05 + room(0.05, count));
  });

  test.each([
    [60, 0.5, 0.71, 0.71, 0.95],
    [120, 0.5, 0.97, 0.97, 0.95],
    [365, 0.8, 1, 1, 0.96],
  ])('%d values, %d: steps and slopes told, and held by their limits', (n, correlation, step, slope, held) => {
    const half = n / 2;
    const holds = (one: ReturnType<typeof changePoint>) =>
      (one.earliest as number) <= half && (one.latest as number) >= half;
    const steps = runs(n, correlation, (i) => (i >= half - 0.5 ? 4 : 0)).filter(
      ({ kind }) => kind !== 'not_distinguishable',
    );
    expect(steps.length / count).toBeGreaterThanOrEqual(step - room(step, count) - 0.02);
    const right = steps.filter(({ kind }) => kind === 'step');
    expect(right.length / steps.length).toBeGreaterThanOrEqual(0.9);
    expect(
      right.filter((one) => (one.earliest as number) <= half + 0.5 && holds(one)).length / right.length,
    ).toBeGreaterThan(0.94);
    const slopes = runs(n, correlation, (i) => (Math.max(0, i - half) * 6) / half).filter(
      ({ kind }) => kind === 'slope',
    );
    expect(slopes.length / count).toBeGreaterThanOrEqual(slope - room(slope, count) - 0.03);
    expect(slopes.filter(holds).length / slopes.length).toBeGreaterThanOrEqual(held - room(held, slopes.length));
  });
});
