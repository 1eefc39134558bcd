/** Raw readings: the problems named are the true ones, and what was made of the rest is told. */
import { describe, expect, test } from 'vitest';
import { problemsOf } from '../../src/errors.ts';
import { parseCounts, type RawCounts } from '../../src/reading/index.ts';
import { type Problem, parseMonitorReading, parseReading } from '../../src/schema/index.ts';

const time = 1e12;
const sizes = [4, 6, 14];
const counted = [18900, 4020, 330];

function problemsIn(counts: object, told: Problem[] = []): string[] {
  try {
    parseReading({ counts }, told);
    return [];
  } catch (error) {
    return problemsOf(error).map(({ path, code, received }) => `${path.join('.')} ${code} ${received}`);
  }
}

describe('of raw counts, the one mistake is named', () => {
  test.each<[string, object, string]>([
    ['no volume', { sizes, counted }, 'counts.volumeMl missing_volume undefined'],
    ['a volume that is null', { sizes, counted, volumeMl: null }, 'counts.volumeMl missing_volume null'],
    ['no volume beside text', { sizes, counted: ['18900', 4020, 330] }, 'counts.volumeMl missing_volume undefined'],
    ['no volume beside a hole', { sizes, counted: [18900, null, 330] }, 'counts.volumeMl missing_volume undefined'],
    ['no volume but the sizing', { sizing: 'iso11171', sizes, counted }, 'counts.volumeMl missing_volume undefined'],
    ['a decimal comma', { sizes, counted, volumeMl: '10,5' }, "counts.volumeMl wrong_type '10,5'"],
    ['a volume of 0', { sizes, counted, volumeMl: 0 }, 'counts.volumeMl out_of_range 0'],
    ['a dilution below 1', { sizes, counted, volumeMl: 10, dilution: 0.5 }, 'counts.dilution out_of_range 0.5'],
    ['a count too few', { sizes, counted: [18900, 4020], volumeMl: 10 }, 'counts.counted length_mismatch 18900, 4020'],
    ['no list', { sizes, counted: 18900, volumeMl: 10 }, 'counts.counted wrong_type 18900'],
    ['no counts at all', { sizes }, 'counts.perMl wrong_type undefined'],
    ['a size that is none', { sizes: ['4 µm', 6, 14], counted, volumeMl: 10 }, "counts.sizes.0 wrong_type '4 µm'"],
    ['a size that is null', { sizes: [4, null, 14], counted, volumeMl: 10 }, 'counts.sizes.1 wrong_type null'],
    ['a size twice', { sizes: ['4', '4', 6], perMl: [3, 3, 1] }, 'counts.sizes.1 sizes_out_of_order 4'],
    ['a name that no counts have', { sizes, counted, volumeMl: 10, volume: 9 }, 'counts.volume unknown_option'],
  ])('%s', (_what, counts, wanted) => {
    const problems = problemsIn(counts);
    expect(problems).toHaveLength(1);
    expect(problems[0]).toContain(wanted);
  });

  test('nothing that parseCounts refuses is taken, however the members are put together', () => {
    const choices: Readonly<Record<string, readonly unknown[]>> = {
      sizes: [sizes, ['4', 6, 14], [4, 6], [6, 6, 14], [4, null, 14], []],
      counted: [undefined, counted, ['1', null, 0], [1, 'n/a', 0], [1, 2], [], 7, null],
      perMl: [undefined, ['9', null, 1], [9, 'x', 1], [9, 1]],
      volumeMl: [undefined, 10, '10', 0, null, '10,5'],
      dilution: [undefined, '2', 0.5],
      sizing: [undefined, 'iso4402', 'sieve'],
    };
    let every: Record<string, unknown>[] = [{}];
    for (const [name, values] of Object.entries(choices))
      every = every.flatMap((one) => values.map((value) => (value === undefined ? one : { ...one, [name]: value })));
    let refused = 0;
    for (const raw of every) {
      const whole = Object.fromEntries(Object.entries(raw).filter(([, value]) => value !== null));
      if (whole.volumeMl !== undefined) whole.volumeMl = whole.volumeMl === '10' ? 10 : whole.volumeMl;
      if (whole.dilution === '2') whole.dilution = 2;
      if (whole.volumeMl === undefined && whole.perMl !== undefined) delete whole.counted;
      try {
        parseCounts(whole as unknown as RawCounts);
      } catch {
        refused += 1;
        expect(problemsIn(raw), JSON.stringify(raw)).not.toEqual([]);
        if (raw.sizing === 'sieve') continue; // refused with keepReadable too, like all words of another name
        const { counts } = parseMonitorReading({ time, counts: raw }, [], { keepReadable: true });
        expect(counts, JSON.stringify(raw)).toBe(undefined);
      }
    }
    expect(refused).toBeGreaterThan(1000);
  });
});

test.each<[string, object, string]>([
  ['a count as text', { sizes, counted: [18900, '4020', 330], volumeMl: 10 }, 'read as an array of numbers'],
  ['the volume as text', { sizes, counted, volumeMl: '10' }, 'read as an array of numbers'],
  ['counts per mL beside null', { sizes, perMl: [9, 3, 1], counted: null }, 'read as counts: what is null is left out'],
])('%s: what is told', (_what, counts, expected) => {
  const told: Problem[] = [];
  expect(problemsIn(counts, told)).toEqual([]);
  expect(told).toMatchObject([{ path: ['counts'], expected }, { path: ['counts', 'sizing'] }]);
});

describe('what is told says what was lost', () => {
  const read = (raw: object, told: Problem[], keepReadable = true) =>
    parseMonitorReading({ time: 1795593600000, ...raw }, told, { keepReadable });
  const lostOf = (raw: object) => {
    const told: Problem[] = [];
    read(raw, told);
    return told.filter(({ lost }) => lost === true).map(({ path }) => path.join('.'));
  };

  test.each<[string, object, string[]]>([
    [
      'a count of which only more than so many is known',
      { counts: { sizes, counted: ['>300000', 402, 33], volumeMl: 10 } },
      ['counts.counted.0'],
    ],
    ['a sentinel', { celsius: -999 }, ['celsius']],
    ['a text', { kPa: 'err', celsius: '41.5' }, ['kPa']],
    ['figures by name', { others: { acid: 'n/a', iron: '3' } }, ['others.acid']],
    ['a code that none is, one of no table', { codes: { iso4406: 'ERR', ours: '7' } }, ['codes.iso4406', 'codes.ours']],
    [
      'counts of another shape',
      { counts: { 4: 1890, 6: 402, 14: 33 } },
      ['counts.4', 'counts.6', 'counts.14', 'counts.sizing', 'counts.sizes', 'counts.perMl'],
    ],
    ['nothing: read in another way', { celsius: '41.5', mlPerMin: -0.2, codes: { iso4406: 'ISO 18/16/13' } }, []],
    ['nothing: not measured', { kPa: null, counts: { sizes, perMl: [1890, null, 33] } }, []],
  ])('%s', (_what, raw, lost) => {
    expect(lostOf(raw).sort()).toEqual(lost.sort());
  });

  test('counts given in the shape that cumulativeCounts takes are told how to wrap them', () => {
    const told: Problem[] = [];
    read({ counts: { 4: 1890, 6: 402, 14: 33 } }, told);
    expect(told[0]?.expected).toMatch(/^left out: cumulativeCounts\(\{ 4: 1890, 6: 402 \}\) around counts by size/);
  });

  test('a year of particles with their volume: the sizing once in a list, and nothing else', () => {
    const told: Problem[] = [];
    for (let i = 0; i < 300; i += 1) read({ counts: { sizes, counted: [18900 + i, 4020, 330], volumeMl: 10 } }, told);
    expect(told).toMatchObject([{ path: ['counts', 'sizing'] }]);
    expect(told[0]).not.toHaveProperty('lost');
  });

  test('without keepReadable nothing is lost: it is refused, or kept', () => {
    const told: Problem[] = [];
    read({ codes: { iso4406: 'ERR', ours: '7' } }, told, false);
    expect(told.map(({ lost }) => lost)).toEqual([undefined, undefined]);
  });
});

describe('a sizing that is left out is iso11171, and told, however the counts came', () => {
  const known = { sizing: 'iso11171', sizes, perMl: [1890, 402, 33] };
  test.each<[string, object, object]>([
    ['whole', { sizes, perMl: [1890, 402, 33] }, known],
    ['whole, with what was counted', { sizes, perMl: [1890, 402, 33], counted, volumeMl: 10 }, known],
    ['with what was counted alone', { sizes, counted, volumeMl: 10 }, known],
    ['as text', { sizes, perMl: [1890, 402, '33'] }, known],
    ['with a hole', { sizes, perMl: [1890, null, 33] }, { sizing: 'iso11171', sizes: [4, 14], perMl: [1890, 33] }],
  ])('%s', (_what, counts, wanted) => {
    for (const keepReadable of [false, true])
      for (const sizing of [undefined, null]) {
        const told: Problem[] = [];
        const raw = { time, counts: { ...counts, sizing } };
        expect(parseMonitorReading(raw, told, { keepReadable }).counts).toMatchObject(wanted);
        const [one, ...more] = told.filter(({ path }) => path[1] === 'sizing');
        expect(more).toEqual([]);
        expect(one).toMatchObject({ received: `${sizing}`, expected: 'read as iso11171' });
        const named: Problem[] = [];
        parseMonitorReading({ time, counts: { ...counts, sizing: 'iso11171' } }, named, { keepReadable });
        expect(named.filter(({ path }) => path[1] === 'sizing')).toEqual([]);
      }
  });
});

describe('with keepReadable', () => {
  test.each([-1, 'n/a', true, 1e13, Number.NaN])('of counts per mL %s alone is left out', (count) => {
    const told: Problem[] = [];
    const counts = { sizing: 'iso11171', sizes, perMl: [1890, count, 33] };
    expect(parseMonitorReading({ time, counts }, told, { keepReadable: true }).counts).toEqual({
      sizing: 'iso11171',
      sizes: [4, 14],
      perMl: [1890, 33],
    });
    const received = typeof count === 'string' ? `'${count}'` : `${count}`;
    expect(told).toMatchObject([{ path: ['counts', 'perMl', 1], received }]);
    expect(told[0]?.expected).toBe('left out: particles per mL from 0 to 1000000000000');
    expect(() => parseMonitorReading({ time, counts })).toThrow('reading.counts.perMl[1]');
  });

  test('and whole counts are taken as they are', () => {
    const told: Problem[] = [];
    const counts = { sizing: 'iso11171', sizes, perMl: [1890, 402, 33], counted, volumeMl: 10 };
    expect(parseMonitorReading({ time, counts }, told, { keepReadable: true }).counts).toEqual(counts);
    expect(told).toEqual([]);
  });
});

describe('a count that came and cannot be read refuses the reading, whatever stands beside it', () => {
  test.each(['4.020', '4.000', '12,5', '>30000', 'n/a', '', -1, 1e16, true])('%s', (count) => {
    for (const first of ['18900', 18900]) {
      const counts = { sizing: 'iso11171', sizes, counted: [first, count, 330], volumeMl: 10 };
      expect(problemsIn(counts)[0]).toContain('counts.counted.1 ');
      const told: Problem[] = [];
      const kept = parseMonitorReading({ time, counts }, told, { keepReadable: true });
      expect(kept.counts).toMatchObject({ sizes: [4, 14], perMl: [1890, 33] });
      // too many to count is kept as a code
      const code = count === '>30000' ? ['codes.iso4406'] : [];
      expect(told.map(({ path }) => path.join('.'))).toEqual(['counts.counted.1', ...code]);
    }
  });

  test.each([null, undefined])('%s is a hole, and told', (count) => {
    const told: Problem[] = [];
    const counts = { sizing: 'iso11171', sizes, perMl: ['1890', count, 33] };
    expect(parseReading({ counts }, told).counts?.sizes).toEqual([4, 14]);
    expect(told).toMatchObject([{ path: ['counts', 'perMl', 1], received: `${count}`, expected: 'left out' }]);
  });
});

test('points that may stand between thousands refuse the counts at their place', () => {
  const perMl = ['18.900', '4.020', '1.330'];
  for (const counts of [
    { sizes, perMl },
    { sizing: 'iso11171', sizes, perMl, volumeMl: '10' },
  ]) {
    expect(problemsIn(counts)).toEqual(["counts.perMl wrong_type '18.900'"]);
    expect(() => parseReading({ counts })).toThrow('expected numbers, or texts with other than three decimals');
    const told: Problem[] = [];
    expect(parseMonitorReading({ time, celsius: 90, counts }, told, { keepReadable: true }).counts).toBe(undefined);
    expect(told.map(({ path }) => path.join('.'))).toContain('counts.perMl');
  }
  // where there are particles counted, they decide
  expect(parseReading({ counts: { sizes, counted, volumeMl: 10, perMl } }).counts?.perMl).toEqual([1890, 402, 33]);
});

/** What is wrong within one figure, and what is told of it. */
const within: readonly (readonly [object, string])[] = [
  [{ counts: { sizing: 'ISO 11171', sizes, perMl: [1890, 402, 33] } }, 'counts.sizing'],
  [{ counts: { sizing: 'iso11171', sizes, perMl: [1890, 402, 33], unit: 'per100mL' } }, 'counts.unit'],
  [{ others: { acid: { value: 1, quality: 'BAD' } } }, 'others.acid.quality'],
  [{ others: { acid: { value: 1, quality: 'good', unit: 'mg' } } }, 'others.acid.unit'],
  [{ others: { ['a'.repeat(65)]: 1 } }, `others.${'a'.repeat(60)}...`],
  [{ codes: { ['a'.repeat(65)]: '18/16/13' } }, `codes.${'a'.repeat(60)}...`],
  [{ others: JSON.parse('{"__proto__":1}') }, 'others.__proto__'],
];

describe('with keepReadable a mistake within a figure does not silence the thermometer', () => {
  test.each(within)('%j', (figure, place) => {
    const told: Problem[] = [];
    const isNamed = place.indexOf('others') === 0;
    expect(parseMonitorReading({ time, celsius: 90, ...figure }, told, { keepReadable: true })).toEqual({
      time,
      celsius: 90,
      ...(isNamed ? {} : { qualities: { counts: 'bad' } }),
    });
    expect(told.map(({ path }) => path.join('.'))).toEqual(isNamed ? [place] : [place, 'qualities.counts']);
    expect(told[0]?.expected).toMatch(/^left out: /);
    expect(() => parseMonitorReading({ time, celsius: 90, ...figure })).toThrow();
  });

  test('the other figures by name are kept', () => {
    const others = { acid: { value: 1, quality: 'BAD' }, ['b'.repeat(65)]: 2, litres: 380 };
    expect(parseMonitorReading({ time, others }, [], { keepReadable: true })).toEqual({
      time,
      others: { litres: 380 },
    });
  });

  test.each([{ celcius: 41 }, { qualities: { counts: 'BAD' } }, { qualities: { count: 'bad' } }, { mode: 7 }])(
    'but %j is refused: more would be taken for good than is',
    (mistake) => {
      expect(() => parseMonitorReading({ time, celsius: 90, ...mistake }, [], { keepReadable: true })).toThrow();
    },
  );
});

test('a null is told, of counts too, and of a dead sensor that still writes its quality', () => {
  const told: Problem[] = [];
  const others = { acid: { value: null, quality: 'bad' }, litres: 380 };
  expect(parseMonitorReading({ time, counts: null, others }, told)).toEqual({ time, others: { litres: 380 } });
  expect(told.map(({ path, received, expected }) => `${path.join('.')} ${received} ${expected}`)).toEqual([
    'counts null left out',
    'others.acid null left out',
  ]);
  for (const acid of [{ value: null }, { value: null, quality: 'BAD' }, { value: null, quality: 'bad', unit: 'mg' }])
    expect(() => parseMonitorReading({ time, others: { acid } })).toThrow('reading.others.acid');
});

test('figures by name are read from digits, with a quality or without', () => {
  const told: Problem[] = [];
  const others = { litres: '380', amps: { value: ' 4.5 ', quality: 'good' }, bar: 3, none: null };
  expect(parseMonitorReading({ time, others }, told).others).toEqual({
    litres: 380,
    amps: { value: 4.5, quality: 'good' },
    bar: 3,
  });
  expect(told.map(({ path, received, expected }) => `${path.join('.')} ${received} ${expected}`)).toEqual([
    "others.litres '380' read as 380",
    "others.amps ' 4.5 ' read as 4.5",
    'others.none null left out',
  ]);
  for (const litres of ['4,5', 'n/a', { value: '4,5', quality: 'good' }])
    expect(() => parseMonitorReading({ time, others: { litres } })).toThrow('reading.others.litres');
  expect(() => parseReading({ codes: { iso4406: 18 } })).toThrow('reading.codes.iso4406');
  expect(parseReading({ codes: { nas1638: '7' } })).toEqual({ codes: { nas1638: '7' } });
});
