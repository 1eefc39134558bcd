/**
 * A channel that has died to zero while the others live, beside oil that has no particle of its size: never a false
 * finding over the oils of docs/comparison.md and steeper ones, from ISO code 0 to 24, as they are cleaned, settle and
 * burst. Other random cases with MOTESCALE_SEED.
 */
import { describe, expect, test } from 'vitest';
import { advanceAcceptance, prepareAcceptance, startAcceptance } from '../../../src/acceptance/index.ts';
import { iso4406 } from '../../../src/codes/index.ts';
import { advanceMonitor, prepareMonitor, startMonitor } from '../../../src/monitor/index.ts';
import { channelEmpty } from '../../../src/reading/assess/empty.ts';
import { assessReading, type Finding, findingText, type Reading } from '../../../src/reading/index.ts';
import { wholeLimits } from '../../../src/reading/ownLimits.ts';
import { advanceRepeats, noRepeats, type Repeats } from '../../../src/reading/remembered/repeats.ts';
import { normalOf, poissonOf, shares } from '../../chance.ts';
import { some } from '../../volume.ts';
import { type Distribution, harsherShapes, shapes } from '../population.ts';

const seed = Number(process.env.MOTESCALE_SEED ?? 4406);
const limits = wholeLimits({});
const small = [4, 6, 14];
const large = [4, 6, 10, 14, 21, 38, 70];

/** What is counted of an oil, by the law of Poisson between sizes; shown raw, or as three digits of a count per mL. */
function countsOf(
  oil: Distribution,
  sizes: readonly number[],
  volumeMl: number,
  next: () => number,
  show: 'raw' | 'digits' | 'whole' = 'raw',
) {
  const counted: number[] = [];
  let sum = 0;
  for (let i = sizes.length - 1; i >= 0; i -= 1) {
    const above = i === sizes.length - 1 ? 0 : oil(sizes[i + 1] as number);
    sum += poissonOf(Math.max(0, oil(sizes[i] as number) - above) * volumeMl, next);
    counted[i] = sum;
  }
  const perMl = counted.map((n) => n / volumeMl);
  if (show === 'raw') return { sizing: 'iso11171' as const, sizes, perMl, counted, volumeMl };
  const shown = perMl.map((n) => (show === 'whole' ? Math.round(n) : Number(n.toPrecision(3))));
  return { sizing: 'iso11171' as const, sizes, perMl: shown };
}

type Counts = ReturnType<typeof countsOf>;
/** The number of the first reading of a course, from 1 on, at which a channel is called empty; null if none is. */
function foundAt(readings: number, countsAt: (i: number) => Counts): number | null {
  let repeats: Repeats = noRepeats;
  for (let i = 0; i < readings; i += 1) {
    const reading = { time: i * 600000, counts: countsAt(i) };
    repeats = advanceRepeats(repeats, reading);
    const found = channelEmpty.find({ limits, reading, repeats, tables: [], needed: [] }) ?? [];
    if (found.length > 0) return i + 1;
  }
  return null;
}

const oils: typeof shapes = {
  ...shapes,
  ...harsherShapes,
  'behind a fine filter: a power law of 4.5 to 6.5': (next) => {
    const exponent = 4.5 + 2 * next();
    return (size) => (size / 4) ** -exponent;
  },
};
/** As many per mL of 4 µm(c) as an ISO code has at most: 0.01 at 0, 160,000 at 24. */
const levelOf = (code: number) => 0.01 * 2 ** code;
const atLevel = (oil: Distribution, perMl: number): Distribution => {
  const scale = perMl / oil(4);
  return (size) => scale * oil(size);
};
/** By which a filter divides the count of a size: by 2 at so many µm, and by more the larger they are. */
const betaOf =
  (micron: number): Distribution =>
  (size) =>
    1 + (size / micron) ** 4;

describe('no oil has an empty channel', () => {
  test.each(Object.keys(oils))('steady: %s', (name) => {
    const next = shares(seed + name.length);
    for (let n = 0; n < some(4000, 60); n += 1) {
      const draw = (oils as typeof shapes)[name] as (typeof shapes)[string];
      const code = Math.floor(25 * next());
      const oil = atLevel(draw(next), levelOf(code) * (0.5 + next() / 2));
      const show = (['raw', 'raw', 'digits', 'whole'] as const)[n % 4] ?? 'raw';
      // a volume that is not told is taken for 1 mL or more
      const volumeMl = [show === 'raw' ? 0.1 : 1, 1, 10, 25, 100][n % 5] as number;
      const sizes = n % 3 === 0 ? small : large;
      const found = foundAt(60, () => countsOf(oil, sizes, volumeMl, next, show));
      expect(found, `${name}, code ${code}, ${volumeMl} mL, ${show}`).toBeNull();
    }
  });

  const courses: Readonly<Record<string, (next: () => number) => (i: number) => Distribution>> = {
    'cleaned by a filter, which takes the large ones first': (next) => {
      // so many passes a reading; and as the filter takes, some comes in
      const turn = 0.02 * 300 ** next();
      const beta = betaOf(2 + 20 * next());
      const left = 0.01 * 10 ** next();
      return (i) => (size) => {
        const taken = 1 - 1 / beta(size);
        const rest = Math.min(1, left / taken);
        return rest + (1 - rest) * Math.exp(-turn * Math.max(0, i - 20) * taken);
      };
    },
    'of another place at once: behind the filter': (next) => {
      const beta = betaOf(2 + 20 * next());
      return (i) => (size) => (i < 20 ? 1 : 1 / beta(size));
    },
    'before and behind a filter by turns': (next) => {
      const beta = betaOf(2 + 20 * next());
      const every = 1 + Math.floor(9 * next());
      return (i) => (size) => (Math.floor(i / every) % 2 === 0 ? 1 : 1 / beta(size));
    },
    // 14 µm of steel fall some 7 cm an hour in oil of 40 mm²/s: at most a tenth of a tank in ten minutes
    'settling, by the square of the size, every night': (next) => {
      const rate = 0.0005 * next();
      return (i) => (size) => Math.exp(-rate * size * size * Math.max(0, (i % 100) - 28));
    },
    'in bursts of all sizes': (next) => {
      const spread = 2 * next();
      let burst = 1;
      return () => {
        burst = Math.exp(spread * normalOf(next));
        const now = burst;
        return () => now;
      };
    },
    'in bursts of the large ones': (next) => {
      const often = next() / 4;
      const factor = 1000 ** next();
      return () => {
        const now = next() < often ? factor : 1;
        return (size) => (size < 10 ? 1 : now);
      };
    },
  };
  test.each(Object.entries(courses))('%s', (name, draw) => {
    const next = shares(seed + 7 * name.length);
    const names = Object.keys(shapes);
    for (let n = 0; n < some(4000, 80); n += 1) {
      const shape = names[n % names.length] as string;
      const code = 6 + Math.floor(19 * next());
      const oil = atLevel((shapes[shape] as (typeof shapes)[string])(next), levelOf(code));
      const change = draw(next);
      const volumeMl = [1, 10, 25][n % 3] as number;
      const sizes = n % 2 === 0 ? small : large;
      const show = (['raw', 'raw', 'digits', 'whole'] as const)[n % 4];
      const found = foundAt(120, (i) => {
        const now = change(i);
        return countsOf((size) => oil(size) * now(size), sizes, volumeMl, next, show);
      });
      expect(found, `${shape}, code ${code}, ${volumeMl} mL, ${show}, ${n}`).toBeNull();
    }
  });
});

describe('a channel that dies', () => {
  const mediumDust = (shapes['ISO medium test dust'] as (typeof shapes)[string])(shares(1));
  /** After so many readings of life the sizes from one on give zero: after how many readings that is told. */
  const diesAt = (size: number, perMl: number, volumeMl: number, show: 'raw' | 'digits', sizes = large, life = 40) => {
    const next = shares(4406);
    const oil = atLevel(mediumDust, perMl);
    const found = foundAt(life + 200, (i) => {
      const counts = countsOf(oil, sizes, volumeMl, next, show);
      if (i < life) return counts;
      const dead = (list: readonly number[]) => list.map((n, k) => ((sizes[k] as number) < size ? n : 0));
      return counts.counted === undefined
        ? { ...counts, perMl: dead(counts.perMl) }
        : { ...counts, perMl: dead(counts.perMl), counted: dead(counts.counted) };
    });
    return found === null ? null : found - life;
  };

  test('is told in the first reading where the unit has some hundred at its size, in five where it has thirty', () => {
    // 18/16/12 and dirtier has 27 per mL of 14 µm(c)
    expect(diesAt(14, 2000, 10, 'raw', small)).toBe(1);
    expect(diesAt(14, 2000, 1, 'raw', small)).toBeLessThanOrEqual(5);
    expect(diesAt(14, 60000, 1, 'digits', small)).toBe(1);
    expect(diesAt(21, 2000, 25, 'raw', [4, 6, 10, 14, 21])).toBe(1);
  });

  test('alone or with all above it', () => {
    for (const size of [14, 21]) expect(diesAt(size, 60000, 25, 'raw')).toBeLessThanOrEqual(5);
    expect(diesAt(6, 2000, 10, 'raw')).toBe(1);
  });

  test('is not told of fewer than a dozen, and stands in unchecked', () => {
    expect(diesAt(14, 50, 10, 'raw', small)).toBeNull();
    const counts = { sizing: 'iso11171' as const, sizes: small, perMl: [5, 2, 0] };
    const all = { counts: { ...counts, perMl: [5, 2, 1] } };
    const isUnchecked = (reading: Reading, own = {}) =>
      assessReading(reading, own).unchecked.indexOf('channel_empty') >= 0;
    expect(isUnchecked({ counts })).toBe(true);
    expect(isUnchecked({ counts: { ...counts, perMl: [0, 0, 0] } })).toBe(true);
    expect(isUnchecked(all)).toBe(false);
    expect(isUnchecked(all, { stuckChance: null })).toBe(true);
    expect(isUnchecked({ ...all, mlPerMin: 0 })).toBe(true);
    expect(isUnchecked({ counts: { ...counts, sizes: [4], perMl: [5] } })).toBe(true);
  });

  test('where nothing is known of the unit, at very many of the next smaller size', () => {
    // 6 to 14 µm: (6 / 14)^8 of 4020 is 4.58, four of which are fewer than -ln 1e-8 = 18.42
    const counts = { sizing: 'iso11171' as const, sizes: small, perMl: [1890, 402, 0] };
    const raw = { counts: { ...counts, counted: [18900, 4020, 0], volumeMl: 10 } };
    const told = (reading: Reading, n: number) =>
      assessReading(reading, {}, Array(n - 1).fill(reading)).findings.filter(({ code }) => code === 'channel_empty');
    expect(told(raw, 4)).toEqual([]);
    const [finding] = told(raw, 5);
    const limit = expect.closeTo(5 * 4020 * (6 / 14) ** 8, 9);
    expect(finding).toMatchObject({ quality: 'bad', affects: ['counts'], value: 0, limit, sizes: [14] });
    expect(findingText(finding as Finding)).toBe(
      'No particle of 14 µm(c) and larger was counted, where at least 22.9 were to be expected: a channel of the ' +
        'counter has failed.',
    );
    // of a volume not told, a zero may be up to one per mL
    expect(told({ counts }, 5)).toEqual([]);
    // in one reading, of so many that it is enough
    const once = (n: number) =>
      told({ counts: { ...counts, perMl: [4 * n, n, 0], counted: [4 * n, n, 0], volumeMl: 1 } }, 1).length;
    const least = -Math.log(1e-8) * (14 / 6) ** 8;
    expect([Math.floor(least), Math.ceil(least)].map(once)).toEqual([0, 1]);
  });

  test('by counts per mL alone a zero may be up to one per mL: Chernoff bounds how seldom', () => {
    // the level at 14 µm of n per mL of 6 µm, by the steepest oil, in 10 mL or 2
    const levelOf = (n: number) => n * (6 / 14) ** 8;
    const expected = (n: number, oil: number) => (levelOf(n) - 1 - Math.log(levelOf(n))) * oil;
    const told = (n: number, mlPerMin: number) => {
      const counts = { sizing: 'iso11171' as const, sizes: [6, 14], perMl: [n, 0] };
      const reading = { counts, mlPerMin, measuringSeconds: 60 };
      return assessReading(reading).findings.filter(({ code }) => code === 'channel_empty')[0]?.limit ?? null;
    };
    for (const oil of [10, 2]) {
      let [few, many] = [Math.ceil((14 / 6) ** 8), 1e6];
      while (many - few > 1) {
        const middle = Math.floor((few + many) / 2);
        if (expected(middle, oil) < -Math.log(1e-8)) few = middle;
        else many = middle;
      }
      expect([few, many].map((n) => told(n, oil))).toEqual([null, expect.closeTo(expected(many, oil), 9)]);
      // below one per mL a zero is none
      expect(told(100, oil)).toBeNull();
    }
  });

  test('keeps the alarm on dirt where it is, and is not accepted', () => {
    const alarms = [{ id: 'dirt', type: 'high', figure: { code: 'iso4406' }, setpoint: '18/16/13' }] as const;
    const prepared = prepareMonitor({ codes: [{ table: iso4406, target: '18/16/13' }], alarms });
    let state = startMonitor(prepared);
    const events: string[] = [];
    for (let i = 0; i < 60; i += 1) {
      const at14 = i < 40 ? 200 + ((i * 13) % 29) : 0;
      const perMl = [1890 + ((i * 37) % 91), 402 + ((i * 17) % 43), at14];
      const counts = { sizing: 'iso11171' as const, sizes: small, perMl };
      const step = advanceMonitor(prepared, state, { time: i * 3600000, counts });
      state = step.state;
      events.push(...step.events.map(({ event }) => `${event} ${i}`));
    }
    expect(events).toEqual(['raised 0', 'quality_bad 40']);
    const proof = prepareAcceptance({ table: iso4406, target: '18/16/13', readings: 6, leastMs: 0 });
    let run = startAcceptance(proof);
    const told: string[] = [];
    for (let i = 0; i < 12; i += 1) {
      const counted = [18900 + ((i * 37) % 91), 4020 + ((i * 17) % 43), 0];
      const perMl = counted.map((n) => n / 10);
      const counts = { sizing: 'iso11171' as const, sizes: small, perMl, counted, volumeMl: 10 };
      const step = advanceAcceptance(proof, run, { time: i * 600000, counts });
      run = step.state;
      told.push(...step.events.map((event) => `${event.event} ${'why' in event ? event.why : ''} ${i}`));
    }
    expect(run.accepted).toBeUndefined();
    // what came before it told is in doubt too
    expect(told.find((one) => one.includes('counts_stuck'))).toBe('restarted counts_stuck 4');
  });
});
