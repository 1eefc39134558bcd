/**
 * The part of a pump's speed that comes from the viscosity, over gaps of its signal and changes of the configuration.
 */
import { speedForViscosity } from './speedForViscosity.ts';
import { responseSeconds } from './still.ts';
import type { FlowControlState, PreparedFlowControl } from './types.ts';

interface FeedForward {
  /** The speed the viscosity asks for at the present setpoint, percent; null where none was ever known. */
  readonly percent: number | null;
  /**
   * The part of its change that is no change of viscosity or setpoint seen to happen: the integral gives it up, so that
   * the output stays.
   */
  readonly jump: number;
  readonly outside: boolean;
}

/** In proportion to the setpoint. Without a viscosity that of the last one; what it changed by meanwhile is a jump. */
export function feedForwardOf(
  config: PreparedFlowControl,
  state: FlowControlState,
  mm2PerS: number | null,
): FeedForward {
  const kept = state.feedForward === null ? null : (state.feedForward * config.mlPerMin) / (state.mlPerMin as number);
  const { feedForward } = config;
  if (feedForward === null) return { percent: null, jump: -(kept ?? 0), outside: false };
  if (mm2PerS === null) return { percent: kept, jump: 0, outside: state.outside };
  const at = (viscosity: number) => {
    const { percent, outside } = speedForViscosity(feedForward.curve, viscosity);
    return { percent: (percent * config.mlPerMin) / feedForward.mlPerMin, outside };
  };
  const { percent, outside } = at(mm2PerS);
  // where the last viscosity is known, the present configuration makes another speed of it only if it has changed
  const before = state.mm2PerS === null ? percent : at(state.mm2PerS).percent;
  return { percent, jump: before - (kept ?? 0), outside };
}

type Left = FlowControlState['left'];

/** So many response times the feed-forward has for itself (our choice, by the plants of docs/flow.md). */
const responsesAlone = 2;

/**
 * What of the deviation is left to the feed-forward: at the start all of it, after a change of setpoint this change.
 * The rest of the loop would answer it a second time.
 */
export function leftToFeedForward(
  config: PreparedFlowControl,
  state: FlowControlState,
  stands: boolean,
  feedForward: number | null,
  flow: number | null,
): Left {
  if (feedForward === null) return undefined;
  if (stands) return { mlPerMin: config.mlPerMin - (flow ?? 0), seconds: 0 };
  if (state.byHand) return undefined;
  if (state.mlPerMin === null || state.mlPerMin === config.mlPerMin || state.feedForward === null) return state.left;
  return { mlPerMin: (state.left?.mlPerMin ?? 0) + config.mlPerMin - state.mlPerMin, seconds: 0 };
}

/** The deviation without it; one on the other side is no part of it. */
export function beyondLeft(deviation: number, left: Left): number {
  if (left === undefined || deviation * left.mlPerMin <= 0) return deviation;
  return left.mlPerMin > 0 ? Math.max(deviation - left.mlPerMin, 0) : Math.min(deviation - left.mlPerMin, 0);
}

/** It ends where the flow is there, or two response times after the speed is. */
export function leftAfter(config: PreparedFlowControl, left: Left, deviation: number, seconds: number): Left {
  if (left === undefined || deviation * left.mlPerMin < 0) return undefined;
  const since = left.seconds + seconds;
  return since > responsesAlone * responseSeconds(config) ? undefined : { mlPerMin: left.mlPerMin, seconds: since };
}
