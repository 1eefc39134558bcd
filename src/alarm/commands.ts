/**
 * What an operator does to an alarm: acknowledge, reset, shelve for a time, take out of service. A command out of place
 * is refused, and said so.
 */
import type { Draft } from './memory.ts';
import { beginSilence, endShelf, endSilence } from './silence.ts';
import type { AlarmCommand, AlarmEvent, AlarmPlan, AlarmRefusal } from './types.ts';

/** Carries a command that has been checked out on the draft as of a time, or adds an event that refuses it. */
export function takeCommand(
  plan: AlarmPlan,
  draft: Draft,
  input: AlarmCommand,
  time: number,
  events: AlarmEvent[],
): void {
  const { by, why } = input;
  const who = { ...(by === undefined ? {} : { by }), ...(why === undefined ? {} : { why }) };
  const alarm = plan.id;
  const done = (event: AlarmEvent['event'], more?: object) => events.push({ time, alarm, event, ...more, ...who });
  const refuse = (reason: AlarmRefusal, more?: object) => done('refused', { reason, ...more });
  switch (input.command) {
    case 'acknowledge':
      if (!draft.unacknowledged) {
        refuse('nothing_to_acknowledge');
        return;
      }
      draft.unacknowledged = false;
      done('acknowledged');
      return;
    case 'reset':
      if (!draft.latched) {
        refuse(draft.active ? 'condition_stands' : 'not_latched');
        return;
      }
      draft.latched = false;
      done('reset');
      return;
    case 'shelve': {
      const { forMs, oneShot } = input;
      if (forMs > plan.longestShelfMs) {
        refuse('longer_than_allowed', { limit: plan.longestShelfMs });
        return;
      }
      beginSilence(draft);
      draft.shelf = oneShot === true ? { until: time + forMs, oneShot } : { until: time + forMs };
      done('shelved', { until: time + forMs });
      return;
    }
    case 'unshelve':
      if (draft.shelf === null) refuse('not_shelved');
      else endShelf(plan, draft, time, events, who);
      return;
    case 'remove_from_service':
      if (draft.outOfService) {
        refuse('already_out_of_service');
        return;
      }
      beginSilence(draft);
      draft.outOfService = true;
      done('removed_from_service');
      return;
    default:
      if (!draft.outOfService) {
        refuse('not_out_of_service');
        return;
      }
      draft.outOfService = false;
      endSilence(plan, draft, 'returned_to_service', time, events, who);
  }
}
