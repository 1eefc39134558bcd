/** Small figures keep three digits that mean something, on pages, in charts and in messages alike. By hand. */
import { expect, test } from 'vitest';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import { germanTexts } from '../../../src/german/index.ts';
import { shown } from '../../../src/numeric/shown.ts';
import { messageOf, periodFigures, periodSummary, trendChart } from '../../../src/report/index.ts';

test('figures below 1 are shown to three digits, as those above', () => {
  const cases: [number, string][] = [
    [0, '0'],
    [0.31, '0.31'],
    [0.9996, '1'],
    [0.012345, '0.0123'],
    [0.0014, '0.0014'],
    [0.00049, '0.00049'],
    [-0.00012344, '-0.000123'],
    [0.0000004567, '0.000000457'],
    [-1e-7, '-0.0000001'],
    [1e-12, '0.000000000001'],
    // 12 places are the most
    [4e-13, '0'],
    [12.345, '12.3'],
    [1893.4, '1893'],
  ];
  for (const [figure, text] of cases) expect(shown(figure)).toBe(text);
  expect([shown(0.00041, 0.00041004), shown(0.00041004, 0.00041)]).toEqual(['0.00041', '0.00041004']);
});

test('a page, a chart and a message write the same', () => {
  const readings = [0.0004, 0.0014, 0.00049].map((iron, i) => ({
    time: i * 3600000,
    counts: cumulativeCounts({ 4: 1890, 6: 402, 14: 0.0123 }),
    others: { 'Fe (g/kg)': iron },
  }));
  const page = periodSummary(periodFigures(readings), germanTexts);
  expect(page).toMatch(/Fe \(g\/kg\) +0,0004 +0,00049 +0,0014 +0,00049\n/);
  expect(page).toMatch(/14 µm\(c\) +0,0123 /);
  const { description } = trendChart(readings, { figures: ['other Fe (g/kg)'] });
  expect(description).toContain('Fe (g/kg): 0.0004 to 0.0014, last 0.00049 (');
  expect(description).toContain('14 µm(c): 0.0123 to 0.0123 ');
  const raised = { time: 0, event: 'raised', alarm: 'iron', figure: 'other Fe (g/kg)', priority: 'low' } as const;
  expect(messageOf({ ...raised, value: 0.0014, setpoint: 0.00049 }, germanTexts).line).toContain(
    '0,0014, Grenzwert 0,00049',
  );
});
