/** Parse and prepare agree; errors of charts name the option; a name with a line end stays on its line. */
import { describe, expect, test } from 'vitest';
import { iso4406, nas1638 } from '../../src/codes/index.ts';
import { isMotescaleError } from '../../src/errors.ts';
import { prepareMonitor } from '../../src/monitor/index.ts';
import { cleanUpChart, periodFigures, periodSummary, sizeChart, trendChart } from '../../src/report/index.ts';
import { parseMonitorConfig } from '../../src/schema/index.ts';

function parameterOf(call: () => unknown): string {
  try {
    call();
  } catch (error) {
    return isMotescaleError(error) ? error.parameter : `${error}`;
  }
  return 'accepted';
}
/** Both doors, by the words of what is wrong. */
function bothOf(config: unknown): readonly [parse: string, prepare: string] {
  const said = (call: () => unknown) => {
    try {
      call();
    } catch (error) {
      return String((error as Error).message);
    }
    return 'accepted';
  };
  return [
    said(() => parseMonitorConfig(config)),
    said(() => prepareMonitor(config as never, { tables: [nas1638, iso4406] })),
  ];
}

describe('a configuration', () => {
  test.each([
    ['by ids', ['nas1638', 'nas1638']],
    ['by itself and by id', [nas1638, 'nas1638']],
    ['by itself twice', [nas1638, nas1638]],
  ])('with a table named twice, %s, is refused by both', (_what, tables) => {
    const codes = tables.map((table, i) => ({ table, target: String(7 + i) }));
    for (const said of bothOf({ codes })) expect(said).toContain('each table once');
    expect(bothOf({ codes: codes.slice(0, 1) })).toEqual(['accepted', 'accepted']);
  });

  const whole = iso4406.source;
  test.each<[string, unknown, boolean]>([
    ['none', undefined, true],
    ['whole', { ...whole }, true],
    ['empty', {}, false],
    ['null', null, false],
    ['a text', 'ISO', false],
    ['with a member more', { ...whole, page: 4 }, false],
    ['of another standing', { ...whole, standing: 'sure' }, false],
    ['with a number', { ...whole, edition: 2021 }, false],
  ])('with a table whose source is %s: both agree', (_what, source, sound) => {
    const [parse, prepare] = bothOf({ codes: [{ table: { ...iso4406, source }, target: '18/16/13' }] });
    expect([parse === 'accepted', prepare === 'accepted']).toEqual([sound, sound]);
    if (!sound) expect([parse, prepare].every((said) => said.includes('.source'))).toBe(true);
  });
});

describe('charts name the option', () => {
  const counts = { sizing: 'iso11171', sizes: [4, 6, 14], perMl: [1890, 402, 33] } as const;
  test.each<[string, () => unknown]>([
    ['options.target', () => trendChart([], { target: '18/16' })],
    ['options.alarm', () => trendChart([], { target: '18/16/13', alarm: '18/16' })],
    ['options.target', () => trendChart([], { target: 5 as never })],
    ['options.target', () => sizeChart(counts, { target: '18/16' })],
    [
      'options.target',
      () =>
        cleanUpChart({ litres: 600, litresPerMin: 30, counts, beta: [10, 20, 100] }, { minutes: 60, target: '18/16' }),
    ],
  ])('%s', (parameter, call) => expect(parameterOf(call)).toBe(parameter));
});

test('a name with a line end stays on its line', () => {
  const text = periodSummary(periodFigures([{ time: 0, others: { 'x\r\ny': 1 } }]));
  expect(text).toContain('x y');
  expect(text).not.toMatch(/x\r?\n/);
});
