/** Every way a trend function can be asked wrongly, and the error that says so. */
import { expect, test } from 'vitest';
import { isMotescaleError } from '../../../src/errors.ts';
import { mergeRollUps, rollUp } from '../../../src/history/rollUp.ts';
import { rollUpWidth, scaleNumberQuantile } from '../../../src/history/rollUpWidth.ts';
import { cusum } from '../../../src/trend/cusum.ts';
import { ewma } from '../../../src/trend/ewma.ts';
import { forecastCrossing } from '../../../src/trend/forecastCrossing.ts';
import { mannKendall } from '../../../src/trend/mannKendall.ts';
import { seasonalKendall } from '../../../src/trend/seasonalKendall.ts';
import { senSlope } from '../../../src/trend/senSlope.ts';

const ten = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10];
const wrong = (value: unknown) => value as never;
const how = { widthMs: 100, holdMs: 50 };
const at = (time: number) => ({ time, value: 1 });
const bucket = () => rollUp([at(0), at(10)], how)[0] as ReturnType<typeof rollUp>[number];

/** Three buckets, a reading in each. */
const three = () => rollUp([at(0), at(100), at(200)], how);
/** The three, with one of them changed. */
const with1 = (i: number, change: object) => three().map((b, k) => (k === i ? { ...b, ...change } : b));

const cases: [string, string, () => unknown][] = [
  ['wrong_type', 'values', () => mannKendall(wrong('1, 2'))],
  ['empty', 'values', () => mannKendall([])],
  ['too_few', 'values', () => mannKendall([1])],
  ['not_a_number', 'values[1]', () => mannKendall([1, Number.NaN])],
  ['infinite', 'values[0]', () => mannKendall([Number.POSITIVE_INFINITY, 1])],
  ['out_of_range', 'values[0]', () => mannKendall([1e61, 1])],
  ['out_of_range', 'values[1]', () => senSlope([1, 2], [1, 1e-61])],
  ['out_of_range', 'values', () => mannKendall(Array<number>(300001).fill(1))],
  ['length_mismatch', 'values', () => mannKendall(ten, { times: [1, 2] })],
  ['unknown_option', 'options.method', () => mannKendall(ten, { method: wrong('quick') })],
  ['out_of_range', 'options.method', () => mannKendall([...ten, ...ten], { method: 'exact' })],
  ['out_of_range', 'options.method', () => mannKendall(ten, { times: ten.map(() => 1), method: 'exact' })],
  ['wrong_type', 'options', () => mannKendall(ten, wrong(null))],
  ['length_mismatch', 'values', () => senSlope(ten, [1, 2])],
  ['too_few', 'times', () => senSlope([3, 3, 3], [1, 2, 3])],
  ['out_of_range', 'options.confidence', () => senSlope(ten, ten, { confidence: 95 })],
  ['too_few', 'times', () => seasonalKendall([0, 3600000], [1, 2])],
  ['not_an_integer', 'options.seasons', () => seasonalKendall(ten, ten, { seasons: 1.5 })],
  ['out_of_range', 'options.seasons', () => seasonalKendall(ten, ten, { seasons: 0 })],
  ['out_of_range', 'options.period', () => seasonalKendall(ten, ten, { period: 0 })],
  ['too_few', 'times', () => forecastCrossing([1, 2, 3], [1, 2, 3], { level: 4 })],
  ['wrong_type', 'options.level', () => forecastCrossing(ten, ten, wrong({}))],
  ['unknown_option', 'options.direction', () => forecastCrossing(ten, ten, { level: 12, direction: wrong('up') })],
  ['out_of_range', 'options.level', () => forecastCrossing(ten, ten, { level: 1e300 })],
  ['out_of_range', 'options.confidence', () => forecastCrossing(ten, ten, { level: 12, confidence: 95 })],
  ['out_of_range', 'times[9]', () => forecastCrossing([...ten.slice(0, 9), 1e8 + 1], ten, { level: 12 })],
  ['out_of_range', 'times[0]', () => forecastCrossing([-1e8 - 1, ...ten.slice(1)], ten, { level: 12 })],
  ['out_of_range', 'options.lambda', () => ewma([1], { lambda: 1.1, start: 0 })],
  ['out_of_range', 'options.sigma', () => ewma([1], { lambda: 1, start: 0, sigma: 1e308 })],
  ['out_of_range', 'options.lambda', () => ewma([1], { lambda: 0, start: 0 })],
  ['negative', 'options.sigma', () => ewma([1], { lambda: 0.2, start: 0, sigma: -1 })],
  ['unknown_option', 'options.limits', () => ewma([1], { lambda: 0.2, start: 0, sigma: 1, limits: wrong('wide') })],
  ['empty', 'values', () => ewma([], { lambda: 0.2, start: 0 })],
  ['infinite', 'values', () => cusum([1.7e308, 1.7e308], { target: -1.7e308, slack: 0, decision: 1 })],
  ['negative', 'options.slack', () => cusum([1], { target: 0, slack: -1, decision: 1 })],
  ['out_of_range', 'options.decision', () => cusum([1], { target: 0, slack: 0, decision: 0 })],
  ['negative', 'options.from.low', () => cusum([1], { target: 0, slack: 0, decision: 1, from: { high: 0, low: -1 } })],
  ['wrong_type', 'readings', () => rollUp(wrong({}), how)],
  ['wrong_type', 'readings[0]', () => rollUp([wrong(7)], how)],
  ['not_an_integer', 'readings[0].time', () => rollUp([at(0.5)], how)],
  ['out_of_range', 'readings[1].time', () => rollUp([at(5), at(4)], how)],
  ['out_of_range', 'readings[0].time', () => rollUp([at(5e15)], how)],
  ['wrong_type', 'readings[0].value', () => rollUp([wrong({ time: 0 })], how)],
  ['out_of_range', 'readings[0].value', () => rollUp([{ time: 0, value: 1e-61 }], how)],
  ['unknown_option', 'readings[0].quality', () => rollUp([{ ...at(0), quality: wrong('fair') }], how)],
  ['wrong_type', 'readings[0].scaleNumbers', () => rollUp([{ ...at(0), scaleNumbers: wrong('18/16') }], how)],
  ['out_of_range', 'readings[0].scaleNumbers[0]', () => rollUp([{ ...at(0), scaleNumbers: [30] }], how)],
  [
    'length_mismatch',
    'readings[1].scaleNumbers',
    () =>
      rollUp(
        [
          { ...at(0), scaleNumbers: [1] },
          { ...at(1), scaleNumbers: [1, 2] },
        ],
        how,
      ),
  ],
  [
    'length_mismatch',
    'readings[1].scaleNumbers',
    () =>
      rollUp(
        [
          { ...at(0), scaleNumbers: [4, 5] },
          { ...at(100), scaleNumbers: [5] },
        ],
        how,
      ),
  ],
  [
    'length_mismatch',
    'later',
    () =>
      mergeRollUps(
        rollUp([{ ...at(0), scaleNumbers: [4, 5] }], how),
        rollUp([{ ...at(100), scaleNumbers: [5] }], how),
        how,
      ),
  ],
  ['wrong_type', 'readings[0]', () => rollUp(new Array(1), how)],
  ['out_of_range', 'options.widthMs', () => rollUp([at(0)], { widthMs: 0, holdMs: 1 })],
  ['not_an_integer', 'options.holdMs', () => rollUp([at(0)], { widthMs: 1, holdMs: 1.5 })],
  ['out_of_range', 'options.widthMs', () => rollUp([at(0), at(1e9)], { widthMs: 1, holdMs: 1 })],
  [
    'not_convertible',
    'later[0]',
    () =>
      mergeRollUps(
        [bucket()],
        [bucket()].map((b) => ({ ...b, widthMs: b.widthMs + 50 })),
        how,
      ),
  ],
  ['not_convertible', 'earlier[0]', () => mergeRollUps([bucket()], [], { ...how, originMs: 3 })],
  ['out_of_range', 'later', () => mergeRollUps([bucket()], [bucket()], how)],
  ['bad_state', 'earlier[0]', () => mergeRollUps([{ ...bucket(), last: null }], [], how)],
  ['bad_state', 'earlier[0]', () => mergeRollUps(with1(0, { firstTime: null }), [], how)],
  ['bad_state', 'earlier[1]', () => mergeRollUps(with1(1, { count: -1 }), [], how)],
  ['bad_state', 'later[1]', () => mergeRollUps([], with1(1, { goodShare: wrong('all') }), how)],
  ['bad_state', 'earlier[2]', () => mergeRollUps(with1(2, { worst: wrong(['18']) }), [], how)],
  ['bad_state', 'earlier[2]', () => mergeRollUps(with1(2, { last: null }), [], how)],
  ['wrong_type', 'earlier[1]', () => mergeRollUps([three()[0] as never, wrong(null), three()[2] as never], [], how)],
  ['not_convertible', 'earlier[1]', () => mergeRollUps(with1(1, { start: 150 }), [], how)],
  ['not_convertible', 'later[2]', () => mergeRollUps([], with1(2, { widthMs: 150 }), how)],
  // one bucket is missing, one stands twice, and they stand in another order
  ['bad_state', 'earlier[1]', () => mergeRollUps([three()[0], three()[2]] as never, [], how)],
  ['bad_state', 'earlier[2]', () => mergeRollUps([three()[0], three()[1], three()[1]] as never, [], how)],
  ['bad_state', 'earlier[1]', () => mergeRollUps(three().reverse(), [], how)],
  ['bad_state', 'later[0]', () => mergeRollUps([], [{ ...bucket(), weighted: wrong(undefined) }], how)],
  ['bad_state', 'bucket', () => scaleNumberQuantile(wrong({}), 0, 0.5)],
  ['bad_state', 'bucket', () => scaleNumberQuantile({ ...bucket(), spent: wrong([null]) }, 0, 0.5)],
  ['bad_state', 'bucket', () => scaleNumberQuantile({ ...bucket(), spent: wrong([[null]]) }, 0, 0.5)],
  ['out_of_range', 'spanMs', () => rollUpWidth(1000, 100)],
  ['out_of_range', 'points', () => rollUpWidth(1e8, 1)],
  ['out_of_range', 'column', () => scaleNumberQuantile(bucket(), 0, 0.5)],
  [
    'no_answer',
    'bucket',
    () => scaleNumberQuantile(rollUp([{ ...at(0), scaleNumbers: [3] }], how)[0] as never, 0, 0.5),
  ],
];

test.each(cases)('%s: %s', (code, parameter, ask) => {
  let thrown: unknown;
  try {
    ask();
  } catch (error) {
    thrown = error;
  }
  expect(isMotescaleError(thrown) && [thrown.code, thrown.parameter]).toEqual([code, parameter]);
});
