/** What the output may do: the slew, the limits, the steps of the drive. */
import type { FlowControlState, PreparedFlowControl } from './types.ts';

interface Reached {
  /** As far as slew and limits allow, on a step of the drive or not: what the integral part follows. */
  readonly reached: number;
  readonly percent: number;
  /** What of the slew a drive in steps has not used, percent: one step at most. */
  readonly slewLeft: number;
}

/** Slew first, limits last, so that the limits always hold. */
export function speedTowards(
  prepared: PreparedFlowControl,
  { percent: from, slewLeft = 0 }: FlowControlState,
  to: number,
  seconds: number,
): Reached {
  const { slewPerSecond, percentStep, leastPercent, mostPercent } = prepared;
  const most = seconds === 0 ? 0 : slewPerSecond * seconds + slewLeft;
  const slewed = Math.min(Math.max(to, from - most), from + most);
  const reached = Math.min(Math.max(slewed, leastPercent), mostPercent);
  if (percentStep === 0) return { reached, percent: reached, slewLeft: 0 };
  const percent = inSteps(prepared, from, reached, most);
  const unused = seconds === 0 ? slewLeft : most - Math.abs(percent - from);
  return { reached, percent, slewLeft: Math.min(Math.max(unused, 0), percentStep) };
}

/** The speeds a running pump may have. */
export function lowest({ percentStep, leastPercent, mostPercent }: PreparedFlowControl): number {
  if (percentStep === 0) return leastPercent;
  return Math.min(stepFrom(leastPercent, percentStep), mostPercent);
}

export function highest({ percentStep, mostPercent }: PreparedFlowControl): number {
  if (percentStep === 0) return mostPercent;
  return Math.min(Math.floor(mostPercent / percentStep + rounding) * percentStep, mostPercent);
}

/** The first step of a drive that is no slower. */
function stepFrom(percent: number, step: number): number {
  return Math.ceil(percent / step - rounding) * step;
}

/** Whether a drive in steps has a speed from one to another. */
export function hasStep(step: number, from: number, to: number): boolean {
  return stepFrom(from, step) <= to + rounding * step;
}

/** 801 steps of 0.1 are 80.1, and 39 of a 39th of 100 are 100, though not in doubles. */
const rounding = 1e-9;

/**
 * The nearest step of the drive within the limits that the slew lets it reach; the present one where the wanted speed
 * is less than three quarters of a step away.
 */
function inSteps(prepared: PreparedFlowControl, from: number, to: number, most: number): number {
  const { percentStep: step, leastPercent, mostPercent } = prepared;
  const edge = rounding * step;
  const within = from >= leastPercent - edge && from <= mostPercent + edge;
  const onStep = Math.abs(from - Math.floor(from / step + 0.5) * step) <= edge;
  if (onStep && within && Math.abs(to - from) < 0.75 * step) return from;
  const onLimits = (percent: number) => Math.min(Math.max(percent, lowest(prepared)), highest(prepared));
  const nearest = Math.floor(to / step + 0.5) * step;
  if (!within || Math.abs(onLimits(nearest) - from) <= most + edge) return onLimits(nearest);
  const isUp = nearest > from;
  const nearer = onLimits(isUp ? nearest - step : nearest + step);
  return nearer > from === isUp && Math.abs(nearer - from) <= most ? nearer : from;
}
