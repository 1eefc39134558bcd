/**
 * The table of docs/alarms.md on what comes and goes: a year of readings ten minutes apart, a month of them a minute
 * apart, and the events told of it. All of it is counted with MOTESCALE_FULL=1, and written with MOTESCALE_WRITE=1
 * besides; else three of the faults as told with `chattering: {}`.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import type { MonitorConfig } from '../../src/monitor/index.ts';
import { eventsOf, faults } from '../properties/monitor/comingAndGoing.ts';
import { full } from '../volume.ts';

const page = 'docs/alarms.md';
const mark = '<!-- what comes and goes: made by tests/docs/chattering.test.ts -->';
const settings: readonly MonitorConfig['chattering'][] = [null, {}, { withinMs: 86400000 }];
const usual = 1;
/** How many days of readings so many minutes apart. */
const days: Readonly<Record<number, number>> = { 1: 30, 10: 365 };
const intervals = Object.keys(days).map(Number);
const few = [
  'flow drops out, every other reading',
  'late, one of three',
  'the clock is a week ahead, every other reading',
];

function cell(name: string, minutes: number, chattering: MonitorConfig['chattering']): string {
  const length = days[minutes] as number;
  const told = eventsOf(faults[name] as NonNullable<(typeof faults)[string]>, minutes, length, chattering);
  const parts = [...told].map(([event, count]) => `\`${event}\` ${rate(count, length)}`);
  return parts.length === 0 ? 'none' : parts.join(', ');
}

/** A day; of what is rare, how many there were in all. */
function rate(count: number, length: number): string {
  if (count < 20) return `(${count})`;
  const daily = count / length;
  return daily < 10 ? daily.toFixed(1) : daily.toFixed(0);
}

const rowsIn = (text: string): string[][] =>
  (text.split(`${mark}\n`)[1] ?? '')
    .trim()
    .split('\n\n')[0]
    ?.split('\n')
    .slice(2)
    .map((line) => line.slice(2, -2).split(' | ')) ?? [];

describe('what comes and goes', () => {
  const text = readFileSync(page, 'utf8');
  const rows = rowsIn(text);

  test.runIf(full && process.env.MOTESCALE_WRITE === '1')('is written', { timeout: 3600000 }, () => {
    const header = ['what is wrong', 'minutes apart', 'each told', '`chattering: {}`', '`withinMs` of a day'];
    const made = Object.keys(faults).flatMap((name) =>
      intervals.map((minutes) => [name, `${minutes}`, ...settings.map((one) => cell(name, minutes, one))]),
    );
    const table = [header, header.map(() => '---'), ...made].map((row) => `| ${row.join(' | ')} |`).join('\n');
    const [before, after = ''] = text.split(`${mark}\n`) as [string, string];
    writeFileSync(page, `${before}${mark}\n\n${table}\n\n${after.trimStart().replace(/^(\|.*\n)+\n?/, '')}`);
  });

  test('has a row for each fault', () => {
    expect(rows.map(([name, minutes]) => `${name} ${minutes}`)).toEqual(
      Object.keys(faults).flatMap((name) => intervals.map((minutes) => `${name} ${minutes}`)),
    );
  });

  test.each(Object.keys(faults))('%s', { timeout: 1800000 }, (name) => {
    for (const [row, minutes = '', ...cells] of rows) {
      if (row !== name || !(full || (minutes === '10' && few.includes(name)))) continue;
      settings.forEach((chattering, i) => {
        if (full || i === usual) expect(cells[i]).toBe(cell(name, Number(minutes), chattering));
      });
    }
  });
});
