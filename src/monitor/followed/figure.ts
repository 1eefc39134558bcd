/**
 * A figure followed over weeks in equal blocks of time: their means give the rolling trend, and a detector finds when
 * their level has changed.
 */
import { shorten } from '../../numeric/shorten.ts';
import { day } from '../../state/timeSteps.ts';
import type { Writable } from '../../state/writable.ts';
import { trendOfFew } from '../../trend/autocorrelatedTrend.ts';
import { addDay, isUnjudged, standingOf, startChange } from '../../trend/change/advance.ts';
import { rules } from '../../trend/change/rules.ts';
import { smallestStepOf } from '../../trend/change/sight.ts';
import { slowDays } from '../../trend/change/slow.ts';
import type { ChangeState } from '../../trend/change/types.ts';
import { viewOf } from '../../trend/change/view.ts';
import type {
  ChangeEvent,
  FollowedSight,
  FollowedState,
  FollowPlan,
  JudgedEvent,
  RelearnEvent,
  RollingTrend,
} from '../types.ts';
import { figureWords } from '../words.ts';
import { keptTrend } from './keptTrend.ts';
import { isToldUnjudged, keptChange, lastBlock, movedChange, openChange } from './means.ts';
import { beyondAll } from './plan.ts';

const fewestForTrend = 8;

export function blockOf(plan: FollowPlan, time: number): number {
  return Math.floor(time / plan.blockMs);
}

/**
 * Adds a figure to the open block, which is the one its time lies in or, where a tick has closed that, the next; or
 * opens it.
 */
export function addToBlock(plan: FollowPlan, state: FollowedState, value: number, time: number): FollowedState {
  const { open, change } = state;
  if (open === undefined) {
    const block = Math.max(blockOf(plan, time), firstUnclosed(change));
    return { ...state, open: { block, mean: value + 0, count: 1 } };
  }
  const count = open.count + 1;
  const mean = open.mean + (value - open.mean) / count;
  return { ...state, open: { block: open.block, mean, count } };
}

/**
 * Whether a figure that comes late still finds its block: open, and known not to be in it; or one that has had no
 * value, after all that have, no further back than a change is looked for.
 */
export function takesLate(
  plan: FollowPlan,
  { open, change }: FollowedState,
  time: number,
  now: number,
  isKnownNew: boolean,
): boolean {
  const block = blockOf(plan, time);
  if (open !== undefined) return isKnownNew && open.block === block;
  return blockOf(plan, now) - block < rules.shareDays && block >= firstUnclosed(change);
}

/** The first block that none with a value has closed; all of them where none had one. */
function firstUnclosed(change: string | undefined): number {
  return change === undefined ? -Infinity : lastBlock(change) + 1;
}

/** What is told of a followed figure. */
export type FollowedEvents = (ChangeEvent | RelearnEvent | JudgedEvent)[];

/**
 * Closes the blocks whose time is over at a time; `last` is that of the last input: an open one, and those after it
 * without a value.
 */
export function closeBlock(
  plan: FollowPlan,
  state: FollowedState,
  last: number,
  time: number,
  events: FollowedEvents,
): FollowedState {
  const { open } = state;
  if (open !== undefined && blockOf(plan, time) <= open.block) return state;
  return passEmpty(plan, open === undefined ? state : closeOpen(plan, state, open, last, events), last, time, events);
}

/** After `shareDays` blocks without a value no change is told; a trend as old, or older than it looks back, is gone. */
function passEmpty(
  plan: FollowPlan,
  state: FollowedState,
  last: number,
  time: number,
  events: FollowedEvents,
): FollowedState {
  const { change, trend, ...rest } = state;
  if (change === undefined) {
    if (!tellsChanges(plan)) return state;
    // as if the block before the first input had the last value: one may never come
    return { id: state.id, of: state.of, change: keptChange({ ...startChange(), last: blockOf(plan, time) - 1 }) };
  }
  const known = lastBlock(change);
  const empty = blockOf(plan, time) - 1 - known;
  const isOld = trend !== undefined && empty >= Math.min(rules.shareDays, plan.blocks);
  const isSilent = empty >= rules.shareDays && tellsChanges(plan) && !isToldUnjudged(change);
  if (!isOld && !isSilent) return state;
  if (isSilent) {
    const due = (known + 1 + rules.shareDays) * plan.blockMs;
    const figure = figureWords(plan.figure);
    // a state of an earlier version may have missed it
    events.push({ time: Math.max(last, due), followed: plan.id, figure, event: 'change_unjudged' });
  }
  const next: Writable<FollowedState> = { ...rest, change: isSilent ? keptChange(openChange(change), true) : change };
  if (trend !== undefined && !isOld) next.trend = trend;
  return next;
}

/** Closes an open block: the trend is worked out anew, and a change of level told. */
function closeOpen(
  plan: FollowPlan,
  state: FollowedState,
  open: NonNullable<FollowedState['open']>,
  last: number,
  events: FollowedEvents,
): FollowedState {
  const { change: before } = state;
  const width = plan.blockMs;
  const known = before === undefined ? startChange() : openChange(before);
  const added = addDay(plan.detector, known, open.block, shorten(open.mean));
  const about = { time: Math.max(last, (open.block + 1) * width), followed: plan.id, figure: figureWords(plan.figure) };
  // the blocks known lie too far back: nothing is left of what was usual
  const isForgotten = known.ring.length > 0 && added.state.ring.length === 1;
  if (tellsChanges(plan) && isForgotten) events.push({ ...about, event: 'relearning' });
  // an earlier version kept no sign that it was told
  const told = isUnjudged(known) || (before !== undefined && isToldUnjudged(before));
  // begun anew, with too few blocks to tell a change
  const learning = !added.state.settled && added.state.ring.length < rules.shareDays;
  const unjudged = isUnjudged(added.state) || (told && learning);
  if (tellsChanges(plan) && unjudged !== told)
    events.push({ ...about, event: unjudged ? 'change_unjudged' : 'change_judged' });
  const found = added.change;
  if (found !== null)
    events.push({
      ...about,
      event: 'change_found',
      kind: found.kind,
      direction: found.direction,
      since: found.since === null ? null : found.since * width,
      before: shorten(found.before),
      after: shorten(found.after),
      ...(found.kind === 'step' ? {} : { meanOverMs: (found.kind === 'slow' ? slowDays : rules.driftDays) * width }),
    });
  const { id, of } = state;
  const trend = rollingTrend(plan, added.state);
  const change = keptChange(added.state, unjudged && tellsChanges(plan));
  return trend === null ? { id, of, change } : { id, of, change, trend: keptTrend(trend) };
}

/** Whether it is said which change is worth telling. */
function tellsChanges({ detector }: FollowPlan): boolean {
  return detector.least < beyondAll;
}

/** How small a step would be told, as of the last block with a value. */
export function sightOf(plan: FollowPlan, { id, change: kept }: FollowedState): FollowedSight {
  const about = { id, figure: figureWords(plan.figure) };
  const change = kept === undefined ? startChange() : openChange(kept);
  if (!tellsChanges(plan)) return { ...about, standing: 'not_asked', smallestStep: null };
  const standing = kept !== undefined && isToldUnjudged(kept) ? 'cannot_judge' : standingOf(change);
  const smallestStep = standing === 'watching' ? smallestStepOf(viewOf(plan.detector, change)) : null;
  return { ...about, standing, smallestStep };
}

/** Over the last blocks, up to the last one. */
function rollingTrend({ blocks: most, blockMs }: FollowPlan, { ring, last }: ChangeState): RollingTrend | null {
  const values = ring.slice(-most);
  while (values[0] === null) values.shift();
  const present = values.filter((value) => value !== null);
  if (present.length < fewestForTrend || last === null) return null;
  const places = values.map((_value, i) => i).filter((i) => values[i] !== null);
  const { slope, low, high, p, verdict } = trendOfFew(places, present);
  const perDay = (change: number | null) => (change === null ? null : shorten((change * day) / blockMs));
  return {
    from: (last - values.length + 1) * blockMs,
    to: (last + 1) * blockMs,
    blocks: present.length,
    perDay: perDay(slope) as number,
    low: perDay(low),
    high: perDay(high),
    p: p === null ? null : shorten(p),
    direction: verdict,
  };
}

/**
 * After work: what was before tells nothing of what comes, and the blocks from then on are learned. How far single
 * blocks jump is still known. Null where no block of before is known: that changes nothing.
 */
export function unlearn(plan: FollowPlan, state: FollowedState, given: number): FollowedState | null {
  const { change: before, trend: _trend, ...rest } = state;
  if (before === undefined) return rest;
  const kept = openChange(before);
  const { ring, steps, last } = kept;
  const first = firstBlock(kept);
  const from = blockOf(plan, given);
  if (ring.length > 0 && from <= first) return null;
  let known: ChangeState = { ...startChange(), last };
  ring.slice(from - first).forEach((value, i) => {
    if (value !== null)
      known = addDay(plan.detector, known.ring.length > 0 ? known : startChange(), from + i, value).state;
  });
  return { ...rest, change: keptChange({ ...known, steps }, isToldUnjudged(before)) };
}

/** From when on a figure is known. */
export function knownFrom({ blockMs }: FollowPlan, { change }: FollowedState): number {
  return firstBlock(openChange(change as string)) * blockMs;
}

function firstBlock({ last, ring }: ChangeState): number {
  return (last as number) - ring.length + 1;
}

/** The blocks counted on a clock that has been set from one time to another: they stay as far back as they were. */
export function moveBlocks(plan: FollowPlan, state: FollowedState, from: number, to: number): FollowedState {
  const by = blockOf(plan, to) - blockOf(plan, from);
  const { open, change } = state;
  const next: Writable<FollowedState> = { ...state };
  if (open !== undefined) next.open = { ...open, block: open.block + by };
  if (change !== undefined) next.change = movedChange(change, by);
  return next;
}
