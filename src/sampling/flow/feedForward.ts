/**
 * The part of a pump's speed that comes from the viscosity, over gaps of its signal and changes of the configuration.
 */
import { speedForViscosity } from './speedForViscosity.ts';
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
