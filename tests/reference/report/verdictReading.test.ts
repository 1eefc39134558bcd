/** What a monitor concluded, as the reports take it. */
import { describe, expect, test } from 'vitest';
import * as codes from '../../../src/codes/index.ts';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import type { MonitorConfig } from '../../../src/monitor/index.ts';
import type { TimedReading } from '../../../src/reading/index.ts';
import { reportReading, reportRows, trendChart } from '../../../src/report/index.ts';
import { tables } from '../../properties/samples.ts';
import { advanceMonitor, startMonitor } from '../../properties/watched.ts';
import { summaryOf } from './summary.ts';

const counts = cumulativeCounts({ 4: 18900, 6: 4020, 14: 330 }, { volumeMl: 10 });
const own = codes.classTable({ ...codes.iso4406, id: 'gate', title: 'Gate oil' });

function reported(watched: MonitorConfig['codes'], reading: TimedReading) {
  const config = { codes: watched };
  const { verdict } = advanceMonitor(config, startMonitor(config), reading);
  return reportReading(reading, verdict as NonNullable<typeof verdict>);
}

describe('reportReading', () => {
  test('codes by standard, quality, and the verdict in words', () => {
    const watched = [{ table: codes.iso4406, target: '18/16/13' }, { table: codes.nas1638 }, { table: own }];
    const reading = { time: 5, counts, kPa: 800, others: { litres: 5 } };
    expect(reported(watched, reading)).toEqual({
      ...reading,
      codes: { 'ISO 4406': '18/16/12', 'NAS 1638': codes.classify(codes.nas1638, counts).text, gate: '18/16/12' },
      quality: 'good',
      verdict: 'in target',
    });
    expect(reportRows([reported(watched, reading)]).header.slice(4)).toEqual([
      'ISO 4406',
      'NAS 1638',
      'gate',
      'pressure (kPa)',
      'litres',
      'quality',
      'verdict',
    ]);
    expect(summaryOf([reported(watched, reading)])).toContain('Verdicts   in target: 1');
  });

  test('the verdict says what is not known', () => {
    const target = { table: codes.iso4406, target: '18/16/13' };
    const verdictOf = (watched: MonitorConfig['codes'], own: object = {}) =>
      reported(watched, { time: 0, counts, ...own }).verdict;
    expect(verdictOf([{ ...target, target: '17/16/13' }])).toBe('above target');
    expect(verdictOf([{ table: codes.iso4406 }])).toBeUndefined();
    expect(verdictOf([])).toBeUndefined();
    expect(verdictOf([target], { counts: cumulativeCounts({ 4: 1890, 6: 402 }) })).toBe('target not judged');
    expect(verdictOf([target], { mlPerMin: 0 })).toBe('not to be relied on');
    expect('verdict' in reported([], { time: 0, counts })).toBe(false);
  });

  test('counts that rise with size are bad, and stay in the report', () => {
    const rising = { ...cumulativeCounts({ 4: 1890, 6: 402, 14: 33 }), perMl: [402, 1890, 33] };
    const bad = reported([{ table: codes.iso4406, target: '18/16/13' }], { time: 0, counts: rising });
    expect(bad).toMatchObject({ quality: 'bad', verdict: 'not to be relied on' });
    const readings = [bad, reported([], { time: 1, counts })];
    expect(reportRows(readings).rows[0]?.slice(1, 4)).toEqual([402, 1890, 33]);
    expect(summaryOf(readings)).toContain('1 good, 0 uncertain, 1 bad');
    expect(JSON.stringify(trendChart(readings))).toContain(':402,');
    const unmarked = { time: 2, counts: rising };
    expect(() => reportRows([...readings, unmarked])).toThrowError(
      expect.objectContaining({ code: 'counts_rise_with_size', parameter: 'readings[2].counts.perMl[1]' }),
    );
  });

  test('a table that gives no code has no column', () => {
    const microscope = cumulativeCounts({ 5: 900, 15: 20 }, { sizing: 'microscope' });
    const both = [{ table: codes.iso4406 }, { table: codes.iso4406Microscope }];
    expect(reported(both, { time: 0, counts }).codes).toEqual({ 'ISO 4406': '18/16/12' });
    expect(reported(both, { time: 0, counts: microscope }).codes).toEqual({ 'ISO 4406': '-/17/11' });
  });

  test('the names are those of the tables', () => {
    for (const [table] of tables) {
      const verdict = {
        time: 0,
        quality: 'good',
        inTarget: null,
        codes: [{ table: table.id, standard: table.standard, text: 'x' }],
      };
      const named = reportReading({ time: 0, counts }, verdict as never).codes;
      expect(named).toEqual({ [table.title.split(',')[0] as string]: 'x' });
    }
    expect(tables).toHaveLength(9);
  });

  const verdict = { time: 0, quality: 'good', inTarget: true, codes: [] };
  test.each<[string, string, unknown, unknown]>([
    ['wrong_type', 'reading', null, verdict],
    ['wrong_type', 'reading.time', {}, verdict],
    ['not_a_number', 'reading.mlPerMin', { time: 0, counts, mlPerMin: Number.NaN }, verdict],
    ['unknown_option', 'reading.kind', { time: 0, counts, kind: 'tick' }, verdict],
    ['wrong_type', 'verdict', { time: 0, counts }, null],
    ['out_of_range', 'verdict.time', { time: 1, counts }, verdict],
    ['unknown_option', 'verdict.quality', { time: 0, counts }, { ...verdict, quality: 'fair' }],
    ['wrong_type', 'verdict.codes', { time: 0, counts }, { ...verdict, codes: 5 }],
    ['wrong_type', 'verdict.codes[0]', { time: 0, counts }, { ...verdict, codes: [null] }],
    ['wrong_type', 'verdict.codes[0].table', { time: 0, counts }, { ...verdict, codes: [{ text: 'x' }] }],
    ['wrong_type', 'verdict.codes[0].text', { time: 0, counts }, { ...verdict, codes: [{ table: 'x' }] }],
  ])('%s on %s', (code, parameter, reading, given) => {
    expect(() => reportReading(reading as never, given as never)).toThrow(expect.objectContaining({ code, parameter }));
  });
});
