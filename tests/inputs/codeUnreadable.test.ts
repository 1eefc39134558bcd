/**
 * What came as a code but is none: the counts are bad, and an event says so at once.
 */
import { describe, expect, test } from 'vitest';
import { iso4406, nas1638 } from '../../src/codes/index.ts';
import { advanceMonitor, prepareMonitor, startMonitor } from '../../src/monitor/index.ts';
import { assessReading, findingText } from '../../src/reading/index.ts';

const prepared = prepareMonitor({ codes: [{ table: iso4406, target: '18/16/13' }, { table: nas1638 }] });
const read = (codes: Record<string, string>) =>
  advanceMonitor(prepared, startMonitor(prepared), { time: 1e12, codes, celsius: 41 });

describe('a code without counts', () => {
  test.each(['ERR', '18/--/12', '---'])('%s is bad and told, the temperature is good', (text) => {
    const { verdict, events } = read({ iso4406: text });
    expect(verdict?.figureQualities).toEqual({ counts: 'bad', celsius: 'good' });
    expect(verdict?.inTarget).toBeNull();
    expect(events).toMatchObject([{ event: 'quality_bad', figure: 'counts', findings: ['code_unreadable'] }]);
  });

  test('of a table that only the monitor knows', () => {
    expect(read({ nas1638: 'ERR' }).verdict?.findings).toMatchObject([{ code: 'code_unreadable', value: 1 }]);
  });

  test('beside another that can be read is uncertain', () => {
    const { verdict, events } = read({ iso4406: '18/16/13', nas1638: 'ERR' });
    expect(verdict?.figureQualities.counts).toBe('uncertain');
    expect(verdict?.inTarget).toBe(true);
    expect(events).toEqual([]);
  });

  test.each(['18/16/13', '18/-/12', '>28/22/15'])('%s can be read', (text) => {
    expect(assessReading({ codes: { iso4406: text } })).toMatchObject({ quality: 'good', findings: [] });
  });

  test('is told in words', () => {
    const [finding] = assessReading({ codes: { iso4406: 'ERR' } }).findings;
    expect(finding && findingText(finding)).toContain('cannot be read as one of its table');
  });
});

test('counts beside it decide', () => {
  const counts = { sizing: 'iso11171', sizes: [4, 6, 14], perMl: [1890, 402, 33] } as const;
  expect(assessReading({ counts, codes: { iso4406: 'ERR' } }).quality).toBe('good');
});
