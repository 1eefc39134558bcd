/**
 * Times as files have them. Berlin's clocks (Directive 2000/84/EC: one hour forward and back at 01:00 UTC on the last
 * Sundays of March and October) worked by hand; forms of dates as spreadsheets of several countries write them (common
 * practice); ISO 8601 for 24:00 and zones (from memory). Beside `Intl` for a year of Berlin.
 */
import { describe, expect, test } from 'vitest';
import type { Problem } from '../../../src/errors.ts';
import { germanTexts } from '../../../src/german/index.ts';
import { parseLocalTimes, problemText, type TimeReading } from '../../../src/report/index.ts';
import { dateTimeText } from '../../../src/report/timeText.ts';
import { shares } from '../../chance.ts';
import { expectRefused } from '../../inputs/refused.ts';

const forward = Date.UTC(2026, 2, 29, 1);
const back = Date.UTC(2026, 9, 25, 1);
const utcOffsetMinutes = (time: number) => (time >= forward && time < back ? 120 : 60);
const berlin = { order: 'day_month_year', utcOffsetMinutes } as const;
const read = (texts: readonly string[], format: TimeReading = berlin) =>
  parseLocalTimes(texts, format).map((time) => new Date(time as number).toISOString().replace(':00.000Z', 'Z'));

describe('forms', () => {
  const forms: readonly (readonly [string, TimeReading, string])[] = [
    ['25.11.2026 08:00', berlin, '2026-11-25T07:00Z'],
    ['5.7.2026, 8:05', berlin, '2026-07-05T06:05Z'],
    ['25/11/2026 08:00:30', berlin, '2026-11-25T07:00:30.000Z'],
    ['25-11-26 08:00:30,25', berlin, '2026-11-25T07:00:30.250Z'],
    ['25.11.2026', berlin, '2026-11-24T23:00Z'],
    [' 25.11.2026  24:00 ', berlin, '2026-11-25T23:00Z'],
    ['3/4/2026 12:05 AM', { order: 'month_day_year', utcOffsetMinutes: -300 }, '2026-03-04T05:05Z'],
    ['3/4/26 12:05\u202Fpm', { order: 'month_day_year', utcOffsetMinutes: -300 }, '2026-03-04T17:05Z'],
    ['26/03/04 11:05PM', { order: 'year_month_day', utcOffsetMinutes: 0 }, '2026-03-04T23:05Z'],
    ['2026-11-25 08:00', { utcOffsetMinutes: 330 }, '2026-11-25T02:30Z'],
    // a year of four digits that comes first tells the order
    ['2026/11/25 08:00', berlin, '2026-11-25T07:00Z'],
    ['2026-11-25T08:00:00.123456789Z', {}, '2026-11-25T08:00:00.123Z'],
    ['2026-11-25 08:00 UTC+01:00', {}, '2026-11-25T07:00Z'],
    ['2026-11-25 08:00 UTC', berlin, '2026-11-25T08:00Z'],
    ['25.11.2026 08:00 -0330', berlin, '2026-11-25T11:30Z'],
  ];
  test.each(forms)('%s', (text, format, expected) => {
    expect(read([text], format)).toEqual([expected]);
  });

  const refused: readonly (readonly [string, TimeReading, string, string])[] = [
    ['03/04/2026 08:00', { utcOffsetMinutes: 0 }, 'unknown_option', 'format.order'],
    ['2026-11-25 08:00', {}, 'unknown_option', 'format.utcOffsetMinutes'],
    ['31.11.2026 08:00', berlin, 'out_of_range', 'texts[0]'],
    ['29.02.2025', berlin, 'out_of_range', 'texts[0]'],
    ['25.11.2026 24:01', berlin, 'out_of_range', 'texts[0]'],
    ['25.11.2026 08:60', berlin, 'out_of_range', 'texts[0]'],
    ['25.11.2026 13:00 PM', berlin, 'out_of_range', 'texts[0]'],
    ['25.11.2026 08:00 +24:00', berlin, 'out_of_range', 'texts[0]'],
    ['25.11.0001', berlin, 'out_of_range', 'texts[0]'],
    ['25.11/2026 08:00', berlin, 'wrong_type', 'texts[0]'],
    ['25.11.226', berlin, 'wrong_type', 'texts[0]'],
    ['1125.11.2026', berlin, 'wrong_type', 'texts[0]'],
    ['25.11.2026 08:00 noon', berlin, 'wrong_type', 'texts[0]'],
    ['08:00', berlin, 'wrong_type', 'texts[0]'],
    ['', berlin, 'wrong_type', 'texts[0]'],
  ];
  test.each(refused)('%s is refused', (text, format, code, parameter) => {
    expectRefused(code, parameter, '', () => parseLocalTimes([text], format));
  });

  test('a number is no text', () => {
    const mixed = ['25.11.2026', 46351];
    expectRefused('wrong_type', 'texts[1]', 'as in 25.11.2026 08:00', () => parseLocalTimes(mixed, berlin));
  });
});

describe('the nights when clocks are changed', () => {
  test('a list that rises', () => {
    expect(read(['25.10.2026 01:30', '25.10.2026 02:45', '25.10.2026 02:15', '25.10.2026 02:15'])).toEqual([
      '2026-10-24T23:30Z',
      '2026-10-25T00:45Z',
      '2026-10-25T01:15Z',
      '2026-10-25T01:15Z',
    ]);
  });

  test('a list whose newest time comes first', () => {
    const list = ['25.10.2026 03:00', '25.10.2026 02:15', '25.10.2026 02:45', '25.10.2026 02:15', '25.10.2026 01:00'];
    expect(read(list)).toEqual([
      '2026-10-25T02:00Z',
      '2026-10-25T01:15Z',
      '2026-10-25T00:45Z',
      '2026-10-25T00:15Z',
      '2026-10-24T23:00Z',
    ]);
  });

  test('a reading an hour, up and down; where times come twice in turn, they do so that night too', () => {
    const hourly = Array.from({ length: 12 }, (_, i) => back + (i - 6) * 3600000);
    const shown = (time: number) => dateTimeText(time, utcOffsetMinutes(time));
    for (const times of [hourly, [...hourly].reverse()]) {
      expect(parseLocalTimes(times.map(shown), berlin)).toEqual(times);
    }
    const often = Array.from({ length: 480 }, (_, i) => back - 7200000 + Math.floor(i / 2) * 60000);
    for (const times of [often, [...often].reverse()]) {
      expect(parseLocalTimes(times.map(shown), berlin)).toEqual(times);
    }
  });

  test('nothing but such times rises', () => {
    expect(read(['25.10.2026 02:45', '25.10.2026 02:15'])).toEqual(['2026-10-25T00:45Z', '2026-10-25T01:15Z']);
  });

  test('a time that is skipped is refused', () => {
    expectRefused('out_of_range', 'texts[0]', 'put forward', () => read(['29.03.2026 02:30']));
    expect(read(['29.03.2026 01:59', '29.03.2026 03:00'])).toEqual(['2026-03-29T00:59Z', '2026-03-29T01:00Z']);
  });

  test('every quarter of an hour of the year comes back, by the clock of the engine', () => {
    const clock = new Intl.DateTimeFormat('en-GB', {
      timeZone: 'Europe/Berlin',
      dateStyle: 'short',
      timeStyle: 'short',
    });
    const times = Array.from({ length: 365 * 96 }, (_, i) => Date.UTC(2026, 0, 1) + i * 900000);
    const texts = times.map((time) => clock.format(time));
    expect(texts[0]).toBe('01/01/2026, 01:00');
    expect(parseLocalTimes(texts, berlin)).toEqual(times);
    expect(parseLocalTimes([...texts].reverse(), berlin)).toEqual([...times].reverse());
  });
});

test('what dateTimeText writes is read again, at every offset', () => {
  const share = shares(11);
  for (let i = 0; i < 2000; i += 1) {
    const time = Math.floor((share() * 2 - 1) * 6e10) * 1000;
    const minutes = Math.floor(share() * 1560) - 720;
    expect(parseLocalTimes([dateTimeText(time, minutes)], { utcOffsetMinutes: minutes })).toEqual([time]);
  }
});

test('a damaged column: what cannot be read is null and told', () => {
  const told: Problem[] = [];
  const texts = ['25.11.2026 08:00', null, 'clock lost', '25.11.2026 08:10'];
  const times = parseLocalTimes(texts, { ...berlin, keepReadable: true }, told);
  expect(times).toEqual([Date.UTC(2026, 10, 25, 7), null, null, Date.UTC(2026, 10, 25, 7, 10)]);
  expect(told.map(({ path, received }) => [path, received])).toEqual([
    [[1], 'null'],
    [[2], "'clock lost'"],
  ]);
  const many: Problem[] = [];
  expect(parseLocalTimes(Array(150).fill(''), { ...berlin, keepReadable: true }, many)).toHaveLength(150);
  expect(many).toHaveLength(100);
});

describe('day numbers of spreadsheets', () => {
  const serial = (day: number, serialDates: 'from_1900' | 'from_1904', offset: TimeReading = { utcOffsetMinutes: 0 }) =>
    dateTimeText(parseLocalTimes([day], { serialDates, ...offset })[0] as number, 0);

  // worked by hand from 1 January 1900 as day 1, with a 29 February 1900, and from 1 January 1904 as day 0
  test('of either system', () => {
    expect(serial(61, 'from_1900')).toBe('1900-03-01 00:00:00');
    expect(serial(25569, 'from_1900')).toBe('1970-01-01 00:00:00');
    expect(serial(46356.3333333333, 'from_1900')).toBe('2026-11-30 08:00:00');
    expect(serial(1, 'from_1904')).toBe('1904-01-02 00:00:00');
    expect(serial(46356.75 - 1462, 'from_1904')).toBe('2026-11-30 18:00:00');
  });

  test('are times of the clock on the wall, as texts of them are', () => {
    const days = [46110.75, 46300.5, 46320.0625, 46320.1041666667, 46320.5];
    const texts = days.map((day) => serial(day, 'from_1900').replace(/-/g, '/'));
    const [asDays, asTexts] = [{ ...berlin, serialDates: 'from_1900' } as const, berlin];
    const told: Problem[][] = [[], []];
    expect(parseLocalTimes(days, asDays, told[0])).toEqual(parseLocalTimes(texts, asTexts, told[1]));
    expect(told[0]?.map(({ expected }) => expected)).toEqual(told[1]?.map(({ expected }) => expected));
    // 02:30 on 29 March 2026, which the clock skips
    expectRefused('out_of_range', 'texts[0]', 'put forward', () => parseLocalTimes([46110.1041666667], asDays));
  });

  test('beside texts, and none without the option', () => {
    expect(parseLocalTimes([46356.5, '30.11.2026 12:10'], { ...berlin, serialDates: 'from_1900' })).toHaveLength(2);
    expectRefused('wrong_type', 'texts[0]', 'serialDates', () => parseLocalTimes([46356.5], berlin));
    const other = { serialDates: '1900' } as never;
    expectRefused('unknown_option', 'format.serialDates', 'from_1900', () => parseLocalTimes([46356.5], other));
    expectRefused('unknown_option', 'format.utcOffsetMinutes', 'minutes', () =>
      parseLocalTimes([46356.5], { serialDates: 'from_1900' }),
    );
  });

  test.each<[number, 'from_1900' | 'from_1904', string]>([
    [60, 'from_1900', '61 or more'],
    [0.33, 'from_1904', '1 or more'],
    [1e7, 'from_1900', 'years 2 to 9998'],
  ])('%d %s is refused', (day, system, words) => {
    expectRefused('out_of_range', 'texts[0]', words, () => serial(day, system));
  });
});

test.each([
  ['Mo 30.11.2026 08:15', "; without 'Mo'"],
  ['30.11.2026 08:15 Uhr', "; without 'Uhr'"],
  ['30.11.2026 8:15 nachm.', "; without 'nachm.'"],
  ['30.11.2026 08:15 MEZ', "; utcOffsetMinutes, or +01:00 in the text, in place of 'MEZ'"],
  ['30.11.2026 08.15', '; with a colon between hours and minutes'],
  ['clock lost', 'in figures, as in 25.11.2026 08:00'],
])('%s: what helps is said', (text, words) => {
  const told: Problem[] = [];
  parseLocalTimes([text], { ...berlin, keepReadable: true }, told);
  expect(told[0]?.expected.endsWith(words)).toBe(true);
  expect(problemText(told[0] as Problem, germanTexts)).toMatch(/Erwartet: ein Datum, .*\.$/);
});
