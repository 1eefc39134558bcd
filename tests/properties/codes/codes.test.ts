import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import * as codes from '../../../src/codes/index.ts';
import { cumulativeCounts, isMotescaleError } from '../../../src/counts/index.ts';
import { stream } from '../../doubles.ts';
import { some } from '../../volume.ts';

const { formatCode, parseCode } = codes;

const tables = [
  codes.iso4406,
  codes.iso4406Microscope,
  codes.as4059Differential,
  codes.as4059Cumulative,
  codes.nas1638,
  codes.gost17216,
  codes.sae749d,
  codes.navair,
  codes.cc1246,
];

/** Any code of a table, as data. */
function codeOf(table: codes.ClassTable): fc.Arbitrary<codes.Code> {
  const last = table.classes.at(-1) as string;
  const named = fc.constantFrom(...table.classes);
  const atMost = (column: string) =>
    fc.constantFrom(...table.classes, `>${last}`).map((name) => ({ column, class: name, mark: 'at_most' as const }));
  const part = (column: string): fc.Arbitrary<codes.CodePart> => {
    const plain = named.map((name) => ({ column, class: name }));
    const silent = fc.constant({ column, class: null, mark: 'not_counted' as const });
    const beyond = fc.constant({ column, class: `>${last}`, mark: 'beyond' as const });
    if (table.notation === 'lettered') return fc.oneof(plain, silent, beyond, atMost(column));
    const few = named.map((name) => ({ column, class: name, mark: 'few_counted' as const }));
    return fc.oneof(plain, silent, beyond, few, fc.constant({ column, class: null, mark: 'too_many' as const }));
  };
  const labels = table.columns.map((column) => column.label);
  const parts =
    table.notation === 'single'
      ? atMost('').map((one) => labels.map((column) => ({ ...one, column })))
      : fc.tuple(...labels.map(part)).filter((all) => all.some((one) => one.class !== null || one.mark === 'too_many'));
  return parts.map((all) => {
    const code = { table: table.id, parts: all, text: '' };
    return { ...code, text: formatCode(table, code) };
  });
}

describe.each(tables)('$id', (table) => {
  test('reading what is written gives the same code', () => {
    fc.assert(
      fc.property(codeOf(table), (code) => {
        expect(parseCode(table, formatCode(table, code))).toEqual(code);
      }),
      { numRuns: some(2000) },
    );
  });

  test('blanks and small letters do not matter', () => {
    fc.assert(
      fc.property(codeOf(table), fc.constantFrom(' ', '  ', '\t'), (code, blank) => {
        const loose = `${blank}${code.text.toLowerCase().split('/').join(`${blank}/ `)}${blank}`;
        expect(parseCode(table, loose)).toEqual(code);
      }),
    );
  });
});

describe('any text gives a code or an error with a position', () => {
  const random = stream(28);
  const signs = '0123456789/->=*≥ ABCDEFabcdef.<\n\u0000é漢\ud800';

  function rubbish(length: number): string {
    let text = '';
    while (text.length < length) text += signs.charAt(Math.floor(random() * signs.length));
    return text;
  }

  /** Almost a code: a real one with a character put in, taken out or changed. */
  function nearly(): string {
    const seeds = [
      '22/18/13',
      '-/18/13',
      '14/12/>=7',
      '7B/6C/5D',
      '6B-F',
      '6',
      '00',
      '>12',
      '*/19/14',
      '>28/28/7',
      '6B-D/5E-F',
    ];
    const text = seeds[Math.floor(random() * seeds.length)] as string;
    const place = Math.floor(random() * (text.length + 1));
    return text.slice(0, place) + rubbish(Math.floor(random() * 2)) + text.slice(place + Math.floor(random() * 2));
  }

  test('a million strings, no other exception', () => {
    let read = 0;
    const tries = some(1_000_000, 20_000);
    for (let i = 0; i < tries; i += 1) {
      const text = i % 2 === 0 ? rubbish(Math.floor(random() * 12)) : nearly();
      const table = tables[i % tables.length] as codes.ClassTable;
      try {
        const code = parseCode(table, text);
        read += 1;
        if (read % 50 === 0) expect(parseCode(table, code.text)).toEqual(code);
      } catch (error) {
        const { position } = error as { position?: number };
        if (!isMotescaleError(error) || position === undefined || position < 0 || position > text.length) {
          expect.fail(`${JSON.stringify(text)} in ${table.id}: ${String(error)} at ${position}`);
        }
      }
    }
    expect(read).toBeGreaterThan(tries / 50);
  });

  test.each([
    ['', 0, codes.iso4406],
    ['18/16', 5, codes.iso4406],
    ['18/16/13/10', 8, codes.iso4406],
    ['18/x/13', 3, codes.iso4406],
    ['18/ 29/13', 4, codes.iso4406],
    ['18/16/>=', 6, codes.iso4406],
    ['18/16/>=-', 6, codes.iso4406],
    ['18/16/13', 0, codes.iso4406Microscope],
    ['6', 0, codes.as4059Cumulative],
    ['6B/7G', 3, codes.as4059Cumulative],
    ['6B/7B', 3, codes.as4059Cumulative],
    ['6F-B', 0, codes.as4059Cumulative],
    ['6B', 0, codes.nas1638],
    ['13', 0, codes.nas1638],
  ] as const)('%o: position %i', (text, position, table) => {
    expect(() => parseCode(table, text)).toThrowError(expect.objectContaining({ code: 'bad_code', position }));
  });

  test('10,000 characters of rubbish are refused for their length, before anything is read', () => {
    const texts = ['/'.repeat(10_000), '6'.repeat(10_000), ' '.repeat(10_000), rubbish(10_000)];
    for (const text of texts) {
      for (const table of tables) {
        expect(() => parseCode(table, text)).toThrowError(expect.objectContaining({ code: 'bad_code', position: 200 }));
      }
    }
  });
});

describe('targets', () => {
  test('a code meets itself, with no margin; a cleaner one meets it with a margin', () => {
    fc.assert(
      fc.property(codeOf(codes.iso4406), (code) => {
        const counted = code.parts.filter((part) => part.class !== null);
        // nothing asked for, or something never counted, is no target
        fc.pre(counted.length > 0 && code.parts.every((part) => part.mark !== 'too_many'));
        const { met, margins } = codes.meets(codes.iso4406, code, code);
        expect(met).toBe(code.parts.some(({ mark }) => mark === 'few_counted') ? null : true);
        expect(margins.every(({ classes }) => classes === 0)).toBe(true);
        expect(margins).toHaveLength(counted.length);
      }),
    );
  });

  test.each([
    ['18/16/13', '17/16/10', true, [1, 0, 3], [], []],
    ['18/16/13', '19/16/13', false, [-1, 0, 0], [], []],
    ['18/-/13', '18/28/13', true, [0, 0], [], []],
    ['18/16/13', '18/16/-', null, [0, 0], ['14'], []],
    ['18/16/13', '19/16/-', false, [-1, 0], ['14'], []],
    ['18/16/13', '18/16/>=13', null, [0, 0, 0], [], ['14']],
    ['18/16/13', '*/16/13', false, [-11, 0, 0], [], []],
    ['18/16/13', '18/16/>=7', true, [0, 0, 6], [], ['14']],
    ['18/16/13', '>28/16/13', false, [-11, 0, 0], [], []],
  ] as const)('target %s, found %s', (target, actual, met, classes, missing, uncertain) => {
    const outcome = codes.meets(codes.iso4406, target, parseCode(codes.iso4406, actual));
    expect(outcome.margins.map((margin) => margin.classes)).toEqual(classes);
    expect(outcome).toMatchObject({ met, missing, uncertain });
  });

  test('a class "or dirtier" is written, read and judged: it can fail a target, and never keeps one', () => {
    const counts = cumulativeCounts({ 6: 300, 14: 20 });
    const classification = codes.classify(codes.nas1638, counts);
    expect(classification.text).toMatch(/^\d+ or dirtier$/);
    expect(codes.formatCode(codes.nas1638, classification)).toBe(classification.text);
    const code = parseCode(codes.nas1638, classification.text);
    expect(codes.formatCode(codes.nas1638, code)).toBe(classification.text);
    for (const actual of [classification, code]) {
      expect(codes.meets(codes.nas1638, '12', actual).met).toBe(null);
      expect(codes.meets(codes.nas1638, '2', actual).met).toBe(false);
    }
    expect(() => codes.meets(codes.nas1638, classification.text, counts)).toThrow(/expected a class for at least/);
    expect(codes.limitsOf(codes.nas1638, code).bands).toEqual([]);
  });

  test('of a code that says nothing, nothing is seen', () => {
    for (const table of [codes.nas1638, codes.iso4406]) {
      const span = codes.possibleClasses(table, codes.limitsOf(codes.iso4406, '-/-/-'));
      expect(span.unseen).toEqual(table.columns.map(({ label }) => label));
      expect(span).toMatchObject({ lowest: table.classes[0], highest: `>${table.classes.at(-1)}` });
    }
  });
});
