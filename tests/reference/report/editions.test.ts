/** Codes in a report go by the name of their standard, with or without an edition that the table was taken from. */
import { describe, expect, test } from 'vitest';
import { periodFigures, trendChart } from '../../../src/report/index.ts';

const judged = (name: string) =>
  periodFigures([{ time: 0, codes: { [name]: '17/15/12' } }], { target: '18/16/13' }).target?.judged;

describe('a code by the name of its standard', () => {
  test.each(['ISO 4406', 'ISO 4406:1999', 'ISO 4406:2017', 'ISO 4406:2021', 'iso4406'])('%s is judged', (name) => {
    expect(judged(name)).toBe(1);
    const chart = trendChart([{ time: 0, codes: { [name]: '17/15/12' } }]);
    expect(chart.description).toContain('4 µm(c): codes that allow 640 to 1,300 particles per mL.');
  });

  // that of 1987 counts 5 and 15 µm by another calibration (ISO 4406:1987, from memory)
  test.each(['ISO 4406:1987', 'ISO 4406:', 'ISO 4406:20', 'NAS 1638', 'constructor'])('%s is not', (name) => {
    expect(judged(name)).toBe(0);
  });

  test('one that cannot be read is bad', () => {
    const readings = [{ time: 0, codes: { 'ISO 4406': 'ISO 17/15/12' } }];
    expect(periodFigures(readings, { target: '18/16/13' }).readings.bad).toBe(1);
  });
});
