/** A reading set aside while the clock is doubted: its figures are kept, and judged when the clock is known. */
import type { Judged } from '../../judging/liveSizes.ts';
import { largestDifference } from '../../rules/bounds.ts';
import { figureChars, figureOrNullAt, isPacked, packFigureOrNull } from '../../state/packed.ts';
import { addToBlocks, figuresFollowed } from '../followed/figures.ts';
import { passTime, setClock, undoMoment } from '../passing.ts';
import { mostAlarms, mostFollowed } from '../rules.ts';
import { type Entry, isSame } from '../state/state.ts';
import type { AsideReading, ClockDoubt, MonitorEvent, MonitorState, PreparedMonitor } from '../types.ts';
import { noneRecent, withReading } from './arrivals.ts';
import { type Decided, type Doubted, doubtOf, isDoubted, jumpOf } from './clock.ts';

/** What is kept of a reading. An alarm that is suppressed in its mode takes no figure of it. */
export function asideOf(
  prepared: PreparedMonitor,
  judged: Judged,
  figures: readonly (number | null)[],
  print: number,
): AsideReading {
  const { mode } = judged.reading;
  return {
    print,
    alarms: keptFigures(
      prepared.alarms.map(({ plan }, i) =>
        plan.suppressedInModes.indexOf(mode as string) >= 0 ? null : (figures[i] as number | null),
      ),
    ),
    followed: keptFigures(figuresFollowed(prepared, judged)),
  };
}

/** Figures as a state keeps them, ten characters each. */
export function keptFigures(figures: readonly (number | null)[]): string {
  return figures.map(packFigureOrNull).join('');
}

/** The figure in a place; null where there is none. */
function figureIn(figures: string, i: number): number | null {
  return figures.length < (i + 1) * figureChars ? null : figureOrNullAt(figures, i * figureChars);
}

/** The doubt, of an input ahead, with the figures of the reading set aside last. */
export function withAside({ ahead, behind }: ClockDoubt, last: AsideReading): ClockDoubt {
  return doubtOf({ ...(ahead as NonNullable<ClockDoubt['ahead']>), last }, behind);
}

/**
 * The state with the doubt that an input leaves; or on the clock that has been decided, `to` where it has been set or a
 * moment is undone: the reading set aside last is judged as of its time there, or after a gap, as of the time when it
 * came where the clock is kept; the others are named.
 */
export function decide(
  prepared: PreparedMonitor,
  before: MonitorState,
  decided: Doubted | Decided,
  to: number,
  events: MonitorEvent[],
): MonitorState {
  if (isDoubted(decided)) return { ...before, clock: decided.doubt };
  const { move, aside, last, doubt } = decided;
  if (move === 'undone') {
    const kept = decide(prepared, before, { ...decided, move: 'in_line' }, to, events);
    return undoMoment(prepared, kept, to, events);
  }
  const time = aside[aside.length - 1];
  const isSet = move === 'set';
  const from = before.time as number;
  const jump = jumpOf(prepared, before);
  // in line though far ahead: the one set aside came after the same gap
  const isThere = isSet || to - from > jump;
  const kept = withoutDoubt(before, doubt);
  if (time === undefined) return isSet ? setClock(prepared, before, to, {}, events) : kept;
  const fits = last !== null && (!isSet || Math.abs(to - time) <= jump);
  const lost = fits ? aside.slice(0, -1) : aside;
  const told = { ...(fits ? { judged: [time] } : {}), ...(lost.length === 0 ? {} : { lost }) };
  const at = isThere ? Math.min(to, time) : from;
  const state = isSet ? setClock(prepared, before, fits ? at : to, told, events) : kept;
  if (!isSet && (!isThere || lost.length > 0)) events.push({ time: from, event: 'clock_kept', ...told });
  if (!fits) return state;
  const recent = withReading(state.recent ?? noneRecent, at, last.print);
  return judge(prepared, isThere ? { ...state, recent } : state, last, at, events);
}

/** The state of a monitor that does not doubt the clock, but for what is left to doubt. */
function withoutDoubt(state: MonitorState, left?: ClockDoubt): MonitorState {
  if (state.clock === undefined || state.clock === left) return state;
  const { clock: _doubt, ...rest } = state;
  return left === undefined ? rest : { ...rest, clock: left };
}

function judge(
  prepared: PreparedMonitor,
  state: MonitorState,
  { alarms, followed }: AsideReading,
  time: number,
  events: MonitorEvent[],
): MonitorState {
  const next = passTime(prepared, state, time, events, (i) => ({ value: figureIn(alarms, i) }));
  const figures = prepared.follow.map((_, i) => figureIn(followed, i));
  next.followed = addToBlocks(prepared.follow, next.followed, figures, time);
  return next;
}

/** The same figures for other alarms and followed figures, found by what they were kept for. */
export function asideFor(
  last: AsideReading,
  before: Pick<MonitorState, 'alarms' | 'followed'>,
  now: Pick<MonitorState, 'alarms' | 'followed'>,
): AsideReading {
  return {
    print: last.print,
    alarms: moved(last.alarms, before.alarms, now.alarms),
    followed: moved(last.followed, before.followed, now.followed),
  };
}

function moved(figures: string, before: readonly Entry[], now: readonly Entry[]): string {
  return keptFigures(
    now.map((entry) => {
      for (let i = 0; i < before.length; i += 1) if (isSame(before[i] as Entry, entry)) return figureIn(figures, i);
      return null;
    }),
  );
}

/** Whether texts are what `asideOf` writes. */
export function isAside({ alarms, followed }: AsideReading): boolean {
  return areFigures(alarms, mostAlarms) && areFigures(followed, mostFollowed);
}

function areFigures(figures: string, most: number): boolean {
  if (!isPacked(figures, figureChars, most)) return false;
  for (let i = 0; i < figures.length; i += figureChars)
    if (!(Math.abs(figureOrNullAt(figures, i) ?? 0) <= largestDifference)) return false;
  return true;
}
