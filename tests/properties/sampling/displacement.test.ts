/**
 * Thin oil that drives thick oil out of a line. Source: Hagen-Poiseuille for two layers, integrated here step by step,
 * over the radius for the share of the flow and along the line by finite volumes; no formula of the library is used.
 */
import { describe, expect, test } from 'vitest';
import { flush } from '../../../src/sampling/index.ts';

/** The share of the flow in a core over the share s of the section: the profile of velocity summed over the radius. */
function coreFlow(s: number, m: number): number {
  const steps = 1000;
  let speed = 0;
  let core = 0;
  let whole = 0;
  for (let i = steps - 1; i >= 0; i -= 1) {
    const middle = (i + 0.5) / steps;
    // the shear stress grows with the radius; old oil is at the wall, m times as thick as the new
    const rise = (inner: number, outer: number) => {
      const edge = Math.min(outer, Math.max(inner, Math.sqrt(s)));
      return (outer * outer - edge * edge) / m + edge * edge - inner * inner;
    };
    const here = speed + rise(middle, (i + 1) / steps);
    const ring = middle / steps;
    const [inner, outer] = [i / steps, (i + 1) / steps];
    const inside =
      (Math.min(outer * outer, Math.max(s, inner * inner)) - inner * inner) / (outer * outer - inner * inner);
    core += here * ring * inside;
    whole += here * ring;
    speed += rise(inner, outer);
  }
  return core / whole;
}

/** When the share of old oil that leaves has come down to `old`, in transit times, and what is then left of it. */
function drivenOut(old: number, m: number, cells = 300): { time: number; remaining: number } {
  const knots = 2000;
  const table = Array.from({ length: knots + 1 }, (_, i) => coreFlow(i / knots, m));
  const f = (s: number) => {
    const i = Math.min(knots - 1, Math.floor(s * knots));
    return (table[i] as number) + ((table[i + 1] as number) - (table[i] as number)) * (s * knots - i);
  };
  const steepest = table.slice(1).reduce((most, one, i) => Math.max(most, (one - (table[i] as number)) * knots), 0);
  const step = 0.9 / cells / steepest;
  const s = new Float64Array(cells);
  for (let time = 0; time < 200; time += step) {
    let before = 1;
    for (let i = 0; i < cells; i += 1) {
      const out = f(s[i] as number);
      s[i] = (s[i] as number) + step * cells * (before - out);
      before = out;
    }
    if (1 - before <= old) return { time, remaining: s.reduce((sum, one) => sum + (1 - one) / cells, 0) };
  }
  return { time: Infinity, remaining: Number.NaN };
}

const line = { volumeMl: 1, mlPerMin: 60 };

describe('old oil thicker than the new', () => {
  test.each([
    [0.01, 1.5],
    [0.01, 2.2],
    [0.01, 7.2],
    [0.01, 20],
    [0.05, 7.2],
    [0.001, 7.2],
  ])(
    'down to %d at a ratio of %d: volumes and what is left, within 3 percent of finite volumes',
    (old, m) => {
      const { ml, seconds, remainingMl } = flush({ ...line, renewal: 1 - old, viscosityRatio: m });
      const found = drivenOut(old, m);
      expect(seconds).toBe(ml);
      expect(Math.abs(ml / found.time - 1)).toBeLessThan(0.03);
      expect(Math.abs(remainingMl / found.remaining - 1)).toBeLessThan(0.03);
    },
    60000,
  );

  // by the formula that was checked above, worked out by someone else (bisection on f')
  test.each([
    [2.2, 6.4, 25.2],
    [7.2, 9.0, 42.0],
    [20, 11.1, 63.4],
  ])('%d times as thick: %d volumes, %d for a dirty line', (viscosityRatio, volumes, dirty) => {
    const carryOver = { linePerMl: 32000, tankPerMl: 500, share: 0.05 };
    expect(flush({ ...line, viscosityRatio }).ml).toBeCloseTo(volumes, 1);
    expect(Math.abs(flush({ ...line, viscosityRatio, carryOver }).ml - dirty)).toBeLessThan(0.06);
  });

  test('the first new oil comes with the front: where f(s) / s is greatest, here tried at every s', () => {
    for (const viscosityRatio of [1.5, 2, 7.2, 100]) {
      let fastest = 2;
      for (let s = 0.001; s < 1; s += 0.001) fastest = Math.max(fastest, coreFlow(s, viscosityRatio) / s);
      expect(Math.abs(flush({ ...line, viscosityRatio }).firstSeconds * fastest - 1)).toBeLessThan(0.001);
    }
  });

  test('never sooner than at any smaller ratio, and equal thickness is the beginning of it', () => {
    for (const renewal of [1e-9, 0.3, 0.75, 8 / 9, 0.9, 0.95, 0.99, 0.9999, 1 - 1e-12]) {
      const equal = flush({ ...line, renewal });
      expect(flush({ ...line, renewal, viscosityRatio: 1 })).toEqual(equal);
      const close = flush({ ...line, renewal, viscosityRatio: 1 + 1e-12 });
      for (const name of ['ml', 'seconds', 'firstSeconds', 'remainingMl'] as const)
        expect(Math.abs(close[name] / equal[name] - 1), name).toBeLessThan(1e-6);
      let before = equal;
      for (let ratio = 1.1; ratio < 1e9; ratio *= 1.7) {
        const now = flush({ ...line, renewal, viscosityRatio: ratio });
        expect(now.ml / before.ml).toBeGreaterThan(1 - 1e-12);
        expect(now.remainingMl / before.remainingMl).toBeGreaterThan(1 - 1e-9);
        expect(now.remainingMl).toBeLessThan(1);
        expect(now.firstSeconds).toBeLessThanOrEqual(Math.min(0.5, now.seconds * (1 + 1e-12)));
        before = now;
      }
    }
  });

  test('a ratio at which a thread of new oil does it sooner asks for as much as the worst below it', () => {
    const { ml } = flush({ ...line, renewal: 0.95, viscosityRatio: 200 });
    const found = drivenOut(0.05, 200);
    expect(found.time).toBeLessThan(ml);
    expect(ml).toBe(flush({ ...line, renewal: 0.95, viscosityRatio: 1e6 }).ml);
  }, 60000);
});

describe('new oil thicker than the old', () => {
  test('comes sooner than the answer for equal thickness tells, and has no ratio', () => {
    for (const m of [0.5, 0.14]) expect(drivenOut(0.01, m).time).toBeLessThan(flush(line).ml);
    expect(() => flush({ ...line, viscosityRatio: 0.5 })).toThrow(
      'line.viscosityRatio: received 0.5, expected a number from 1 to 1000000000 (old oil over new; 1 where new oil ' +
        'is the thicker)',
    );
  }, 60000);
});
