/** What is put into pages and charts, damaged: refused by name, never by an error of the engine. */
import { describe, expect, test } from 'vitest';
import { codeUncertainty, iso4406, nas1638 } from '../../../src/codes/index.ts';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import { isMotescaleError } from '../../../src/errors.ts';
import { periodFigures, periodSummary, probabilityChart, sampleSheet, sheetText } from '../../../src/report/index.ts';

const counts = cumulativeCounts({ 4: 18900, 6: 4020, 14: 330 }, { volumeMl: 10 });
const reading = { time: 1e12, counts, verdict: 'in target' };
const options = { target: '18/16/13', columns: ['4'], errors: {}, title: 'Gate' };
const figures = periodFigures([reading], { ...options, events: [{ time: 1e12, text: 'filter' }] });
const sheet = sampleSheet(counts, { time: 1e12, tables: [iso4406, nas1638], target: '18/16/13' });
const sure = codeUncertainty(iso4406, counts);
const [column] = sure.columns;

/** A copy with one member left out. */
function without(value: object, name: string): never {
  return Object.fromEntries(Object.entries(value).filter(([each]) => each !== name)) as never;
}

describe('refused by name', () => {
  test.each<[string, string, () => unknown]>([
    ['wrong_type', 'figures.title', () => periodSummary({ ...figures, title: 7 } as never)],
    ['wrong_type', 'figures.columns', () => periodSummary(without(figures, 'columns'))],
    ['unknown_option', 'figures.titel', () => periodSummary({ ...figures, titel: '' } as never)],
    [
      'out_of_range',
      'figures.from.time',
      () => periodSummary({ ...figures, from: { ...figures.from, time: 1e16 } } as never),
    ],
    [
      'wrong_type',
      'figures.verdicts[0].verdict',
      () => periodSummary({ ...figures, verdicts: [{ readings: 1 }] } as never),
    ],
    ['wrong_type', 'sheet.time', () => sheetText(without(sheet, 'time'))],
    ['unknown_option', 'sheet.notLookedAt[0]', () => sheetText({ ...sheet, notLookedAt: ['x'] } as never)],
    ['wrong_type', 'sheet.codes[0].source', () => sheetText({ ...sheet, codes: [without(sheet.codes[0]!, 'source')] })],
    [
      'wrong_type',
      'sure.columns[0].probabilities[0]',
      () => probabilityChart({ ...sure, columns: [{ ...column, probabilities: [null] }] } as never),
    ],
    [
      'not_a_number',
      'sure.columns[0].probabilities[0].probability',
      () =>
        probabilityChart({
          ...sure,
          columns: [{ ...column, probabilities: [{ class: '1', probability: NaN }] }],
        } as never),
    ],
    ['wrong_type', 'sure.columns[0]', () => probabilityChart({ ...sure, columns: [null] } as never)],
    [
      'wrong_type',
      'sure.columns[0].column',
      () => probabilityChart({ ...sure, columns: [without(column!, 'column')] }),
    ],
  ])('%s on %s', (code, parameter, call) => {
    expect(call).toThrow(expect.objectContaining({ name: 'MotescaleError', code, parameter }));
  });

  /** The value with whatever stands at each place spoilt in turn. */
  function* spoilt(value: unknown): Generator<unknown> {
    for (const bad of [undefined, {}, Number.NaN, 'x', []]) yield bad;
    if (typeof value !== 'object' || value === null) return;
    for (const [name, member] of Object.entries(value))
      for (const bad of spoilt(member)) {
        const copy = Array.isArray(value) ? value.slice() : { ...value };
        (copy as Record<string, unknown>)[name] = bad;
        yield copy;
      }
  }

  test.each<[string, unknown, (given: never) => unknown]>([
    ['periodSummary', figures, periodSummary],
    ['sheetText', sheet, sheetText],
    ['probabilityChart', { ...sure, columns: [column] }, probabilityChart],
  ])('%s throws no error but ours, whatever is damaged', (_name, whole, call) => {
    let refused = 0;
    for (const given of spoilt(whole)) {
      try {
        call(given as never);
      } catch (error) {
        expect(isMotescaleError(error), String(error)).toBe(true);
        refused += 1;
      }
    }
    expect(refused).toBeGreaterThan(100);
  });

  test('what was kept as JSON is as good as new', () => {
    const kept = <T>(value: T): T => JSON.parse(JSON.stringify(value)) as T;
    expect(periodSummary(kept(figures))).toBe(periodSummary(figures));
    expect(sheetText(kept(sheet))).toBe(sheetText(sheet));
  });
});
