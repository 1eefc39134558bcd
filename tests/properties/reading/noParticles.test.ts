/**
 * A counter that has died to zero, beside oil in which there is hardly a particle: zero comes by chance less often than
 * once in a unit-year, or it is no finding.
 */
import { describe, expect, test } from 'vitest';
import { noParticles } from '../../../src/reading/assess/empty.ts';
import type { FindingCode, Reading } from '../../../src/reading/index.ts';
import { assessReading } from '../../../src/reading/index.ts';
import { wholeLimits } from '../../../src/reading/ownLimits.ts';
import { advanceRepeats, noRepeats, type Repeats } from '../../../src/reading/remembered/repeats.ts';
import { normalOf, poissonOf, shares } from '../../chance.ts';
import { full, some } from '../../volume.ts';

const limits = wholeLimits({});
const seed = Number(process.env.MOTESCALE_SEED ?? 4406);
const shape = [1, 0.4, 0.12];
const sizes = [4, 6, 14];
function countsAt(perMl: number, volumeMl: number, next: () => number, raw = true): NonNullable<Reading['counts']> {
  let sum = 0;
  const counted = shape
    .map((share, i) => poissonOf(perMl * (share - (shape[i + 1] ?? 0)) * volumeMl, next))
    .reverse()
    .map((n) => {
      sum += n;
      return sum;
    })
    .reverse();
  const shown = counted.map((n) => (raw ? n / volumeMl : Math.round(n / volumeMl)));
  return { sizing: 'iso11171', sizes, volumeMl, perMl: shown, ...(raw ? { counted } : {}) };
}
const isFound = (reading: Reading, repeats: Repeats) =>
  (noParticles.find({ limits, reading, repeats, tables: [], needed: [] }) ?? []).length > 0;

/** The mean count of each code of ISO 4406 from 0 to 5 at 4 µm(c): its upper limit is 0.01 to 0.32. */
const ultraClean = [0.0075, 0.015, 0.03, 0.06, 0.12, 0.24];

describe('no false finding in a unit-year', () => {
  const year = (perMl: (share: number) => number, volumeMl: number, raw = true) => {
    // no fewer where sources are changed on purpose: oil that lost all within two readings is another law
    const readings = full ? 105120 : 4000;
    const next = shares(seed + volumeMl * 100);
    let repeats: Repeats = noRepeats;
    let found = 0;
    for (let i = 0; i < readings; i += 1) {
      const reading = { counts: countsAt(perMl(i / readings), volumeMl, next, raw) };
      repeats = advanceRepeats(repeats, reading);
      if (isFound(reading, repeats)) found += 1;
    }
    return found;
  };

  test.each(ultraClean)('of truly clean oil with %d particles per mL, whatever is counted', (perMl) => {
    for (const volumeMl of [0.1, 1, 10, 25]) expect(year(() => perMl, volumeMl)).toBe(0);
  });

  test('of oil cleaned from 18/16/13 to 0/0/0 and less within a year, a month or a week', () => {
    for (const share of [1, 1 / 12, 1 / 52])
      for (const raw of [true, false]) expect(year((t) => 2000 * 10 ** (-7 * Math.min(1, t / share)), 10, raw)).toBe(0);
  });
});

test('zero is found, the sooner the dirtier the oil was and the more of it is counted', () => {
  const foundAfter = (perMl: number, volumeMl: number, raw = true) => {
    // exact figures of one course of chance
    const next = shares(4406);
    let repeats: Repeats = noRepeats;
    for (let i = 0; i < 100; i += 1)
      repeats = advanceRepeats(repeats, { counts: countsAt(perMl, volumeMl, next, raw) });
    for (let n = 1; n <= 1000; n += 1) {
      const reading = { counts: countsAt(0, volumeMl, next, raw) };
      repeats = advanceRepeats(repeats, reading);
      if (isFound(reading, repeats)) return n;
    }
    return null;
  };
  expect([10000, 400, 20, 3].map((perMl) => foundAfter(perMl, 25))).toEqual([1, 1, 1, 6]);
  expect([10000, 400].map((perMl) => foundAfter(perMl, 1))).toEqual([1, 1]);
  expect(foundAfter(400, 0.1)).toBeLessThanOrEqual(10);
  // shown in whole particles per mL, zero may be 0.4
  expect([400, 20, 3].map((perMl) => foundAfter(perMl, 25, false))).toEqual([1, 1, null]);
});

describe('a counter that has died to a little noise at its smallest size', () => {
  /** Of 20 units: readings not called so after the sixtieth, and those called so before. */
  const courseOf = (
    perMl: number,
    volumeMl: number,
    raw: boolean,
    made: (next: () => number) => NonNullable<Reading['counts']>,
  ) => {
    let missed = 0;
    let early = 0;
    for (let unit = 1; unit <= 20; unit += 1) {
      const next = shares(unit);
      let repeats: Repeats = noRepeats;
      for (let i = 0; i < 260; i += 1) {
        const reading = { counts: i < 60 ? countsAt(perMl, volumeMl, next, raw) : made(next) };
        repeats = advanceRepeats(repeats, reading);
        const found = isFound(reading, repeats);
        if (i < 60 && found) early += 1;
        if (i >= 60 && !found) missed += 1;
      }
    }
    return { missed, early };
  };
  const noise = (pulses: number, volumeMl: number, raw: boolean) => (next: () => number) => {
    const counted = [poissonOf(pulses, next), 0, 0];
    const perMl = counted.map((n) => (raw ? n / volumeMl : Math.round(n / volumeMl)));
    return { sizing: 'iso11171' as const, sizes, perMl, ...(raw ? { counted, volumeMl } : {}) };
  };

  test.each([0.05, 0.3, 1, 5, 30])('is told at once and stays so, of %d pulses a reading', (pulses) => {
    for (const raw of [true, false])
      expect(courseOf(1100, 10, raw, noise(pulses, 10, raw))).toEqual({ missed: 0, early: 0 });
    // by fewer particles a reading too, as long as the noise is a sixty-fourth of them
    if (pulses < 10) expect(courseOf(1100, 1, true, noise(pulses, 1, true)).missed).toBeLessThanOrEqual(5);
  });

  test('oil cleaned thirtyfold at once is not, whatever is counted; a hundredfold soon no more', () => {
    for (const [perMl, volumeMl] of [
      [1100, 10],
      [100, 10],
      [100, 1],
      [10, 1],
      [1100, 0.05],
    ] as const) {
      const cleaned = (fold: number) =>
        courseOf(perMl, volumeMl, true, (next) => countsAt(perMl / fold, volumeMl, next));
      expect(cleaned(30)).toEqual({ missed: 4000, early: 0 });
      expect(cleaned(100).missed).toBeGreaterThan(3900);
    }
  });

  test('nor oil that began a thousand times dirtier, for five readings', () => {
    for (const [perMl, volumeMl] of [
      [1000, 10],
      [10, 1],
    ] as const) {
      const next = shares(7);
      let [repeats, found] = [noRepeats as Repeats, 0];
      for (let i = 0; i < 500; i += 1) {
        const reading = { counts: countsAt(i < 5 ? 1000 * perMl : perMl, volumeMl, next) };
        repeats = advanceRepeats(repeats, reading);
        if (isFound(reading, repeats)) found += 1;
      }
      expect(found).toBeLessThan(20);
      expect(isFound({ counts: countsAt(perMl, volumeMl, next) }, repeats)).toBe(false);
    }
  });

  test('one pulse restores nothing: the readings stay bad', () => {
    const next = shares(9);
    const before = Array.from({ length: 10 }, () => ({ counts: countsAt(1100, 10, next) }));
    const pulse = { counts: { ...countsAt(0, 10, next), perMl: [0.1, 0, 0], counted: [1, 0, 0] } };
    const { quality, findings } = assessReading(pulse, {}, [...before, { counts: countsAt(0, 10, next) }]);
    expect(quality).toBe('bad');
    expect(findings.find(({ code }) => code === 'no_particles')).toMatchObject({ value: 10 });
  });
});

test("the level is the unit's own: of zeros alone, of other sizes or without flow nothing is said", () => {
  const zero = { counts: { sizing: 'iso11171' as const, sizes, perMl: [0, 0, 0], volumeMl: 25 } };
  const full = { counts: { ...zero.counts, perMl: [400, 160, 48] } };
  const of = (reading: Reading, before: readonly Reading[], own = {}): [boolean, boolean] => {
    const { findings, unchecked } = assessReading(reading, own, before);
    const code: FindingCode = 'no_particles';
    return [findings.some((one) => one.code === code), unchecked.indexOf(code) >= 0];
  };
  expect(of(zero, [full])).toEqual([true, false]);
  expect(of(zero, [zero, zero])).toEqual([false, true]);
  expect(of({ ...zero, mlPerMin: 0 }, [full])).toEqual([false, true]);
  expect(of(zero, [full], { stuckChance: null })).toEqual([false, true]);
  const large = { ...full.counts, sizes: [10, 14, 21] };
  expect(of({ counts: { ...large, perMl: [0, 0, 0] } }, [{ counts: large }])).toEqual([false, true]);
  expect(of({ counts: { ...zero.counts, sizes: [4, 6, 21] } }, [full])).toEqual([false, true]);
  const [finding] = assessReading(zero, {}, [full, zero]).findings.filter(({ code }) => code === 'no_particles');
  expect(finding).toMatchObject({ quality: 'bad', affects: ['counts'], value: 50, limit: 20000 });
});

describe('a counter of few particles a reading', () => {
  const one = (counted: number): Reading => ({
    counts: { sizing: 'iso11171', sizes: [4], volumeMl: 1, perMl: [counted], counted: [counted] },
  });
  const taking = (repeats: Repeats, counted: number) => advanceRepeats(repeats, one(counted));
  const sound = (perMl: number, readings: number, next: () => number) => {
    let repeats: Repeats = noRepeats;
    for (let i = 0; i < readings; i += 1) repeats = taking(repeats, poissonOf(perMl, next));
    return repeats;
  };
  /** Readings of 1 mL until death is told, of so many counters: of half of them, and of nine in ten. */
  const toldAfter = (perMl: number, runs: number, most: number) => {
    const next = shares(1);
    const told: number[] = [];
    for (let j = 0; j < runs; j += 1) {
      let repeats = sound(perMl, Math.max(300, 200 / perMl), next);
      let n = 1;
      for (; n <= most; n += 1) {
        repeats = taking(repeats, 0);
        if (isFound(one(0), repeats)) break;
      }
      told.push(n);
    }
    told.sort((a, b) => a - b);
    return [0.5, 0.9].map((share) => told[Math.ceil(share * runs) - 1] as number);
  };

  test.each([
    [1, 520, 730],
    [2, 260, 355],
    [3, 150, 195],
    [10, 47, 60],
    ...(full
      ? [
          [0.1, 5500, 8000],
          [0.3, 1800, 2500],
        ]
      : []),
  ] as [number, number, number][])('of %d per mL is told after some %d readings, nine in ten by %d', (perMl, a, b) => {
    const [half, most] = toldAfter(perMl, some(200, 40), 9000) as [number, number];
    expect(Math.abs(half / a - 1)).toBeLessThan(0.15);
    expect(Math.abs(most / b - 1)).toBeLessThan(0.25);
  });

  test('until it is told, and where it cannot be, the check stands in unchecked', () => {
    const own = { limits, tables: [], needed: [], reading: one(0) };
    let repeats = sound(1, 300, shares(1));
    for (let n = 0; n < 5000; n += 1) {
      repeats = taking(repeats, 0);
      const found = noParticles.find({ ...own, repeats });
      expect(found === null || found.length === 1).toBe(true);
      if (found !== null) break;
    }
    expect(noParticles.find({ ...own, repeats })).toHaveLength(1);
    // four particles are no level
    expect(noParticles.find({ ...own, repeats: taking(taking(sound(0, 300, shares(1)), 4), 0) })).toBeNull();
  });

  test('oil cleaned a hundredfold at once is called so in one case of twenty at most, thirtyfold in none', () => {
    const called = (perMl: number, fold: number) => {
      const next = shares(3);
      let times = 0;
      for (let j = 0; j < some(400, 40); j += 1) {
        let repeats = sound(perMl, 300, next);
        for (let i = 0; i < some(4000, 1000); i += 1) {
          const counted = poissonOf(perMl / fold, next);
          repeats = taking(repeats, counted);
          if (!isFound(one(counted), repeats)) continue;
          times += 1;
          break;
        }
      }
      return times / some(400, 40);
    };
    for (const perMl of [3, 30]) {
      expect(called(perMl, 30)).toBe(0);
      expect(called(perMl, 100)).toBeLessThanOrEqual(0.05);
    }
  });

  test('oil whose particles wander from a tenth to tenfold within days is not called so in years', () => {
    const next = shares(4);
    for (const [perMl, swing, readings] of [
      [0.1, 1, 216],
      [1, 1, 216],
      [1, 1.5, 72],
      [5, 1.5, 216],
    ] as const) {
      const stays = Math.exp(-1 / readings);
      let [repeats, at, found] = [noRepeats as Repeats, normalOf(next), 0];
      for (let i = 0; i < some(20 * 26280, 13140); i += 1) {
        at = stays * at + Math.sqrt(1 - stays * stays) * normalOf(next);
        const counted = poissonOf(perMl * Math.exp(swing * at), next);
        repeats = taking(repeats, counted);
        if (isFound(one(counted), repeats)) found += 1;
      }
      expect(found).toBe(0);
    }
  });
});

test('oil a thousand times cleaner at once, in counts per mL of no known volume, is no dead counter', () => {
  const next = shares(seed);
  let repeats: Repeats = noRepeats;
  let found = 0;
  for (let i = 0; i < 112; i += 1) {
    const { sizing, perMl } = countsAt(i < 12 ? 40000 : 40, 10, next);
    const reading = { counts: { sizing, sizes, perMl } };
    repeats = advanceRepeats(repeats, reading);
    if (isFound(reading, repeats)) found += 1;
  }
  expect(found).toBe(0);
});
