/** Texts in another language: what would falsify a number or leave a place open is refused before it is read. */
import { describe, expect, test } from 'vitest';
import { acceptanceText } from '../../src/acceptance/index.ts';
import { germanTexts } from '../../src/german/index.ts';
import { type Finding, findingText } from '../../src/reading/index.ts';
import { englishTexts, messageOf, reportRows, type Texts } from '../../src/report/index.ts';
import { flowControlText } from '../../src/sampling/index.ts';
import { expectRefused } from './refused.ts';

const event = {
  event: 'raised',
  alarm: 'hot',
  figure: 'celsius',
  priority: 'high',
  time: 0,
  value: 71.5,
  setpoint: 65,
} as const;
const { celsius } = englishTexts.events.figures;
const named = (name: string): Texts => {
  const figures = { ...englishTexts.events.figures, celsius: { ...celsius, name } };
  return { ...englishTexts, events: { ...englishTexts.events, figures } };
};
const raised = (sentence: string): Texts => {
  const words = { ...englishTexts.events.words, raised: { subject: '{alarm}', sentence } };
  return { ...englishTexts, events: { ...englishTexts.events, words } };
};

describe('refused', () => {
  test.each<[string, string, string, object]>([
    ['no decimal sign', 'bad_configuration', 'texts.decimalSign', { ...englishTexts, decimalSign: '' }],
    ['one sign for both', 'bad_configuration', 'texts.decimalSign', { ...englishTexts, groupSign: '.' }],
    ['a digit for a sign', 'bad_configuration', 'texts.decimalSign', { ...englishTexts, groupSign: '0' }],
    ['a place that nothing fills', 'unknown_option', 'texts.events.figures.celsius.name', named('heet {pressure}')],
    ['a place of another text', 'unknown_option', 'texts.events.words.raised.sentence', raised('{figure} {until}')],
    ['a translated place', 'unknown_option', 'texts.events.words.raised.sentence', raised('{figuur} {value}')],
    ['a brace that is not closed', 'unknown_option', 'texts.events.words.raised.sentence', raised('{figure} {value')],
    ['a brace that is not opened', 'unknown_option', 'texts.events.words.raised.sentence', raised('figure} {value}')],
    ['a misspelt member', 'unknown_option', 'texts.groupSgn', { ...englishTexts, groupSgn: '.' }],
    [
      'a member of a table within',
      'unknown_option',
      'texts.rows.when',
      { ...englishTexts, rows: { ...englishTexts.rows, when: '' } },
    ],
  ])('%s', (_what, code, place, texts) => {
    expectRefused(code as never, place, '', () => messageOf(event, texts as Texts));
  });

  test('by the functions that take a part of the table too', () => {
    const told = { time: 0, event: 'restarted', text: null, quality: 'good', outcome: null, why: 'clock_set_back' };
    const restarted = { ...englishTexts.acceptance.restarted, clock_set_back: '{reden}' };
    expect(() => acceptanceText(told as never, { ...englishTexts.acceptance, restarted })).toThrow('{reden}');
    const lost = { event: 'at_setpoint', mode: 'holding', percent: 31 } as const;
    expect(() => flowControlText(lost, { ...englishTexts.flowControl, at_setpoint: '{nu}' })).toThrow('{nu}');
    const cold: Finding = { code: 'temperature_low', quality: 'uncertain', affects: ['celsius'], value: 5, limit: 10 };
    expect(() => findingText(cold, { ...englishTexts, decimalSign: '' })).toThrow('texts.decimalSign');
    expect(findingText(cold, germanTexts)).not.toBe('');
  });
});

test('a place that English has may be left out, and thousands need no sign', () => {
  expect(messageOf(event, { ...raised('te heet'), groupSign: '' }).line).toBe('hot. te heet');
});

test('a table is looked through each time: what becomes of it later is seen', () => {
  const texts = { ...englishTexts, and: 'en' };
  const { line } = messageOf(event, texts);
  (texts as { and: unknown }).and = 5;
  expectRefused('wrong_type', 'texts.and', 'a text', () => messageOf(event, texts));
  texts.and = 'en';
  expect(messageOf(event, texts).line).toBe(line);
});

test('one word for two heads of a table is told of the texts, and of a code or figure where that has it', () => {
  const { rows } = englishTexts;
  const texts = { ...englishTexts, rows: { ...rows, verdict: rows.quality } };
  const reading = { time: 0, codes: { 'ISO 4406': '18/16/13' } };
  const words = 'names that no other column has';
  expectRefused('unknown_option', 'options.texts', words, () => reportRows([reading], { texts }));
  const coded = { ...reading, codes: { quality: '18/16/13' } };
  expectRefused('unknown_option', 'readings.codes', words, () => reportRows([coded]));
  const named = { ...reading, others: { verdict: 3 } };
  expectRefused('unknown_option', 'readings.others', words, () => reportRows([named]));
});
