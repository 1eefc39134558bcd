/** What a trend or the change detector is asked wrongly: refused, each by its own error. */
import { expect, test } from 'vitest';
import { autocorrelatedTrend } from '../../../src/trend/autocorrelatedTrend.ts';
import { advanceChange, prepareChange, startChange } from '../../../src/trend/change/advance.ts';
import { resumeChange } from '../../../src/trend/change/resume.ts';
import type { ChangeState } from '../../../src/trend/change/types.ts';
import { changePoint } from '../../../src/trend/changePoint.ts';
import { mannKendall } from '../../../src/trend/mannKendall.ts';
import { expectRefused, type Refused } from '../refused.ts';

const ten = [1, 3, 2, 4, 6, 5, 7, 9, 8, 10];
const long = Array.from({ length: 10001 }, (_x, i) => (i * 7919) % 10007);
const started: ChangeState = { ...startChange(), last: 62, since: 0, ring: [17, null, 17.5] };
const resume = (change: object) => () => resumeChange({ ...started, ...change });
const advance =
  (input: object, state: object = started) =>
  () =>
    advanceChange(prepareChange(), state as never, input as never);

const cases: readonly Refused[] = [
  ['unknown_option', 'options.lags', 'lags together with a correction', () => mannKendall(ten, { lags: 3 })],
  [
    'unknown_option',
    'options.times',
    'no times and no exact method beside a correction',
    () => mannKendall(ten, { correction: 'yue_wang', times: ten }),
  ],
  [
    'unknown_option',
    'options.method',
    'no times and no exact method beside a correction',
    () => mannKendall(ten, { correction: 'pre_whitening', method: 'exact' }),
  ],
  ['too_few', 'values', 'at least 4 numbers', () => mannKendall([1, 2, 3], { correction: 'hamed_rao' })],
  [
    'out_of_range',
    'options.lags',
    'from 1 to 9',
    () => mannKendall(ten, { correction: 'trend_free_pre_whitening', lags: 10 }),
  ],
  [
    'out_of_range',
    'options.lags',
    'at most 100000000 products of n and lags',
    () => mannKendall(long, { correction: 'hamed_rao' }),
  ],
  [
    'out_of_range',
    'options.lags',
    'at most 100000000 products of n and lags',
    () => mannKendall(long, { correction: 'yue_wang' }),
  ],
  ['too_few', 'values', 'at least 2 numbers', () => autocorrelatedTrend([null, 17, null])],
  ['too_few', 'values', 'at least 2 numbers', () => changePoint([null, 17, null])],
  ['out_of_range', 'values', 'at most 300000 numbers', () => changePoint(Array<null>(300001).fill(null))],
  ['out_of_range', 'options.confidence', 'from 0.5 to 0.9999', () => changePoint(ten, { confidence: 0.49 })],
  ['unknown_option', 'options.level', 'confidence', () => changePoint(ten, { level: 17 } as never)],
  ['out_of_range', 'values', 'at most 300000 numbers', () => autocorrelatedTrend(Array<null>(300001).fill(null))],
  ['out_of_range', 'options.confidence', 'from 0.5 to 0.9999', () => autocorrelatedTrend(ten, { confidence: 0.49 })],
  [
    'out_of_range',
    'options.leastCorrelation',
    'from 0 to 0.99',
    () => autocorrelatedTrend(ten, { leastCorrelation: 0.991 }),
  ],
  ['wrong_type', 'state.settled', 'true or false', resume({ settled: 1 })],
  ['wrong_type', 'state.steps', 'an object', resume({ steps: 3 })],
  ['out_of_range', 'state.last', 'from -1000000000 to 1000000000', resume({ last: 1000000001 })],
  ['out_of_range', 'state.since', 'from -1000000000 to 1000000000', resume({ since: -1000000001 })],
  ['out_of_range', 'state.level', '0, or an amount from 1e-60 to 1e60', resume({ level: 1e61 })],
  ['out_of_range', 'state.ring', 'at most 63 days', resume({ ring: Array<number>(64).fill(17) })],
  ['wrong_type', 'state.ring', 'an array of numbers and nulls', resume({ ring: null })],
  ['out_of_range', 'state.ring', 'begin and end with a value', resume({ ring: [null, 17] })],
  ['out_of_range', 'state.ring', 'begin and end with a value', resume({ ring: [17, null] })],
  ['out_of_range', 'state.ring', 'days that begin and end with a value', resume({ last: null })],
  ['out_of_range', 'state.ring', 'days that begin and end with a value', resume({ since: null })],
  ['out_of_range', 'state.steps.count', 'from 0 to 150', resume({ steps: { count: 151, square: 0 } })],
  ['negative', 'state.steps.square', 'a number', resume({ steps: { count: 1, square: -1 } })],
  ['wrong_type', 'state.ring', 'an array', advance({ day: 63, value: 17 }, { ...started, ring: 'none' })],
  ['wrong_type', 'input.relearn', 'true, or left out', advance({ day: 63, relearn: false })],
  ['unknown_option', 'input.value', 'no value beside relearn', advance({ day: 63, relearn: true, value: 17 })],
  ['out_of_range', 'input.day', 'from -1000000000 to 1000000000', advance({ day: 1000000001, value: 17 })],
  ['out_of_range', 'input.day', 'above 62', advance({ day: 62, value: 17 })],
];

test.each(cases)('%s: %s, %s', expectRefused);

test('what lies on the bound is taken', () => {
  expect(mannKendall(ten, { correction: 'yue_wang', lags: 9 }).independence).toBe('yue_wang');
  expect(mannKendall([1, 3, 2, 4], { correction: 'hamed_rao', lags: 1 }).n).toBe(4);
  expect(autocorrelatedTrend([17, null, 18], { confidence: 0.5, leastCorrelation: 0.99 }).n).toBe(2);
  expect(autocorrelatedTrend(ten, { confidence: 0.9999, leastCorrelation: 0 }).n).toBe(10);
  const bounds = { last: 1000000000, since: -1000000000, level: null, ring: Array<number>(63).fill(17) };
  // a list of its own
  const ring = [17, 18];
  expect(resumeChange({ ...started, ring, last: 1, since: 0 }).ring).not.toBe(ring);
  expect(resumeChange({ ...started, ...bounds, steps: { count: 150, square: 0 } }).ring).toHaveLength(63);
  expect(resumeChange({ ...startChange(), last: -1000000000 })).toMatchObject({ last: -1000000000, ring: [] });
  expect(advance({ day: 1000000000, value: 17 })().state.last).toBe(1000000000);
});
