/** Times as text: those that exist, as `Date.parse` of this engine has them; others are refused, and told why. */
import { describe, expect, test } from 'vitest';
import { problemsOf } from '../../src/errors.ts';
import { parseMonitorReading } from '../../src/schema/index.ts';
import { isoTime } from '../../src/schema/isoTime.ts';

const day = 86400000;

test('times of the years 0000 to 9999, with a time of day and an offset, is that of Date.parse', () => {
  for (let i = 0; i < 5000; i += 1) {
    const text = new Date(-62167219200000 + i * 731 * day + ((i * 7919 * 1009) % day)).toISOString();
    if (text.length !== 24) break;
    const [hours, minutes] = [String(i % 24), String(i % 60)].map((part) => part.padStart(2, '0'));
    const local = text.replace('Z', `${i % 2 === 0 ? '+' : '-'}${hours}:${minutes}`);
    expect(isoTime(text)).toBe(Date.parse(text));
    expect(isoTime(local)).toBe(Date.parse(local));
  }
});

test.each([
  ['2026-11-25T08:00Z', Date.UTC(2026, 10, 25, 8)],
  ['2026-11-25T09:00:00+0100', Date.UTC(2026, 10, 25, 8)],
  ['2026-11-25T08:00:00.1Z', Date.UTC(2026, 10, 25, 8, 0, 0, 100)],
  ['2026-11-25T08:00:00.579999999Z', Date.UTC(2026, 10, 25, 8, 0, 0, 579)],
  ['2026-02-28T24:00:00Z', Date.UTC(2026, 2, 1)],
  ['2024-02-29T00:00:00Z', Date.UTC(2024, 1, 29)],
  ['1970-01-01T00:00:00-00:00', 0],
])('%s', (text, time) => {
  expect(isoTime(text)).toBe(time);
  expect(Date.parse(text)).toBe(time);
});

describe('refused', () => {
  const exists = 'Date.parse gives it, if there is such a time';
  const zone = 'with its zone, as in 2026-11-25T08:00:00Z or +01:00';

  test.each([
    ['2026-02-30T09:00:00Z', exists],
    ['2026-02-29T09:00:00Z', exists],
    ['1900-02-29T09:00:00Z', exists],
    ['2026-04-31T08:00:00+02:00', exists],
    ['2026-12-32T08:00:00Z', exists],
    ['2026-00-10T08:00:00Z', exists],
    ['2026-13-10T08:00:00Z', exists],
    ['2026-11-00T08:00:00Z', exists],
    ['2026-11-25T24:00:01Z', exists],
    ['2026-11-25T24:00:00.001Z', exists],
    ['2026-11-25T25:00:00Z', exists],
    ['2026-11-25T08:60:00Z', exists],
    ['2026-12-31T23:59:60Z', exists],
    ['2026-11-25T08:00:00+24:00', exists],
    ['2026-11-25T08:00:00+25:00', exists],
    ['2026-11-25T08:00:00-01:60', exists],
    ['2026-11-25T08:00:00', zone],
    ['2026-11-25T08:00', zone],
    ['2026-11-25T08:00:00+01', zone],
  ])('%s', (time, hint) => {
    expect(isoTime(time)).toBe(null);
    for (const name of ['time', 'receivedAt', 'calibratedAt']) {
      const problems = (() => {
        try {
          parseMonitorReading({ time: 1e12, [name]: time });
        } catch (error) {
          return problemsOf(error);
        }
        return [];
      })();
      expect(problems).toMatchObject([{ code: 'wrong_type', path: [name] }]);
      expect(problems[0]?.expected.split('; ')[1]).toBe(hint);
    }
  });
});

test('what is expected of any other text says that ISO 8601 text is read', () => {
  const asked = /; or ISO 8601 text with its zone, as in 2026-11-25T08:00:00Z or \+01:00$/;
  for (const text of ['25.11.2026 08:00', '2026-11-25 08:00:00', '11/25/2026 8:00', 'yesterday'])
    for (const name of ['time', 'receivedAt', 'calibratedAt']) {
      const problems = problemsOf(problem({ time: day, [name]: text })).filter(({ path }) => path[0] === name);
      expect(problems[0]?.expected, text).toMatch(asked);
    }
  // a text that is no time says so of itself alone
  expect(problemsOf(problem({ time: 1e12, celsius: '25.11.2026 08:00' }))[0]?.expected).not.toMatch(asked);
});

function problem(reading: object): unknown {
  try {
    return parseMonitorReading(reading);
  } catch (error) {
    return error;
  }
}
