/** A member of a configuration that is undefined counts as left out: for the types, at run time and in fingerprints. */
import { expect, test } from 'vitest';
import { type AcceptanceConfig, prepareAcceptance } from '../../src/acceptance/index.ts';
import { type AlarmConfig, prepareAlarm } from '../../src/alarm/index.ts';
import { iso4406 } from '../../src/codes/index.ts';
import { type MonitorConfig, prepareMonitor } from '../../src/monitor/index.ts';

const none = undefined;

test('of an alarm', () => {
  const least = { id: 'hot', type: 'high', setpoint: 65 } as const;
  const alarm: AlarmConfig = {
    ...least,
    ...{ priority: none, deadband: none, onDelayMs: none, offDelayMs: none, latching: none, longestShelfMs: none },
    ...{ staleAfterMs: none, reAlarmAfterMs: none, chattering: none, suppressedInModes: none, note: none },
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
    ...{ tables: none, limits: none, staleAfterMs: none, clockJumpMs: none, maxStateBytes: none },
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
  };
  expect(prepareAcceptance(config)).toEqual(prepareAcceptance(least));
});
