import { Decimal } from 'decimal.js';
import { describe, expect, test } from 'vitest';
import {
  as4059Cumulative,
  type Classification,
  type ClassTable,
  classify,
  iso4406,
  nas1638,
} from '../../../src/codes/index.ts';
import { cumulativeCounts, isMotescaleError } from '../../../src/counts/index.ts';
import { classifyExact, perMlExact, roundHalfEven } from '../../../src/exact/index.ts';
import { Exact, stream } from '../../doubles.ts';
import { expectRefused } from '../../inputs/refused.ts';
import { some } from '../../volume.ts';
import { partly, randomSample, sizesOf, tables } from '../samples.ts';

/** Whole raw counts up to ten million, volumes of up to three decimals, whole dilutions. */
const mostCounted = 10_000_000;

function bothWays(
  table: ClassTable,
  at: Record<number, number>,
  microlitres: number,
  dilution: number,
): [string, string] {
  const text = Object.fromEntries(Object.entries(at).map(([size, count]) => [size, String(count)]));
  const volumeMl = microlitres / 1000;
  const binary = classify(table, cumulativeCounts(at, { volumeMl, dilution }));
  const exact = classifyExact(table, { at: text, volumeMl: String(volumeMl), dilution: String(dilution) });
  const decided = ({ parts, evidence, text: written, worst, missing }: Classification) =>
    JSON.stringify({
      parts,
      written,
      worst,
      missing,
      evidence: evidence.map(({ above, upTo, end }) => [above, upTo, end]),
    });
  return [decided(binary), decided(exact)];
}

/** The raw count on a limit, and those about it; the limit is hit exactly whenever the volume allows it. */
function countsAbout(limit: number, perVolumeMl: number, microlitres: number, dilution: number): number[] {
  const onLimit = new Exact(limit)
    .times(microlitres)
    .dividedBy(1000 * perVolumeMl)
    .dividedBy(dilution);
  const floor = onLimit.floor().toNumber();
  return [floor - 1, floor, floor + 1].filter((count) => count >= 0 && count <= mostCounted);
}

describe('classify agrees with classifyExact', () => {
  const random = stream(11171);
  const volumes = [
    1, 55_000, 220_000, 10, 15, 25, 30, 50, 60, 100, 333, 1000, 1001, 5000, 9999, 10_000, 25_000, 100_000, 300_000,
    1_000_000,
  ];
  while (volumes.length < some(80, 10)) volumes.push(1 + Math.floor(random() * 10 ** (1 + 5 * random())));
  const dilutions = [1, 3, 10, 4.4, 2, 7, 100, 1000, 1.1, 2.5].slice(0, some(10, 4));

  test('ISO 4406: on every limit and beside it', () => {
    let onLimit = 0;
    for (const microlitres of volumes) {
      for (const dilution of dilutions) {
        for (const [limit] of iso4406.limits as readonly (readonly number[])[]) {
          for (const count of countsAbout(limit as number, 1, microlitres, dilution)) {
            const [binary, exact] = bothWays(iso4406, { 4: count, 6: count, 14: count }, microlitres, dilution);
            if (binary !== exact) expect.fail(`${count} in ${microlitres} uL, 1:${dilution}: ${binary} and ${exact}`);
            if (
              new Exact(count)
                .times(dilution)
                .times(1000)
                .equals(new Exact(limit as number).times(microlitres))
            )
              onLimit += 1;
          }
        }
      }
    }
    expect(onLimit).toBeGreaterThan(some(1000, 75));
  });

  test('AS4059 Table 2 and NAS 1638: on every limit and beside it, in every column', () => {
    let onLimit = 0;
    for (const microlitres of volumes.slice(0, some(40, 4))) {
      for (const dilution of [1, 3, 10, 4.4]) {
        for (const table of [as4059Cumulative, nas1638]) {
          table.limits.forEach((row) => {
            row.forEach((limit, i) => {
              const sizes = table.columns.map((column) => column.from.iso11171 as number);
              for (const count of countsAbout(limit as number, 100, microlitres, dilution)) {
                // particles only in this range: none above it, and the same number below
                const base = table.counting === 'differential' ? 17 : 0;
                const at = Object.fromEntries(sizes.map((size, j) => [size, j <= i ? count + base : base]));
                if (count + base > mostCounted) continue;
                const [binary, exact] = bothWays(table, at, microlitres, dilution);
                if (binary !== exact)
                  expect.fail(`${table.id} ${count} in ${microlitres} uL, 1:${dilution}: ${binary}, ${exact}`);
                const scaled = new Exact(count).times(dilution).times(100_000);
                if (scaled.equals(new Exact(limit as number).times(microlitres))) onLimit += 1;
              }
            });
          });
        }
      }
    }
    expect(onLimit).toBeGreaterThan(some(1000, 75));
  });

  test('any raw counts', () => {
    for (let i = 0; i < some(30_000, 1500); i += 1) {
      const first = Math.floor(random() * 10 ** (7 * random()));
      const second = Math.floor(first * random());
      const third = Math.floor(second * random());
      const table = i % 2 === 0 ? iso4406 : nas1638;
      const at = { 4: first, 6: second, 14: third, 21: Math.floor(third / 2), 38: Math.floor(third / 9), 70: 0 };
      const [binary, exact] = bothWays(
        table,
        at,
        1 + Math.floor(random() * 200_000),
        1 + Math.floor(20 * random() ** 4),
      );
      if (binary !== exact) expect.fail(`${JSON.stringify(at)}: ${binary} and ${exact}`);
    }
  });
});

test.each(tables)('in every table, whatever sizes are missing: $id', (table, sizing) => {
  const random = stream(17216);
  const sizes = sizesOf(table, sizing);
  const answer = (classified: () => Classification) => {
    try {
      const { text, missing, worst } = classified();
      return { text, missing, worst };
    } catch (error) {
      if (!isMotescaleError(error)) throw error;
      return error.code;
    }
  };
  for (let i = 0; i < 200; i += 1) {
    const sample = partly(random, randomSample(random, sizes, sizing));
    // perMl of whole counts in 100 mL: its shortest text is the decimal
    const at = Object.fromEntries(
      sample.sizes.map((size, j) => [size, new Exact(sample.perMl[j] as number).toFixed()]),
    );
    expect(answer(() => classifyExact(table, { at, sizing }))).toEqual(answer(() => classify(table, sample)));
  }
});

describe('whole numbers beside every ISO 4406 limit, by integer arithmetic alone', () => {
  test('counts in volumes from 0.001 to 3 mL in turn, a million with all of them', () => {
    const scaled = (iso4406.limits as readonly (readonly number[])[]).map(([limit]) =>
      BigInt(Math.round((limit as number) * 100)),
    );
    let compared = 0;
    for (let microlitres = 1; microlitres <= 3000; microlitres += some(1, 20)) {
      for (const dilution of [1, 2, 5, 64]) {
        const volumeMl = microlitres / 1000;
        scaled.forEach((limit, index) => {
          const edge = Number((limit * BigInt(microlitres)) / (100_000n * BigInt(dilution)));
          for (const counted of [edge, edge + 1, edge + 2]) {
            if (counted > mostCounted) continue;
            const above = BigInt(counted) * BigInt(dilution) * 100_000n > limit * BigInt(microlitres);
            // the count as cumulativeCounts relates it to a mL, against the printed limit
            const { perMl } = cumulativeCounts({ 4: counted }, { volumeMl, dilution });
            if ((perMl[0] as number) > ((iso4406.limits[index] as number[])[0] as number) !== above) {
              expect.fail(`${counted} in ${volumeMl} mL, 1:${dilution}, limit ${index}`);
            }
            compared += 1;
          }
        });
      }
    }
    expect(compared).toBeGreaterThan(some(800_000, 40_000));
  });
});

describe('text and rounding', () => {
  test.each([
    // ASTM E29-22 6.4 and ISO 80000-1:2009 annex B rule A: a half goes to the even digit
    ['2.5', { decimals: 0 }, '2'],
    ['3.5', { decimals: 0 }, '4'],
    ['-2.5', { decimals: 0 }, '-2'],
    ['0.125', { decimals: 2 }, '0.12'],
    ['0.1250000000000000000000001', { decimals: 2 }, '0.13'],
    ['12345', { significant: 4 }, '12340'],
    ['12355', { significant: 4 }, '12360'],
    ['9.995', { significant: 3 }, '10.0'],
    ['0', { significant: 3 }, '0.00'],
    ['1e3', { decimals: 1 }, '1000.0'],
    [' 2.5 ', { decimals: 0 }, '2'],
    ['1', { decimals: 100 }, `1.${'0'.repeat(100)}`],
    ['.5', { decimals: 0 }, '0'],
    ['.125', { decimals: 2 }, '0.12'],
    ['+1.5', { decimals: 0 }, '2'],
    ['1.25E+12', { significant: 2 }, '1200000000000'],
    ['2.5e-103', { decimals: 100 }, `0.${'0'.repeat(100)}`],
    ['-0.004', { decimals: 2 }, '0.00'],
    ['9.99e99', { significant: 1 }, `1${'0'.repeat(100)}`],
    [-1e21, { decimals: 0 }, '-1000000000000000000000'],
    [1e-7, { significant: 1 }, '0.0000001'],
  ] as const)('%s to %o is %s', (value, to, expected) => {
    expect(roundHalfEven(value, to)).toBe(expected);
  });

  test('counts per mL to any digits', () => {
    expect(perMlExact({ counted: '2', volumeMl: '3', digits: 25 })).toBe('0.6666666666666666666666667');
    expect(perMlExact({ counted: '2', volumeMl: '3', digits: 1 })).toBe('0.7');
    expect(perMlExact({ counted: '2', volumeMl: '3', digits: 100 })).toBe(`0.${'6'.repeat(99)}7`);
    // twenty where nothing is said
    expect(perMlExact({ counted: '2', volumeMl: '3' })).toBe('0.66666666666666666667');
    expect(perMlExact({ counted: '940', volumeMl: '10', dilution: '2' })).toBe('188');
    expect(perMlExact({ counted: '1', volumeMl: '.25' })).toBe('4');
  });

  const digits = "digits with at most one point, such as '0.64'";
  const decimal = "a decimal number as text, such as '0.64'";
  const micrometres = 'sizes in µm above 0';
  test.each<[code: string, parameter: string, words: string, counts: unknown]>([
    ['not_a_number', 'counts.at[4]', digits, { at: { 4: '12a' } }],
    ['not_a_number', 'counts.at[4]', digits, { at: { 4: 'a12' } }],
    ['not_a_number', 'counts.at[4]', digits, { at: { 4: '1e3' } }],
    ['not_a_number', 'counts.at[4]', digits, { at: { 4: '1.2.3' } }],
    ['not_a_number', 'counts.at[4]', digits, { at: { 4: '.' } }],
    ['not_a_number', 'counts.at[4]', digits, { at: { 4: '-' } }],
    ['not_a_number', 'counts.at[4]', digits, { at: { 4: '5-1' } }],
    ['not_a_number', 'counts.at[4]', digits, { at: { 4: '0'.repeat(101) } }],
    ['negative', 'counts.at[4]', 'a decimal number of 0 or more', { at: { 4: '-1' } }],
    ['empty', 'counts.at[4]', decimal, { at: { 4: ' ' } }],
    ['wrong_type', 'counts.at[4]', decimal, { at: { 4: 12 } }],
    ['empty', 'counts.at', 'a count for at least one size', { at: {} }],
    ['wrong_type', 'counts.at', "counts by size as text, such as { 4: '1890' }", { at: '4' }],
    ['wrong_type', 'counts.at', micrometres, { at: { Infinity: '1' } }],
    ['wrong_type', 'counts.at', micrometres, { at: { '4.': '1' } }],
    ['wrong_type', 'counts.at', micrometres, { at: { '4a': '1' } }],
    ['wrong_type', 'counts.at', micrometres, { at: { a4: '1' } }],
    ['wrong_type', 'counts.at', micrometres, { at: { '0.0': '1' } }],
    ['sizes_out_of_order', "counts.at['4.0']", "each size once; '4' is the same", { at: { 4: '2', '4.0': '1' } }],
    ['counts_rise_with_size', 'counts.at[6]', 'at most 1.5', { at: { 4: '1.50', 6: '2' } }],
    ['out_of_range', 'counts.volumeMl', 'a number above 0', { at: { 4: '1' }, volumeMl: '0' }],
    ['out_of_range', 'counts.dilution', "'1' or more", { at: { 4: '1' }, volumeMl: '1', dilution: '0.5' }],
    ['out_of_range', 'counts.dilution', 'a number above 0', { at: { 4: '1' }, volumeMl: '1', dilution: '0' }],
    ['not_an_integer', 'counts.at[6]', 'a whole number of particles', { at: { 4: '2', 6: '1.5' }, volumeMl: '10' }],
    [
      'missing_volume',
      'counts.volumeMl',
      'the volume counted in mL, beside dilution',
      { at: { 4: '1' }, dilution: '2' },
    ],
    ['missing_size', 'counts.at', 'or likelyClasses', { at: { 7: '1' } }],
    ['unknown_sizing', 'counts.sizing', "one of 'iso11171'", { at: { 4: '1' }, sizing: 'sieve' }],
    ['sizing_not_convertible', 'counts.sizing', "'iso11171'", { at: { 5: '1' }, sizing: 'microscope' }],
    ['unknown_option', 'counts.volumeML', "'volumeMl'", { at: { 4: '1' }, volumeML: '10' }],
  ])('%s of %s: %s', (code, parameter, words, counts) => {
    expectRefused(code, parameter, words, () => classifyExact(iso4406, counts as never));
  });

  const text = "a decimal number as text, such as '2.675'";
  test.each<[code: string, parameter: string, words: string, value: unknown, to: unknown]>([
    ['not_a_number', 'value', text, 'two', { decimals: 1 }],
    ['not_a_number', 'value', text, '2.5x', { decimals: 1 }],
    ['not_a_number', 'value', text, 'x2.5', { decimals: 1 }],
    ['not_a_number', 'value', text, '.x', { decimals: 1 }],
    ['not_a_number', 'value', text, '1e1000', { decimals: 1 }],
    ['not_a_number', 'value', text, '1e', { decimals: 1 }],
    ['not_a_number', 'value', text, '1'.repeat(401), { decimals: 1 }],
    ['not_a_number', 'value', 'a finite number', Number.NaN, { decimals: 1 }],
    ['infinite', 'value', 'a finite number', Infinity, { decimals: 1 }],
    ['wrong_type', 'value', 'a number, or a decimal number as text', null, { decimals: 1 }],
    ['out_of_range', 'to.decimals', 'a whole number from 0 to 100', '1', { decimals: 1.5 }],
    ['out_of_range', 'to.decimals', 'a whole number from 0 to 100', '1', { decimals: 101 }],
    ['out_of_range', 'to.decimals', 'a whole number from 0 to 100', '1', { decimals: -1 }],
    ['out_of_range', 'to.significant', 'a whole number from 1 to 100', '1', { significant: 0 }],
    ['out_of_range', 'to.significant', 'a whole number from 1 to 100', '1', {}],
    ['unknown_option', 'to.significant', 'either decimals or significant', '1', { decimals: 1, significant: 1 }],
  ])('roundHalfEven: %s of %s: %s', (code, parameter, words, value, to) => {
    expectRefused(code, parameter, words, () => roundHalfEven(value as string, to as { decimals: number }));
  });

  test('the longest texts that are read', () => {
    expect(roundHalfEven('1'.repeat(400), { significant: 1 })).toBe(`1${'0'.repeat(399)}`);
    expect(classifyExact(iso4406, { at: { 4: `${'0'.repeat(96)}1890` } }).text).toBe('18/-/-');
    expect(classifyExact(iso4406, { at: { 4: ' 1890. ', 6: '.5' } }).text).toBe('18/6/-');
    expect(perMlExact({ counted: '1', volumeMl: '3', dilution: '1', digits: 1 })).toBe('0.3');
  });

  test('perMlExact: a misspelt dilution', () => {
    const misspelt = { counted: '940', volumeMl: '10', dilutoin: '2' };
    expect(() => perMlExact(misspelt)).toThrowError(
      expect.objectContaining({ code: 'unknown_option', parameter: 'raw.dilutoin' }),
    );
  });

  test.each(['5', 0, 101, 1.5, Number.NaN])('perMlExact: %s digits', (digits) => {
    expect(() => perMlExact({ counted: '2', volumeMl: '3', digits: digits as number })).toThrowError(
      expect.objectContaining({ name: 'MotescaleError', code: 'out_of_range', parameter: 'raw.digits' }),
    );
  });
});

test('a size given twice, written another way, is refused; 0 is no size and 1 is one', () => {
  const exact = (at: Record<string, string>) => () => classifyExact(iso4406, { at });
  expect(exact({ '4': '9', '4.0': '9' })).toThrow(expect.objectContaining({ code: 'sizes_out_of_order' }));
  expect(exact({ '0': '9', '4': '9' })).toThrow(
    expect.objectContaining({ code: 'wrong_type', parameter: 'counts.at' }),
  );
  expect(exact({ '-4': '9' })).toThrow(expect.objectContaining({ code: 'wrong_type', parameter: 'counts.at' }));
  expect(exact({ '1': '99', '4': '9', '4.25': '8' })().text).toBe('10/-/-');
});

test('the settings of a host application for decimal.js do not reach here', () => {
  const answers = () => [
    classifyExact(iso4406, { at: { 4: '18900', 6: '4020' }, volumeMl: '10', dilution: '1.5' }),
    perMlExact({ counted: '18900', volumeMl: '7' }),
    roundHalfEven('123456.5', { decimals: 0 }),
    roundHalfEven(1e-7, { significant: 3 }),
  ];
  const before = answers();
  Decimal.set({ precision: 2, rounding: Decimal.ROUND_UP, toExpNeg: 0, toExpPos: 0, maxE: 3, minE: -3 });
  try {
    expect(answers()).toEqual(before);
  } finally {
    Decimal.set({ defaults: true });
  }
});

test('the evidence of raw counts is per volume of the table, as classify has it', () => {
  const counts = { 4: 18900, 6: 4020, 14: 330, 21: 60, 38: 7, 70: 1 };
  const at = Object.fromEntries(Object.entries(counts).map(([size, count]) => [size, String(count)]));
  for (const table of [iso4406, nas1638, as4059Cumulative]) {
    const exact = classifyExact(table, { at, volumeMl: '8', dilution: '2' });
    expect(exact).toEqual(classify(table, cumulativeCounts(counts, { volumeMl: 8, dilution: 2 })));
  }
});
