/** What a reading does to an alarm: setpoint, deadband and delays. */
import { subtractDecimals } from '../numeric/decimal.ts';
import { figureAt, figureChars, packFigure, packTime, packWhole, timeAt, timeChars, wholeAt } from '../state/packed.ts';
import { usualAfter } from '../state/usual.ts';
import { type Draft, isSilent } from './memory.ts';
import { isRateOfChange } from './plan.ts';
import { extremeChars, parts } from './rules.ts';
import { announce, endShelf } from './silence.ts';
import type { AlarmEvent, AlarmPlan } from './types.ts';

/** Whether a figure by itself lies beyond the setpoint; never so for a rate of change, which takes more than one. */
export function isBeyondSetpoint({ type, limit }: AlarmPlan, figure: number): boolean {
  return type === 'high' ? figure > limit : type === 'low' && 0 - figure > limit;
}

/**
 * Whether a figure that lies between two bounds shows on which side of the alarm it is. For changes the lower one
 * stands.
 */
export function isDecided({ type, limit, back }: AlarmPlan, active: boolean, least: number, most: number): boolean {
  if (isRateOfChange(type)) return true;
  const [low, high] = type === 'low' ? [0 - most, 0 - least] : [least, most];
  return active ? low >= back || high < back : low > limit || high <= limit;
}

/** A reading that can be trusted has come, whether it tells on which side the figure is or not. */
export function hear(plan: AlarmPlan, draft: Draft, time: number, events: AlarmEvent[]): void {
  if (draft.value !== null && draft.heard !== null) draft.usualMs = usualAfter(draft.usualMs, time - draft.heard);
  draft.heard = time;
  if (!draft.stale) return;
  draft.stale = false;
  announce(plan, draft, 'stale', false, time, events);
}

/**
 * A reading that can be trusted: it alone raises, unless the alarm is suppressed by design, and clears. Delays and
 * rates go by when it was `taken`; what it changes is told as of a time that may be later.
 */
export function takeGoodReading(
  plan: AlarmPlan,
  draft: Draft,
  value: number,
  time: number,
  taken: number,
  mayRaise: boolean,
  events: AlarmEvent[],
  floor: number = -Infinity,
): void {
  hear(plan, draft, time, events);
  const { type, limit } = plan;
  const upward = type === 'low' || type === 'fall' ? 0 - value : value;
  const isChange = isRateOfChange(type);
  const figure = isChange ? change(plan, draft, upward, taken, floor) : upward;
  draft.value = isChange ? figure : value;
  const isBeyond = mayRaise && (figure > limit || (isChange && figure === limit));
  if (!(draft.active ? figure < plan.back : isBeyond)) {
    draft.pending = null;
    return;
  }
  if (draft.pending === null) draft.pending = taken;
  if (taken - draft.pending < (draft.active ? plan.offDelayMs : plan.onDelayMs)) return;
  draft.pending = null;
  draft.since = time;
  draft.realarmed = null;
  if (draft.active) returnToNormal(plan, draft, time, events);
  else raise(plan, draft, time, events);
}

function raise(plan: AlarmPlan, draft: Draft, time: number, events: AlarmEvent[]): void {
  draft.active = true;
  draft.latched = false;
  draft.unacknowledged = true;
  if (isSilent(draft)) draft.silentRaises += 1;
  announce(plan, draft, 'active', true, time, events);
  const { raises, withinMs } = plan.chattering;
  const most = raises * timeChars;
  draft.raises = (draft.raises + packTime(time)).slice(-most);
  if (draft.raises.length === most && time - timeAt(draft.raises, 0) <= withinMs && !draft.chattering) {
    draft.chattering = true;
    announce(plan, draft, 'chattering', true, time, events);
  }
}

function returnToNormal(plan: AlarmPlan, draft: Draft, time: number, events: AlarmEvent[]): void {
  draft.active = false;
  draft.latched = plan.latching;
  announce(plan, draft, 'active', false, time, events);
  if (draft.shelf?.oneShot === true) endShelf(plan, draft, time, events);
}

/**
 * How far the figure has risen above the lowest of the time looked back over (or, with its sign turned, fallen). It
 * rises from no lower than the `floor`, nor falls any lower; and what shows no more is no height to fall from.
 */
function change({ type, withinMs }: AlarmPlan, draft: Draft, shown: number, taken: number, floor: number): number {
  const isRise = type === 'rise';
  const figure = isRise ? Math.max(shown, floor) : Math.min(shown, 0 - floor);
  const isKept = isRise || shown < 0 - floor;
  const before = draft.part ?? partOf(taken, withinMs);
  // what was kept as of a later time is not taken back
  const part = Math.max(before, partOf(taken, withinMs));
  const passed = part - before;
  let kept = passed === 0 ? draft.extremes : passedBy(draft.extremes, passed);
  if (isKept) {
    while (kept !== '' && figureAt(kept, kept.length - figureChars) >= figure) kept = kept.slice(0, -extremeChars);
    if (kept === '' || wholeAt(kept, kept.length - extremeChars, 1) > 0) kept += packExtreme(0, figure);
  }
  draft.part = part;
  draft.extremes = kept;
  if (kept === '') return 0;
  const known = figureAt(kept, 1);
  return subtractDecimals(figure, isRise ? Math.max(known, floor) : known);
}

/** The extremes when so many more parts have passed, without those that are too long ago. */
function passedBy(extremes: string, passed: number): string {
  let kept = '';
  for (let i = 0; i < extremes.length; i += extremeChars) {
    const ago = wholeAt(extremes, i, 1) + passed;
    if (ago <= parts) kept += packWhole(ago, 1) + extremes.slice(i + 1, i + extremeChars);
  }
  return kept;
}

/** One extreme: how many parts ago, in one character, and the figure, exactly. */
export function packExtreme(ago: number, figure: number): string {
  return packWhole(ago, 1) + packFigure(figure);
}

export function partOf(time: number, withinMs: number): number {
  return Math.floor((time * parts) / withinMs);
}
