/** The members that an event of an alarm may have: where one is handed back, a member of another name is a mistake. */
import type { AlarmEvent } from './types.ts';

/** Also the id that `advanceUnit` gives an event. The compiler sees to it that none is forgotten. */
export const alarmEventMembers: Readonly<Record<keyof AlarmEvent | 'id', true>> = {
  id: true,
  time: true,
  taken: true,
  alarm: true,
  event: true,
  value: true,
  type: true,
  withinMs: true,
  setpoint: true,
  priority: true,
  figure: true,
  code: true,
  note: true,
  times: true,
  latched: true,
  standing: true,
  silentRaises: true,
  from: true,
  to: true,
  until: true,
  mode: true,
  since: true,
  state: true,
  reason: true,
  limit: true,
  by: true,
  why: true,
};
