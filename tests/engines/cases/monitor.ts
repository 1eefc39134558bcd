/** The walk through monitor/. */
import type { AlarmEvent, AlarmInput } from '../../../src/alarm/index.ts';
import type { RollUpReading } from '../../../src/history/index.ts';
import type { TimedReading } from '../../../src/reading/index.ts';
import { type Next, numbersFrom, spoil } from '../inputs.ts';
import type { Library } from '../recorder.ts';
import { countsBySize } from './counts.ts';

const minute = 60000;
const alarm = {
  id: 'tank oil hot',
  type: 'high',
  setpoint: 65,
  deadband: 3,
  onDelayMs: minute,
  offDelayMs: minute,
  latching: true,
  staleAfterMs: 20 * minute,
  chattering: { raises: 3, withinMs: 60 * minute },
} as const;

export function walk(motescale: Library): void {
  const next = numbersFrom(365);
  for (const type of ['high', 'low', 'rise', 'fall'] as const) walkAlarm(motescale, next, type);
  for (let i = 0; i < 25; i += 1) walkSeries(motescale, next, 3 + i);
  walkMonitor(motescale, next);
  walkRollUps(motescale, next);
  walkOddInputs(motescale);
}

function walkAlarm(motescale: Library, next: Next, type: 'high' | 'low' | 'rise' | 'fall'): void {
  const within = type === 'rise' || type === 'fall' ? { withinMs: 10 * minute, setpoint: 5 } : {};
  const config = { ...alarm, type, ...within };
  const commands = ['acknowledge', 'reset', 'unshelve', 'remove_from_service', 'return_to_service'] as const;
  const prepared = motescale.prepareAlarm(config);
  let state = motescale.startAlarm(prepared);
  for (let i = 0; i < 100; i += 1) {
    const time = i * minute;
    const reading: AlarmInput = { time, value: next(20) === 0 ? null : 55 + next(20), quality: 'good' };
    const command = commands[next(commands.length)] as (typeof commands)[number];
    const commanded: AlarmInput =
      next(3) === 0
        ? { kind: 'command', time, command: 'shelve', forMs: 5 * minute }
        : { kind: 'command', time, command };
    const answer = motescale.advanceAlarm(prepared, state, next(8) === 0 ? commanded : reading);
    if (answer !== undefined) state = answer.state;
    motescale.alarmStateName(state);
  }
}

function walkSeries(motescale: Library, next: Next, length: number): void {
  const values: number[] = [];
  const times: number[] = [];
  for (let i = 0; i < length; i += 1) {
    times.push(8 * 60 * minute * i + next(100));
    values.push(14 + i / 16 + next(24) / 8);
  }
  motescale.mannKendall(values);
  motescale.mannKendall(values, { times, method: 'normal' });
  motescale.senSlope(times, values, { confidence: 0.9 });
  motescale.leastSquaresLine(times, values);
  motescale.autocorrelatedTrend(values);
  motescale.autocorrelatedTrend([...values, null, ...values]);
  motescale.changePoint(values);
  motescale.changePoint([...values, null, ...values.map((value) => value + 2)], { confidence: 0.9 });
  motescale.seasonalKendall(times, values);
  const unitsPerDay = 24 * 60 * minute;
  motescale.forecastCrossing(times, values, { level: 18 });
  motescale.forecastCrossing(times, values, { level: 18, unitsPerDay });
  motescale.forecastCrossing(times, values, { level: 12, direction: 'falling', confidence: 0.8, unitsPerDay });
  let change = motescale.startChange();
  const settings = motescale.prepareChange({ least: 0.25 });
  values.forEach((value, day) => {
    change = motescale.advanceChange(settings, change, { day, value }).state;
    motescale.resumeChange(change);
  });
  motescale.cusum(values, { target: 15, slack: 0.5, decision: 2 });
  motescale.ewma(values, { lambda: 0.25, start: 15, sigma: 0.75, limits: next(2) === 0 ? 'steady' : 'growing' });
}

function walkMonitor(motescale: Library, next: Next): void {
  const { iso4406, nas1638 } = motescale;
  const config = {
    codes: [{ table: iso4406, target: '18/16/13' }, { table: nas1638 }],
    alarms: [
      { ...alarm, figure: { quantity: 'celsius' } },
      { id: 'code', type: 'high', figure: { code: 'iso4406' }, setpoint: '19/17/14' },
      { id: 'scale', type: 'rise', setpoint: 1, withinMs: 60 * minute, figure: { continuousScaleNumberAt: 4 } },
    ],
    follow: [{ id: 'at 6', figure: { perMlAt: 6 }, blockMs: 5 * minute, blocks: 12 }],
    staleAfterMs: 30 * minute,
  } as const;
  const proof = { table: iso4406, target: '20/18/15', readings: 3, leastMs: 4 * minute, maxGapMs: 10 * minute };
  const prepared = motescale.prepareMonitor(config);
  for (const setpoint of [1, NaN]) motescale.problemsOf(setpoint);
  let state = motescale.startMonitor(prepared);
  let unit = motescale.startUnit(prepared, { unit: 'upper gate' });
  const events: AlarmEvent[] = [];
  const proving = motescale.prepareAcceptance(proof);
  let acceptance = motescale.startAcceptance(proving);
  motescale.acceptanceWanting(proving, acceptance);
  for (let i = 0; i < 100; i += 1) {
    const reading: TimedReading = {
      time: (next(12) === 0 ? i - next(10) : i) * minute,
      counts: motescale.cumulativeCounts(countsBySize([4, 6, 14], next, 1), { volumeMl: 10, dilution: 1 }),
      celsius: 55 + next(20),
      kPa: 600 + next(400),
    };
    const answer = motescale.advanceMonitor(prepared, state, reading);
    if (answer !== undefined) state = answer.state;
    motescale.alarmSummary(prepared, state);
    const step = motescale.advanceUnit(prepared, unit, { seq: i + 1, payload: reading });
    if (step !== undefined) {
      unit = step.record;
      for (const event of step.events) if ('alarm' in event) events.push(event);
    }
    const proven = motescale.advanceAcceptance(proving, acceptance, reading);
    if (proven !== undefined) acceptance = proven.state;
    motescale.resumeAcceptance(proving, acceptance);
    for (const event of proven?.events ?? []) motescale.acceptanceText(event);
    motescale.acceptanceSheetText(acceptance.accepted as never, { utcOffsetMinutes: 60 });
  }
  motescale.alarmStatistics(events, { from: 0, to: 100 * minute });
  motescale.resumeMonitor(prepared, state);
}

function walkRollUps(motescale: Library, next: Next): void {
  const options = { widthMs: 15 * minute, holdMs: 4 * minute, levels: true };
  for (let i = 0; i < 20; i += 1) {
    const readings: RollUpReading[] = [];
    for (let j = 0; j < 12; j += 1) {
      readings.push({
        time: j * 5 * minute + next(4 * minute),
        value: next(160) / 8,
        scaleNumbers: [next(24), next(20)],
      });
    }
    const early = motescale.rollUp(readings.slice(0, 6), options);
    motescale.mergeRollUps(early, motescale.rollUp(readings.slice(6), options), options);
    for (const bucket of motescale.rollUp(readings, options)) {
      motescale.scaleNumberQuantile(bucket, 1, 0.75);
      motescale.bucketQuantile(bucket, 0.95);
    }
    motescale.rollUpWidth((1 + next(10000)) * minute, 1 + next(500));
  }
}

function walkOddInputs(motescale: Library): void {
  const { iso4406 } = motescale;
  const counts = { sizing: 'iso11171', sizes: [4, 6, 14], perMl: [1890, 402, 33] };
  const reading = { time: 0, counts, kPa: 800 };
  const config = { codes: [{ table: iso4406, target: '18/16/13' }], alarms: [], follow: [], staleAfterMs: minute };
  const proof = { table: iso4406, target: '18/16/13', readings: 2, leastMs: 0, leastLitres: 0, maxGapMs: minute };
  const times = [0, 1, 2, 3, 4, 5];
  const values = [15, 15.25, 15, 15.5, 15.75, 16];
  const options = { widthMs: 15 * minute, holdMs: 4 * minute, originMs: 0 };
  spoil(motescale.prepareAlarm, [alarm]);
  const one = motescale.prepareAlarm(alarm);
  spoil(
    (input: AlarmInput) => motescale.advanceAlarm(one, motescale.startAlarm(one), input),
    [{ time: 0, value: 66, quality: 'good' }],
  );
  spoil((state: unknown) => motescale.resumeAlarm(one, state), [motescale.startAlarm(one)]);
  spoil(motescale.alarmStatistics, [[{ time: 0, alarm: 'hot', event: 'raised' }], { from: 0, to: 1 }]);
  spoil(motescale.prepareMonitor, [config]);
  const prepared = motescale.prepareMonitor(config as never);
  const state = motescale.startMonitor(prepared);
  spoil((input: TimedReading) => motescale.advanceMonitor(prepared, state, input), [reading]);
  spoil((saved: unknown) => motescale.resumeMonitor(prepared, saved), [state]);
  const unit = motescale.startUnit(prepared, { unit: 'upper gate' });
  spoil(
    (input: { seq: number; payload: TimedReading }) => motescale.advanceUnit(prepared, unit, input),
    [{ seq: 1, payload: reading }],
  );
  const proving = motescale.prepareAcceptance(proof);
  const proven = motescale.startAcceptance(proving);
  spoil(motescale.prepareAcceptance, [proof]);
  spoil(motescale.startAcceptance, [proving]);
  spoil(motescale.acceptanceWanting, [proving, proven]);
  spoil(motescale.resumeAcceptance, [proving, proven]);
  spoil(motescale.advanceAcceptance, [proving, proven, reading]);
  spoil(motescale.changePoint, [values, { confidence: 0.9 }]);
  spoil(motescale.mannKendall, [values, { times, method: 'exact' }]);
  spoil(motescale.senSlope, [times, values, { confidence: 0.9 }]);
  spoil(motescale.leastSquaresLine, [times, values]);
  spoil(motescale.seasonalKendall, [times, values, { period: 4, seasons: 2, offset: 0, confidence: 0.9 }]);
  spoil(motescale.forecastCrossing, [times, values, { level: 18, direction: 'rising', confidence: 0.9 }]);
  spoil(motescale.cusum, [values, { target: 15, slack: 0.5, decision: 2, from: { high: 0, low: 0 } }]);
  spoil(motescale.ewma, [values, { lambda: 0.25, start: 15, sigma: 1, width: 3, limits: 'steady' }]);
  spoil(motescale.rollUp, [[{ time: 0, value: 16 }], options]);
  spoil(motescale.mergeRollUps, [[], [], options]);
  spoil(motescale.rollUpWidth, [24 * 60 * minute, 120]);
  spoil(motescale.scaleNumberQuantile, [{}, 0, 0.75]);
  spoil(motescale.bucketQuantile, [{}, 0.75]);
}
