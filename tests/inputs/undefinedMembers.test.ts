/** A member that is undefined counts as left out: for the types, at run time and in fingerprints. */
import { expect, test } from 'vitest';
import {
  type AcceptanceConfig,
  type AcceptanceReading,
  advanceAcceptance,
  prepareAcceptance,
  startAcceptance,
} from '../../src/acceptance/index.ts';
import { type AlarmConfig, type AlarmInput, advanceAlarm, prepareAlarm, startAlarm } from '../../src/alarm/index.ts';
import { codeUncertainty, iso4406, type MeasurementErrors } from '../../src/codes/index.ts';
import { cumulativeCounts } from '../../src/counts/index.ts';
import { type RollUpReading, rollUp } from '../../src/history/index.ts';
import { type MonitorConfig, prepareMonitor } from '../../src/monitor/index.ts';
import { assessReading, defaultReadingLimits, type OwnReadingLimits } from '../../src/reading/index.ts';
import { type ReportReading, reportRows, sampleSheet } from '../../src/report/index.ts';

const none = undefined;

test('of an alarm', () => {
  const least = { id: 'hot', type: 'high', setpoint: 65 } as const;
  const alarm: AlarmConfig = {
    ...least,
    ...{ priority: none, deadband: none, onDelayMs: none, offDelayMs: none, latching: none, longestShelfMs: none },
    ...{ staleAfterMs: none, reAlarmAfterMs: none, chattering: none, suppressedInModes: none, note: none },
    withinMs: none,
  };
  expect(prepareAlarm(alarm)).toEqual(prepareAlarm(least));
});

test('of a monitor, with its codes, alarms and followed figures', () => {
  const figure = { quantity: 'celsius' } as const;
  const hot = { id: 'hot', type: 'high', setpoint: 65, figure } as const;
  const least: MonitorConfig = { codes: [{ table: iso4406 }], alarms: [hot], follow: [{ id: 'warmth', figure }] };
  const config: MonitorConfig = {
    codes: [{ table: iso4406, target: none, columns: none, errors: none }],
    alarms: [{ ...hot, deadband: none }],
    follow: [{ id: 'warmth', figure, blockMs: none, blocks: none, least: none, season: none, resolution: none }],
    ...{ tables: none, limits: none, staleAfterMs: none, clockJumpMs: none, maxStateBytes: none, restoredAfter: none },
    tell: none,
  };
  const { configuration, print, ...rest } = prepareMonitor(config);
  expect(rest).toEqual(expect.objectContaining(JSON.parse(JSON.stringify(rest))));
  expect([configuration, print]).toEqual([prepareMonitor(least).configuration, prepareMonitor(least).print]);
});

test('of a proof', () => {
  const least: AcceptanceConfig = { table: iso4406, target: '18/16/13', readings: 3 };
  const config: AcceptanceConfig = {
    ...least,
    ...{ tables: none, columns: none, leastMs: none, leastLitres: none, maxGapMs: none, limits: none },
    mostLitresPerMin: none,
  };
  const prepared = prepareAcceptance(config);
  expect(prepared).toEqual(prepareAcceptance(least));
  const reading: AcceptanceReading = { time: 0, celsius: 40, litres: none };
  const { litres: _litres, ...bare } = reading;
  const advanced = (one: AcceptanceReading) => advanceAcceptance(prepared, startAcceptance(prepared), one);
  expect(advanced(reading)).toEqual(advanced(bare));
});

test('of limits, each of them and the qualities of each finding', () => {
  const names = Object.keys(defaultReadingLimits) as (keyof OwnReadingLimits)[];
  const limits: OwnReadingLimits = {
    ...Object.fromEntries(names.map((name) => [name, none])),
    ...{ mlPerMin: none, leastKPa: none, countedShare: none, settleMs: none, plausibleKPa: none, qualities: none },
  };
  const reading = { celsius: 300, mlPerMin: 0, counts: cumulativeCounts({ 4: 18, 6: 4 }, { volumeMl: 10 }) };
  expect(assessReading(reading, limits)).toEqual(assessReading(reading));
  const qualities: OwnReadingLimits = { qualities: { no_flow: none } };
  expect(assessReading(reading, qualities)).toEqual(assessReading(reading));
});

test('of the errors of a measurement', () => {
  const errors: MeasurementErrors = {
    ...{ volume: none, flow: none, sizing: none, certificate: none, coincidence: none, sampling: none, slope: none },
  };
  const counts = cumulativeCounts({ 4: 18900, 6: 4020, 14: 330 }, { volumeMl: 10 });
  expect(codeUncertainty(iso4406, counts, errors)).toEqual(codeUncertainty(iso4406, counts));
  const sheet = (by: MeasurementErrors) => sampleSheet(counts, { errors: by, target: '18/16/13' });
  expect(sheet(errors)).toEqual(sheet({}));
});

test('of an input of an alarm', () => {
  const prepared = prepareAlarm({ id: 'hot', type: 'high', setpoint: 65 });
  const advanced = (input: AlarmInput) => advanceAlarm(prepared, startAlarm(prepared), input);
  const shelve = { kind: 'command', command: 'shelve', time: 1, forMs: 60000 } as const;
  expect(advanced({ ...shelve, oneShot: none, by: none, why: none })).toEqual(advanced(shelve));
  const reading = { time: 1, value: 70 };
  expect(advanced({ ...reading, quality: none, mode: none })).toEqual(advanced(reading));
  expect(advanced({ kind: 'tick', time: 1, mode: none })).toEqual(advanced({ kind: 'tick', time: 1 }));
});

test('of the readings of a roll-up and of a report', () => {
  const least = { time: 0, value: 6 };
  const reading: RollUpReading = { ...least, quality: none, scaleNumbers: none, counted: none, volumeMl: none };
  const options = { widthMs: 1000, holdMs: 1000 };
  expect(rollUp([reading], options)).toEqual(rollUp([least], options));
  const sample = { time: 0, counts: cumulativeCounts({ 4: 1890, 6: 402, 14: 33 }) };
  const row: ReportReading = { ...sample, quality: none, figureQualities: none, verdict: none, arrival: none };
  expect(reportRows([row])).toEqual(reportRows([sample]));
});
