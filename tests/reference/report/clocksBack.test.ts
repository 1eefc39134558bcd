/**
 * Clocks put back at Berlin on 25 October 2026, 01:00 UTC: 02:30 is struck twice. Worked by hand. Where a page has
 * times of more than one offset, each carries its own.
 */
import { expect, test } from 'vitest';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import { germanTexts } from '../../../src/german/index.ts';
import {
  messageOf,
  parseCsv,
  periodFigures,
  periodSummary,
  reportRows,
  toCsv,
  trendChart,
} from '../../../src/report/index.ts';

const utc = (hour: number, minute = 0) => Date.UTC(2026, 9, 25, hour, minute);
const utcOffsetMinutes = (time: number) => (time < utc(1) ? 120 : 60);
const counts = cumulativeCounts({ 4: 1200, 6: 300, 14: 30 });
const readings = [utc(0), utc(0, 30), utc(1), utc(1, 30)].map((time) => ({ time, counts }));
const events = [
  { time: utc(0, 30), text: 'gate stopped' },
  { time: utc(1, 30), text: 'gate released' },
];

test('a period in words', () => {
  const lines = periodSummary(periodFigures(readings, { utcOffsetMinutes, events })).split('\n');
  expect(lines[1]).toBe('2026-10-25 02:00 UTC+02:00 to 2026-10-25 02:30 UTC+01:00');
  expect(lines.slice(-3, -1)).toEqual([
    '  2026-10-25 02:30 UTC+02:00  gate stopped',
    '  2026-10-25 02:30 UTC+01:00  gate released',
  ]);
  const german = periodSummary(periodFigures(readings, { utcOffsetMinutes, events }), germanTexts).split('\n');
  expect(german[1]).toBe('2026-10-25 02:00 UTC+02:00 bis 2026-10-25 02:30 UTC+01:00');
  const open = periodFigures([], { utcOffsetMinutes, events, from: utc(0) });
  expect(periodSummary(open).split('\n')[1]).toBe('from 2026-10-25 02:00 UTC+02:00');
});

test('a long gap, and an event alone of another offset', () => {
  const day = 86400000;
  const sparse = [0, 0.01, 0.02, 3].map((days) => ({ time: utc(0) + days * day, counts }));
  const text = periodSummary(periodFigures(sparse, { utcOffsetMinutes })).replace(/\s+/g, ' ');
  expect(text).toContain('from 2026-10-25 02:28 UTC+02:00 to 2026-10-28 01:00 UTC+01:00.');
  const early = periodFigures(readings.slice(0, 2), { utcOffsetMinutes, events, to: utc(12) });
  expect(periodSummary(early).split('\n')[1]).toBe('2026-10-25 02:00 UTC+02:00 to 2026-10-25 13:00 UTC+01:00');
});

test('one offset: as ever', () => {
  const summer = periodFigures(readings.slice(0, 2), { utcOffsetMinutes, events: events.slice(0, 1) });
  const lines = periodSummary(summer).split('\n');
  expect(lines[1]).toBe('2026-10-25 02:00 to 2026-10-25 02:30 (UTC+02:00)');
  expect(lines[lines.length - 2]).toBe('  2026-10-25 02:30  gate stopped');
  expect(reportRows(readings.slice(0, 2), { utcOffsetMinutes }).header.slice(0, 2)).toEqual([
    'time (UTC+02:00)',
    '4 µm(c) per mL',
  ]);
});

test('rows: a column of offsets beside the times, from which UTC comes back', () => {
  const table = reportRows(readings, { utcOffsetMinutes });
  expect(table.header.slice(0, 3)).toEqual(['time (UTC+02:00, UTC+01:00)', 'UTC offset', '4 µm(c) per mL']);
  expect(table.rows.map((row) => row.slice(0, 3))).toEqual([
    ['2026-10-25 02:00:00', 'UTC+02:00', 1200],
    ['2026-10-25 02:30:00', 'UTC+02:00', 1200],
    ['2026-10-25 02:00:00', 'UTC+01:00', 1200],
    ['2026-10-25 02:30:00', 'UTC+01:00', 1200],
  ]);
  const read = parseCsv(toCsv(table), { cells: 'text' }).rows;
  const back = read.map(([time, offset]) => Date.parse(`${time}${String(offset).slice(3)}`.replace(' ', 'T')));
  expect(back).toEqual(readings.map(({ time }) => time));
  expect(reportRows(readings, { utcOffsetMinutes, texts: germanTexts }).header[1]).toBe('Zeitzone');
});

test('the events below a chart', () => {
  const texts = JSON.stringify(trendChart(readings, { utcOffsetMinutes, events }));
  expect(texts).toContain('1 2026-10-25 02:30 UTC+02:00 gate stopped');
  expect(texts).toContain('2 2026-10-25 02:30 UTC+01:00 gate released');
  const summer = trendChart(readings.slice(0, 2), { utcOffsetMinutes, events: events.slice(0, 1) });
  expect(JSON.stringify(summer)).toContain('1 2026-10-25 02:30 gate stopped');
});

test('a message with a time of another offset than its own', () => {
  const shelved = { time: utc(0, 30), event: 'shelved', alarm: 'dirty', until: utc(1, 30), by: 'night shift' } as const;
  const { line, paragraph } = messageOf(shelved as never, undefined, { utcOffsetMinutes });
  expect(line).toContain('until 2026-10-25 02:30 UTC+01:00');
  expect(paragraph).toContain('Time: 2026-10-25 02:30 (UTC+02:00).');
  const before = messageOf({ ...shelved, until: utc(0, 45) } as never, undefined, { utcOffsetMinutes });
  expect(before.line).toContain('until 2026-10-25 02:45.');
});
