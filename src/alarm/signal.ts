/**
 * What a reading does to an alarm: setpoint, deadband and delays; and what the passing of time does: a shelf that ends, a signal gone stale.
 */
import { subtractDecimals } from '../numeric/decimal.ts';
import { alarmDefaults, isRateOfChange } from './config.ts';
import { announce, type Draft, endShelf, isSilent, withValue } from './silence.ts';
import type { AlarmConfig, AlarmEvent, AlarmState } from './types.ts';

/** Whether a figure by itself lies beyond the setpoint; never so for a rate of change, which takes more than one. */
export function isBeyondSetpoint(config: AlarmConfig, figure: number): boolean {
  return config.type === 'high' ? figure > config.setpoint : config.type === 'low' && figure < config.setpoint;
}

/** A reading that can be trusted: it alone raises and clears. */
export function takeGoodReading(
  config: AlarmConfig,
  draft: Draft,
  value: number,
  time: number,
  events: AlarmEvent[],
): void {
  draft.heard = time;
  if (draft.stale) {
    draft.stale = false;
    announce(config, draft, 'stale', false, { time }, events);
  }
  const sign = config.type === 'high' || config.type === 'rise' ? 1 : -1;
  const limit = isRateOfChange(config) ? config.setpoint : sign * config.setpoint;
  const figure = isRateOfChange(config) ? change(config, draft, sign * value + 0, time) : sign * value;
  draft.value = isRateOfChange(config) ? figure : value;
  const beyond = isRateOfChange(config) ? figure >= limit : figure > limit;
  const back = figure < subtractDecimals(limit, config.deadband ?? 0);
  if (!(draft.active ? back : beyond)) {
    draft.pending = null;
    return;
  }
  if (draft.pending === null) draft.pending = time;
  const onDelay = config.onDelayMs ?? 0;
  if (time - draft.pending < (draft.active ? (config.offDelayMs ?? onDelay) : onDelay)) return;
  draft.pending = null;
  draft.changed = time;
  if (draft.active) returnToNormal(config, draft, time, events);
  else raise(config, draft, time, events);
}

function raise(config: AlarmConfig, draft: Draft, time: number, events: AlarmEvent[]): void {
  draft.active = true;
  draft.latched = false;
  draft.acknowledged = false;
  if (isSilent(draft)) draft.silentRaises += 1;
  announce(config, draft, 'active', true, withValue(draft, { time }), events);
  const { raises, withinMs } = config.chattering ?? alarmDefaults.chattering;
  draft.raises = draft.raises.concat(time).slice(-raises);
  if (draft.raises.length === raises && time - (draft.raises[0] as number) <= withinMs && !draft.chattering) {
    draft.chattering = true;
    announce(config, draft, 'chattering', true, { time }, events);
  }
}

function returnToNormal(config: AlarmConfig, draft: Draft, time: number, events: AlarmEvent[]): void {
  draft.active = false;
  draft.latched = config.latching === true;
  announce(config, draft, 'active', false, withValue(draft, { time }), events);
  if (draft.shelf?.oneShot) endShelf(config, draft, time, events);
}

/** How far the figure has risen above the lowest of the time looked back over (or, with its sign turned, fallen). */
function change(config: AlarmConfig, draft: Draft, figure: number, time: number): number {
  const part = Math.floor((time * 24) / (config.withinMs as number));
  const kept = draft.extremes.filter(([at, extreme]) => at >= part - 24 && extreme < figure);
  const last = kept[kept.length - 1];
  if (last === undefined || last[0] < part) kept.push([part, figure]);
  draft.extremes = kept;
  return subtractDecimals(figure, (kept[0] as readonly [number, number])[1]);
}

/** Brings the alarm to a time: everything that fell due on the way happens at its own time, in order. */
export function passTime(config: AlarmConfig, draft: Draft, time: number, events: AlarmEvent[]): void {
  if (draft.heard === null) draft.heard = time;
  for (;;) {
    const shelfEnd = draft.shelf === null ? Infinity : draft.shelf.until;
    const staleFrom = draft.stale || config.staleAfterMs === undefined ? Infinity : draft.heard + config.staleAfterMs;
    const quietFrom = draft.chattering ? chatteringEnd(config, draft) : Infinity;
    const next = Math.min(shelfEnd, staleFrom, quietFrom);
    // At the very millisecond a shelf has ended; a signal is stale, and chattering over, only after it.
    if (next > time || (next === time && shelfEnd > time)) return;
    if (shelfEnd === next) {
      endShelf(config, draft, shelfEnd, events);
    } else if (staleFrom === next) {
      draft.stale = true;
      draft.pending = null;
      announce(config, draft, 'stale', true, { time: staleFrom }, events);
    } else {
      draft.chattering = false;
      announce(config, draft, 'chattering', false, { time: quietFrom }, events);
    }
  }
}

function chatteringEnd(config: AlarmConfig, draft: AlarmState): number {
  return (draft.raises[draft.raises.length - 1] as number) + (config.chattering ?? alarmDefaults.chattering).withinMs;
}
