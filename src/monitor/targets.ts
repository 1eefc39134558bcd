/**
 * Whether readings still tell how a target stands, where no alarm looks at its code: told once when they no longer do,
 * and once when they do again.
 */
import type { CodePlan } from '../judging/codePlan.ts';
import { classesBeyond } from '../judging/codePlan.ts';
import type { CodeVerdict } from '../judging/types.ts';
import { unusualMs, usualAfter } from '../state/usual.ts';
import type { AlarmWatch, MonitorEvent, MonitorState, PreparedMonitor, WatchedTarget } from './types.ts';
import { figureWords } from './words.ts';

/** So many readings in order without a figure that has never come; fewer tell nothing (our choice). */
const fewestWithout = 10;

/** The places of the codes with a target on which no alarm stands; null is one whose table is yet to come. */
export function targetsAlone(codes: readonly (CodePlan | null)[], watches: readonly AlarmWatch[]): number[] {
  const places: number[] = [];
  codes.forEach((plan, place) => {
    if (plan === null || plan.wanted === null) return;
    if (!watches.some(({ onCode }) => onCode?.place === place)) places.push(place);
  });
  return places;
}

/**
 * How long after the first input a figure that has never come is stale; endless while it is not known what is usual.
 */
export function unheardMs({ arrivals, usualMs }: MonitorState): number {
  return arrivals.inOrder < fewestWithout ? Infinity : unusualMs(usualMs ?? null);
}

/** Whether a code tells how its target stands. */
export function tellsTarget({ outcome }: CodeVerdict): boolean {
  return outcome !== null && classesBeyond(outcome, outcome.margins) !== null;
}

/**
 * The targets after a step. `tells`: whether the reading tells how the target of a place stands; null for no reading.
 */
export function passTargets(
  { codes, targets, staleAfterMs }: PreparedMonitor,
  state: MonitorState,
  last: number,
  time: number,
  events: MonitorEvent[],
  tells: ((place: number) => boolean) | null,
): readonly WatchedTarget[] {
  const next: WatchedTarget[] = [];
  for (const place of targets) {
    const { id } = (codes[place] as CodePlan).table;
    const known = (state.targets ?? []).filter((one) => one.id === id)[0];
    const before: WatchedTarget = known ?? { id, heard: time };
    const { heard, came, usualMs = null } = before;
    const told = tells?.(place) === true;
    let after = Infinity;
    if (typeof staleAfterMs === 'number') after = staleAfterMs;
    else if (staleAfterMs === 'usual' && came === true) after = unusualMs(usualMs);
    else if (staleAfterMs === 'usual' && tells !== null && !told) after = unheardMs(state);
    const isStale = before.stale === true || time > heard + after;
    if (isStale && before.stale !== true) {
      const from = Math.max(last, heard + after);
      events.push({ time: from, event: 'target_stale', figure: figureWords({ code: id }), since: heard });
    }
    if (!told) {
      next.push(isStale ? { ...before, stale: true } : before);
      continue;
    }
    if (isStale) events.push({ time, event: 'target_restored', figure: figureWords({ code: id }) });
    const usual = came === true ? usualAfter(usualMs, time - heard) : null;
    next.push(usual === null ? { id, heard: time, came: true } : { id, heard: time, came: true, usualMs: usual });
  }
  return next;
}
