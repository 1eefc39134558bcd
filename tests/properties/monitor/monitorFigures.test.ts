/**
 * The figures a monitor takes: a reading is known again by all of them, and none is so large that it blocks the monitor
 * or its memory.
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type CumulativeCounts, cumulativeCounts } from '../../../src/counts/index.ts';
import { fingerprint } from '../../../src/judging/fingerprint.ts';
import { openTrend } from '../../../src/monitor/followed/keptTrend.ts';
import { openChange } from '../../../src/monitor/followed/means.ts';
import type { MonitorConfig, MonitorState } from '../../../src/monitor/index.ts';
import { shorten } from '../../../src/numeric/shorten.ts';
import type { TimedReading } from '../../../src/reading/index.ts';
import { stream } from '../../doubles.ts';
import { some } from '../../volume.ts';
import { advanceMonitor, startMonitor, stateBytes } from '../watched.ts';

type Loose = { -readonly [name in keyof TimedReading]: TimedReading[name] };

describe('a time that was there already', () => {
  const bare: MonitorConfig = { codes: [] };
  const second = (first: TimedReading, again: TimedReading) => {
    const { state } = advanceMonitor(bare, startMonitor(bare), first);
    return advanceMonitor(bare, JSON.parse(JSON.stringify(state)), again).events.map(({ event }) => event);
  };
  const counts = cumulativeCounts({ 4: 1000, 6: 400, 14: 50 });
  const raw = cumulativeCounts({ 4: 10000, 6: 4000, 14: 500 }, { volumeMl: 10 });
  const full: TimedReading = {
    time: 0,
    counts: raw,
    mlPerMin: 50,
    measuringSeconds: 60,
    kPa: 800,
    celsius: 45,
    mm2PerS: 46,
    waterSaturation: 0.3,
    coldestCelsius: 20,
    flushedMl: 900,
    others: { 'acid number': 0.6, Fe: 12 },
  };

  test.each<[string, TimedReading, TimedReading]>([
    [
      'counts changed so that a weighted sum stays',
      { time: 0, counts },
      { time: 0, counts: cumulativeCounts({ 4: 1001, 6: 398, 14: 51 }) },
    ],
    ['other sizes', { time: 0, counts }, { time: 0, counts: { ...counts, sizes: [5, 6, 14] } }],
    ['another sizing', { time: 0, counts }, { time: 0, counts: { ...counts, sizing: 'iso4402' } }],
    ['fewer sizes', { time: 0, counts }, { time: 0, counts: cumulativeCounts({ 4: 1000, 6: 400 }) }],
    [
      'the numbers counted, in a volume that is not told',
      { time: 0, counts: { ...counts, counted: [10000, 4000, 500] } },
      { time: 0, counts: { ...counts, counted: [10000, 4000, 501] } },
    ],
    [
      'twice the number in twice the volume',
      full,
      { ...full, counts: cumulativeCounts({ 4: 20000, 6: 8000, 14: 1000 }, { volumeMl: 20 }) },
    ],
    [
      'twice the volume, twice diluted',
      full,
      { ...full, counts: cumulativeCounts({ 4: 10000, 6: 4000, 14: 500 }, { volumeMl: 20, dilution: 2 }) },
    ],
    ['no number counted', full, { ...full, counts }],
    ['the volume', { time: 0, counts: { ...counts, volumeMl: 10 } }, { time: 0, counts: { ...counts, volumeMl: 11 } }],
    ['the dilution', { time: 0, counts: { ...counts, dilution: 2 } }, { time: 0, counts: { ...counts, dilution: 3 } }],
    ['another name', full, { ...full, others: { 'acid number': 0.6, Cu: 12 } }],
    ['names exchanged', full, { ...full, others: { 'acid number': 12, Fe: 0.6 } }],
    ['a figure under no name', full, { ...full, others: { 'acid number': 0.6 } }],
    ['a figure of 0 and none', { time: 0, counts }, { time: 0, counts, kPa: 0 }],
    ['a figure and its opposite', { time: 0, counts, kPa: 20 }, { time: 0, counts, kPa: -20 }],
    ['a figure under another quantity', { time: 0, counts, kPa: 50 }, { time: 0, counts, celsius: 50 }],
    ['the last bit', { time: 0, counts, celsius: 0.3 }, { time: 0, counts, celsius: 0.1 + 0.2 }],
  ])('contradicted: %s', (_name, first, again) => {
    expect(second(first, again)).toEqual(['contradicted']);
    expect(second(again, first)).toEqual(['contradicted']);
    expect(second(again, again)).toEqual(['repeated']);
  });

  test.each<[string, TimedReading, TimedReading]>([
    ['names in another order', full, { ...full, others: { Fe: 12, 'acid number': 0.6 } }],
    ['0 and -0', { ...full, kPa: 0 }, { ...full, kPa: -0 }],
    ['undefined and left out', { time: 0, counts }, { time: 0, counts, kPa: undefined }],
    ['no others and none among them', { time: 0, counts }, { time: 0, counts, others: {} }],
    [
      'a dilution of 1 and none',
      full,
      {
        ...full,
        counts: { sizing: raw.sizing, sizes: raw.sizes, perMl: raw.perMl, counted: [10000, 4000, 500], volumeMl: 10 },
      },
    ],
  ])('repeated: %s', (_name, first, again) => {
    expect(second(first, again)).toEqual(['repeated']);
  });

  const figure = (max: number) => fc.oneof(fc.integer({ min: 1, max }), fc.double({ min: 1e-3, max, noNaN: true }));
  const falling = fc
    .array(fc.nat({ max: 1000000 }), { minLength: 1, maxLength: 6 })
    .map((list) => list.sort((a, b) => b - a));
  const someCounts: fc.Arbitrary<CumulativeCounts> = fc
    .tuple(falling, fc.constantFrom('iso11171', 'iso4402'), fc.boolean(), fc.boolean())
    .map(([list, sizing, isRaw, diluted]) => {
      const at = Object.fromEntries(list.map((count, i) => [4 + 3 * i, count]));
      const of = isRaw ? { sizing, volumeMl: 25, dilution: diluted ? 4 : 1 } : { sizing };
      return cumulativeCounts(at, of as never);
    });
  const someReading: fc.Arbitrary<TimedReading> = fc.record(
    {
      time: fc.constant(1.8e12),
      counts: someCounts,
      mlPerMin: figure(500),
      measuringSeconds: figure(600),
      kPa: fc.double({ min: -1e12, max: 1e12, noNaN: true }),
      celsius: fc.oneof(fc.integer({ min: -40, max: 150 }), fc.double({ min: -40, max: 150, noNaN: true })),
      mm2PerS: figure(10000),
      waterSaturation: fc.double({ min: 0, max: 2, noNaN: true }),
      coldestCelsius: fc.integer({ min: -40, max: 150 }),
      flushedMl: figure(5000),
      others: fc.dictionary(
        fc.string({ minLength: 1, maxLength: 8 }),
        fc.double({ min: -1e12, max: 1e12, noNaN: true }),
        {
          maxKeys: 4,
          noNullPrototype: true,
        },
      ),
    },
    { requiredKeys: ['time', 'counts'] },
  );
  const quantities = [
    'mlPerMin',
    'measuringSeconds',
    'kPa',
    'celsius',
    'mm2PerS',
    'waterSaturation',
    'coldestCelsius',
    'flushedMl',
  ] as const;

  /** All readings that differ from this one in one thing, by the amount, where they can. */
  function others(reading: TimedReading, amount: number): Loose[] {
    const found: Loose[] = [];
    const change = (part: Partial<Loose>) => found.push({ ...reading, ...part });
    const nudged = (value: number, most = 1e12) => (value + amount <= most ? value + amount : value / 2);
    const list = (values: readonly number[], i: number) => values.map((value, k) => (k === i ? nudged(value) : value));
    const { others: named = {} } = reading;
    const counts = reading.counts as CumulativeCounts;
    const { counted, volumeMl = 10, dilution = 1, ...unsaid } = counts;
    // where the number counted is told, the counts per mL follow from it
    const per = (n: readonly number[], ml: number, diluted: number) =>
      cumulativeCounts(Object.fromEntries(n.map((one, k) => [counts.sizes[k], one])), {
        sizing: counts.sizing,
        volumeMl: ml,
        dilution: diluted,
      });
    counts.perMl.forEach((_count, i) => {
      change({ counts: { ...counts, sizes: counts.sizes.map((size, k) => (k === i ? size + 1 / 8 : size)) } });
      if (counted === undefined) change({ counts: { ...counts, perMl: list(counts.perMl, i) } });
      else
        change({
          counts: per(
            counted.map((n, k) => (k <= i ? n + 1 : n)),
            volumeMl,
            dilution,
          ),
        });
    });
    if (counted === undefined) {
      change({ counts: { ...counts, volumeMl } });
      change({ counts: { ...counts, dilution: 2 } });
      change({ counts: { ...counts, counted: counts.perMl.map(Math.floor) } });
    } else {
      change({ counts: unsaid });
      change({ counts: per(counted, volumeMl + 1, dilution) });
      change({ counts: per(counted, volumeMl * 2, dilution * 2) });
    }
    change({ counts: { ...counts, sizing: counts.sizing === 'iso4402' ? 'iso11171' : 'iso4402' } });
    for (const name of quantities) {
      const value = reading[name];
      if (value === undefined) change({ [name]: 1 });
      else {
        change({ [name]: undefined });
        change({ [name]: nudged(value, name === 'waterSaturation' ? 2 : 1e12) });
      }
    }
    for (const name of Object.keys(named)) {
      const { [name]: value, ...rest } = named;
      change({ others: rest });
      change({ others: { ...named, [name]: nudged(value as number) } });
      change({ others: { ...rest, [`${name}'`]: value as number } });
    }
    change({ others: { ...named, another: 0 } });
    return found;
  }

  test('any change of a figure, a size, the sizing or a name contradicts; the same reading repeats', () => {
    fc.assert(
      fc.property(someReading, fc.constantFrom(1, 0.125, 256), (reading, amount) => {
        const { state } = advanceMonitor(bare, startMonitor(bare), reading);
        const told = (again: TimedReading) => advanceMonitor(bare, state, again).events.map(({ event }) => event);
        expect(told(JSON.parse(JSON.stringify(reading)))).toEqual(['repeated']);
        for (const changed of others(reading, amount)) {
          // an amount that the figure is too large to take, or half of a 0, is no change
          if (JSON.stringify(changed) === JSON.stringify(reading)) continue;
          expect(told(changed), JSON.stringify(changed)).toEqual(['contradicted']);
        }
      }),
      { numRuns: some(150, 50) },
    );
  });

  test('counts changed together, each by a few: none is taken for the first', () => {
    const { state } = advanceMonitor(bare, startMonitor(bare), { time: 0, counts });
    const missed: string[] = [];
    for (let a = -6; a <= 6; a += 1)
      for (let b = -6; b <= 6; b += 1)
        for (let c = -6; c <= 6; c += 1) {
          const again = { time: 0, counts: { ...counts, perMl: [1000 + a, 400 + b, 50 + c] } };
          const event = advanceMonitor(bare, state, again).events[0]?.event;
          if ((event === 'repeated') !== (a === 0 && b === 0 && c === 0)) missed.push(`${a} ${b} ${c}`);
        }
    expect(missed).toEqual([]);
  });

  test('of 2^16 neighbours hardly two share a fingerprint: half a pair is expected', () => {
    const seen = new Set<number>();
    for (let a = 0; a < 256; a += 1)
      for (let b = 0; b < 256; b += 1)
        seen.add(fingerprint({ time: 0, counts: { ...counts, perMl: [1000 + a, 400 + b, 50] }, kPa: a + b }));
    expect(seen.size).toBeGreaterThanOrEqual(65536 - 4);
    for (const print of seen) if (print !== print >>> 0) expect.unreachable(`${print} is no word of 32 bits`);
  });

  test('of 2^18 whole counts no two share one: they differ in one word', () => {
    const seen = new Set<number>();
    const all = some(2 ** 18, 2 ** 14);
    for (let count = 0; count < all; count += 1)
      seen.add(fingerprint({ time: 0, counts: { sizing: 'iso11171', sizes: [4], perMl: [count] } }));
    expect(seen.size).toBe(all);
  });

  /** The same by whole numbers of any length, from the bits of the doubles as IEEE 754 lays them out. */
  function twin({ counts, kPa }: TimedReading): number {
    const { sizing, sizes, perMl } = counts as CumulativeCounts;
    const word = (x: bigint) => BigInt.asUintN(32, x);
    const turn = (x: bigint, by: bigint) => word((x << by) | (x >> (32n - by)));
    const view = new DataView(new ArrayBuffer(8));
    const number = (x: number | undefined): bigint[] => {
      if (x === undefined) return [0xfff00000n];
      view.setFloat64(0, x);
      const bits = view.getBigUint64(0);
      if (x === 0) return [0n, 0n];
      const exponent = ((bits >> 52n) & 2047n) - 1023n + 1075n + (bits >> 63n) * 2048n;
      return [(exponent << 20n) | ((bits >> 32n) & 0xfffffn), word(bits)];
    };
    const list = (values: readonly number[]) => [BigInt(values.length), ...values.flatMap(number)];
    const words = [
      BigInt(sizing.length),
      ...Array.from(sizing, (letter) => BigInt(letter.charCodeAt(0))),
      ...list(sizes),
      ...list(perMl),
      0xfff00000n,
      ...[
        undefined,
        1,
        undefined,
        undefined,
        kPa,
        undefined,
        undefined,
        undefined,
        undefined,
        undefined,
        undefined,
      ].flatMap(number),
    ];
    let hash = 0n;
    for (const one of words)
      hash = word(turn(hash ^ word(turn(word(one * 0xcc9e2d51n), 15n) * 0x1b873593n), 13n) * 5n + 0xe6546b64n);
    hash = word((hash ^ (hash >> 16n)) * 0x85ebca6bn);
    hash = word((hash ^ (hash >> 13n)) * 0xc2b2ae35n);
    return Number(hash ^ (hash >> 16n));
  }

  test('the arithmetic is exact: the same as by whole numbers of any length', () => {
    const double = fc.double({ min: 1e-12, max: 1e12, noNaN: true });
    const pressure = fc.oneof(
      double,
      double.map((x) => -x),
      fc.constantFrom(0, -0, undefined),
    );
    fc.assert(
      fc.property(fc.array(double, { minLength: 1, maxLength: 6 }), pressure, (perMl, kPa) => {
        const one: TimedReading = { time: 0, counts: { ...counts, perMl }, kPa };
        expect(fingerprint(one)).toBe(twin(one));
      }),
      { numRuns: some(1000) },
    );
  });
});

describe('figures of any size', () => {
  const minute = 60000;
  const start = 1.8e12;
  const counts = cumulativeCounts({ 4: 1890, 6: 402, 14: 33 });
  const names = ['a', 'b', 'c'];
  const figures = [{ quantity: 'kPa' } as const, ...names.map((other) => ({ other }))];
  const follow = figures.map((figure, i) => ({
    id: 'f'.repeat(10 * i + 1),
    figure,
    blockMs: minute,
    blocks: 60,
  }));
  const limits = { stuckChance: null, plausibleKPa: null };
  const alarms: MonitorConfig['alarms'] = [
    { id: 'low', type: 'low', figure: { quantity: 'kPa' }, setpoint: -1, chattering: { raises: 18, withinMs: minute } },
  ];
  const crowded: MonitorConfig = { codes: [], limits, alarms, follow, maxStateBytes: 10560 };
  const all = (time: number, figure: () => number): TimedReading => ({
    time,
    counts,
    kPa: figure(),
    others: Object.fromEntries(names.map((name) => [name, figure()])),
  });
  const bytesOf = (state: MonitorState) => new TextEncoder().encode(JSON.stringify(state)).length;

  /** The most bytes that the state has had. */
  function longRun(of: MonitorConfig, blocks: number, figure: (block: number) => number): number {
    let state = startMonitor(of);
    let most = 0;
    for (let block = 0; block < blocks; block += 1)
      for (const after of [0, 20011]) {
        state = advanceMonitor(
          of,
          state,
          all(start + block * minute + after, () => figure(block)),
        ).state;
        most = Math.max(most, bytesOf(state));
      }
    for (const { change, trend: kept } of state.followed) {
      const trend = openTrend(kept as string);
      const { ring } = openChange(change as string);
      expect(ring).toHaveLength(Math.min(63, blocks - 1));
      for (const mean of ring) expect(mean).toSatisfy(Number.isFinite);
      for (const slope of [trend.perDay, trend.low, trend.high]) expect(slope).toSatisfy(Number.isFinite);
    }
    return most;
  }

  const random = stream(8192);
  const around = (figure: number) => () => figure * (1 + (random() - 0.5) / 10);
  const extremes = [-1e12, -999999949999.9999, 999999949999.9999, 1e12];
  test.each<[string, (block: number) => number]>([
    ['-1.2e-6, the longest as JSON', around(-1.2345678e-6)],
    ['9e-7', around(9.8765432e-7)],
    ['-1e-12', around(-1.2345678e-12)],
    ['-9e11', around(-9.2345678e11)],
    ['ends of the range in turn', (block) => extremes[(block * 7 + Math.floor(random() * 2)) % 4] as number],
    ['any magnitude and sign', () => (random() < 0.5 ? -1 : 1) * 10 ** (24 * random() - 12)],
    ['a fall at the rate of the range in an hour', (block) => 1e12 - ((block % 60) / 59) * 2e12 * 0.9876543],
    ['tiny, then immense', (block) => (block < 90 ? -1e-12 * (1 + (block % 3) / 1e6) : -1e12 * random())],
  ])('near the most bytes the state keeps within them: %s', (_name, figure) => {
    const most = stateBytes(crowded);
    expect(longRun(crowded, some(250, 60), figure)).toBeLessThanOrEqual(most);
  });

  const good = (time: number): TimedReading => ({ ...all(time, () => 800), mm2PerS: 46, mlPerMin: 50, celsius: 45 });
  const beyond = 1000000000001;
  test.each<[string, Partial<TimedReading>]>([
    ['kPa', { kPa: 1e61 }],
    ['kPa', { kPa: -1.7e308 }],
    ['kPa', { kPa: -5e29 }],
    ['kPa', { kPa: beyond }],
    ['mm2PerS', { mm2PerS: 1e60 }],
    ['mm2PerS', { mm2PerS: beyond }],
    ['mlPerMin', { mlPerMin: 1e60 }],
    ['mlPerMin', { mlPerMin: beyond }],
    ['celsius', { celsius: beyond }],
    ['others.b', { others: { a: 1, b: -beyond } }],
    ['others.c', { others: { c: 1e308 } }],
  ])('%s out of range: refused by its name, and the monitor goes on', (name, part) => {
    let state = startMonitor(crowded);
    for (let block = 0; block < 12; block += 1) {
      const before = JSON.stringify(state);
      const refused = { ...good(start + block * minute), ...part };
      expect(() => advanceMonitor(crowded, state, refused)).toThrow(
        expect.objectContaining({ code: 'out_of_range', parameter: `input.${name}` }),
      );
      expect(JSON.stringify(state)).toBe(before);
      state = advanceMonitor(crowded, state, good(start + block * minute)).state;
    }
    expect(state.arrivals.inOrder).toBe(12);
    expect(state.followed.map(({ trend }) => openTrend(trend as string).perDay)).toEqual([0, 0, 0, 0]);
  });

  test.each([-1e12, 1e12])('%d itself is taken', (most) => {
    const { state } = advanceMonitor(
      crowded,
      startMonitor(crowded),
      all(0, () => most),
    );
    expect(state.followed.map(({ open }) => open?.mean)).toEqual([most, most, most, most]);
    const flow = { ...good(0), mm2PerS: 1e12, mlPerMin: 1e12 };
    expect(advanceMonitor(crowded, startMonitor(crowded), flow).verdict?.arrival).toBe('in_order');
  });

  test('a shortened number has seven digits and is off by half of the last', () => {
    const magnitudes = fc.tuple(fc.double({ min: 1, max: 10, noNaN: true }), fc.integer({ min: -12, max: 27 }));
    fc.assert(
      fc.property(magnitudes, fc.boolean(), ([mantissa, exponent], negative) => {
        const value = (negative ? -1 : 1) * Number(`${mantissa}e${exponent}`);
        const short = shorten(value);
        expect(Number(short.toExponential(6))).toBe(short);
        expect(Math.abs(short - value)).toBeLessThanOrEqual(Math.abs(value) * 5.1e-7);
      }),
    );
  });
});
