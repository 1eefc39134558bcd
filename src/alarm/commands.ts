/**
 * What an operator does to an alarm: acknowledge, reset, shelve for a time, take out of service. A command out of place is refused, and said so.
 */
import { requireOneOf } from '../checks.ts';
import { motescaleError } from '../errors.ts';
import { requireSpan } from '../state/time.ts';
import { alarmDefaults } from './config.ts';
import { type Draft, endShelf, endSilence } from './silence.ts';
import type { AlarmCommand, AlarmConfig, AlarmEvent } from './types.ts';

/** Carries the command out on the draft as of a time, or adds an event that refuses it. */
export function takeCommand(
  config: AlarmConfig,
  draft: Draft,
  input: AlarmCommand,
  time: number,
  events: AlarmEvent[],
): void {
  const done = (event: AlarmEvent['event']) => events.push({ time, alarm: config.id, event });
  const refuse = (reason: string) => events.push({ time, alarm: config.id, event: 'refused', reason });
  switch (input.command) {
    case 'acknowledge':
      if (draft.acknowledged) {
        refuse('nothing to acknowledge');
      } else {
        draft.acknowledged = true;
        done('acknowledged');
      }
      return;
    case 'reset':
      if (draft.latched) {
        draft.latched = false;
        done('reset');
      } else {
        refuse(draft.active ? 'the condition still stands' : 'not latched');
      }
      return;
    case 'shelve':
      shelve(config, draft, input, time, events);
      return;
    case 'unshelve':
      if (draft.shelf === null) refuse('not shelved');
      else endShelf(config, draft, time, events);
      return;
    case 'remove_from_service':
      if (draft.outOfService) {
        refuse('already out of service');
      } else {
        draft.outOfService = true;
        done('removed_from_service');
      }
      return;
    case 'return_to_service':
      if (draft.outOfService) {
        draft.outOfService = false;
        endSilence(config, draft, 'returned_to_service', time, events);
      } else {
        refuse('not out of service');
      }
      return;
    default:
      requireOneOf((input as { command: unknown }).command, 'input.command', commands);
  }
}

const commands: readonly string[] = [
  'acknowledge',
  'reset',
  'shelve',
  'unshelve',
  'remove_from_service',
  'return_to_service',
];

function shelve(
  config: AlarmConfig,
  draft: Draft,
  input: AlarmCommand & { command: 'shelve' },
  time: number,
  events: AlarmEvent[],
): void {
  const { oneShot } = input;
  const forMs = requireSpan(input.forMs, 'input.forMs', 1);
  if (oneShot !== undefined && typeof oneShot !== 'boolean')
    throw motescaleError('wrong_type', 'input.oneShot', oneShot, 'true or false');
  const longest = config.longestShelfMs ?? alarmDefaults.longestShelfMs;
  if (forMs > longest) {
    events.push({ time, alarm: config.id, event: 'refused', reason: `longer than ${longest} ms` });
    return;
  }
  draft.shelf = { until: time + forMs, oneShot: oneShot === true };
  events.push({ time, alarm: config.id, event: 'shelved', until: time + forMs });
}
