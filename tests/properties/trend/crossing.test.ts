/** Where the limits of a line meet a level: against a search along the line, step by step. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { type Approach, limitsOfCrossing, riskBesideLongest } from '../../../src/trend/crossing.ts';

const figure = (min: number, max: number) => fc.double({ min, max, noNaN: true });

const approaches = fc.record({
  distance: fc.oneof(figure(-5, 5), fc.constantFrom(0, 3)),
  speed: fc.oneof(figure(-0.2, 0.2), fc.constantFrom(0, 0.1, -0.1)),
  speedVariance: fc.oneof(figure(1e-6, 0.01), fc.constant(0)),
  distanceVariance: fc.oneof(figure(1e-4, 0.5), fc.constant(0)),
  last: figure(10, 60),
});

/** Beyond all that is looked at. */
const far = 1e9;

/** When a limit that is below the level now, and above it in the end, crosses: by halving. */
function crossingOf(height: (time: number) => number, last: number): number | null {
  if (height(last) >= 0) return last;
  if (!(height(far) >= 0)) return null;
  let [before, after] = [last, far];
  for (let round = 0; round < 200; round += 1) {
    const middle = (before + after) / 2;
    if (height(middle) >= 0) after = middle;
    else before = middle;
  }
  return after;
}

test('each limit is reached where a search finds it, or never', () => {
  let [known, open, never] = [0, 0, 0];
  fc.assert(
    fc.property(approaches, figure(0.5, 4), (approach: Approach, reach) => {
      const { distance, speed, speedVariance, distanceVariance, last } = approach;
      const limit = (side: number) => (time: number) =>
        speed * time + side * reach * Math.sqrt(distanceVariance + time * time * speedVariance) - distance;
      // where both are as good as level, the search looks in vain for what lies beyond it
      const [rises, falls] = [speed + reach * Math.sqrt(speedVariance), speed - reach * Math.sqrt(speedVariance)];
      fc.pre((rises === 0 || Math.abs(rises) > 1e-6) && (falls === 0 || Math.abs(falls) > 1e-6));
      const found = limitsOfCrossing(approach, reach);
      // a lower limit that does not rise in the end says of no time that the level is reached by then
      const wanted = { earliest: crossingOf(limit(1), last), latest: falls > 0 ? crossingOf(limit(-1), last) : null };
      for (const end of ['earliest', 'latest'] as const) {
        const [one, other] = [found[end], wanted[end]];
        if (one === null || other === null) expect([end, one]).toEqual([end, other]);
        else expect(Math.abs(one - other)).toBeLessThanOrEqual(1e-6 * other);
      }
      if (found.latest !== null) known += 1;
      else if (found.earliest !== null) open += 1;
      else never += 1;
    }),
    { numRuns: 400 },
  );
  expect(Math.min(known, open, never)).toBeGreaterThan(3);
});

test('the risk beside the longest memory: all of it where there is no room, nearly all one where there is much', () => {
  expect(riskBesideLongest(0.05, 0)).toBe(0.05);
  expect(riskBesideLongest(0.05, 1)).toBeCloseTo(0.25 / 1.2, 15);
  for (const risk of [0.0001, 0.05, 0.5])
    for (const room of [0.1, 0.5, 1]) {
      expect(riskBesideLongest(risk, room)).toBeGreaterThan(risk);
      expect(riskBesideLongest(risk, room)).toBeLessThan(1);
    }
});
