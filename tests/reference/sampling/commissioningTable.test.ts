/**
 * The table of measuring times in docs/commissioning.md, cell by cell.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { scaleNumber } from '../../../src/codes/index.ts';
import { countingConfidence } from '../../../src/sampling/index.ts';

const oils: Readonly<Record<string, Readonly<Record<string, number>>>> = {
  '18/16/13': { '4 µm(c)': 1900, '6 µm(c)': 480, '14 µm(c)': 60 },
  '13/11/8': { '4 µm(c)': 60, '6 µm(c)': 15, '14 µm(c)': 1.9 },
};

/** The rows below the head that begins with `oil`, empty cells filled from above. */
function rows(): string[][] {
  const lines = readFileSync('docs/commissioning.md', 'utf8').split('\n');
  const head = lines.findIndex((line) => /^\| oil +\| time +\|/.test(line));
  const table: string[][] = [];
  for (const line of lines.slice(head + 2)) {
    if (!line.startsWith('|')) break;
    const cells = line.split('|').slice(1, -1);
    table.push(cells.map((cell, i) => cell.replace(/\*/g, '').trim() || (table[table.length - 1]?.[i] as string)));
  }
  return table;
}

/** A figure printed as in `printed`: as many decimals, thousands apart. */
function likewise(figure: number, printed: string): string {
  const plain = printed.replace(/ /g, '');
  return figure.toFixed(plain.split('.')[1]?.length ?? 0) === plain ? printed : `${figure}, printed ${printed}`;
}

describe('docs/commissioning.md', () => {
  test('has a row for each oil, time and size', () => {
    expect(rows().length).toBe(12);
  });

  test.each(rows())('%s, %s, %s', (oil, time, size, expected, error, limits, numbers) => {
    const perMl = oils[oil]?.[size] as number;
    const found = countingConfidence({ perMl, mlPerMin: 100, seconds: Number.parseInt(time, 10) });
    expect(likewise(found.expected, expected)).toBe(expected);
    const percent = error.replace(' %', '');
    expect(likewise((found.relativeError as number) * 100, percent)).toBe(percent);
    const [low, high] = limits.split(' to ') as [string, string];
    expect([likewise(found.low, low), likewise(found.high, high)]).toEqual([low, high]);
    const span = [scaleNumber(found.low), scaleNumber(found.high)];
    expect(span[0] === span[1] ? `${span[0]}` : span.join(' to ')).toBe(numbers);
  });
});
