/** With `keepReadable`: a figure that came and could not be read does not pass for one that was not measured. */
import { describe, expect, test } from 'vitest';
import { iso4406 } from '../../src/codes/index.ts';
import { advanceMonitor, prepareMonitor, startMonitor } from '../../src/monitor/index.ts';
import { assessReading } from '../../src/reading/index.ts';
import { type Problem, parseMonitorReading } from '../../src/schema/index.ts';

const time = 1795593600000;
const sizes = [4, 6, 14];
const errors = { sizes, counted: [-999, -999, -999], volumeMl: 10 };
const parse = (raw: object, told: Problem[] = []) =>
  parseMonitorReading({ time, ...raw }, told, { keepReadable: true });

describe('what came and could not be read is marked, and told', () => {
  test.each<[string, object, object]>([
    ['all counts', { counts: errors }, { counts: 'bad' }],
    ['counts per mL', { counts: { sizes, perMl: ['n/a', null, '>30000'] } }, { counts: 'bad' }],
    ['counts with a mistake', { counts: { sizes, perMl: [9, 3, 1], unit: 'L' } }, { counts: 'bad' }],
    ['no object', { counts: 'error 7' }, { counts: 'bad' }],
    ['no counts at any size', { counts: { sizes, perMl: [] } }, { counts: 'bad' }],
    ['a code that is none', { codes: { iso4406: 18 } }, { counts: 'bad' }],
    ['a code under an id that nobody knows', { codes: { other: '7' } }, { counts: 'bad' }],
    ['counts beside a code', { counts: errors, codes: { iso4406: '*/18/14' } }, { counts: 'uncertain' }],
    ['counts beside a code that nobody reads', { counts: errors, codes: { other: '7' } }, { counts: 'bad' }],
    ['other figures', { celsius: 'err', kPa: true, mlPerMin: 'err' }, { mlPerMin: 'bad', kPa: 'bad', celsius: 'bad' }],
    ['what the instrument doubts', { kPa: 'err', qualities: { kPa: 'uncertain' } }, { kPa: 'bad' }],
    ['one beside others', { kPa: 'err', qualities: { celsius: 'uncertain' } }, { celsius: 'uncertain', kPa: 'bad' }],
  ])('%s', (_what, raw, qualities) => {
    const told: Problem[] = [];
    expect(parse({ waterSaturation: 0.3, ...raw }, told).qualities).toEqual(qualities);
    const marks = told.filter(({ path, expected }) => path[0] === 'qualities' && /^read as /.test(expected));
    const own = Object.keys('qualities' in raw ? (raw.qualities as object) : {});
    const made = Object.entries(qualities).filter(([name, quality]) => !own.includes(name) || quality === 'bad');
    expect(marks.map(({ path }) => path[1]).sort()).toEqual(made.map(([name]) => name).sort());
  });

  test.each<[string, object]>([
    ['nothing', { celsius: 40 }],
    ['null', { counts: null, kPa: null }],
    ['null at all sizes', { counts: { sizes, perMl: [null, null, null] } }],
    ['a code of null', { codes: { iso4406: null } }],
    ['one count of several', { counts: { ...errors, counted: [18900, -999, 330] } }],
    ['a figure that has no quality', { flushedMl: 'err', others: { acid: 'err' } }],
  ])('%s marks nothing', (_what, raw) => {
    expect(parse({ waterSaturation: 0.3, ...raw })).not.toHaveProperty('qualities');
  });

  test('what the instrument calls bad itself is not told again', () => {
    const told: Problem[] = [];
    const reading = parse({ celsius: 40, counts: errors, qualities: { counts: 'bad' } }, told);
    expect(reading.qualities).toEqual({ counts: 'bad' });
    expect(told.map(({ path }) => path[0])).toEqual(['counts', 'counts', 'counts']);
  });
});

test('a monitor tells it once, and that it is over', () => {
  const config = prepareMonitor({ codes: [{ table: iso4406, target: '18/16/13' }] });
  const good = { sizing: 'iso11171', sizes, perMl: [1890, 402, 33] };
  let state = startMonitor(config);
  const seen = [good, errors, errors, undefined, good].map((counts, i) => {
    const step = advanceMonitor(config, state, parse({ time: time + i * 600000, celsius: 40 + i / 10, counts }));
    state = step.state;
    const { quality, inTarget, findings } = step.verdict ?? {};
    return [quality, inTarget, findings?.map(({ code }) => code).join(), step.events.map(({ event }) => event).join()];
  });
  expect(seen).toEqual([
    ['good', true, '', ''],
    ['bad', null, 'flagged_by_instrument', 'quality_bad'],
    ['bad', null, 'flagged_by_instrument', ''],
    // a reading of the thermometer alone
    ['good', null, '', ''],
    ['good', true, '', 'quality_restored'],
  ]);
});

test('only a figure that is called bad is missed, and only by its own name', () => {
  expect(assessReading({ celsius: 40, qualities: { counts: 'uncertain' } })).toMatchObject({
    quality: 'good',
    figureQualities: { celsius: 'good' },
  });
  const { quality, figureQualities } = assessReading({ mlPerMin: 0, qualities: { kPa: 'bad' } });
  expect([quality, figureQualities]).toEqual(['bad', { mlPerMin: 'good', kPa: 'bad' }]);
  const mild = { qualities: { flagged_by_instrument: 'uncertain' } } as const;
  expect(assessReading({ celsius: 40, qualities: { counts: 'bad' } }, mild).figureQualities).toEqual({
    celsius: 'good',
  });
});
