/** One step of an alarm, whoever takes it: the passing of time, then a reading, a command, or nothing more. */
import { earliestWritten, latestWritten } from '../rules/bounds.ts';
import { eachTime } from '../state/packed.ts';
import { takeCommand } from './commands.ts';
import type { Draft } from './memory.ts';
import { close, open } from './memory.ts';
import { passTime, staleAfterOf } from './passing.ts';
import { hear, isBeyondSetpoint, partOf, takeGoodReading } from './signal.ts';
import { announce, beginSilence, endSilence } from './silence.ts';
import type { AlarmCommand, AlarmEvent, AlarmMemory, AlarmPlan } from './types.ts';

/** What a step is told; all of it has been checked. */
export interface Step {
  /** Of a reading: the figure, null where there is none or it is bad. Undefined where this is no reading. */
  readonly value?: number | null | undefined;
  /**
   * When the reading was taken, where a tick or a command has gone ahead of it; as of when it counts, if left out. When
   * the command was given, on the clock of the readings; its time, if left out.
   */
  readonly taken?: number;
  /** What the figure would be of the fewest particles that show a change. */
  readonly floor?: number | undefined;
  /** There is a figure that can be relied on, but it does not tell on which side of the setpoint it is. */
  readonly undecided?: number | undefined;
  /** The code the figure was made of. */
  readonly code?: string | null | undefined;
  readonly command?: AlarmCommand | undefined;
  readonly mode?: string | undefined;
  /** How long after the first input the signal is stale where it never came and nothing is said; never if left out. */
  readonly unheardMs?: number;
  /** Whether bad readings are told; in a monitor they are told once for each figure, and not for each alarm. */
  readonly tellBad?: boolean;
}

/**
 * Takes one step as of a time, no earlier than `last`, that of the one before. `into` has the members that stand before
 * the memory.
 */
export function stepAlarm<Into extends object>(
  plan: AlarmPlan,
  memory: AlarmMemory,
  last: number,
  time: number,
  step: Step,
  events: AlarmEvent[],
  into: Into,
): Into & AlarmMemory {
  const draft = open(memory);
  const { value, command, mode } = step;
  passTime(plan, draft, last, time, step.unheardMs ?? Infinity, events);
  if (mode !== undefined && plan.suppressedInModes.indexOf(mode) >= 0) suppress(plan, draft, mode, time, events);
  const unsaid = unsaidSince(plan, draft, time, step);
  const now = mode ?? draft.suppressed;
  const ends = draft.suppressed !== null && (unsaid !== null || plan.suppressedInModes.indexOf(now as string) < 0);
  // nothing of a suppression counts for a delay after it
  if (ends) draft.pending = null;
  if (value !== undefined) {
    if (step.tellBad === true && draft.bad !== (value === null)) {
      draft.bad = value === null;
      announce(plan, draft, 'bad', draft.bad, time, events);
    }
    if (value !== null) {
      draft.code = step.code ?? null;
      // Plus 0: JSON has no -0, and a restored state shall be the same.
      const mayRaise = draft.suppressed === null || ends;
      takeGoodReading(plan, draft, value + 0, time, step.taken ?? time, mayRaise, events, step.floor);
    }
  }
  if (step.undecided !== undefined) {
    hear(plan, draft, time, events);
    if (draft.value === null) draft.value = step.undecided + 0;
    // what is within the setpoint as counted ends a delay that raises, what is beyond it goes on with it and does not
    // complete it; what may be beyond it does not lengthen one that clears
    if (!draft.active) {
      const isBeyond = isBeyondSetpoint(plan, step.undecided);
      draft.pending = isBeyond ? (draft.pending ?? step.taken ?? time) : null;
    }
  }
  // after the reading, which shows how things stand in the new mode
  if (ends) {
    draft.suppressed = null;
    draft.modeAt = null;
    endSilence(plan, draft, 'unsuppressed', time, events, unsaid === null ? {} : { since: unsaid });
  }
  if (command !== undefined) takeCommand(plan, draft, command, step.taken ?? command.time, time, events);
  return close(draft, into);
}

function suppress(plan: AlarmPlan, draft: Draft, mode: string, time: number, events: AlarmEvent[]): void {
  const before = draft.suppressed;
  beginSilence(draft);
  draft.suppressed = mode;
  draft.modeAt = time;
  if (before === null) events.push({ time, alarm: plan.id, event: 'suppressed', mode });
}

/**
 * The last word of a mode that suppresses, where figures go on for longer without one than would make the signal stale;
 * null where not. While none comes either, a machine at rest is left alone.
 */
function unsaidSince(plan: AlarmPlan, draft: Draft, time: number, { value, mode, unheardMs }: Step): number | null {
  if (draft.suppressed === null) return null;
  // of a state that did not remember it
  draft.modeAt ??= time;
  if (typeof value !== 'number' || mode !== undefined) return null;
  return time - draft.modeAt > staleAfterOf(plan, draft, unheardMs ?? Infinity) ? draft.modeAt : null;
}

/**
 * The same memory on a clock that has been set from one time to another: delays begin anew, a shelf keeps the time it
 * has left, the figures looked back over stay as far back as they were, and all else stands. So does the time at which
 * an alarm was told as raised or returned, unless it would lie ahead.
 */
export function moveClock<Into extends object>(
  plan: AlarmPlan,
  memory: AlarmMemory,
  from: number,
  to: number,
  into: Into,
): Into & AlarmMemory {
  const draft = open(memory);
  const by = to - from;
  draft.pending = null;
  const { since } = draft;
  const told = draft.realarmed ?? since;
  if (since !== null && since > to) draft.since = inTime(since + by);
  // a re-alarm is due as soon after it as before
  if (told !== null && (draft.realarmed !== null || plan.reAlarmAfterMs !== null)) draft.realarmed = inTime(told + by);
  if (draft.heard !== null) draft.heard = inTime(draft.heard + by);
  if (draft.modeAt !== null) draft.modeAt = inTime(draft.modeAt + by);
  if (draft.shelf !== null) draft.shelf = { ...draft.shelf, until: inTime(draft.shelf.until + by) };
  if (draft.commanded !== null) draft.commanded = Math.min(draft.commanded, to);
  draft.raises = eachTime(draft.raises, (time) => inTime(time + by));
  if (draft.part !== null) draft.part = partOf(to, plan.withinMs) - (partOf(from, plan.withinMs) - draft.part);
  return close(draft, into);
}

/** No time lies beyond those that can be written, so that a state stays small. */
function inTime(time: number): number {
  return Math.max(earliestWritten, Math.min(latestWritten, time));
}
