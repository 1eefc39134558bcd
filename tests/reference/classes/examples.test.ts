import { describe, expect, test } from 'vitest';
import {
  as4059Cumulative,
  classify,
  formatCode,
  iso4406,
  iso4406Microscope,
  meets,
  parseCode,
} from '../../../src/codes/index.ts';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import as4059Examples from './as4059-examples.json' with { type: 'json' };
import isoExamples from './iso4406-examples.json' with { type: 'json' };

interface Example {
  readonly code: string;
  readonly written?: string;
  readonly table: string;
  readonly source: { readonly document: string };
}

describe.each(isoExamples as readonly Example[])('$code ($source.document)', (example) => {
  const table = example.table === 'iso4406' ? iso4406 : iso4406Microscope;

  test('reads, and writes the same', () => {
    const code = parseCode(table, example.written ?? example.code);
    expect(code.text).toBe(example.code);
    expect(parseCode(table, formatCode(table, code))).toEqual(code);
  });
});

test('14/12/>=7: fewer than 20 particles counted at 14 µm(c)', () => {
  expect(classify(iso4406, cumulativeCounts({ 4: 1200, 6: 300, 14: 10 }, { volumeMl: 10 })).text).toBe('14/12/>=7');
  expect(classify(iso4406, cumulativeCounts({ 4: 1200, 6: 300, 14: 19 }, { volumeMl: 20 })).text).toBe('13/11/>=7');
  expect(classify(iso4406, cumulativeCounts({ 4: 1200, 6: 300, 14: 20 }, { volumeMl: 20 })).text).toBe('13/11/7');
});

test('nothing counted at all: scale number 0, marked (from memory: the standard is silent on a true zero)', () => {
  expect(classify(iso4406, cumulativeCounts({ 4: 0, 6: 0, 14: 0 }, { volumeMl: 10 })).text).toBe('>=0/>=0/>=0');
  expect(classify(iso4406, cumulativeCounts({ 4: 0, 6: 0, 14: 0 })).text).toBe('0/0/0');
});

test('beyond the last class', () => {
  const counts = cumulativeCounts({ 4: 2_500_001, 6: 2_500_000, 14: 1 });
  const { text, evidence, parts } = classify(iso4406, counts);
  expect(text).toBe('>28/28/7');
  expect(parts[0]).toEqual({ column: '4', class: '>28', mark: 'beyond' });
  expect(evidence[0]).toEqual({ column: '4', count: 2_500_001, above: 2_500_000, upTo: null, end: 'beyond' });
});

describe.each(as4059Examples)('AS4059 $code', ({ code, upToPer100Ml }) => {
  test('is met at its limits and not above', () => {
    const at = { 1: 3e6, 5: 1e6, 15: 1e5, 25: 1e4, 50: 1000, 100: 500 };
    const letters = ['A', 'B', 'C', 'D', 'E', 'F'];
    Object.keys(at).forEach((size, i) => {
      const limit = (upToPer100Ml as Record<string, number>)[letters[i] as string];
      if (limit !== undefined) at[Number(size) as 1] = limit;
    });
    const counts = (counts: typeof at) => cumulativeCounts(counts, { sizing: 'microscope', per: '100mL' });
    const asked = parseCode(as4059Cumulative, code).parts.filter((part) => part.class !== null);
    const lower = { ...at };
    // sizes below the first asked for are free; those above the last asked for are kept from rising
    const kept = (a: typeof at) => {
      const sizes = Object.keys(a).map(Number) as (keyof typeof at)[];
      for (let i = 1; i < sizes.length; i += 1) a[sizes[i] as 1] = Math.min(a[sizes[i] as 1], a[sizes[i - 1] as 1]);
      return a;
    };
    expect(meets(as4059Cumulative, code, counts(kept(lower))).met).toBe(true);
    const first = letters.indexOf(asked[0]?.column as string);
    const size = Object.keys(at).map(Number)[first] as 1;
    expect(meets(as4059Cumulative, code, counts(kept({ ...at, [size]: at[size] + 1 }))).met).toBe(false);
  });
});
