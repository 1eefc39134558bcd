/** Counts that are all too many to count are the code that ISO 4406 has for it, and no silence. */
import { describe, expect, test } from 'vitest';
import { iso4406 } from '../../src/codes/index.ts';
import { advanceMonitor, prepareMonitor, startMonitor } from '../../src/monitor/index.ts';
import { type Problem, parseMonitorReading } from '../../src/schema/index.ts';

const time = 1795593600000;
const full = '>30000';
const parse = (raw: object, told: Problem[] = []) =>
  parseMonitorReading({ time, ...raw }, told, { keepReadable: true });

describe('the code', () => {
  test.each<[string, object, string]>([
    ['counts per mL', { sizes: [4, 6, 14], perMl: [full, full, full] }, '*/*/*'],
    ['particles counted', { sizes: ['4', '6', '14'], counted: ['> 9999', '＞9999.5', '>9999'], volumeMl: 10 }, '*/*/*'],
    ['with spaces and decimals', { sizes: [4, 6, 14], perMl: [' >9999.55', '>9999.55 ', full] }, '*/*/*'],
    ['with a hole', { sizing: 'iso11171', sizes: [4, 6, 14, 21], perMl: [full, full, null, null] }, '*/*/-'],
    ['in another order', { sizes: [14, 4], perMl: [null, full] }, '*/-/-'],
  ])('%s', (_what, counts, code) => {
    const told: Problem[] = [];
    expect(parse({ counts, celsius: 40 }, told)).toEqual({
      time,
      celsius: 40,
      codes: { iso4406: code },
      qualities: { counts: 'uncertain' },
    });
    expect(told.filter(({ path }) => path[0] === 'codes')).toEqual([
      {
        path: ['codes', 'iso4406'],
        code: 'wrong_type',
        received: 'undefined',
        expected: `read as ${code}: counts too many to count`,
      },
    ]);
  });

  test.each<[string, object]>([
    ['something else beside', { sizes: [4, 6, 14], perMl: [full, 'n/a', full] }],
    ['no size of the code', { sizes: [21, 38], perMl: [full, full] }],
    ['another sizing', { sizing: 'iso4402', sizes: [4, 6], perMl: [full, full] }],
    ['at least, which may be counted', { sizes: [4, 6, 14], perMl: ['>=30000', '>=30000', '>=30000'] }],
    ...['>', '>x', '>1,5', 'x>1', '1>1', '>1 1', '>1x'].map((one): [string, object] => {
      return [`no number: ${one}`, { sizes: [4, 6, 14], perMl: [one, one, one] }];
    }),
    ['lists in place of counts', { sizes: [4, 6, 14], perMl: [[full], [full], [full]] }],
    ['no count at all', { sizes: [4, 6, 14], perMl: [null, null, null] }],
    ['particles counted without their volume', { sizes: [4, 6, 14], counted: [full, full, full] }],
    ['counts missing', { sizes: [4, 6, 14], perMl: [full, full] }],
  ])('none of %s', (_what, counts) => {
    expect(parse({ counts, celsius: 40 })).not.toHaveProperty('codes');
  });

  test('counts that can be read decide, and so does a code that came', () => {
    const some = parse({ counts: { sizes: [4, 6, 14], perMl: [full, 8100, 510] } });
    const kept = { sizing: 'iso11171', sizes: [6, 14], perMl: [8100, 510] };
    expect(some).toEqual({ time, counts: kept, codes: { iso4406: '*/-/-' } });
    const counts = { sizes: [4, 6, 14], perMl: [full, full, full] };
    expect(parse({ counts, codes: { nas1638: '12' } }).codes).toEqual({ nas1638: '12' });
    expect(parse({ counts, codes: { iso4406: 'ERR' } }).codes).toEqual({ iso4406: '*/*/*' });
  });

  test('without keepReadable the count refuses the reading', () => {
    const counts = { sizes: [4, 6, 14], perMl: [full, full, full] };
    expect(() => parseMonitorReading({ time, counts })).toThrow('reading.counts.perMl[0]');
  });
});

test('a monitor raises the alarm, and says why the reading is uncertain', () => {
  const config = prepareMonitor({
    codes: [{ table: iso4406, target: '18/16/13' }],
    alarms: [{ id: 'dirty', type: 'high', figure: { code: 'iso4406' }, setpoint: '21/19/16' }],
  });
  const reading = parse({ counts: { sizes: [4, 6, 14], perMl: [full, full, full] } });
  const { verdict, events } = advanceMonitor(config, startMonitor(config), reading);
  expect([verdict?.quality, verdict?.inTarget]).toEqual(['uncertain', false]);
  expect(verdict?.findings.map(({ code }) => code)).toEqual(['above_coincidence_limit', 'flagged_by_instrument']);
  expect(events).toMatchObject([{ event: 'raised', alarm: 'dirty' }]);
});
