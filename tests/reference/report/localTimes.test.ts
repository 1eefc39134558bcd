/**
 * Times as files have them. Berlin's clocks (Directive 2000/84/EC: one hour forward and back at 01:00 UTC on the last
 * Sundays of March and October) worked by hand; forms of dates as spreadsheets of several countries write them (common
 * practice); ISO 8601 for 24:00 and zones (from memory). Beside `Intl` for a year of Berlin.
 */
import { describe, expect, test } from 'vitest';
import type { Problem } from '../../../src/errors.ts';
import { parseLocalTimes, type TimeReading } from '../../../src/report/index.ts';
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
