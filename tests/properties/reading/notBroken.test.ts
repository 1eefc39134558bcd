/**
 * What looks like a broken counter or pump and is none: a counter that is full, bubbles larger than every size, a
 * counter read faster than it measures, a flow that warms up. And the broken one beside each, which is told as before.
 */
import { describe, expect, test } from 'vitest';
import { iso4406 } from '../../../src/codes/index.ts';
import { advanceMonitor, prepareMonitor, startMonitor } from '../../../src/monitor/index.ts';
import { assess } from '../../../src/reading/assessReading.ts';
import type { Assessment, OwnReadingLimits, Reading, TimedReading } from '../../../src/reading/index.ts';
import { wholeLimits } from '../../../src/reading/ownLimits.ts';
import { advanceRepeats, movedRepeats, noRepeats, type Repeats } from '../../../src/reading/remembered/repeats.ts';
import { poissonOf, shares } from '../../chance.ts';
import { some } from '../../volume.ts';

const minute = 60000;
const seed = Number(process.env.MOTESCALE_SEED ?? 4406);
const raw = (sizes: readonly number[], counted: readonly number[], volumeMl = 10) => ({
  ...{ sizing: 'iso11171' as const, sizes, counted, volumeMl },
  perMl: counted.map((n) => n / volumeMl),
});
/** Of each reading, what is told and what it is worth. */
function course(readings: readonly Reading[], own: OwnReadingLimits = {}): Assessment[] {
  let repeats: Repeats = noRepeats;
  return readings.map((reading) => {
    repeats = advanceRepeats(repeats, reading);
    return assess(wholeLimits(own), reading, repeats);
  });
}
const codesOf = ({ findings }: Assessment) => findings.map(({ code }) => code);
const all = (told: readonly Assessment[]) => [...new Set(told.flatMap(codesOf))];

describe('a counter that is full', () => {
  const sizes = [4, 6, 14];
  const dirty = (counted: (i: number) => readonly number[], dilution?: number): readonly TimedReading[] =>
    Array.from({ length: 50 }, (_x, i) => {
      const counts = raw(sizes, counted(i));
      return { time: i * 10 * minute, counts: dilution === undefined ? counts : { ...counts, dilution } };
    });
  const two = dirty((i) => [65535, 65535, 19800 + ((i * 131) % 977)]);
  const three = dirty(() => [65535, 65535, 65535]);

  test('beyond its coincidence limit is uncertain from the first reading to the last, and raises the alarm', () => {
    for (const readings of [two, three]) {
      const told = course(readings, { coincidencePerMl: 6000 });
      expect(told.map(({ quality }) => quality)).toEqual(readings.map(() => 'uncertain'));
      expect(told.every((one) => codesOf(one).includes('above_coincidence_limit'))).toBe(true);
      const alarms = [
        { id: 'dirt', type: 'high', figure: { code: 'iso4406' }, setpoint: '18/16/13', onDelayMs: 30 * minute },
      ] as const;
      const prepared = prepareMonitor({ codes: [{ table: iso4406 }], limits: { coincidencePerMl: 6000 }, alarms });
      let state = startMonitor(prepared);
      const events = readings.flatMap((reading) => {
        const step = advanceMonitor(prepared, state, reading);
        state = step.state;
        return step.events.map(({ event, time }) => `${event} ${time / minute}`);
      });
      expect(events.filter((one) => one.startsWith('raised'))).toEqual(['raised 30']);
    }
  });

  test('is frozen or broken below that limit, as before', () => {
    for (const own of [{}, { coincidencePerMl: 6553.5 }]) {
      expect(course(two, own).at(-1)).toMatchObject({ quality: 'bad' });
      expect(all(course(three, own))).toContain('values_stuck');
    }
    // diluted ten times it saw 655 per mL only
    expect(
      all(
        course(
          dirty(() => [65535, 65535, 65535], 10.1),
          { coincidencePerMl: 6000 },
        ),
      ),
    ).toContain('values_stuck');
  });

  test('shows by another size that it has frozen', () => {
    const frozen = dirty(() => [65535, 65535, 19800]);
    expect(all(course(frozen, { coincidencePerMl: 6000 }))).toContain('values_stuck');
  });
});

describe('bubbles larger than every size', () => {
  const sizes = [4, 6, 14, 21, 38, 70];
  /** Falls off as medium test dust does, about. */
  const share = [1, 0.4, 0.045, 0.012, 0.0003, 0.00001];
  const readings = (bubbles: number, dust: number, change = (counted: number[]) => counted, of = sizes) => {
    const next = shares(seed + bubbles + dust);
    return Array.from({ length: 300 }, (_x, k) => {
      let sum = poissonOf(bubbles * 10, next);
      const counted: number[] = [];
      for (let i = 5; i >= 0; i -= 1) {
        sum += poissonOf(dust * 10 * ((share[i] as number) - (share[i + 1] ?? 0)), next);
        counted[i] = sum;
      }
      const changed = change(counted).filter((_n, i) => of.includes(sizes[i] as number));
      return { time: k * 10 * minute, counts: raw(of, changed) };
    });
  };

  test.each([
    [50, 20],
    [50, 100],
    [200, 20],
    [200, 100],
    [50, 0],
  ])('%d per mL in dust of %d per mL are uncertain, and no broken channel', (bubbles, dust) => {
    for (const of of [sizes, [4, 6, 14, 38, 70], [6, 14, 21, 38]]) {
      const told = course(readings(bubbles, dust, undefined, of), { particles: null, stuckChance: null });
      expect(all(told)).toEqual(['flat_size_distribution']);
      expect(told.every(({ quality }) => quality === 'uncertain')).toBe(true);
    }
  });

  test('a channel that shows its neighbour is told wherever it is, also in dirt as flat as any', () => {
    for (let i = 1; i < 5; i += 1)
      for (const shown of [i, i - 1]) {
        const copied = (counted: number[]) =>
          counted.map((n, k) => (k === i || k === i - 1 ? (counted[shown] as number) : n));
        expect(all(course(readings(0, 40000, copied))), `${i} ${shown}`).toContain('channels_equal');
        // log N = c - 0.95 (log size)², hardly steeper than the flattest there is
        const flat = raw(sizes, copied(sizes.map((size) => Math.round(1e6 * 10 ** (-0.95 * Math.log10(size) ** 2)))));
        expect(all(course([0, 1, 2].map((n) => ({ time: n, counts: flat })))), `${i} ${shown}`).toContain(
          'channels_equal',
        );
      }
  });
});

describe('a counter read faster than it measures', () => {
  const sizes = [4, 6, 14];
  const counted = (m: number) => [18900 + ((m * 7919) % 613), 4020 + ((m * 4567) % 211), 330 + ((m * 3331) % 67)];
  /** For so many minutes; each measurement takes one. */
  const polled = (minutes: number, everySeconds: number, of = counted, beside: object = {}): TimedReading[] =>
    Array.from({ length: (minutes * 60) / everySeconds }, (_x, i) => {
      const time = i * everySeconds * 1000;
      const counts = raw(sizes, of(Math.floor(time / minute)));
      return { time, measuringSeconds: 60, mlPerMin: 10, counts, ...beside };
    });

  test.each([1, 10, 7, 59])('every %d s repeats itself, and has not stopped', (every) => {
    expect(all(course(polled(60, every)))).toEqual([]);
  });

  test('nor by two channels that are equal in one measurement', () => {
    const equal = (m: number) => (m === 3 ? [18900, 4020, 4020] : counted(m));
    expect(all(course(polled(10, 10, equal), { flattestSteepness: 0.926 }))).not.toContain('channels_equal');
  });

  test('is told to have stopped after as many measurements as one read once each', () => {
    const stopped = () => counted(1);
    const stoppedAt = (readings: readonly TimedReading[]) =>
      (readings[course(readings).findIndex((one) => codesOf(one).includes('values_stuck'))] as TimedReading).time;
    const once = stoppedAt(polled(20, 60, stopped));
    expect(once).toBe(2 * minute);
    expect(stoppedAt(polled(20, 10, stopped))).toBe(once);
    // where the time of a measurement is not told, each reading is one
    expect(stoppedAt(polled(20, 10, stopped, { measuringSeconds: undefined }))).toBe(20000);
  });

  test('without that time it is called stuck so often, as docs/frozen.md says', () => {
    const calledStuck = (isNew: (i: number) => boolean) => {
      const next = shares(5);
      let counts = raw(sizes, [0, 0, 0]);
      const readings = Array.from({ length: some(10000, 2000) }, (_x, i) => {
        if (i === 0 || isNew(i)) {
          const large = poissonOf(40, next);
          const middle = large + poissonOf(300, next);
          counts = raw(sizes, [middle + poissonOf(1200, next), middle, large]);
        }
        return { counts };
      });
      const stuck = course(readings).filter((one) => /_stuck/.test(codesOf(one).join()));
      return stuck.length / readings.length;
    };
    expect(calledStuck((i) => i % 2 === 0)).toBeLessThan(0.001);
    expect(Math.abs(calledStuck((i) => i % 3 === 0) - 0.3)).toBeLessThan(0.04);
    expect(Math.abs(calledStuck((i) => i % 4 === 0) - 0.48)).toBeLessThan(0.04);
    expect(Math.abs(calledStuck((i) => i % 6 === 0) - 0.65)).toBeLessThan(0.04);
    const chance = shares(6);
    expect(Math.abs(calledStuck(() => chance() < 0.5) - 0.23)).toBeLessThan(0.05);
  });

  test('by readings of a thermometer in between as well', () => {
    const mixed = (of: (m: number) => number[], every: number) =>
      polled(20, 10, of).map(({ counts, ...rest }, i) =>
        i % every === 0 ? { ...rest, counts } : { time: rest.time, celsius: 40 + (i % 7) },
      );
    for (const every of [2, 3]) expect(all(course(mixed(counted, every) as TimedReading[]))).toEqual([]);
    const told = course(mixed(() => counted(1), 6) as TimedReading[]).findIndex((one) =>
      codesOf(one).includes('values_stuck'),
    );
    expect(told).toBe(12);
  });

  test('is not compared across a clock that was set', () => {
    const [one, two] = polled(1, 10) as [TimedReading, TimedReading];
    const doubled = advanceRepeats(advanceRepeats(noRepeats, one), two);
    expect(doubled).toMatchObject({ known: 1, runs: [1, 1, 1], time: 10000, age: 10000 });
    const next = { ...two, time: 3600000 };
    expect(advanceRepeats(movedRepeats(doubled, 3590000), next)).toMatchObject({ known: 2, runs: [2, 2, 2] });
  });
});

describe('a flow that pulsates', () => {
  const readings = (everyMs: number, beside: (i: number) => readonly TimedReading[] = () => []) =>
    Array.from({ length: 60 }, (_x, i): TimedReading[] => [
      { time: i * everyMs, celsius: i % 2 ? 42 : 27, mlPerMin: i % 2 ? 64 : 34 },
      ...beside(i),
    ]).flat();
  const told = (everyMs: number, beside?: (i: number) => readonly TimedReading[]) => {
    const course1 = course(readings(everyMs, beside));
    return [
      course1.filter((one) => codesOf(one).includes('flow_pulsating')).length,
      course1.at(-1)?.unchecked.includes('flow_pulsating'),
    ];
  };

  test('does so within a quarter of an hour; what lies further apart is not judged', () => {
    expect([1, 10, 15].map((n) => told(n * minute))).toEqual([54, 54, 54].map((n) => [n, false]));
    expect([15.001, 60, 720].map((n) => told(n * minute))).toEqual([0, 0, 0].map((n) => [n, true]));
  });

  test('also with readings of a thermometer between', () => {
    const thermometer = (everyMs: number) => (i: number) =>
      [1, 2, 3].map((k) => ({ time: (i + k / 4) * everyMs, celsius: 40 }));
    expect(told(12 * minute, thermometer(12 * minute))[0]).toBe(54);
    expect(told(32 * minute, thermometer(32 * minute))[0]).toBe(0);
  });
});
