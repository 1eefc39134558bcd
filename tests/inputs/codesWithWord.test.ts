/**
 * A word where a number of a code should be, `ERR/18/15`: the other sizes are kept, that one is not known, and the code
 * is uncertain, since the word may mean too many to count. Left out whole, two dirty sizes let the rest prove a target.
 */
import { describe, expect, test } from 'vitest';
import { advanceAcceptance, prepareAcceptance, startAcceptance } from '../../src/acceptance/index.ts';
import { iso4406 } from '../../src/codes/index.ts';
import { advanceMonitor, prepareMonitor, startMonitor, type Verdict } from '../../src/monitor/index.ts';
import { type Problem, parseAcceptanceReading, parseMonitorReading, parseReading } from '../../src/schema/index.ts';

const start = 1795593600000;
const read = (codes: object, told: Problem[] = []) => parseReading({ codes }, told, { keepReadable: true });

describe('at the door', () => {
  test.each([
    ['iso4406', 'ERR/18/15', '-/18/15'],
    ['iso4406', '--/18/15', '-/18/15'],
    ['iso4406', '\u2014\u2014/18/15', '-/18/15'],
    ['iso4406', '18 / *** / 15', '18 /-/ 15'],
    ['iso4406', '*/18/OVER', '*/18/-'],
    ['iso4406', 'n.a./>18/15', '-/*/15'],
    ['iso4406Microscope', '-/18/ERR', '-/18/-'],
  ])('%s: %s is read as %s, told as lost, and uncertain', (id, text, code) => {
    const told: Problem[] = [];
    expect(read({ [id]: text }, told)).toEqual({ codes: { [id]: code }, qualities: { counts: 'uncertain' } });
    expect(told.map(({ path, expected, lost }) => [path.join('.'), expected.split(':')[0], lost])).toEqual([
      [`codes.${id}`, 'left out', true],
      [`codes.${id}`, `read as ${code}`, undefined],
      ['qualities.counts', 'read as uncertain', undefined],
    ]);
    expect(parseReading({ codes: { [id]: text } }, [])).toEqual({ codes: { [id]: text } });
  });

  test.each([
    ['iso4406', 'ERR/ERR/15'],
    ['iso4406', 'N/A/15'],
    ['iso4406', '>x/18/15'],
    ['iso4406', 'E4/18/15'],
    ['iso4406', 'ISO ERR/18/15'],
    ['iso4406', 'ERR/18/40'],
    ['nas1638', 'ERR'],
    ['as4059Cumulative', 'ERR/7B'],
  ])('more than one word, or another mistake beside it, is left out whole: %s: %s', (id, text) => {
    expect(read({ [id]: text })).toEqual({ qualities: { counts: 'bad' } });
  });
});

test.each([
  ['20/14/11', 'ERR/18/15', ['restarted worse_than_target', 'not_counted worse_than_target', 'counted']],
  ['16/14/11', 'ERR/13/10', ['not_counted not_known', 'accepted']],
  ['-/14/11', 'ERR/13/10', ['not_counted uncertain', 'accepted']],
])('in a proof of %s, %s ends the run if it is worse, and never counts', (target, text, events) => {
  const prepared = prepareAcceptance({ table: iso4406, target, readings: 3 });
  let state = startAcceptance(prepared);
  const told: string[] = [];
  ['14/13/10', '14/13/9', text, '14/12/9'].forEach((code, i) => {
    const raw = { time: start + i * 600000, codes: { iso4406: code } };
    const step = advanceAcceptance(prepared, state, parseAcceptanceReading(raw, [], { keepReadable: true }));
    state = step.state;
    for (const { event, why = '' } of step.events) told.push(`${event} ${why}`.trim());
  });
  expect(told).toEqual(['counted', 'counted', ...events]);
});

test('a monitor tells which size is missing, raises by the others, and clears nothing by what is missing', () => {
  const prepared = prepareMonitor({
    codes: [{ table: iso4406, target: '18/16/13' }],
    alarms: [
      { id: 'code', type: 'high', figure: { code: 'iso4406' }, setpoint: '18/16/13' },
      { id: 'at 4', type: 'high', figure: { scaleNumberAt: 4 }, setpoint: 18 },
      { id: 'at 6', type: 'high', figure: { scaleNumberAt: 6 }, setpoint: 16 },
    ],
  });
  let state = startMonitor(prepared);
  const steps = ['20/12/10', 'ERR/25/12', 'ERR/12/10', '15/12/10'].map((code, i) => {
    const raw = { time: start + i * 600000, codes: { iso4406: code } };
    const step = advanceMonitor(prepared, state, parseMonitorReading(raw, [], { keepReadable: true }));
    state = step.state;
    const { quality, inTarget, codes } = step.verdict as Verdict;
    const events = step.events.map((one) => `${one.event} ${'alarm' in one ? one.alarm : ''}`);
    return [quality, inTarget, codes[0]?.outcome?.missing, events];
  });
  expect(steps).toEqual([
    ['good', false, [], ['raised code', 'raised at 4']],
    ['uncertain', false, ['4'], ['raised at 6']],
    ['uncertain', null, ['4'], ['returned at 6']],
    ['good', true, [], ['returned code', 'returned at 4']],
  ]);
});
