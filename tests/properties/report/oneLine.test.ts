/** A subject goes into the header of a mail: whatever names and texts come from outside, no line of it ends early. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { germanTexts } from '../../../src/german/index.ts';
import type { MonitorEvent } from '../../../src/monitor/index.ts';
import { messageOf } from '../../../src/report/index.ts';
import { englishTexts } from '../../../src/report/texts/english.ts';
import { some } from '../../volume.ts';

/** Text full of what breaks a line. */
const text = fc.string({ unit: fc.constantFrom(...'ab :{}µ\r\n\t\v\f\0\b\x1b\x7f\x85\u2028\u2029'), maxLength: 12 });
const long = fc.tuple(text, fc.integer({ min: 0, max: 200 }), text).map(([a, n, b]) => a + 'x'.repeat(n) + b);
const texts = fc.oneof(text, long);
/** What an event must have, and may not leave empty. */
const words = texts.map((told) => told || 'x');
const figures = ['celsius', 'code iso4406', 'perMlAt 4', 'other\n', 'other x\r\ny'];

const events = fc
  .record({
    event: fc.constantFrom(...Object.keys(englishTexts.events.words)),
    time: fc.constant(1795593600000),
    figure: fc.oneof(fc.constantFrom(...figures), words),
    value: fc.constantFrom(71, '19/17/14', '1\n2'),
    setpoint: fc.constantFrom(65, '18/16/13'),
    priority: fc.oneof(fc.constantFrom('high', 'low'), words),
    state: fc.oneof(fc.constantFrom('normal', 'unacknowledged'), words),
    reason: fc.oneof(fc.constant('rates'), words),
    direction: fc.oneof(fc.constantFrom('up', 'down'), words),
    codes: fc.array(words, { minLength: 1, maxLength: 2 }),
    beyond: fc.array(words, { maxLength: 2 }),
    findings: fc.array(words, { maxLength: 2 }),
    ...Object.fromEntries(
      'alarm followed code mode note by why parameter received expected configuration finding'
        .split(' ')
        .map((name) => [name, words]),
    ),
  })
  .map((event) => ({
    ...event,
    ...{
      until: event.time,
      since: event.time,
      reading: event.time,
      from: event.time,
      to: 5,
      withinMs: 6e5,
      limit: 6e5,
    },
    ...{ kept: [], dropped: [], added: [], before: 1, after: 2 },
  }));

/** Of line ends and other control characters. */
const broken = /[^ -~\u00a0-\u2027\u202a-\uffff]/;

describe('a message', () => {
  test('has no line end and no control character, in subject, line and paragraph', () => {
    let told = 0;
    const tell = (event: object, unit: string | undefined) => {
      for (const words of [undefined, germanTexts]) {
        const message = messageOf(event as MonitorEvent, words, unit === undefined ? {} : { unit });
        expect(Object.values(message).filter((part) => broken.test(part))).toEqual([]);
        expect(message.line.length).toBeLessThanOrEqual(160);
        told += 1;
      }
    };
    fc.assert(fc.property(events, fc.option(texts, { nil: undefined }), tell), { numRuns: some(2000) });
    expect(told).toBeGreaterThan(100);
  });

  const hot = { time: 1795593600000, event: 'raised', figure: 'celsius', value: 71, setpoint: 65, priority: 'high' };
  const messageTo = (unit: string, alarm: string) => messageOf({ ...hot, alarm } as MonitorEvent, undefined, { unit });

  // UAX #9: embeddings, overrides and isolates, which turn what follows
  test('has no embedding of direction', () => {
    const turned = '\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069';
    for (const sign of turned) expect(messageTo('', `hot${sign}dlo`).subject).toBe('hot dlo: alarm raised');
    expect(messageTo('', 'a\u200eb\u2030').subject).toBe('a\u200eb\u2030: alarm raised');
  });

  test('has the name of the unit on one line', () => {
    expect(messageTo('A\r\nBcc: x@y', 'hot\nBcc: a@b').subject).toBe('A Bcc: x@y: hot Bcc: a@b: alarm raised');
    expect(messageTo(' \r\n', 'hot').subject).toBe('hot: alarm raised');
  });

  test('of a unit with a long name still names the alarm', () => {
    const alarm = 'a'.repeat(64);
    const { line, subject } = messageTo('u'.repeat(120), alarm);
    expect(line.startsWith(`${'u'.repeat(59)}…: ${alarm}: alarm raised`)).toBe(true);
    expect(subject).toBe(`${'u'.repeat(120)}: ${alarm}: alarm raised`);
    // where the rest is short, the name has what it leaves
    const short = messageTo('u'.repeat(120), 'hot').line;
    expect(short.endsWith('uu…: hot: alarm raised. Temperature is 71 °C, beyond 65 °C.')).toBe(true);
    expect(short).toHaveLength(160);
    expect(messageTo('u'.repeat(90), 'hot').line).toContain(`${'u'.repeat(90)}: hot: alarm raised. Temp`);
  });

  test('has a line as long as is asked for', () => {
    const event = { ...hot, alarm: 'hot' } as MonitorEvent;
    const lineOf = (longestLine: number | null | undefined, unit = 'u'.repeat(120)) =>
      messageOf(event, undefined, { unit, longestLine }).line;
    const all = 'hot: alarm raised. Temperature is 71 °C, beyond 65 °C.';
    expect(lineOf(null)).toBe(`${'u'.repeat(120)}: ${all}`);
    expect(lineOf(undefined)).toHaveLength(160);
    expect(lineOf(70, 'gate')).toBe(`gate: ${all}`);
    expect(lineOf(70)).toBe(`${'u'.repeat(25)}…: hot: alarm raised. Temperature is 71 °C,…`);
    for (let longest = 20; longest <= 200; longest += 1) expect(lineOf(longest).length).toBeLessThanOrEqual(longest);
  });
});
