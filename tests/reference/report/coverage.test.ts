/** A period tells for how long there was no reading, so that three days of a month do not pass for the month. */
import { describe, expect, test } from 'vitest';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import { germanTexts } from '../../../src/german/index.ts';
import { periodFigures, periodSummary, type ReportReading } from '../../../src/report/index.ts';

const hour = 3600000;
const day = 24 * hour;
const march = { from: Date.UTC(2026, 2, 1), to: Date.UTC(2026, 3, 1) };
const counts = cumulativeCounts({ 4: 1890, 6: 402, 14: 33 });
const at = (...hours: readonly number[]): ReportReading[] =>
  hours.map((each) => ({ time: march.from + each * hour, counts }));
const hourly = (from: number, to: number) => at(...Array.from({ length: to - from }, (_, i) => from + i));
const moment = (hours: number) => ({ time: march.from + hours * hour, utcOffsetMinutes: 0 });
const oneLine = (text: string) => text.replace(/\s+/g, ' ');
const textOf = (readings: readonly ReportReading[], options: object = march) =>
  periodSummary(periodFigures(readings, { target: '18/16/13', ...options }));

describe('a month of which three days have readings', () => {
  const figures = periodFigures(hourly(0, 72), { target: '18/16/13', ...march });

  test('in figures', () => {
    expect(figures.coverage).toEqual({
      first: moment(0),
      last: moment(71),
      usualMs: hour,
      longestGap: { from: moment(71), to: moment(31 * 24) },
      longGaps: 1,
      longGapsMs: 31 * day - 71 * hour,
      coveredShare: 72 / (31 * 24),
    });
  });

  test('in words', () => {
    expect(periodSummary(figures).split('\n').slice(3, 9)).toEqual([
      'Readings   72: 72 good, 0 uncertain, 0 bad',
      '           Usually one each 60 min: so they cover 9.7 % of the period.',
      '           No reading that can be relied on for 28 d: from 2026-03-03',
      '           23:00 to 2026-04-01 00:00.',
      '',
      'Target     ISO 4406 18/16/13: 72 of 72 met, all of them good',
    ]);
    expect(oneLine(periodSummary(figures, germanTexts))).toContain(
      'Üblicher Abstand 60 min: So sind 9,7 % des Zeitraums erfasst. ' +
        'Keine gültige Messung während 28 d: von 2026-03-03 23:00 bis 2026-04-01 00:00.',
    );
  });
});

test('before the first, between, and after the last; bad readings tell nothing', () => {
  const bad = hourly(200, 300).map((reading) => ({ ...reading, quality: 'bad' as const }));
  const readings = [...hourly(48, 72), ...bad, ...hourly(300, 31 * 24 - 30)];
  const { coverage } = periodFigures(readings, march);
  expect(coverage).toMatchObject({ first: moment(48), longGaps: 3, longGapsMs: (48 + 229 + 31) * hour });
  expect(coverage.longestGap).toEqual({ from: moment(71), to: moment(300) });
  expect(oneLine(textOf(readings))).toContain(
    'No reading that can be relied on for 12.8 d in all, in 3 stretches; ' +
      'the longest is from 2026-03-03 23:00 to 2026-03-13 12:00.',
  );
  expect(oneLine(periodSummary(periodFigures(readings, march), germanTexts))).toContain(
    'Keine gültige Messung während insgesamt 12,8 d, in 3 Abschnitten; ' +
      'der längste von 2026-03-03 23:00 bis 2026-03-13 12:00.',
  );
});

test('longer than ten usual intervals and than a day, not just as long (our choice)', () => {
  const gaps = (readings: readonly ReportReading[], options: object = {}) =>
    periodFigures(readings, options).coverage.longGaps;
  const split = (gap: number) => [...hourly(0, 50), ...hourly(49 + gap, 99 + gap)];
  expect([24, 25].map((gap) => gaps(split(gap)))).toEqual([0, 1]);
  const bottles = (gap: number) => at(0, 24, 48, 72, 72 + gap, 96 + gap);
  expect([240, 241].map((gap) => gaps(bottles(gap)))).toEqual([0, 1]);
  // weekly bottles, none in the first days of the month; ends of the period where they are given
  expect(gaps(at(140, 308, 476, 644), march)).toBe(0);
  expect([gaps(hourly(30, 72)), gaps(hourly(30, 72), { from: march.from })]).toEqual([0, 1]);
  // readings of one time tell no interval
  expect(periodFigures(at(0, 0, 0, 5, 10)).coverage.usualMs).toBe(5 * hour);
  expect(textOf(split(24), {})).not.toContain('No reading');
});

test('one reading or none: what is usual is not known, and the longest stretch is told all the same', () => {
  const whole = { from: moment(0), to: moment(31 * 24) };
  const nothing = { usualMs: null, longGaps: 0, longGapsMs: 0, coveredShare: null };
  const none = { first: null, last: null, ...nothing };
  expect(periodFigures([], march).coverage).toEqual({ ...none, longestGap: whole });
  expect(periodFigures([]).coverage).toEqual({ ...none, longestGap: null });
  const of = (options: object) => periodFigures(at(24), options).coverage;
  expect(of({})).toEqual({ first: moment(24), last: moment(24), ...nothing, longestGap: null });
  expect(of(march)).toEqual({
    first: moment(24),
    last: moment(24),
    ...nothing,
    longestGap: { from: moment(24), to: moment(31 * 24) },
  });
});

test('the zones of a stretch that is told stand above', () => {
  const summer = (time: number) => (time > moment(90).time && time < moment(200).time ? 120 : 60);
  const zoneOf = (readings: readonly ReportReading[]) => periodFigures(readings, { utcOffsetMinutes: summer }).zone;
  expect(zoneOf([...hourly(0, 100), ...hourly(300, 400)])).toBe('UTC+01:00, UTC+02:00');
  expect(zoneOf(hourly(0, 400))).toBe('UTC+01:00');
});

describe('the share of the period that readings cover', () => {
  const share = (readings: readonly ReportReading[], options: object = {}) =>
    periodFigures(readings, options).coverage.coveredShare;

  test('tells of gaps that are no long ones: half of each day missing, or 22 h of it', () => {
    const daily = (hours: number) => Array.from({ length: 31 }, (_, i) => hourly(24 * i, 24 * i + hours)).flat();
    const period = { from: march.from, to: march.to };
    expect([share(daily(12), period), share(daily(2), period)]).toEqual([12 / 24, 2 / 24]);
    expect(periodFigures(daily(12), period).coverage.longGaps).toBe(0);
    expect(textOf(daily(12))).toContain('Usually one each 60 min: so they cover 50 % of the period.');
  });

  test('each covers up to the next, but for one usual interval where that is more than three away', () => {
    expect(share(hourly(0, 50))).toBe(1);
    expect(share([...hourly(0, 50), ...at(52)])).toBe(1);
    expect(share([...hourly(0, 50), ...at(53)])).toBe(50 / 53);
    // before the first there is none
    expect(share(hourly(10, 40), { from: march.from, to: march.from + 40 * hour })).toBe(30 / 40);
    expect(share(hourly(2, 40), { from: march.from, to: march.from + 40 * hour })).toBe(1);
    // two readings of a year: what is usual says so
    expect(textOf(at(0, 24 * 300), {})).toContain('Usually one each 300 d: so they cover 100 % of the period.');
    expect([share(at(0)), share([]), share(at(0, 0))]).toEqual([null, null, null]);
  });

  test('often to the second', () => {
    const each = (ms: number) => Array.from({ length: 50 }, (_, i) => ({ time: march.from + i * ms, counts }));
    const usual = (ms: number) => /Usually one each (.*): so/.exec(textOf(each(ms), {}))?.[1];
    const seconds = [1, 250, 1000, 10000, 12345, 59000].map(usual);
    expect(seconds).toEqual(['0.1 s', '0.3 s', '1 s', '10 s', '12.3 s', '59 s']);
    expect([60000, 90000, hour + 1].map(usual)).toEqual(['1 min', '1.5 min', '60 min']);
    const german = periodSummary(periodFigures(each(12345)), germanTexts);
    expect(german).toContain('Üblicher Abstand 12,3 s: So sind');
  });
});
