/** Codes as exports write them are read at the door and told; what is no code of its table is told too. */
import { describe, expect, test } from 'vitest';
import { advanceAcceptance, prepareAcceptance, startAcceptance } from '../../src/acceptance/index.ts';
import { iso4406, nas1638, parseCode } from '../../src/codes/index.ts';
import { problemsOf } from '../../src/errors.ts';
import { germanTexts } from '../../src/german/index.ts';
import { assessReading, findingText } from '../../src/reading/index.ts';
import { type Problem, parseAcceptanceReading, parseMonitorReading, parseReading } from '../../src/schema/index.ts';

const time = 1795593600000;
const read = (id: string, code: unknown, told: Problem[] = []) =>
  parseMonitorReading({ time, codes: { [id]: code } }, told).codes?.[id];

describe('a code with the name of its standard before it', () => {
  test.each([
    ['iso4406', 'ISO 18/16/12', '18/16/12'],
    ['iso4406', 'ISO 4406: 18/16/12', '18/16/12'],
    ['iso4406', 'ISO 4406:2021 18 / 16 / 12', '18 / 16 / 12'],
    ['iso4406', 'iso-code */18/14', '*/18/14'],
    ['iso4406', 'ISO 4406 >=18/16/12', '>=18/16/12'],
    ['iso4406', 'iso4406 18/16/12', '18/16/12'],
    ['iso4406Microscope', 'ISO 4406:1987 16/13', '16/13'],
    ['nas1638', 'NAS 7', '7'],
    ['nas1638', 'NAS 1638 class 00', '00'],
    ['nas1638', 'Klasse 7', '7'],
    ['as4059Cumulative', 'SAE AS4059 6B/6C/5D', '6B/6C/5D'],
    ['as4059Differential', 'AS4059 Table 1: 7', '7'],
    ['gost17216', 'GOST 17216 9', '9'],
    ['cc1246', 'IEST-STD-CC1246 level 100', '100'],
  ])('%s: %s', (id, text, code) => {
    const told: Problem[] = [];
    expect(read(id, text, told)).toBe(code);
    expect(told).toEqual([
      { path: ['codes', id], code: 'bad_code', received: `'${text}'`, expected: `read as ${code}` },
    ]);
  });

  test('of a table of one’s own: its id or its title', () => {
    const own = { ...nas1638, id: 'gateOil', title: 'Lock gate oil 3' };
    const readOwn = (text: string) =>
      parseMonitorReading({ time, codes: { gateOil: text } }, [], { tables: [own] }).codes?.gateOil;
    expect([readOwn('Lock gate oil 3: 7'), readOwn('gateOil 7')]).toEqual(['7', '7']);
    // the title alone is no class 3
    expect(readOwn('Lock gate oil 3')).toBe('Lock gate oil 3');
  });

  test.each([
    ['iso4406', 'ERR'],
    ['iso4406', ''],
    ['iso4406', 'ERR '],
    ['iso4406', 'target 18/16/12'],
    ['iso4406', 'NAS 18/16/12'],
    ['iso4406', 'ISO 4406:1987 18/16/12'],
    ['iso4406', '18-16-12'],
    ['nas1638', 'SAE AS4059 7'],
    ['as4059Differential', 'AS4059E 7'],
    ['as4059Differential', 'SAE AS4059 Table 1'],
    ['as4059Differential', 'AS4059 Table 2'],
  ])('no other words: %s: %s is kept as it came, told, and bad', (id, text) => {
    const told: Problem[] = [];
    expect(read(id, text, told)).toBe(text);
    expect(told).toMatchObject([{ path: ['codes', id], code: 'bad_code', received: `'${text}'` }]);
    expect(told[0]?.expected).toMatch(/^kept: \w/);
  });

  test('it says what the table would have read', () => {
    const told: Problem[] = [];
    read('nas1638', 'SAE AS4059 7', told);
    expect(() => parseCode(nas1638, 'SAE AS4059 7')).toThrow(told[0]?.expected.replace('kept: ', ''));
    expect(told[0]?.expected).toContain("without 'SAE AS4059'");
  });
});

describe('what the rule of a code refuses is no code with words before it', () => {
  const refusedBy = (code: unknown, id = 'iso4406') => {
    const told: Problem[] = [];
    const reading = parseMonitorReading({ time, celsius: 40, codes: { [id]: code } }, told, { keepReadable: true });
    expect(reading).toEqual({ time, celsius: 40, qualities: { counts: 'bad' } });
    expect(() => read(id, code)).toThrow(`reading.codes.${id}`);
    return told.filter(({ path }) => path[0] === 'codes').map(({ code, expected }) => `${code} ${expected}`);
  };
  const wanted = 'left out: a code as text of 0 to 200 characters';

  test('no text, also a list that holds one', () => {
    for (const code of [true, ['18/16/13'], { code: '18/16/13' }])
      expect(refusedBy(code)).toEqual([`wrong_type ${wanted}`]);
    expect(refusedBy(99, 'nas1638')).toEqual([`wrong_type ${wanted}`]);
  });

  test('a text of more than 200 characters', () => {
    const spaced = (length: number) => `ISO${' '.repeat(length - 11)}18/16/13`;
    expect(read('iso4406', spaced(200))).toBe('18/16/13');
    expect(refusedBy(spaced(201))).toEqual([`out_of_range ${wanted}`]);
  });

  test('no codes at all are none, and not left out', () => {
    expect(parseMonitorReading({ time, celsius: 40, codes: {} })).toEqual({ time, celsius: 40, codes: {} });
  });
});

test('with keepReadable a code that is none is left out, told, and the counts are bad', () => {
  for (const text of ['ERR', '']) {
    const told: Problem[] = [];
    const raw = { time, celsius: 40, codes: { iso4406: text } };
    const reading = parseMonitorReading(raw, told, { keepReadable: true });
    expect(reading).toEqual({ time, celsius: 40, qualities: { counts: 'bad' } });
    expect(told.map(({ path, expected }) => `${path.join('.')} ${expected.split(':')[0]}`)).toEqual([
      'codes.iso4406 left out',
      'qualities.counts read as bad',
    ]);
  }
  const beside = { time, codes: { iso4406: 'ERR', nas1638: 'NAS 7' } };
  expect(parseMonitorReading(beside, [], { keepReadable: true })).toEqual({
    time,
    codes: { nas1638: '7' },
    qualities: { counts: 'uncertain' },
  });
  const counts = { sizing: 'iso11171', sizes: [4, 6, 14], perMl: [1890, 402, 33] };
  const whole = parseMonitorReading({ time, counts, codes: { iso4406: 'ERR' } }, [], { keepReadable: true });
  expect(whole).toEqual({ time, counts });
});

describe('a class as a number', () => {
  test.each([
    ['nas1638', 7, '7'],
    ['nas1638', 0, '0'],
    ['gost17216', 17, '17'],
    ['cc1246', 100, '100'],
  ])('%s: %d is the class', (id, given, code) => {
    const told: Problem[] = [];
    expect(read(id, given, told)).toBe(code);
    expect(told).toEqual([
      { path: ['codes', id], code: 'wrong_type', received: `${given}`, expected: `read as ${code}` },
    ]);
  });

  test.each([
    ['nas1638', 13],
    ['nas1638', 6.5],
    ['nas1638', Number.NaN],
    ['iso4406', 18],
    ['as4059Cumulative', 6],
    ['gateOil', 7],
  ])('%s: %d is none, and wanted as text', (id, given) => {
    let problems: readonly Problem[] = [];
    try {
      read(id, given);
    } catch (error) {
      problems = problemsOf(error);
    }
    expect(problems).toMatchObject([{ path: ['codes', id], code: 'wrong_type', received: `${given}` }]);
    expect(problems[0]?.expected).toBe('a code as text of 0 to 200 characters');
  });

  test('and the counts are bad where what can be read is kept', () => {
    const reading = parseReading({ codes: { nas1638: 13 } }, [], { keepReadable: true });
    expect(reading).toEqual({ qualities: { counts: 'bad' } });
  });
});

test('an empty code is the finding that any other is, in a proof too', () => {
  const proof = prepareAcceptance({ table: iso4406, target: '18/16/13', readings: 2 });
  const events = ['', 'x'].map((code) => {
    expect(assessReading({ codes: { iso4406: code } }).findings).toMatchObject([{ code: 'code_unreadable' }]);
    const reading = parseAcceptanceReading({ time, codes: { iso4406: code } });
    return advanceAcceptance(proof, startAcceptance(proof), reading).events.map(({ event }) => event);
  });
  expect(events[0]).toEqual(events[1]);
});

test('the finding names what came', () => {
  const [finding] = assessReading({ codes: { iso4406: 'ERR 7' } }).findings;
  expect(finding).toMatchObject({ code: 'code_unreadable', value: 1, limit: 0, received: 'ERR 7' });
  if (finding === undefined) return;
  expect(findingText(finding)).toMatch(/^What came as a code, 'ERR 7', cannot be read/);
  expect(findingText(finding, germanTexts)).toMatch(/^Was als Klasse kam, 'ERR 7', ist/);
  // one that was kept before it named anything
  const { received, ...before } = finding;
  expect(received).toBe('ERR 7');
  expect(findingText(before)).toMatch(/^What came as a code, -, cannot be read/);
  expect(findingText({ ...finding, received: 'x'.repeat(200) }).length).toBeLessThan(230);
});
