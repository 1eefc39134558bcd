/**
 * A figure followed over weeks in equal blocks of time: their means give the rolling trend, and a CUSUM finds when their level has changed.
 */

import { shorten } from '../numeric/shorten.ts';
import { cusum } from '../trend/cusum.ts';
import { mannKendall } from '../trend/mannKendall.ts';
import { senSlope } from '../trend/senSlope.ts';
import type { ChangeEvent, CusumSum, FollowedState, FollowPlan, RollingTrend } from './types.ts';

const fewestForTrend = 8;
const day = 86400000;

/** The number of the block a time lies in. */
export function blockOf(plan: FollowPlan, time: number): number {
  return Math.floor(time / plan.blockMs);
}

/** Adds a figure to the open block, which must be the one its time lies in, or none. */
export function addToBlock(plan: FollowPlan, state: FollowedState, value: number, time: number): FollowedState {
  const { open } = state;
  if (open === undefined) return { ...state, open: { block: blockOf(plan, time), mean: value + 0, count: 1 } };
  const count = open.count + 1;
  const mean = open.mean + (value - open.mean) / count;
  return { ...state, open: { block: open.block, mean, count } };
}

/** Closes the open block if its time is over: the trend is worked out anew, and a change of level told. */
export function closeBlock(plan: FollowPlan, state: FollowedState, time: number, events: ChangeEvent[]): FollowedState {
  const { open } = state;
  if (open === undefined || blockOf(plan, time) <= open.block) return state;
  const width = plan.blockMs;
  const mean = shorten(open.mean);
  const kept = plan.blocks;
  const last = state.last ?? 0;
  let means = (state.means ?? []).slice();
  if (open.block - last > kept) means = [];
  else if (means.length > 0) for (let block = last + 1; block < open.block; block += 1) means.push(null);
  means.push(mean);
  means = means.slice(-kept);
  while (means[0] === null) means.shift();
  const { open: _closed, trend: _before, ...rest } = state;
  const next: FollowedState = { ...rest, last: open.block, means };
  const trend = rollingTrend(means, open.block, width);
  const found = findChange(plan, next, mean, width, events);
  return trend === null ? found : { ...found, trend };
}

/** Mann-Kendall and Sen over the means, in time of the middle of each block. */
function rollingTrend(means: readonly (number | null)[], last: number, width: number): RollingTrend | null {
  const times: number[] = [];
  const values: number[] = [];
  means.forEach((mean, i) => {
    if (mean === null) return;
    times.push(((i - means.length + 1) * width) / day);
    values.push(mean);
  });
  if (values.length < fewestForTrend) return null;
  const { s, p } = mannKendall(values);
  const { slope, low, high } = senSlope(times, values);
  return {
    from: (last - means.length + 1) * width,
    to: (last + 1) * width,
    blocks: values.length,
    perDay: shorten(slope),
    low: low === null ? null : shorten(low),
    high: high === null ? null : shorten(high),
    p: shorten(p),
    direction: p >= 0.05 ? 'not_distinguishable' : s > 0 ? 'rising' : 'falling',
  };
}

/**
 * Learns the usual level first; then adds up what lies beyond it, in standard deviations, and learns anew when that was a change. The new level
 * is estimated as level + deviation x (slack + sum / number of blocks since the sum was zero): the mean of those blocks.
 */
function findChange(
  plan: FollowPlan,
  state: FollowedState,
  mean: number,
  width: number,
  events: ChangeEvent[],
): FollowedState {
  const { level = unlearned, up: upBefore = zero, down: downBefore = zero, last = 0 } = state;
  const deviation = Math.sqrt(level.squares / (level.count - 1));
  if (level.count < plan.learn || !(deviation > 0)) {
    const count = level.count + 1;
    const step = mean - level.mean;
    const learned = level.mean + step / count;
    return { ...state, level: { count, mean: learned, squares: level.squares + step * (mean - learned) } };
  }
  const { slack, decision } = plan;
  const z = (mean - level.mean) / deviation;
  const sums = cusum([z], { target: 0, slack, decision, from: { high: upBefore.sum, low: downBefore.sum } });
  const up = countUp(upBefore, sums.high[0] as number, last);
  const down = countUp(downBefore, sums.low[0] as number, last);
  if (up.sum <= decision && down.sum <= decision) return { ...state, up, down };
  const found = up.sum > decision ? up : down;
  const direction = up.sum > decision ? 'up' : 'down';
  const shift = (slack + found.sum / found.count) * deviation;
  events.push({
    time: (last + 1) * width,
    event: 'change_found',
    followed: plan.id,
    direction,
    since: found.since * width,
    before: shorten(level.mean),
    after: shorten(level.mean + (direction === 'up' ? shift : -shift)),
  });
  return unlearn(state);
}

/** Nothing learned yet. */
const unlearned = { count: 0, mean: 0, squares: 0 } as const;
const zero: CusumSum = { sum: 0, since: 0, count: 0 };

/** What is usual is to be learned anew. */
export function unlearn(state: FollowedState): FollowedState {
  const { level: _level, up: _up, down: _down, ...rest } = state;
  return rest;
}

/** The blocks counted on a clock that has been set from one time to another: they stay as far back as they were. */
export function moveBlocks(plan: FollowPlan, state: FollowedState, from: number, to: number): FollowedState {
  const by = blockOf(plan, to) - blockOf(plan, from);
  const { open, last, up, down } = state;
  const moved = (sum: CusumSum | undefined) =>
    sum === undefined || sum.count === 0 ? sum : { ...sum, since: sum.since + by };
  const next: { -readonly [Key in keyof FollowedState]: FollowedState[Key] } = { ...state };
  if (open !== undefined) next.open = { ...open, block: open.block + by };
  if (last !== undefined) next.last = last + by;
  const [movedUp, movedDown] = [moved(up), moved(down)];
  if (movedUp !== undefined) next.up = movedUp;
  if (movedDown !== undefined) next.down = movedDown;
  return next;
}

/** One sum of the CUSUM, with the block it has been above zero since, and for how many blocks. */
function countUp(before: CusumSum, sum: number, block: number): CusumSum {
  if (sum === 0) return { sum: 0, since: 0, count: 0 };
  return { sum: shorten(sum), since: before.count === 0 ? block : before.since, count: before.count + 1 };
}
