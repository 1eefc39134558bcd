/**
 * The year in which everything goes wrong once: every fault told within ten readings, no reading unmentioned; and the
 * same year without faults silent. Other years with MOTESCALE_SEED.
 */
import { readFileSync } from 'node:fs';
import { beforeAll, expect, test, vi } from 'vitest';
import type { MonitorEvent } from '../../src/monitor/index.ts';
import { findingCodes } from '../../src/reading/findingKinds.ts';

interface Row {
  readonly name: string;
  readonly time: number;
  readonly told: string | null;
  readonly after: number | null;
  readonly lost: number;
  readonly named: number;
  readonly words: readonly string[];
}
interface Year {
  readonly rows: readonly Row[];
  readonly heard: readonly {
    readonly told: readonly unknown[];
    readonly events: readonly MonitorEvent[];
    readonly verdict: { readonly findings: readonly { readonly code: string }[] } | null;
  }[];
}

const seed = process.env.MOTESCALE_SEED === undefined ? undefined : Number(process.env.MOTESCALE_SEED);
let broken: Year;
let clean: Year;
let field: { printField: () => void; dayOf: (time: number) => string; wordOf: (told: string | null) => string };
let summary: (rows: readonly Row[]) => string;

beforeAll(async () => {
  const run = '../../docs/examples/field/run.mjs';
  const page = '../../docs/examples/field.mjs';
  const { fieldYear } = await import(/* @vite-ignore */ run);
  const printed = await import(/* @vite-ignore */ page);
  field = printed;
  summary = printed.summary;
  broken = fieldYear({ seed });
  clean = fieldYear({ seed, broken: false });
});

test('every fault is told within ten readings, and no reading goes unmentioned', () => {
  expect(broken.rows.length).toBeGreaterThan(40);
  expect(broken.rows.filter(({ told }) => told === null).map(({ name }) => name)).toEqual([]);
  for (const { name, after, lost } of broken.rows) {
    expect(lost, name).toBe(0);
    if (after !== null) expect(after, name).toBeLessThanOrEqual(10);
  }
});

test('every finding that a monitor can make is among them', () => {
  const heard = broken.rows.flatMap(({ words }) => words.map((word) => word.split(' ')[0]));
  // a clock that runs back is told by events of the monitor
  // a code is read by itself only where no counts come, and these units send counts
  const elsewhere = ['clock_backwards', 'code_unreadable', 'code_rises_with_size'];
  for (const code of findingCodes) if (!elsewhere.includes(code)) expect(heard, code).toContain(code);
});

test('the same year without faults tells what the oil does, and nothing else', () => {
  const events = clean.heard.flatMap((one) => one.events);
  expect(events.map((e) => [e.event, 'alarm' in e ? e.alarm : null])).toEqual([
    ['raised', 'dirt'],
    ['returned', 'dirt'],
  ]);
  expect(clean.heard.flatMap(({ told }) => told)).toEqual([]);
  const found = clean.heard.flatMap(({ verdict }) => verdict?.findings ?? []);
  expect(found.length).toBeLessThanOrEqual(1);
});

test.runIf(seed === undefined)('the table of docs/readings.md', async () => {
  const text = readFileSync('docs/readings.md', 'utf8');
  const rows = broken.rows.map(({ name, time, told, after, named, lost }) =>
    [
      ...[name, field.dayOf(time), told === null ? 'not told' : `\`${field.wordOf(told)}\``, after ?? '-', named, lost],
    ].join(' | '),
  );
  const head =
    '| what goes wrong | from | told by | after readings | named | lost |\n| --- | --- | --- | --- | --- | --- |';
  const made = `${head}\n${rows.map((row) => `| ${row} |`).join('\n')}`;
  const whole = /(<!-- field: made by tests\/docs -->\n)[\s\S]*?(<!-- \/field -->)/;
  expect(text).toMatch(whole);
  await expect(text.replace(whole, `$1\n${made}\n\n$2`)).toMatchFileSnapshot('../../docs/readings.md');
});

test('it is printed within 80 columns', () => {
  const lines: string[] = [];
  const print = vi.spyOn(console, 'log').mockImplementation((line = '') => {
    lines.push(String(line));
  });
  try {
    field.printField();
  } finally {
    print.mockRestore();
  }
  for (const line of lines.join('\n').split('\n')) expect(line.length, line).toBeLessThanOrEqual(80);
  expect(lines.join('\n')).not.toMatch(/NaN|undefined|null|Infinity/);
  expect(lines.join(' ').replace(/ +/g, ' ')).toContain('The same year without faults: 2 events');
  expect(summary(broken.rows)).toContain('Readings that went unmentioned: 0');
});
