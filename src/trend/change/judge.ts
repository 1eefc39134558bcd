/** Whether a day ends a change: a step, a slow change or a drift, whichever goes furthest beyond its limit. */
import { shorten } from '../../numeric/shorten.ts';
import { present, steadyMean, valuesAt } from './ring.ts';
import { rules } from './rules.ts';
import { type Contrast, type ContrastErrors, contrastErrors, slowContrast, slowDays } from './slow.ts';
import { fewestBefore, fewness, hadWildDay, type Jump, jumpAt } from './step.ts';
import type { Change, PreparedChange } from './types.ts';
import type { View } from './view.ts';

/** The change that a view shows, with the first day of the new level; null where it shows none. */
export function judge(
  prepared: PreparedChange,
  view: View,
  jump: Jump | null,
  level: number | null,
  lastDay: number,
): { change: Change; since: number } | null {
  const firstDay = lastDay - view.ring.length + 1;
  let found: { change: Change; since: number } | null = null;
  let strength = 1;
  const offer = (kind: Change['kind'], before: number, after: number, limit: number, since: number) => {
    const ratio = Math.abs(after - before) / limit;
    if (ratio < strength) return;
    strength = ratio;
    const change: Change = {
      kind,
      direction: after > before ? 'up' : 'down',
      since: kind === 'step' ? since : null,
      before: shorten(before),
      after: shorten(after),
      limit: shorten(limit),
    };
    found = { change, since };
  };
  if (jump !== null && view.step !== null) {
    const { scatter } = view.step;
    const limit = view.step.limit * fewness(jump.from);
    const up = jump.size > 0;
    const sign = up ? 1 : -1;
    const nearer = up ? jump.least : -jump.most;
    // a wild day beside one that is merely high counts as little more than that one
    const size = Math.min(sign * jump.size, nearer + (rules.wildScatters * scatter) / 2);
    const least = rules.stepShare * limit;
    // two days as wild as one remembered are no step yet
    const [far, farthest] = [rules.wildRatio * view.step.limit, rules.wildRatio * nearer];
    if (nearer > least && (!hadWildDay(view.ring, sign, far, farthest) || lasts(view, jump, up, least))) {
      offer('step', jump.base, jump.base + sign * size, limit, firstDay + jump.start);
    }
  }
  const contrast = slowContrast(view.ring, view.since, view.floor);
  if (contrast === null) return found;
  const { before, after } = contrast;
  const recent = present(view.ring, Math.max(view.since, view.ring.length - rules.driftDays));
  const now = steadyMean(valuesAt(view.ring, recent), view.floor);
  const slow = Math.abs(after - before) >= rules.slowLeast * view.least;
  const far = level !== null && Math.abs(now - level) >= rules.driftLeast * view.least;
  const drift = far && recent.length >= rules.driftValues;
  if (!slow && !drift) return found;
  const errors = contrastErrors(view.ring, view.since, contrast, view.floor);
  if (slow) offer('slow', before, after, slowLimit(prepared, view, contrast, errors), lastDay - slowDays + 1);
  if (drift) {
    const error = driftWidening * errors.late;
    const least = rules.driftLeast * view.least;
    const limit = Math.max(least, rules.driftErrors * error, 2 * prepared.season + rules.seasonErrors * error);
    offer('drift', level as number, now, limit, lastDay - rules.driftDays + 1);
  }
  return found;
}

/** Whether the value before the two of a jump lies off its base too, by more than `least`. */
function lasts(view: View, jump: Jump, up: boolean, least: number): boolean {
  const before = jumpAt(view.ring, jump.start + 1, view.since, fewestBefore);
  return before !== null && (up ? before.least : -before.most) > least;
}

/** The mean of four weeks is surer than that of two, the level learned adds its error: about so many times that. */
const driftWidening = 1.1;

/** From how large a difference between both windows a slow change is one. */
export function slowLimit(prepared: PreparedChange, view: View, contrast: Contrast, errors: ContrastErrors): number {
  const { difference } = errors;
  const season = seasonOver(prepared.season, contrast.apart);
  const least = rules.slowLeast * view.least;
  return Math.max(least, rules.slowErrors * difference, season + rules.seasonErrors * difference);
}

/**
 * The most that a yearly swing of this half-swing moves two means so many days apart: 2 x season x sin(pi x days /
 * 365.25), at most 64 days.
 */
function seasonOver(season: number, days: number): number {
  const x = (Math.PI * days) / 365.25;
  return 2 * season * x * (1 - ((x * x) / 6) * (1 - ((x * x) / 20) * (1 - (x * x) / 42)));
}
