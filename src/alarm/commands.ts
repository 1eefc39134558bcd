/**
 * What an operator does to an alarm: acknowledge, reset, shelve for a time, take out of service. A command out of place
 * is refused, and said so.
 */
import { latestWritten } from '../rules/bounds.ts';
import { hour } from '../state/timeSteps.ts';
import { longestUsual } from '../state/usual.ts';
import type { Draft } from './memory.ts';
import { lastRaise } from './passing.ts';
import { beginSilence, endShelf, endSilence } from './silence.ts';
import type { AlarmCommand, AlarmEvent, AlarmPlan, AlarmRefusal } from './types.ts';

/**
 * Carries a command that has been checked out on the draft as of a time, or adds an event that refuses it. It may have
 * been `given` before: then it does not answer what its operator could not have seen, and a shelf is reckoned from
 * then.
 */
export function takeCommand(
  plan: AlarmPlan,
  draft: Draft,
  input: AlarmCommand,
  given: number,
  time: number,
  events: AlarmEvent[],
): void {
  const { by, why } = input;
  const who = { ...(by === undefined ? {} : { by }), ...(why === undefined ? {} : { why }) };
  const until = input.command === 'shelve' ? Math.min(latestWritten, Math.min(given, time) + input.forMs) : time;
  const refused = refusalOf(plan, draft, input, given) ?? silenceRefused(draft, input, until, time);
  // the sender's clock is taken at its word up to an hour ahead of the readings (our choice)
  if (isOfSilence(input) && (refused === null || isOfEnd(input)) && !isOld(draft, input))
    draft.commanded = input.time - time > hour ? time : input.time;
  if (refused !== null) events.push({ time, alarm: plan.id, event: 'refused', ...refused, ...who });
  else if (input.command === 'unshelve') endShelf(plan, draft, time, events, who);
  else if (input.command === 'return_to_service') {
    draft.outOfService = false;
    endSilence(plan, draft, 'returned_to_service', time, events, who);
  } else events.push({ time, alarm: plan.id, ...carryOut(draft, input, until), ...who } as AlarmEvent);
}

const isOfEnd = ({ command }: AlarmCommand) => command === 'unshelve' || command === 'return_to_service';
const isOfSilence = ({ command }: AlarmCommand) => command !== 'acknowledge' && command !== 'reset';

/**
 * Whether a command was given no later than the last that began or ended a silence: it has come twice, or been
 * overtaken. One so much older was given by a clock that was wrong (our choice).
 */
function isOld({ commanded }: Draft, { time }: AlarmCommand): boolean {
  return commanded !== null && time <= commanded && commanded - time <= longestUsual;
}

/** Why a command may not begin a silence, by when it was given; null where it may, or begins none. */
function silenceRefused(draft: Draft, input: AlarmCommand, until: number, time: number): Refusal | null {
  if (!isOfSilence(input) || isOfEnd(input)) return null;
  if (isOld(draft, input)) return { reason: 'older_than_last_command', limit: draft.commanded as number };
  return input.command === 'shelve' && until <= time ? { reason: 'shelf_over', limit: until } : null;
}

type Refusal = Pick<AlarmEvent, 'reason' | 'limit'>;

/** Why a command is out of place; null where it is not. */
function refusalOf(plan: AlarmPlan, draft: Draft, input: AlarmCommand, given: number): Refusal | null {
  const unless = (inPlace: boolean, reason: AlarmRefusal) => (inPlace ? null : { reason });
  switch (input.command) {
    case 'acknowledge':
      if (!draft.unacknowledged) return { reason: 'nothing_to_acknowledge' };
      return unlessBefore(given, Math.max(lastRaise(draft), draft.realarmed ?? -Infinity), 'older_than_alarm');
    case 'reset':
      if (!draft.latched) return { reason: draft.active && plan.latching ? 'condition_stands' : 'not_latched' };
      return unlessBefore(given, draft.since ?? -Infinity, 'older_than_return');
    case 'shelve':
      // or else shelving anew before each end would keep it silent for ever
      if (draft.shelf !== null) return { reason: 'already_shelved' };
      if (input.forMs <= plan.longestShelfMs) return null;
      return { reason: 'longer_than_allowed', limit: plan.longestShelfMs };
    case 'unshelve':
      return unless(draft.shelf !== null, 'not_shelved');
    case 'remove_from_service':
      return unless(!draft.outOfService, 'already_out_of_service');
    default:
      return unless(draft.outOfService, 'not_out_of_service');
  }
}

function unlessBefore(given: number, limit: number, reason: AlarmRefusal): Refusal | null {
  return given < limit ? { reason, limit } : null;
}

/** What a command that ends no silence does, and what is told of it. */
function carryOut(draft: Draft, input: AlarmCommand, until: number): Pick<AlarmEvent, 'event' | 'until'> {
  switch (input.command) {
    case 'acknowledge':
      draft.unacknowledged = false;
      return { event: 'acknowledged' };
    case 'reset':
      draft.latched = false;
      return { event: 'reset' };
    case 'shelve':
      beginSilence(draft);
      draft.shelf = input.oneShot === true ? { until, oneShot: true } : { until };
      return { event: 'shelved', until };
    default:
      beginSilence(draft);
      draft.outOfService = true;
      return { event: 'removed_from_service' };
  }
}
