/**
 * A figure followed over weeks in equal blocks of time: their means give the rolling trend, and a CUSUM finds when their level has changed.
 */

import { shorten } from '../numeric/shorten.ts';
import { cusum } from '../trend/cusum.ts';
import { mannKendall } from '../trend/mannKendall.ts';
import { senSlope } from '../trend/senSlope.ts';
import { freshFollowed } from './followedState.ts';
import type { ChangeEvent, FollowedFigure, FollowedState, RollingTrend } from './types.ts';

/**
 * What holds where nothing is said. The level is learned from few blocks, so slack and decision are wider than the 0.5 and 4 to 5 of a control
 * chart: simulated here with independent normal blocks, one machine in ten signals a change that is none within some 1,300 blocks. Blocks
 * that depend on each other, by season or work, signal more often.
 */
export const followDefaults: {
  readonly blockMs: number;
  readonly blocks: number;
  readonly learn: number;
  readonly slack: number;
  readonly decision: number;
} = { blockMs: 43200000, blocks: 40, learn: 30, slack: 0.75, decision: 8 };

const fewestForTrend = 8;
const day = 86400000;

/** The number of the block a time lies in. */
export function blockOf(config: FollowedFigure, time: number): number {
  return Math.floor(time / (config.blockMs ?? followDefaults.blockMs));
}

/** Adds a figure to the open block, which must be the one its time lies in, or none. */
export function addToBlock(config: FollowedFigure, state: FollowedState, value: number, time: number): FollowedState {
  const { open } = state;
  if (open === null) return { ...state, open: { block: blockOf(config, time), mean: value + 0, count: 1 } };
  const count = open.count + 1;
  const { id, print, last, means, level, up, down, trend } = state;
  const mean = open.mean + (value - open.mean) / count;
  return { id, print, open: { block: open.block, mean, count }, last, means, level, up, down, trend };
}

/** Closes the open block if its time is over: the trend is worked out anew, and a change of level told. */
export function closeBlock(
  config: FollowedFigure,
  state: FollowedState,
  time: number,
  events: ChangeEvent[],
): FollowedState {
  const { open } = state;
  if (open === null || blockOf(config, time) <= open.block) return state;
  const width = config.blockMs ?? followDefaults.blockMs;
  const mean = shorten(open.mean);
  const kept = config.blocks ?? followDefaults.blocks;
  let means = state.means.slice();
  if (open.block - state.last > kept) means = [];
  else if (means.length > 0) for (let block = state.last + 1; block < open.block; block += 1) means.push(null);
  means.push(mean);
  means = means.slice(-kept);
  while (means[0] === null) means.shift();
  const next: FollowedState = { ...state, open: null, last: open.block, means };
  const trend = rollingTrend(means, open.block, width);
  return { ...findChange(config, next, mean, width, events), trend };
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
    direction: p >= 0.05 ? 'not distinguishable' : s > 0 ? 'rising' : 'falling',
  };
}

/**
 * Learns the usual level first; then adds up what lies beyond it, in standard deviations, and learns anew when that was a change. The new level
 * is estimated as level + deviation x (slack + sum / number of blocks since the sum was zero): the mean of those blocks.
 */
function findChange(
  config: FollowedFigure,
  state: FollowedState,
  mean: number,
  width: number,
  events: ChangeEvent[],
): FollowedState {
  const { level } = state;
  const deviation = Math.sqrt(level.squares / (level.count - 1));
  if (level.count < (config.learn ?? followDefaults.learn) || !(deviation > 0)) {
    const count = level.count + 1;
    const step = mean - level.mean;
    const learned = level.mean + step / count;
    return { ...state, level: { count, mean: learned, squares: level.squares + step * (mean - learned) } };
  }
  const slack = config.slack ?? followDefaults.slack;
  const decision = config.decision ?? followDefaults.decision;
  const z = (mean - level.mean) / deviation;
  const sums = cusum([z], { target: 0, slack, decision, from: { high: state.up.sum, low: state.down.sum } });
  const up = countUp(state.up, sums.high[0] as number, state.last);
  const down = countUp(state.down, sums.low[0] as number, state.last);
  if (up.sum <= decision && down.sum <= decision) return { ...state, up, down };
  const found = up.sum > decision ? up : down;
  const direction = up.sum > decision ? 'up' : 'down';
  const shift = (slack + found.sum / found.count) * deviation;
  events.push({
    time: (state.last + 1) * width,
    event: 'change_found',
    followed: config.id,
    direction,
    since: found.since * width,
    before: shorten(level.mean),
    after: shorten(level.mean + (direction === 'up' ? shift : -shift)),
  });
  const { level: unlearned, up: zero } = freshFollowed(config.id, state.print);
  return { ...state, level: unlearned, up: zero, down: zero };
}

/** One sum of the CUSUM, with the block it has been above zero since, and for how many blocks. */
function countUp(before: FollowedState['up'], sum: number, block: number): FollowedState['up'] {
  if (sum === 0) return { sum: 0, since: 0, count: 0 };
  return { sum: shorten(sum), since: before.count === 0 ? block : before.since, count: before.count + 1 };
}
