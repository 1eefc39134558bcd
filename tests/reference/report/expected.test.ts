/**
 * What an error expects, in German: for all that a reading may hold, for counts, codes and targets, and for the options
 * of the report. What has no words yet is left out, never told in English.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { prepareAcceptance } from '../../../src/acceptance/index.ts';
import { acceptanceRule } from '../../../src/acceptance/rules.ts';
import { prepareAlarm } from '../../../src/alarm/index.ts';
import { alarmRule } from '../../../src/alarm/rules.ts';
import {
  classify,
  classifyColumns,
  compareCodes,
  iso4406,
  meets,
  nas1638,
  parseCode,
} from '../../../src/codes/index.ts';
import { compareCounts, cumulativeCounts } from '../../../src/counts/index.ts';
import { germanTexts } from '../../../src/german/index.ts';
import { followRule } from '../../../src/monitor/followed/plan.ts';
import { prepareMonitor } from '../../../src/monitor/index.ts';
import { monitorRule } from '../../../src/monitor/rules.ts';
import { assessReading, parseCounts } from '../../../src/reading/index.ts';
import { limitsRule } from '../../../src/reading/limitsRule.ts';
import { readingRule, timedReadingRule } from '../../../src/reading/rules.ts';
import {
  cleanUpChart,
  csvColumns,
  englishTexts,
  errorText,
  messageOf,
  parseCsv,
  periodFigures,
  probabilityChart,
  reportRows,
  sampleSheet,
  sizeChart,
  type Texts,
  toCsv,
  trendChart,
} from '../../../src/report/index.ts';
import { expectedText, receivedText } from '../../../src/report/messages/expectedText.ts';
import type { Rule } from '../../../src/rules/rule.ts';
import { expectedOf, namesText } from '../../../src/rules/words.ts';
import { parseMonitorReading, parseReading } from '../../../src/schema/index.ts';
import { filesBelow } from '../../files.ts';

/** All that errors about a value of this rule may expect. */
function expectedIn(rule: Rule): string[] {
  const own = [expectedOf(rule)];
  switch (rule.kind) {
    case 'object':
      return [...own, namesText(rule.members), ...Object.values(rule.members).flatMap(expectedIn)];
    case 'list':
      return [...own, ...expectedIn(rule.of)];
    case 'record':
      return [...own, ...(rule.names ? [`one of '${rule.names.join("', '")}'`] : []), ...expectedIn(rule.of)];
    case 'either':
      return [...own, ...rule.forms.flatMap(expectedIn)];
    default:
      return own;
  }
}

/** Words of English that German does not have: articles and joints that stand in nearly every one. */
const english = /\b(a|the|of|or|and|one|each|above|below|from|to|with|at|most|least|number|numbers|size|sizes|text)\b/;
const bare = (text: string) =>
  text.replace(/'[^']*'|options\.\w+|\{ .* \}|eines von [\w, ]+\.?$|Date\.parse|getTime\(\)/g, '');

describe('a reading', () => {
  test.each([...new Set([readingRule, timedReadingRule].flatMap(expectedIn))])('%s', (expected) => {
    const told = expectedText(expected, germanTexts);
    expect(told).not.toBeNull();
    expect(bare(told as string)).not.toMatch(english);
  });
});

const aTable: Rule = { kind: 'object', expected: 'a class table', members: { id: { kind: 'text' } } };

describe('a configuration', () => {
  const rules = [monitorRule(aTable, limitsRule(), followRule()), acceptanceRule(aTable, limitsRule()), alarmRule()];
  test.each([...new Set(rules.flatMap(expectedIn))])('%s', (expected) => {
    const told = expectedText(expected, germanTexts);
    expect(told).not.toBeNull();
    expect(bare(told as string)).not.toMatch(english);
  });
});

const counts = cumulativeCounts({ 4: 1890, 6: 402, 14: 33 });
const raw = cumulativeCounts({ 4: 18900 }, { volumeMl: 10 });
const hot = { id: 'hot', type: 'high', figure: { quantity: 'celsius' }, setpoint: 65 };
const reading = { time: 0, counts };
const tank = { litres: 600, litresPerMin: 40, counts, beta: [20, 75, 1000] };
const wrong = <T>(value: unknown): T => value as T;
const bad: Record<string, () => unknown> = {
  'no object of counts': () => cumulativeCounts(wrong(4)),
  'a negative count': () => cumulativeCounts({ 4: -1 }),
  'a count that is no number': () => cumulativeCounts({ 4: wrong('many') }),
  'a size of 0': () => cumulativeCounts({ 0: 4 }),
  'counts that rise': () => cumulativeCounts({ 4: 10, 6: 20 }),
  'a volume of 0': () => cumulativeCounts({ 4: 10 }, { volumeMl: 0 }),
  'parts of particles': () => cumulativeCounts({ 4: 10.5 }, { volumeMl: 10 }),
  'a misspelt option of counts': () => cumulativeCounts({ 4: 10 }, wrong({ volumeML: 10 })),
  'another sizing': () => cumulativeCounts({ 4: 10 }, wrong({ sizing: 'iso' })),
  'counts of another length': () => classify(iso4406, { ...counts, perMl: [1, 2] }),
  'counts that are a text': () => classify(iso4406, wrong('1890')),
  'no table': () => classify(wrong({}), counts),
  'parsed counts of a misspelt member': () => parseCounts(wrong({ sizes: [4], perML: [1] })),
  'a cold flow': () => assessReading(wrong({ counts, mlPerMin: 'fast' })),
  'a hot reading': () => parseReading({ celsius: 1e6 }),
  'a reading without its time': () => parseMonitorReading({ counts }),
  'a time as a Date': () => parseMonitorReading({ time: new Date(0), celsius: '45,2', kPa: '312', 4: 1890 }),
  'a time in seconds': () => parseMonitorReading({ time: 1795852800 }),
  'a time of a clock that was not set': () => parseMonitorReading({ time: 60000 }),
  'several mistakes': () => parseMonitorReading({ time: 'now', celsius: 'hot', kpa: 3 }),
  'a code that is none': () => parseCode(iso4406, 'eighteen'),
  'a code of two parts': () => parseCode(iso4406, '18/16'),
  'a code with dashes': () => parseCode(iso4406, '18-16-13'),
  'a scale number too high': () => parseCode(iso4406, '18/16/31'),
  'a code that is a number': () => parseCode(iso4406, wrong(18)),
  'a class that is none': () => parseCode(nas1638, '13'),
  'a target of another table': () => meets(iso4406, parseCode(nas1638, '7'), classify(iso4406, counts)),
  'a code that is too long': () => parseCode(iso4406, '1'.repeat(300)),
  'words before a code': () => parseCode(iso4406, 'ISO 4406 18/16/13'),
  'a code that no sample has': () => compareCodes({ table: nas1638, code: '7' }, { table: iso4406, code: '10/16/13' }),
  'a second sample of other sizes': () => compareCounts(raw, cumulativeCounts({ 5: 189 }, { volumeMl: 10 })),
  'a second sample of another sizing': () =>
    compareCounts(raw, cumulativeCounts({ 4: 189 }, { volumeMl: 10, sizing: 'microscope' })),
  'more than any oil holds': () => cumulativeCounts({ 4: 5e12 }, { volumeMl: 1 }),
  'a target that any oil keeps': () => prepareMonitor({ codes: [{ table: iso4406, target: '>28/>28/>28' }] }),
  'a narrow chart': () => trendChart([reading], { width: 100 }),
  'a chart of another grammar': () => trendChart([reading], { vegaLite: wrong(4) }),
  'a chart with a number as title': () => trendChart([reading], { title: wrong(4) }),
  'a misspelt option of a chart': () => trendChart([reading], wrong({ widht: 400 })),
  'a chart of a text': () => trendChart(wrong('readings')),
  'a chart of a target that is none': () => trendChart([reading], { target: 'dirty' }),
  'a chart of an alarm cleaner than its target': () => trendChart([reading], { target: '19/17/14', alarm: '18/16/13' }),
  'a chart that ends before it begins': () => trendChart([reading], { from: 10, to: 5 }),
  'a chart of events without words': () => trendChart([reading], { events: wrong([{ time: 0 }]) }),
  'a clock that is a word': () => trendChart([reading], { utcOffsetMinutes: wrong('Berlin') }),
  'sizes of a narrow chart': () => sizeChart(counts, { width: 1e6 }),
  'no minutes of filtering': () => cleanUpChart(tank, { minutes: 0 }),
  'a probability of no code': () => probabilityChart(wrong({})),
  'a period of a target that is none': () => periodFigures([reading], { target: 'dirty' }),
  'a period of readings without time': () => periodFigures(wrong([{ counts }])),
  'a sheet of a misspelt option': () => sampleSheet(counts, wrong({ tabels: [] })),
  'rows of a misspelt option': () => reportRows([reading], wrong({ utcOfset: 4 })),
  'a file that is a number': () => parseCsv(wrong(4)),
  'a file without a header': () => parseCsv(''),
  'a line of too few cells': () => parseCsv('a,b\n1\n'),
  'a quote never closed': () => parseCsv('a,b\n1,"2\n'),
  'a quote within a cell': () => parseCsv('a,b\n1,2"\n'),
  'more after a quote': () => parseCsv('a,b\n"1"2,3\n'),
  'columns of one name': () => csvColumns({ header: ['a', 'a'], rows: [[1, 2]] }),
  'rows of another length': () => csvColumns({ header: ['a', 'b'], rows: [[1]] }),
  'a cell that is a flag': () => toCsv(wrong({ header: ['a'], rows: [[true]] })),
  'a message of nothing': () => messageOf(wrong(null)),
  'a monitor of nothing': () => prepareMonitor(wrong({})),
  'a target that the table does not have': () => prepareMonitor({ codes: [{ table: iso4406, target: '18/16' }] }),
  'a table that is not at hand': () => prepareMonitor({ codes: [{ table: 'nas' }] }, { tables: [iso4406] }),
  'a table where none is at hand': () => prepareMonitor({ codes: [{ table: 'nas1638' }] }),
  'an alarm of a code that is not there': () =>
    prepareMonitor(wrong({ codes: [], alarms: [{ ...hot, figure: { code: 'iso4406' }, setpoint: '18' }] })),
  'alarms of one name': () => prepareMonitor(wrong({ codes: [], alarms: [hot, hot] })),
  'a rise without its time': () => prepareMonitor(wrong({ codes: [], alarms: [{ ...hot, type: 'rise' }] })),
  'a time where none is looked at': () => prepareMonitor(wrong({ codes: [], alarms: [{ ...hot, withinMs: 5 }] })),
  'a saturation in percent': () =>
    prepareMonitor(wrong({ codes: [], alarms: [{ ...hot, figure: { quantity: 'waterSaturation' } }] })),
  'a deadband wider than its change': () =>
    prepareAlarm({ id: 'a', type: 'rise', setpoint: 5, withinMs: 9, deadband: 6 }),
  'a state too large': () => prepareMonitor(wrong({ codes: [], alarms: [hot], maxStateBytes: 9 })),
  'a band that is upside down': () => prepareMonitor({ codes: [], limits: { mlPerMin: { low: 5, high: 4 } } }),
  'a proof of nothing': () => prepareAcceptance(wrong({})),
  'whole columns that rise': () =>
    classifyColumns(iso4406, { 4: Float64Array.of(1), 6: Float64Array.of(2), 14: Float64Array.of(0) }),
  'whole columns of a list': () => classifyColumns(iso4406, wrong({ 4: [1] })),
};

describe('bad input', () => {
  test.each(Object.entries(bad))('%s', (_name, call) => {
    let error: unknown = null;
    try {
      call();
    } catch (thrown) {
      error = thrown;
    }
    const told = errorText(error, germanTexts);
    for (const line of told.split('\n')) expect(line).toMatch(/ Erwartet: .+\.$/);
    const words = told.split('\n').map((line) => bare(line.slice(line.indexOf(' '))));
    for (const line of words) expect(line).not.toMatch(english);
    expect(errorText(error)).toContain('Expected: ');
  });
});

test('a language has words of its own for every one of them', () => {
  const madeUp: Texts = {
    ...germanTexts,
    expected: Object.fromEntries(
      Object.entries(englishTexts.expected).map(([name, text]) => [
        name,
        text
          .split(/(\{\w+\})/)
          .map((part, i) => (i % 2 === 1 ? part : part.replace(/[A-Za-z]/g, 'ж')))
          .join(''),
      ]),
    ) as unknown as Texts['expected'],
  };
  const samples: Record<string, string> = {
    ...{ number: '7', low: '1', high: '9', epoch: '1970', size: '6 µm', sizes: '4/6/14', token: '4', standard: 'ISO' },
    ...{
      classes: '00, 0',
      members: '4, 6',
      words: "'4'",
      before: "'4'",
      braces: '{ 4 }',
      what: 'a finite number',
      hint: '4',
      also: 'a finite number',
      typed: '4Array',
      columns: '4',
      function: 'aB',
      version: '1.2',
      first: '0',
      unit: '4',
      note: '4',
      thing: '4',
      rest: '',
      spot: '4 (D)',
      twin: '3 (C)',
    },
  };
  for (const [name, text] of Object.entries(englishTexts.expected)) {
    const told = expectedText(
      text.replace(/\{(\w+)\}/g, (_place, place: string) => samples[place] as string),
      madeUp,
    );
    expect(told, name).not.toBeNull();
    expect((told as string).replace(/ISO|µm|aB|4Array|\([CD]\)/g, ''), name).not.toMatch(/[A-Za-z]/);
  }
  expect(receivedText('an array of 12', madeUp)).toBe('жж жжжжж жж 12');
  expect(receivedText("'an object'", madeUp)).toBe("'an object'");
});

test('every one of them without a place is what some function or rule expects', () => {
  const sources = filesBelow('src', '.ts')
    .filter((path) => !path.includes('report/texts/') && !path.includes('german/'))
    .map((path) => readFileSync(path, 'utf8'))
    .join('\n');
  const plain = Object.values(englishTexts.expected).filter((text) => !text.includes('{'));
  expect(plain.filter((text) => !sources.includes(text))).toEqual([]);
});
