/**
 * What the remembered days say on a day: freed of the rhythm of the week where that pays, with their scatter and the
 * limit of a step.
 */
import { medianOf } from '../../numeric/selectRank.ts';
import { fromSquare, present, type Ring, steadyDeviation } from './ring.ts';
import { rules } from './rules.ts';
import { jumpAt } from './step.ts';
import type { ChangeState, PreparedChange } from './types.ts';
import { withoutWeekdays } from './weekdays.ts';

/** The remembered days, ready to be judged. Places count from the first of them. */
export interface View {
  readonly ring: Ring;
  /** The place from which the present level holds. */
  readonly since: number;
  /** The places from there on that have a value. */
  readonly places: readonly number[];
  readonly floor: number;
  readonly least: number;
  /** Of the jumps since the present level holds; null while there are too few. */
  readonly scatter: number | null;
  /** The scatter a step is held against, and the difference from which it is one; null while nothing is known. */
  readonly step: { readonly scatter: number; readonly limit: number } | null;
}

/** The view of a state that has at least one day. */
export function viewOf(prepared: PreparedChange, state: ChangeState): View {
  const { ring, steps } = state;
  const last = state.last as number;
  const resolution = prepared.resolution ?? (allIn(ring, 1) ? 1 : allIn(ring, 0.5) ? 0.5 : 0);
  const floor = Math.max(rules.floor * prepared.least, rules.roundingFloor * resolution);
  const least = Math.max(prepared.least, rules.roundingLeast * resolution);
  const since = Math.max(0, (state.since ?? last) - (last - ring.length + 1));
  const flat = withoutWeekdays(ring, last);
  const plain = scatterOf(ring, 0, floor);
  const freed = scatterOf(flat, 0, floor);
  const pays = (freed ?? 0) * 1.1 < (plain ?? 0);
  const chosen = pays ? flat : ring;
  const scatter = since === 0 ? (pays ? freed : plain) : youngScatter(chosen, since, floor);
  const known = steps.count >= rules.jumpsTrusted ? fromSquare(steps.square) : null;
  const used = Math.max(floor, scatter ?? 0, known ?? 0);
  const limit = Math.max(least, rules.stepScatters * used);
  const step = scatter === null && known === null ? null : { scatter: used, limit };
  return { ring: chosen, since, places: present(chosen, since), floor, least, scatter, step };
}

function allIn(ring: Ring, step: number): boolean {
  return ring.every((value) => value === null || value % step === 0);
}

/**
 * Of a level since the start: what it began with counts no longer where it went one way, oil that was still being
 * cleaned, and the last days are calmer.
 */
function youngScatter(ring: Ring, since: number, floor: number): number | null {
  const whole = scatterOf(ring, since, floor);
  if (since > rules.settleDays) return whole;
  const late = ring.length - rules.calmDays;
  const calm = scatterOf(ring, Math.max(since, late), floor);
  const early = jumpsOf(ring, since, late + firstJump);
  if (whole === null || calm === null || early.length < rules.fewestJumps) return whole;
  return Math.abs(medianOf(early)) > calm ? Math.min(whole, calm) : whole;
}

const firstJump = 6;
const fullEnough = 4;

function scatterOf(ring: Ring, since: number, floor: number): number | null {
  const sizes = jumpsOf(ring, since, ring.length);
  return sizes.length >= rules.fewestJumps ? steadyDeviation(sizes, floor) : null;
}

/** The jumps since a place, up to `until`. */
function jumpsOf(ring: Ring, since: number, until: number): number[] {
  const sizes: number[] = [];
  for (let end = since + firstJump; end < until; end += 1) {
    const jump = jumpAt(ring, end, since, fullEnough);
    if (jump !== null) sizes.push(jump.size);
  }
  return sizes;
}
