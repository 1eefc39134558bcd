/** All figures that a monitor follows, together: what readings, time, a clock that is set and work do to them. */
import { motescaleError } from '../../errors.ts';
import { figureOf, usable } from '../../judging/figures.ts';
import type { Judged } from '../../judging/liveSizes.ts';
import { requireNoLater } from '../../state/noLater.ts';
import { isSame } from '../state/state.ts';
import type {
  AlarmSummary,
  FollowedState,
  FollowPlan,
  MonitorEvent,
  PreparedMonitor,
  Relearn,
  Verdict,
} from '../types.ts';
import { figureWords } from '../words.ts';
import {
  addToBlock,
  blockOf,
  closeBlock,
  type FollowedEvents,
  knownFrom,
  moveBlocks,
  sightOf,
  takesLate,
  unlearn,
} from './figure.ts';
import { isTrend, openTrend } from './keptTrend.ts';
import { isChange, lastBlock } from './means.ts';

/** A figure that can be relied on, or null, for each. */
type Followed = readonly (number | null)[];

type Plans = readonly FollowPlan[];
type States = readonly FollowedState[];

/** What a reading holds of them. */
export function figuresFollowed({ follow, limits }: PreparedMonitor, { reading, assessment }: Judged): Followed {
  return follow.map((plan) => usable(figureOf(plan.figure, reading, assessment, limits)));
}

/** Adds figures to the blocks their time lies in, or to the first that is not closed. */
export function addToBlocks(follow: Plans, states: States, figures: Followed, time: number): FollowedState[] {
  return states.map((one, i) => {
    const value = figures[i] as number | null;
    return value === null ? one : addToBlock(follow[i] as FollowPlan, one, value, time);
  });
}

/** Adds figures that come late to the blocks that still take them; `entered` are the ids of those. */
export function addLate(
  follow: Plans,
  states: States,
  figures: Followed,
  time: number,
  now: number,
  isKnownNew: boolean,
): { readonly followed: FollowedState[]; readonly entered: string[] } {
  const taken = figures.map((value, i) => {
    const takes = takesLate(follow[i] as FollowPlan, states[i] as FollowedState, time, now, isKnownNew);
    return takes ? value : null;
  });
  const followed = addToBlocks(follow, states, taken, time);
  return { followed, entered: follow.filter((_, i) => followed[i] !== states[i]).map(({ id }) => id) };
}

/** Closes the blocks whose time is over; `last` is that of the last input. */
export function closeBlocks(
  follow: Plans,
  states: States,
  last: number,
  time: number,
  events: MonitorEvent[],
): FollowedState[] {
  return follow.map((plan, i) => closeBlock(plan, states[i] as FollowedState, last, time, events as FollowedEvents));
}

/** The same on a clock that has been set. */
export function moveAllBlocks(follow: Plans, states: States, from: number, to: number): FollowedState[] {
  return states.map((one, i) => moveBlocks(follow[i] as FollowPlan, one, from, to));
}

/**
 * The same where a moment had gone ahead of the readings, and may have closed the block that they are in: they go into
 * the next. Only what lies further ahead moves.
 */
export function undoBlocks(follow: Plans, states: States, to: number): FollowedState[] {
  return states.map((one, i) => {
    const plan = follow[i] as FollowPlan;
    const { open, change } = one;
    const known = Math.max(
      open === undefined ? -Infinity : open.block - 1,
      change === undefined ? -Infinity : lastBlock(change),
    );
    const ahead = known - blockOf(plan, to);
    return ahead > 0 ? moveBlocks(plan, one, to + ahead * plan.blockMs, to) : one;
  });
}

/** After work, what is usual is learned anew from when it was said: for the one figure named, or for each. */
export function relearn(
  follow: Plans,
  states: States,
  { followed: wanted }: Relearn,
  given: number,
  time: number,
  events: MonitorEvent[],
): FollowedState[] {
  return states.map((one, i) => {
    if (wanted !== undefined && one.id !== wanted) return one;
    const plan = follow[i] as FollowPlan;
    const next = unlearn(plan, one, given);
    const about = { time, followed: plan.id, figure: figureWords(plan.figure) };
    if (next === null) events.push({ ...about, event: 'relearn_refused', since: knownFrom(plan, one) });
    else events.push({ ...about, event: 'relearning' });
    return next ?? one;
  });
}

/** Where each goes. */
export function trendsOf(states: States): Verdict['trends'] {
  return states.map(({ id, trend }) => ({ id, trend: trend === undefined ? null : openTrend(trend) }));
}

/** How small a step of each would be told. */
export function sightsOf(follow: Plans, states: States): AlarmSummary['followed'] {
  return states.map((one, i) => sightOf(follow[i] as FollowPlan, one));
}

/** Throws `bad_state` where a saved text is none that is kept. */
export function requireKept(states: States): void {
  states.forEach(({ change, trend }, i) => {
    if (change !== undefined && !isChange(change))
      throw motescaleError('bad_state', `state.followed[${i}].change`, change, 'a change, as a state keeps it');
    if (trend !== undefined && !isTrend(trend))
      throw motescaleError('bad_state', `state.followed[${i}].trend`, trend, 'a trend, as a state keeps it');
  });
}

/**
 * Throws `bad_state` where a block of a figure that goes on lies later than the last input, an open one than the next:
 * a tick may have closed that of now. What a trend looks back on is told only, and stays on the clock that it was found
 * by.
 */
export function requireBlocks(follow: Plans, states: States, time: number | undefined): void {
  states.forEach((one, i) => {
    const { open, change } = one;
    for (const plan of follow) {
      if (!isSame(plan, one)) continue;
      const last = time === undefined ? time : blockOf(plan, time);
      requireNoLater(`state.followed[${i}].open.block`, open?.block, last === undefined ? last : last + 1, 'block');
      const known = change === undefined ? undefined : lastBlock(change);
      requireNoLater(`state.followed[${i}].change`, known, last, 'block');
    }
  });
}
