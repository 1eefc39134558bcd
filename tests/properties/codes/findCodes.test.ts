/** Codes in pasted text: found where they stand, and nothing else. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  as4059Cumulative,
  findCodes,
  formatCode,
  iso4406,
  iso4406Microscope,
  meets,
  nas1638,
  type Problem,
  parseCode,
} from '../../../src/codes/index.ts';
import { expectRefused } from '../../inputs/refused.ts';

const isFalling = (text: string) => {
  const [first = 0, second = 0] = (text.match(/\d+/g) ?? []).map(Number);
  return first >= second;
};
const codesIn = (text: string) => findCodes(text).map(({ code }) => code.text);

describe('findCodes', () => {
  test.each<[string, string[]]>([
    ['ISO 4406: 18/16/13', ['18/16/13']],
    ['18／16／13 and 17⁄15∕12.', ['18/16/13', '17/15/12']],
    ['result\u00A018 / 16 /13, target 17/15/12', ['18/16/13', '17/15/12']],
    ['–/16/13 by microscope, −/15/12 too', ['-/16/13', '-/15/12']],
    ['18/–/13', ['18/-/13']],
    ['14/12/>=7 then 14/12/≥7 and >28/20/*', ['14/12/>=7', '14/12/>=7', '>28/20/*']],
    ['old two-part 16/13', ['-/16/13']],
    ['(18/16/13)', ['18/16/13']],
    ['18-16-13', []],
    ['on 31/12/2026 and 2026/12/10', []],
    ['99/98/97, a/18/16/13, 18/16/13/10, 118/16/13, 18/16/134, 18.5/16/13, 18/16/13.5', []],
    ['18/16/13, 17/15/12. Then: 16/14/11', ['18/16/13', '17/15/12', '16/14/11']],
    ['18/16/13.5 or .18/16/13', []],
    ['18/\n16/13 and 18/16/\r\n13, 17 /\n\t15/12', ['18/16/13', '18/16/13', '17/15/12']],
    ['18/    16/13 and 18/16    /13, a/\n16/13x', []],
    ['Code / 18/16/13 / target', ['18/16/13']],
    ['U1,18/16/13,1890', ['18/16/13']],
    ['12,18/16/13,1890,-/16/13,*/20/>=7', ['18/16/13', '-/16/13', '*/20/>=7']],
    ['18/16/13,17/15/12', ['18/16/13', '17/15/12']],
    ['16/13,15/12', ['-/16/13', '-/15/12']],
    ['18,5/16/13 or 18/16,5/13', []],
    ['\uFF11\uFF18\uFF0F\uFF11\uFF16\uFF0F\uFF11\uFF13', ['18/16/13']],
    ['\uFF1E\uFF1D\uFF11\uFF18\uFF0F\uFF0A\uFF0F\uFF0D\uFF0C\uFF11\uFF18/16/13', ['>=18/*/-', '18/16/13']],
    ['\uFF1118/16/13', []],
    ['_18/16/13 18/16/13_ 18/16/13x \u20440/1/2', []],
    ['18/16/> =7, 18/16/>= 7, 18/16/≥ 7', ['18/16/>=7', '18/16/>=7', '18/16/>=7']],
    ['> 28/16/13 and >28/16/13', ['>28/16/13', '>28/16/13']],
    ['18   /   16   /   13', ['18/16/13']],
    ['18    /16/13', []],
    ['18\t/16\u00A0/13', ['18/16/13']],
    ['*/16/13 and -/*/13', ['*/16/13', '-/*/13']],
    ['-/-/- and */*/*', []],
    ['ISO 4406: >21/>19/16 (target 18/16/13)', ['*/*/16', '18/16/13']],
    ['>21/>19/>16, -/>18/15, >18/15', ['*/*/*', '-/*/15', '-/*/15']],
    ['before 17/15/12 -> 21/19/16', ['17/15/12', '21/19/16']],
    ['17/15/12=>21/19/16 and 17/15/12 --> 21/19/16', ['17/15/12', '21/19/16', '17/15/12', '21/19/16']],
    ['17/15/12 -> >28/19/16, 17/15/12 \u2013> -/16/13', ['17/15/12', '>28/19/16', '17/15/12', '-/16/13']],
    ['\u2010/16/13 \u2015/16/13 \uFF0D/16/13', ['-/16/13', '-/16/13', '-/16/13']],
    ['18\u221516/13', ['18/16/13']],
    ['-/-/-', []],
    ['', []],
  ])('%s', (text, expected) => {
    expect(codesIn(text)).toEqual(expected);
  });

  test('text and position are those of the text, and the table is told', () => {
    const text = 'Gate 2:  18 / 16/13; before that 17/14.';
    const found = findCodes(text);
    expect(found.map(({ table }) => table)).toEqual(['iso4406', 'iso4406Microscope']);
    for (const { text: piece, position } of found) expect(text.slice(position, position + piece.length)).toBe(piece);
    expect(findCodes(text, [iso4406])).toHaveLength(1);
  });

  test('what is shaped like a code and is none is told, and what was read as another', () => {
    const told: Problem[] = [];
    const text = 'was 35/19/16 and 18/16/13/10, is 20/18/>15, >28/16/*; -/-/- on 31/12/2026';
    expect(findCodes(text, [iso4406], told).map(({ code }) => code.text)).toEqual(['20/18/*', '>28/16/*']);
    expect(told.map(({ path, received, expected, lost }) => [path[0], received, expected, lost])).toEqual([
      [4, "'35/19/16'", 'left out: a code of these tables', true],
      [17, "'18/16/13/10'", 'left out: a code of these tables', true],
      [33, "'20/18/>15'", 'read as 20/18/*', undefined],
      [54, "'-/-/-'", 'left out: a code of these tables', true],
    ]);
    const many: Problem[] = [];
    findCodes('99/98/97 '.repeat(200), [iso4406], many);
    expect(many).toHaveLength(100);
    expect(() => findCodes(text, [iso4406], 5 as never)).toThrow('told');
  });

  test('a text of 100,000 characters is read to its end', () => {
    expect(codesIn(`${' '.repeat(99992)}18/16/13`)).toEqual(['18/16/13']);
  });

  test('every code of the tables is found again between words', () => {
    const number = fc.nat(28).map(String);
    fc.assert(
      fc.property(fc.tuple(number, number, number), ([a, b, c]) => {
        expect(codesIn(`oil ${a}/${b}/${c}, ok`)).toEqual([parseCode(iso4406, `${a}/${b}/${c}`).text]);
        expect(codesIn(`oil -/${a}/${b}; ok`)).toEqual([parseCode(iso4406, `-/${a}/${b}`).text]);
      }),
    );
  });

  test('every code is found between separators of CSV and sentences, and comes back as it was written', () => {
    const sign = fc.constantFrom('-', '*', '>28');
    const one = fc.oneof(
      { weight: 6, arbitrary: fc.nat(28).map(String) },
      fc.nat(28).map((n) => `>=${n}`),
      sign,
    );
    const codeOf = fc
      .tuple(fc.constantFrom(iso4406, iso4406Microscope), one, one, one)
      .map(([table, a, b, c]) => formatCode(table, parseCode(table, [a, b, c].slice(-table.columns.length).join('/'))))
      .filter((text) => /\d/.test(text));
    const before = fc.constantFrom(
      '',
      'U1,',
      '"',
      ',"',
      ';',
      '\t',
      '|',
      '| ',
      ' ',
      '(',
      '\n',
      '\r\n',
      'ISO 4406: ',
      'is ',
    );
    const after = fc.constantFrom(
      '',
      ',U1',
      ',1890',
      '"',
      '",',
      ';',
      '\t',
      '|',
      ' |',
      ' ',
      ')',
      '\n',
      '\r\n',
      '.',
      '. It',
    );
    const more = fc.constantFrom(',ok', ', ok', '; ', ': ', '? ', '! ', ' (target)', ' at 4 µm(c)');
    fc.assert(
      fc.property(before, codeOf, fc.oneof(after, more), (start, text, end) => {
        expect(codesIn(start + text + end)).toEqual([text]);
      }),
    );
    fc.assert(
      fc.property(
        fc.array(codeOf, { minLength: 2, maxLength: 5 }),
        fc.constantFrom(',', ', ', ';', '\t', '\n'),
        (all, by) => {
          // after a comma a number that rises reads as decimals
          const falling = all.filter(isFalling);
          expect(codesIn(falling.join(by))).toEqual(falling);
        },
      ),
    );
  });

  test.each(['1/', '- ', '>= ', '1 / ', '   ', '\n/'])('a long text of %j has no code', (piece) => {
    expect(findCodes(piece.repeat(Math.floor(100000 / piece.length)))).toEqual([]);
  });

  test.each<[string, string, () => unknown]>([
    ['wrong_type', 'text', () => findCodes(5 as never)],
    ['out_of_range', 'text', () => findCodes('x'.repeat(100001))],
    ['empty', 'tables', () => findCodes('x', [])],
    ['wrong_type', 'tables[1]', () => findCodes('x', [iso4406, {} as never])],
    ['wrong_table', 'tables[0]', () => findCodes('x', [nas1638])],
  ])('%s on %s', (code, parameter, run) => {
    expect(run).toThrow(expect.objectContaining({ code, parameter }));
  });

  test('a table of bare classes is refused with the reason', () => {
    expectRefused('wrong_table', 'tables[0]', 'a bare class cannot be told in a text', () => findCodes('x', [nas1638]));
  });

  test('parseCode says why numbers joined by dashes are no code', () => {
    expect(() => parseCode(iso4406, '18-16-13')).toThrow(/slashes between the numbers/);
    expect(() => parseCode(iso4406Microscope, '16–13')).toThrow(/slashes between the numbers/);
  });
});

test.each([
  ['\u2013/16/13', '-/16/13'],
  ['18\uFF0F16\uFF0F13', '18/16/13'],
  ['18\u2044\u2212\u2044\u2265\u00A07', '18/-/>=7'],
])('what is found in a text is read alone too: %s', (text, wanted) => {
  expect(findCodes(text).map(({ code }) => code.text)).toEqual([wanted]);
  expect(parseCode(iso4406, text).text).toBe(wanted);
  expect(meets(iso4406, '18/16/13', text)).toEqual(meets(iso4406, '18/16/13', wanted));
});

test('and so is the span of a class, but dashes for slashes are no code', () => {
  expect(parseCode(as4059Cumulative, '6B\u2013F').text).toBe('6B-F');
  for (const text of ['18-16-13', '18\u201316\u201313'])
    expect(() => parseCode(iso4406, text)).toThrow('with slashes between the numbers');
});
