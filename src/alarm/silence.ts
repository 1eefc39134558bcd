/**
 * What an alarm tells and when it is silent: shelved or out of service it is tracked all the same, and tells afterwards how things stand.
 */
import type { AlarmConfig, AlarmEvent, AlarmState } from './types.ts';

/** A state while it is being worked on. */
export type Draft = { -readonly [Key in keyof AlarmState]: AlarmState[Key] };

/** Shelved or out of service: what happens is tracked and not announced. */
export function isSilent(draft: AlarmState): boolean {
  return draft.shelf !== null || draft.outOfService;
}

/** Ends shelving, and tells how things stand. */
export function endShelf(config: AlarmConfig, draft: Draft, time: number, events: AlarmEvent[]): void {
  draft.shelf = null;
  endSilence(config, draft, 'unshelved', time, events);
}

/** Says that one silence has ended, and, if it was the last, everything that stands or has ended meanwhile. */
export function endSilence(
  config: AlarmConfig,
  draft: Draft,
  event: 'unshelved' | 'returned_to_service',
  time: number,
  events: AlarmEvent[],
): void {
  if (isSilent(draft)) {
    events.push({ time, alarm: config.id, event });
    return;
  }
  const before = draft.announced;
  events.push({ time, alarm: config.id, event, silentRaises: draft.silentRaises });
  draft.silentRaises = 0;
  const standing = { time, standing: true as const };
  if (draft.stale || before.stale) announce(config, draft, 'stale', draft.stale, standing, events);
  const shown = withValue(draft, standing);
  if (draft.active || draft.latched) announce(config, draft, 'active', true, shown, events);
  if (!draft.active && (draft.latched || before.active)) announce(config, draft, 'active', false, shown, events);
  if (draft.chattering || before.chattering) announce(config, draft, 'chattering', draft.chattering, standing, events);
}

const words = {
  active: ['returned', 'raised'],
  stale: ['signal_restored', 'signal_stale'],
  chattering: ['chattering_ended', 'chattering'],
} as const;

/** Tells one of three things, unless silent. */
export function announce(
  config: AlarmConfig,
  draft: Draft,
  what: 'active' | 'stale' | 'chattering',
  on: boolean,
  details: { time: number; value?: number; standing?: true },
  events: AlarmEvent[],
): void {
  if (isSilent(draft)) return;
  draft.announced = { ...draft.announced, [what]: on };
  const event: AlarmEvent = { alarm: config.id, event: words[what][on ? 1 : 0], ...details };
  events.push(what === 'active' && !on && draft.latched ? { ...event, latched: true } : event);
}

/** The figure beside what is told, if one has been read. */
export function withValue<Details extends object>(draft: AlarmState, details: Details): Details & { value?: number } {
  return draft.value === null ? details : { ...details, value: draft.value };
}
