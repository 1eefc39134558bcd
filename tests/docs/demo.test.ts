/**
 * The year of the demo on a shorter span: the same events in the same order, files that parse, 80 columns, the same
 * text each time.
 */
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, beforeAll, expect, test, vi } from 'vitest';
import { parseCsv } from '../../src/report/index.ts';
import { full } from '../volume.ts';

const days = 60;
const folder = mkdtempSync(join(tmpdir(), 'year-'));
let page = '';

async function printed(): Promise<string> {
  const year = '../../docs/examples/year.mjs';
  const { printYear } = await import(/* @vite-ignore */ year);
  const lines: string[] = [];
  const print = vi.spyOn(console, 'log').mockImplementation((line = '') => {
    lines.push(String(line));
  });
  try {
    await printYear({ days, folder: pathToFileURL(`${folder}/`), threads: false });
  } finally {
    print.mockRestore();
  }
  return lines.join('\n');
}

/** What is printed below a heading that begins so, up to the next heading. */
function section(start: string): string {
  const parts = page.split(/\n(?=[^\n]+\n-+\n)/);
  const found = parts.filter((part) => part.startsWith(start));
  expect(found, start).toHaveLength(1);
  return (found[0] as string).replace(/\n +/g, ' ');
}

/** Each of the texts, after the one before. */
function inOrder(text: string, wanted: readonly string[]): void {
  let from = 0;
  for (const each of wanted) {
    const place = text.indexOf(each, from);
    expect(place, `${each} after ${text.slice(0, from).slice(-60)}`).toBeGreaterThanOrEqual(0);
    from = place + each.length;
  }
}

beforeAll(async () => {
  page = await printed();
});
afterAll(() => rmSync(folder, { recursive: true }));

test('nothing happens to the quiet unit', () => {
  const text = section('Upper gate: target');
  expect(text).toContain(`${(288 * days).toLocaleString('en')} good, 0 uncertain, 0 bad`);
  expect(text).toContain('No alarm, no change found, no gap.');
  inOrder(text, ['not told', 'Forecast: not distinguishable']);
});

test('the worn unit drops out, gets dirtier, and its filter collapses', () => {
  inOrder(section('Lower gate: target'), [
    'bad readings (values stuck)',
    'no usable reading for an hour',
    'usable readings again',
    'ALARM dirt rises',
    'ALARM dirt:',
    'dirt rises alarm returned',
    'dirt alarm returned',
    'new filter element',
    'change found: 6 µm(c) up',
    'rising',
  ]);
  inOrder(section('Lower gate: plan'), [
    'In the tank: 20/',
    'minutes to 18/16/13',
    'Run the cart for',
    'take a sample',
  ]);
});

test('the wet unit is found wet, stopped, flushed and proved', () => {
  inOrder(section('Filling valves: target'), [
    'change found: water up',
    'ALARM water',
    'unit stopped',
    'no usable reading for an hour',
    'the flush begins',
    'usable readings again',
    'water alarm returned',
    'Flush proved',
    'one run ended',
    'worse than target',
    'decided by those who answer for it',
  ]);
});

test('events of a unit stand in order of time', () => {
  for (const name of ['Lower gate: target', 'Filling valves: target']) {
    const times = section(name).match(/\d{4}-\d\d-\d\d \d\d:\d\d(?= {2})/g) as string[];
    expect(times.length).toBeGreaterThan(5);
    expect(times).toEqual([...times].sort());
  }
});

test('the files are there and parse', () => {
  const names = readdirSync(folder).sort();
  expect(names).toEqual([
    'clean-up.svg',
    'filling-valves-days.csv',
    'lower-gate-days.csv',
    'sizes.svg',
    'trend.svg',
    'upper-gate-days.csv',
  ]);
  for (const name of names) expect(section('Files')).toContain(name);
  const read = (name: string) => readFileSync(join(folder, name), 'utf8');
  for (const name of names.filter((each) => each.endsWith('.csv'))) {
    const { header, rows } = parseCsv(read(name));
    expect(header.slice(0, 5)).toEqual([
      'time (UTC)',
      '4 µm(c) per mL',
      '6 µm(c) per mL',
      '14 µm(c) per mL',
      'ISO 4406',
    ]);
    expect(rows.length).toBe(name.startsWith('lower') ? days - 4 : days);
    for (const row of rows) expect(row[4]).toMatch(/^\d+\/\d+\/\d+$/);
  }
  for (const name of names.filter((each) => each.endsWith('.svg'))) {
    expect(read(name)).toMatch(/^<svg /);
    expect(openTags(read(name))).toEqual([]);
  }
});

/** Tags of an XML text that are not closed in order. */
function openTags(xml: string): string[] {
  const open: string[] = [];
  for (const [, close, name, single] of xml.matchAll(/<(\/?)([a-zA-Z]+)[^>]*?(\/?)>/g)) {
    if (close) {
      if (open.pop() !== name) return [`</${name}>`];
    } else if (!single) open.push(name as string);
  }
  return open;
}

test('the text keeps within 80 columns', () => {
  for (const line of page.split('\n')) expect(line.length, line).toBeLessThanOrEqual(80);
  expect(page).not.toMatch(/NaN|undefined|null|Infinity/);
});

// the year takes as long again: the whole volume only
test.runIf(full)('the text is the same each time', async () => {
  expect(await printed()).toBe(page);
});
