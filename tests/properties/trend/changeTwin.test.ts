/** The change detector against a second implementation, day by day. */
import { describe, expect, test } from 'vitest';
import { advanceChange, prepareChange, startChange } from '../../../src/trend/change/advance.ts';
import { some } from '../../volume.ts';
import { dayTwin, sightTwin, type TwinState } from './changeTwin.ts';
import { draws, machineDays } from './trendCorrelated.ts';

const near = (found: number | null, wanted: number | null) => {
  if (wanted === null || found === null) expect(found).toBe(wanted);
  else expect(Math.abs(found - wanted)).toBeLessThanOrEqual(2e-6 * Math.max(0.01, Math.abs(wanted)));
};

/** Machines of every kind: steps up and down, a slow rise, a drift, a rhythm of the week, gaps, whole codes. */
function valuesOf(seed: number): (number | null)[] {
  const { share, normal } = draws(seed);
  const kind = seed % 6;
  const size = seed % 4 < 2 ? 1 : -1;
  const added = (day: number) => {
    if (kind === 0) return day >= 40 ? size * 1.2 : 0;
    if (kind === 1) return (size * Math.max(0, day - 40)) / 30;
    if (kind === 2) return size * 0.002 * Math.max(0, day - 45);
    if (kind === 3) return day === 40 || day >= 60 ? size * 2 : 0;
    return kind === 4 ? size * 0.8 * Math.sin(day / 20) : 0;
  };
  const week = seed % 5 === 0 ? 0.8 : 0;
  const scatter = kind === 2 ? 0.02 : 0.1 + 0.1 * share();
  const days = machineDays({ share, normal }, kind === 2 ? 200 : kind === 1 ? 100 : 75, {
    scatter,
    memory: 1,
    week,
    added,
  });
  const gaps = seed % 3 === 1 ? 0.25 : 0;
  return days.map((value) => (share() < gaps ? null : seed % 7 === 3 ? Math.ceil(value) : value));
}

const told: Record<string, number> = {};

describe.each(Array.from({ length: some(60, 8) }, (_x, i) => i))('machine %d', (seed) => {
  const own = seed % 6 === 2 ? { least: 0.2, season: 0 } : seed % 4 === 3 ? { least: 0.8, resolution: 0.1 } : {};
  const prepared = prepareChange(own);

  test('each state and change', () => {
    expect(prepared).toEqual({ least: 0.5, season: 0.6 * (own.least ?? 0.5), resolution: null, ...own });
    let state = startChange();
    let twin: TwinState | null = null;
    valuesOf(seed).forEach((value, i) => {
      if (value === null) return;
      const day = i + 5 * seed - 30;
      const found = advanceChange(prepared, state, { day, value });
      const wanted = dayTwin(prepared, twin, day, value);
      const { ring, level, steps, ...rest } = found.state;
      const { ring: ringTwin, level: levelTwin, steps: stepsTwin, ...restTwin } = wanted.state;
      expect(rest).toEqual(restTwin);
      expect(ring).toHaveLength(ringTwin.length);
      near(ring[ring.length - 1] as number, ringTwin[ringTwin.length - 1] as number);
      near(level, levelTwin);
      expect(steps.count).toBe(stepsTwin.count);
      near(steps.square, stepsTwin.square);
      if (found.change === null || wanted.change === null) expect(found.change).toEqual(wanted.change);
      else {
        const { before, after, limit, ...what } = wanted.change;
        expect(found.change).toMatchObject(what);
        near(found.change.before, before);
        near(found.change.after, after);
        near(found.change.limit, limit);
        told[`${what.kind} ${what.direction}`] = (told[`${what.kind} ${what.direction}`] ?? 0) + 1;
      }
      const values = ring.filter((one) => one !== null).length;
      const judged = ring.length < 28 || values >= 0.35 * ring.length;
      expect(found.standing).toBe(judged ? (found.state.settled ? 'watching' : 'learning') : 'cannot_judge');
      if (found.standing !== 'watching' || i % 9 > 0) {
        if (found.standing !== 'watching')
          expect([found.smallestStep, found.smallestMonthlyRise]).toEqual([null, null]);
      } else {
        const sight = sightTwin(prepared, wanted.seen);
        near(found.smallestStep, sight.smallestStep);
        near(found.smallestMonthlyRise, sight.smallestMonthlyRise);
      }
      state = found.state;
      // the same digits for both, so that a rounding does not grow
      twin = { ...wanted.state, ...(found.state as TwinState) };
    });
  });
});

test('steps, slow changes and drifts were among them', () => {
  for (const kind of ['step up', 'step down', 'slow up', 'slow down'])
    expect([kind, (told[kind] ?? 0) > 0]).toEqual([kind, true]);
  expect((told['drift up'] ?? 0) + (told['drift down'] ?? 0)).toBeGreaterThan(0);
});
