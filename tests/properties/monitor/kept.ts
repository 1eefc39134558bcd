/**
 * What must be kept whatever goes wrong: an alarm that was acknowledged, one that is latched, one on a shelf; and one
 * to be judged.
 */
import type { MonitorConfig } from '../../../src/monitor/index.ts';

export const minute = 60000;
export const hour: number = 60 * minute;
export const day: number = 24 * hour;
export const begin = 1.8e12;

type Alarms = NonNullable<MonitorConfig['alarms']>;

export const oneToJudge: Alarms[number] = {
  id: 'judged',
  type: 'high',
  figure: { other: 'd' },
  setpoint: 5,
  deadband: 1,
};

export const kept: Alarms = [
  { id: 'acknowledged', type: 'high', figure: { other: 'a' }, setpoint: 5 },
  { id: 'latched', type: 'high', figure: { other: 'b' }, setpoint: 5, latching: true },
  { id: 'shelved', type: 'high', figure: { other: 'a' }, setpoint: 5, longestShelfMs: 1e12 },
];
