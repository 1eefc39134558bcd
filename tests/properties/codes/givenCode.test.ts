/**
 * `>` and a number below the last class: beyond the counter's own range, and no upper bound (common practice of
 * counters; how each notation then writes it is our choice).
 */
import { describe, expect, test } from 'vitest';
import {
  as4059Cumulative,
  type ClassTable,
  cc1246,
  gost17216,
  iso4406,
  iso4406Microscope,
  nas1638,
} from '../../../src/codes/index.ts';
import { hasOwnRange, parseGiven, withoutOwnRange } from '../../../src/codes/written/givenCode.ts';
import { caught } from '../../../src/errors.ts';
import { advanceMonitor, prepareMonitor, startMonitor } from '../../../src/monitor/index.ts';

describe('a number beyond the counter’s own range', () => {
  test.each<[ClassTable, string, string]>([
    [iso4406, '>20/17/14', '*/17/14'],
    [iso4406, '> 20/ >17/>14', '*/ */*'],
    [iso4406, '\uFF1E20/17/14', '*/17/14'],
    [iso4406Microscope, '-/>17/14', '-/*/14'],
    [as4059Cumulative, '>6B/5C', '>12B/5C'],
    [as4059Cumulative, '>6B-F', '>12B-F'],
    [nas1638, '>9', '10 or dirtier'],
    [nas1638, '>00', '0 or dirtier'],
    [gost17216, '> 9', '10 or dirtier'],
  ])('%#: %s', (table, given, written) => {
    expect(withoutOwnRange(table, given)).toBe(written);
    expect(hasOwnRange(table, given)).toBe(true);
    expect(parseGiven(table, given).text).toBe(parseGiven(table, written).text);
  });

  test.each<[ClassTable, string]>([
    [iso4406, '>28/17/14'],
    [iso4406, '>=20/17/14'],
    [iso4406, '20/17/14'],
    // no class of the table: as it came, which is refused
    [iso4406, '>29/17/14'],
    [nas1638, '>12'],
    [nas1638, '>13'],
    [as4059Cumulative, '>12B/5C'],
  ])('%#: %s is left as it is', (table, given) => {
    expect(withoutOwnRange(table, given)).toBe(given);
    expect(hasOwnRange(table, given)).toBe(false);
  });

  test('a blank or a full-width sign alone is no range of its own', () => {
    expect(hasOwnRange(iso4406, '\uFF1E28/17/14')).toBe(false);
    expect(withoutOwnRange(iso4406, '20／17／14')).toBe('20／17／14');
  });

  test('levels with letters in their names', () => {
    const names = cc1246.classes;
    expect(withoutOwnRange(cc1246, `>${names[2]}`)).toBe(`${names[3]} or dirtier`);
    const own = { ...nas1638, classes: nas1638.classes.map((name) => `A${name}b`) };
    expect(withoutOwnRange(own, '>A4b')).toBe('A5b or dirtier');
  });

  test.each<[ClassTable, string, string]>([
    [iso4406, '>20/17/x', 'a scale number from 0 to 28'],
    [iso4406, '>20/17', '3 numbers, at 4/6/14 µm'],
    [iso4406, '17/x/14', 'a scale number from 0 to 28'],
    [nas1638, '>9x', 'a class of NAS 1638'],
  ])('%#: an error tells of the text that came: %s', (table, given, expected) => {
    try {
      parseGiven(table, given, 'code');
      expect.unreachable('read');
    } catch (error) {
      const { code, parameter, received, message, position } = caught(error);
      expect([code, parameter, received]).toEqual(['bad_code', 'code', `'${given}'`]);
      expect(message).toContain(expected);
      expect(position).toBe(given.charAt(0) === '>' ? undefined : 3);
    }
  });
});

test('without a name it is the text', () => {
  for (const given of ['x', '>20/x']) expect(() => parseGiven(iso4406, given)).toThrow(/^text[ :]/);
});

describe('of a lettered code by itself', () => {
  const found = (code: string, coincidencePerMl: number) => {
    const prepared = prepareMonitor({ codes: [{ table: as4059Cumulative }], limits: { coincidencePerMl } });
    const { verdict } = advanceMonitor(prepared, startMonitor(prepared), {
      time: 0,
      codes: { as4059Cumulative: code },
    });
    return verdict?.findings.map(({ code: name, value, sizes = [] }) => [name, value, ...sizes]);
  };
  const [last, before] = [12, 9].map((name) => {
    const place = as4059Cumulative.classes.indexOf(`${name}`);
    return (as4059Cumulative.limits[place - (name === 9 ? 1 : 0)] as readonly number[])[1] as number;
  }) as [number, number];

  test('beyond the last class more is known to have been there, beyond the own range of the counter not', () => {
    expect(found('>12B', 100)).toEqual([['above_coincidence_limit', last / 100, 6]]);
    expect(found('>6B', 100)).toEqual([]);
    expect(found('>12B', last)).toEqual([]);
  });

  test('nor is a size beside it doubted, or one that is not in the code', () => {
    expect(found('9B/>6C', 100)).toEqual([['above_coincidence_limit', before / 100, 6]]);
    expect(found('6B', 1e6)).toEqual([]);
  });
});
