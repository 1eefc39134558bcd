/**
 * What is remembered of a followed figure: how it begins, and the check of what was restored.
 */

import { isCount, isFigure, isFigureOrNull, isListOf, isObject, isWholeUpTo } from '../state/members.ts';
import type { FollowedState, RollingTrend } from './types.ts';

/** Nothing followed yet. */
export function freshFollowed(id: string, print: number): FollowedState {
  const sum = { sum: 0, since: 0, count: 0 };
  return {
    id,
    print,
    open: null,
    last: 0,
    means: [],
    level: { count: 0, mean: 0, squares: 0 },
    up: sum,
    down: sum,
    trend: null,
  };
}

/** Whether it is one that the library made. */
export function isFollowedState(state: FollowedState): boolean {
  return (
    isObject(state) &&
    typeof state.id === 'string' &&
    isCount(state.print) &&
    (state.open === null || isOpenBlock(state.open)) &&
    isBlock(state.last) &&
    isListOf(state.means, mostBlocks, isFigureOrNull) &&
    isObject(state.level) &&
    isCount(state.level.count) &&
    isFigure(state.level.mean) &&
    isSquares(state.level.squares) &&
    isSum(state.up) &&
    isSum(state.down) &&
    (state.trend === null || isTrend(state.trend))
  );
}

/** The most blocks that a trend looks back over. */
export const mostBlocks = 60;
/** Blocks last a minute or more, within 8.64e15 ms either side of 1970. */
const farthestBlock = 1.44e11;

function isBlock(value: unknown): boolean {
  return isWholeUpTo(value, farthestBlock);
}

function isOpenBlock(open: FollowedState['open'] & object): boolean {
  return isObject(open) && isBlock(open.block) && isFigure(open.mean) && isCount(open.count) && open.count > 0;
}

/** A sum of squares of figures. */
function isSquares(value: unknown): boolean {
  return typeof value === 'number' && value >= 0 && value <= 1e130;
}

function isSum(sum: FollowedState['up']): boolean {
  return isObject(sum) && isFigure(sum.sum) && sum.sum >= 0 && isBlock(sum.since) && isCount(sum.count);
}

function isTrend(trend: RollingTrend): boolean {
  return (
    isObject(trend) &&
    // the end of a block may lie beyond the last of times
    isWholeUpTo(trend.from, 2e16) &&
    isWholeUpTo(trend.to, 2e16) &&
    isCount(trend.blocks) &&
    isFigure(trend.perDay) &&
    isFigureOrNull(trend.low) &&
    isFigureOrNull(trend.high) &&
    isFigure(trend.p) &&
    directions.indexOf(trend.direction) >= 0
  );
}

const directions: readonly unknown[] = ['rising', 'falling', 'not distinguishable'];
